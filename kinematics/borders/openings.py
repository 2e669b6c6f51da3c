"""Openings about the condyles at which the lower incisal point has gone some way."""

import math

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points, opening_rotation


def opening_at_way(
    pose_at_zero: Floats, point: Floats, origin: Floats, way_mm: float
) -> float | None:
    """Return the greatest opening, radians, at which a point of the lower is so far from a place.

    Parameters
    ----------
    pose_at_zero : ndarray, shape (4, 4)
        hinge_from_lower at opening 0.
    point : ndarray, shape (3,)
        In lower coordinates, mm.
    origin : ndarray, shape (3,)
        Place in the hinge frame, mm.
    way_mm : float
        Straight distance from there.

    Returns
    -------
    float or None
        In -pi to pi; None where the point never comes so far, or never so near.

    Notes
    -----
    The square of the distance is a cos t + b sin t + c, which three openings tell.
    """
    turns = opening_rotation(np.array([0.0, 0.5 * math.pi, math.pi]))
    places = move_points(pose_at_zero @ turns, point[None])[:, 0]
    ahead, square, behind = ((places - origin) ** 2).sum(axis=1)
    middle = 0.5 * (ahead + behind)
    cosine, sine = 0.5 * (ahead - behind), square - middle
    size = math.hypot(cosine, sine)
    wanted = way_mm**2 - middle
    if abs(wanted) > size or size == 0.0:
        return None
    turn, half = math.atan2(sine, cosine), math.acos(wanted / size)
    both = (math.remainder(turn + side * half, 2.0 * math.pi) for side in (1.0, -1.0))
    return max(both)
