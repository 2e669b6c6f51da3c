"""A surface prepared so that many points find the place of it that is nearest to them."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.ndimage import distance_transform_edt
from scipy.spatial import cKDTree

from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.scans.spread_points import SurfacePoints, surface_points

#: Points of a target lie no farther apart than this, mm. Chosen for this program: a third of what
#: a tooth changes its direction over.
APART_MM: Final = 0.4
#: Cells of the coarse field, and how far beyond the surface it reaches, mm.
_CELL_MM: Final = 1.0
_REACH_MM: Final = 16.0
#: So many points are looked at for the nearest triangle.
_NEIGHBOURS: Final = 6


@dataclass(frozen=True)
class Target:
    """A surface to be found again.

    Attributes
    ----------
    surface : SurfacePoints
        Its points.
    tree : cKDTree
        Over them.
    field : ndarray of int, shape (i, j, k)
        The nearest of these points for every cell around the surface.
    corner : ndarray, shape (3,)
        Where the cells begin, mm.
    middle : ndarray, shape (3,)
        Of the points.
    """

    surface: SurfacePoints
    tree: cKDTree
    field: Ints
    corner: Floats
    middle: Floats


@dataclass(frozen=True)
class Nearest:
    """What of a target lies nearest to some points.

    Attributes
    ----------
    places, normals : ndarray, shape (n, 3)
        On it.
    distances_mm : ndarray, shape (n,)
        Straight; infinite where nothing is in reach.
    inside : ndarray of bool, shape (n,)
        Whether the place is no rim, beyond which the surface might go on.
    """

    places: Floats
    normals: Floats
    distances_mm: Floats
    inside: Bools


def target_of(mesh: Mesh) -> Target:
    """Prepare a surface."""
    surface = surface_points(mesh, APART_MM)
    tree = cKDTree(surface.points)
    corner = surface.points.min(axis=0) - _REACH_MM
    counts = np.ceil((surface.points.max(axis=0) + _REACH_MM - corner) / _CELL_MM).astype(int)
    cells = np.floor((surface.points - corner) / _CELL_MM).astype(np.int64)
    own = np.full(tuple(counts), -1, dtype=np.int64)
    backwards = np.arange(len(cells))[::-1]
    own[tuple(cells[backwards].T)] = backwards  # of several points in a cell the first
    nearest = distance_transform_edt(own < 0, return_distances=False, return_indices=True)
    field = own[tuple(nearest)]
    return Target(surface, tree, field, corner, surface.points.mean(axis=0))


def about_nearest(target: Target, points: Floats) -> Ints:
    """Return a point of a target that lies about nearest to points (..., 3)."""
    cells = np.floor((points - target.corner) / _CELL_MM).astype(np.int64)
    cells = np.clip(cells, 0, np.array(target.field.shape) - 1)
    return np.asarray(target.field[cells[..., 0], cells[..., 1], cells[..., 2]])


def nearest_places(target: Target, points: Floats, reach_mm: float) -> Nearest:
    """Return what lies nearest to points (n, 3), on the triangles themselves.

    Of points farther away than `reach_mm` nothing is told but that they are.
    """
    from trimesh.triangles import closest_point  # a moment to load, and seldom needed

    surface = target.surface
    bound_mm = reach_mm + APART_MM
    found_mm, found = target.tree.query(points, k=_NEIGHBOURS, distance_upper_bound=bound_mm)
    apart, near = np.asarray(found_mm), np.asarray(found)
    rows = np.flatnonzero(np.isfinite(apart[:, 0]))
    near = np.where(np.isfinite(apart[rows]), near[rows], near[rows, :1])
    places = np.zeros_like(points)
    normals = np.zeros_like(points)
    distances, inside = np.full(len(points), np.inf), np.zeros(len(points), dtype=bool)
    if len(rows):
        triangle = surface.triangle[near]
        repeated = np.repeat(points[rows], _NEIGHBOURS, axis=0)
        on = closest_point(surface.corners[triangle.ravel()], repeated)
        away = np.linalg.norm(on - repeated, axis=1).reshape(near.shape)
        best = np.argmin(away, axis=1)
        each = np.arange(len(rows))
        places[rows] = on.reshape(*near.shape, 3)[each, best]
        normals[rows] = surface.normals[near[each, best]]
        distances[rows] = away[each, best]
        inside[rows] = ~surface.at_rim[triangle[each, best]]
    return Nearest(places, normals, distances, inside)
