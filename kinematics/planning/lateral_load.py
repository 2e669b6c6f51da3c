"""What a slanting contact pushes across a tooth for every newton along it."""

import math

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse


def across_per_along(push: Floats, root_direction: Floats) -> float:
    """Return N across the long axis for every N along it: the tangent of the angle between them.

    Parameters
    ----------
    push : ndarray, shape (3,)
        Direction of the force on the tooth, any length.
    root_direction : ndarray, shape (3,)
        Unit vector along the long axis towards the root.

    Returns
    -------
    float
        inf where the force has no part towards the root.
    """
    along = float(push @ root_direction)
    across = float(np.linalg.norm(push - along * root_direction))
    # A force at right angles computes as 1e-16 along; that is none.
    return across / along if along > 1e-9 * across else math.inf


def with_friction(normal: Floats, sliding: Floats, coefficient: float) -> Floats:
    """Return the direction of the force on a surface over which another one slides.

    Parameters
    ----------
    normal : ndarray, shape (3,)
        Unit normal with which the sliding surface pushes.
    sliding : ndarray, shape (3,)
        Its movement relative to the other, any length; zero for none.
    coefficient : float
        Coefficient of friction.

    Returns
    -------
    ndarray, shape (3,)
        Normal plus friction along the movement, not of unit length.
    """
    tangent = sliding - (sliding @ normal) * normal
    length = float(np.linalg.norm(tangent))
    if length <= 1e-9:
        return normal
    return np.asarray(normal + coefficient * tangent / length)


def angle_to_axis_deg(normal: Floats, root_direction: Floats) -> float:
    """Return the angle between a unit normal and the long axis, 0 to 180 degrees."""
    (a, b, c), (x, y, z) = normal.tolist(), root_direction.tolist()
    # numpy's cross product takes longer than all the rest of a contact's load.
    across = float(np.linalg.norm([b * z - c * y, c * x - a * z, a * y - b * x]))
    return math.degrees(math.atan2(across, float(normal @ root_direction)))


def sliding_at(sweep: Sweep, pose: int, place: Floats) -> Floats:
    """Return how a point of the lower moves, hinge frame, mm, from the pose before to the next."""
    before, after = max(pose - 1, 0), min(pose + 1, len(sweep.poses) - 1)
    point = inverse(sweep.poses[pose]) @ np.append(place, 1.0)
    return np.asarray((sweep.poses[after] @ point - sweep.poses[before] @ point)[:3])
