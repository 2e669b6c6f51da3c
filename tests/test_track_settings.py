"""Settings and paths from tracks: exact ones give what was set, noisy ones within intervals."""

import tomllib
from collections import Counter
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import binom

from kinematics.checks import InputError
from kinematics.geometry.curves import displacement, measured_curve
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import CENTRIC_RELATION
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.settings import RecordFitting
from kinematics.tracks.from_tracks import found_in_tracks
from kinematics.tracks.measured_paths import measured_paths
from kinematics.tracks.smoothing import UNSEEN_NOISE
from kinematics.tracks.track_errors import effects_of_fixing
from kinematics.tracks.tracked import Tracked
from tests.made_excursion_records import any_jaw, truth, unlike
from tests.made_tracks import (
    excursion_track,
    fixed_with_errors,
    placed_track,
    scatter_of,
    times,
    with_noise,
)

HERE = Path(__file__).parent / "published"
PUBLISHED = tomllib.loads((HERE / "records.toml").read_text("utf-8"))
CENTRIC = tomllib.loads((HERE / "scans.toml").read_text("utf-8"))["record_scatter"]
USUAL = RecordFitting()
ALL = ("protrusive", "right lateral", "left lateral")
SIDES = ("right", "left")
MIRROR = np.diag([1.0, -1.0, 1.0, 1.0])
MIRRORED = {"protrusive": "protrusive", "right lateral": "left lateral",
            "left lateral": "right lateral"}  # fmt: skip
TOLERANCES = {"condylar inclination": 1e-6, "curvature": 1e-8, "progressive shift": 1e-6,
              "immediate shift": 1e-6}  # fmt: skip


def tracks_of(
    given, kinds=ALL, far_mm=9.0, *, before=False, change=lambda poses: poses, seconds=1.2
):
    """Return tracks along excursions on given guidance."""
    made = []
    for number, kind in enumerate(kinds, start=1):
        time_s, poses = excursion_track(given, kind, far_mm, times(seconds))
        made.append(placed_track(kind, time_s, change(poses), number=number, before=before))
    return made


def said(placed, settings, fitting=USUAL):
    """Return what tracks tell."""
    return found_in_tracks(Tracked((), fitting, settings, None, CENTRIC_RELATION), placed)


@pytest.mark.parametrize("seed", range(50))
def test_exact_tracks_give_what_was_set(seed):
    """All eight settings, curvature among them, and nothing is left along the tracks."""
    given = any_jaw(seed)
    told = said(tracks_of(given, before=True, seconds=0.9), unlike(given))
    assert len(told.settings.estimates) == 8 and not told.settings.kept
    for estimate in told.settings.estimates:
        want = truth(given, estimate.side, estimate.quantity)
        assert estimate.value == pytest.approx(want, abs=TOLERANCES[estimate.quantity])
        assert estimate.standard_error > 0.0
    assert told.widened == 1.0
    assert max(track.misfit.largest_mm for track in told.tracks) < 1e-6
    for line in told.lines:
        farthest = [part[:, :, 0].max() for part in (line.fitted, line.measured)]
        assert farthest[0] == pytest.approx(farthest[1], abs=0.3)


@pytest.mark.parametrize("seed", range(5))
def test_smoothing_changes_little(seed):
    """Of exact tracks, smoothed as is usual: hundredths of a degree and of a millimetre."""
    given = any_jaw(seed)
    told = said(tracks_of(given, seconds=2.0), unlike(given))
    for estimate in told.settings.estimates:
        off = abs(estimate.value - truth(given, estimate.side, estimate.quantity))
        assert off < 0.15 * estimate.standard_error
    assert max(track.misfit.root_mean_square_mm for track in told.tracks) < 0.01


def covered(seeds):
    """Return how often intervals of noisy tracks hold what was set, and how often are told."""
    held, told, misfit = Counter(), Counter(), []
    given = any_jaw(2)
    for seed in seeds:
        rng = np.random.default_rng(seed)
        off = np.random.default_rng(seed + 999)
        state = off.bit_generator.state

        def change(poses, rng=rng, off=off, state=state):
            off.bit_generator.state = state  # fixed once for all tracks
            return with_noise(fixed_with_errors(poses, off, USUAL), rng, 0.1, 0.1)

        found = said(tracks_of(given, change=change), unlike(given))
        misfit.append(found.settings.chi_square / found.settings.freedom)
        for estimate in found.settings.estimates:
            name = estimate.side, estimate.quantity
            told[name] += 1
            held[name] += estimate.low <= truth(given, *name) <= estimate.high
    return held, told, np.array(misfit)


def test_intervals_hold_the_truth():
    """Noise in every row and a recorder fixed with errors: 95 % of 12 x 8 intervals."""
    held, told, misfit = covered(range(12))
    assert len(told) == 8
    for name, times_told in told.items():
        assert held[name] >= binom.ppf(1e-4, times_told, 0.95), (name, held[name])
    assert sum(held.values()) < sum(told.values())
    # what is left is what noise explains: rows that count are independent
    assert 0.85 < misfit.mean() < 1.2


@pytest.mark.wide
def test_intervals_hold_the_truth_in_many_trials():
    """Seeds 0 to 399: 92 to 98 % for every setting."""
    held, told, misfit = covered(range(400))
    for name, times_told in told.items():
        assert 0.92 <= held[name] / times_told <= 0.98, (name, held[name], times_told)
    assert 0.95 < misfit.mean() < 1.1


@pytest.mark.parametrize("seed", range(6))
def test_mirrored_tracks_give_mirrored_settings(seed):
    """Noise and all: the sides change places."""
    given = any_jaw(seed)
    rng = np.random.default_rng(seed)
    placed = tracks_of(given, change=lambda poses: with_noise(poses, rng, 0.05, 0.05))
    other = [
        placed_track(MIRRORED[one.kind], one.rows.time_s, MIRROR @ one.rows.poses @ MIRROR,
                     number=one.number)
        for one in placed
    ]  # fmt: skip
    settings = unlike(given)
    swapped = replace(settings, right=settings.left, left=settings.right)
    one, two = said(placed, settings), said(other, swapped)
    assert len(one.settings.estimates) == len(two.settings.estimates)
    for estimate in one.settings.estimates:
        side = SIDES[1 - SIDES.index(estimate.side)]
        mirrored = two.settings.by_name[side, estimate.quantity]
        for name in ("value", "standard_error"):
            assert getattr(mirrored, name) == pytest.approx(getattr(estimate, name), abs=1e-6)
    for path, mirrored in zip(one.paths, two.paths[::-1], strict=True):
        assert np.array(mirrored.points) == pytest.approx(np.array(path.points), abs=1e-9)


@pytest.mark.parametrize("seed", range(50))
def test_paths_are_recovered_as_points(seed):
    """From an exact protrusive track, whatever the path: to hundredths of a millimetre."""
    rng = np.random.default_rng(seed)
    given = any_jaw(seed)
    if seed % 3 == 0:
        along = np.array([0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0])
        drop = np.cumsum([0.0, *np.sort(rng.uniform(0.2, 2.2, 6))[::-1]])
        points = tuple(zip(along.tolist(), drop.tolist(), strict=True))
        side = SideGuidance(path="measured", measured_points=points)
        given = GuidanceSettings(right=side, left=side)
    (track,) = tracks_of(given, ("protrusive",), before=True)
    half_mm = prepare(given).half_distance_mm
    seats = np.array([[0.0, -half_mm, 0.0], [0.0, half_mm, 0.0]])
    centres = move_points(track.smooth.poses[track.smooth.kept], seats)
    for path, side in zip(measured_paths([centres]), SIDES, strict=True):
        made = measured_curve(path.points, "points", 25.0)
        want = getattr(prepare(given), side).path
        reach = np.linspace(0.6, 8.9, 40)
        found = displacement(made, reach)
        # across the path: how arc length is counted over the first piece may differ
        true = displacement(want, np.linspace(0.0, 9.5, 4000))
        apart = np.linalg.norm(found[:, None] - true[None], axis=2).min(axis=1)
        assert apart.max() < (0.05 if seed % 3 == 0 else 0.02)  # the first have sharp bends
        assert len(path.points) < 40
        assert path.spread_mm < 0.02
        assert path.reason == ""


def test_a_path_of_another_shape_widens_the_errors():
    """Steep, flat, steep: no arc; the misfit is told, and standard errors grow by it."""
    points = ((0.0, 0.0), (2.0, 2.0), (5.0, 2.3), (8.0, 5.0), (11.0, 5.2))
    side = SideGuidance(path="measured", measured_points=points)
    given = GuidanceSettings(right=side, left=side)
    told = said(tracks_of(given, ("protrusive",), before=True), GuidanceSettings())
    assert told.widened > 3.0
    assert told.tracks[0].misfit.largest_mm > 0.2
    assert not told.settings.fits
    curved = replace(side, path="straight", measured_points=())
    plain = GuidanceSettings(right=curved, left=curved)
    other = said(tracks_of(plain, ("protrusive",), before=True), GuidanceSettings())
    errors = [
        what.settings.by_name["right", "condylar inclination"].standard_error
        for what in (told, other)
    ]
    assert errors[0] > 2.0 * errors[1]


def test_errors_of_fixing_are_those_of_many_recorders():
    """Off on both jaws, zeroed in MI or not: covariances at the condyles over 3000 recorders."""
    time_s, poses = excursion_track(any_jaw(4), "right lateral", 8.0, times(1.2))
    pose = poses[60]
    seats = np.array([[0.0, -50.0, 0.0], [0.0, 50.0, 0.0]])
    rng = np.random.default_rng(0)
    offs = with_noise(np.tile(np.eye(4), (6000, 1, 1)), rng, *scatter_of(USUAL))
    upper, lower = offs[:3000], offs[3000:]
    for zeroed in (False, True):
        track = placed_track("right lateral", time_s, poses, before=True, zeroed=zeroed)
        told = effects_of_fixing(track, pose[None], seats, USUAL)[0]
        moved = move_points(upper @ pose @ (inverse(upper) if zeroed else lower), seats)
        seen = np.cov((moved - move_points(pose, seats)).reshape(-1, 6).T)
        assert told @ told.T == pytest.approx(seen, abs=0.08 * seen.max())


def test_settings_are_known_better_than_people_differ():
    """Published spreads as bands: of one recorder condyles are off as records of CR differ."""
    time_s, poses = excursion_track(any_jaw(4), "protrusive", 8.0)
    track = placed_track("protrusive", time_s, poses)
    seats = np.array([[0.0, -50.0, 0.0], [0.0, 50.0, 0.0]])
    upper = effects_of_fixing(track, np.eye(4)[None], seats, USUAL)[0][:3, :6]
    least, most = CENTRIC["between_materials_mm"]
    assert 0.9 * least <= np.sqrt(np.trace(upper @ upper.T)) <= 1.1 * most
    assert UNSEEN_NOISE[1] == PUBLISHED["measuring_error"]["error_mm"]
    spreads = [deviation for _, _, deviation in PUBLISHED["inclination_of_people"]["groups"]]
    given = any_jaw(4)
    told = said(tracks_of(given), unlike(given))
    for side in SIDES:
        error = told.settings.by_name[side, "condylar inclination"].standard_error
        assert 0.2 < error < 0.25 * min(spreads)


def reasons(told):
    """Return what is kept and why, by side and quantity."""
    return {(kept.side, kept.quantity): kept.reason for kept in told.settings.kept}


def test_what_does_not_follow_is_told_with_its_reason():
    """No lateral track, tracks that are short, what is taken as set, a measured path."""
    given = any_jaw(1)
    only = reasons(said(tracks_of(given, ("protrusive",), before=True), unlike(given)))
    assert only["right", "progressive shift"] == (
        "no left lateral track moves the right condyle inward"
    )
    one_side = said(tracks_of(given, ("left lateral",), before=True), unlike(given))
    assert ("left", "condylar inclination") in reasons(one_side)
    assert ("right", "condylar inclination") not in reasons(one_side)
    short = reasons(said(tracks_of(given, far_mm=1.8, before=True), unlike(given)))
    assert "advances 1.8 mm at most, less than 2 mm" in short["left", "condylar inclination"]
    middle = said(tracks_of(given, far_mm=3.5, before=True), unlike(given))
    assert "a curve shows over 4 mm" in reasons(middle)["right", "curvature"]
    assert "cannot tell progressive from immediate" in reasons(middle)["right", "immediate shift"]
    assert "right" in [reading.side for reading in middle.settings.bennett]
    known = replace(USUAL, right_as_set=("curvature", "immediate shift"))
    told = reasons(said(tracks_of(given, before=True), given, known))
    assert set(told) == {("right", "curvature"), ("right", "immediate shift")}
    side = SideGuidance(path="measured", measured_points=((0.0, 0.0), (9.0, 5.0)))
    measured = said(tracks_of(given, before=True), replace(unlike(given), right=side))
    assert "which say more" in reasons(measured)["right", "condylar inclination"]
    assert ("left", "condylar inclination") not in reasons(measured)
    path = said(tracks_of(given, ("protrusive",), far_mm=2.0), unlike(given)).paths[0]
    assert "a path needs at least 3 mm" in path.reason and path.points == ()


def test_tracks_of_another_kind_than_told_are_refused():
    """Sides exchanged, the way to the back, and places that no condyle reaches."""
    given = any_jaw(3)
    time_s, poses = excursion_track(given, "right lateral", 7.0)
    with pytest.raises(InputError, match=r"left lateral\).*working side is ahead.*kind right\?"):
        said([placed_track("left lateral", time_s, poses)], given)
    time_s, poses = excursion_track(given, "protrusive", 7.0)
    back = poses.copy()
    back[:, 0, 3] *= -1.0
    with pytest.raises(InputError, match=r"near line \d+: the right condyle is .* behind centric"):
        said([placed_track("protrusive", time_s, back)], given)
    far = poses.copy()
    far[:, :3, 3] *= 5.0
    with pytest.raises(InputError, match=r"mm from centric relation; accepted are up to 25 mm"):
        said([placed_track("protrusive", time_s, far)], given)


def test_other_tracks_take_no_part_in_settings():
    """A track of another movement is told, and nothing is fitted."""
    time_s, poses = excursion_track(any_jaw(3), "protrusive", 7.0)
    told = said([placed_track("other", time_s, poses)], any_jaw(3))
    assert told.settings is None and told.paths == () and told.axes == ()
    assert told.tracks[0].misfit is None
    assert told.tracks[0].farthest_right_mm[0] > 3.0
