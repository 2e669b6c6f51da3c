"""The outline of a crown from one side, along the path of insertion: reach by height."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.surveying.survey_lines import Surveyed

#: Heights at which an outline is taken, mm apart.
STEP_MM: Final = 0.02


@dataclass(frozen=True)
class SideOutline:
    """How far a crown reaches in one level direction, at every height.

    Attributes
    ----------
    height_mm : ndarray, shape (k,)
        Ascending.
    reach_mm : ndarray, shape (k,)
        Greatest place along the direction at that height.
    """

    height_mm: Floats
    reach_mm: Floats

    def above(self, height_mm: float) -> "SideOutline":
        """Return what of it lies not below a height; at least its upper end."""
        first = min(int(np.searchsorted(self.height_mm, height_mm)), len(self.height_mm) - 2)
        return SideOutline(self.height_mm[first:], self.reach_mm[first:])

    @property
    def contour(self) -> int:
        """Row of the height of contour: the greatest reach, the highest such place."""
        last = len(self.reach_mm) - 1
        return last - int(np.argmax(self.reach_mm[::-1]))

    def undercut_mm(self, from_height_mm: float) -> float:
        """Return the greatest undercut below the contour and not below a height, mm."""
        top = self.contour
        rows = np.flatnonzero(self.height_mm[: top + 1] >= from_height_mm)
        if len(rows) == 0:
            return 0.0
        return float(self.reach_mm[top] - self.reach_mm[rows].min())

    def below_contour_mm(self, undercut_mm: float) -> float:
        """Return how far below the contour an undercut is first reached, mm; inf where nowhere."""
        top = self.contour
        depth = (self.reach_mm[top] - self.reach_mm[: top + 1])[::-1]
        rows = np.flatnonzero(depth >= undercut_mm)
        if len(rows) == 0:
            return float("inf")
        row = int(rows[0])
        if row == 0:
            return 0.0
        share = (undercut_mm - depth[row - 1]) / (depth[row] - depth[row - 1])
        return float((row - 1 + share) * (self.height_mm[1] - self.height_mm[0]))

    def guiding_band(self, within_deg: float) -> tuple[float, float]:
        """Return from which to which height the side guides, mm.

        As far down and up from the contour as the straight line to there leans from the path by no
        more than an angle.
        """
        top = self.contour
        fall = self.reach_mm[top] - self.reach_mm
        rows = np.arange(len(fall))
        far = np.abs(self.height_mm - self.height_mm[top])
        leans = (fall > np.tan(np.radians(within_deg)) * far) & (rows != top)
        below, above = rows[leans & (rows < top)], rows[leans & (rows > top)]
        first = int(below.max()) + 1 if len(below) else 0
        last = int(above.min()) - 1 if len(above) else len(fall) - 1
        return float(self.height_mm[first]), float(self.height_mm[last])

    def cut_for_mm(self, wanted_mm: float, from_height_mm: float) -> float:
        """Return how deep a plane along the path must be cut for a wanted height, mm.

        The shallowest of all bands of that height which the crown has from some height on; inf
        where the crown is lower than that.
        """
        kept = self.reach_mm[self.height_mm >= from_height_mm]
        count = int(np.ceil(wanted_mm / (self.height_mm[1] - self.height_mm[0]) - 1e-9)) + 1
        if len(kept) < count:
            return float("inf")
        windows = np.lib.stride_tricks.sliding_window_view(kept, count)
        return float(self.reach_mm.max() - windows.min(axis=1).max())


def side_outline(seen: Surveyed, direction: Floats, step_mm: float = STEP_MM) -> SideOutline:
    """Return the outline of a surface in a level direction.

    Parameters
    ----------
    seen : Surveyed
        The surface.
    direction : ndarray, shape (2,)
        Unit, in plan.
    step_mm : float
        How far apart heights are.
    """
    reach, height = seen.plan @ direction, seen.height
    low, high = float(height.min()), float(height.max())
    count = max(int(np.floor((high - low) / step_mm)), 2)
    levels = low + (high - low) * (np.arange(count) + 0.5) / count
    order = np.argsort(height[seen.edges], axis=1, kind="stable")
    sides = np.take_along_axis(seen.edges, order, axis=1)
    below, above = height[sides[:, 0]], height[sides[:, 1]]
    first = np.searchsorted(levels, below)
    last = np.searchsorted(levels, above, "right")
    counts = last - first
    edge = np.repeat(np.arange(len(sides)), counts)
    level = np.arange(len(edge)) - np.repeat(np.cumsum(counts) - counts, counts) + first[edge]
    span = (above - below)[edge]
    share = (levels[level] - below[edge]) / np.where(span > 0.0, span, 1.0)
    start, end = reach[sides[edge, 0]], reach[sides[edge, 1]]
    found = np.full(count, -np.inf)
    np.maximum.at(found, level, start + share * (end - start))
    usable = np.isfinite(found)
    return SideOutline(levels[usable], found[usable])
