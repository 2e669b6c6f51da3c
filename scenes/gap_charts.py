"""Plots of how far the back teeth are apart along an excursion, and what would touch next."""

from itertools import pairwise
from typing import Final

import numpy as np
from matplotlib.axes import Axes

from kinematics.contact.sweep import Sweep
from kinematics.tooth_codes import is_posterior, place
from scenes import colours, plotting
from scenes.charts import SHADE, SHORT_MM, round_end
from scenes.phrases import pair, role_of, side_word

_GAP_CHART_HEIGHT_MM: Final = 48.0
#: Name, marker, line style and colour of the upper back teeth, by place from the midline.
_BACK_TEETH: Final[dict[int, tuple[str, str, colours.Line, str]]] = {
    4: ("first premolar", "o", "-", "#1b6ca8"),
    5: ("second premolar", "s", (0, (5, 1.5)), "#b8560f"),
    6: ("first molar", "^", (0, (3, 1, 1, 1)), "#12806a"),
    7: ("second molar", "D", (0, (1.5, 1)), "#7c4d8b"),
    8: ("third molar", "v", (0, (6, 1, 1, 1, 1, 1)), "#56606b"),
}


def back_tooth_keys(codes: tuple[int, ...]) -> list[tuple[str, str]]:
    """Return (line and marker as a small SVG element, name) of the back teeth among `codes`."""
    keys = []
    for number in sorted({place(code) for code in codes if is_posterior(code)}):
        tooth, marker, line, colour = _BACK_TEETH[number]
        with plotting.look():
            figure = plotting.new_figure(12.0, 3.4)
            figure.patch.set_alpha(0.0)
            axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
            axes.set_axis_off()
            axes.plot((0, 1, 2), (0, 0, 0), color=colour, linestyle=line, linewidth=1.1)
            axes.plot(1, 0, color=colour, marker=marker, markersize=3.4)
            keys.append((plotting.svg(figure, f"key{number}"), f"{tooth} ({number})"))
    return keys


def gap_chart(sweep: Sweep, name: str, readings_mm: tuple[float, ...]) -> str:
    """Draw the least gap of every back tooth to the opposing arch, and the runner-up's gap."""
    with plotting.look():
        figure = plotting.new_figure(plotting.PAGE_WIDTH_MM, _GAP_CHART_HEIGHT_MM)
        long = sweep.travel_mm[-1] > SHORT_MM
        gaps = sweep.pair_gap_mm.min(axis=2)
        widest = float(gaps[np.isfinite(gaps)].max(initial=0.0))
        highest = sweep.gap_limit_mm if long else min(sweep.gap_limit_mm, max(1.1 * widest, 0.1))
        width = (plotting.PAGE_WIDTH_MM - 11.0 - 3 * 11.0) / 3.0
        for column, side in enumerate(("right", "left", "")):
            left = 11.0 + column * (width + 11.5)
            axes = plotting.place_axes(figure, (left, 9.0, width, _GAP_CHART_HEIGHT_MM - 15.0))
            axes.set_xlim(0.0, round_end(sweep))
            axes.set_ylim(0.0, highest)
            axes.axhspan(0.0, sweep.tolerance_mm, color=colours.INK, alpha=0.55, linewidth=0.0)
            if sweep.edge_to_edge_mm is not None:
                axes.axvspan(sweep.edge_to_edge_mm, sweep.travel_mm[-1], color=SHADE, zorder=0.0)
            if side:
                _draw_side_gaps(axes, sweep, side, readings_mm)
            else:
                _draw_runner_up(axes, sweep)
            plotting.scales(
                axes,
                f"travel from {sweep.excursion.start}, mm",
                "gap, mm" if column == 0 else "",
                1.0 if long else None,
                0.5 if side and long else None,
            )
        return plotting.svg(figure, name)


def _draw_side_gaps(axes: Axes, sweep: Sweep, side: str, readings_mm: tuple[float, ...]) -> None:
    """Draw one line a tooth, told apart by line style and marker."""
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
        axes.plot(
            sweep.travel_mm,
            np.where(known, gap, np.nan),
            color=colour,
            linestyle=line,
            linewidth=1.1,
            marker=marker,
            markersize=3.2,
            markevery=[k for k in marked if known[k]],
        )
    plotting.title(axes, f"{side} back teeth" + (f": {role} side" if role else ""))


def _draw_runner_up(axes: Axes, sweep: Sweep) -> None:
    gap = sweep.runner_up_gap_mm
    known = np.isfinite(gap)
    axes.plot(sweep.travel_mm, np.where(known, gap, np.nan), color=colours.INK, linewidth=1.1)
    highest = float(gap[known].max()) if known.any() else 0.0
    axes.set_ylim(0.0, max(1.15 * highest, 0.1))
    plotting.title(axes, "runner-up: gap along the closing arc")
    teeth = sweep.runner_up.tooth_upper * 100 + sweep.runner_up.tooth_lower
    teeth = np.where(known, teeth, 0)
    change = np.flatnonzero(np.diff(teeth)) + 1
    bounds = [0, *change.tolist(), len(teeth)]
    span = 0.12 * (sweep.travel_mm[-1] - sweep.travel_mm[0])
    for first, end in pairwise(bounds):
        wide = sweep.travel_mm[end - 1] - sweep.travel_mm[first]
        if first:
            axes.axvline(sweep.travel_mm[first], color=colours.FAINT, linewidth=0.5, zorder=0.5)
        if known[first] and wide >= span:
            middle = (first + end - 1) // 2
            axes.annotate(
                pair(int(teeth[middle]) // 100, int(teeth[middle]) % 100),
                (sweep.travel_mm[middle], gap[middle]),
                xytext=(0, 4),
                textcoords="offset points",
                ha="center",
                fontsize=6.0,
                bbox={"fc": colours.PAPER, "lw": 0.0, "pad": 0.4, "alpha": 0.85},
            )
