"""Whether triangles lie above points, seen along a vertical: exactly, by cells of the plan."""

from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats, Ints

#: What lies less than this above a point is the point's own surface, mm (rounding).
_OWN_MM: Final = 1e-7
#: A triangle with less area in plan, mm2, is seen edge on and covers nothing.
_NO_AREA_MM2: Final = 1e-12
#: So many triangles and points are compared at once.
_AT_ONCE: Final = 4_000_000


def covered(
    plan: Floats, height: Floats, faces: Ints, at: Floats, at_height: Floats, own: Ints
) -> Bools:
    """Tell for each of some points whether a triangle lies above it.

    Parameters
    ----------
    plan, height : ndarray, shape (n, 2) and (n,)
        Vertices of the surface as seen along the vertical, mm.
    faces : ndarray, shape (m, 3)
        Its triangles.
    at, at_height : ndarray, shape (p, 2) and (p,)
        The points.
    own : ndarray, shape (p, k)
        Of each point the numbers of vertices whose triangles do not count: those it lies on; -1
        for none.
    """
    corners = plan[faces]
    sides = corners[:, 1:] - corners[:, :1]
    area = sides[:, 0, 0] * sides[:, 1, 1] - sides[:, 0, 1] * sides[:, 1, 0]
    seen = np.flatnonzero(np.abs(area) > _NO_AREA_MM2)
    found = np.zeros(len(at), dtype=bool)
    if len(seen) == 0 or len(at) == 0:
        return found
    for point, face in _candidates(corners[seen], at):
        triangle = seen[face]
        inside, above = _heights(corners, height[faces], area, triangle, at[point])
        mine = (faces[triangle][:, :, None] == own[point][:, None, :]).any(axis=(1, 2))
        hit = inside & ~mine & (above > at_height[point] + _OWN_MM)
        found[point[hit]] = True
    return found


def _heights(
    corners: Floats, heights: Floats, area: Floats, triangle: Ints, at: Floats
) -> tuple[Bools, Floats]:
    """Return whether each triangle has a point in plan, and its height there."""
    flat = corners[triangle] - at[:, None]
    one, two, three = flat[:, 0], flat[:, 1], flat[:, 2]
    shares = np.stack([_cross(two, three), _cross(three, one), _cross(one, two)], axis=1)
    shares /= area[triangle][:, None]
    inside = np.asarray((shares >= 0.0).all(axis=1), dtype=bool)
    return inside, np.asarray((shares * heights[triangle]).sum(axis=1))


def _cross(one: Floats, other: Floats) -> Floats:
    return np.asarray(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])


def _candidates(corners: Floats, at: Floats) -> list[tuple[Ints, Ints]]:
    """Return numbers of points and triangles that share a cell of a grid over the plan."""
    low, high = corners.min(axis=1), corners.max(axis=1)
    origin = low.min(axis=0)
    cell = max(float(np.median((high - low).max(axis=1))) * 1.5, 1e-3)
    first = np.floor((low - origin) / cell).astype(np.int64)
    last = np.floor((high - origin) / cell).astype(np.int64)
    across = int(last[:, 1].max()) + 1
    counts = last - first + 1
    owner = np.repeat(np.arange(len(corners)), counts.prod(axis=1))
    within = np.arange(len(owner)) - np.repeat(
        np.cumsum(counts.prod(axis=1)) - counts.prod(axis=1), counts.prod(axis=1)
    )
    row, column = np.divmod(within, counts[owner, 1])
    cells = (first[owner, 0] + row) * across + first[owner, 1] + column
    order = np.argsort(cells, kind="stable")
    cells, owner = cells[order], owner[order]
    place = np.floor((at - origin) / cell).astype(np.int64)
    usable = np.flatnonzero(((place >= 0) & (place <= last.max(axis=0))).all(axis=1))
    wanted = place[usable, 0] * across + place[usable, 1]
    begin, end = np.searchsorted(cells, wanted), np.searchsorted(cells, wanted, "right")
    return list(_in_parts(usable, owner, begin, end))


def _in_parts(usable: Ints, owner: Ints, begin: Ints, end: Ints) -> list[tuple[Ints, Ints]]:
    """Return pairs of point and triangle, not too many at once."""
    counts = end - begin
    parts, start = [], 0
    total = np.cumsum(counts)
    while start < len(usable):
        done = total[start - 1] if start else 0
        stop = max(start + 1, int(np.searchsorted(total, done + _AT_ONCE, "right")))
        some = slice(start, stop)
        point = np.repeat(usable[some], counts[some])
        offset = np.arange(len(point)) - np.repeat(
            np.cumsum(counts[some]) - counts[some], counts[some]
        )
        parts.append((point, owner[np.repeat(begin[some], counts[some]) + offset]))
        start = stop
    return parts
