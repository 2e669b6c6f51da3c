"""Poses near a middle one as six numbers, in which a turn about one axis is a straight line."""

import numpy as np
from scipy.spatial.transform import RigidTransform, Rotation

from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, pose_of


def middle_pose(poses: Floats) -> Floats:
    """Return the one (4, 4) of some poses (n, 4, 4) that is turned most as all on the mean.

    It is one of them, so that poses of one hinge movement stay on one screw axis.
    """
    turns = Rotation.from_matrix(poses[:, :3, :3])
    apart = (turns * turns.mean().inv()).magnitude()
    return np.asarray(poses[int(np.argmin(apart))])


def screw_coordinates(poses: Floats, middle: Floats, about: Floats) -> Floats:
    """Return the motions from a middle pose to others as six numbers each.

    Linear operations on them, as smoothing, do not depend on the point they are about, and keep
    turns about one axis, and shifts along one line, what they are.

    Parameters
    ----------
    poses : ndarray, shape (n, 4, 4)
        Rigid; turned from the middle one by less than half a turn.
    middle : ndarray, shape (4, 4)
        Where motions begin.
    about : ndarray, shape (3,)
        Point whose shift is told.

    Returns
    -------
    ndarray, shape (n, 6)
        Rotation vector, rad, and the way of the point along the screw motion, mm.
    """
    there, back = pose_of(np.eye(3), about), pose_of(np.eye(3), -about)
    motions = back @ poses @ inverse(middle) @ there
    return np.asarray(RigidTransform.from_matrix(motions).as_exp_coords())


def poses_at(coordinates: Floats, middle: Floats, about: Floats) -> Floats:
    """Return the poses (n, 4, 4) that have such screw coordinates (n, 6)."""
    there, back = pose_of(np.eye(3), about), pose_of(np.eye(3), -about)
    motions = RigidTransform.from_exp_coords(coordinates).as_matrix()
    return np.asarray(there @ motions @ back @ middle)
