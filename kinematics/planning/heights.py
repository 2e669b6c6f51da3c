"""How far one tooth, or several, hold all others open, along the closing arc at their contact."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.closure import MEETS, Closures, close
from kinematics.contact.mounted import GUIDED_BY_TEETH
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
    closures = sweep.closures
    holds = _has(closures, teeth) & (closures.status == MEETS) & (sweep.guide == GUIDED_BY_TEETH)
    heights = np.zeros(len(holds))
    if holds.any():
        others = openings_without(occlusion, sweep, teeth, holds)
        further = closures.opening_rad[holds] - others[holds]
        heights[holds] = further * closures.radius_mm[holds]
    return heights


def openings_without(
    occlusion: Occlusion, sweep: Sweep, teeth: frozenset[int], asked: Bools
) -> Floats:
    """Return the opening at closure without some teeth, on teeth or table, shape (n,), radians.

    Where none of them touches first it is that of the sweep. What would touch next if the first
    pair alone were left out is also what touches without the teeth in that pair, unless it is one
    of them again: leaving them out leaves out that pair, and more.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    sweep : Sweep
        One excursion.
    teeth : frozenset of int
        Teeth of either arch that are left out.
    asked : ndarray, shape (n,)
        The poses in which it is wanted; elsewhere it may be less than without them.
    """
    casts, first, second = occlusion.casts, sweep.closures, sweep.runner_up
    touching = _has(first, teeth)
    opening = np.where(touching, second.opening_rad, first.opening_rad)
    again = asked & touching & _has(second, teeth)
    if again.any():
        at_zero = sweep.positions.pose_at_zero[again]
        others = close(casts.pair, at_zero, without(teeth), occlusion.workers)
        opening[again] = others.opening_rad
    in_mi = casts.incisal_point_in_mi
    table = table_opening(casts.guidance, sweep.positions, casts.incisal_point, in_mi)
    return np.maximum(table, opening)


def _has(closures: Closures, teeth: frozenset[int]) -> Bools:
    """Return where, shape (n,), some teeth touch first."""
    upper, lower, wanted = closures.tooth_upper, closures.tooth_lower, list(teeth)
    return np.asarray(((upper[:, None] == wanted) | (lower[:, None] == wanted)).any(axis=1))


def greatest(heights: Floats, poses: Ints, sweep: Sweep, tooth: int) -> Height:
    """Return the greatest of some heights (n,) over some poses, the first of equals."""
    pose = int(poses[int(np.argmax(heights[poses]))])
    return Height(tooth, float(heights[pose]), float(sweep.travel_mm[pose]))
