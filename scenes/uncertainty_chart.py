"""Which uncertain settings decide whether a finding holds: Sobol indices with their intervals."""

import textwrap
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.uncertainty.found import Influence, Uncertainty
from scenes import colours, panel
from scenes.panel import Panel
from scenes.sheet import Item, Line, Sheet, Words
from scenes.uncertainty_words import drawn_shares

_ROW_MM: Final = 6.4
_NAMES_MM: Final = 66.0
#: Letters of a name in one line; two lines fit beside a row.
_LETTERS: Final = 44
_RIGHT_MM: Final = 6.0
_FOOT_MM: Final = 14.5
_HEAD_MM: Final = 1.5
#: Factors that are drawn, at most.
_MOST: Final = 8
#: How far the two indices of a factor stand from the middle of its row, in rows.
_APART: Final = 0.2
_FIRST: Final = "#1b6ca8"
_TOTAL: Final = "#b8560f"
_STEP: Final = 0.2


def influence_charts(studied: Uncertainty | None) -> Iterator[Sheet]:
    """Yield a chart for every finding that the section of a study draws; none without a study."""
    for share in () if studied is None else drawn_shares(studied):
        yield influence_chart(share.influences)


def influence_chart(influences: Sequence[Influence]) -> Sheet:
    """Lay out first-order and total index of every factor, most influence on top.

    Parameters
    ----------
    influences : sequence of Influence
        Of one finding, most influence first; one or more.
    """
    shown = influences[:_MOST]
    height = _ROW_MM * len(shown)
    box = (_NAMES_MM, _FOOT_MM, panel.PAGE_WIDTH_MM - _NAMES_MM - _RIGHT_MM, height)
    frame = Panel(box, (0.0, 1.0), (0.0, float(len(shown))))
    items: list[Item] = [
        Line(frame.upright(np.arange(0.0, 1.01, _STEP)), colours.FAINT, 0.4, level=0.4),
        Line(frame.level(np.arange(1, len(shown) + 1)), colours.FAINT, 0.4, level=0.4),
        *panel.scale_across(
            frame, "share of the variance of whether the finding holds (0 to 1)", _STEP
        ),
    ]
    for row, item in enumerate(shown):
        level = len(shown) - row - 0.5
        name = textwrap.fill(item.factor, _LETTERS, max_lines=2, placeholder=" …")
        items.append(Words(name, (_NAMES_MM - 2.5, float(frame.y(level))), "right"))
        first = item.first, item.first_low, item.first_high
        total = item.total, item.total_low, item.total_high
        items += _index(frame, level + _APART, first, is_total=False)
        items += _index(frame, level - _APART, total, is_total=True)
    return Sheet(panel.PAGE_WIDTH_MM, _FOOT_MM + height + _HEAD_MM, (*items, *_key()))


def _index(
    frame: Panel, level: float, found: tuple[float, float, float], is_total: bool
) -> list[Item]:
    """Return one index as a mark with a whisker; what lies beyond the scale ends at its edge."""
    value, low, high = np.clip(found, 0.0, 1.0).tolist()
    colour = _TOTAL if is_total else _FIRST
    whisker = frame.places([low, high], [level, level])
    point = frame.places([value], [level])
    return [
        Line(whisker, colour, 0.9, mark="|", mark_pt=4.0, level=2.0),
        _mark(point, colour, is_total),
    ]


def _mark(point: Floats, colour: str, is_total: bool) -> Line:
    """Return a filled round mark of a first-order index, an open diamond of a total one."""
    fill = colours.PAPER if is_total else colour
    shape = "D" if is_total else "o"
    return Line(point, colour, 0.0, mark=shape, mark_pt=4.6, mark_fill=fill, level=3.0)


def _key() -> list[Item]:
    """Return what the marks mean."""
    level, items = 2.6, list[Item]()
    keys = (
        ("by this alone (first-order index)", _FIRST, False),
        ("by this, alone and with others (total index)", _TOTAL, True),
    )
    for number, (text, colour, is_total) in enumerate(keys):
        left = 14.0 + 62.0 * number
        ends = np.array([[left, level], [left + 9.0, level]])
        items += [
            Line(ends, colour, 0.9, mark="|", mark_pt=4.0),
            _mark(ends.mean(axis=0, keepdims=True), colour, is_total),
            Words(text, (left + 11.0, level), "left"),
        ]
    items.append(Words("line: 95 % interval", (14.0 + 62.0 * 2 + 12.0, level), "left"))
    return items
