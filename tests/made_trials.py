"""Coarse built-in teeth once a process, changed again and again, and what tests ask of them."""

from dataclasses import replace
from functools import cache
from types import SimpleNamespace

import numpy as np
import trimesh

from kinematics.mounting import changed, remounted, teeth_for
from kinematics.teeth.natural_side import edges_mm
from kinematics.tooth_codes import is_upper
from kinematics.trial.changed_teeth import changed_teeth
from kinematics.trial.settings import Change
from tests.shipped_cases import coarse


@cache
def natural():
    """Return the coarse natural dentition as a case, and its teeth."""
    case = coarse("natural_dentition")
    return case, teeth_for(case, lambda _: None)


def made(changes):
    """Return changes, each given as (kind, tooth, amounts)."""
    return tuple(Change(kind, tooth, **amounts) for kind, tooth, amounts in changes)


def after(*changes):
    """Return both arches of the natural teeth after changes, without trees over them."""
    case, teeth = natural()
    edges = edges_mm(case.dentition.triangles_per_arch)
    done = changed_teeth(
        teeth.upper,
        teeth.lower,
        teeth.pair,
        teeth.pose,
        made(changes),
        {True: edges["U"], False: edges["L"]},
    )
    return SimpleNamespace(
        upper=done.upper.arch if done.upper else teeth.upper,
        lower=done.lower.arch if done.lower else teeth.lower,
        notes=done.notes,
    )


def mounted_after(*changes):
    """Return the natural teeth after changes, and the casts mounted with them."""
    case, teeth = natural()
    case = replace(case, change=made(changes))
    now = changed(teeth, case)
    return now, remounted(now, case)


def arch_of(teeth, code):
    """Return the arch in which a tooth stands."""
    return teeth.upper if is_upper(code) else teeth.lower


def triangles(teeth, code):
    """Return the corners (m, 3, 3) of one tooth's triangles."""
    arch = arch_of(teeth, code)
    return arch.mesh.corners[arch.tooth_of_face == code]


def solid(teeth, code):
    """Return one tooth as a mesh of the second library, equal vertices merged."""
    arch = arch_of(teeth, code)
    faces = arch.mesh.faces[arch.tooth_of_face == code]
    return trimesh.Trimesh(arch.mesh.vertices, faces, process=True)


def others_alone(before, after_, codes):
    """Tell whether every triangle and landmark of all other teeth has the same bits."""
    same = True
    for name in ("upper", "lower"):
        one, other = getattr(before, name), getattr(after_, name)
        kept = [~np.isin(arch.tooth_of_face, codes) for arch in (one, other)]
        same &= np.array_equal(one.mesh.corners[kept[0]], other.mesh.corners[kept[1]])
        for tooth in one.teeth:
            if tooth.code not in codes:
                same &= np.array_equal(tooth.edge, other.tooth(tooth.code).edge)
    return bool(same)
