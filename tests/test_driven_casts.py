"""Casts moved along tracks: how far they stand open, which teeth meet, and what is known of it."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.contact.closure import close
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import inverse, opening_rotation
from kinematics.guidance.settings import GuidanceSettings
from kinematics.records.settings import RecordFitting
from kinematics.tracks.driven_casts import driven_track
from scenes.driven_chart import driven_chart
from scenes.driven_words import driven_words
from tests.made_tracks import excursion_track, placed_track, times, with_noise
from tests.small_mouth import mouth

USUAL = RecordFitting()
GIVEN = GuidanceSettings()
KINDS = ("protrusive", "right lateral", "left lateral")


@pytest.fixture(scope="module")
def casts():
    """Return the small mouth, mounted, no two teeth of which meet at the same opening."""
    lowers = (41, 43, 33, 31, 47, 46, 45, 35, 36, 37)
    return mouth(clearances={code: 0.004 * k for k, code in enumerate(lowers)})


def touching_track(casts, kind, open_rad=0.0, far_mm=3.0):
    """Return times, poses whose first teeth stand open by an angle, and their closures."""
    time_s, poses = excursion_track(GIVEN, kind, far_mm, times(2.0), opening_rad=0.0)
    closures = close(casts.pair, poses)
    opened = closures.opening_rad + np.broadcast_to(open_rad, len(poses))
    return time_s, poses @ opening_rotation(opened), closures


def driven(casts, track, fitting=USUAL):
    """Move the casts along a track."""
    return driven_track(track, casts.pair, casts.mi_pose, fitting, 0.02, Workers(1))


@pytest.mark.parametrize("seed", range(50))
def test_a_planted_gap_is_told(casts, seed):
    """Held open or closed by any angle, everywhere: the arc at the first contact, to 1e-9 mm."""
    rng = np.random.default_rng(seed)
    kind = KINDS[seed % 3]
    held_rad = rng.uniform(-0.008, 0.02)
    time_s, poses, closures = touching_track(casts, kind, held_rad)
    track = placed_track(kind, time_s, poses, before=True)
    told = driven(casts, track)
    rows = track.smooth.independent(150)
    assert told.gap_mm == pytest.approx(held_rad * closures.radius_mm[rows], abs=1e-6)
    assert told.time_s == pytest.approx(time_s[rows])
    assert told.nothing_met == 0
    assert told.closed.all() == (held_rad * 84.0 < 0.2) or told.closed.any()
    if held_rad * 35.0 > told.uncertain_mm.max():
        assert not told.closed.any() and told.pairs == ()
    if held_rad * 35.0 < -told.uncertain_mm.max():
        assert told.overlapping.all()


def test_the_teeth_that_meet_are_those_that_guide(casts):
    """On a touching track the first pairs are the closures' own; patches add the others."""
    for kind in KINDS:
        time_s, poses, closures = touching_track(casts, kind)
        track = placed_track(kind, time_s, poses, before=True)
        told = driven(casts, track)
        rows = track.smooth.independent(150)
        want = list(zip(closures.tooth_upper[rows], closures.tooth_lower[rows], strict=True))
        first = {(p.tooth_upper, p.tooth_lower): p.first for p in told.pairs if p.first}
        assert first == {names: want.count(names) for names in set(want)}
        assert all(p.first <= p.touching <= len(rows) for p in told.pairs)
        assert all(p.from_s <= p.to_s for p in told.pairs)
    assert (told.pairs[0].tooth_upper, told.pairs[0].tooth_lower) == (23, 33)  # left lateral


def test_noise_makes_open_and_overlapping_of_touching(casts):
    """Of a touching track with noise, what is known holds the truth: some 95 % within it."""
    time_s, poses, _ = touching_track(casts, "protrusive")
    within = []
    zeroed = {"zeroed": True}  # no error of fixing was put in
    for seed in range(20):
        noisy = with_noise(poses, np.random.default_rng(seed), 0.05, 0.05)
        told = driven(casts, placed_track("protrusive", time_s, noisy, **zeroed))
        within += (np.abs(told.gap_mm) <= told.uncertain_mm).tolist()
    assert 0.85 < np.mean(within) <= 1.0


def test_how_the_recorder_is_fixed_widens_what_is_known(casts):
    """By the root of two such errors; one zeroed in MI is not off there."""
    time_s, poses, _ = touching_track(casts, "protrusive")
    track = placed_track("protrusive", time_s, poses, before=True)
    wide = driven(casts, track).uncertain_mm
    narrow = driven(casts, replace(track, zeroed=True)).uncertain_mm
    coarse = driven(casts, track, replace(USUAL, translation_scatter_mm=0.5)).uncertain_mm
    assert narrow.max() < wide.min() < coarse.min()


def test_a_track_from_mi_moves_the_casts_from_there(casts):
    """Motions that begin in MI lead to the same places as poses."""
    time_s, poses, _ = touching_track(casts, "right lateral", 0.004)
    one = driven(casts, placed_track("right lateral", time_s, poses, before=True))
    motions = poses @ inverse(casts.mi_pose)
    begins = {"from_mi": True, "from_mi_to_start": np.eye(4)}
    two = driven(casts, placed_track("right lateral", time_s, motions, before=True, **begins))
    assert two.gap_mm == pytest.approx(one.gap_mm, abs=1e-9)
    assert [replace(p) for p in two.pairs] == [replace(p) for p in one.pairs]


def test_it_is_told_in_words_and_drawn(casts):
    """A row for each track, every number with its unit, and a picture."""
    tracks = []
    for number, (kind, held_rad) in enumerate(zip(KINDS, (0.0, 0.03, -0.02), strict=True), start=1):
        time_s, poses, _ = touching_track(casts, kind, held_rad)
        tracks.append(driven(casts, placed_track(kind, time_s, poses, number=number, before=True)))
    rows = driven_words(tracks).table.rows
    assert [row[0] for row in rows] == ["1, protrusive", "2, right lateral", "3, left lateral"]
    assert rows[0][2] == "0" and rows[0][4] == "0" and "in " in rows[0][6]
    assert rows[1][2].startswith(f"{rows[1][1]}, up to 2.") and rows[1][6] == "none"
    assert "by up to 1." in rows[2][4] and "mm at" in rows[2][4]
    assert driven_words(()) is None
    sheet = driven_chart(tracks)
    assert sheet.height_mm > 100.0
