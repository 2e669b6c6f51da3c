"""Closing a record about another axis than the jaw's own."""

import math

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from kinematics.guidance.axis_error import closed_about_wrong_axis

PLACE = st.floats(-15.0, 15.0)


@given(PLACE, PLACE, st.floats(-0.3, 0.5))
def test_casts_end_shifted_and_not_turned(forward, up, opening):
    """Every point is off by 2 e sin(opening / 2); nothing is turned or moved sideways."""
    pose = closed_about_wrong_axis(np.array([[forward, 0.0, up]]), opening)[0]
    np.testing.assert_allclose(pose[:3, :3], np.eye(3), atol=1e-15)
    assert pose[1, 3] == 0.0
    wanted = 2.0 * math.hypot(forward, up) * abs(math.sin(0.5 * opening))
    assert abs(np.linalg.norm(pose[:3, 3]) - wanted) < 1e-13


def test_the_shift_stands_across_the_axis_error():
    """An axis too far forward leaves the lower cast low; one too high brings it forward."""
    offsets = np.array([[5.0, 0.0, 0.0], [0.0, 0.0, 5.0]])
    forward, high = closed_about_wrong_axis(offsets, 0.04)[:, :3, 3]
    np.testing.assert_allclose(forward / np.linalg.norm(forward), [0.0, 0.0, -1.0], atol=0.03)
    np.testing.assert_allclose(high / np.linalg.norm(high), [1.0, 0.0, 0.0], atol=0.03)


def test_no_error_or_no_opening_moves_nothing():
    """The true axis, or a record taken in contact, is exact."""
    poses = closed_about_wrong_axis(np.array([[0.0, 0.0, 0.0], [9.0, 0.0, 4.0]]), [0.3, 0.0])
    np.testing.assert_allclose(poses, np.tile(np.eye(4), (2, 1, 1)), atol=1e-15)
