"""How much a changed tooth loses and gains."""

import math

import numpy as np

from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh, face_areas_normals
from kinematics.tooth_codes import is_upper


def volumes_mm3(before: Mesh, after: Mesh) -> tuple[float, float]:
    """Return the volume that goes and that comes of a tooth whose open border stays, mm³."""
    origin = before.vertices.mean(axis=0)
    signed = [np.linalg.det(mesh.corners - origin) / 6.0 for mesh in (before, after)]
    change = math.fsum([*signed[1].tolist(), *(-signed[0]).tolist()])
    return max(-change, 0.0), max(change, 0.0)


def swept_mm3(before: Mesh, after: Mesh, up: Floats) -> tuple[float, float]:
    """Return what the surface facing the opponents sweeps, mm³: inward, and outward.

    As much would have to be cut off, and added, to bring about by that what moving the whole tooth
    does.

    Parameters
    ----------
    before, after : Mesh
        With the same triangles.
    up : ndarray, shape (3,)
        Towards the opponents.
    """
    areas, normals = face_areas_normals(before)
    way = (after.corners - before.corners).mean(axis=1)
    swept = areas * np.sum(way * normals, axis=1)
    swept = swept[normals @ up > 0.0]
    return (
        math.fsum((-swept[swept < 0.0]).tolist()),
        math.fsum(swept[swept > 0.0].tolist()),
    )


def thickest_mm(before: Mesh, after: Mesh) -> float:
    """Return the greatest thickness added, square to the surface at every vertex's triangles."""
    _, normals = face_areas_normals(before)
    corners = after.corners - before.corners
    thickness = np.sum(corners * normals[:, None], axis=2).max(axis=1)
    return float(np.maximum(thickness, 0.0).max(initial=0.0))


def facing(casts: MountedCasts, tooth: int) -> Floats:
    """Return the direction (3,) from a tooth towards its opponents, in coordinates of its arch."""
    arch = casts.upper if is_upper(tooth) else casts.lower
    axis = arch.tooth(tooth).long_axis
    return np.asarray(axis / np.linalg.norm(axis))
