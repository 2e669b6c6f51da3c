"""Lines in the plane of two settings between where something is so and where it is not."""

from collections import defaultdict
from collections.abc import Callable, Iterator
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats

#: Where a line crosses from one grid point to the next: axis, indices of the first point; the share
#: of the step from it, 0 to 1.
Crosses = Callable[[int, int, int], float]
#: Whether, where two opposite corners of a cell alone are inside, they are joined in its middle;
#: indices of its first corner.
Joined = Callable[[int, int], bool]
#: A place where a line crosses: axis and indices of the point before it.
_Node = tuple[int, int, int]
_ACROSS: Final = 0
_UPWARD: Final = 1


def level_lines(values: Floats, level: float) -> tuple[Floats, ...]:
    """Return the lines along which a quantity has one value.

    Parameters
    ----------
    values : ndarray, shape (n, m)
        At every grid point; NaN where there is none.
    level : float
        The value.

    Returns
    -------
    tuple of ndarray, shape (k, 2)
        Places on each line, in steps of the grid from its first point.
    """

    def crosses(axis: int, i: int, j: int) -> float:
        ahead = values[i + 1, j] if axis == _ACROSS else values[i, j + 1]
        return float((level - values[i, j]) / (ahead - values[i, j]))

    def joined(i: int, j: int) -> bool:
        return bool(values[i : i + 2, j : j + 2].mean() >= level)

    return boundary_lines(values >= level, np.isfinite(values), crosses, joined)


def boundary_lines(
    inside: Bools, known: Bools, crosses: Crosses, joined: Joined
) -> tuple[Floats, ...]:
    """Return the lines between the points of a grid that are inside and those that are not.

    Parameters
    ----------
    inside, known : ndarray, shape (n, m)
        Which points are inside, and of which that is known; no line enters a cell with a corner of
        which it is not.
    crosses : callable
        Where a line crosses from a point to its neighbour, where one is inside and one is not.
    joined : callable
        Whether the middle of a cell is inside, of which two opposite corners alone are.

    Returns
    -------
    tuple of ndarray, shape (k, 2)
        Places on each line, in steps of the grid from its first point; a closed line ends where it
        begins.

    Notes
    -----
    Marching squares.
    """
    next_to: dict[_Node, list[_Node]] = defaultdict(list)
    for one, other in _pieces(inside, known, joined):
        next_to[one].append(other)
        next_to[other].append(one)
    return tuple(np.array([_place(node, crosses) for node in chain]) for chain in _chains(next_to))


def _pieces(inside: Bools, known: Bools, joined: Joined) -> Iterator[tuple[_Node, _Node]]:
    """Yield the ends of the piece of a line, or of both, in every cell."""
    for i in range(inside.shape[0] - 1):
        for j in range(inside.shape[1] - 1):
            if not known[i : i + 2, j : j + 2].all():
                continue
            low, right, high, left = _edges(i, j)
            corners = inside[i, j], inside[i + 1, j], inside[i + 1, j + 1], inside[i, j + 1]
            turns = [corners[k] != corners[(k + 1) % 4] for k in range(4)]
            if all(turns):
                # Where the middle is inside too, the other two corners are cut off.
                cut_first = bool(corners[0]) != joined(i, j)
                yield (low, left) if cut_first else (low, right)
                yield (right, high) if cut_first else (left, high)
            elif any(turns):
                one, other = (e for e, t in zip((low, right, high, left), turns, strict=True) if t)
                yield one, other


def _edges(i: int, j: int) -> tuple[_Node, _Node, _Node, _Node]:
    """Return the edges of a cell in turn: lower, right, upper, left."""
    return (_ACROSS, i, j), (_UPWARD, i + 1, j), (_ACROSS, i, j + 1), (_UPWARD, i, j)


def _chains(next_to: dict[_Node, list[_Node]]) -> Iterator[list[_Node]]:
    """Yield pieces next_to end to end: open lines from their ends, then closed ones."""
    ends = [node for node in sorted(next_to) if len(next_to[node]) == 1]
    done: set[_Node] = set()
    for start in [*ends, *sorted(next_to)]:
        if start in done:
            continue
        chain = [start]
        done.add(start)
        while ahead := [node for node in next_to[chain[-1]] if node not in done]:
            chain.append(ahead[0])
            done.add(ahead[0])
        if len(chain) > 2 and start in next_to[chain[-1]]:
            chain.append(start)
        yield chain


def _place(node: _Node, crosses: Crosses) -> tuple[float, float]:
    axis, i, j = node
    share = crosses(axis, i, j)
    return (i + share, float(j)) if axis == _ACROSS else (float(i), j + share)
