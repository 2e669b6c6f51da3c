"""A loaded framework from the side: pushes on the teeth, the ridge, turning about the fulcrum."""

import math
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.tooth_codes import is_right, place
from scenes import colours, panel
from scenes.arrows import arrow, bent_arrow
from scenes.crown_outlines import crown_outlines
from scenes.load_drawing import (
    ABUTMENT,
    ABUTMENT_DASH,
    RIDGE,
    TOOTH,
    TURNING,
    LoadedFrame,
    beside_number,
    tooth_number,
)
from scenes.panel import Panel
from scenes.phrases import number
from scenes.sheet import Box, Ground, Item, Line, Words

_ACROSS: Final = np.array([1.0, 0.0, 0.0])
_UPWARD: Final = np.array([0.0, 0.0, 1.0])
#: Room on the side of the bite, where arrows come from, and on that of the ridge, mm.
_ROOM_MM: Final = 15.0
_LITTLE_MM: Final = 4.0
#: Numbers of teeth that would stand nearer than this are left out.
_NUMBERS_APART_MM: Final = 4.2
_STROKE_MM: Final = 2.2
#: The arrow of turning: how far beyond the base, and half of its length.
_BESIDE_BASE_MM: Final = 3.0
_HALF_ARC_MM: Final = 8.0
_MARGIN_MM: Final = 5.0


def side_view(frame: LoadedFrame, box: Box) -> list[Item]:
    """Return the side that is loaded most, as seen with the front at the right."""
    right = _loaded_side(frame)
    flat = np.stack([_ACROSS, _UPWARD], axis=1)
    outlines = {
        code: outline
        for code, outline in crown_outlines(frame.arch, _ACROSS, _UPWARD).items()
        if is_right(code) == right
    }
    crests = [crest @ flat for crest in _crests(frame, right)]
    corners = np.concatenate([*outlines.values(), *crests])
    below = _ROOM_MM if frame.framework.is_upper else _LITTLE_MM
    inner = (
        box[0] + _MARGIN_MM,
        box[1] + below,
        box[2] - 2.0 * _MARGIN_MM,
        box[3] - _ROOM_MM - _LITTLE_MM,
    )
    view = panel.same_scale(inner, corners.min(axis=0), corners.max(axis=0))
    whole = Panel(box, (0.0, 1.0), (0.0, 1.0))
    side = "right" if right else "left"
    items: list[Item] = [
        panel.title(whole, f"the patient's {side} side; front at the right"),
        *_crowns(frame, view, outlines),
        *_ridge(frame, view, flat, right),
        *_turning(frame, view, flat, right, outlines),
    ]
    for push in frame.pushes:
        if is_right(push.tooth) != right:
            continue
        middle = view.places(*(push.at @ flat))
        way = push.force_n @ flat / frame.newtons_per_mm
        if push.is_abutment:
            items += arrow(*beside_number(middle, way), ABUTMENT, 1.5, ABUTMENT_DASH)
        else:
            half = 0.45 * float(np.ptp(view.places(*outlines[push.tooth].T)[:, 1]))
            tip = middle - half * (push.root @ flat)
            items += arrow(tip - way, tip, TOOTH, 1.7)
    return items


def _loaded_side(frame: LoadedFrame) -> bool:
    """Return whether the replacement teeth of the right carry as much as those of the left."""
    carried = {True: 0.0, False: 0.0}
    for push in frame.pushes:
        if not push.is_abutment:
            carried[is_right(push.tooth)] += push.size_n
    if carried[True] == carried[False]:
        return is_right(frame.replaced[0])
    return carried[True] > carried[False]


def _crowns(frame: LoadedFrame, view: Panel, outlines: dict[int, Floats]) -> list[Item]:
    items: list[Item] = []
    numbered: list[float] = []
    for code, outline in sorted(outlines.items(), key=lambda item: -place(item[0])):
        places, middle = view.places(*outline.T), view.places(*outline.mean(axis=0))
        replaced = code in frame.replaced
        items.append(Line(places, colours.SOFT_INK, 1.3 if replaced else 0.6, level=1.4))
        if all(abs(float(middle[0]) - at) > _NUMBERS_APART_MM for at in numbered):
            items.append(tooth_number(code, middle))
            numbered.append(float(middle[0]))
    return items


def _crests(frame: LoadedFrame, right: bool) -> list[Floats]:
    """Return the crests (k, 3) of one side."""
    found = [line.crest[(line.crest[:, 1] <= 0.0) == right] for line in frame.framework.ridges]
    return [crest for crest in found if len(crest) > 1]


def _ridge(frame: LoadedFrame, view: Panel, flat: Floats, right: bool) -> list[Item]:
    """Return the crest of the ridge of that side, hatched where it is pressed."""
    items: list[Item] = []
    into = np.array([-0.6, 1.0 if frame.framework.is_upper else -1.0]) * _STROKE_MM
    for crest in _crests(frame, right):
        places = view.places(*(crest @ flat).T)
        items.append(Line(places, RIDGE, 1.2, level=1.6))
        if frame.load.figures["mucosa_n"] > 0.0:
            strokes = np.full((len(places), 3, 2), np.nan)
            strokes[:, 0], strokes[:, 1] = places, places + into
            items.append(Line(strokes.reshape(-1, 2), RIDGE, 0.7, level=1.5))
    return items


def _turning(
    frame: LoadedFrame, view: Panel, flat: Floats, right: bool, outlines: dict[int, Floats]
) -> list[Item]:
    """Return the fulcrum of that side, and which way the base turns about it."""
    line = frame.framework.fulcrum
    about = frame.load.figures["about_fulcrum_nmm"]
    if line is None:
        return []
    middle = view.places(*(np.array(line.right if right else line.left) @ flat))
    mark = Line(
        middle[None], TURNING, 0.0, mark="o", mark_pt=6.0, mark_fill=colours.PAPER, level=2.8
    )
    own = [outlines[code] for code in frame.replaced if is_right(code) == right]
    if about == 0.0 or not own:
        return [mark]
    reached = view.places(*np.concatenate(own).T)[:, 0]
    behind = float(middle[0] - reached.min()), float(reached.max() - middle[0])
    at_back = behind[0] >= behind[1]
    reach = max(*behind) + _BESIDE_BASE_MM
    # The pressed side of an upper base goes up, that of a lower one down.
    rises = (about > 0.0) == frame.framework.is_upper
    away = math.pi if at_back else 0.0
    bend = (-1.0 if rises == at_back else 1.0) * _HALF_ARC_MM / reach
    begins = middle + reach * np.array([math.cos(away - bend), math.sin(away - bend)])
    told = Words(
        f"{number(abs(about), 0)} N mm",
        (
            float(begins[0]) + (-3.0 if at_back else 3.0),
            float(begins[1]) - (1.0 if rises else -1.0),
        ),
        "left" if at_back else "right",
        "top" if rises else "bottom",
        size_pt=7.0,
        colour=TURNING,
        bold=True,
        ground=Ground(colours.PAPER, 0.6, opacity=0.85),
    )
    return [mark, *bent_arrow(middle, reach, away - bend, away + bend, TURNING), told]
