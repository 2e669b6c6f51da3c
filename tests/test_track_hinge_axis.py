"""The hinge axis from tracks: planted axes are found again, with the certainty that is told."""

import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import binom

from kinematics.geometry.poses import opening_rotation
from kinematics.records.record_errors import condyle_errors
from kinematics.records.settings import RecordFitting
from kinematics.tracks.hinge_axis import LEAST_OPENING_DEG, MOST_MOVED_MM, hinge_axis
from tests.made_excursion_records import ABOUT
from tests.made_tracks import (
    fixed_with_errors,
    hinge_track,
    placed_track,
    there_and_back,
    times,
    with_noise,
)

PUBLISHED = tomllib.loads((Path(__file__).parent / "published/scans.toml").read_text("utf-8"))
USUAL = RecordFitting()
HALF = 52.0
MIRROR = np.diag([1.0, -1.0, 1.0, 1.0])


def any_axis(seed):
    """Return a point and a direction, and where that axis passes right and left condyle."""
    rng = np.random.default_rng(seed)
    point = np.array([*rng.normal(0.0, 3.0, 3)])
    along = np.array([rng.normal(0.0, 0.04), 1.0, rng.normal(0.0, 0.04)])
    passes = [point + along * (side * HALF - point[1]) for side in (-1.0, 1.0)]
    return point, along, np.array(passes)[:, [0, 2]]


def places(found):
    """Return where a found axis passes right and left condyle, (2, 2)."""
    return np.array([[side.forward_mm, side.up_mm] for side in (found.right, found.left)])


def errors(found, name):
    """Return errors or half widths of the intervals, (2, 2)."""
    return np.array([getattr(side, name) for side in (found.right, found.left)])


def axis_of(time_s, poses, fitting=USUAL):
    """Return what a hinge opening says."""
    return hinge_axis(placed_track("hinge opening", time_s, poses), HALF, fitting)


@pytest.mark.parametrize("seed", range(50))
def test_planted_axes_are_found(seed):
    """Both ways, without noise: to 1e-6 mm, and nothing moves or wanders."""
    point, along, passes = any_axis(seed)
    start = opening_rotation(0.01 * seed / 50.0)
    told = axis_of(*hinge_track(point, along, 0.16, start=start))
    for found in (told.finite, told.instantaneous):
        assert places(found) == pytest.approx(passes, abs=1e-6)
        assert errors(found, "by_rows_mm").max() < 1e-6
    assert told.used_deg == told.opened_deg == pytest.approx(np.degrees(0.16), rel=0.02)
    assert max(told.moved_mm, told.wander_mm) < 1e-6
    assert told.reason == ""
    assert told.far_mm == pytest.approx(np.linalg.norm(passes, axis=1).max(), abs=1e-6)


def test_intervals_hold_the_axis():
    """Noise in every row, recorder off on both jaws: 95 % of 40 x 4 intervals, both ways."""
    held, told = {"finite": 0, "instantaneous": 0}, 0
    for seed in range(40):
        rng = np.random.default_rng(seed)
        point, along, passes = any_axis(seed)
        time_s, poses = hinge_track(point, along, 0.16, times(4.0))
        noisy = with_noise(fixed_with_errors(poses, rng, USUAL), rng, 0.1, 0.1)
        said = axis_of(time_s, noisy)
        told += 4
        for name in held:
            found = getattr(said, name)
            inside = np.abs(places(found) - passes) <= errors(found, "reach_mm")
            held[name] += int(inside.sum())
    for name, times_held in held.items():
        # numbers of one track hang together: as if a quarter of them were told
        low = 4 * binom.ppf(0.001, told // 4, 0.95)
        assert low <= times_held <= told, (name, times_held, told)
        assert times_held / told < 0.995, name


def test_rows_scatter_as_much_as_told():
    """By noise alone, over 40 tracks: standard errors by rows are those of the axes found."""
    point, along, passes = any_axis(3)
    time_s, poses = hinge_track(point, along, 0.16, times(4.0))
    off, said = [], []
    for seed in range(40):
        told = axis_of(time_s, with_noise(poses, np.random.default_rng(seed), 0.1, 0.1)).finite
        off.append(places(told) - passes)
        said.append(errors(told, "by_rows_mm"))
    seen = np.sqrt(np.mean(np.square(off), axis=0))
    assert np.sqrt(np.mean(np.square(said), axis=0)) == pytest.approx(seen, rel=0.35)


def test_how_the_recorder_is_fixed_counts():
    """Without noise the errors are those of a record at the place of the axis."""
    told = axis_of(*hinge_track(np.zeros(3), [0.0, 1.0, 0.0]))
    seats = np.array([[0.0, -HALF, 0.0], [0.0, HALF, 0.0]])
    want = np.sqrt(np.diagonal(condyle_errors(USUAL, ABOUT, seats)).reshape(2, 3)[:, [0, 2]])
    assert errors(told.finite, "errors_mm") == pytest.approx(want, rel=1e-6)
    finer = replace(USUAL, translation_scatter_mm=0.001, rotation_scatter_deg=0.01)
    assert errors(axis_of(*hinge_track(np.zeros(3), [0.0, 1.0, 0.0]), finer).finite,
                  "errors_mm").max() < 0.1 * want.min()  # fmt: skip


@pytest.mark.parametrize("seed", range(8))
def test_mirrored_openings_give_the_mirrored_axis(seed):
    """Noise and all: the sides change places."""
    point, along, _ = any_axis(seed)
    time_s, poses = hinge_track(point, along)
    poses = with_noise(poses, np.random.default_rng(seed), 0.05, 0.05)
    one, two = axis_of(time_s, poses), axis_of(time_s, MIRROR @ poses @ MIRROR)
    assert places(two.finite)[::-1] == pytest.approx(places(one.finite), abs=1e-8)
    assert errors(two.finite, "reach_mm")[::-1] == pytest.approx(
        errors(one.finite, "reach_mm"), abs=1e-8
    )
    assert two.used_deg == pytest.approx(one.used_deg, abs=1e-8)


@pytest.mark.parametrize("seed", range(50))
def test_beyond_the_hinge_opening_rows_are_left_out(seed):
    """From some opening on condyles advance: the axis is that of the opening before."""
    rng = np.random.default_rng(seed)
    point, along, passes = any_axis(seed)
    time_s, poses = hinge_track(point, along, 0.3)
    ends_deg = rng.uniform(6.0, 12.0)
    turned = np.degrees(there_and_back(time_s, 0.3))
    ahead = rng.uniform(0.6, 1.0) * np.maximum(turned - ends_deg, 0.0)
    poses[:, :3, 3] += ahead[:, None] * np.array([0.8, 0.0, -0.6])
    told = axis_of(time_s, poses)
    assert ends_deg - 1.6 <= told.used_deg <= ends_deg + 1.0
    off_mm = np.abs(places(told.finite) - passes)
    assert (off_mm < np.maximum(1.5, 1.3 * errors(told.finite, "reach_mm"))).all()
    assert told.moved_mm <= MOST_MOVED_MM + 0.12
    assert told.moved_in_all_mm > 1.0


@pytest.mark.parametrize("seed", range(50))
def test_what_is_no_hinge_opening_is_told(seed):
    """Condyles that leave at once and come back elsewhere, too little opening, another axis."""
    rng = np.random.default_rng(seed)
    point, along, _ = any_axis(seed)
    time_s, poses = hinge_track(point, along, 0.2)
    if seed % 3 == 0:
        way = there_and_back(time_s, rng.uniform(6.0, 9.0)) * np.sin(9.0 * time_s)
        poses[:, :3, 3] += way[:, None] * np.array([0.9, 0.0, -0.4])
        said = "it is no hinge opening: already up to 4 degrees the axis that fits best moves"
    elif seed % 3 == 1:
        time_s, poses = hinge_track(point, along, np.radians(rng.uniform(1.0, 3.9)))
        said = f"at least {LEAST_OPENING_DEG:g} are needed"
    else:
        time_s, poses = hinge_track(point, [1.0, 1.2, rng.normal(0.0, 0.1)], 0.2)
        said = "degrees off the transverse one; accepted are 30"
    told = axis_of(time_s, poses)
    assert said in told.reason
    assert told.finite is None and told.instantaneous is None
    assert (told.used_deg, told.far_mm) == (0.0, 0.0)


def test_a_slow_opening_has_no_velocities():
    """Finite turns need no speed; from velocities nothing is told then."""
    told = axis_of(*hinge_track(np.zeros(3), [0.0, 1.0, 0.0], time_s=times(12.0)))
    assert told.finite is not None and told.instantaneous is None


def test_an_axis_is_found_nearer_than_measures_of_the_face_lead():
    """With usual noise the errors are a tenth of how far arbitrary axes are off (5 mm)."""
    rng = np.random.default_rng(0)
    time_s, poses = hinge_track(np.zeros(3), [0.0, 1.0, 0.0])
    told = axis_of(time_s, with_noise(poses, rng, 0.1, 0.1))
    off_mm = PUBLISHED["wrong_axis"]["axis_error_mm"]
    assert errors(told.finite, "reach_mm").max() < 0.25 * off_mm
