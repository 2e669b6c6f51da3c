"""Rigid transforms keep lengths, invert, and turn the way the conventions say."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from kinematics.geometry import poses

UNIT = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: 0.1 < np.linalg.norm(v) < 2)
ANGLE = st.floats(-3.1, 3.1)
RULES = settings(derandomize=True, deadline=None, max_examples=100)


def unit(vector):
    """Scale to length 1."""
    return np.array(vector) / np.linalg.norm(vector)


@RULES
@given(UNIT, ANGLE)
def test_rotation_agrees_with_a_reference_library(axis, angle):
    """Rotation about an axis equals scipy's rotation vector."""
    got = poses.rotation_about(unit(axis), angle)
    wanted = Rotation.from_rotvec(unit(axis) * angle).as_matrix()
    np.testing.assert_allclose(got, wanted, atol=1e-12)


@RULES
@given(UNIT, UNIT)
def test_smallest_rotation_turns_one_onto_the_other_by_their_angle(start, end):
    """It maps start to end and turns by exactly the angle between them."""
    a, b = unit(start), unit(end)
    if a @ b < -0.99:
        return
    turn = poses.smallest_rotation(a, b)
    np.testing.assert_allclose(turn @ a, b, atol=1e-9)
    angle = np.linalg.norm(Rotation.from_matrix(turn).as_rotvec())
    assert angle == pytest.approx(np.arctan2(np.linalg.norm(np.cross(a, b)), a @ b), abs=1e-7)


@RULES
@given(UNIT, ANGLE, st.tuples(*[st.floats(-50, 50)] * 3))
def test_inverse_undoes(axis, angle, shift):
    """A pose times its inverse is the identity."""
    pose = poses.pose_of(poses.rotation_about(unit(axis), angle), np.array(shift))
    np.testing.assert_allclose(pose @ poses.inverse(pose), np.eye(4), atol=1e-12)


def test_opening_moves_what_is_ahead_of_the_axis_down():
    """A quarter turn of opening brings a point straight ahead straight below the axis."""
    down = poses.move_points(poses.opening_rotation(np.pi / 2), np.array([[84.0, 3.0, 0.0]]))
    np.testing.assert_allclose(down, [[0.0, 3.0, -84.0]], atol=1e-12)


def test_many_poses_move_many_points():
    """Shapes are poses x points x 3, and vectors are not shifted."""
    both = poses.pose_of(
        poses.rotation_about(np.array([0.0, 0.0, 1.0]), np.array([0.0, np.pi / 2])),
        np.array([[1.0, 2.0, 3.0], [0.0, 0.0, 0.0]]),
    )
    got = poses.move_points(both, np.array([[1.0, 0.0, 0.0]]))
    np.testing.assert_allclose(got, [[[2.0, 2.0, 3.0]], [[0.0, 1.0, 0.0]]], atol=1e-15)
    turned = poses.turn_vectors(both, np.array([[1.0, 0.0, 0.0]]))
    np.testing.assert_allclose(turned[0], [[1.0, 0.0, 0.0]], atol=1e-15)
