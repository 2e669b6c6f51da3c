"""A frozen triangle mesh."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from kinematics.checks import InputError, finite_array
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.poses import move_points


@dataclass(frozen=True)
class Mesh:
    """Triangles in space; both arrays are read-only.

    Attributes
    ----------
    vertices : ndarray, shape (n, 3)
        Corners, mm.
    faces : ndarray, shape (m, 3)
        Corner numbers of each triangle, counter-clockwise seen from outside.
    """

    vertices: Floats
    faces: Ints

    @property
    def corners(self) -> Floats:
        """Corner points of every triangle, shape (m, 3, 3), mm."""
        return np.asarray(self.vertices[self.faces])


def mesh_of(vertices: ArrayLike, faces: ArrayLike, name: str = "mesh") -> Mesh:
    """Check the arrays and freeze them.

    Raises
    ------
    InputError
        Wrong shapes, points that are not finite, no triangle, or a corner number that no
        vertex has.
    """
    points = np.array(finite_array(vertices, f"{name} vertices", (None, 3)))
    triangles = np.array(faces, dtype=np.int64, order="C")
    if triangles.ndim != 2 or triangles.shape[1] != 3 or len(triangles) == 0:
        raise InputError(
            f"{name} faces: wanted at least one row of 3 corner numbers, found {triangles.shape}"
        )
    if triangles.min() < 0 or triangles.max() >= len(points):
        raise InputError(
            f"{name} faces: corner numbers run from {triangles.min()} to {triangles.max()}, "
            f"but there are {len(points)} vertices (0 to {len(points) - 1})"
        )
    points.setflags(write=False)
    triangles.setflags(write=False)
    return Mesh(points, triangles)


def moved_mesh(mesh: Mesh, pose: Floats) -> Mesh:
    """Return a mesh moved by a pose (4, 4); its faces are shared."""
    points = move_points(pose, mesh.vertices)
    points.setflags(write=False)
    return Mesh(points, mesh.faces)


def part_of(mesh: Mesh, chosen: Bools) -> tuple[Mesh, Ints]:
    """Return some triangles of a mesh, in their order, with the vertices they have.

    Parameters
    ----------
    mesh : Mesh
        The whole.
    chosen : ndarray, shape (m,)
        True for every triangle of the part.

    Returns
    -------
    part : Mesh
        At least one triangle.
    used : ndarray, shape (p,)
        Numbers of its vertices in the whole.
    """
    used, faces = np.unique(mesh.faces[chosen], return_inverse=True)
    return mesh_of(mesh.vertices[used], faces.reshape(-1, 3)), used


def distinct_vertices(mesh: Mesh) -> tuple[Floats, Ints]:
    """Return vertices by x, then y, then z, equal ones merged, and which of them each given is."""
    points = mesh.vertices + 0.0  # turns -0.0 into 0.0
    order = np.lexsort((points[:, 2], points[:, 1], points[:, 0]))
    ordered = points[order]
    new = np.ones(len(ordered), dtype=bool)
    new[1:] = (ordered[1:] != ordered[:-1]).any(axis=1)
    number = np.empty(len(points), dtype=np.int64)
    number[order] = np.cumsum(new) - 1
    return np.ascontiguousarray(ordered[new]), number


def in_order(mesh: Mesh) -> tuple[Mesh, Ints, Ints]:
    """Return a mesh whose numbering does not depend on the order in which it was given.

    Equal vertices are one, ordered by x, then y, then z; triangles begin with their lowest vertex
    and are ordered by vertices; those with less than three corners are left out.

    Returns
    -------
    ordered : Mesh
        The mesh.
    vertex_of : ndarray, shape (n,)
        Which of its vertices each vertex given is.
    face_of : ndarray, shape (m,)
        Which triangle given each of its triangles is.
    """
    distinct, number = distinct_vertices(mesh)
    faces = number[mesh.faces]
    whole = np.flatnonzero((faces != np.roll(faces, 1, axis=1)).all(axis=1))
    faces = faces[whole]
    turns = faces.argmin(axis=1)[:, None] + np.arange(3)
    faces = np.take_along_axis(faces, turns % 3, axis=1)
    order = np.lexsort((faces[:, 2], faces[:, 1], faces[:, 0]))
    return mesh_of(distinct, faces[order]), number, whole[order]


def joined(meshes: list[Mesh]) -> Mesh:
    """Return one mesh holding all triangles, in order; vertices are not merged."""
    offsets = np.cumsum([0] + [len(mesh.vertices) for mesh in meshes[:-1]])
    return mesh_of(
        np.concatenate([mesh.vertices for mesh in meshes]),
        np.concatenate([mesh.faces + o for mesh, o in zip(meshes, offsets, strict=True)]),
    )


def face_areas_normals(mesh: Mesh) -> tuple[Floats, Floats]:
    """Return areas (m,), mm2, and unit normals (m, 3); zero normals for zero areas."""
    corners = mesh.corners
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(cross, axis=1)
    normals = np.divide(cross, length[:, None], out=np.zeros_like(cross), where=length[:, None] > 0)
    return 0.5 * length, normals
