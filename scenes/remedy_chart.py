"""How far a tooth stands from its opponents along an excursion, before and after each change."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.remedies.found import GapCurve, Remedy, ToothRemedies
from scenes import colours, panel
from scenes.panel import Panel
from scenes.sheet import Box, Boxes, Item, Line, Sheet, Words

_HEIGHT_MM: Final = 40.0
_LEFT_MM: Final = 11.0
_APART_MM: Final = 8.5
_WIDEST_MM: Final = 50.0
#: Least distance to which the scale goes, mm.
_LEAST_TOP_MM: Final = 0.3
_BEFORE: Final = "#b8560f"
_AFTER: Final = "#1b6ca8"
_DASHED: Final[colours.Line] = (0, (4, 1.6))
_SHORT: Final = {
    "lower": "lowered",
    "flatten": "flattened",
    "tilt": "tilted",
    "steepen": "guides built up",
    "adjust": "adjustment",
}


def remedy_chart(found: ToothRemedies) -> Sheet | None:
    """Lay out one small plot for every change that clears a tooth; None where none does."""
    shown = [remedy for remedy in found.remedies if remedy.is_found and remedy.effect is not None]
    if not shown:
        return None
    free = panel.PAGE_WIDTH_MM - _LEFT_MM - 4.0 - _APART_MM * (len(shown) - 1)
    width = min(free / len(shown), _WIDEST_MM)
    top = max(_LEAST_TOP_MM, 4.0 * found.margin_mm)
    items: list[Item] = []
    for column, remedy in enumerate(shown):
        box = (_LEFT_MM + column * (width + _APART_MM), 9.0, width, _HEIGHT_MM - 20.0)
        items += _plot(box, remedy, top, column == 0)
    return Sheet(panel.PAGE_WIDTH_MM, _HEIGHT_MM, (*items, *_key()))


def _plot(box: Box, remedy: Remedy, top: float, first: bool) -> list[Item]:
    assert remedy.effect is not None
    curve = remedy.effect.curve
    end = float(max(curve.before_mm[-1, 0], curve.after_mm[-1, 0]))
    frame = Panel(box, (0.0, end), (0.0, top))
    wanted = frame.places(*curve.wanted_mm.T)
    amount = f"{remedy.amount:.2f} mm" if remedy.unit == "mm" else f"{remedy.amount:.1f}°"
    return [
        *_wanted_area(frame, curve),
        *panel.scales(frame, "travel, mm", "distance, mm" if first else "", 1.0, None),
        Line(wanted, colours.INK, 0.7, (0, (1, 1.2)), within=box),
        Line(_places(frame, curve.before_mm), _BEFORE, 1.3, _DASHED, within=box),
        Line(_places(frame, curve.after_mm), _AFTER, 1.5, within=box),
        panel.title(frame, f"{_SHORT[remedy.kind]}, {amount}"),
    ]


def _wanted_area(frame: Panel, curve: GapCurve) -> list[Item]:
    """Return thin boxes under what is wanted: where the tooth is not to be."""
    travel, wanted = curve.wanted_mm.T
    if len(travel) < 2:
        return []
    x, y = frame.x(travel), frame.y(wanted)
    step, bottom = float(np.median(np.diff(x))), frame.box[1]
    boxes = [
        (float(left), bottom, step, float(upper) - bottom)
        for left, upper in zip(x, y, strict=True)
        if left + step <= frame.box[0] + frame.box[2] + 1e-6
    ]
    return [Boxes(tuple(boxes), colours.FAINT, opacity=0.6, level=0.2)]


def _places(frame: Panel, curve: Floats) -> Floats:
    travel, gap = curve.T
    return frame.places(travel, np.where(np.isfinite(gap), gap, np.nan))


def _key() -> list[Item]:
    """Return what the lines mean."""
    level, items = _HEIGHT_MM - 2.6, list[Item]()
    keys: tuple[tuple[str, str, colours.Line, float], ...] = (
        ("as it is", _BEFORE, _DASHED, 1.3),
        ("with the change, by a full run", _AFTER, "-", 1.5),
        ("wanted; grey: too near", colours.INK, (0, (1, 1.2)), 0.7),
    )
    for number, (text, colour, dash, width) in enumerate(keys):
        left = _LEFT_MM + 52.0 * number
        points = np.array([[left, level], [left + 8.0, level]])
        items += [Line(points, colour, width, dash), Words(text, (left + 9.2, level), "left")]
    return items
