"""What of two scanned crown surfaces their arches do not say: how they were before they yielded."""

from dataclasses import dataclass

from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from kinematics.scans.rims import Rims


@dataclass(frozen=True)
class ScannedSurface:
    """The crowns of one cast; vertices and triangles numbered as in its arch.

    Attributes
    ----------
    mesh : Mesh
        As scanned: nothing has yielded yet. In the hinge frame, the jaw in MI.
    rims : Rims
        Its open edges.
    overlap_mm : ndarray, shape (n,)
        How far every vertex stands in the other cast, in the bite as scanned or recorded; 0 where
        it does not.
    roughness_mm : float
        What `single_points.roughness_mm` says of the mesh.
    """

    mesh: Mesh
    rims: Rims
    overlap_mm: Floats
    roughness_mm: float


@dataclass(frozen=True)
class ScannedSurfaces:
    """Both casts."""

    upper: ScannedSurface
    lower: ScannedSurface
