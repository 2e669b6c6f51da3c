"""The searches behind gap maps and envelopes: least gaps of all vertices, shared among threads."""

from dataclasses import dataclass
from enum import Enum
from typing import Final

import numpy as np

from kinematics.checks import in_range
from kinematics.contact.pair import Pair
from kinematics.contact.workers import Watch, Workers, usable
from kinematics.conventions import Floats, Ints
from kinematics.geometry.kernels import vertex_arcs, vertex_gaps
from kinematics.geometry.layouts import Layout

LEAST_LIMIT_MM: Final = 1e-6
GREATEST_LIMIT_MM: Final = 1e3


class Side(Enum):
    """One of the two arches."""

    UPPER = "upper"
    LOWER = "lower"


class Measure(Enum):
    """What is measured from a vertex to the other arch."""

    DISTANCE = "shortest distance"
    ARC_GAP = "arc gap"


@dataclass(frozen=True)
class LeastGaps:
    """Least gap of every vertex of an arch over each of some runs of poses.

    Attributes
    ----------
    gap_mm : ndarray, shape (runs, v)
        mm, numbered as the vertices of the mesh given.
    pose : ndarray, shape (runs, v)
        First pose in which it is so little, -1 where there is none; (runs, 0) if not asked for.
    """

    gap_mm: Floats
    pose: Ints


@dataclass(frozen=True)
class _Search:
    """One arch and one measure, with room for what is found.

    The last column stands for vertices that belong to no triangle.
    """

    side: Side
    measure: Measure
    layout: Layout
    best: Floats
    at: Ints


def least_gaps(
    pair: Pair,
    poses: Floats,
    runs: int,
    limit_mm: float,
    wanted: tuple[tuple[Side, Measure], ...],
    with_pose: bool,
    workers: Workers | None,
) -> list[LeastGaps]:
    """Find least gaps over runs of equally many poses.

    The work is shared out by parts of an arch, each taken through a whole run by one thread: so
    nothing is merged, and what earlier poses leave behind shortens the search in later ones.

    Parameters
    ----------
    pair : Pair
        Both arches, prepared.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower as the lower stands (opening included), run after run.
    runs : int
        Their number.
    limit_mm : float
        Gap beyond which nothing is looked for.
    wanted : tuple of (Side, Measure)
        What is asked for.
    with_pose : bool
        Whether it is asked in which pose each gap is least.
    workers : Workers, optional
        Threads; one if not given.

    Raises
    ------
    InputError
        Limit out of range.
    """
    limit_mm = in_range(limit_mm, "limit_mm", LEAST_LIMIT_MM, GREATEST_LIMIT_MM, "mm")
    workers = usable(workers)
    searches = [_search(pair, side, measure, runs, with_pose) for side, measure in wanted]
    span = len(poses) // runs if runs else 0

    def block(first: int, last: int, watch: Watch) -> None:
        before = 0
        for search in searches:
            count = len(search.layout.parts) * runs
            begin, end = max(first - before, 0), min(last - before, count)
            if begin < end:
                _run(pair, search, poses, span, begin, end, limit_mm, workers, watch)
            before += count

    total = sum(len(search.layout.parts) * runs for search in searches)
    workers.run(total, block, shortest_part=1, steps_each=span)
    return [_in_order_of_mesh(search) for search in searches]


def _search(pair: Pair, side: Side, measure: Measure, runs: int, with_pose: bool) -> _Search:
    """Return a search with room for its results."""
    layout = (pair.upper if side is Side.UPPER else pair.lower).layout
    columns = len(layout.points.places) + 1
    best = np.empty((runs, columns))
    at = np.empty((runs, columns if with_pose else 0), dtype=np.int64)
    best[:, -1], at[:, -1:] = np.inf, -1
    return _Search(side, measure, layout, best, at)


def _run(
    pair: Pair,
    search: _Search,
    poses: Floats,
    span: int,
    first: int,
    last: int,
    limit_mm: float,
    workers: Workers,
    watch: Watch,
) -> None:
    """Do parts first to last of a search."""
    is_upper = search.side is Side.UPPER
    own, other = (pair.upper, pair.lower) if is_upper else (pair.lower, pair.upper)
    layout, best, at = search.layout, search.best, search.at
    if search.measure is Measure.DISTANCE:
        vertex_gaps.least_distances(
            own.arrays, layout.points, other.layout.tiles, poses, is_upper, span, layout.parts,
            first, last, limit_mm, watch, best, at,
        )  # fmt: skip
        return
    with workers.closing_scratch(pair) as scratch:
        vertex_arcs.least_arc_gaps(
            pair.upper.arrays, pair.lower.arrays, is_upper, layout.points, poses, span,
            layout.parts, first, last, limit_mm, scratch, watch, best, at,
        )  # fmt: skip


def _in_order_of_mesh(search: _Search) -> LeastGaps:
    """Return results as the mesh given numbers its vertices; -1, of none, is the last column."""
    number = search.layout.point_of
    if search.at.shape[1] == 0:
        return LeastGaps(search.best[:, number], search.at)
    return LeastGaps(search.best[:, number], search.at[:, number])
