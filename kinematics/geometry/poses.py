"""Rigid transforms as 4x4 homogeneous matrices, one or many. Active, right-handed."""

import numpy as np

from kinematics.conventions import Floats


def identity_poses(n: int) -> Floats:
    """Return `n` identity matrices, shape (n, 4, 4)."""
    return np.tile(np.eye(4), (n, 1, 1))


def pose_of(rotation: Floats, translation: Floats) -> Floats:
    """Return poses (..., 4, 4) from rotations (..., 3, 3) and translations (..., 3), mm."""
    shape = np.broadcast_shapes(rotation.shape[:-2], translation.shape[:-1])
    pose = np.zeros((*shape, 4, 4))
    pose[..., :3, :3] = rotation
    pose[..., :3, 3] = translation
    pose[..., 3, 3] = 1.0
    return pose


def inverse(pose: Floats) -> Floats:
    """Return the inverse of rigid poses (..., 4, 4)."""
    turn = np.swapaxes(pose[..., :3, :3], -1, -2)
    return pose_of(turn, -(turn @ pose[..., :3, 3:])[..., 0])


def _cross_matrix(vector: Floats) -> Floats:
    """Return matrices (..., 3, 3) that multiply like the cross product with vectors (..., 3)."""
    x, y, z = vector[..., 0], vector[..., 1], vector[..., 2]
    matrix = np.zeros((*vector.shape[:-1], 3, 3))
    matrix[..., 0, 1], matrix[..., 0, 2], matrix[..., 1, 2] = -z, y, -x
    matrix[..., 1, 0], matrix[..., 2, 0], matrix[..., 2, 1] = z, -y, x
    return matrix


def rotation_about(axis: Floats, angle_rad: Floats | float) -> Floats:
    """Return rotations (..., 3, 3) about unit axes (..., 3) by angles (...), radians."""
    axis = np.asarray(axis, dtype=np.float64)
    angle = np.asarray(angle_rad, dtype=np.float64)
    axis = np.broadcast_to(axis, (*np.broadcast_shapes(axis.shape[:-1], angle.shape), 3))
    cross = _cross_matrix(axis)
    outer = axis[..., :, None] * axis[..., None, :]
    cos = np.cos(angle)[..., None, None]
    sin = np.sin(angle)[..., None, None]
    return np.asarray(cos * np.eye(3) + sin * cross + (1.0 - cos) * outer)


def smallest_rotation(start: Floats, end: Floats) -> Floats:
    """Return the smallest rotations (..., 3, 3) that turn unit vectors `start` onto `end`."""
    cos = (start * end).sum(axis=-1)[..., None, None]
    # Multiplies like the cross product with start x end.
    cross = end[..., :, None] * start[..., None, :] - start[..., :, None] * end[..., None, :]
    return np.asarray(np.eye(3) + cross + cross @ cross / (1.0 + cos))


def opening_rotation(opening_rad: Floats | float) -> Floats:
    """Return the pose (..., 4, 4), in lower coordinates, of an opening about the hinge axis.

    The hinge axis is the y axis of the lower, so `hinge_from_lower @ opening_rotation(t)` opens
    the lower by t without moving its condyles.
    """
    opening = np.asarray(opening_rad, dtype=np.float64)
    cos, sin = np.cos(opening), np.sin(opening)
    pose = np.zeros((*opening.shape, 4, 4))
    pose[..., 0, 0], pose[..., 0, 2] = cos, sin
    pose[..., 2, 0], pose[..., 2, 2] = -sin, cos
    pose[..., 1, 1] = pose[..., 3, 3] = 1.0
    return pose


def move_points(pose: Floats, points: Floats) -> Floats:
    """Return points (m, 3) moved by one pose (4, 4), or by n poses: (n, m, 3).

    Points (n, m, 3) are moved each row by its own of n poses.
    """
    return points @ np.swapaxes(pose[..., :3, :3], -1, -2) + pose[..., None, :3, 3]


def turn_vectors(pose: Floats, vectors: Floats) -> Floats:
    """Return vectors (m, 3) turned by one pose (4, 4), or by n poses: (n, m, 3)."""
    return vectors @ np.swapaxes(pose[..., :3, :3], -1, -2)
