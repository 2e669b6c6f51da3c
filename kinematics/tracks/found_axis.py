"""What a track of a hinge opening says of the hinge axis: where it passes, and how certain."""

import math
from dataclasses import dataclass

Pair = tuple[float, float]
Vector = tuple[float, float, float]


@dataclass(frozen=True)
class AxisPlace:
    """Where an axis passes one condyle, in the sagittal plane of its centre.

    Attributes
    ----------
    forward_mm, up_mm : float
        From the axis of the case, hinge frame.
    errors_mm : (float, float)
        Standard errors forward and up, by the scatter of rows and by how the recorder was fixed.
    by_rows_mm : (float, float)
        The part of them by the scatter of rows.
    reach_mm : (float, float)
        Half widths of the 95 % intervals.
    """

    forward_mm: float
    up_mm: float
    errors_mm: Pair
    by_rows_mm: Pair
    reach_mm: Pair

    @property
    def distance_mm(self) -> float:
        """From the axis of the case."""
        return math.hypot(self.forward_mm, self.up_mm)

    @property
    def holds_as_set(self) -> bool:
        """Whether the axis of the case lies in both intervals."""
        return abs(self.forward_mm) <= self.reach_mm[0] and abs(self.up_mm) <= self.reach_mm[1]


@dataclass(frozen=True)
class FoundAxis:
    """An axis at both condyles.

    Attributes
    ----------
    right, left : AxisPlace
        Where it passes.
    rows, turns : int
        From how many independent rows and how many turns it was found.
    point_right, point_left : tuple of float
        The same places in the coordinates of the file, mm: of scans ready for
        `scans.mounting.axis_right` and `axis_left`.
    """

    right: AxisPlace
    left: AxisPlace
    rows: int
    turns: int
    point_right: Vector
    point_left: Vector


@dataclass(frozen=True)
class HingeAxis:
    """What a track of a hinge opening says of the hinge axis.

    Attributes
    ----------
    number : int
        Which track of the case, counted from 1.
    opened_deg : float
        How far the jaw turns in all.
    used_deg : float
        Up to which opening it turns about one axis; 0 where it does not.
    moved_mm : float
        By how much points of that axis beside the condyles move until then.
    moved_in_all_mm : float
        By how much they move over the whole track.
    finite : FoundAxis or None
        By turns between all pairs of places; None where the track is no hinge opening.
    instantaneous : FoundAxis or None
        By velocities; None where the jaw turned too slowly, or there is no axis.
    wander_mm : float
        How far the axes of single moments pass from their common one at the condyles, root mean
        square.
    reason : str
        Why no axis is told; empty where one is.
    """

    number: int
    opened_deg: float
    used_deg: float
    moved_mm: float
    moved_in_all_mm: float
    finite: FoundAxis | None
    instantaneous: FoundAxis | None
    wander_mm: float
    reason: str

    @property
    def far_mm(self) -> float:
        """How far the axis passes from that of the case at the worse condyle; 0 without one."""
        if self.finite is None:
            return 0.0
        return max(self.finite.right.distance_mm, self.finite.left.distance_mm)
