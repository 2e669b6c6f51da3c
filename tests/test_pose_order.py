"""Poses put in order so that neighbours are alike: time changes, results do not."""

import numpy as np
import pytest

from kinematics.contact.closure import close
from kinematics.contact.pair import prepare
from kinematics.contact.pose_order import order_of_likeness
from kinematics.geometry.poses import identity_poses, move_points
from tests.made_sheets import patchwork, slightly_moved

CORNERS = np.array([[40.0, -20.0, -35.0], [80.0, 20.0, -30.0]])


def straight_way(n):
    """Return n poses along a straight way of 4 mm."""
    poses = identity_poses(n)
    poses[:, 0, 3] = np.linspace(0.0, 4.0, n)
    return poses


def spread_in_eights(poses):
    """Return how far poses that are searched at once lie apart, mm, the mean over all eights."""
    places = move_points(poses, CORNERS).reshape(len(poses), 6)
    packs = [places[i : i + 8] for i in range(0, len(poses), 8)]
    return np.mean([np.ptp(pack, axis=0).max() for pack in packs])


def test_few_poses_stay_as_they_are():
    """Those that are searched at once anyway."""
    mixed = straight_way(8)[np.random.default_rng(0).permutation(8)]
    np.testing.assert_array_equal(order_of_likeness(mixed, CORNERS), np.arange(8))


@pytest.mark.parametrize("n", [9, 16, 60, 61, 200])
def test_each_eight_of_a_straight_way_are_neighbours(n):
    """In whatever order they come: pack after pack from one end, and the rest at the other."""
    for seed in range(5):
        shuffle = np.random.default_rng(seed).permutation(n)
        found = shuffle[order_of_likeness(straight_way(n)[shuffle], CORNERS)]
        for i in range(0, n, 8):
            assert sorted(found[i : i + 8]) == list(range(i, min(i + 8, n)))


def test_unrelated_poses_become_more_alike():
    """Every pose is kept, and those searched at once lie nearer to each other."""
    poses = slightly_moved(500, 3)
    order = order_of_likeness(poses, CORNERS)
    assert sorted(order) == list(range(500))
    assert spread_in_eights(poses[order]) < 0.7 * spread_in_eights(poses)


def test_poses_that_are_all_one_have_no_order_to_find():
    """A hundred times the same pose: each is kept, and nothing divides by no extent."""
    assert sorted(order_of_likeness(identity_poses(100), CORNERS)) == list(range(100))


@pytest.mark.parametrize("n", [5, 17, 100])
def test_each_pose_has_the_closure_it_has_alone(n):
    """Whatever the order of the search, results come back in the order asked for."""
    pair = prepare(patchwork(1, 12, -30, 1.0), patchwork(2, 13, -33, 0.7), threads=2)
    poses = slightly_moved(n, 7)
    together = close(pair, poses)
    for i in range(0, n, 4):
        alone = close(pair, poses[i : i + 1])
        for name in ("opening_rad", "point", "normal", "face_upper", "face_lower", "kind"):
            np.testing.assert_array_equal(getattr(together, name)[i], getattr(alone, name)[0])
