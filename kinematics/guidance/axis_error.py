"""What a wrong hinge axis does to a record that was taken open."""

import numpy as np
from numpy.typing import ArrayLike

from kinematics.conventions import Floats
from kinematics.geometry.poses import opening_rotation, pose_of


def closed_about_wrong_axis(axis_offset_mm: Floats, opening_rad: ArrayLike) -> Floats:
    """Return the poses (n, 4, 4) in which casts end that are closed about another axis.

    The jaw was opened about its own hinge axis, recorded there, and the casts are closed by the
    same angle about the axis they were mounted to. Every point ends equally far from its true
    place, by 2 e sin(opening / 2), e the distance of the axes.

    Parameters
    ----------
    axis_offset_mm : ndarray, shape (n, 3)
        Place of the mounted axis, from the true one; both are parallel.
    opening_rad : array_like, shape (n,) or number
        Opening at which the record was taken.
    """
    opening = np.asarray(opening_rad, dtype=np.float64)
    there = pose_of(np.eye(3), axis_offset_mm)
    back = pose_of(np.eye(3), -axis_offset_mm)
    return np.asarray(there @ opening_rotation(-opening) @ back @ opening_rotation(opening))
