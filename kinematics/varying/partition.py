"""The plane of two settings, parted by what is said there: lines between parts, small squares."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Final

import numpy as np
from scipy import ndimage

from kinematics.conventions import Bools, Floats, Ints
from kinematics.varying.contour_lines import boundary_lines
from kinematics.varying.grid import PARTS, Grid, Place, middle_of

#: About so many squares stand side by side, and into no more than so many a step is parted.
_SQUARES: Final = 160
_MOST_IN_STEP: Final = 16
#: What stands for a run whose settings make no case.
UNKNOWN: Final = -1
#: Corners of a cell in turn, in steps from its first one.
_CORNERS: Final = ((0, 0), (1, 0), (1, 1), (0, 1))


@dataclass(frozen=True)
class Region:
    """One region in which the same is said.

    Attributes
    ----------
    label : int
        What is said.
    middle : (float, float)
        The place in it that is farthest from its edges, in steps of the grid.
    depth : float
        How far that is, in squares.
    """

    label: int
    middle: tuple[float, float]
    depth: float


@dataclass(frozen=True)
class Partition:
    """What is said at every run, as a number.

    Attributes
    ----------
    grid : Grid
        Of two axes.
    labels : mapping of Place to int
        Of every point, of places between them on its lines and of middles of cells; `UNKNOWN` where
        nothing is known.
    """

    grid: Grid
    labels: Mapping[Place, int]

    @property
    def parted(self) -> int:
        """Into how many squares a step is parted, each way."""
        return max(1, min(_MOST_IN_STEP, _SQUARES // (max(self.grid.shape) - 1)))

    @cached_property
    def at_points(self) -> Ints:
        """Labels of the grid points, in their shape."""
        found = [self.labels[place] for place in self.grid.points]
        return np.array(found, dtype=np.int64).reshape(self.grid.shape)

    @cached_property
    def _edges(self) -> dict[tuple[int, int, int], list[tuple[float, int]]]:
        """What is said from every point to its neighbour: share of the step, label."""
        found: dict[tuple[int, int, int], list[tuple[float, int]]] = defaultdict(list)
        for place in sorted(self.labels):
            for axis in (0, 1):
                if place[1 - axis] % PARTS:
                    continue
                i, j = (parts // PARTS for parts in place)
                share = place[axis] % PARTS / PARTS
                found[axis, i, j].append((share, self.labels[place]))
                if share == 0.0 and place[axis]:
                    before = (axis, i - (axis == 0), j - (axis == 1))
                    found[before].append((1.0, self.labels[place]))
        return found

    def _crosses(self, label: int, axis: int, i: int, j: int) -> float:
        """Return where a label begins or ends on an edge; the middle place where it does often."""
        along = self._edges[axis, i, j]
        at = [
            0.5 * (one[0] + other[0])
            for one, other in pairwise(along)
            if (one[1] == label) != (other[1] == label)
        ]
        return at[len(at) // 2]

    def lines(self, label: int) -> tuple[Floats, ...]:
        """Return the lines around where a label holds, places in steps; see `boundary_lines`."""

        def crosses(axis: int, i: int, j: int) -> float:
            return self._crosses(label, axis, i, j)

        def joined(i: int, j: int) -> bool:
            return self._in_middle(label, i, j)

        known = self.at_points != UNKNOWN
        return boundary_lines(self.at_points == label, known, crosses, joined)

    def _in_middle(self, label: int, i: int, j: int) -> bool:
        """Tell whether a label holds in the middle of a cell; not where nothing was run there."""
        return self.labels.get(middle_of(i, j), UNKNOWN) == label

    def squares(self) -> Ints:
        """Return the label of every square, across and upward, by the lines between the parts.

        Where lines of three labels leave a middle to none of them, that of the nearest point.
        """
        parted, points = self.parted, self.at_points
        inner = (np.arange(parted) + 0.5) / parted
        x, y = np.meshgrid(inner, inner, indexing="ij")
        found = np.empty(((points.shape[0] - 1) * parted, (points.shape[1] - 1) * parted), int)
        for i in range(points.shape[0] - 1):
            for j in range(points.shape[1] - 1):
                cell = points[i : i + 2, j : j + 2]
                own = cell[(x >= 0.5).astype(int), (y >= 0.5).astype(int)]
                said = np.unique(cell).tolist()
                for label in said if len(said) > 1 and UNKNOWN not in said else ():
                    for polygon in self._polygons(label, i, j):
                        own = np.where(_within(polygon, x, y), label, own)
                found[i * parted : (i + 1) * parted, j * parted : (j + 1) * parted] = own
        return found

    def _polygons(self, label: int, i: int, j: int) -> Iterator[Floats]:
        """Yield the parts of a cell in which a label holds: corners counted in steps from it."""
        holds = [bool(self.at_points[i + a, j + b] == label) for a, b in _CORNERS]
        edges = ((0, i, j), (1, i + 1, j), (0, i, j + 1), (1, i, j))
        ends: list[tuple[float, float]] = []
        for number, (axis, a, b) in enumerate(edges):
            flips = holds[number] != holds[(number + 1) % 4]
            share = self._crosses(label, axis, a, b) if flips else 0.0
            ends.append((share, float(b - j)) if axis == 0 else (float(a - i), share))
        apart = sum(holds) == 2 and holds[0] == holds[2]
        if apart and not self._in_middle(label, i, j):
            for number in (0, 2) if holds[0] else (1, 3):
                yield np.array([ends[number - 1], _CORNERS[number], ends[number]])
            return
        outline: list[tuple[float, float]] = []
        for number in range(4):
            if holds[number]:
                outline.append(_CORNERS[number])
            if holds[number] != holds[(number + 1) % 4]:
                outline.append(ends[number])
        yield np.array(outline)


def _within(polygon: Floats, x: Floats, y: Floats) -> Bools:
    """Tell which places lie within a convex polygon whose corners run counter-clockwise."""
    inside = np.ones(x.shape, dtype=np.bool_)
    for one, other in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
        turn = (other[0] - one[0]) * (y - one[1]) - (other[1] - one[1]) * (x - one[0])
        inside &= turn >= 0.0
    return inside


def between(values: Floats, parted: int) -> Floats:
    """Return a quantity at the middle of every square, straight between the points of its cell.

    Parameters
    ----------
    values : ndarray, shape (n, m)
        At the points; NaN where there is none, and then in the whole of the cells around.
    parted : int
        Squares in a step.
    """
    places = [(np.arange((count - 1) * parted) + 0.5) / parted for count in values.shape]
    cells = [np.floor(place).astype(int) for place in places]
    a, b = np.meshgrid(*(p - c for p, c in zip(places, cells, strict=True)), indexing="ij")
    i, j = np.meshgrid(*cells, indexing="ij")
    low = (1.0 - a) * values[i, j] + a * values[i + 1, j]
    high = (1.0 - a) * values[i, j + 1] + a * values[i + 1, j + 1]
    return np.asarray((1.0 - b) * low + b * high)


def regions(squares: Ints, parted: int) -> tuple[Region, ...]:
    """Return the regions of squares with one label, those of a label by their places.

    Parameters
    ----------
    squares : ndarray, shape (n, m)
        Labels.
    parted : int
        Squares in a step.
    """
    found = []
    for label in np.unique(squares).tolist():
        parts, count = ndimage.label(squares == label)
        for number in range(1, count + 1):
            own = np.pad(parts == number, 1)
            depth = ndimage.distance_transform_edt(own)[1:-1, 1:-1]
            at = np.unravel_index(int(depth.argmax()), depth.shape)
            middle = ((float(at[0]) + 0.5) / parted, (float(at[1]) + 0.5) / parted)
            found.append(Region(label, middle, float(depth.max())))
    return tuple(found)
