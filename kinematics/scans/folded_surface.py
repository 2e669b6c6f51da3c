"""A scanned surface as a net of edges, and how sharply it folds inward along each of them."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.sparse import coo_matrix, csr_matrix

from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh

#: Folds are looked at on this scale, mm: finer than an embrasure, coarser than the noise of a
#: scanner. Chosen for this program.
_SCALE_MM: Final = 0.4
#: A surface that is flatter than this, per mm, does not fold. Chosen for this program: noise of
#: 20 micrometres on that scale.
_FLAT_PER_MM: Final = 0.15
#: How fast a walk shuns a fold, by e for each tenth of a radian a mm, and what is left of any way.
#: Chosen for this program, by trials on made casts.
_SHUNNING_MM: Final = 10.0
_LEAST_WAY: Final = 1e-5


@dataclass(frozen=True)
class FoldedSurface:
    """Vertices and edges of a surface in an order of their own, the same for any order given.

    Attributes
    ----------
    vertices : ndarray, shape (n, 3)
        Sorted by place, mm.
    given : ndarray, shape (n,)
        Of every vertex its number in the mesh.
    edges : ndarray, shape (k, 2)
        Each once, sorted.
    lengths_mm : ndarray, shape (k,)
    folds_rad : ndarray, shape (k,)
        By how much the surface turns inward along each edge; 0 where it is flat or turns outward.
    facing : ndarray, shape (n,)
        How far the surface faces the way crowns point: 1 fully, 0 upright walls.
    """

    vertices: Floats
    given: Ints
    edges: Ints
    lengths_mm: Floats
    folds_rad: Floats
    facing: Floats

    @property
    def open_ways(self) -> Floats:
        """How easily a walk takes each edge (k,): 1 on open surface, about 0 in a sharp fold."""
        per_mm = self.folds_rad / np.maximum(self.lengths_mm, 1e-9)
        return np.exp(-_SHUNNING_MM * per_mm) + _LEAST_WAY

    def net(self, weights: Floats) -> csr_matrix:
        """Return the symmetric matrix (n, n) of a weight for each edge."""
        first, second = self.edges.T
        both = (np.concatenate([first, second]), np.concatenate([second, first]))
        size = len(self.vertices)
        return coo_matrix((np.concatenate([weights, weights]), both), (size, size)).tocsr()


def folded_surface(mesh: Mesh, up: Floats) -> FoldedSurface:
    """Return the net of a surface with its folds.

    Parameters
    ----------
    mesh : Mesh
        One cast; neighbours wound alike, whichever way.
    up : ndarray, shape (3,)
        Direction in which crowns point; most of the surface faces it.
    """
    given = np.lexsort(mesh.vertices.T[::-1])
    number = np.empty(len(given), dtype=np.int64)
    number[given] = np.arange(len(given))
    vertices = mesh.vertices[given]
    faces = _in_order(number[mesh.faces])
    edges = np.unique(np.sort(faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1), axis=0)
    along = vertices[edges[:, 1]] - vertices[edges[:, 0]]
    lengths_mm = np.linalg.norm(along, axis=1)
    bare = FoldedSurface(
        vertices, given, edges, lengths_mm, np.zeros(len(edges)), np.zeros(len(given))
    )
    normals = _smoothed(_vertex_normals(vertices, faces, up), bare)
    turned = np.einsum("ij,ij->i", normals[edges[:, 1]] - normals[edges[:, 0]], along)
    inward_rad = -turned / np.maximum(lengths_mm, 1e-12)
    folds_rad = np.maximum(0.0, inward_rad - _FLAT_PER_MM * lengths_mm)
    return FoldedSurface(vertices, given, edges, lengths_mm, folds_rad, normals @ up)


def _in_order(faces: Ints) -> Ints:
    """Return triangles with their lowest corner first, sorted."""
    first = np.argmin(faces, axis=1)
    rows = np.arange(len(faces))[:, None]
    turned = faces[rows, (first[:, None] + np.arange(3)) % 3]
    return np.asarray(turned[np.lexsort(turned.T[::-1])])


def _vertex_normals(vertices: Floats, faces: Ints, up: Floats) -> Floats:
    """Return unit normals (n, 3) on the side from which most of the surface is seen."""
    corners = vertices[faces]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    if float((cross @ up).sum()) < 0.0:
        cross = -cross
    normals = np.zeros_like(vertices)
    for corner in range(3):
        for axis in range(3):
            normals[:, axis] += np.bincount(faces[:, corner], cross[:, axis], len(vertices))
    return _units(normals)


def _smoothed(normals: Floats, net: FoldedSurface) -> Floats:
    """Return normals with what is finer than the scale of folds taken out."""
    beside = net.net(np.ones(len(net.edges)))
    count = np.maximum(np.asarray(beside.sum(axis=1)).ravel(), 1.0)[:, None]
    usual_mm = float(np.median(net.lengths_mm))
    rounds = max(1, round(2.0 * (_SCALE_MM / usual_mm) ** 2))
    for _ in range(rounds):
        normals = 0.5 * normals + 0.5 * (beside @ normals) / count
    return _units(normals)


def _units(vectors: Floats) -> Floats:
    lengths = np.linalg.norm(vectors, axis=1, keepdims=True)
    return np.asarray(vectors / np.maximum(lengths, 1e-12))
