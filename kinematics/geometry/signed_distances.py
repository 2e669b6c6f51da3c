"""How far points lie outside or inside a surface, exactly, with the triangle that is nearest."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from scipy.spatial import cKDTree

from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals

#: Distances that differ by less are equal, mm: at an edge several triangles are nearest.
_EQUAL_MM: Final = 1e-9
#: A place so near to a border lies on it, mm.
_ON_BORDER_MM: Final = 1e-7
#: So many points, and pairs of point and triangle, are looked at together.
_MOST_POINTS: Final = 20_000
_MOST_PAIRS: Final = 2_000_000


#: Middles of triangles of about one size, their numbers, and how far they reach, mm.
_Group = tuple["cKDTree[Any, Any]", Ints, float]


@dataclass(frozen=True)
class SignedDistances:
    """Where points lie against a surface.

    Attributes
    ----------
    distance_mm : ndarray, shape (n,)
        Positive outside: on the side that its triangles face.
    face : ndarray, shape (n,)
        Number of the nearest triangle; of several that which the point faces most.
    beyond : ndarray, shape (n,)
        Whether the nearest place lies on an open border, so that the point lies past the surface
        rather than over it.
    """

    distance_mm: Floats
    face: Ints
    beyond: Bools


def signed_distances(mesh: Mesh, points: Floats) -> SignedDistances:
    """Measure points against a surface; the same for any order of its triangles.

    Parameters
    ----------
    mesh : Mesh
        The surface, mm; open or closed.
    points : ndarray, shape (n, 3)
        In the same coordinates.
    """
    from trimesh.triangles import closest_point  # a moment to load, and seldom needed

    corners = mesh.corners
    _, normals = face_areas_normals(mesh)
    border = _border_sides(mesh)
    found, _ = cKDTree(mesh.vertices[np.unique(mesh.faces)]).query(points)
    bound = np.asarray(found)
    groups = _by_size(corners)
    distance = np.empty(len(points))
    nearest = np.empty(len(points), dtype=np.int64)
    beyond = np.empty(len(points), dtype=bool)
    for some in _shares(groups, points, bound):
        point, face = _candidates(groups, points[some], bound[some])
        places = closest_point(corners[face], points[some][point])
        offset = points[some][point] - places
        apart = np.sqrt((offset**2).sum(axis=1))
        ahead = (offset * normals[face]).sum(axis=1)
        first = np.searchsorted(point, np.arange(len(points[some])))
        least = np.minimum.reduceat(apart, first)
        # Of equally near triangles that which is faced most tells the side.
        tied = apart <= least[point] + _EQUAL_MM
        rank = np.where(tied, np.abs(ahead), -1.0)
        best = np.lexsort((-rank, point))[first]
        distance[some] = np.where(ahead[best] < 0.0, -least, least)
        nearest[some] = face[best]
        past = np.zeros(len(point), dtype=bool)
        past[tied] = _on_border(corners[face[tied]], border[face[tied]], places[tied])
        beyond[some] = np.logical_or.reduceat(past, first)
    return SignedDistances(distance, nearest, beyond)


def _by_size(corners: Floats) -> list[_Group]:
    """Return triangles of about one size together: a tree of their middles, and their reach."""
    middles = corners.mean(axis=1)
    reach = np.sqrt(((corners - middles[:, None]) ** 2).sum(axis=2).max(axis=1))
    size = np.floor(np.log2(np.maximum(reach, 1e-6))).astype(np.int64)
    groups: list[_Group] = []
    for value in np.unique(size):
        rows = np.flatnonzero(size == value)
        groups.append((cKDTree(middles[rows]), rows, float(reach[rows].max())))
    return groups


def _shares(groups: list[_Group], points: Floats, bound: Floats) -> Iterator[slice]:
    """Yield the points in shares whose triangles fit into memory: far points have many."""
    counts = np.zeros(len(points), dtype=np.int64)
    for tree, _, reach in groups:
        radius = _within(bound, reach)
        counts += np.asarray(tree.query_ball_point(points, radius, return_length=True))
    total, start = np.cumsum(counts), 0
    while start < len(points):
        done = total[start - 1] if start else 0
        stop = int(np.searchsorted(total, done + _MOST_PAIRS, "right"))
        stop = max(start + 1, min(stop, start + _MOST_POINTS))
        yield slice(start, stop)
        start = stop


def _within(bound: Floats, reach: float) -> Floats:
    """Return how far the middle of a triangle may be that comes within a bound."""
    return np.asarray(bound * (1.0 + 1e-9) + reach + 1e-9)


def _candidates(groups: list[_Group], points: Floats, bound: Floats) -> tuple[Ints, Ints]:
    """Return pairs of point and triangle among which the nearest is, in order of the points."""
    pairs_of_points, pairs_of_faces = [], []
    for tree, rows, reach in groups:
        found = tree.query_ball_point(points, _within(bound, reach))
        counts = np.array([len(item) for item in found])
        pairs_of_points.append(np.repeat(np.arange(len(points)), counts))
        flat = np.fromiter((row for item in found for row in item), np.int64, int(counts.sum()))
        pairs_of_faces.append(rows[flat])
    point, face = np.concatenate(pairs_of_points), np.concatenate(pairs_of_faces)
    order = np.lexsort((face, point))
    return point[order], face[order]


def _border_sides(mesh: Mesh) -> Bools:
    """Return which sides (m, 3) of the triangles no other triangle has."""
    sides = np.sort(mesh.faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    _, number, count = np.unique(sides, axis=0, return_inverse=True, return_counts=True)
    return np.asarray((count[number.reshape(-1)] == 1).reshape(-1, 3))


def _on_border(corners: Floats, border: Bools, places: Floats) -> Bools:
    """Tell whether places (n, 3) lie on a side of their triangles that is a border."""
    found = np.zeros(len(places), dtype=bool)
    for side in range(3):
        start, along = corners[:, side], corners[:, (side + 1) % 3] - corners[:, side]
        square = (along**2).sum(axis=1)
        share = ((places - start) * along).sum(axis=1) / np.where(square > 0.0, square, 1.0)
        foot = start + np.clip(share, 0.0, 1.0)[:, None] * along
        found |= border[:, side] & (((places - foot) ** 2).sum(axis=1) <= _ON_BORDER_MM**2)
    return found
