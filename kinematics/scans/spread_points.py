"""Points spread evenly over a surface, the same whatever the order of its triangles."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.scans.edges import edges_of

#: A triangle is divided into at most this many rows of points: longer ones span holes.
_MOST_ROWS: Final = 12


@dataclass(frozen=True)
class SurfacePoints:
    """Points of a surface.

    Attributes
    ----------
    points, normals : ndarray, shape (n, 3)
        In the order of x, then y, then z; unit normals of their triangles, to either side.
    triangle : ndarray, shape (n,)
        Of which triangle each is, as counted in `corners`.
    corners : ndarray, shape (m, 3, 3)
        All triangles, in an order of their own.
    at_rim : ndarray of bool, shape (m,)
        Whether a triangle has a corner on an open edge.
    """

    points: Floats
    normals: Floats
    triangle: Ints
    corners: Floats
    at_rim: Bools


def surface_points(mesh: Mesh, apart_mm: float) -> SurfacePoints:
    """Return points all over a surface, no farther apart than wanted.

    Parameters
    ----------
    mesh : Mesh
        Triangles with area.
    apart_mm : float
        Longest way between neighbours along an edge.
    """
    corners, at_rim = _in_own_order(mesh)
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals = across / np.linalg.norm(across, axis=1, keepdims=True)
    sides = corners - np.roll(corners, 1, axis=1)
    longest = np.sqrt((sides**2).sum(axis=2).max(axis=1))
    rows = np.clip(np.ceil(longest / apart_mm), 1, _MOST_ROWS).astype(np.int64)
    places, triangle = [], []
    for count in np.unique(rows):
        chosen = np.flatnonzero(rows == count)
        weights = _middles(int(count))
        places.append(np.einsum("pc,mcx->mpx", weights, corners[chosen]).reshape(-1, 3))
        triangle.append(np.repeat(chosen, len(weights)))
    points, owner = np.concatenate(places), np.concatenate(triangle)
    order = np.lexsort((owner, points[:, 2], points[:, 1], points[:, 0]))
    points, owner = points[order], owner[order]
    return SurfacePoints(points, normals[owner], owner, corners, at_rim)


def thinned(surface: SurfacePoints, most: int, least_mm: float) -> Ints:
    """Return which points to keep so that as many lie on every part of the surface.

    Parameters
    ----------
    surface : SurfacePoints
        Points no farther apart than `least_mm`.
    most : int
        About how many are wanted.
    least_mm : float
        They are not nearer to each other than about this.
    """
    areas = 0.5 * np.linalg.norm(
        np.cross(
            surface.corners[:, 1] - surface.corners[:, 0],
            surface.corners[:, 2] - surface.corners[:, 0],
        ),
        axis=1,
    )
    apart_mm = max(least_mm, float(np.sqrt(areas.sum() / most)))
    cells = np.floor(surface.points / apart_mm).astype(np.int64)
    _, first = np.unique(cells, axis=0, return_index=True)
    return np.sort(first)


def _in_own_order(mesh: Mesh) -> tuple[Floats, Bools]:
    """Return triangles, corners and all ordered by their places, and which are at a rim."""
    edges = edges_of(mesh.faces)
    on_rim = np.zeros(len(mesh.vertices), dtype=bool)
    on_rim[edges.ends[edges.counts == 1]] = True
    _, rank = np.unique(mesh.vertices, axis=0, return_inverse=True)
    numbers = rank.reshape(-1)[mesh.faces]
    ranked = np.argsort(numbers, axis=1)
    order = np.lexsort(np.take_along_axis(numbers, ranked, axis=1).T[::-1])
    faces = np.take_along_axis(mesh.faces, ranked, axis=1)[order]
    return np.asarray(mesh.vertices[faces]), np.asarray(on_rim[faces].any(axis=1))


def _middles(rows: int) -> Floats:
    """Return weights (rows**2, 3) of the corners for the middles of equal parts of a triangle."""
    found = []
    for i in range(rows):
        for j in range(rows - i):
            found.append((3 * i + 1, 3 * j + 1))
            if i + j < rows - 1:
                found.append((3 * i + 2, 3 * j + 2))
    first, second = np.array(found, dtype=np.float64).T / (3.0 * rows)
    return np.stack([1.0 - first - second, first, second], axis=1)
