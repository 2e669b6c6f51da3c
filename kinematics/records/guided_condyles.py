"""Where guidance puts the condyles at given advances, ahead of and, by errors, behind CR."""

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.guidance.condyles import lateral_step
from kinematics.guidance.guidance import Guidance, Side
from kinematics.guidance.mandible import GuidanceCoordinates


def condyles(
    guidance: Guidance, right_leads: Bools, right_mm: Floats, left_mm: Floats, shift_mm: Floats
) -> Floats:
    """Return condyle centres, right and left, (n, 2, 3), in the hinge frame.

    Unlike `place` it takes an advance a little behind CR, and a shift outward: errors of records
    lead there, and cutting them off would tilt what is found.

    Parameters
    ----------
    guidance : Guidance
        Of one jaw, or of one for each of the n places.
    right_leads : ndarray, shape (n,)
        Whether the right condyle is the nonworking one, else the left.
    right_mm, left_mm : ndarray, shape (n,)
        Advance of each condyle.
    shift_mm : ndarray, shape (n,)
        Immediate side shift used, inward of the leading condyle.
    """
    by_right = lateral_step(guidance, guidance.right, left_mm, right_mm - left_mm, shift_mm)
    by_left = lateral_step(guidance, guidance.left, right_mm, left_mm - right_mm, shift_mm)
    right = np.where(right_leads[:, None], by_right.nonworking, by_left.working)
    left = np.where(right_leads[:, None], by_right.working, by_left.nonworking)
    return np.stack([right, left], axis=1)


def condyles_in_mi(guidance: Guidance, mi: GuidanceCoordinates, count: int) -> Floats:
    """Return right and left condyle centre in MI, (n, 2, 3), hinge frame, mm.

    Parameters
    ----------
    guidance : Guidance
        Of one jaw, or of n.
    mi : GuidanceCoordinates
        MI along the paths.
    count : int
        n.
    """
    right, left = mi.advance_right_mm, mi.advance_left_mm
    right_leads = np.full(count, mi.shift_mm > 0.0 or (mi.shift_mm == 0.0 and right > left))
    numbers = (np.full(count, value) for value in (right, left, abs(mi.shift_mm)))
    return condyles(guidance, right_leads, *numbers)


def shift_used(nonworking: Side, shift_mm: Floats, excess_mm: Floats) -> Floats:
    """Return how much of an immediate shift (n,) a side has used at an excess advance (n,), mm."""
    if nonworking.early_over_mm == 0.0:
        return shift_mm
    return np.asarray(shift_mm * np.clip(excess_mm / nonworking.early_over_mm, 0.0, 1.0))
