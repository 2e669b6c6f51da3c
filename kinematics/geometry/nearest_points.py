"""Where a surface comes nearest to a few points, exactly, whatever the order of its triangles."""

import numpy as np
from numpy.typing import ArrayLike

from kinematics.checks import finite_array
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh


def nearest_on(mesh: Mesh, points: ArrayLike) -> tuple[Floats, Floats]:
    """Return the nearest place of a surface to each of some points, and how far it is.

    Every triangle is looked at, so this is for points that a person gives, not for thousands.

    Parameters
    ----------
    mesh : Mesh
        The surface, mm.
    points : array_like, shape (n, 3)
        In the coordinates of the mesh, mm.

    Returns
    -------
    places : ndarray, shape (n, 3)
        On the surface; of several that are equally near, the one of least x, then y, then z.
    distances_mm : ndarray, shape (n,)
        From the points.
    """
    from trimesh.triangles import closest_point  # a moment to load, and seldom needed

    given = finite_array(points, "points", (None, 3))
    corners = mesh.corners
    least, most = corners.min(axis=1), corners.max(axis=1)
    places, distances = np.empty_like(given), np.empty(len(given))
    for row, point in enumerate(given):
        bound = np.sqrt(((corners[:, 0] - point) ** 2).sum(axis=1).min())
        outside = np.maximum(np.maximum(least - point, point - most), 0.0)
        near = corners[(outside**2).sum(axis=1) <= (bound * (1.0 + 1e-9)) ** 2 + 1e-18]
        found = closest_point(near, np.tile(point, (len(near), 1)))
        apart = np.sqrt(((found - point) ** 2).sum(axis=1))
        first = np.lexsort((found[:, 2], found[:, 1], found[:, 0], apart))[0]
        places[row], distances[row] = found[first], apart[first]
    return places, distances
