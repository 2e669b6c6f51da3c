"""How labelled scans lie: a frame like that of a head, from the places of their teeth alone."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, pose_of
from kinematics.tooth_codes import is_posterior, is_right


def head_from_scan(upper: Mapping[int, Floats], lower: Mapping[int, Floats]) -> Floats:
    """Return the pose (4, 4) into a frame with x anterior, y to the patient's left, z superior.

    Its xy plane is roughly that of the teeth. Whether the casts then stand as in a mouth is for
    `standing.check_standing` to say: mirrored ones do not.

    Parameters
    ----------
    upper, lower : mapping of tooth number to ndarray, shape (3,)
        Middle of every tooth in the coordinates of the scans, the jaw in MI.

    Raises
    ------
    InputError
        Not enough teeth on both sides, in front and behind.
    """
    teeth = [*upper.items(), *lower.items()]
    back = {
        right: [place for code, place in teeth if is_posterior(code) and is_right(code) == right]
        for right in (True, False)
    }
    front = [place for code, place in teeth if not is_posterior(code)]
    if not (back[True] and back[False] and front):
        raise InputError(
            "scans: the casts have no labelled front teeth, or no back teeth on one side, so that "
            "neither their landmarks nor the way they lie can be found; give scans.mounting by "
            "transform or hinge axis"
        )
    right, left = (np.mean(back[side], axis=0) for side in (True, False))
    ways = directions(right, left, np.mean(front, axis=0))
    return frame_at(np.mean([place for _, place in teeth], axis=0), ways.ahead, ways.across)


@dataclass(frozen=True)
class Directions:
    """How three points lie: from the right one to the left, and from their line to the front one.

    Attributes
    ----------
    across, ahead : ndarray, shape (3,)
        Unit vectors, square to each other.
    apart_mm, ahead_mm : float
        Distance of right and left, and of the front point from the line through them.
    """

    across: Floats
    ahead: Floats
    apart_mm: float
    ahead_mm: float


def directions(right: Floats, left: Floats, front: Floats) -> Directions:
    """Return how three points (3,) lie; of equal ones, or of three on a line, nan directions."""
    apart = float(np.linalg.norm(left - right))
    with np.errstate(divide="ignore", invalid="ignore"):
        across = (left - right) / apart
        ahead = front - 0.5 * (left + right)
        ahead = ahead - (ahead @ across) * across
        distance = float(np.linalg.norm(ahead))
        return Directions(across, ahead / distance, apart, distance)


def frame_at(origin: Floats, ahead: Floats, across: Floats) -> Floats:
    """Return the pose (4, 4) into the frame with this origin, x ahead and y across to the left."""
    axes = np.stack([ahead, across, np.cross(ahead, across)], axis=1)
    return inverse(pose_of(axes, origin))
