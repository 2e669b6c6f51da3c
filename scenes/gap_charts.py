"""Plots of how far the back teeth are apart along an excursion, and what would touch next."""

from itertools import pairwise
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.tooth_codes import is_posterior, place
from scenes import colours, panel
from scenes.charts import SHADE, SHORT_MM, round_end
from scenes.panel import Panel
from scenes.phrases import pair, role_of, side_word
from scenes.sheet import Boxes, Ground, Item, Line, Sheet, Words

_HEIGHT_MM: Final = 37.0
#: Tooth numbers at the ends of lines stand at least this far apart.
_APART_MM: Final = 2.5
#: So far above the scale below they keep clear of its numbers.
_ABOVE_SCALE_MM: Final = 0.6
#: A runner-up that stays for this part of the travel has a line and a name, any other points.
_NAMED_PART: Final = 0.12
_KEY_MM: Final = (12.0, 3.4)
#: Name, marker, line style and colour of the upper back teeth, by place from the midline.
_BACK_TEETH: Final[dict[int, tuple[str, str, colours.Line, str]]] = {
    4: ("first premolar", "o", "-", "#1b6ca8"),
    5: ("second premolar", "s", (0, (5, 1.5)), "#b8560f"),
    6: ("first molar", "^", (0, (3, 1, 1, 1)), "#12806a"),
    7: ("second molar", "D", (0, (1.5, 1)), "#7c4d8b"),
    8: ("third molar", "v", (0, (6, 1, 1, 1, 1, 1)), "#56606b"),
}


def back_tooth_keys(codes: tuple[int, ...]) -> list[tuple[Sheet, str]]:
    """Return (line and marker on a small sheet, name) of the back teeth among `codes`."""
    keys = []
    width, height = _KEY_MM
    for number in sorted({place(code) for code in codes if is_posterior(code)}):
        tooth, marker, line, colour = _BACK_TEETH[number]
        points = np.array([[0.05, 0.5], [0.5, 0.5], [0.95, 0.5]]) * _KEY_MM
        items = (Line(points, colour, 1.1, line, marker, 3.4, marked=(1,)),)
        keys.append((Sheet(width, height, items, see_through=True), f"{tooth} ({number})"))
    return keys


def gap_chart(sweep: Sweep, readings_mm: tuple[float, ...]) -> Sheet:
    """Lay out the least gap of every back tooth to the opposing arch, and the runner-up's gap."""
    long = sweep.travel_mm[-1] > SHORT_MM
    gaps = sweep.pair_gap_mm.min(axis=2)
    widest = float(gaps[np.isfinite(gaps)].max(initial=0.0))
    highest = sweep.gap_limit_mm if long else min(sweep.gap_limit_mm, max(1.1 * widest, 0.1))
    width = (panel.PAGE_WIDTH_MM - 11.0 - 3 * 11.0) / 3.0
    items: list[Item] = []
    for column, side in enumerate(("right", "left", "")):
        box = (11.0 + column * (width + 11.5), 9.0, width, _HEIGHT_MM - 15.0)
        top = highest if side else _highest_runner_up(sweep)
        frame = Panel(box, (0.0, round_end(sweep)), (0.0, top))
        items += _ground(frame, sweep)
        items += _side_gaps(frame, sweep, side, readings_mm) if side else _runner_up(frame, sweep)
        items += panel.scales(
            frame,
            f"travel from {sweep.excursion.start}, mm",
            "gap, mm" if column == 0 else "",
            1.0 if long else None,
            0.5 if side and long else None,
        )
    return Sheet(panel.PAGE_WIDTH_MM, _HEIGHT_MM, tuple(items))


def _ground(frame: Panel, sweep: Sweep) -> list[Item]:
    """Return the band of the tolerance, and what lies beyond edge-to-edge."""
    left, bottom, width, height = frame.box
    tolerance = min(height, float(frame.y(sweep.tolerance_mm)) - bottom)
    items: list[Item] = [Boxes(((left, bottom, width, tolerance),), colours.INK, opacity=0.55)]
    edge, end = sweep.edge_to_edge_mm, float(sweep.travel_mm[-1])
    if edge is not None and edge < end:
        items.append(Boxes((frame.band(edge, end),), SHADE, level=0.0))
    return items


def _side_gaps(frame: Panel, sweep: Sweep, side: str, readings_mm: tuple[float, ...]) -> list[Item]:
    """Return one line a tooth, told apart by line style and marker."""
    items: list[Item] = []
    ends: list[tuple[float, float, int]] = []
    role = ""
    marked = [int(np.argmin(abs(sweep.travel_mm - reading))) for reading in readings_mm]
    for i, code in enumerate(sweep.upper_codes):
        if not is_posterior(code) or side_word(code) != side:
            continue
        role = role_of(code, sweep.excursion)
        gap = sweep.pair_gap_mm[:, i, :].min(axis=1)
        known = np.isfinite(gap)
        if not known.any():
            continue
        _, marker, line, colour = _BACK_TEETH[place(code)]
        points = frame.places(sweep.travel_mm, np.where(known, gap, np.nan))
        shown = tuple(k for k in marked if known[k])
        items.append(Line(points, colour, 1.1, line, marker, 3.2, marked=shown, within=frame.box))
        end = points[np.flatnonzero(known)[-1]]
        ends.append((float(end[1]), float(end[0]), code))
    items += _names(ends, frame.box[1] + _ABOVE_SCALE_MM)
    items.append(panel.title(frame, f"{side} back teeth" + (f": {role} side" if role else "")))
    return items


def _names(ends: list[tuple[float, float, int]], lowest: float) -> list[Item]:
    """Return tooth numbers beside the ends (upward, across, tooth) of lines, clear of others."""
    ends = sorted(ends)
    levels = spread([upward for upward, _, _ in ends], _APART_MM)
    levels = [max(level, lowest + k * _APART_MM) for k, level in enumerate(levels)]
    return [
        Words(str(code), (across + 0.8, level), "left")
        for (_, across, code), level in zip(ends, levels, strict=True)
    ]


def spread(levels: list[float], apart: float) -> list[float]:
    """Return levels, given in ascending order, moved as little as makes them stand apart.

    Least squares: neighbours that would come too near are moved together, about their mean.
    """
    groups: list[tuple[float, int]] = []  # mean of level less its place in the row, how many
    for number, level in enumerate(levels):
        mean, count = level - number * apart, 1
        while groups and groups[-1][0] > mean:
            below, members = groups.pop()
            mean = (below * members + mean * count) / (members + count)
            count += members
        groups.append((mean, count))
    means = [mean for mean, count in groups for _ in range(count)]
    return [mean + number * apart for number, mean in enumerate(means)]


def _highest_runner_up(sweep: Sweep) -> float:
    gap = sweep.runner_up_gap_mm
    return max(1.3 * float(gap[np.isfinite(gap)].max(initial=0.0)), 0.1)


def _runner_up(frame: Panel, sweep: Sweep) -> list[Item]:
    """Return the gap of the pair that would touch next, and which pair that is.

    A line as long as one pair stays next; points where the pairs change from pose to pose.
    """
    travel, gap = sweep.travel_mm, sweep.runner_up_gap_mm
    known = np.isfinite(gap)
    pairs = np.where(known, sweep.runner_up.tooth_upper * 100 + sweep.runner_up.tooth_lower, 0)
    bounds = [0, *(np.flatnonzero(np.diff(pairs)) + 1).tolist(), len(pairs)]
    span = _NAMED_PART * (travel[-1] - travel[0])
    stays = np.zeros(len(pairs), dtype=bool)
    items: list[Item] = [panel.title(frame, "runner-up: closing-arc gap, mm")]
    for first, end in pairwise(bounds):
        if not known[first] or travel[end - 1] - travel[first] < span:
            continue
        if first and stays[first - 1]:
            items.append(Line(frame.upright(travel[first]), colours.FAINT, 0.5, level=0.5))
        stays[first:end] = True
        points = frame.places(travel[first:end], gap[first:end])
        items.append(Line(points, colours.INK, 1.1, within=frame.box))
        middle = (first + end - 1) // 2
        items.append(_pair_name(frame, int(pairs[middle]), (travel[middle], gap[middle])))
    return items + _changing(frame, frame.places(travel, gap)[known & ~stays])


def _pair_name(frame: Panel, teeth: int, at: tuple[float, float]) -> Words:
    return Words(
        pair(teeth // 100, teeth % 100),
        frame.place(*at, (0.0, 4.0)),
        "center",
        "baseline",
        6.5,
        ground=Ground(colours.PAPER, 0.4, opacity=0.85),
    )


def _changing(frame: Panel, points: Floats) -> list[Item]:
    """Return points where no pair stays next, and what they mean."""
    if not len(points):
        return []
    left, bottom, width, height = frame.box
    return [
        Line(points, colours.INK, 0.0, mark="o", mark_pt=2.2, within=frame.box),
        Words(
            "points: the pair changes here",
            (left + width - 0.6, bottom + height - 1.6),
            "right",
            size_pt=6.5,
            ground=Ground(colours.PAPER, 0.4, opacity=0.85),
        ),
    ]
