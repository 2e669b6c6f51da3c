"""Centric stops: which teeth meet in MI, and how evenly."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Stop:
    """One separate contact patch in MI.

    Attributes
    ----------
    tooth_upper, tooth_lower : int
        ISO 3950 numbers.
    point : tuple of float
        Place in the hinge frame, mm.
    arc_gap_mm : float
        Gap along the closing arc after the first contact.
    area_mm2 : float
        Area within the contact tolerance.
    normal : tuple of float
        Unit normal with which the lower pushes on the upper, hinge frame.
    """

    tooth_upper: int
    tooth_lower: int
    point: tuple[float, float, float]
    arc_gap_mm: float
    area_mm2: float
    normal: tuple[float, float, float]
