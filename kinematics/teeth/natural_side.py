"""The left side's natural teeth: set up, settled into MI, before anything is changed on them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.teeth.arch_form import Placement
from kinematics.teeth.crossbite import crossbite_freedoms, in_crossbite
from kinematics.teeth.crown_table import CrownTable
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.meeting import Teeth
from kinematics.teeth.mi_scheme_names import MIScheme
from kinematics.teeth.mi_schemes import in_scheme, with_second_ridges
from kinematics.teeth.posterior_pairs import with_every_pair
from kinematics.teeth.resolution import edge_for
from kinematics.teeth.set_up import SetUpTargets, set_up_side, to_hinge_frame
from kinematics.teeth.settling import Settled, natural_freedoms, settle
from kinematics.teeth.settling_programme import Freedom
from kinematics.teeth.standing_tooth import standing_tooth
from kinematics.teeth.third_molars import standing_third_molars, with_third_molars

#: How far settled cusps may leave the height of the table, mm, and what every degree of changed
#: inclination adds.
BOX_MM: Final = 0.4
BOX_PER_DEG: Final = 0.05
#: Fossae are deepened by this for every degree of steeper cusps, mm.
FOSSA_PER_DEG: Final = 0.03
#: Share of a change of arch width that reaches the canines: teeth of one size leave them little
#: room, since the arch from canine to canine keeps its length.
CANINE_SHARE: Final = 0.3


@dataclass(frozen=True)
class Forms:
    """What crowns and their places depend on, whatever the triangles.

    Attributes
    ----------
    mi_scheme : str
        See `DentitionSettings`.
    inclination_change_deg, width_scale : float
        Cusps steeper than usual, arches wider.
    targets : SetUpTargets
        What the set-up reaches.
    """

    mi_scheme: MIScheme
    inclination_change_deg: float
    width_scale: float
    targets: SetUpTargets


@dataclass(frozen=True)
class Asked:
    """What natural teeth depend on; what is worn, lost or replaced comes after.

    Attributes
    ----------
    forms : Forms
        Crowns and their places.
    triangles_per_arch : int
        Wanted.
    third_molars : bool
        Whether there are any.
    crossed : frozenset of int
        Places from the midline that stand in crossbite.
    pose : tuple of float
        hinge_from_lower in MI, its twelve upper numbers row by row.
    """

    forms: Forms
    triangles_per_arch: int
    third_molars: bool
    crossed: frozenset[int]
    pose: tuple[float, ...]


def natural_side(settings: DentitionSettings, crossed: frozenset[int], mi_pose: Floats) -> Settled:
    """Return the left side settled as natural teeth, every posterior pair with a stop.

    Parameters
    ----------
    settings : DentitionSettings
        Of the dentition.
    crossed : frozenset of int
        Places from the midline that stand in crossbite.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.

    Raises
    ------
    NotConverged
        The settings do not go together.
    """
    scale = settings.size_scale
    targets = SetUpTargets(
        settings.overbite_mm / scale,
        settings.overjet_mm / scale,
        settings.incisal_point_ahead_mm / scale,
        settings.incisal_point_below_mm / scale,
        0.001 * settings.front_gap_um / scale,
    )
    forms = Forms(
        settings.mi_scheme,
        settings.cusp_inclination_change_deg,
        settings.arch_width_scale,
        targets,
    )
    pose = tuple(mi_pose[:3].ravel().tolist())
    thirds = bool(settings.third_molars)
    return _settled(Asked(forms, settings.triangles_per_arch, thirds, crossed, pose))


def edges_mm(triangles_per_arch: int) -> dict[str, float]:
    """Return the triangle edges of the upper and the lower arch, mm."""
    return {arch: edge_for(arch, triangles_per_arch) for arch in "UL"}


def _with_inclination(table: CrownTable, change_deg: float) -> CrownTable:
    """Return the table with all cusp slopes but the outer ones changed, and fossae with them."""
    if change_deg == 0.0:
        return table
    posterior = {
        kind: replace(
            form,
            floor=form.floor - FOSSA_PER_DEG * change_deg,
            cusps=tuple(
                replace(
                    cusp,
                    inner=cusp.inner + change_deg,
                    mesial=cusp.mesial + change_deg,
                    distal=cusp.distal + change_deg,
                )
                for cusp in form.cusps
            ),
        )
        for kind, form in table.posterior.items()
    }
    return replace(table, posterior=posterior)


def _with_width(table: CrownTable, scale: float) -> CrownTable:
    """Return the table with both arches wider at the molars, and a little at the canines."""
    at_canine = 1.0 + CANINE_SHARE * (scale - 1.0)
    spans = {
        arch: replace(span, canine=span.canine * at_canine, molar=span.molar * scale)
        for arch, span in table.set_up.spans.items()
    }
    return replace(table, set_up=replace(table.set_up, spans=spans))


@lru_cache(maxsize=8)
def _set_up(forms: Forms) -> tuple[CrownTable, Mapping[str, Placement]]:
    """Return the table and the places of the left side, both arches in relation to each other."""
    table = in_scheme(forms.mi_scheme)
    table = _with_inclination(table, forms.inclination_change_deg)
    return set_up_side(_with_width(table, forms.width_scale), forms.targets)


@lru_cache(maxsize=4)
def _settled(asked: Asked) -> Settled:
    """Return the left side as it was asked for; kept, since most changes leave it as it is."""
    forms, crossed = asked.forms, asked.crossed
    given, stand = _set_up(forms)
    by = to_hinge_frame(given, stand, forms.targets)
    table, places = in_crossbite(given, stand, crossed)
    edges = edges_mm(asked.triangles_per_arch)
    front_gap_mm = forms.targets.front_gap_mm
    teeth = {
        kind: standing_tooth(table, kind, place.moved(by), edges[kind[0]], front_gap_mm)
        for kind, place in places.items()
    }
    box_mm = BOX_MM + BOX_PER_DEG * abs(forms.inclination_change_deg)
    pose = np.vstack([np.reshape(asked.pose, (3, 4)), [0.0, 0.0, 0.0, 1.0]])

    def freedoms(standing: Teeth) -> list[Freedom]:
        return [*natural_freedoms(standing, box_mm), *crossbite_freedoms(standing, crossed)]

    settled = settle(teeth, freedoms(teeth), pose)
    settled = with_every_pair(settled, freedoms, pose, frozenset(teeth))
    settled = with_second_ridges(settled, forms.mi_scheme, pose)
    if not asked.third_molars:
        return settled
    thirds = standing_third_molars(table, places, by, edges)
    return with_third_molars(settled, thirds, box_mm, pose)
