"""A loaded framework seen along the bite: pushes across the axes, ridge, rests, fulcrum line."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.tooth_codes import is_right
from scenes import colours, panel
from scenes.arrows import arrow
from scenes.crown_outlines import crown_outlines
from scenes.gap_charts import spread
from scenes.load_drawing import (
    ABUTMENT,
    ABUTMENT_DASH,
    FULCRUM_DASH,
    PUSHED,
    RIDGE,
    TOOTH,
    TURNING,
    LoadedFrame,
    Push,
    beside_number,
    tooth_number,
)
from scenes.load_figures import newtons
from scenes.panel import Panel
from scenes.sheet import Box, Ground, Item, Line, Words

#: Room beside the arch for what is written about every push, mm, and how far apart that stands.
_BESIDE_MM: Final = 22.0
_ROWS_APART_MM: Final = 8.2
_MOST_ROWS: Final = 8
#: How far such a text reaches.
_TOLD_MM: Final = 17.5
_TICK_MM: Final = 1.1
_BEYOND_MM: Final = 4.0
_REST_PT: Final = 4.6


def plan_view(frame: LoadedFrame, box: Box) -> list[Item]:
    """Return the view along the bite, the patient's right at the left."""
    up = 1.0 if frame.framework.is_upper else -1.0
    across, upward = np.array([0.0, 1.0, 0.0]), np.array([up, 0.0, 0.0])
    flat = np.stack([across, upward], axis=1)
    outlines = crown_outlines(frame.arch, across, upward)
    corners = np.concatenate(list(outlines.values()))
    inner = (box[0] + _BESIDE_MM, box[1] + 2.0, box[2] - 2.0 * _BESIDE_MM, box[3] - 5.0)
    view = panel.same_scale(inner, corners.min(axis=0), corners.max(axis=0))
    where = "seen from below" if up > 0.0 else "seen from above"
    items: list[Item] = [
        panel.title(Panel(box, (0.0, 1.0), (0.0, 1.0)), f"pushes across the teeth, {where}"),
        *_crowns(frame, view, outlines),
        *_ridges(frame, view, flat),
        *_fulcrum(frame, view, flat),
        *_rests(frame, view, flat),
    ]
    for push in frame.pushes:
        items += _push(frame, view, flat, push)
    for right in (True, False):
        items += _told(frame, view, flat, box, right)
    left = Words("patient's right", (box[0], box[1]), "left", "bottom", 6.5, colours.SOFT_INK)
    end = box[0] + box[2]
    return [
        *items,
        left,
        Words("patient's left", (end, box[1]), "right", "bottom", 6.5, colours.SOFT_INK),
    ]


def _crowns(frame: LoadedFrame, view: Panel, outlines: dict[int, Floats]) -> list[Item]:
    """Return all crowns: replacement teeth with a double outline, each with its number."""
    items: list[Item] = []
    for code, outline in outlines.items():
        places, middle = view.places(*outline.T), view.places(*outline.mean(axis=0))
        replaced = code in frame.replaced
        items.append(Line(places, colours.SOFT_INK, 1.3 if replaced else 0.6, level=1.4))
        if replaced:
            items.append(Line(middle + 0.86 * (places - middle), colours.SOFT_INK, 0.5, level=1.4))
        items.append(tooth_number(code, middle))
    return items


def _ridges(frame: LoadedFrame, view: Panel, flat: Floats) -> list[Item]:
    """Return the crest below every base, with strokes across where mucosa is pressed."""
    items: list[Item] = []
    for ridge in frame.framework.ridges:
        crest = view.places(*(ridge.crest @ flat).T)
        aside = ridge.facial @ flat
        aside /= np.maximum(np.linalg.norm(aside, axis=1, keepdims=True), 1e-9)
        items.append(Line(crest, RIDGE, 0.8, level=1.6))
        strokes = np.full((len(crest), 3, 2), np.nan)
        strokes[:, 0], strokes[:, 1] = crest - _TICK_MM * aside, crest + _TICK_MM * aside
        if frame.load.figures["mucosa_n"] > 0.0:
            items.append(Line(strokes.reshape(-1, 2), RIDGE, 0.7, level=1.6))
    return items


def _fulcrum(frame: LoadedFrame, view: Panel, flat: Floats) -> list[Item]:
    line = frame.framework.fulcrum
    if line is None:
        return []
    right, left = view.places(*(np.array([line.right, line.left]) @ flat).T)
    way = (left - right) / np.linalg.norm(left - right)
    places = np.array([right - _BEYOND_MM * way, left + _BEYOND_MM * way])
    return [
        Line(places, colours.PAPER, 3.0, level=2.0),
        Line(places, TURNING, 1.5, FULCRUM_DASH, level=2.1),
    ]


def _rests(frame: LoadedFrame, view: Panel, flat: Floats) -> list[Item]:
    if not frame.framework.rests:
        return []
    points = np.array([rest.point for rest in frame.framework.rests]) @ flat
    places = view.places(*points.T)
    return [
        Line(places, colours.PAPER, 0.0, mark="s", mark_pt=_REST_PT, mark_fill=RIDGE, level=2.3)
    ]


def _push(frame: LoadedFrame, view: Panel, flat: Floats, push: Push) -> list[Item]:
    """Return the arrow of what pushes across the axis, from the middle of the crown."""
    start = view.places(*(push.at @ flat))
    way = push.sideways_n @ flat / frame.newtons_per_mm
    if push.is_abutment:
        return list(arrow(*beside_number(start, way), ABUTMENT, 1.5, ABUTMENT_DASH))
    return list(arrow(*beside_number(start, way), TOOTH, 1.7))


def _told(frame: LoadedFrame, view: Panel, flat: Floats, box: Box, right: bool) -> list[Item]:
    """Return what is written of the pushes of one side, in a column beside the arch."""
    own = [push for push in frame.pushes if is_right(push.tooth) == right]
    if len(own) > _MOST_ROWS:  # of a long splint roots alone are told, which bear all of it
        own = [push for push in own if push.is_abutment or frame.load.kind != "splint"]
    own.sort(key=lambda push: float(view.places(*(push.at @ flat))[1]))
    if not own:
        return []
    places = [view.places(*(push.at @ flat)) for push in own]
    top = box[1] + box[3] - 4.5
    rows = _within(spread([float(place[1]) for place in places], _ROWS_APART_MM), box[1] + 8.0, top)
    at = box[0] if right else box[0] + box[2]
    items: list[Item] = []
    for push, place, row in zip(own, places, rows, strict=True):
        who = PUSHED[frame.load.kind][push.is_abutment]
        colour = ABUTMENT if push.is_abutment else TOOTH
        foot = np.array([at + (_TOLD_MM if right else -_TOLD_MM), row])
        items += [
            Line(np.array([foot, place]), colours.FAINT, 0.6, level=0.6),
            Words(
                f"{push.tooth} {who}\nacross {newtons(push.across_n)}\nalong"
                f" {newtons(push.along_n)}",
                (at, row),
                "left" if right else "right",
                size_pt=6.2,
                colour=colour,
                line_spacing=1.05,
                ground=Ground(colours.PAPER, 0.6),
            ),
        ]
    return items


def _within(rows: list[float], low: float, high: float) -> list[float]:
    """Return rows moved together so that they stay between two levels."""
    moved = max(low - rows[0], 0.0) - max(rows[-1] - high, 0.0)
    return [row + moved for row in rows]
