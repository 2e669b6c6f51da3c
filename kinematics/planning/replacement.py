"""Replacement teeth that would touch in an excursion and carry lateral load."""

from dataclasses import dataclass

from kinematics.planning.findings import Severity


@dataclass(frozen=True)
class ReplacementContact:
    """Touch or near approach of one replacement tooth with one opponent in one excursion.

    Attributes
    ----------
    base : str
        Name of the denture base.
    tooth, opponent : int
        ISO 3950 numbers.
    excursion : str
        Name of the excursion.
    touches : bool
        True: within the tolerance; False: an approach nearer than the margin.
    travel_from_mm, travel_to_mm : float
        Range of travel.
    least_gap_mm : float
        Shortest distance in that range.
    place : tuple of float
        Where the gap is least, hinge frame, mm.
    height_mm : float
        How far the replacement tooth holds the others open (along the closing arc), 0 if it
        does not.
    normal_to_axis_deg : float
        Angle between the contact normal and the tooth's long axis.
    across_per_along : float
        N across the axis for every N along it (tangent of that angle, friction added if asked).
    lever_mm : float
        Horizontal distance along the arch to the last abutment.
    severity : str
        By the rule written in the report.
    """

    base: str
    tooth: int
    opponent: int
    excursion: str
    touches: bool
    travel_from_mm: float
    travel_to_mm: float
    least_gap_mm: float
    place: tuple[float, float, float]
    height_mm: float
    normal_to_axis_deg: float
    across_per_along: float
    lever_mm: float
    severity: Severity
