"""Which teeth hold the vertical dimension in MI, and by how much it is opened."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.slide import LEVEL_MM
from kinematics.planning.stops import Stop

Holder = Literal[
    "natural teeth alone",
    "natural and replacement teeth",
    "replacement teeth alone",
    "no stop",
]
NATURAL: Final = "natural teeth alone"
SHARED: Final = "natural and replacement teeth"
REPLACED: Final = "replacement teeth alone"
NO_STOP: Final = "no stop"


@dataclass(frozen=True)
class VerticalDimension:
    """What holds the jaws apart in MI.

    Attributes
    ----------
    held_by : str
        Teeth of the centric stops; a stop with a replacement tooth on either side is one of these.
    natural_stops, replacement_stops : int
        How many stops there are of either kind.
    natural_gap_mm : float
        Least shortest distance between natural teeth in MI, mm; inf beyond what was measured, and
        where no natural teeth face each other or no excursion starts in MI.
    opened_mm : float
        How far the lower incisal point stands below its place at opening 0, where the casts were
        set up; negative where they close further. Along the closing arc.
    """

    held_by: Holder
    natural_stops: int
    replacement_stops: int
    natural_gap_mm: float
    opened_mm: float

    @property
    def is_kept(self) -> bool:
        """Tell whether the casts meet at the opening they were set up at, within 0.02 mm."""
        return abs(self.opened_mm) <= LEVEL_MM


def vertical_dimension(
    sweeps: Sequence[Sweep],
    at: GuidanceCoordinates,
    incisal_point: Floats,
    stops: tuple[Stop, ...],
    replacement_teeth: tuple[int, ...],
) -> VerticalDimension:
    """Say what holds the vertical dimension.

    Parameters
    ----------
    sweeps : sequence of Sweep
        Excursions; the first pose of the first that starts in MI is read.
    at : GuidanceCoordinates
        MI with its opening.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in lower coordinates, mm.
    stops : tuple of Stop
        Centric stops.
    replacement_teeth : tuple of int
        ISO 3950 numbers.
    """
    replaced = sum(
        not {stop.tooth_upper, stop.tooth_lower}.isdisjoint(replacement_teeth) for stop in stops
    )
    natural = len(stops) - replaced
    holders: dict[tuple[bool, bool], Holder] = {
        (True, False): NATURAL,
        (True, True): SHARED,
        (False, True): REPLACED,
        (False, False): NO_STOP,
    }
    from_mi = (sweep for sweep in sweeps if sweep.excursion.start == "MI")
    gaps = (_natural_gap_mm(sweep, replacement_teeth) for sweep in from_mi)
    radius_mm = math.hypot(float(incisal_point[0]), float(incisal_point[2]))
    return VerticalDimension(
        held_by=holders[natural > 0, replaced > 0],
        natural_stops=natural,
        replacement_stops=replaced,
        natural_gap_mm=next(gaps, math.inf),
        opened_mm=at.opening_rad * radius_mm,
    )


def _natural_gap_mm(mi: Sweep, replacement_teeth: tuple[int, ...]) -> float:
    rows = ~np.isin(mi.upper_codes, replacement_teeth)
    columns = ~np.isin(mi.lower_codes, replacement_teeth)
    return float(np.min(mi.pair_gap_mm[0][rows][:, columns], initial=math.inf))
