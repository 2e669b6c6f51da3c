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


def open_loops_mm(edges: Edges, vertices_mm: Floats) -> Floats:
    """Return the lengths of the loops of edges that one triangle has, the longest first.

    Open edges that hang together are one loop: holes that meet in a vertex count as one.
    """
    ends = edges.ends[edges.counts == 1]
    if len(ends) == 0:
        return np.empty(0)
    used, places = np.unique(ends, return_inverse=True)
    places = places.reshape(-1, 2)
    loop = joined_numbers(places[:, 0], places[:, 1], len(used))[places[:, 0]]
    lengths = np.linalg.norm(vertices_mm[ends[:, 0]] - vertices_mm[ends[:, 1]], axis=1)
    return -np.sort(-np.bincount(loop, weights=lengths).astype(np.float64))
