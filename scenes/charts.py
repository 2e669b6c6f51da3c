"""Which pairs of teeth touch when, along one excursion."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.contact.sweep import GUIDED_BY_TABLE, Sweep
from kinematics.conventions import Bools, Floats
from kinematics.planning.contact_runs import comes_first, runs
from scenes import colours, panel
from scenes.movement_styles import style_of
from scenes.panel import Panel
from scenes.phrases import pair, region, role_of, start_words
from scenes.sheet import MM_PER_POINT, Box, Boxes, Item, Line, Sheet, Words

#: From the patient's right to left, as the rows of a contact chart.
REGIONS: Final = (
    "right back teeth",
    "right canine",
    "incisors",
    "left canine",
    "left back teeth",
)
_ROW_MM: Final = 3.4
#: Higher charts are drawn lower, down to this factor: two, with their gaps, shall fit on a page.
_HIGH_MM: Final = 58.0
_LOWEST: Final = 0.72
_HEADING_MM: Final = 3.8
_LABEL_MM: Final = 31.0
_BOTTOM_MM: Final = 9.5
_TOP_MM: Final = 5.5
_RIGHT_MM: Final = 3.0
#: Excursions up to this long, as a retrusion, get finer ticks.
SHORT_MM: Final = 2.0
_BAR: Final = 0.62
#: Names of what lies beyond edge-to-edge; the first that finds room is drawn.
_BEYOND: Final = ("crossover: shown, not judged", "crossover, not judged", "not judged")
#: Room between a line and words beside it, and below words at the bottom.
_APART_PT: Final = 2.0
_ABOVE_PT: Final = 3.0
#: Room for a letter of these names on the average, at the size of all words: no less than it takes.
_LETTER_PT: Final = 0.56 * 7.0
_GREY: Final = "#9aa1ab"
SHADE: Final = "#f1f2f4"


@dataclass(frozen=True)
class Reach:
    """What a contact chart shows.

    Attributes
    ----------
    near_mm : float
        Pairs nearer than this are shown as near.
    near_start_mm : float
        Pairs that touch only up to this travel are told in words instead of a row.
    """

    near_mm: float = 0.2
    near_start_mm: float = 0.5

    def start_mm(self, sweep: Sweep) -> float:
        """Return how far the start of a sweep reaches; nowhere in a movement hardly longer."""
        long = sweep.travel_mm[-1] > SHORT_MM
        return self.near_start_mm if long else -1.0


@dataclass(frozen=True)
class Row:
    """One tooth pair of a contact chart.

    Attributes
    ----------
    upper, lower : int
        ISO 3950 numbers.
    touching, near, guiding : ndarray, shape (n,)
        For every pose: within the tolerance; not touching but nearer than the margin; the very
        first contact, which holds all others open.
    """

    upper: int
    lower: int
    touching: Bools
    near: Bools
    guiding: Bools


def chart_rows(sweep: Sweep, reach: Reach) -> dict[str, list[Row]]:
    """Return the pairs worth a row, by region.

    Those are the pairs that touch, or while judged come near, beyond the start.
    """
    rows: dict[str, list[Row]] = {name: [] for name in REGIONS}
    touching = sweep.pair_gap_mm <= sweep.tolerance_mm
    near = ~touching & (sweep.pair_gap_mm <= reach.near_mm)
    beyond = sweep.travel_mm > reach.start_mm(sweep)
    worth = touching[beyond].any(axis=0) | near[beyond & ~sweep.crossover].any(axis=0)
    teeth_guide = sweep.guide != GUIDED_BY_TABLE
    for i, j in np.argwhere(worth).tolist():
        upper, lower = sweep.upper_codes[i], sweep.lower_codes[j]
        guiding = comes_first(sweep, (upper, lower)) & teeth_guide
        row = Row(upper, lower, touching[:, i, j], near[:, i, j], guiding)
        rows[region(upper)].append(row)
    return {name: members for name, members in rows.items() if members}


def start_only(sweep: Sweep, reach: Reach) -> list[tuple[int, int, float]]:
    """Return (upper, lower, travel at which it last touches) of pairs that touch at the start only.

    Ordered by how long they touch.
    """
    shown = {(row.upper, row.lower) for rows in chart_rows(sweep, reach).values() for row in rows}
    touching = sweep.pair_gap_mm <= sweep.tolerance_mm
    found = []
    for i, j in np.argwhere(touching.any(axis=0)).tolist():
        upper, lower = sweep.upper_codes[i], sweep.lower_codes[j]
        if (upper, lower) not in shown:
            last = np.flatnonzero(touching[:, i, j])[-1]
            found.append((upper, lower, float(sweep.travel_mm[last])))
    return sorted(found, key=lambda item: -item[2])


def spans(flags: Bools, travel_mm: Floats) -> list[tuple[float, float]]:
    """Return (start, width) of every run of true flags, each pose reaching half-way to the next."""
    middles = 0.5 * (travel_mm[1:] + travel_mm[:-1])
    edges = np.concatenate([travel_mm[:1], middles, travel_mm[-1:]])
    return [
        (float(edges[run.first]), float(edges[run.last + 1] - edges[run.first]))
        for run in runs(flags)
    ]


def contact_chart(
    sweep: Sweep,
    reach: Reach,
    readings_mm: tuple[float, ...],
    replacement_teeth: tuple[int, ...],
) -> Sheet:
    """Lay out which tooth pairs touch along an excursion, one row a pair.

    Parameters
    ----------
    sweep : Sweep
        The excursion.
    reach : Reach
        What is shown as near, and how far the start reaches.
    readings_mm : tuple of float
        Travel at which the readings are taken, marked at the top.
    replacement_teeth : tuple of int
        Named with an R.
    """
    groups = chart_rows(sweep, reach)
    table = bool((sweep.guide == GUIDED_BY_TABLE).any())
    count = sum(len(rows) for rows in groups.values()) + table
    body = _ROW_MM * max(count, 1) + _HEADING_MM * len(groups)
    width = panel.PAGE_WIDTH_MM - _LABEL_MM - _RIGHT_MM
    height = max(_LOWEST * body, min(body, _HIGH_MM))
    frame = Panel((_LABEL_MM, _BOTTOM_MM, width, height), (0.0, round_end(sweep)), (body, 0.0))
    items = _frame(frame, sweep, readings_mm)
    level = 0.0
    placed: list[tuple[float, Row]] = []
    for title, rows in groups.items():
        role = role_of(rows[0].upper, sweep.excursion) if title != "incisors" else ""
        heading = f"{title}: {role} side" if role else title
        items.append(_heading(frame, level + 0.55 * _HEADING_MM, heading))
        level += _HEADING_MM
        for row in rows:
            marks = " R" if {row.upper, row.lower} & set(replacement_teeth) else ""
            items.append(
                _row_name(frame, level + 0.5 * _ROW_MM, pair(row.upper, row.lower) + marks)
            )
            placed.append((level + 0.5 * _ROW_MM, row))
            level += _ROW_MM
    items += _bars(frame, sweep, placed)
    guides = [(at, row.guiding) for at, row in placed]
    if table:
        items.append(_row_name(frame, level + 0.5 * _ROW_MM, "incisal guide table"))
        guides.append((level + 0.5 * _ROW_MM, sweep.guide == GUIDED_BY_TABLE))
    items += _guides(frame, sweep, guides)
    if not count:
        middle = frame.place(0.5 * round_end(sweep), 0.5 * body)
        items.append(Words("no pair touches or comes near beyond the start", middle))
    return Sheet(panel.PAGE_WIDTH_MM, _TOP_MM + height + _BOTTOM_MM, tuple(items))


def _frame(frame: Panel, sweep: Sweep, readings_mm: tuple[float, ...]) -> list[Item]:
    """Return the scale, the readings, and what lies beyond edge-to-edge."""
    name = f"horizontal travel of the lower incisal point {start_words(sweep.excursion)}, mm"
    end = float(sweep.travel_mm[-1])
    shown = [reading for reading in readings_mm if sweep.travel_mm[0] <= reading <= end]
    items = panel.scale_across(frame, name, 0.5 if end > SHORT_MM else 0.1)
    items.append(Line(frame.upright(shown), colours.FAINT, 0.6, level=0.5))
    edge = sweep.edge_to_edge_mm
    if edge is None or edge > end:
        return items
    items.append(Boxes((frame.band(edge, end),), SHADE, level=0.0))
    items.append(Line(frame.upright(edge), colours.INK, 1.0, (0, (4, 2)), level=1.0))
    return items + _edge_words(frame, edge, end)


def _edge_words(frame: Panel, edge: float, end: float) -> list[Item]:
    """Return the names of edge-to-edge and of what lies beyond, as far as there is room for both.

    The first stands on the longer side of its line, the other in the middle of what is left.
    """
    far = edge > 0.5 * end
    name = "edge-to-edge ▸" if far else "◂ edge-to-edge"
    place = frame.place(edge, 0.0, (-_APART_PT if far else _APART_PT, _ABOVE_PT))
    items: list[Item] = [Words(name, place, "right" if far else "left", "bottom")]
    left, right = float(frame.x(edge)), float(frame.x(end))
    if not far:
        left += _width_mm(name)
    fitting = [words for words in _BEYOND if _width_mm(words) <= right - left]
    if fitting:
        middle = 0.5 * (left + right), place[1]
        items.append(Words(fitting[0], middle, "center", "bottom", colour=colours.SOFT_INK))
    return items


def _width_mm(text: str) -> float:
    """Return the most room that words in the chart take across, with some beside them."""
    return (len(text) * _LETTER_PT + 2.0 * _APART_PT) * MM_PER_POINT


def _heading(frame: Panel, level: float, text: str) -> Words:
    place = frame.place(0.0, level)
    return Words(text, (0.0, place[1]), "left", size_pt=7.2, bold=True)


def _row_name(frame: Panel, level: float, text: str) -> Words:
    return Words(text, frame.place(0.0, level, (-4.0, 0.0)), "right")


def _bars(frame: Panel, sweep: Sweep, placed: list[tuple[float, Row]]) -> list[Item]:
    """Return the bars of all rows: solid where a pair touches, hatched where it is near."""
    levels = frame.level([level for level, _ in placed])
    items: list[Item] = [Line(levels, colours.FAINT, 0.4, level=0.4)]
    colour = style_of(sweep.excursion).colour
    for judged, solid in ((~sweep.crossover, colour), (sweep.crossover, _GREY)):
        near = _boxes(frame, sweep, [(level, row.near & judged) for level, row in placed])
        touching = _boxes(frame, sweep, [(level, row.touching & judged) for level, row in placed])
        if near:
            items.append(Boxes(near, colours.PAPER, rim=solid, hatched=True, level=2.0))
        if touching:
            items.append(Boxes(touching, solid, level=3.0))
    return items


def _boxes(frame: Panel, sweep: Sweep, flags: list[tuple[float, Bools]]) -> tuple[Box, ...]:
    """Return a box for every run of true flags, at the level of its row."""
    half = 0.5 * _BAR * _ROW_MM
    found = []
    for level, row in flags:
        for start, width in spans(row, sweep.travel_mm):
            left, bottom = frame.place(start, level + half)
            right, top = frame.place(start + width, level - half)
            found.append((left, bottom, right - left, top - bottom))
    return tuple(found)


def _guides(frame: Panel, sweep: Sweep, guides: list[tuple[float, Bools]]) -> list[Item]:
    """Return a black line with a white rim while a pair, or the guide table, carries the jaw."""
    pieces = [
        frame.places((start, start + width, np.nan), (level, level, np.nan))
        for level, guiding in guides
        for start, width in spans(guiding, sweep.travel_mm)
    ]
    if not pieces:
        return []
    points = np.concatenate(pieces)
    return [
        Line(points, colours.PAPER, 2.6, level=4.0),
        Line(points, colours.INK, 1.3, level=5.0),
    ]


def round_end(sweep: Sweep) -> float:
    """Return the last travel without the last digits, so that its tick is drawn."""
    return round(float(sweep.travel_mm[-1]), 3)
