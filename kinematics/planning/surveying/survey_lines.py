"""Heights of contour of a surface, seen along a path of insertion, and how deep it undercuts."""

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, in_order
from kinematics.planning.surveying.path_frames import PathFrame
from kinematics.planning.surveying.vertical_cover import covered

#: So many distances are taken at once.
_AT_ONCE: Final = 4_000_000
#: Undercuts shallower than this are rounding, mm.
LEAST_DEPTH_MM: Final = 1e-6


@dataclass(frozen=True)
class Surveyed:
    """A surface as seen along a path of insertion.

    Attributes
    ----------
    mesh : Mesh
        The surface; equal vertices are one.
    frame : PathFrame
        Directions.
    middle : ndarray, shape (2,), or None
        Of a crown, in plan, mm: what faces it is the occlusal surface, not the side. None: all of
        the surface counts.
    """

    mesh: Mesh
    frame: PathFrame
    middle: Floats | None
    edges: Ints

    @cached_property
    def plan(self) -> Floats:
        """Vertices (n, 2) in plan, mm."""
        return self.frame.plan(self.mesh.vertices)

    @cached_property
    def height(self) -> Floats:
        """Their heights (n,) along the path, mm."""
        return self.frame.height(self.mesh.vertices)

    @cached_property
    def crosses(self) -> Floats:
        """Twice the area vectors (m, 3) of the triangles, mm2."""
        corners = self.mesh.corners
        return np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])

    @cached_property
    def normals(self) -> Floats:
        """Normal of every vertex (n, 3), weighed by area, not of unit length."""
        total = np.zeros((len(self.mesh.vertices), 3))
        for corner in range(3):
            np.add.at(total, self.mesh.faces[:, corner], self.crosses)
        return total

    @cached_property
    def outward(self) -> Floats:
        """The same in plan (n, 2)."""
        return self.frame.plan(self.normals)

    @cached_property
    def steep(self) -> Bools:
        """Which vertices (n,) lie on walls, not on top and not below: leaning by 45 degrees."""
        rise = np.abs(self.frame.height(self.normals))
        return np.asarray(rise <= np.linalg.norm(self.outward, axis=1))

    @cached_property
    def lines(self) -> Ints:
        """Edges (e, 2) of the survey line: where the surface turns from upward to downward.

        Without those that something lies above, and without lips that face the middle. At an open
        border the line runs along it where the surface still looks upward.
        """
        edges, outward = _turning_edges(self)
        middle = self.plan[edges].mean(axis=1)
        edges = edges[self._faces_out(outward, middle)]
        hidden = covered(
            self.plan,
            self.height,
            self.mesh.faces,
            self.plan[edges].mean(axis=1),
            self.height[edges].mean(axis=1),
            edges,
        )
        return np.asarray(edges[~hidden])

    @cached_property
    def below(self) -> Bools:
        """Which vertices (n,) lie below the survey line: covered from above, on outer walls."""
        found = np.zeros(len(self.plan), dtype=bool)
        counts = self._faces_out(self.outward, self.plan)
        rows = np.flatnonzero(counts if self.middle is None else counts & self.steep)
        found[rows] = covered(
            self.plan,
            self.height,
            self.mesh.faces,
            self.plan[rows],
            self.height[rows],
            rows[:, None],
        )
        return found

    def _faces_out(self, outward: Floats, at: Floats) -> Bools:
        """Tell which places (n, 2) face away from the middle, if there is one."""
        if self.middle is None:
            return np.ones(len(at), dtype=bool)
        return np.asarray((outward * (at - self.middle)).sum(axis=1) > 0.0)

    @cached_property
    def depth_mm(self) -> Floats:
        """Undercut of every vertex (n,): 0 above the survey line.

        Horizontal distance from the vertical through the nearest place of the survey line that is
        not lower: what an undercut gauge measures whose rod touches the survey line.
        """
        depth = np.zeros(len(self.plan))
        rows = np.flatnonzero(self.below)
        if len(rows) and len(self.lines):
            reached = _to_lines(self, rows)
            depth[rows] = np.where(np.isfinite(reached), reached, 0.0)
        depth[depth < LEAST_DEPTH_MM] = 0.0
        return depth


def surveyed(mesh: Mesh, frame: PathFrame, *, crown: bool = True) -> tuple[Surveyed, Ints]:
    """Return a surface as seen along a path, and which of its vertices each given one is.

    Parameters
    ----------
    mesh : Mesh
        The surface, facing outward.
    frame : PathFrame
        Directions.
    crown : bool
        Whether it is one crown, with an occlusal surface that is left out.
    """
    merged, number, _ = in_order(mesh)
    plan = frame.plan(merged.vertices)
    middle = 0.5 * (plan.min(axis=0) + plan.max(axis=0)) if crown else None
    return Surveyed(merged, frame, middle, edges_of(merged.faces)), number


def edges_of(faces: Ints) -> Ints:
    """Return the edges (e, 2) of triangles (m, 3), each once, the lower vertex number first."""
    sides = np.sort(faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    return np.unique(sides, axis=0)


def _turning_edges(seen: Surveyed) -> tuple[Ints, Floats]:
    """Return edges (e, 2) between an upward and a downward triangle, or at an upward border.

    Returns
    -------
    edges : ndarray, shape (e, 2)
        Vertex numbers.
    outward : ndarray, shape (e, 2)
        In plan: which way the two triangles face together.
    """
    faces = seen.mesh.faces
    sides = np.sort(faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    face = np.repeat(np.arange(len(faces)), 3)
    lengths = np.linalg.norm(seen.crosses, axis=1)
    unit = seen.crosses / np.where(lengths > 0.0, lengths, 1.0)[:, None]
    up = seen.frame.height(unit)[face] > 0.0
    order = np.lexsort((up, sides[:, 1], sides[:, 0]))
    sides, face, up = sides[order], face[order], up[order]
    starts = np.flatnonzero(np.r_[True, (sides[1:] != sides[:-1]).any(axis=1)])
    count = np.diff(np.r_[starts, len(sides)])
    ups = np.add.reduceat(up.astype(np.int64), starts)
    flat = seen.frame.plan(unit)[face]
    outward = np.add.reduceat(flat, starts, axis=0)
    turning = ((count > 1) & (ups > 0) & (ups < count)) | ((count == 1) & (ups == 1))
    return sides[starts[turning]], outward[turning]


def _to_lines(seen: Surveyed, rows: Ints) -> Floats:
    """Return horizontal distances (p,) of vertices from what of the survey line is not lower."""
    ends = seen.plan[seen.lines]
    heights = seen.height[seen.lines]
    order = np.argsort(heights, axis=1, kind="stable")
    heights = np.take_along_axis(heights, order, axis=1)
    ends = np.take_along_axis(ends, order[:, :, None], axis=1)
    step = max(1, _AT_ONCE // len(ends))
    found = [
        _nearest(seen.plan[some], seen.height[some], ends, heights)
        for some in (rows[k : k + step] for k in range(0, len(rows), step))
    ]
    return np.concatenate(found)


def _nearest(at: Floats, at_height: Floats, ends: Floats, heights: Floats) -> Floats:
    """Return the least distance in plan of points from segments, the lower part of each cut off.

    Parameters
    ----------
    at, at_height : ndarray, shape (p, 2) and (p,)
        The points.
    ends, heights : ndarray, shape (s, 2, 2) and (s, 2)
        The segments, the lower end first.
    """
    low, high = heights[:, 0], heights[:, 1]
    span = high - low
    along = ends[:, 1] - ends[:, 0]
    square = (along**2).sum(axis=1)
    # From which share of a segment on it is not below the point.
    share = (at_height[:, None] - low) / np.where(span > 0.0, span, 1.0)
    first = np.clip(share, 0.0, 1.0)
    gone = at_height[:, None] > high
    offset = at[:, None] - ends[:, 0]
    foot = (offset * along).sum(axis=2) / np.where(square > 0.0, square, 1.0)
    foot = np.clip(foot, first, 1.0)
    apart = np.sqrt(((offset - foot[:, :, None] * along) ** 2).sum(axis=2))
    return np.asarray(np.where(gone, np.inf, apart).min(axis=1))


def polylines(edges: Ints) -> tuple[Ints, ...]:
    """Return edges (e, 2) joined to lines of vertex numbers, each as long as it goes."""
    beside: dict[int, list[int]] = {}
    for one, other in edges.tolist():
        beside.setdefault(one, []).append(other)
        beside.setdefault(other, []).append(one)
    left = {(min(a, b), max(a, b)) for a, b in edges.tolist()}
    # Ends first, so that an open line is walked from one end to the other.
    starts = sorted(beside, key=lambda vertex: (len(beside[vertex]) == 2, vertex))
    lines = []
    for start in starts:
        while line := _walked(start, beside, left):
            lines.append(np.array(line, dtype=np.int64))
    return tuple(lines)


def _walked(start: int, beside: dict[int, list[int]], left: set[tuple[int, int]]) -> list[int]:
    """Return a line from a vertex on along edges that are left, and take these away."""
    line, here = [start], start
    while True:
        ways = [n for n in sorted(beside[here]) if (min(here, n), max(here, n)) in left]
        if not ways:
            return line if len(line) > 1 else []
        there = ways[0]
        left.remove((min(here, there), max(here, there)))
        line.append(there)
        here = there
