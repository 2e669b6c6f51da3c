"""Poses put in order so that neighbours are alike: time changes, results do not."""

import numpy as np
import pytest

from kinematics.contact.closure import close
from kinematics.contact.pair import prepare
from kinematics.contact.pose_order import order_of_likeness
from kinematics.geometry.poses import identity_poses
from tests.made_sheets import patchwork, slightly_moved

CORNERS = np.array([[40.0, -20.0, -35.0], [80.0, 20.0, -30.0]])


def straight_way(n):
    """Return n poses along a straight way of 4 mm."""
    poses = identity_poses(n)
    poses[:, 0, 3] = np.linspace(0.0, 4.0, n)
    return poses


def test_a_movement_keeps_its_order():
    """Poses that follow one another are left as they are, and so are a few."""
    np.testing.assert_array_equal(order_of_likeness(straight_way(60), CORNERS), np.arange(60))
    mixed = straight_way(16)[np.random.default_rng(0).permutation(16)]
    np.testing.assert_array_equal(order_of_likeness(mixed, CORNERS), np.arange(16))


def test_a_shuffled_straight_way_is_found_again():
    """Along one line the curve visits places in order, from one end to the other."""
    shuffle = np.random.default_rng(1).permutation(60)
    order = order_of_likeness(straight_way(60)[shuffle], CORNERS)
    np.testing.assert_array_equal(shuffle[order], np.arange(60))


def test_unrelated_poses_become_more_alike():
    """Every pose is kept, and the steps between neighbours shrink."""
    poses = slightly_moved(500, 3)
    order = order_of_likeness(poses, CORNERS)
    assert sorted(order) == list(range(500))

    def steps(some):
        return np.linalg.norm(np.diff(some[:, :3, 3], axis=0), axis=1).sum()

    assert steps(poses[order]) < 0.8 * steps(poses)


def test_poses_that_are_all_one_have_no_order_to_find():
    """A hundred times the same pose divides by no extent."""
    np.testing.assert_array_equal(order_of_likeness(identity_poses(100), CORNERS), np.arange(100))


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
