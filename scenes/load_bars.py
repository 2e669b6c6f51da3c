"""The largest load across the teeth of a framework in every excursion, as bars with ranges."""

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from kinematics.planning.load_readings import BaseLoad
from scenes import colours, panel
from scenes.load_drawing import RIDGE, TOOTH
from scenes.load_figures import newtons
from scenes.panel import Panel
from scenes.sheet import Boxes, Item, Line, Sheet, Words

_ROW_MM: Final = 6.2
_NAMES_MM: Final = 65.0
_FOOT_MM: Final = 12.0
_HEAD_MM: Final = 6.0
_ACROSS: Final = "across_n"


def load_bars(loads: Sequence[BaseLoad], title: str, names: Mapping[str, str]) -> Sheet:
    """Lay out a bar for every excursion, in their order.

    Parameters
    ----------
    loads : sequence of BaseLoad
        The largest of each excursion, of one framework; one or more.
    title : str
        What stands above.
    names : mapping of str to str
        What excursions are called in the picture, by their labels.
    """
    most = max(load.greatest[_ACROSS] for load in loads)
    step = panel.step_for(max(most, 1.0), 6)
    height = _ROW_MM * len(loads)
    box = (_NAMES_MM, _FOOT_MM, panel.PAGE_WIDTH_MM - _NAMES_MM - 24.0, height)
    end = step * np.ceil(max(most, 1.0) / step)
    frame = Panel(box, (0.0, float(end)), (0.0, float(len(loads))))
    grid = [at for at, _ in panel.ticks(0.0, float(end), step)]
    items: list[Item] = [
        Words(title, (0.0, _FOOT_MM + height + 2.0), "left", "bottom", 7.5, bold=True),
        Line(frame.upright(grid), colours.FAINT, 0.4, level=0.4),
        *panel.scale_across(frame, "N across the teeth for every 100 N of closing force", step),
    ]
    for row, load in enumerate(loads):
        items += _bar(
            frame, len(loads) - row - 0.5, load, names.get(load.excursion, load.excursion)
        )
    return Sheet(panel.PAGE_WIDTH_MM, _FOOT_MM + height + _HEAD_MM, tuple(items))


def _bar(frame: Panel, level: float, load: BaseLoad, name: str) -> list[Item]:
    """Return one bar with its name, its value, and a line from the least to the greatest."""
    value, low, high = (part[_ACROSS] for part in (load.figures, load.least, load.greatest))
    left, middle = frame.place(0.0, level)
    right = float(frame.x(value))
    bar = left, middle - 1.7, max(right - left, 0.1), 3.4
    ends = frame.places([low, high], [level, level])
    return [
        Words(f"{name}, at {load.travel_mm:.1f} mm", (left - 2.0, middle), "right"),
        Boxes((bar,), colours.FAINT, rim=RIDGE, level=1.0),
        Line(ends, TOOTH, 1.2, mark="|", mark_pt=6.0, level=2.0),
        Words(
            newtons(value, (low, high)),
            (max(right, float(ends[1, 0])) + 2.0, middle),
            "left",
            bold=True,
        ),
    ]
