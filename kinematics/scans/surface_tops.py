"""Tops of a surface: where it rises above everything around, and where exactly each top is."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import KDTree

from kinematics.conventions import Bools, Floats, Ints

#: Heights are averaged over so much around each vertex, mm: more than the roughness of a scan
#: reaches, less than the rounding of a cusp. Chosen for this program.
SMOOTHING_MM: Final = 0.2
#: A top is placed in the middle of what lies so little below it, mm, so that neither roughness nor
#: a worn, level facet moves it to a chance vertex or to the rim. Chosen for this program.
CAP_MM: Final = 0.12


@dataclass(frozen=True)
class Relief:
    """A surface whose tops are looked for.

    Attributes
    ----------
    points : ndarray, shape (n, 3)
        Vertices, mm; the third coordinate is the height.
    faces : ndarray, shape (m, 3)
        Triangles.
    edges : ndarray, shape (k, 2)
        Their edges, each once.
    areas : ndarray, shape (n,)
        A third of the area of all triangles at each vertex, mm2.
    """

    points: Floats
    faces: Ints
    edges: Ints
    areas: Floats


def relief_of(points: Floats, faces: Ints) -> Relief:
    """Return a surface (vertices (n, 3), mm, and triangles) made ready for its tops."""
    pairs = np.sort(faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    a, b, c = (points[faces[:, k]] for k in range(3))
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 6.0
    areas = np.zeros(len(points))
    np.add.at(areas, faces.ravel(), np.repeat(area, 3))
    return Relief(points, faces, np.unique(pairs, axis=0), areas)


def smoothed(relief: Relief, values: Floats) -> Floats:
    """Return values (n,) at the vertices, averaged over `SMOOTHING_MM` around each of them."""
    points = relief.points
    pairs = KDTree(points).query_pairs(2.0 * SMOOTHING_MM, output_type="ndarray")
    away = np.linalg.norm(points[pairs[:, 0]] - points[pairs[:, 1]], axis=1)
    bell = np.exp(-0.5 * (away / SMOOTHING_MM) ** 2)
    count = len(points)
    own = np.arange(count)
    near = coo_matrix(
        (
            np.concatenate([bell, bell, np.ones(count)]),
            (np.r_[pairs[:, 0], pairs[:, 1], own], np.r_[pairs[:, 1], pairs[:, 0], own]),
        ),
        shape=(count, count),
    ).tocsr()
    weight = np.maximum(relief.areas, 1e-12)
    return np.asarray((near @ (weight * values)) / (near @ weight))


def tops(relief: Relief, heights: Floats, prominence_mm: float) -> Ints:
    """Return the vertices that are tops of a surface, the highest first.

    Parameters
    ----------
    relief : Relief
        The surface.
    heights : ndarray, shape (n,)
        Of its vertices, mm, smoothed.
    prominence_mm : float
        A top counts if one must go down at least so far from it to reach a higher one.

    Returns
    -------
    ndarray of int
        Vertex numbers. The highest vertex of every separate piece is one.
    """
    count = len(heights)
    order = np.lexsort((np.arange(count), -heights))
    rank = np.empty(count, dtype=np.int64)
    rank[order] = np.arange(count)
    both = np.concatenate([relief.edges, relief.edges[:, ::-1]])
    both = both[rank[both[:, 0]] > rank[both[:, 1]]]  # from each vertex to higher ones
    both = both[np.argsort(rank[both[:, 0]], kind="stable")]
    starts = np.searchsorted(rank[both[:, 0]], np.arange(count + 1))
    higher = rank[both[:, 1]].tolist()
    level = heights[order].tolist()
    top_of = list(range(count))  # by rank: towards the top of the hill a vertex lies on
    found = []

    def hill(one: int) -> int:
        while top_of[one] != one:
            top_of[one] = top_of[top_of[one]]
            one = top_of[one]
        return one

    for one in range(count):
        for other in higher[starts[one] : starts[one + 1]]:
            low, high = hill(one), hill(other)
            if low < high:
                low, high = high, low
            if low != high:
                if level[low] - level[one] >= prominence_mm:
                    found.append(low)
                top_of[low] = high
    summits = [one for one in range(count) if top_of[one] == one]
    return np.asarray(order[sorted(found + summits)], dtype=np.int64)


@dataclass(frozen=True)
class Top:
    """Where a top is.

    Attributes
    ----------
    place : ndarray, shape (3,)
        On the surface, at the middle of its cap, mm.
    reach_mm : float
        How far the cap reaches from its middle: 0.5 to 1.2 on a rounded cusp, more on a worn one.
    """

    place: Floats
    reach_mm: float


def cap_of(relief: Relief, heights: Floats, top: int) -> Top:
    """Return a top at the middle of its cap: what lies less than `CAP_MM` below, joined to it.

    Parameters
    ----------
    relief : Relief
        The surface.
    heights : ndarray, shape (n,)
        Of its vertices, mm, smoothed; what is higher weighs more.
    top : int
        Vertex at the top.
    """
    over = heights - (heights[top] - CAP_MM)
    inside = _joined_to(top, relief.edges, over > 0.0)
    weight = np.where(inside, np.maximum(relief.areas, 1e-12) * over, 0.0)
    place = np.asarray(weight @ relief.points / weight.sum())
    reach = float(np.linalg.norm(relief.points[inside] - place, axis=1).max())
    height = surface_over(relief.points, relief.faces, place[:2])
    if height is not None:
        place = np.array([place[0], place[1], height])
    return Top(place, reach)


def _joined_to(top: int, edges: Ints, inside: Bools) -> Bools:
    """Tell which vertices hang together with one through vertices that are inside."""
    kept = edges[inside[edges].all(axis=1)]
    count = len(inside)
    graph = csr_matrix((np.ones(len(kept)), (kept[:, 0], kept[:, 1])), shape=(count, count))
    piece = connected_components(graph, directed=False)[1]
    return np.asarray(piece == piece[top])


def surface_over(points: Floats, faces: Ints, place: Floats) -> float | None:
    """Return the greatest height of a surface over a place.

    Parameters
    ----------
    points : ndarray, shape (n, 3)
        Vertices; the third coordinate is the height, mm.
    faces : ndarray, shape (m, 3)
        Triangles.
    place : ndarray, shape (2,)
        The first two coordinates, mm.

    Returns
    -------
    float or None
        mm; None where no triangle lies over the place.
    """
    flat = points[:, :2] - place
    a, b, c = (flat[faces[:, k]] for k in range(3))
    shares = np.stack([_turn(b, c), _turn(c, a), _turn(a, b)], axis=1)
    whole = shares.sum(axis=1)
    signed = shares * np.sign(whole)[:, None]
    over = (whole != 0.0) & (signed >= -1e-12).all(axis=1)
    if not over.any():
        return None
    height = (shares[over] * points[faces[over], 2]).sum(axis=1) / whole[over]
    return float(height.max())


def _turn(one: Floats, other: Floats) -> Floats:
    """Return the cross product of plane vectors (n, 2)."""
    return np.asarray(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
