"""Casts with their teeth adjusted: vertices where cuts leave them, trees built anew, MI closed."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.contact.mounted import MountedCasts, mount
from kinematics.contact.pair import prepare
from kinematics.conventions import Floats
from kinematics.geometry.meshes import mesh_of
from kinematics.planning.adjusting.planned import ToothCut
from kinematics.planning.adjusting.tooth_cut import CutSurface
from kinematics.tooth_codes import is_upper


def adjusted_casts(casts: MountedCasts, cuts: Sequence[ToothCut], threads: int = 1) -> MountedCasts:
    """Return casts with some teeth cut, closed in MI again.

    Parameters
    ----------
    casts : MountedCasts
        Those for which the cuts were planned.
    cuts : sequence of ToothCut
        What comes off; with none the casts come back as they are.
    threads : int
        How many threads may build trees; results do not depend on it.

    Raises
    ------
    InputError
        They do not meet in MI any more.
    """
    if not cuts:
        return casts
    upper = adjusted_arch(casts.upper, [cut.surface for cut in cuts if is_upper(cut.tooth)])
    lower = adjusted_arch(casts.lower, [cut.surface for cut in cuts if not is_upper(cut.tooth)])
    start = replace(casts.mi, opening_rad=0.0)
    pair = prepare(upper, lower, threads)
    return mount(upper, lower, pair, casts.guidance, start, casts.incisal_point)


def adjusted_arch(arch: Arch, surfaces: Sequence[CutSurface]) -> Arch:
    """Return an arch with some teeth cut; landmarks on cut surfaces go with them."""
    if not surfaces:
        return arch
    vertices = arch.mesh.vertices.copy()
    for surface in surfaces:
        vertices[surface.vertices] = surface.after.vertices
    cut = {surface.tooth: surface for surface in surfaces}
    teeth = tuple(
        _landmarks(tooth, cut[tooth.code]) if tooth.code in cut else tooth for tooth in arch.teeth
    )
    return replace(arch, mesh=mesh_of(vertices, arch.mesh.faces), teeth=teeth)


def _landmarks(tooth: Tooth, surface: CutSurface) -> Tooth:
    """Return the landmarks of a tooth, each moved as the vertex nearest to it."""
    return replace(
        tooth,
        edge=np.array([_moved(point, surface) for point in tooth.edge]).reshape(-1, 3),
        cusp_tips={name: _moved(tip, surface) for name, tip in tooth.cusp_tips.items()},
    )


def _moved(point: Floats, surface: CutSurface) -> Floats:
    away = np.linalg.norm(surface.before.vertices - point, axis=1)
    nearest = int(np.argmin(away))
    return np.asarray(point + surface.after.vertices[nearest] - surface.before.vertices[nearest])
