"""Smoothed tracks: what is kept, how much noise is left and told, and what is refused."""

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.geometry.poses import inverse, move_points, pose_of
from kinematics.tracks.screw_coordinates import poses_at, screw_coordinates
from kinematics.tracks.smoothing import Rows, smoothed
from tests.made_excursion_records import ABOUT, any_jaw
from tests.made_tracks import excursion_track, hinge_track, times, with_noise


def rows_of(time_s, poses):
    """Return rows of a file whose header is in line 1."""
    return Rows(time_s, poses, np.arange(len(time_s)) + 2, "track.csv")


def any_line(seed):
    """Return a point of a line near the condyles, and its direction."""
    rng = np.random.default_rng(seed)
    return rng.normal(0.0, 3.0, 3), np.array([0.0, 1.0, 0.0]) + rng.normal(0.0, 0.05, 3)


@pytest.mark.parametrize("seed", range(50))
def test_a_hinge_movement_stays_one(seed):
    """Smoothed however strongly, points of the axis do not move: to 1e-9 mm."""
    point, along = any_line(seed)
    smooth = smoothed(rows_of(*hinge_track(point, along)), ABOUT, 2.0)
    motions = smooth.poses @ inverse(smooth.poses[0])
    axis = np.stack([point - 60.0 * along, point, point + 60.0 * along])
    assert move_points(motions, axis) == pytest.approx(
        np.broadcast_to(axis, (len(motions), 3, 3)), abs=1e-9
    )


@pytest.mark.parametrize("seed", range(10))
def test_it_matters_not_which_point_is_followed(seed):
    """Screw coordinates about any point give the same smoothed poses, and lead back."""
    time_s, poses = excursion_track(any_jaw(seed), "protrusive", 7.0)
    one = smoothed(rows_of(time_s, poses), ABOUT, 6.0)
    two = smoothed(rows_of(time_s, poses), np.array([-300.0, 200.0, 100.0]), 6.0)
    assert one.poses == pytest.approx(two.poses, abs=1e-9)
    there = screw_coordinates(poses, poses[5], ABOUT)
    assert poses_at(there, poses[5], ABOUT) == pytest.approx(poses, abs=1e-12)


def test_what_the_bandwidth_means():
    """At it an amplitude falls to 1 / sqrt(2); slow movements stay, and nothing is delayed."""
    time_s = times(4.0, 200.0)
    for factor, left in ((0.2, 1.0), (1.0, np.sqrt(0.5)), (4.0, 0.0)):
        way = np.sin(2.0 * np.pi * 6.0 * factor * time_s)
        ways = np.stack([np.zeros_like(way), np.zeros_like(way), way], axis=1)
        rows = rows_of(time_s, pose_of(np.eye(3), 0.05 * ways))
        smooth = smoothed(rows, ABOUT, 6.0)
        found = smooth.poses[:, 2, 3][smooth.kept]
        assert found == pytest.approx(0.05 * left * way[smooth.kept], abs=6e-4), factor


def test_the_noise_left_is_told():
    """Over 50 noisy tracks as large as it is, and rows as far apart as told are independent."""
    time_s, poses = excursion_track(any_jaw(2), "protrusive", 6.0)
    told, left = [], []
    for seed in range(50):
        noisy = with_noise(poses, np.random.default_rng(seed), 0.1, 0.1)
        smooth = smoothed(rows_of(time_s, noisy), ABOUT, 6.0)
        told.append([smooth.turn_noise_rad, smooth.shift_noise_mm])
        true = smoothed(rows_of(time_s, poses), ABOUT, 6.0).poses
        off = screw_coordinates(smooth.poses @ inverse(true), np.eye(4), ABOUT)
        left.append(off[smooth.kept])
    seen = np.sqrt(np.mean(np.square(left).reshape(50, -1, 2, 3), axis=(0, 1, 3)))
    assert np.mean(told, axis=0) == pytest.approx(seen, rel=0.03)
    assert smooth.shift_noise_mm < 0.4 * 0.1
    apart = np.stack(left)
    together = np.mean(apart[:, smooth.every :] * apart[:, : -smooth.every]) / np.mean(apart**2)
    assert abs(together) < 0.1
    close = np.mean(apart[:, 2:] * apart[:, :-2]) / np.mean(apart**2)
    assert close > 0.7
    assert np.diff(smooth.independent(1000)).min() == smooth.every
    assert len(smooth.independent(12)) <= 12


def test_a_track_smoothed_before_is_taken_as_it_is():
    """Its noise cannot be seen, so that some is assumed; the exact track is told less."""
    time_s, poses = excursion_track(any_jaw(2), "protrusive", 6.0)
    before = smoothed(rows_of(time_s, poses), ABOUT, 6.0, before=True)
    assert before.poses == pytest.approx(poses, abs=1e-12)
    assert before.taken_off_mm == 0.0
    assert before.shift_noise_mm == 0.05
    assert smoothed(rows_of(time_s, poses), ABOUT, 6.0).shift_noise_mm == 0.01


@pytest.mark.parametrize("seed", range(50))
def test_uneven_rows_are_read_between(seed):
    """Times that waver and rows that are missing: the same track, to a few micrometres."""
    rng = np.random.default_rng(seed)
    time_s = times()
    even = smoothed(rows_of(*excursion_track(any_jaw(seed), "protrusive", 6.0)), ABOUT, 6.0)
    wavering = time_s + rng.uniform(-0.003, 0.003, len(time_s))
    wavering[[0, -1]] = time_s[[0, -1]]
    there = rng.random(len(time_s)) > 0.1
    there[[0, -1]] = True
    way = excursion_track(any_jaw(seed), "protrusive", 6.0, wavering)[1]
    uneven = smoothed(rows_of(wavering[there], way[there]), ABOUT, 6.0)
    assert uneven.resampled and not even.resampled
    way = [np.interp(even.time_s, uneven.time_s, uneven.poses[:, axis, 3]) for axis in range(3)]
    assert np.abs(np.transpose(way) - even.poses[:, :3, 3])[even.kept].max() < 0.01
    assert uneven.time_s[-1] == pytest.approx(3.0)


@pytest.mark.parametrize("seed", range(50))
def test_a_planted_jump_is_found(seed):
    """One row, or all from one on, off by 3 to 6 mm in noise: refused with its line."""
    rng = np.random.default_rng(seed)
    time_s, poses = excursion_track(any_jaw(seed), "protrusive", 6.0)
    poses = with_noise(poses, rng, 0.03, 0.03)
    row = int(rng.integers(20, 280))
    off = rng.normal(size=3)
    off *= rng.uniform(3.0, 6.0) / np.linalg.norm(off)
    poses[row if seed % 2 else slice(row, None), :3, 3] += off
    with pytest.raises(InputError, match=r"track.csv: line \d+: .* a jump") as refused:
        smoothed(rows_of(time_s, poses), ABOUT, 6.0)
    line = int(str(refused.value).split("line ")[1].split(":")[0])
    assert abs(line - (row + 2)) <= 1


def test_rows_that_cannot_be_smoothed():
    """A gap with its line, too few rows a second, and too short a track."""
    time_s, poses = excursion_track(any_jaw(1), "protrusive", 6.0)
    there = np.ones(len(time_s), dtype=bool)
    there[100:110] = False
    rows = rows_of(time_s, poses)
    gap = Rows(time_s[there], poses[there], rows.lines[there], "track.csv")
    with pytest.raises(InputError, match=r"line 112: comes 0.110 s after .* 0.083 s apart at mo"):
        smoothed(gap, ABOUT, 6.0)
    smoothed(gap, ABOUT, 4.0)
    slow = rows_of(time_s[::5], poses[::5])
    with pytest.raises(InputError, match=r"has 20.0 rows a second; bandwidth_hz = 6 needs at leas"):
        smoothed(slow, ABOUT, 6.0)
    smoothed(slow, ABOUT, 5.0)
    with pytest.raises(InputError, match=r"lasts 0.24 s; with bandwidth_hz = 6 at least 0.27 s"):
        smoothed(rows_of(time_s[:25], poses[:25]), ABOUT, 6.0)
