"""How far one tooth holds all others open, along the closing arc at its contact."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.closure import MEETS, close
from kinematics.contact.sweep import GUIDED_BY_TEETH, Sweep
from kinematics.conventions import Bools, Floats
from kinematics.planning.occlusion import Occlusion, without
from kinematics.tooth_codes import is_upper


@dataclass(frozen=True)
class Height:
    """The greatest height of one tooth in a range of travel.

    Attributes
    ----------
    tooth : int
        ISO 3950 number of the tooth that was left out to find it.
    height_mm : float
        Difference between the closures with and without the tooth, along the closing arc at its
        contact; inf where nothing else would meet.
    travel_mm : float
        Travel at which it is greatest.
    pose : int
        Index of that pose in its sweep.
    """

    tooth: int
    height_mm: float
    travel_mm: float
    pose: int


def heights_mm(occlusion: Occlusion, sweep: Sweep, tooth: int) -> Floats:
    """Return the height of one tooth in every pose of a sweep, shape (n,), mm.

    It is 0 wherever another tooth, or the incisal guide table, ends the closing.
    """
    closures = sweep.closures
    code = closures.tooth_upper if is_upper(tooth) else closures.tooth_lower
    holds = (code == tooth) & (closures.status == MEETS) & (sweep.guide == GUIDED_BY_TEETH)
    heights = np.zeros(len(sweep.travel_mm))
    if not holds.any():
        return heights
    poses = np.ascontiguousarray(sweep.positions.pose_at_zero[holds])
    opening = close(occlusion.pair, poses, without(frozenset({tooth}))).opening_rad
    if sweep.table_opening_rad is not None:
        opening = np.maximum(opening, sweep.table_opening_rad[holds])
    heights[holds] = (closures.opening_rad[holds] - opening) * closures.radius_mm[holds]
    return heights


def greatest_height(occlusion: Occlusion, sweep: Sweep, tooth: int, mask: Bools) -> Height:
    """Return the greatest height of one tooth over the poses of a mask, the first of equals."""
    poses = np.flatnonzero(mask)
    heights = heights_mm(occlusion, sweep, tooth)[poses]
    best = int(np.argmax(heights))
    pose = int(poses[best])
    return Height(tooth, float(heights[best]), float(sweep.travel_mm[pose]), pose)
