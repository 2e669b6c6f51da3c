"""How far one tooth holds all others open, along the closing arc at its contact."""

from dataclasses import dataclass, fields

import numpy as np

from kinematics.contact.closure import MEETS
from kinematics.contact.mounted import GUIDED_BY_TEETH, guided_closure
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats, Ints
from kinematics.guidance.mandible import JawPositions
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
    if not holds.any():
        return np.zeros(len(holds))
    positions = JawPositions(
        **{
            field.name: getattr(sweep.positions, field.name)[holds]
            for field in fields(JawPositions)
        }
    )
    others = guided_closure(occlusion.casts, positions, Workers(), without(frozenset({tooth})))
    heights = np.zeros(len(holds))
    further = closures.opening_rad[holds] - others.opening_rad
    heights[holds] = further * closures.radius_mm[holds]
    return heights


def greatest(heights: Floats, poses: Ints, sweep: Sweep, tooth: int) -> Height:
    """Return the greatest of some heights (n,) over some poses, the first of equals."""
    pose = int(poses[int(np.argmax(heights[poses]))])
    return Height(tooth, float(heights[pose]), float(sweep.travel_mm[pose]), pose)
