"""What drawings over an arch share: places on the paper, sides named, guide planes, a key."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from scenes.colours import PAPER
from scenes.scene import View
from scenes.sheet import Boxes, Item, Line, Sheet, Words

BLUE: Final = "#0072B2"
#: Length of the sign of a row of a key, and how far it stands in.
SAMPLE_MM: Final = 9.0
_IN_MM: Final = 1.0
_ROW_MM: Final = 5.0
_KEY_WIDTH_MM: Final = 84.0
#: Half the length of a guide plane as drawn.
_HALF_PLANE_MM: Final = 2.2

#: A row of a key: signs from the left, about a height of 0, and what they mean.
KeyRow = tuple[Sequence[Line | Boxes], str]


def placed(view: View, points: Floats, magnify: float) -> Floats:
    """Return places (n, 2) on the paper, mm, of points (n, 3) of what a view shows.

    `magnify`: printed size over true size.
    """
    half = 0.5 * np.array([view.width_mm, view.height_mm])
    return np.asarray(magnify * (view.project(points) + half))


def sides_named(width_mm: float) -> tuple[Words, Words]:
    """Return the names of the patient's sides in the lower corners of a drawing so wide."""
    return (
        Words("patient's right", (1.5, 1.5), "left", "bottom", 6.5),
        Words("patient's left", (width_mm - 1.5, 1.5), "right", "bottom", 6.5),
    )


def plane_ends(point: Floats, along: Floats) -> Floats:
    """Return both ends (2, 3) of a guide plane as drawn, about its point, by a unit vector."""
    return np.asarray(point + np.array([[-1.0], [1.0]]) * _HALF_PLANE_MM * along)


def plane_bar(places: Floats) -> tuple[Line, Line]:
    """Return the bar that stands for a guide plane, with its rim."""
    return Line(places, PAPER, 4.6, level=2.6), Line(places, BLUE, 2.8, level=2.7)


def sign_key(rows: Sequence[KeyRow]) -> Sheet:
    """Return a key, a row for each sign with its meaning, from the top."""
    height = _ROW_MM * len(rows)
    items: list[Item] = []
    for row, (signs, text) in enumerate(rows):
        level = height - _ROW_MM * (row + 0.5)
        items += _lifted(signs, level)
        items.append(Words(text, (SAMPLE_MM + 4.0, level), "left", size_pt=7.5))
    return Sheet(_KEY_WIDTH_MM, height, tuple(items), see_through=True)


def _lifted(signs: Iterable[Line | Boxes], level: float) -> Iterable[Item]:
    for sign in signs:
        if isinstance(sign, Line):
            yield replace(sign, points=sign.points + np.array([_IN_MM, level]))
        else:
            boxes = ((x + _IN_MM, y + level, width, height) for x, y, width, height in sign.boxes)
            yield replace(sign, boxes=tuple(boxes))
