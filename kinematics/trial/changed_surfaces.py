"""What was scanned of a cast after some of its teeth were changed in a trial set-up."""

from dataclasses import replace

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import move_points
from kinematics.scans.rims import Rims
from kinematics.scans.scanned_surfaces import ScannedSurface
from kinematics.trial.changed_teeth import ChangedArch


def changed_surface(
    surface: ScannedSurface, after: ChangedArch | None, hinge_from_arch: Floats
) -> ScannedSurface:
    """Return a scanned surface numbered as its arch after changes.

    Teeth that were not changed stay as scanned. Those that were are no scan any more: they stand as
    the arch has them, and overlap nothing. Open edges stay where both their ends do.

    Parameters
    ----------
    surface : ScannedSurface
        Before the changes, in the hinge frame.
    after : ChangedArch or None
        The arch after them; None where nothing was changed.
    hinge_from_arch : ndarray, shape (4, 4)
        From the coordinates of the arch to the hinge frame, the jaw in MI.
    """
    if after is None:
        return surface
    mesh, before = after.arch.mesh, after.vertex_before
    changed = np.zeros(len(before), dtype=bool)
    changed[mesh.faces[np.isin(after.arch.tooth_of_face, after.codes)]] = True
    kept = ~changed & (before >= 0)
    vertices = move_points(hinge_from_arch, mesh.vertices)
    vertices[kept] = surface.mesh.vertices[before[kept]]
    overlap_mm = np.zeros(len(before))
    overlap_mm[kept] = surface.overlap_mm[before[kept]]
    return replace(
        surface,
        mesh=mesh_of(vertices, mesh.faces),
        rims=_renumbered(surface.rims, after),
        overlap_mm=overlap_mm,
    )


def _renumbered(rims: Rims, after: ChangedArch) -> Rims:
    """Return the open edges that are there after changes, by the numbers of their vertices now."""
    faces = after.arch.mesh.faces
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    beyond = max(int(after.vertex_before.max()), int(rims.ends.max(initial=0))) + 1
    told = dict(zip(_keys(rims.ends, beyond).tolist(), rims.at_gum.tolist(), strict=True))
    was = after.vertex_before[edges]
    keys = np.where((was >= 0).all(axis=1), _keys(was, beyond), -1)
    still = np.isin(keys, list(told))
    at_gum = np.array([told[key] for key in keys[still].tolist()], dtype=bool)
    return Rims(edges[still], at_gum)


def _keys(ends: Ints, beyond: int) -> Ints:
    """Return one number for each edge (n, 2), whichever end comes first."""
    return np.asarray(ends.min(axis=1) * beyond + ends.max(axis=1))
