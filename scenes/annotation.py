"""What lies over a picture: contact marks, tooth numbers, sides of the patient, a scale line.

Laid out in millimetres of the picture, so it fits the picture of either writer exactly, as vectors
(sharp in print) or together with the picture in one file.
"""

import math
from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from scenes import colours
from scenes.scene import Marks, Scene, View
from scenes.sheet import Ground, Item, Key, Line, Place, Sheet, Words

_SCALE_MM: Final = 10.0
_SIGN_MM: Final = 3.4
#: Shapes without an inside: their strokes get a white rim instead.
_OPEN_SHAPES: Final = ("x",)
#: Shapes nearer than this on paper lie on each other: about the size of one.
_SHAPE_MM: Final = 1.4
#: Shapes of one kind stand so far apart on paper, that a trace reads as one.
_OF_A_KIND_MM: Final = 2.0
#: No trace goes farther than this on paper without its shape, however crowded it is there.
_LONGEST_BARE_MM: Final = 4.0


def annotation(scene: Scene, magnify: float = 1.0) -> Sheet:
    """Return everything that lies over the picture of a scene.

    Parameters
    ----------
    scene : Scene
        What is annotated.
    magnify : float
        Printed size over true size: letters and marks keep their size on paper.
    """
    view = scene.view
    items: list[Item] = []
    for marks in _thinned(view, scene.marks, magnify):
        items += _marks(view, marks, magnify)
    for label in scene.labels:
        ground = Ground(colours.SURFACE["replacement tooth"], 1.3, rounded=True)
        at = view.project(label.point[None])
        place = _place(view, (float(at[0, 0]), float(at[0, 1])), magnify)
        items.append(
            Words(label.text, place, bold=label.strong, ground=ground if label.strong else None)
        )
    for note in scene.notes:
        place = _place(view, note.place, magnify)
        items.append(
            Words(note.text, place, upward="top", colour=colours.SOFT_INK, line_spacing=1.25)
        )
    if scene.scale_at is not None:
        items += _scale(view, scene.scale_at, magnify)
    width, height = magnify * view.width_mm, magnify * view.height_mm
    key = _key(scene) if scene.legend else None
    return Sheet(width, height, tuple(items), key, see_through=True)


def marks_sheet(view: View, marks: tuple[Marks, ...], magnify: float = 1.0) -> Sheet:
    """Return marks alone, as they lie over a picture seen that way."""
    return annotation(Scene(view, (), marks), magnify)


def legend_sign(marks: Marks) -> Sheet:
    """Return the shape of a kind of mark on a small sheet, for a legend in the text."""
    middle = np.full((1, 2), 0.5 * _SIGN_MM)
    sign = replace(_sign(marks), points=middle)
    return Sheet(_SIGN_MM, _SIGN_MM, (sign,), see_through=True)


def _place(view: View, place: Place, magnify: float) -> Place:
    """Return a place of the picture, mm from its middle, as a place on the sheet."""
    return (
        magnify * (place[0] + 0.5 * view.width_mm),
        magnify * (place[1] + 0.5 * view.height_mm),
    )


def _thinned(view: View, every: tuple[Marks, ...], magnify: float) -> list[Marks]:
    """Return marks with fewer shapes where these would lie on each other; all dots remain.

    Open shapes, the stops, all remain: each of them counts.
    """
    shown: list[tuple[str, Floats]] = []
    thinned = []
    for marks in every:
        places, shaped = magnify * view.project(marks.points), marks.shaped.copy()
        for row in np.flatnonzero(shaped):
            if marks.style.marker not in _OPEN_SHAPES:
                shaped[row] = _has_room(marks.label, places[row], shown)
            if shaped[row]:
                shown.append((marks.label, places[row]))
        thinned.append(replace(marks, shaped=shaped))
    return thinned


def _has_room(label: str, place: Floats, shown: list[tuple[str, Floats]]) -> bool:
    """Tell whether a shape keeps clear of those shown before, or its kind is missing there."""
    of_a_kind = _nearest_mm(place, [other for kind, other in shown if kind == label])
    if of_a_kind > _LONGEST_BARE_MM:
        return True
    nearest = _nearest_mm(place, [other for _, other in shown])
    return of_a_kind >= _OF_A_KIND_MM and nearest >= _SHAPE_MM


def _nearest_mm(place: Floats, others: list[Floats]) -> float:
    if not others:
        return math.inf
    return float(np.linalg.norm(np.stack(others) - place, axis=1).min())


def _marks(view: View, marks: Marks, magnify: float) -> list[Item]:
    """Return fine dots where the contact wandered, and the shape of the movement at its steps.

    Shapes have a dark rim: whatever colours are seen, they stand out from ivory.
    """
    middle = 0.5 * np.array([view.width_mm, view.height_mm])
    places = magnify * (view.project(marks.points) + middle)
    shaped = places[marks.shaped]
    colour, shape = marks.style.colour, marks.style.marker
    dots = _marked(places, colour, "o", 1.6, 0.0, 2.0)
    if shape in _OPEN_SHAPES:
        rim = _marked(shaped, colours.PAPER, shape, 8.0, 2.6, 3.0)
        return [dots, rim, _marked(shaped, colour, shape, 8.0, 1.3, 4.0)]
    halo = _marked(shaped, colours.INK, shape, 15.0, 0.6, 3.0)
    sign = _marked(shaped, colour, shape, 9.0, 0.9, 4.0)
    return [dots, halo, sign if marks.filled else replace(sign, mark_fill=colours.PAPER)]


def _marked(
    places: Floats, colour: str, shape: str, area_pt2: float, rim_pt: float, level: float
) -> Line:
    return Line(
        places, colour, 0.0, mark=shape, mark_pt=math.sqrt(area_pt2), rim_pt=rim_pt, level=level
    )


def _sign(marks: Marks) -> Line:
    """Return how the shape of a kind of mark is drawn in a legend."""
    return Line(
        np.empty((0, 2)),
        marks.style.colour,
        0.0,
        mark=marks.style.marker,
        mark_pt=4.2,
        rim_pt=1.1,
        mark_fill=marks.style.colour if marks.filled else colours.PAPER,
    )


def _key(scene: Scene) -> Key:
    """Name every kind of mark at the bottom."""
    kinds = {marks.label: marks for marks in scene.marks}
    entries = tuple((_sign(marks), label) for label, marks in kinds.items())
    return Key(entries, columns=3, sample=2.0, gap=0.2, between=1.5, below=0.1)


def _scale(view: View, at: Place, magnify: float) -> list[Item]:
    """Return a line of 10 mm, its middle at a place of the picture, with its length."""
    half, tick, gap = 0.5 * _SCALE_MM, 0.6, (np.nan, np.nan)
    left, right = ((-half, -tick), (-half, tick)), ((half, -tick), (half, tick))
    strokes: Floats = np.array(((-half, 0.0), (half, 0.0), gap, *left, gap, *right))
    middle = np.array(at) + 0.5 * np.array([view.width_mm, view.height_mm])
    return [
        Line(magnify * (middle + strokes), colours.INK, 1.0),
        Words("10 mm", _place(view, (at[0], at[1] + 2.3), magnify)),
    ]
