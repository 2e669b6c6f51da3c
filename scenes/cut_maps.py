"""What would come off a tooth: the tooth seen along the bite, coloured by depth in steps."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.adjusting.planned import ToothCut
from kinematics.tooth_codes import is_upper
from scenes import colours
from scenes.annotation import annotation
from scenes.arch_scenes import LOWER, UPPER
from scenes.gap_colours import rgb
from scenes.phrases import length
from scenes.scene import Note, Part, Scene, View
from scenes.sheet import Boxes, Line, Sheet, Words

#: Where the steps of depth begin, mm; less than the first is not coloured.
STEPS_MM: Final = (0.002, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5)
_AROUND_MM: Final = 1.4
_BELOW_MM: Final = 2.6
_RING_PT: Final = 15.0
_BAR_MM: Final = (4.0, 4.6, 76.0, 3.0)
_SHEET_MM: Final = (84.0, 12.4)


def step_colours() -> tuple[Floats, ...]:
    """Return red, green and blue of every step, the deepest darkest."""
    return tuple(rgb(colour) for colour in colours.CUT_STEPS)


def cut_scene(cut: ToothCut) -> Scene:
    """Describe one tooth before its cut, seen along the bite."""
    side = UPPER if is_upper(cut.tooth) else LOWER
    mesh, sign = cut.surface.before, 1.0 if side == UPPER else -1.0
    # Corners apart: every triangle has one colour, so that steps have sharp borders.
    vertices = mesh.corners.reshape(-1, 3)
    faces = np.arange(len(vertices)).reshape(-1, 3)
    depth = cut.surface.arc_mm[mesh.faces].mean(axis=1)
    step = np.searchsorted(STEPS_MM, depth, side="right")
    paints = np.stack([rgb(colours.SURFACE[f"{side} tooth"]), *step_colours()])
    part = Part(f"{side} tooth", vertices, faces, cast=side, paint=np.repeat(paints[step], 3, 0))
    low, high = vertices.min(axis=0) - _AROUND_MM, vertices.max(axis=0) + _AROUND_MM
    size = float(max(high[0] - low[0] + _BELOW_MM, high[1] - low[1]))
    centre = 0.5 * (low + high) - np.array([sign * 0.5 * _BELOW_MM, 0.0, 0.0])
    seen = "from below" if side == UPPER else "from above"
    view = View(
        f"{cut.tooth}, seen {seen}",
        towards=np.array([0.0, 0.0, sign]),
        up=np.array([sign, 0.0, 0.0]),
        centre=centre,
        width_mm=size,
        height_mm=size,
    )
    told = f"{cut.tooth}: deepest {length(cut.deepest_mm)}"
    return Scene(view, (part,), notes=(Note(told, (0.0, -0.5 * size + 1.9)),))


def cut_words(scene: Scene, cut: ToothCut, magnify: float) -> Sheet:
    """Return what lies over the picture: tooth and depth, and a ring about the deepest place."""
    plain = annotation(scene, magnify)
    vertex = int(np.argmax(cut.surface.arc_mm))
    middle = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    place = magnify * (scene.view.project(cut.surface.before.vertices[vertex][None]) + middle)
    rings = tuple(
        Line(place, colour, 0.0, mark="o", mark_pt=_RING_PT, rim_pt=width, mark_fill="none")
        for colour, width in ((colours.PAPER, 2.0), (colours.INK, 0.8))
    )
    return Sheet(plain.width_mm, plain.height_mm, (*rings, *plain.items), see_through=True)


def cut_legend() -> Sheet:
    """Return the steps of depth with their limits and unit."""
    left, bottom, width, height = _BAR_MM
    step = width / len(STEPS_MM)
    boxes = [
        Boxes(((left + k * step, bottom, step, height),), colour, rim=colours.INK)
        for k, colour in enumerate(colours.CUT_STEPS)
    ]
    ticks = [
        Words(f"{1e3 * at:g}", (left + k * step, bottom - 2.2)) for k, at in enumerate(STEPS_MM)
    ]
    more = Words("more", (left + width, bottom - 2.2))
    title = Words("comes off along the bite, µm", (left, bottom + 5.0), "left")
    return Sheet(*_SHEET_MM, (*boxes, *ticks, more, title))
