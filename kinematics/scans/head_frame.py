"""How labelled scans lie: a frame like that of a head, from the places of their teeth alone."""

from collections.abc import Mapping

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
    across = (left - right) / np.linalg.norm(left - right)
    ahead = np.mean(front, axis=0) - 0.5 * (left + right)
    ahead -= (ahead @ across) * across
    ahead /= np.linalg.norm(ahead)
    axes = np.stack([ahead, across, np.cross(ahead, across)], axis=1)
    return inverse(pose_of(axes, np.mean([place for _, place in teeth], axis=0)))
