"""Exact interocclusal records give back the guidance they were made from, however given."""

import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from kinematics.geometry.curves import displacement, turned
from kinematics.geometry.poses import inverse
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import CENTRIC_RELATION, GuidanceCoordinates, pose_at
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.settings import InterocclusalRecord, RecordFitting
from tests.jaw_strategies import MIRROR, mirrored_settings
from tests.made_excursion_records import (
    SET,
    any_jaw,
    found,
    paired_records,
    poses_in,
    records_of,
    truth,
    unlike,
)
from tests.made_records import record_of, rows, settings_of
from tests.scanner_like import any_place

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "records.toml").read_text("utf-8"))
SEEDS = range(50)
#: Little scatter, so that everything is told.
FINE = RecordFitting(translation_scatter_mm=0.01, rotation_scatter_deg=0.05)
#: Largest error accepted, in the units told.
WITHIN = {
    "condylar inclination": 0.01,
    "curvature": 1e-5,
    "progressive shift": 0.01,
    "immediate shift": 0.001,
}
MIRRORED = {"protrusive": "protrusive", "right lateral": "left lateral"}
MIRRORED |= {there: here for here, there in MIRRORED.items()}


def agrees(told, given, count=8):
    """Assert that everything is told, and as it was set."""
    assert len(told.estimates) == count, [(k.side, k.quantity, k.reason) for k in told.kept]
    for estimate in told.estimates:
        want = truth(given, estimate.side, estimate.quantity)
        assert estimate.value == pytest.approx(want, abs=WITHIN[estimate.quantity]), estimate
        assert estimate.low < estimate.value < estimate.high
    assert told.fits
    assert max(record.misfit_mm for record in told.records) < 1e-6


@pytest.mark.parametrize("seed", SEEDS)
def test_known_settings_come_back(seed):
    """Straight and curved, steep and flat, with any shift: 0.01 degree and 0.001 mm."""
    given = any_jaw(seed)
    agrees(found(records_of(poses_in(given, seed=seed)), unlike(given), FINE), given)


@pytest.mark.parametrize("seed", range(7))
def test_an_early_shift_comes_back(seed):
    """A shift that is spread over the first advance, known at both advances."""
    given = any_jaw(seed)
    early = {"shift_timing": "early", "early_over_mm": 2.5}
    given = replace(given, right=replace(given.right, **early), left=replace(given.left, **early))
    agrees(found(records_of(poses_in(given, seed=seed)), unlike(given), FINE), given)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("from_cr", [True, False])
def test_scans_say_the_same(seed, from_cr):
    """In any coordinates of scans, counted from a record of CR, or from MI where that is set."""
    given = any_jaw(seed)
    mi = GuidanceCoordinates(0.4, 0.3, 0.0, 0.0) if seed % 2 else CENTRIC_RELATION
    hinge, bite = any_place(seed), any_place(seed + 500)
    guidance = prepare(given)
    poses = poses_in(given, seed=seed)
    lower_from_file = inverse(pose_at(guidance, mi)) @ hinge @ bite
    in_scans = [inverse(hinge) @ pose @ lower_from_file for pose in poses]
    cr = [record_of(guidance, mi, hinge, bite, 0.05)] if from_cr else []
    scans = settings_of(hinge, bite, *cr)
    agrees(found(records_of(in_scans), unlike(given), FINE, scans=scans, mi=mi), given)


@pytest.mark.parametrize("seed", range(8))
def test_pairs_of_points_say_what_transforms_say(seed):
    """Of built-in teeth and of scans; the places are told to lie together."""
    given = any_jaw(seed)
    mi = GuidanceCoordinates(0.4, 0.3, 0.0, 0.0) if seed % 2 else CENTRIC_RELATION
    mi_pose = pose_at(prepare(given), mi)
    paired = paired_records(poses_in(given, seed=seed), mi_pose)
    told = found(paired, unlike(given), FINE, mi=mi)
    agrees(told, given)
    assert {record.pairs for record in told.records} == {5}
    assert max(record.pairs_apart_mm for record in told.records) < 1e-9
    hinge = any_place(seed)
    turned = [
        InterocclusalRecord(
            kind=record.kind,
            points_in_mi=moved(inverse(hinge), record.points_in_mi),
            points_in_record=moved(inverse(hinge), record.points_in_record),
        )
        for record in paired
    ]
    scans = settings_of(hinge, any_place(seed + 500))
    agrees(found(turned, unlike(given), FINE, scans=scans, mi=mi), given)


def moved(pose, points):
    """Return points of a record moved by a pose."""
    return tuple(map(tuple, (np.array(points) @ pose[:3, :3].T + pose[:3, 3]).tolist()))


@pytest.mark.parametrize("seed", range(50))
def test_mirrored_records_give_mirrored_settings(seed):
    """Noise and all: sides change places, to 1e-9 in value and standard error."""
    given = any_jaw(seed)
    rng = np.random.default_rng(seed)
    poses = [np.array(pose) for pose in poses_in(given, seed=seed)]
    for pose in poses:
        pose[:3, 3] += rng.normal(0.0, 0.1, 3)
    kinds = [(MIRRORED[kind], far) for kind, far in SET]
    start = replace(given, right=replace(given.right, condylar_inclination_deg=30.0))
    one = found(records_of(poses), start)
    two = found(records_of([MIRROR @ p @ MIRROR for p in poses], kinds), mirrored_settings(start))
    assert len(one.estimates) == len(two.estimates)
    for estimate in one.estimates:
        other = two.by_name[{"right": "left", "left": "right"}[estimate.side], estimate.quantity]
        for name in ("value", "standard_error", "low", "high", "as_set"):
            assert getattr(other, name) == pytest.approx(getattr(estimate, name), abs=1e-9), name
    assert two.chi_square == pytest.approx(one.chi_square, abs=1e-9)


@pytest.mark.parametrize("seed", range(7))
def test_what_is_taken_as_set_lets_the_other_shift_follow(seed):
    """One lateral record a side: with either shift known the other follows exactly."""
    given = any_jaw(seed)
    kinds = (("protrusive", 4.0), ("right lateral", 5.0), ("left lateral", 6.0))
    records = records_of(poses_in(given, kinds, seed), kinds)
    known, follows = ("immediate shift", "progressive shift")[:: 1 if seed % 2 else -1]
    as_set = (known, "curvature")
    fitting = replace(FINE, right_as_set=as_set, left_as_set=as_set)
    steep = replace(
        given,
        right=replace(given.right, condylar_inclination_deg=20.0),
        left=replace(given.left, condylar_inclination_deg=20.0),
    )
    start = with_shift(steep, follows, 3.0, 1.0)
    told = found(records, start, fitting)
    agrees(told, given, 4)
    assert {e.quantity for e in told.estimates} == {"condylar inclination", follows}
    assert not told.bennett


def with_shift(given, quantity, progressive_deg, immediate_mm):
    """Return settings in which one of the shifts is something else."""
    change = (
        {"progressive_shift_deg": progressive_deg}
        if quantity == "progressive shift"
        else {"immediate_shift_mm": immediate_mm}
    )
    return replace(given, right=replace(given.right, **change), left=replace(given.left, **change))


@pytest.mark.parametrize("seed", range(7))
def test_one_lateral_record_gives_the_bennett_angle_where_it_was_read(seed):
    """Both shifts stay as set; the angle that they make together is what was made."""
    given = any_jaw(seed)
    kinds = (("protrusive", 5.0), ("left lateral", 5.0))
    fitting = replace(FINE, right_as_set=("curvature",))
    told = found(records_of(poses_in(given, kinds, seed), kinds), given, fitting)
    (reading,) = told.bennett
    assert reading.side == "right"
    assert reading.read_at_mm == pytest.approx(5.0, abs=1e-6)
    side = prepare(given).right
    forward = turned(displacement(side.path, np.array([5.0])), side.fischer_rad)[0, 0]
    inward = side.shift_limit_mm + forward * np.tan(side.progressive_rad)
    assert reading.value_deg == pytest.approx(np.degrees(np.arctan2(inward, forward)), abs=1e-3)
    assert reading.low_deg < reading.value_deg < reading.high_deg


def test_a_shift_is_split_as_published():
    """An immediate shift of 0.75 mm and 7.5 degrees after it are told apart again."""
    split = PUBLISHED["shift_and_progressive"]
    side = SideGuidance(
        progressive_shift_deg=split["progressive_deg"], immediate_shift_mm=split["immediate_mm"]
    )
    given = GuidanceSettings(right=side, left=side)
    agrees(found(records_of(poses_in(given)), unlike(given), FINE), given)


def test_a_record_is_told_as_moves_of_the_condyles():
    """A straight protrusive record of 5 mm at 30 degrees: forward and down, without sway."""
    given = GuidanceSettings(
        right=SideGuidance(condylar_inclination_deg=30.0),
        left=SideGuidance(condylar_inclination_deg=30.0),
    )
    at = pose_at(prepare(given), GuidanceCoordinates(5.0, 5.0, 0.0, 0.1))
    record = InterocclusalRecord(kind="protrusive", transform=rows(at))
    (told,) = found([record], given).records
    want = (5.0 * np.cos(np.radians(30.0)), 0.0, -2.5)
    assert told.move_right_mm == pytest.approx(want, abs=1e-9)
    assert told.move_left_mm == pytest.approx(want, abs=1e-9)
    assert told.counts
