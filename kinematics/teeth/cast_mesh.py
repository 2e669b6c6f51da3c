"""Sections along an arch joined to a closed surface with walls, heels and a flat underside."""

from dataclasses import dataclass

import numpy as np

from kinematics.casts.cast_bodies import UNDERSIDE, WALL
from kinematics.conventions import Floats, Ints


@dataclass(frozen=True)
class Grid:
    """Points of all sections, right to left, each from the tongue's side outward.

    Attributes
    ----------
    points : ndarray, shape (n, k, 3)
        On the upper side, mm.
    below : ndarray, shape (n, 2, 3)
        Under the first and the last point of each section, on the underside.
    rear : ndarray, shape (2, k, 3)
        Under all points of the first and of the last section.
    """

    points: Floats
    below: Floats
    rear: Floats


def closed_grid(grid: Grid, kind_of_quad: Ints, at_midline: bool) -> tuple[Floats, Ints, Ints]:
    """Return vertices (v, 3), faces (m, 3) and kinds (m,) of the closed surface.

    Seen from the side of the teeth with the arch's front up, the grid runs from the patient's right
    to the left; faces are counter-clockwise seen from outside if that is counter-clockwise.

    Parameters
    ----------
    grid : Grid
        Points.
    kind_of_quad : ndarray, shape (n - 1, k - 1)
        Kind of the triangles between two sections.
    at_midline : bool
        True: sections begin on the midline, where both sides meet; False: they begin on an inner
        wall.
    """
    count, across = grid.points.shape[:2]
    number = np.arange(count * across).reshape(count, across)
    below = count * across + np.arange(2 * count).reshape(count, 2)
    rear = below.max() + 1 + np.arange(2 * across).reshape(2, across)
    # Corners of the underside at the heels are those of the rear walls.
    rear[0, [0, -1]], rear[1, [0, -1]] = below[0], below[-1]
    strips = [
        (number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]),
        (below[1:-2, 0], below[1:-2, 1], below[2:-1, 1], below[2:-1, 0]),
        _strip(number[:, -1], below[:, 1]),
        _strip(number[0], rear[0]),
        _strip(number[-1, ::-1], rear[1, ::-1]),
    ]
    if not at_midline:
        strips.append(_strip(number[::-1, 0], below[::-1, 0]))
    walls = [np.full(len(strip[0]), WALL) for strip in strips[2:]]
    kinds = np.concatenate([kind_of_quad.ravel(), np.full(count - 3, UNDERSIDE), *walls])
    quads = _quads(strips)
    faces = np.concatenate([quads[:, [0, 1, 2]], quads[:, [0, 2, 3]]])
    kinds = np.concatenate([kinds, kinds])
    heels = np.concatenate([_heel(rear[0], below[1])[:, ::-1], _heel(rear[1], below[-2])])
    faces = np.concatenate([faces, heels])
    kinds = np.concatenate([kinds, np.full(len(heels), UNDERSIDE)])
    vertices = np.concatenate(
        [grid.points.reshape(-1, 3), grid.below.reshape(-1, 3), grid.rear.reshape(-1, 3)]
    )
    return _merged(vertices, faces, kinds)


def closed_sheet(outer: Floats, inner: Floats) -> tuple[Floats, Ints]:
    """Return vertices and faces of what lies between two sheets of points (n, k, 3).

    Counter-clockwise seen from outside, with the same turn as in `closed_grid`.
    """
    count, across = outer.shape[:2]
    above = np.arange(count * across).reshape(count, across)
    below = above + count * across
    quads = _quads(
        [
            (above[:-1, :-1], above[1:, :-1], above[1:, 1:], above[:-1, 1:]),
            (below[:-1, :-1], below[:-1, 1:], below[1:, 1:], below[1:, :-1]),
            _strip(above[:, -1], below[:, -1]),
            _strip(above[::-1, 0], below[::-1, 0]),
            _strip(above[0], below[0]),
            _strip(above[-1, ::-1], below[-1, ::-1]),
        ]
    )
    faces = np.concatenate([quads[:, [0, 1, 2]], quads[:, [0, 2, 3]]])
    return np.concatenate([outer.reshape(-1, 3), inner.reshape(-1, 3)]), faces


def _strip(high: Ints, low: Ints) -> tuple[Ints, Ints, Ints, Ints]:
    """Return the corners of the quads of a wall between two lines of vertices."""
    return high[:-1], high[1:], low[1:], low[:-1]


def _quads(strips: list[tuple[Ints, Ints, Ints, Ints]]) -> Ints:
    """Return the corners (m, 4) of all quads."""
    return np.concatenate([np.stack([s.ravel() for s in strip], axis=1) for strip in strips])


def _heel(edge: Ints, before: Ints) -> Ints:
    """Return the triangles between the rear edge and the two corners of the section before it."""
    fan = np.stack([np.full(len(edge) - 1, before[1]), edge[1:], edge[:-1]], axis=1)
    return np.concatenate([fan, [[before[0], before[1], edge[0]]]])


def _merged(vertices: Floats, faces: Ints, kinds: Ints) -> tuple[Floats, Ints, Ints]:
    """Return the surface with vertices at one place as one, without triangles of no size."""
    places, numbers = np.unique(np.round(vertices, 9) + 0.0, axis=0, return_inverse=True)
    faces = numbers.ravel()[faces]
    whole = (
        (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    )
    faces = faces[whole]
    used = np.zeros(len(places), dtype=bool)
    used[faces] = True
    return places[used], (np.cumsum(used) - 1)[faces], kinds[whole]
