"""Plots of where the jaw goes: gothic arch, incisal tracks, condylar tracks."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from kinematics.contact.border import BorderTrack
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion
from scenes import colours, plotting
from scenes.phrases import excursion_title

_FORWARD, _LEFT, _UP = 0, 1, 2
_WORDS: Final = ("forward, mm", "to the patient's left, mm", "upward, mm")
_AZIMUTH_DEG: Final = {"right lateral": -90.0, "left lateral": 90.0}
_INCISAL_HEIGHT_MM: Final = 74.0
_CONDYLE_HEIGHT_MM: Final = 118.0


@dataclass(frozen=True)
class Track:
    """One line of a plot: points (n, 3) from the common origin, mm, and how it is drawn."""

    label: str
    style: colours.Style
    points: Floats
    thin: bool = False


def border_style(border: BorderTrack) -> colours.Style:
    """Return the style of the excursion that a border track belongs to."""
    return colours.style_of(_excursion(border))


def border_title(border: BorderTrack) -> str:
    """Return the name of a border track as the excursions are named elsewhere."""
    return excursion_title(_excursion(border))


def _excursion(border: BorderTrack) -> Excursion:
    return Excursion(border.name, _AZIMUTH_DEG.get(border.name, 0.0), "CR")


def incisal_chart(borders: Sequence[BorderTrack], sweeps: Sequence[Sweep], name: str) -> str:
    """Draw the gothic arch (horizontal) and the tracks on the teeth from the side and in front."""
    start = borders[0].incisal_point[0] if borders else sweeps[0].incisal_point[0]
    free = [Track(border_title(b), border_style(b), b.incisal_point - start) for b in borders]
    guided = [
        Track(
            excursion_title(s.excursion),
            colours.style_of(s.excursion),
            (s.incisal_point - start)[~s.crossover],
            thin=True,
        )
        for s in sweeps
    ]
    with plotting.look():
        figure = plotting.new_figure(plotting.PAGE_WIDTH_MM, _INCISAL_HEIGHT_MM)
        wide = (plotting.PAGE_WIDTH_MM - 42.0) / 3.0
        boxes = [(11.0 + k * (wide + 13.0), 24.0, wide, 42.0) for k in range(3)]
        arch, side, front = (plotting.place_axes(figure, box) for box in boxes)
        _draw_tracks(arch, free, _LEFT, _FORWARD, "gothic arch, no teeth")
        plotting.scales(arch, _WORDS[_LEFT], _WORDS[_FORWARD])
        _draw_tracks(side, guided, _FORWARD, _UP, "on the teeth, from the side")
        plotting.scales(side, _WORDS[_FORWARD], _WORDS[_UP])
        _draw_tracks(front, guided, _LEFT, _UP, "on the teeth, from in front")
        plotting.scales(front, _WORDS[_LEFT], _WORDS[_UP])
        _legend(figure, [*guided, *free], columns=3)
        return plotting.svg(figure, name)


def condyle_chart(borders: Sequence[BorderTrack], reference_plane: str, name: str) -> str:
    """Draw both condyles' tracks from the side and from above, from centric relation (CR)."""
    tracks = {
        "right": [
            Track(border_title(b), border_style(b), b.condyle_right - b.condyle_right[0])
            for b in borders
        ],
        "left": [
            Track(border_title(b), border_style(b), b.condyle_left - b.condyle_left[0])
            for b in borders
        ],
    }
    with plotting.look():
        figure = plotting.new_figure(plotting.PAGE_WIDTH_MM, _CONDYLE_HEIGHT_MM)
        wide = (plotting.PAGE_WIDTH_MM - 30.0) / 2.0
        for column, (side, lines) in enumerate(tracks.items()):
            left = 13.0 + column * (wide + 14.0)
            upper = plotting.place_axes(figure, (left, 68.0, wide, 43.0))
            _draw_tracks(upper, lines, _FORWARD, _UP, f"{side} condyle, from the side")
            plotting.scales(
                upper,
                f"forward along the {reference_plane}, mm",
                "up from the plane, mm",
            )
            lower = plotting.place_axes(figure, (left, 19.0, wide, 34.0))
            _draw_tracks(lower, lines, _FORWARD, _LEFT, f"{side} condyle, from above")
            plotting.scales(lower, _WORDS[_FORWARD], _WORDS[_LEFT])
        _legend(figure, tracks["right"], columns=3)
        return plotting.svg(figure, name)


def _draw_tracks(axes: Axes, tracks: Sequence[Track], x: int, y: int, title: str) -> None:
    """Draw tracks in true proportion: a millimetre is as long both ways."""
    plotting.title(axes, title)
    for order, track in enumerate(tracks):
        points = track.points
        every = max(1, round(len(points) / 6))
        first = (every * (order + 1)) // (len(tracks) + 1)
        axes.plot(
            points[:, x],
            points[:, y],
            color=track.style.colour,
            linestyle=track.style.line,
            linewidth=0.9 if track.thin else 1.5,
            marker=track.style.marker,
            markersize=3.0,
            markerfacecolor=colours.PAPER if track.thin else track.style.colour,
            markevery=(first, every),
        )
    axes.plot(0.0, 0.0, marker="+", color=colours.INK, markersize=7.0, linestyle="none")
    axes.annotate(
        "CR", (0.0, 0.0), xytext=(-4, -7), textcoords="offset points", fontsize=6.0, ha="right"
    )
    every_point = np.concatenate([t.points for t in tracks]) if tracks else np.zeros((1, 3))
    _same_scale(axes, every_point[:, [x, y]])


def _same_scale(axes: Axes, points: Floats) -> None:
    """Set limits around the points (n, 2) so that both axes have the same scale."""
    box = axes.get_window_extent()
    low, high = np.minimum(points.min(axis=0), 0.0), np.maximum(points.max(axis=0), 0.0)
    middle, size = 0.5 * (low + high), high - low + 1.2
    per_dot = max(size[0] / box.width, size[1] / box.height)
    half = 0.5 * per_dot * np.array([box.width, box.height])
    axes.set_xlim(middle[0] - half[0], middle[0] + half[0])
    axes.set_ylim(middle[1] - half[1], middle[1] + half[1])


def _legend(figure: Figure, tracks: Sequence[Track], columns: int) -> None:
    handles = [
        Line2D(
            [],
            [],
            color=track.style.colour,
            linestyle=track.style.line,
            linewidth=0.9 if track.thin else 1.5,
            marker=track.style.marker,
            markersize=3.5,
            markerfacecolor=colours.PAPER if track.thin else track.style.colour,
            label=track.label,
        )
        for track in {track.label: track for track in tracks}.values()
    ]
    figure.legend(handles=handles, loc="lower center", ncols=columns, handlelength=4.0)
