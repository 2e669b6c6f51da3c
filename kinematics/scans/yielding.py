"""Surfaces that yield along the arcs of the closing jaw: vertices moved back, edges parted."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.pair import prepare
from kinematics.contact.touching_faces import touching_faces
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats
from kinematics.geometry.meshes import Mesh, mesh_of, part_of
from kinematics.geometry.poses import inverse, move_points

#: Triangles nearer than this to the other arch may come to cross it, mm.
_NEAR_MM: Final = 0.05
#: How near triangles are that cross, mm.
_CROSSING_MM: Final = 1e-9
#: By how much either side yields in a round, mm; half of the distance to which stops are known.
_STEP_MM: Final = 5e-4
#: What crosses by more than either side may yield here is no rest of a resolution, and stays.
_MOST_MM: Final = 0.05

_UNMOVED: Final = np.eye(4)


def back_along_arcs(mesh: Mesh, arc_gap_mm: Floats, to_axis: Floats, way: float) -> Mesh:
    """Return a mesh with vertices that are past the other arch moved back to where they met it.

    Parameters
    ----------
    mesh : Mesh
        The surface that yields.
    arc_gap_mm : ndarray, shape (n,)
        Of every vertex, along the closing movement; negative where it is past the other arch, not
        finite where its arc does not meet it.
    to_axis : ndarray, shape (4, 4)
        Brings vertices into the frame whose y axis is the hinge axis.
    way : float
        1 for vertices that open with the jaw, -1 for those the jaw leaves.
    """
    past = np.isfinite(arc_gap_mm) & (arc_gap_mm < 0.0)
    points = move_points(to_axis, mesh.vertices[past])
    angle = -way * arc_gap_mm[past] / np.hypot(points[:, 0], points[:, 2])
    cos, sin = np.cos(angle), np.sin(angle)
    x, z = points[:, 0].copy(), points[:, 2].copy()
    points[:, 0], points[:, 2] = cos * x + sin * z, cos * z - sin * x
    vertices = mesh.vertices.copy()
    vertices[past] = move_points(inverse(to_axis), points)
    return mesh_of(vertices, mesh.faces)


def edges_parted(
    upper: Arch, lower: Arch, pose: Floats, workers: Workers
) -> tuple[Arch, Arch, float]:
    """Part the edges that cross though no vertex is past the other arch.

    Both sides yield alike, in small steps, wherever their triangles cross.

    Parameters
    ----------
    upper, lower : Arch
        The upper in the hinge frame, the lower in lower coordinates.
    pose : ndarray, shape (4, 4)
        hinge_from_lower, opening included.
    workers : Workers
        Threads.

    Returns
    -------
    upper, lower : Arch
        With the vertices that yielded.
    yielded_mm : float
        By how much either did, at most.
    """
    pair = prepare(upper, lower, workers.threads)
    near = touching_faces(pair, pose[None], _NEAR_MM, workers)
    if not near.upper.any():
        return upper, lower, 0.0
    above, below = _near_part(upper, near.upper[0]), _near_part(lower, near.lower[0])
    yielded_mm = 0.0
    while yielded_mm < _MOST_MM:
        cross = touching_faces(prepare(above, below), pose[None], _CROSSING_MM)
        if not cross.upper.any():
            break
        above = _stepped(above, cross.upper[0], inverse(pose), -1.0)
        below = _stepped(below, cross.lower[0], _UNMOVED, 1.0)
        yielded_mm += _STEP_MM
    parted = _with_part(upper, near.upper[0], above), _with_part(lower, near.lower[0], below)
    return *parted, yielded_mm


def _near_part(arch: Arch, chosen: Bools) -> Arch:
    """Return some triangles of an arch alone."""
    return Arch(part_of(arch.mesh, chosen)[0], arch.tooth_of_face[chosen], ())


def _with_part(arch: Arch, chosen: Bools, part: Arch) -> Arch:
    """Return the arch with the vertices of some of its triangles as they stand in a part."""
    vertices = arch.mesh.vertices.copy()
    vertices[part_of(arch.mesh, chosen)[1]] = part.mesh.vertices
    return replace(arch, mesh=mesh_of(vertices, arch.mesh.faces))


def _stepped(arch: Arch, crossing: Bools, to_axis: Floats, way: float) -> Arch:
    """Return the arch with the triangles that cross moved back by one step."""
    past = np.zeros(len(arch.mesh.vertices))
    past[arch.mesh.faces[crossing]] = -_STEP_MM
    return replace(arch, mesh=back_along_arcs(arch.mesh, past, to_axis, way))
