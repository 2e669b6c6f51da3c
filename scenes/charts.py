"""Which pairs of teeth touch when, along one excursion."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection

from kinematics.contact.sweep import GUIDED_BY_TABLE, Sweep
from kinematics.conventions import Bools, Floats
from scenes import colours, plotting
from scenes.phrases import pair, region, role_of, start_words

#: From the patient's right to left, as the rows of a contact chart.
REGIONS: Final = (
    "right back teeth",
    "right canine",
    "incisors",
    "left canine",
    "left back teeth",
)
_ROW_MM: Final = 3.5
_HEADING_MM: Final = 3.9
_LABEL_MM: Final = 31.0
_BOTTOM_MM: Final = 9.5
_TOP_MM: Final = 5.5
_RIGHT_MM: Final = 3.0
#: Excursions up to this long, as a retrusion, get finer ticks.
SHORT_MM: Final = 2.0
_BAR: Final = 0.62
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
    teeth_guide = sweep.guide != GUIDED_BY_TABLE
    beyond = sweep.travel_mm > reach.start_mm(sweep)
    for i, upper in enumerate(sweep.upper_codes):
        for j, lower in enumerate(sweep.lower_codes):
            gap = sweep.pair_gap_mm[:, i, j]
            first = (sweep.closures.tooth_upper == upper) & (sweep.closures.tooth_lower == lower)
            touching = gap <= sweep.tolerance_mm
            near = ~touching & (gap <= reach.near_mm)
            if (touching & beyond).any() or (near & beyond & ~sweep.crossover).any():
                rows[region(upper)].append(Row(upper, lower, touching, near, first & teeth_guide))
    return {name: members for name, members in rows.items() if members}


def start_only(sweep: Sweep, reach: Reach) -> list[tuple[int, int, float]]:
    """Return (upper, lower, travel at which it last touches) of pairs that touch at the start only.

    Ordered by how long they touch.
    """
    shown = {(row.upper, row.lower) for rows in chart_rows(sweep, reach).values() for row in rows}
    found = []
    for i, upper in enumerate(sweep.upper_codes):
        for j, lower in enumerate(sweep.lower_codes):
            touching = np.flatnonzero(sweep.pair_gap_mm[:, i, j] <= sweep.tolerance_mm)
            if len(touching) and (upper, lower) not in shown:
                found.append((upper, lower, float(sweep.travel_mm[touching[-1]])))
    return sorted(found, key=lambda item: -item[2])


def runs(flags: Bools, travel_mm: Floats) -> list[tuple[float, float]]:
    """Return (start, width) of every run of true flags, each pose reaching half-way to the next."""
    middles = 0.5 * (travel_mm[1:] + travel_mm[:-1])
    edges = np.concatenate([travel_mm[:1], middles, travel_mm[-1:]])
    change = np.diff(np.concatenate([[0], flags.astype(np.int64), [0]]))
    starts, ends = np.flatnonzero(change == 1), np.flatnonzero(change == -1)
    return [
        (float(edges[a]), float(edges[b] - edges[a])) for a, b in zip(starts, ends, strict=True)
    ]


def contact_chart(
    sweep: Sweep,
    name: str,
    reach: Reach,
    readings_mm: tuple[float, ...],
    replacement_teeth: tuple[int, ...],
) -> str:
    """Draw which tooth pairs touch along an excursion, one row a pair, as an SVG element.

    Parameters
    ----------
    sweep : Sweep
        The excursion.
    name : str
        Name of the figure, unique in its page.
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
    height = _TOP_MM + body + _BOTTOM_MM
    with plotting.look():
        figure = plotting.new_figure(plotting.PAGE_WIDTH_MM, height)
        axes = plotting.place_axes(
            figure,
            (_LABEL_MM, _BOTTOM_MM, plotting.PAGE_WIDTH_MM - _LABEL_MM - _RIGHT_MM, body),
        )
        axes.set_xlim(0.0, round_end(sweep))
        axes.set_ylim(body, 0.0)
        _draw_frame(axes, sweep, readings_mm, body)
        level = 0.0
        placed: list[tuple[float, Row]] = []
        for title, rows in groups.items():
            role = role_of(rows[0].upper, sweep.excursion) if title != "incisors" else ""
            heading = f"{title}: {role} side" if role else title
            _left_text(axes, level + 0.55 * _HEADING_MM, heading, bold=True)
            level += _HEADING_MM
            for row in rows:
                replaced = {row.upper, row.lower} & set(replacement_teeth)
                marks = " R" if replaced else ""
                _left_text(axes, level + 0.5 * _ROW_MM, pair(row.upper, row.lower) + marks)
                placed.append((level + 0.5 * _ROW_MM, row))
                level += _ROW_MM
        _draw_bars(axes, sweep, placed)
        guides = [(at, row.guiding) for at, row in placed]
        if table:
            _left_text(axes, level + 0.5 * _ROW_MM, "incisal guide table")
            guides.append((level + 0.5 * _ROW_MM, sweep.guide == GUIDED_BY_TABLE))
        _draw_guides(axes, sweep, guides)
        if not count:
            axes.text(
                0.5, 0.5, "no pair touches or comes near beyond the start", transform=axes.transAxes
            )
        return plotting.svg(figure, name)


def _draw_frame(axes: Axes, sweep: Sweep, readings_mm: tuple[float, ...], body: float) -> None:
    label = f"horizontal travel of the lower incisal point {start_words(sweep.excursion)}, mm"
    plotting.scales(axes, label, "", 0.5 if sweep.travel_mm[-1] > SHORT_MM else 0.1, rows=True)
    for reading in readings_mm:
        if sweep.travel_mm[0] <= reading <= sweep.travel_mm[-1]:
            axes.axvline(reading, color=colours.FAINT, linewidth=0.6, zorder=0.5)
    edge = sweep.edge_to_edge_mm
    if edge is not None and edge <= sweep.travel_mm[-1]:
        axes.axvspan(edge, sweep.travel_mm[-1], color=SHADE, zorder=0.0)
        axes.axvline(edge, color=colours.INK, linewidth=1.0, linestyle=(0, (4, 2)), zorder=1.0)
        right = edge > 0.5 * sweep.travel_mm[-1]
        axes.annotate(
            "◂ edge-to-edge" if not right else "edge-to-edge ▸",
            (edge, 0.0),
            xytext=(-2 if right else 2, 3),
            textcoords="offset points",
            ha="right" if right else "left",
            va="bottom",
            fontsize=6.5,
        )
        if sweep.travel_mm[-1] - edge > 0.2 * sweep.travel_mm[-1]:
            axes.text(
                0.5 * (edge + sweep.travel_mm[-1]),
                -1.0,
                "crossover: shown, not judged",
                ha="center",
                va="bottom",
                fontsize=6.5,
                color=colours.SOFT_INK,
            )


def _left_text(axes: Axes, level: float, text: str, bold: bool = False) -> None:
    axes.annotate(
        text,
        (0.0, level),
        xycoords=("axes fraction", "data"),
        xytext=(-_LABEL_MM / plotting.MM_PER_INCH * 72.0 if bold else -4.0, 0.0),
        textcoords="offset points",
        ha="left" if bold else "right",
        va="center",
        fontsize=6.8 if bold else 6.5,
        fontweight="bold" if bold else "normal",
        color=colours.INK,
        annotation_clip=False,
    )


def _draw_bars(axes: Axes, sweep: Sweep, placed: list[tuple[float, Row]]) -> None:
    """Draw the bars of all rows: solid where a pair touches, hatched where it is near."""
    levels = [level for level, _ in placed]
    axes.hlines(
        levels, *axes.get_xlim(), color=colours.FAINT, linewidth=0.4, zorder=0.4, clip_on=True
    )
    colour = colours.style_of(sweep.excursion).colour
    for judged, solid in ((~sweep.crossover, colour), (sweep.crossover, _GREY)):
        near = _boxes(sweep, [(level, row.near & judged) for level, row in placed])
        touching = _boxes(sweep, [(level, row.touching & judged) for level, row in placed])
        axes.add_collection(
            PolyCollection(
                near,
                facecolor=colours.PAPER,
                edgecolor=solid,
                hatch="/////",
                linewidth=0.5,
                zorder=2.0,
            )
        )
        axes.add_collection(PolyCollection(touching, facecolor=solid, linewidth=0.0, zorder=3.0))


def _boxes(sweep: Sweep, flags: list[tuple[float, Bools]]) -> list[list[tuple[float, float]]]:
    """Return the corners of a box for every run of true flags, at the level of its row."""
    half = 0.5 * _BAR * _ROW_MM
    return [
        [
            (start, level - half),
            (start + width, level - half),
            (start + width, level + half),
            (start, level + half),
        ]
        for level, row in flags
        for start, width in runs(row, sweep.travel_mm)
    ]


def _draw_guides(axes: Axes, sweep: Sweep, guides: list[tuple[float, Bools]]) -> None:
    """Draw a black line with a white rim while a pair, or the guide table, carries the jaw."""
    lines = [
        [(start, level), (start + width, level)]
        for level, guiding in guides
        for start, width in runs(guiding, sweep.travel_mm)
    ]
    for colour, thick in ((colours.PAPER, 2.6), (colours.INK, 1.3)):
        axes.add_collection(
            LineCollection(lines, colors=colour, linewidths=thick, zorder=4.0 + (thick < 2.0))
        )


def round_end(sweep: Sweep) -> float:
    """Return the last travel without the last digits, so that its tick is drawn."""
    return round(float(sweep.travel_mm[-1]), 3)
