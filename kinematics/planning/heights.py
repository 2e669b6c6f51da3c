"""How far one tooth, or several, hold all others open, along the closing arc at their contact."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.closure import MEETS, Closures, close
from kinematics.contact.mounted import GUIDED_BY_TEETH
from kinematics.contact.pose_rows import picked
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.guidance.incisal_guide import table_opening
from kinematics.planning.occlusion import Occlusion, without


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
    """

    tooth: int
    height_mm: float
    travel_mm: float


def heights_mm(occlusion: Occlusion, sweep: Sweep, teeth: frozenset[int]) -> Floats:
    """Return how far some teeth hold all others open in every pose of a sweep, shape (n,), mm.

    That is the difference between the closures with and without them. It is 0 wherever another
    tooth, or the incisal guide table, ends the closing; inf where nothing else would meet.
    """
    closures, codes = sweep.closures, list(teeth)
    holds = _has(closures, codes) & (closures.status == MEETS) & (sweep.guide == GUIDED_BY_TEETH)
    if not holds.any():
        return np.zeros(len(holds))
    heights = np.zeros(len(holds))
    further = closures.opening_rad[holds] - _opening_without(occlusion, sweep, teeth, holds)
    heights[holds] = further * closures.radius_mm[holds]
    return heights


def _opening_without(
    occlusion: Occlusion, sweep: Sweep, teeth: frozenset[int], first: Bools
) -> Floats:
    """Return the opening at closure without some teeth, in those poses in which they touch first.

    What would touch next without the first pair alone is also what touches without the teeth in
    that pair, unless it is one of them again: leaving them out leaves out that pair, and more.
    """
    casts, codes = occlusion.casts, list(teeth)
    positions, opening = picked(sweep.positions, first), sweep.runner_up.opening_rad[first]
    again = _has(sweep.runner_up, codes)[first]
    if again.any():
        at_zero = positions.pose_at_zero[again]
        others = close(casts.pair, at_zero, without(teeth), occlusion.workers)
        opening[again] = others.opening_rad
    table = table_opening(casts.guidance, positions, casts.incisal_point, casts.incisal_point_in_mi)
    return np.maximum(table, opening)


def _has(closures: Closures, codes: list[int]) -> Bools:
    """Return where, shape (n,), some teeth touch first."""
    pairs = np.stack([closures.tooth_upper, closures.tooth_lower])
    return np.asarray(np.isin(pairs, codes).any(axis=0))


def greatest(heights: Floats, poses: Ints, sweep: Sweep, tooth: int) -> Height:
    """Return the greatest of some heights (n,) over some poses, the first of equals."""
    pose = int(poses[int(np.argmax(heights[poses]))])
    return Height(tooth, float(heights[pose]), float(sweep.travel_mm[pose]))
