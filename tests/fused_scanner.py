"""A scanner that sees crowns and gums as one surface, with nothing to tell where a tooth ends.

Closed solids are joined in a grid, as light blurs them, and their surface is cut out anew. Nothing
here looks at a tooth number: the truth is told afterwards by the nearest original surface.
"""

from dataclasses import dataclass

import numpy as np
import pyvista
from scipy.ndimage import gaussian_filter
from scipy.spatial import cKDTree
from vtkmodules.vtkImagingStencil import vtkImageStencilToImage, vtkPolyDataToImageStencil

from kinematics.casts.casts import NO_TOOTH
from kinematics.geometry.meshes import Mesh, face_areas_normals, mesh_of, part_of
from kinematics.scans.edges import edges_of, pieces
from tests.scanner_like import roughness

#: Steepest undercut that is seen, as the part of a normal that faces the scanner.
SEEN = -0.6
#: Only what lies so near to crowns is scanned unless told otherwise, mm.
REACH_MM = 6.0
#: Blur of the scanner, in voxels.
BLUR = 1.0


@dataclass(frozen=True)
class FusedScan:
    """One connected surface of crowns and gums, and what it was made of.

    Attributes
    ----------
    mesh : Mesh
        Open, mm.
    tooth_of_face : ndarray, shape (m,)
        Number of the tooth whose surface is nearest to every triangle, 0 where gum or base is.
    """

    mesh: Mesh
    tooth_of_face: np.ndarray


def fused_scan(arch, towards, seed, voxel_mm=0.25, noise_um=10.0, reach_mm=REACH_MM):
    """Return an arch as a scanner sees it that joins crowns and gums.

    Parameters
    ----------
    arch : Arch
        With its body.
    towards : float
        Sign of z towards the other arch.
    seed : int
        Of the noise.
    voxel_mm : float
        Size of the voxels; triangles are about as large.
    noise_um : float
        Standard deviation of what differs from vertex to vertex, and in waves.
    reach_mm : float
        How far from crowns the scan goes.
    """
    soft = [arch.body.mesh]
    if arch.body.denture_base is not None:
        soft.append(arch.body.denture_base)
    seen = _seen(_fused([arch.mesh, *soft], voxel_mm), towards)
    far_mm, _ = cKDTree(arch.mesh.vertices).query(seen.vertices)
    seen = _largest(part_of(seen, (far_mm < reach_mm)[seen.faces].all(axis=1))[0])
    truth = _nearest(seen, arch, soft)
    rng = np.random.default_rng(seed)
    rough = roughness(seen.vertices, seen.faces, rng, noise_um, noise_um)
    return FusedScan(mesh_of(seen.vertices + rough, seen.faces), truth)


def _fused(meshes, voxel_mm):
    """Return the smooth surface around closed solids, whichever stand in each other."""
    solids = [solid for mesh in meshes for solid in _solids(mesh)]
    corners = np.concatenate([solid.points for solid in solids])
    low = corners.min(axis=0) - 4.0 * voxel_mm
    size = np.ceil((corners.max(axis=0) - low) / voxel_mm).astype(int) + 5
    grid = pyvista.ImageData(dimensions=size, spacing=(voxel_mm,) * 3, origin=low)
    inside = np.zeros(grid.n_points, dtype=bool)
    for solid in solids:
        inside |= _inside(solid, grid)
    blurred = gaussian_filter(inside.reshape(size[::-1]).astype(np.float32), BLUR)
    grid["inside"] = blurred.ravel()
    surface = grid.contour([0.5], scalars="inside", method="flying_edges").triangulate()
    return _outward(_mesh(surface.smooth_taubin(n_iter=12, pass_band=0.15)))


def _solids(mesh):
    """Return the pieces of a mesh that hang together."""
    numbers = pieces(edges_of(mesh.faces))
    for number in np.unique(numbers):
        part, _ = part_of(mesh, numbers == number)
        yield pyvista.PolyData.from_regular_faces(part.vertices, part.faces)


def _inside(solid, grid):
    """Return which points of a grid lie in a closed surface."""
    stencil = vtkPolyDataToImageStencil()
    stencil.SetInputData(solid)
    stencil.SetOutputOrigin(grid.origin)
    stencil.SetOutputSpacing(grid.spacing)
    stencil.SetOutputWholeExtent(grid.extent)
    filled = vtkImageStencilToImage()
    filled.SetInputConnection(stencil.GetOutputPort())
    filled.Update()
    return pyvista.wrap(filled.GetOutput()).active_scalars > 0


def _mesh(surface):
    return Mesh(
        np.asarray(surface.points, dtype=float), surface.faces.reshape(-1, 4)[:, 1:].astype(int)
    )


def _outward(mesh):
    """Return a closed mesh counter-clockwise seen from outside."""
    a, b, c = mesh.corners.transpose(1, 0, 2)
    inward = np.einsum("ij,ij->", a, np.cross(b, c)) < 0.0
    return Mesh(mesh.vertices, mesh.faces[:, ::-1] if inward else mesh.faces)


def _seen(mesh, towards):
    _, normals = face_areas_normals(mesh)
    return _largest(part_of(mesh, towards * normals[:, 2] > SEEN)[0])


def _largest(mesh):
    """Return the largest piece of a mesh."""
    numbers = pieces(edges_of(mesh.faces))
    return part_of(mesh, numbers == np.argmax(np.bincount(numbers)))[0]


def _nearest(mesh, arch, soft):
    """Return the tooth whose surface is nearest to the middle of every triangle, 0 for the rest."""
    middles = mesh.corners.mean(axis=1)
    crown_mm, at = cKDTree(_points(arch.mesh)).query(middles)
    soft_mm, _ = cKDTree(np.concatenate([_points(one) for one in soft])).query(middles)
    codes = np.tile(arch.tooth_of_face, 7)[at]
    return np.where(soft_mm < crown_mm, NO_TOOTH, codes)


def _points(mesh):
    """Return seven points of every triangle: its corners, and the middles of it and its sides."""
    a, b, c = mesh.corners.transpose(1, 0, 2)
    return np.concatenate([a, b, c, (a + b) / 2, (b + c) / 2, (c + a) / 2, (a + b + c) / 3])
