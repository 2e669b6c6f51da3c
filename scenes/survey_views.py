"""Pictures of a surveyed cast: along the path of insertion, and its abutments from their sides."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.geometry.meshes import part_of
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.surveying.survey import GAUGES_MM, CrownSide, Survey, SurveyedTooth
from scenes.arch_scenes import arch_parts, cast_vertices, crown_vertices, tooth_labels
from scenes.colours import SURFACE
from scenes.gap_colours import rgb
from scenes.scene import Part, Scene, View
from scenes.turned_crowns import Grid, SideView, turned_crown

#: Colours of an undercut from each gauge on: ever darker, so that they stay apart in print and
#: without red or green vision.
DEPTH_COLOURS: Final = ("#f6c667", "#d1662f", "#5c1f4a")
#: Room around the crowns, and around the body, mm.
_AROUND_MM: Final = (7.0, 0.5)
#: What a cast does not have on the surveyor.
_NOT_ON_CAST: Final = ("replacement tooth", "denture base")


def depth_paint(depth_mm: Floats, role: str) -> Floats:
    """Return red, green and blue (n, 3) of undercuts on a part of some role."""
    shades = np.array([rgb(SURFACE[role]), *map(rgb, DEPTH_COLOURS)])
    return np.asarray(shades[np.searchsorted(GAUGES_MM, depth_mm, "right")])


def path_scene(arch: Arch, survey: Survey, replacement_teeth: tuple[int, ...]) -> Scene:
    """Describe a cast, without set-up, as seen along its path, with its tooth numbers."""
    towards = np.array(survey.path)
    sign = 1.0 if survey.is_upper else -1.0
    ahead = np.array([sign, 0.0, 0.0])
    up = ahead - (ahead @ towards) * towards
    up /= np.linalg.norm(up)
    plain = View(
        f"{survey.side} cast along the path of insertion", towards, up, np.zeros(3), 1.0, 1.0
    )
    crowns, cast = plain.project(crown_vertices(arch)), plain.project(cast_vertices(arch))
    low = np.minimum(crowns.min(axis=0) - _AROUND_MM[0], cast.min(axis=0) - _AROUND_MM[1])
    high = np.maximum(crowns.max(axis=0) + _AROUND_MM[0], cast.max(axis=0) + _AROUND_MM[1])
    middle = 0.5 * (low + high)
    view = replace(
        plain,
        centre=middle[0] * plain.right + middle[1] * plain.up,
        width_mm=float(np.ceil(high[0] - low[0])),
        height_mm=float(np.ceil(high[1] - low[1])),
    )
    parts = arch_parts(arch, survey.side, replacement_teeth)
    labels = tooth_labels(arch, view, replacement_teeth)
    return Scene(
        view,
        tuple(part for part in parts if part.role not in _NOT_ON_CAST),
        labels=tuple(label for label in labels if not label.strong),
    )


def abutment_scene(arch: Arch, survey: Survey) -> tuple[Scene, tuple[SideView, ...]]:
    """Describe every surveyed tooth from cheek or lip, from the tongue, and from its base.

    The rod of the surveyor stands upright in the picture, the teeth point up.

    Returns
    -------
    scene : Scene
        Crowns coloured by undercut.
    views : tuple of SideView
        Where each stands.
    """
    grid = Grid(
        [f"{tooth.tooth}{', clasp' if tooth.clasped else ''}" for tooth in survey.teeth],
        _rows(survey),
    )
    parts, views = [], []
    for column, tooth in enumerate(survey.teeth):
        for row, name in enumerate(grid.rows):
            for side in _sides_in(name, tooth):
                part, view = _crown(arch, survey, tooth, side, grid.at(column, row))
                parts.append(part)
                views.append(view)
    name = f"surveyed teeth of the {survey.side} cast from their sides"
    return grid.scene(name, parts), tuple(views)


_FROM_BASE: Final = "from\nthe base"


def _rows(survey: Survey) -> tuple[str, ...]:
    """Return the names of the rows of a picture of abutments."""
    any_base = any(side.faces_base for tooth in survey.teeth for side in tooth.sides)
    return ("facial", "lingual", *([_FROM_BASE] if any_base else []))


def _sides_in(row: str, tooth: SurveyedTooth) -> Iterator[CrownSide]:
    """Yield the side of a tooth that a row shows, if there is one; of two bases the first."""
    if row == _FROM_BASE:
        yield from [side.side for side in tooth.sides if side.faces_base][:1]
    else:
        yield "facial" if row == "facial" else "lingual"


def _crown(
    arch: Arch, survey: Survey, tooth: SurveyedTooth, side: CrownSide, at: Floats
) -> tuple[Part, SideView]:
    """Return a crown turned so that a side faces the eye, its middle at a place, and how."""
    crown, used = part_of(arch.mesh, arch.tooth_of_face == tooth.tooth)
    frame = crown_frame(arch, tooth.tooth)
    along = frame.facial if side in ("facial", "lingual") else frame.mesial
    towards = along if side in ("facial", "mesial") else -along
    moved, view = turned_crown(tooth.tooth, crown, -np.array(survey.path), towards, at)
    role = f"{survey.side} tooth"
    return Part(role, moved, crown.faces, paint=depth_paint(survey.depth_mm[used], role)), view
