"""Where scanned casts stand in each other at the bite: both arches coloured by depth."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.scans.bite_overlaps import BiteOverlaps, CastOverlap
from scenes import colours
from scenes.annotation import annotation
from scenes.arch_scenes import LOWER, UPPER, inner_labels, occlusal_scene
from scenes.gap_colours import shades, still
from scenes.phrases import length
from scenes.scene import Frame, Gaps, Scene
from scenes.sheet import Boxes, Line, Sheet, Words

#: Depths at which the colours may end, micrometres: the first that no overlap exceeds. None is more
#: than twice the one before, so that the deepest place always uses half of the colours.
_LIMITS_UM: Final = (5, 10, 20, 30, 50, 100, 200, 300, 500, 1000)
#: How many teeth of each arch have their depth written beside them.
_MOST_NAMED: Final = 5
#: How far inside the crowns the middle of a depth stands.
_INWARD_MM: Final = 5.5
#: Rings go around what they mark, so that its colour is seen.
_RING_PT: Final = 10.0
_BAR_MM: Final = (3.0, 4.6, 74.0, 3.0)
_SHEET_MM: Final = (84.0, 12.4)
_STEPS: Final = 120


def overlap_limit_mm(overlaps: BiteOverlaps) -> float:
    """Return the depth at which the colours end, mm, the same for both arches."""
    deepest_um = 1e3 * overlaps.deepest_mm
    return 1e-3 * next((at for at in _LIMITS_UM if deepest_um <= at), _LIMITS_UM[-1])


def overlap_scene(
    arch: Arch,
    side: str,
    overlap: CastOverlap,
    limit_mm: float,
    replacement_teeth: tuple[int, ...] = (),
) -> Scene:
    """Describe one arch, looked at from the other, coloured by how deep it stands in it.

    Parameters
    ----------
    arch : Arch
        The arch.
    side : str
        "upper" or "lower".
    overlap : CastOverlap
        Of this arch.
    limit_mm : float
        Where the colours end, darkest.
    replacement_teeth : tuple of int
        Drawn in a colour of their own.
    """
    plain = occlusal_scene(arch, side, replacement_teeth)
    near_mm = limit_mm - overlap.of_all(len(arch.mesh.vertices))
    none = np.empty(0)
    gaps = Gaps(near_mm, none, limit_mm) if side == UPPER else Gaps(none, near_mm, limit_mm)
    painted = still(plain, Frame(np.eye(4), gaps))
    texts = {place.code: length(place.depth_mm) for place in overlap.deepest[:_MOST_NAMED]}
    depths = inner_labels(arch, painted.view, texts, _INWARD_MM)
    # Without the words inside the arch: depths stand there.
    return replace(painted, notes=(), labels=(*painted.labels, *depths))


def overlap_numbers(scene: Scene, arch: Arch, overlap: CastOverlap, magnify: float) -> Sheet:
    """Return what lies over the picture: numbers, depths, and rings about the deepest places.

    Parameters
    ----------
    scene : Scene
        What `overlap_scene` returned for the arch and its overlap.
    arch, overlap : Arch, CastOverlap
        The same.
    magnify : float
        Printed size over true size.
    """
    plain = annotation(scene, magnify)
    vertices = [place.vertex for place in overlap.deepest[:_MOST_NAMED]]
    middle = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    places = magnify * (scene.view.project(arch.mesh.vertices[vertices].reshape(-1, 3)) + middle)
    rings = [
        Line(places, colour, 0.0, mark="o", mark_pt=_RING_PT, rim_pt=width, mark_fill="none")
        for colour, width in ((colours.PAPER, 2.2), (colours.INK, 0.9))
    ]
    return replace(plain, items=(*rings, *plain.items))


def overlap_legend(limit_mm: float) -> Sheet:
    """Return the scale of the colours, with its unit."""
    left, bottom, width, height = _BAR_MM
    depth = (np.arange(_STEPS) + 0.5) / _STEPS
    step = width / _STEPS
    boxes = [
        # Each reaches to the end, under those after it, so that no seams show.
        Boxes(((left + k * step, bottom, width - k * step, height),), _hexadecimal(colour))
        for k, colour in enumerate(shades(1.0 - depth, f"{LOWER} tooth"))
    ]
    frame = np.array(
        [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height), (0.0, 0.0)]
    ) + np.array([left, bottom])
    limit_um = round(1e3 * limit_mm)
    more = " or more" if limit_um == _LIMITS_UM[-1] else ""
    ticks = [
        Words(f"{share * limit_um:g} µm{end}", (left + share * width, bottom - 2.2))
        for share, end in ((0.0, ""), (0.5, ""), (1.0, more))
    ]
    title = Words("how deep each place stands in the other cast", (left, bottom + 5.0), "left")
    return Sheet(*_SHEET_MM, (*boxes, Line(frame, colours.INK, 0.6), *ticks, title))


def _hexadecimal(colour: np.ndarray) -> str:
    return "#" + "".join(f"{round(255.0 * float(value)):02x}" for value in colour)
