"""The table of centric stops of the built-in dentition in MI."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import TOLERANCES, Floats
from kinematics.teeth.meeting import Footing, Meeting, Teeth

#: Contacts of two pairs of cusp regions nearer than this are one patch, mm.
SEPARATE_MM: Final = 0.3


@dataclass(frozen=True)
class Stop:
    """One centric stop.

    Attributes
    ----------
    upper_tooth, lower_tooth : int
        ISO 3950 numbers.
    cusp : str
        The supporting cusp, as "46 MB"; where two meet, the lower one.
    arc_gap_um : float
        Arc gap beyond the first contact, micrometres.
    point : ndarray, shape (3,)
        In the hinge frame, mm.
    """

    upper_tooth: int
    lower_tooth: int
    cusp: str
    arc_gap_um: float
    point: Floats


def code_of(kind: str, left: bool) -> int:
    """Return the ISO 3950 number of a crown type on one side."""
    quadrant = (2 if left else 1) if kind[0] == "U" else (3 if left else 4)
    return 10 * quadrant + int(kind[1])


def _cusp_name(teeth: Teeth, at: Footing) -> tuple[bool, str]:
    """Return whether a footing lies on a supporting cusp, and the name of that cusp."""
    crown = teeth[at.kind].crown
    if crown is None:
        return False, ""
    name = crown.form.cusp_names[at.cusp]
    return name in crown.form.supporting, name


def centric_stops(
    teeth: Teeth, meetings: Sequence[Meeting], first_mm: float, left: bool, scale: float
) -> tuple[Stop, ...]:
    """Return the stops between the posterior teeth of one side, from front to back.

    Parameters
    ----------
    teeth : mapping of str to StandingTooth
        Settled teeth of the left side, or of the right side mirrored to the left.
    meetings : sequence of Meeting
        Pairs of regions that meet in MI.
    first_mm : float
        Arc gap of the first contact of both sides, mm.
    left : bool
        Which side they are.
    scale : float
        Factor from these teeth to the real ones.
    """
    side = np.array([scale, scale if left else -scale, scale])
    found: list[tuple[Floats, Stop]] = []
    for meeting in meetings:
        gap = scale * (meeting.gap_mm - first_mm)
        kinds = (meeting.upper.kind, meeting.lower.kind)
        if gap > TOLERANCES.stop_mm or any(teeth[kind].crown is None for kind in kinds):
            continue
        if any(np.linalg.norm(meeting.point - point) < SEPARATE_MM for point, _ in found):
            continue
        upper, lower = (code_of(kind, left) for kind in kinds)
        lower_supports, lower_name = _cusp_name(teeth, meeting.lower)
        upper_supports, upper_name = _cusp_name(teeth, meeting.upper)
        of_lower = lower_supports or not upper_supports
        cusp = f"{lower} {lower_name}" if of_lower else f"{upper} {upper_name}"
        stop = Stop(upper, lower, cusp, 1000.0 * gap, meeting.point * side)
        found.append((meeting.point, stop))
    return tuple(
        sorted((stop for _, stop in found), key=lambda s: (s.lower_tooth % 10, -s.point[0]))
    )
