"""The sides of one crown as surveyed: undercuts, heights of contour, surfaces that guide."""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from kinematics.conventions import Bools, Floats, Ints
from kinematics.planning.crown_places import CrownFrame
from kinematics.planning.surveying.path_frames import PathFrame
from kinematics.planning.surveying.side_outlines import STEP_MM, SideOutline, side_outline
from kinematics.planning.surveying.survey import (
    GAUGES_MM,
    KEPT_FREE_MM,
    CrownSide,
    GaugeReading,
    SurveyedSide,
)
from kinematics.planning.surveying.survey_lines import Surveyed, surveyed

CROWN_SIDES: Final[tuple[CrownSide, ...]] = ("facial", "lingual", "mesial", "distal")
#: A side of a crown is what faces within this of its direction, in plan.
_HALF_SIDE: Final = math.cos(math.radians(45.0))
#: Its lower border is taken so far to either side of its middle, mm (chosen for this program).
_HALF_STRIP_MM: Final = 1.0


@dataclass(frozen=True)
class SurveyedCrown:
    """One crown as seen along a path.

    Attributes
    ----------
    crown : CrownFrame
        Its surface and directions.
    seen : Surveyed
        The same along the path.
    """

    crown: CrownFrame
    seen: Surveyed

    @property
    def code(self) -> int:
        """ISO 3950 number."""
        return self.crown.tooth.code

    def direction(self, side: CrownSide) -> Floats:
        """Return the level direction (2,) that a side faces."""
        frame, crown = self.seen.frame, self.crown
        along = crown.facial if side in ("facial", "lingual") else crown.mesial
        sign = 1.0 if side in ("facial", "mesial") else -1.0
        return sign * frame.level(along)

    @cached_property
    def facing(self) -> Floats:
        """Which way every vertex (n, 2) faces in plan, of unit length."""
        outward = self.seen.outward
        lengths = np.linalg.norm(outward, axis=1)
        return np.asarray(outward / np.where(lengths > 0.0, lengths, 1.0)[:, None])

    @property
    def middle(self) -> Floats:
        """Its middle in plan (2,), mm."""
        assert self.seen.middle is not None  # a crown always has one
        return self.seen.middle

    def on_side(self, side: CrownSide) -> Bools:
        """Tell which vertices (n,) belong to a side: on outer walls that face its way."""
        towards, seen = self.direction(side), self.seen
        out = (seen.plan - self.middle) @ towards > 0.0
        return np.asarray(out & seen.steep & (self.facing @ towards > _HALF_SIDE))

    def border_mm(self, side: CrownSide) -> float:
        """Return the height of the lower border of the crown at the middle of a side."""
        seen, own, towards = self.seen, self.on_side(side), self.direction(side)
        across = (seen.plan - self.middle) @ np.array([-towards[1], towards[0]])
        middle = own & (np.abs(across) <= _HALF_STRIP_MM)
        chosen = middle if middle.any() else own
        return float(seen.height[chosen].min() if chosen.any() else seen.height.min())

    def outline(self, side: CrownSide, step_mm: float = STEP_MM) -> SideOutline:
        """Return its outline in the direction of a side, from the border there upward."""
        whole = side_outline(self.seen, self.direction(side), step_mm)
        return whole.above(self.border_mm(side))

    def surveyed_side(self, side: CrownSide, faces_base: bool) -> SurveyedSide:
        """Return what is told of a side."""
        outline, border = self.outline(side), self.border_mm(side)
        top = float(outline.height_mm[outline.contour])
        depth = self.seen.depth_mm[self.on_side(side)]
        gauges = []
        for gauge in GAUGES_MM:
            below = outline.below_contour_mm(gauge)
            known = below <= top - border  # not where the outline goes on below its crown
            gauges.append(
                GaugeReading(
                    gauge, below if known else None, top - below - border if known else None
                )
            )
        return SurveyedSide(
            side=side,
            faces_base=faces_base,
            deepest_mm=float(depth.max()) if len(depth) else 0.0,
            usable_mm=outline.undercut_mm(border + KEPT_FREE_MM),
            line_above_border_mm=top - border,
            gauges=tuple(gauges),
        )

    def usable_mm(self, side: CrownSide, step_mm: float) -> float:
        """Return the greatest undercut that keeps free of the border, by heights so far apart."""
        outline = self.outline(side, step_mm)
        return outline.undercut_mm(self.border_mm(side) + KEPT_FREE_MM)

    def cut_mm(self, side: CrownSide, wanted_mm: float, step_mm: float = STEP_MM) -> float:
        """Return how deep a plane of a wanted height must be cut there; inf: the crown is too low.

        It keeps as free of the border as a clasp does.
        """
        outline = self.outline(side, step_mm)
        return outline.cut_for_mm(wanted_mm, self.border_mm(side) + KEPT_FREE_MM)

    def guiding(self, side: CrownSide, within_deg: float) -> tuple[float, float]:
        """Return height and width of what guides on a side, mm.

        The height is that of its outline about the height of contour, the width that of the largest
        patch of triangles at these heights which lean from the path by no more than the same angle.
        """
        seen, towards = self.seen, self.direction(side)
        low, high = self.outline(side).guiding_band(within_deg)
        lengths = np.linalg.norm(seen.crosses, axis=1)
        level = seen.frame.plan(seen.crosses)
        flat = np.linalg.norm(level, axis=1)
        heights = seen.height[seen.mesh.faces]
        steep = (
            np.abs(seen.frame.height(seen.crosses)) <= math.sin(math.radians(within_deg)) * lengths
        )
        within = (heights.min(axis=1) <= high) & (heights.max(axis=1) >= low) & (lengths > 0.0)
        chosen = np.flatnonzero(steep & within & (level @ towards > _HALF_SIDE * flat))
        if len(chosen) == 0:
            return high - low, 0.0
        patch = _largest_patch(seen.mesh.faces[chosen], 0.5 * lengths[chosen])
        used = np.unique(seen.mesh.faces[chosen[patch]])
        across = np.array([-towards[1], towards[0]])
        return high - low, float(np.ptp(seen.plan[used] @ across))

    def lean_deg(self, side: CrownSide, over_mm: float) -> float:
        """Return how a side leans from the path about its height of contour, degrees."""
        seen, towards = self.seen, self.direction(side)
        outline = self.outline(side)
        middle = float(outline.height_mm[outline.contour])
        low = max(middle - 0.5 * over_mm, self.border_mm(side) + KEPT_FREE_MM)
        at = seen.height[seen.mesh.faces].mean(axis=1)
        level = seen.frame.plan(seen.crosses)
        flat = np.linalg.norm(level, axis=1)
        own = (at >= low) & (at <= low + over_mm) & (level @ towards > _HALF_SIDE * flat)
        total = seen.crosses[own].sum(axis=0)
        away = float(seen.frame.plan(total) @ towards)
        return math.degrees(math.atan2(float(seen.frame.height(total)), away)) if own.any() else 0.0


def surveyed_crown(crown: CrownFrame, frame: PathFrame) -> tuple[SurveyedCrown, Ints]:
    """Return a crown as seen along a path, and which of its vertices each given one is."""
    seen, number = surveyed(crown.surface, frame)
    return SurveyedCrown(crown, seen), number


def tilted(crown: SurveyedCrown, frame: PathFrame) -> SurveyedCrown:
    """Return the same crown as seen along another path."""
    plan = frame.plan(crown.seen.mesh.vertices)
    middle = 0.5 * (plan.min(axis=0) + plan.max(axis=0))
    return SurveyedCrown(crown.crown, Surveyed(crown.seen.mesh, frame, middle, crown.seen.edges))


def _largest_patch(faces: Ints, areas: Floats) -> Ints:
    """Return rows of the triangles of the largest patch that hangs together by edges."""
    sides = np.sort(faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    owner = np.repeat(np.arange(len(faces)), 3)
    order = np.lexsort((owner, sides[:, 1], sides[:, 0]))
    sides, owner = sides[order], owner[order]
    same = (sides[1:] == sides[:-1]).all(axis=1)
    one, other = owner[:-1][same], owner[1:][same]
    links = coo_array((np.ones(len(one)), (one, other)), shape=(len(faces), len(faces)))
    _, patch = connected_components(links, directed=False)
    largest = int(np.argmax(np.bincount(patch, weights=areas)))
    return np.asarray(np.flatnonzero(patch == largest))
