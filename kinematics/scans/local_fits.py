"""How far vertices stand out of the smooth surface around them, which they have no part in."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.sparse import csr_array

from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals

#: Coefficients of a surface of third order, and neighbours that it takes to say more than these.
#: One of second order leaves three times as much of the shape of cusps at the resolution of scans.
_TERMS: Final = 10
FEWEST_NEIGHBOURS: Final = _TERMS + 3
#: How many vertices are fitted at once.
_AT_ONCE: Final = 4096


@dataclass(frozen=True)
class Fits:
    """Surfaces of third order through the neighbours of some vertices, two edges around.

    Where a vertex has too few neighbours, all is NaN.

    Attributes
    ----------
    height_mm : ndarray, shape (n,)
        How far the vertex itself stands out of its surface, along the outward normal; negative
        where it lies below.
    own_height_mm : ndarray, shape (n,)
        The same, less the part that the uncertainty of the surface at that place has in it: of
        noise alike all over, its spread is that of the noise.
    around_mm : ndarray, shape (n,)
        Spread (standard deviation) of the neighbours about the surface.
    """

    height_mm: Floats
    own_height_mm: Floats
    around_mm: Floats


def local_fits(mesh: Mesh, vertices: Ints) -> Fits:
    """Fit surfaces to the neighbours of some vertices of a mesh, without the vertices themselves.

    Parameters
    ----------
    mesh : Mesh
        Wound so that normals face outward.
    vertices : ndarray, shape (n,)
        Which vertices.
    """
    beside = _beside(mesh)
    _, normals = face_areas_normals(mesh)
    facing = np.zeros_like(mesh.vertices)
    for corner in range(3):
        np.add.at(facing, mesh.faces[:, corner], normals)
    parts = [
        _fits(mesh.vertices, facing, beside, vertices[first : first + _AT_ONCE])
        for first in range(0, len(vertices), _AT_ONCE)
    ] or [np.empty((3, 0))]
    return Fits(*np.concatenate(parts, axis=1))


def _beside(mesh: Mesh) -> csr_array:
    """Return which vertices share an edge."""
    count = len(mesh.vertices)
    tail, head = mesh.faces.ravel(), np.roll(mesh.faces, -1, axis=1).ravel()
    both = np.concatenate([tail, head]), np.concatenate([head, tail])
    found = csr_array((np.ones(len(both[0]), dtype=np.int32), both), shape=(count, count))
    found.sum_duplicates()
    return found


def _fits(places: Floats, facing: Floats, beside: csr_array, vertices: Ints) -> Floats:
    """Return height, own height and spread around (3, n) of some vertices."""
    one = beside[vertices]
    two = csr_array(one @ beside + one)
    rows = np.repeat(np.arange(len(vertices)), np.diff(two.indptr))
    other = two.indices != vertices[rows]
    rows, numbers = rows[other], two.indices[other]
    order = np.lexsort((numbers, rows))  # sums in one order, whatever the product left
    rows, numbers = rows[order], numbers[order]
    counts = np.bincount(rows, minlength=len(vertices))
    column = np.arange(len(rows)) - np.repeat(np.cumsum(counts) - counts, counts)
    weight = np.zeros((len(vertices), max(int(counts.max(initial=0)), _TERMS)))
    weight[rows, column] = 1.0
    around = np.zeros((*weight.shape, 3))
    around[rows, column] = places[numbers]
    enough = counts >= FEWEST_NEIGHBOURS
    found = np.full((3, len(vertices)), np.nan)
    if enough.any():
        found[:, enough] = _of_neighbours(
            around[enough], weight[enough], places[vertices[enough]], facing[vertices[enough]]
        )
    return found


def _of_neighbours(around: Floats, weight: Floats, own: Floats, facing: Floats) -> Floats:
    """Fit neighbours (n, k, 3), those with weight (n, k) 1, and compare vertices (n, 3)."""
    counts = weight.sum(axis=1)
    middle = (weight[..., None] * around).sum(axis=1) / counts[:, None]
    off = weight[..., None] * (around - middle[:, None])
    spread = np.einsum("nki,nkj->nij", off, off)
    axes = np.linalg.eigh(spread)[1][:, :, ::-1]
    up = axes[:, :, 2]
    flip = np.sign(np.einsum("ni,ni->n", up, facing))
    axes[:, :, 2] *= np.where(flip == 0.0, 1.0, flip)[:, None]
    size = np.sqrt(np.trace(spread, axis1=1, axis2=2) / counts)[:, None]
    local = np.einsum("nki,nij->nkj", off, axes) / size[..., None]
    terms = _third_order(local) * weight[..., None]
    square = np.einsum("nki,nkj->nij", terms, terms)
    inverted = np.linalg.pinv(square, hermitian=True)
    surface = np.einsum("nij,nkj,nk->ni", inverted, terms, local[..., 2])
    left = weight * (local[..., 2] - np.einsum("nki,ni->nk", terms, surface))
    freedoms = counts - _TERMS
    around_mm = size[:, 0] * np.sqrt((left**2).sum(axis=1) / freedoms)
    here = np.einsum("ni,nij->nj", own - middle, axes) / size
    terms_here = _third_order(here)
    height = size[:, 0] * (here[:, 2] - np.einsum("ni,ni->n", terms_here, surface))
    uncertain = np.einsum("ni,nij,nj->n", terms_here, inverted, terms_here)
    return np.stack([height, height / np.sqrt(1.0 + uncertain), around_mm])


def _third_order(local: Floats) -> Floats:
    """Return 1, x, y and their products of second and third order, of places (..., 3)."""
    x, y = local[..., 0], local[..., 1]
    xx, xy, yy = x * x, x * y, y * y
    terms = [np.ones_like(x), x, y, xx, xy, yy, x * xx, x * xy, y * xy, y * yy]
    return np.stack(terms, axis=-1)
