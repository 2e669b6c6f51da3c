"""A raised bite from the side: lower teeth in MI and raised, and where the incisal point went."""

import math
from typing import Final, Literal

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.raised_bite import Point, RaisedBite, RaisedTooth
from kinematics.tooth_codes import is_right
from scenes import colours, panel
from scenes.gap_charts import spread
from scenes.panel import Panel
from scenes.phrases import length, number, pair
from scenes.sheet import Box, Ground, Item, Key, Line, Place, Sheet, Words

_HEIGHT_MM: Final = 80.0
_SIDE: Final[Box] = (4.0, 20.0, 107.0, 54.0)
_NEAR: Final[Box] = (117.0, 11.0, 60.0, 63.0)
#: Room for words around what either view shows: left, below, right, above.
_SIDE_ROOM_MM: Final = (4.0, 1.0, 2.0, 7.0)
_NEAR_ROOM_MM: Final = (25.0, 15.0, 18.0, 9.0)
#: The near view shows at least this much, so that a tiny opening is not blown up.
_LEAST_MM: Final = 0.3
#: How far the arc is drawn beyond both places in the side view, and, cut off, in the near view.
_SHORT_ARC_RAD: Final = 0.06
_LONG_ARC_RAD: Final = 0.5
_NUMBERS_APART_MM: Final = 6.6
#: How far two lines of words reach down.
_TWO_LINES_MM: Final = 7.0
_DASHED: Final[colours.Line] = (0, (3.0, 1.6))
_DOTTED: Final[colours.Line] = (0, (1.0, 1.6))


def raised_chart(raised: RaisedBite) -> Sheet:
    """Lay out the side view of the teeth and a near view of the lower incisal point."""
    near = _near_panel(raised)
    return Sheet(
        panel.PAGE_WIDTH_MM,
        _HEIGHT_MM,
        (*_side_view(raised, near), *_near_view(raised, near)),
        _key(),
    )


def nearer_side(teeth: tuple[RaisedTooth, ...]) -> tuple[str, tuple[RaisedTooth, ...]]:
    """Return the side that has more teeth, the right one where both have as many, and its teeth."""
    right = tuple(tooth for tooth in teeth if is_right(tooth.tooth_lower))
    left = tuple(tooth for tooth in teeth if not is_right(tooth.tooth_lower))
    return ("left", left) if len(left) > len(right) else ("right", right)


def _side_view(raised: RaisedBite, near: Panel) -> list[Item]:
    side, teeth = nearer_side(raised.teeth)
    seen = [_flat(p) for tooth in teeth for p in (tooth.place, tooth.place_in_mi)]
    seen += [(0.0, 0.0), *zip(near.across, near.upward, strict=True)]
    frame = _with_room(_SIDE, _SIDE_ROOM_MM, np.min(seen, axis=0), np.max(seen, axis=0))
    reach_rad = math.radians(abs(raised.turned_deg)) + _SHORT_ARC_RAD
    seen_teeth = f"lower teeth of the patient's {side}, and " if teeth else ""
    items: list[Item] = [
        panel.title(frame, f"{seen_teeth}hinge axis; front at the right"),
        *_hinge(frame, _flat(raised.incisal_point)),
        Line(_arc(frame, raised, reach_rad), colours.INK, 0.8, within=_SIDE),
        Line(_places(frame, (0.0, 0.0), _flat(raised.incisal_point)), colours.SOFT_INK, 0.5),
        *_looking_glass(frame, near),
    ]
    return items + (_teeth(frame, teeth) if teeth else [])


def _hinge(frame: Panel, incisal_point: Place) -> list[Item]:
    """Return the hinge axis and a level line through it, with words on the side without teeth."""
    middle = np.array([frame.place(0.0, 0.0)])
    away = 1.0 if incisal_point[1] < 0.0 else -1.0
    upward: Literal["bottom", "top"] = "bottom" if away > 0.0 else "top"
    arc_end = frame.place(math.hypot(*incisal_point), 0.0, (-8.0, 2.5 * away))
    return [
        Line(frame.level(0.0), colours.SOFT_INK, 0.5, _DOTTED),
        Line(middle, colours.INK, 0.0, mark="o", mark_pt=7.0, mark_fill=colours.PAPER),
        Line(middle, colours.INK, 0.0, mark="+", mark_pt=7.0),
        Words("hinge axis", frame.place(0.0, 0.0, (6.0, 2.5 * away)), "left", upward),
        Words(
            "reference plane",
            (min(arc_end[0], _SIDE[0] + _SIDE[2]), arc_end[1]),
            "right",
            upward,
            6.5,
            colours.SOFT_INK,
        ),
    ]


def _teeth(frame: Panel, teeth: tuple[RaisedTooth, ...]) -> list[Item]:
    """Return the teeth in MI and raised, with a row of numbers and a row of drops below."""
    in_order = sorted(teeth, key=lambda tooth: tooth.place[0])
    in_mi, stands = (
        frame.places(*np.array([_flat(p) for p in places]).T)
        for places in (
            [tooth.place_in_mi for tooth in in_order],
            [tooth.place for tooth in in_order],
        )
    )
    across = _below(stands[:, 0].tolist())
    names, drops = _SIDE[1] - 3.5, _SIDE[1] - 7.0
    items: list[Item] = [_in_mi(in_mi), _raised(stands)]
    for tooth, place, at in zip(in_order, stands, across, strict=True):
        foot = (at, names + 2.0)
        items += [
            Line(np.array([place, foot]), colours.FAINT, 0.5, level=0.5),
            Words(str(tooth.tooth_lower), (at, names), bold=True),
            Words(number(tooth.opening_mm, 2), (at, drops)),
        ]
    left = across[0] - 5.0
    return [
        *items,
        Words("lower tooth", (left, names), "right"),
        Words("stands lower than in MI by, mm", (left, drops), "right"),
    ]


def _below(places: list[float]) -> list[float]:
    """Return where numbers stand across: near what they belong to, apart, short of the side."""
    last = _SIDE[0] + _SIDE[2] - _NUMBERS_APART_MM
    room = [last - k * _NUMBERS_APART_MM for k in range(len(places) - 1, -1, -1)]
    return spread([min(*both) for both in zip(places, room, strict=True)], _NUMBERS_APART_MM)


def _looking_glass(frame: Panel, near: Panel) -> list[Item]:
    """Return the part of the side view that the near view shows, and lines from there to it."""
    (left, right), (low, high) = near.across, near.upward
    corners = frame.places([left, right, right, left, left], [low, low, high, high, low])
    beside = np.array(
        [
            corners[2],
            [_NEAR[0], _NEAR[1] + _NEAR[3]],
            [np.nan, np.nan],
            corners[1],
            [_NEAR[0], _NEAR[1]],
        ]
    )
    return [
        Line(corners, colours.SOFT_INK, 0.6),
        Line(beside, colours.FAINT, 0.5, level=0.5),
    ]


def _near_panel(raised: RaisedBite) -> Panel:
    """Return the panel of the near view: both places of the point, and room for words around."""
    ends = np.array([_flat(raised.incisal_point), _flat(raised.incisal_point_in_mi)])
    low, high = ends.min(axis=0), ends.max(axis=0)
    short = 0.5 * np.maximum(_LEAST_MM - (high - low), 0.0)
    return _with_room(_NEAR, _NEAR_ROOM_MM, low - short, high + short)


def _with_room(box: Box, room: tuple[float, ...], low: Floats, high: Floats) -> Panel:
    """Return a panel of equal scale that holds values, with room on the sheet around them."""
    left, below, right, above = room
    inner = (box[0] + left, box[1] + below, box[2] - left - right, box[3] - below - above)
    fitted = panel.same_scale(inner, low, high)
    per_mm = inner[2] / (fitted.across[1] - fitted.across[0])
    return Panel(
        box,
        (fitted.across[0] - left / per_mm, fitted.across[1] + right / per_mm),
        (fitted.upward[0] - below / per_mm, fitted.upward[1] + above / per_mm),
    )


def _near_view(raised: RaisedBite, near: Panel) -> list[Item]:
    in_mi, stands = _flat(raised.incisal_point_in_mi), _flat(raised.incisal_point)
    left, bottom, width, height = _NEAR
    corners = np.array([[0, 0], [1, 0], [1, 1], [0, 1], [0, 0]]) * [width, height]
    items: list[Item] = [
        panel.title(near, "lower incisal point, enlarged"),
        Line(corners + np.array([left, bottom]), colours.SOFT_INK, 0.6),
        Line(_arc(near, raised, _LONG_ARC_RAD), colours.INK, 0.8, within=_NEAR),
        _in_mi(_places(near, in_mi)),
        _raised(_places(near, stands)),
        Words("MI", near.place(*in_mi, (8.0, 3.0)), "left", "bottom"),
        _holder(near, raised),
        *_drop(near, raised),
        *_way_back(near, raised),
    ]
    return items if raised.pin_holds else [*items, *_free_pin(near, raised)]


def _holder(near: Panel, raised: RaisedBite) -> Words:
    """Say behind the raised point what holds it: above its level, or below that of a free pin."""
    forward, up = _flat(raised.incisal_point)
    x, y = near.place(forward, up)
    if raised.pin_holds:
        return Words("raised,\nheld by the pin", (x - 1.5, y + 0.5), "right", "bottom")
    teeth = pair(raised.first_contact_upper, raised.first_contact_lower) or "gum or base"
    beside_arc = x - 1.2 - _TWO_LINES_MM * max(0.0, -up / forward)
    return Words(f"raised,\nheld by {teeth}", (beside_arc, y - 1.0), "right", "top")


def _drop(near: Panel, raised: RaisedBite) -> list[Item]:
    """Return by how much the point is lower, at the right."""
    at = _NEAR[0] + _NEAR[2] - 14.5
    levels = [near.place(*_flat(p)) for p in (raised.incisal_point_in_mi, raised.incisal_point)]
    middle = 0.5 * (levels[0][1] + levels[1][1])
    return [
        *(_thin((x + 1.5, y), (at + 1.0, y)) for x, y in levels),
        _measure((at, levels[0][1]), (at, levels[1][1]), "_"),
        Words(length(raised.raised_mm), (at + 1.2, middle), "left", bold=True),
    ]


def _way_back(near: Panel, raised: RaisedBite) -> list[Item]:
    """Return by how much the point is farther back, at the bottom."""
    at = _NEAR[1] + 5.5
    ends = [near.place(*_flat(p)) for p in (raised.incisal_point, raised.incisal_point_in_mi)]
    middle = 0.5 * (ends[0][0] + ends[1][0])
    way = "back" if raised.back_mm >= 0.0 else "forward"
    return [
        *(_thin((x, y - 1.5), (x, at - 1.0)) for x, y in ends),
        _measure((ends[0][0], at), (ends[1][0], at), "|"),
        Words(
            f"{length(abs(raised.back_mm))} {way}",
            (middle, at - 1.2),
            "center",
            "top",
            ground=Ground(colours.PAPER, 0.8),
        ),
    ]


def _free_pin(near: Panel, raised: RaisedBite) -> list[Item]:
    """Return the level at which the pin would have held the point."""
    forward, up = _flat(raised.incisal_point_in_mi)
    x, y = near.place(forward, up - raised.pin_opening_mm)
    text = f"pin at {length(raised.pin_opening_mm)},\nstands free"
    return [
        Line(np.array([[_NEAR[0] + 1.5, y], [x, y]]), colours.SOFT_INK, 0.7, _DOTTED),
        Words(text, (_NEAR[0] + 1.5, y + 0.7), "left", "bottom"),
    ]


def _thin(first: Place, last: Place) -> Line:
    return Line(np.array([first, last]), colours.FAINT, 0.5, level=0.5)


def _measure(first: Place, last: Place, bar: str) -> Line:
    """Return a line of a measured length, with a bar across either end."""
    return Line(np.array([first, last]), colours.INK, 0.7, mark=bar, mark_pt=5.0)


def _arc(frame: Panel, raised: RaisedBite, reach_rad: float) -> Floats:
    """Return places along the arc of the raised incisal point about the hinge axis."""
    forward, up = _flat(raised.incisal_point)
    angles = math.atan2(up, forward) + np.linspace(-reach_rad, reach_rad, 241)
    radius = math.hypot(forward, up)
    return frame.places(radius * np.cos(angles), radius * np.sin(angles))


def _flat(point: Point) -> Place:
    """Return forward and up of a point of the hinge frame."""
    return point[0], point[2]


def _places(frame: Panel, *points: Place) -> Floats:
    return frame.places(*np.array(points).T)


def _in_mi(points: Floats) -> Line:
    return Line(
        points, colours.SOFT_INK, 0.9, _DASHED, mark="o", mark_pt=3.6, mark_fill=colours.PAPER
    )


def _raised(points: Floats) -> Line:
    return Line(points, colours.INK, 1.1, mark="o", mark_pt=3.6)


def _key() -> Key:
    nowhere = np.empty((0, 2))
    entries = (
        (_in_mi(nowhere), "in MI"),
        (_raised(nowhere), "raised, condyles in CR"),
        (Line(nowhere, colours.INK, 0.8), "closing arc of the lower incisal point"),
    )
    return Key(entries, columns=3, sample=3.5, gap=0.8, between=2.5, below=0.3)
