"""Built-in arches with teeth lowered or taken out, and replacement teeth, for tests of set-ups."""

from dataclasses import replace
from functools import cache

import numpy as np

from kinematics.case import Case
from kinematics.contact.mounted import mount
from kinematics.contact.pair import prepare
from kinematics.geometry.meshes import mesh_of
from kinematics.mounting import remounted, teeth_for
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.occlusion import Occlusion
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_upper


@cache
def built(third_molars=()):
    """Return coarse built-in casts, MI in CR."""
    dentition = DentitionSettings(triangles_per_arch=10_000, third_molars=third_molars)
    case = Case(dentition=dentition)
    return remounted(teeth_for(case, lambda step: None, 1), case)


def moved(arch, out_of_contact, removed):
    """Return an arch with some teeth moved along their axes towards the root, others taken out."""
    vertices, faces, codes = arch.mesh.vertices.copy(), arch.mesh.faces, arch.tooth_of_face
    for code, mm in out_of_contact.items():
        if code in arch.codes:
            own = np.unique(faces[codes == code])
            vertices[own] -= mm * arch.tooth(code).long_axis
    kept = ~np.isin(codes, sorted(removed))
    used, renumbered = np.unique(faces[kept], return_inverse=True)
    return replace(
        arch,
        mesh=mesh_of(vertices[used], renumbered.reshape(-1, 3)),
        tooth_of_face=codes[kept],
        teeth=tuple(tooth for tooth in arch.teeth if tooth.code not in removed),
    )


def altered(out_of_contact=None, removed=(), third_molars=()):
    """Return the built-in casts with some teeth out of contact by so many mm, and some gone."""
    casts = built(third_molars)
    upper, lower = (
        moved(arch, out_of_contact or {}, set(removed)) for arch in (casts.upper, casts.lower)
    )
    pair = prepare(upper, lower)
    return mount(upper, lower, pair, casts.guidance, casts.mi, casts.incisal_point)


def base(*teeth, abutments=None, name="base"):
    """Return a denture base; its abutment stands ahead of its first tooth unless told."""
    return DentureBase(name, teeth, (teeth[0] - 1,) if abutments is None else abutments)


def occlusion(casts, *bases, joined=(), **settings):
    """Return the subject of judging; `settings` are those of judging."""
    return Occlusion(casts, JudgingSettings(**settings), bases, joined=joined)


def arch_of(casts, code):
    """Return the arch of a tooth."""
    return casts.upper if is_upper(code) else casts.lower
