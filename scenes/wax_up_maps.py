"""What a wax-up changes, coloured on crowns seen from cheek or lip, tongue, and along the bite.

Two ways of change have two colours, ever darker from step to step, which stay apart without red or
green vision; since both are dark in a grey print, a ring and a square say which is which.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.geometry.meshes import face_areas_normals
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.wax_up import LEAST_CHANGE_MM, WaxMap, WaxUp
from kinematics.tooth_codes import arch_place
from scenes import colours
from scenes.annotation import annotation
from scenes.gap_colours import rgb
from scenes.scene import Part, Scene
from scenes.sheet import Boxes, Item, Line, Sheet, Words
from scenes.turned_crowns import Grid, SideView, turned_crown

#: Where the steps begin on either side, mm.
STEPS_MM: Final = (LEAST_CHANGE_MM, 0.2, 0.5, 1.0)
#: Of what is added, and of what is taken away, from the least to the most.
ADDED: Final = ("#fdb863", "#e08214", "#b35806", "#7f3b08")
REMOVED: Final = ("#b2abd2", "#8073ac", "#542788", "#2d004b")
NOT_COMPARED: Final = "#a9afb5"
_ROWS: Final = ("facial", "lingual", "along\nthe bite")
_MARK_PT: Final = 7.5
_BAR_MM: Final = (10.0, 5.4, 12.0, 3.0)
_SHEET_MM: Final = (132.0, 18.6)


def paint(over_mm: Floats, role: str) -> Floats:
    """Return red, green and blue (n, 3) of distances on a part of some role."""
    shades = np.array([rgb(c) for c in (*REMOVED[::-1], colours.SURFACE[role], *ADDED)])
    limits = [-step for step in reversed(STEPS_MM)]
    step = np.searchsorted(limits, over_mm, "right") + np.searchsorted(STEPS_MM, over_mm, "right")
    found = shades[np.minimum(step, len(shades) - 1)]
    return np.where(np.isnan(over_mm)[:, None], np.array(rgb(NOT_COMPARED)), found)


@dataclass(frozen=True)
class WaxUpPicture:
    """Every tooth that changed, what lies over that at its printed size, and the key."""

    scene: Scene
    over: Sheet
    key: Sheet


def wax_up_picture(
    wax_up: WaxUp, arch: Arch, mi_pose: Floats, larger: float, page_mm: float
) -> WaxUpPicture | None:
    """Lay out the picture of a wax-up; None where none of its teeth can be drawn.

    Parameters
    ----------
    wax_up : WaxUp
        What changed.
    arch : Arch
        The arch it is of.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    larger, page_mm : float
        Printed size over true size, unless the page is narrower.
    """
    # Scans of a wax-up lie in the hinge frame, changed teeth in the coordinates of their arch.
    in_hinge_frame = not (wax_up.is_upper or wax_up.by_changes)
    found = wax_up_scene(wax_up, arch, mi_pose[:3, :3] if in_hinge_frame else np.eye(3))
    if found is None:
        return None
    scene, views = found
    bare = any(np.isnan(item.over_mm).any() for item in wax_up.maps)
    return WaxUpPicture(
        scene,
        wax_up_words(scene, views, min(larger, page_mm / scene.view.width_mm)),
        wax_up_legend(some_not_compared=bare),
    )


def wax_up_scene(
    wax_up: WaxUp, arch: Arch, turn: Floats
) -> tuple[Scene, tuple[tuple[SideView, WaxMap], ...]] | None:
    """Describe every tooth that changed from three sides; None where none can be drawn.

    Parameters
    ----------
    wax_up : WaxUp
        What changed.
    arch : Arch
        The arch it is of, whose landmarks tell how a crown stands.
    turn : ndarray, shape (3, 3)
        From directions of the arch to those of the wax-up.

    Returns
    -------
    scene : Scene
        A column for every tooth.
    views : tuple of (SideView, WaxMap)
        Where each crown stands.
    """
    known = arch.codes if len(arch.codes) > 1 else ()
    maps = [item for item in wax_up.maps if item.tooth in known]
    if not maps:
        return None
    maps.sort(key=lambda item: arch_place(item.tooth))
    grid = Grid([str(item.tooth) for item in maps], _ROWS)
    parts, views = [], []
    for column, item in enumerate(maps):
        frame = crown_frame(arch, item.tooth)
        facial, up = turn @ frame.facial, turn @ frame.up
        for row, (upright, towards) in enumerate(((up, facial), (up, -facial), (facial, up))):
            at = grid.at(column, row)
            seen, view = turned_crown(item.tooth, item.mesh, upright, towards, at)
            parts.append(_part(item, seen, wax_up.side))
            views.append((view, item))
    name = f"teeth of the {wax_up.side} cast with what was added and taken away"
    return grid.scene(name, parts), tuple(views)


def _part(item: WaxMap, seen: Floats, side: str) -> Part:
    """Return a crown whose triangles have one colour each, so that steps have sharp borders."""
    role = f"{side} tooth"
    over_mm = item.over_mm[item.mesh.faces].mean(axis=1)
    corners = seen[item.mesh.faces].reshape(-1, 3)
    faces = np.arange(len(corners)).reshape(-1, 3)
    return Part(role, corners, faces, paint=np.repeat(paint(over_mm, role), 3, axis=0))


def wax_up_words(scene: Scene, views: tuple[tuple[SideView, WaxMap], ...], magnify: float) -> Sheet:
    """Return what lies over the picture: names, a ring at the highest, a square at the deepest."""
    plain = annotation(scene, magnify)
    half = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    items: list[Item] = []
    for first in range(0, len(views), len(_ROWS)):
        own, item = [view for view, _ in views[first : first + len(_ROWS)]], views[first][1]
        for sign, mark in ((1.0, "o"), (-1.0, "s")):
            change = np.nan_to_num(sign * item.over_mm, nan=0.0)
            vertex = int(np.argmax(change))
            if change[vertex] >= LEAST_CHANGE_MM:
                view = own[int(np.argmax([side.facing @ _normal(item, vertex) for side in own]))]
                place = magnify * (view.place(item.mesh.vertices[vertex][None]) + half)
                items += _mark(place, mark)
    return Sheet(plain.width_mm, plain.height_mm, (*items, *plain.items), see_through=True)


def _normal(item: WaxMap, vertex: int) -> Floats:
    """Return which way the surface faces at a vertex, (3,)."""
    areas, normals = face_areas_normals(item.mesh)
    around = (item.mesh.faces == vertex).any(axis=1)
    return np.asarray((areas[around, None] * normals[around]).sum(axis=0))


def _mark(place: Floats, mark: str) -> list[Line]:
    return [
        Line(place, colour, 0.0, mark=mark, mark_pt=_MARK_PT, rim_pt=width, mark_fill="none")
        for colour, width in ((colours.PAPER, 2.6), (colours.INK, 1.1))
    ]


def wax_up_legend(*, some_not_compared: bool) -> Sheet:
    """Return the steps with their limits and unit, and what the marks mean."""
    left, bottom, width, height = _BAR_MM
    shades = (*REMOVED[::-1], colours.SURFACE["upper tooth"], *ADDED)
    limits = (*(-step for step in reversed(STEPS_MM)), *STEPS_MM)
    items: list[Item] = [
        Boxes(((left + k * width, bottom, width, height),), shade, rim=colours.INK)
        for k, shade in enumerate(shades)
    ]
    for k, limit in enumerate(limits, start=1):
        sign = "+" if limit > 0.0 else "−"
        items.append(Words(f"{sign}{abs(limit):g}", (left + k * width, bottom - 2.2)))
    right = left + len(shades) * width
    above = bottom + height + 2.6
    items += [
        Words("taken away, mm", (left, above), "left"),
        Words("added, mm", (right, above), "right"),
        *_mark(np.array([[left + 1.0, above + 4.6]]), "s"),
        Words("deepest of each tooth", (left + 4.0, above + 4.6), "left"),
        *_mark(np.array([[left + 51.0, above + 4.6]]), "o"),
        Words("highest of each tooth", (left + 54.0, above + 4.6), "left"),
    ]
    if some_not_compared:
        items.append(Boxes(((left + 92.0, above + 3.4, 5.0, 2.4),), NOT_COMPARED, rim=colours.INK))
        items.append(Words("not compared", (left + 99.0, above + 4.6), "left"))
    return Sheet(*_SHEET_MM, tuple(items))
