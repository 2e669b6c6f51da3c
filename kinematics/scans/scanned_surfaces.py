"""What of two scanned crown surfaces their arches do not say: how they were before they yielded."""

from dataclasses import dataclass

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
    """

    mesh: Mesh
    rims: Rims


@dataclass(frozen=True)
class ScannedSurfaces:
    """Both casts."""

    upper: ScannedSurface
    lower: ScannedSurface
