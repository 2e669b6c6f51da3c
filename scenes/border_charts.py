"""Plots of border movements: what the lower incisal point reaches, from side, front and above."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.borders import lines as names
from kinematics.borders.lines import Seen
from kinematics.borders.movements import BorderMovements
from kinematics.conventions import LEFT, RIGHT, Floats
from scenes import colours, panel
from scenes.movement_styles import LEFT_LATERAL, MI, PROTRUSION, RETRUSION, RIGHT_LATERAL
from scenes.sheet import Box, Item, Key, Line, Sheet, Words

_FORWARD, _LEFT, _UP = 0, 1, 2
_HEIGHT_MM: Final = 106.0
_SCALES: Final = ("forward, mm", "to the patient's left, mm", "upward, mm")
#: Room around an outline, mm of jaw.
_ROOM_MM: Final = 2.5


@dataclass(frozen=True)
class _Panel:
    """From where one looks, what goes across and upward, and where names have room."""

    seen: Seen
    title: str
    across: int
    upward: int
    width_mm: float
    names_mm: float = 0.0
    mi_higher_pt: float = 8.0


_PANELS: Final = (
    _Panel("side", "from the side", _FORWARD, _UP, 58.0, 5.0),
    _Panel("front", "from in front", _LEFT, _UP, 43.0),
    _Panel("above", "from above", _LEFT, _FORWARD, 35.0, mi_higher_pt=-8.0),
)
#: What moves with both condyles alike, and what only turns.
_OPENING: Final = colours.Style("#9A5B92", "D", "-")
_HINGE: Final = colours.Style("#A6761D", "P", "-")
_STYLES: Final = {
    names.CR_TO_MI: RETRUSION,
    names.PROTRUSION: PROTRUSION,
    names.HINGE_OPENING: _HINGE,
    names.WITH_TRANSLATION: _OPENING,
    names.PROTRUDED: PROTRUSION,
    names.ARCH_AHEAD: PROTRUSION,
    **{
        of[side]: style
        for of in (names.ON_TEETH, names.OPENING, names.ARCH, names.FORWARD)
        for side, style in ((RIGHT, RIGHT_LATERAL), (LEFT, LEFT_LATERAL))
    },
}
#: What the lines of one style are, for the key, in its order.
_KEY: Final = (
    (RETRUSION, "from CR to MI"),
    (PROTRUSION, "protrusion, and opening from there"),
    (_HINGE, "hinge opening, condyles in CR"),
    (_OPENING, "opening with translation"),
    (RIGHT_LATERAL, "right lateral, and on from there"),
    (LEFT_LATERAL, "left lateral, and on from there"),
)


@dataclass(frozen=True)
class _Spot:
    """A name beside the end (-1) or the beginning (0) of a line: which side of the words is there.

    `higher_pt`: how much higher than the place they stand.
    """

    text: str
    line: str
    end: int
    side: Literal["left", "right"]
    higher_pt: float = 0.0


_SPOTS: Final = (
    _Spot("CR", names.CR_TO_MI, 0, "right"),
    _Spot("limit of\nhinge opening", names.HINGE_OPENING, -1, "right"),
    _Spot("greatest\nopening", names.WITH_TRANSLATION, -1, "left", -1.0),
    _Spot("greatest\nprotrusion", names.PROTRUSION, -1, "left", 6.0),
)


def border_chart(found: BorderMovements) -> Sheet:
    """Lay out all outlines, from where the incisal point stands in MI."""
    items: list[Item] = []
    left = 11.0
    for wanted in _PANELS:
        box = (left, 25.0, wanted.width_mm, 74.0)
        left += wanted.width_mm + 13.0
        items += _outline(box, wanted, found)
    entries = tuple((_sample(style), text) for style, text in _KEY)
    key = Key(entries, columns=3, sample=4.0, gap=0.8, between=2.0, below=0.5)
    return Sheet(panel.PAGE_WIDTH_MM, _HEIGHT_MM, tuple(items), key)


def _outline(box: Box, wanted: _Panel, found: BorderMovements) -> list[Item]:
    """Return one panel; what teeth guide is drawn thicker."""
    axes = [wanted.across, wanted.upward]
    lines = [line for line in found.lines if line.seen == wanted.seen]
    flat = {line.name: (line.incisal_point - found.incisal_point_in_mi)[:, axes] for line in lines}
    every = np.concatenate([*flat.values()])
    beyond = np.array([_ROOM_MM + wanted.names_mm, _ROOM_MM])
    frame = panel.same_scale(box, every.min(axis=0) - _ROOM_MM, every.max(axis=0) + beyond)
    items: list[Item] = [panel.title(frame, wanted.title)]
    for line in lines:
        style = _STYLES[line.name]
        items.append(
            Line(
                frame.places(flat[line.name][:, 0], flat[line.name][:, 1]),
                style.colour,
                2.2 if line.on_teeth else 1.2,
                style.line,
                style.marker,
                3.2,
                marked=(len(flat[line.name]) // 2,),
                within=box,
            )
        )
    items += panel.scales(frame, _SCALES[wanted.across], _SCALES[wanted.upward])
    return [*items, *_named(wanted, frame, flat)]


def _named(wanted: _Panel, frame: panel.Panel, flat: Mapping[str, Floats]) -> list[Item]:
    """Return the places that have a name, and in every panel where MI is."""
    at_mi = frame.places([0.0], [0.0])
    items: list[Item] = [
        Line(at_mi, MI.colour, 0.0, mark=MI.marker, mark_pt=5.0, rim_pt=1.4),
        Words("MI", frame.place(0.0, 0.0, (0.0, wanted.mi_higher_pt)), "center", "center", 6.5),
    ]
    for spot in _SPOTS:
        if spot.line in flat:
            across, upward = flat[spot.line][spot.end].tolist()
            beside = -7.0 if spot.side == "right" else 7.0
            place = frame.place(across, upward, (beside, spot.higher_pt))
            items.append(Words(spot.text, place, spot.side, "center", 6.5, line_spacing=1.1))
    return items


def _sample(style: colours.Style) -> Line:
    return Line(np.empty((0, 2)), style.colour, 1.5, style.line, style.marker, 3.5)
