"""Edges of a triangle surface: which triangles share them, pieces, and loops of open ones."""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from kinematics.conventions import Bools, Floats, Ints


@dataclass(frozen=True)
class Edges:
    """All edges, in the order of their vertex numbers.

    Attributes
    ----------
    ends : ndarray, shape (e, 2)
        Vertex numbers, the lower first.
    starts, counts : ndarray, shape (e,)
        Where in `faces` and `rising` the triangles of each begin, and how many there are.
    faces : ndarray, shape (3 m,)
        Triangles, edge by edge.
    rising : ndarray, shape (3 m,)
        Whether that triangle runs along the edge from its lower to its higher vertex.
    """

    ends: Ints
    starts: Ints
    counts: Ints
    faces: Ints
    rising: Bools


def edges_of(faces: Ints) -> Edges:
    """Return the edges of triangles, shape (m, 3), that have three different corners each."""
    tail, head = faces.ravel(), np.roll(faces, -1, axis=1).ravel()
    beyond = faces.max() + 1
    key = np.minimum(tail, head) * beyond + np.maximum(tail, head)
    order = np.argsort(key)
    key = key[order]
    starts = np.flatnonzero(np.append(True, key[1:] != key[:-1]))
    return Edges(
        np.column_stack(np.divmod(key[starts], beyond)),
        starts,
        np.diff(np.append(starts, len(key))),
        order // 3,
        (tail < head)[order],
    )


def pieces(edges: Edges) -> Ints:
    """Return of every triangle to which piece it belongs: those joined by edges are one."""
    inner = np.ones(len(edges.faces), dtype=bool)
    inner[edges.starts] = False
    after = np.flatnonzero(inner)
    return joined_numbers(edges.faces[after - 1], edges.faces[after], len(edges.faces) // 3)


def joined_numbers(one: Ints, other: Ints, count: int) -> Ints:
    """Return a number for each of `count` things, the same for those that pairs join."""
    graph = coo_array((np.ones(len(one), dtype=np.int8), (one, other)), shape=(count, count))
    _, numbers = connected_components(graph, directed=False)
    return np.asarray(numbers, dtype=np.int64)


@dataclass(frozen=True)
class OpenLoops:
    """Loops of edges that one triangle alone has: borders of pieces, and holes in them.

    Open edges that hang together are one loop: holes that meet in a vertex count as one. Of every
    piece the longest is its border, the open base of a scan; all others are holes.

    Attributes
    ----------
    borders_mm, holes_mm : ndarray, shapes (b,) and (h,)
        Their lengths, the longest first.
    """

    borders_mm: Floats
    holes_mm: Floats


def open_loops(edges: Edges, vertices_mm: Floats) -> OpenLoops:
    """Measure the open loops of a surface and tell borders from holes."""
    is_open = edges.counts == 1
    ends = edges.ends[is_open]
    if len(ends) == 0:
        return OpenLoops(np.empty(0), np.empty(0))
    used, places = np.unique(ends, return_inverse=True)
    places = places.reshape(-1, 2)
    loop = joined_numbers(places[:, 0], places[:, 1], len(used))[places[:, 0]]
    lengths = np.linalg.norm(vertices_mm[ends[:, 0]] - vertices_mm[ends[:, 1]], axis=1)
    long_mm = np.bincount(loop, weights=lengths).astype(np.float64)
    of_piece = pieces(edges)[edges.faces[edges.starts[is_open]]]
    longest_first = np.lexsort((loop, -long_mm[loop], of_piece))
    _, first = np.unique(of_piece[longest_first], return_index=True)
    is_border = np.zeros(len(long_mm), dtype=bool)
    is_border[loop[longest_first][first]] = True
    return OpenLoops(-np.sort(-long_mm[is_border]), -np.sort(-long_mm[~is_border]))
