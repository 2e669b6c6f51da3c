"""Plots of where the jaw goes: gothic arch, incisal tracks, condylar tracks."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.borders.tracks import BorderTrack
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion
from kinematics.tracks.found_tracks import TrackLine
from kinematics.tracks.settings import TrackKind
from scenes import colours, panel
from scenes.movement_styles import (
    LEFT_BETWEEN,
    LEFT_LATERAL,
    PROTRUSION,
    RETRUSION,
    RIGHT_LATERAL,
    style_of,
)
from scenes.phrases import excursion_title
from scenes.sheet import Box, Item, Key, Line, Sheet, Words

_FORWARD, _LEFT, _UP = 0, 1, 2
_WORDS: Final = ("forward, mm", "to the patient's left, mm", "upward, mm")
_AZIMUTH_DEG: Final = {"right lateral": -90.0, "left lateral": 90.0}
_INCISAL_HEIGHT_MM: Final = 66.0
_CONDYLE_HEIGHT_MM: Final = 90.0
_MEASURED_HEIGHT_MM: Final = 112.0
#: How the tracks of each kind are drawn, and the guidance fitted to them.
MEASURED_STYLES: Final[dict[TrackKind, colours.Style]] = {
    "hinge opening": RETRUSION,
    "protrusive": PROTRUSION,
    "right lateral": RIGHT_LATERAL,
    "left lateral": LEFT_LATERAL,
    "other": LEFT_BETWEEN,
}
_FITTED: Final = colours.Style(colours.INK, "x", (0, (4, 2)))


@dataclass(frozen=True)
class Track:
    """One line of a plot: points (n, 3) from the common origin, mm, and how it is drawn."""

    label: str
    style: colours.Style
    points: Floats
    thin: bool = False


def border_style(border: BorderTrack) -> colours.Style:
    """Return the style of the excursion that a border track belongs to."""
    return style_of(_excursion(border))


def border_title(border: BorderTrack) -> str:
    """Return the name of a border track as the excursions are named elsewhere."""
    return excursion_title(_excursion(border))


def _excursion(border: BorderTrack) -> Excursion:
    return Excursion(border.name, _AZIMUTH_DEG.get(border.name, 0.0), "CR")


def incisal_chart(borders: Sequence[BorderTrack], sweeps: Sequence[Sweep]) -> Sheet:
    """Lay out the gothic arch (horizontal) and the tracks on the teeth, from the side and front."""
    start = borders[0].incisal_point[0] if borders else sweeps[0].incisal_point[0]
    free = [Track(border_title(b), border_style(b), b.incisal_point - start) for b in borders]
    guided = [
        Track(
            excursion_title(s.excursion),
            style_of(s.excursion),
            (s.incisal_point - start)[~s.crossover],
            thin=True,
        )
        for s in sweeps
    ]
    wide = (panel.PAGE_WIDTH_MM - 42.0) / 3.0
    arch, side, front = ((11.0 + k * (wide + 13.0), 20.0, wide, 39.0) for k in range(3))
    items = [
        *_tracks(arch, free, _LEFT, _FORWARD, "gothic arch, no teeth"),
        *_tracks(side, guided, _FORWARD, _UP, "on the teeth, from the side"),
        *_tracks(front, guided, _LEFT, _UP, "on the teeth, from in front"),
    ]
    return Sheet(panel.PAGE_WIDTH_MM, _INCISAL_HEIGHT_MM, tuple(items), _key([*guided, *free]))


def condyle_chart(borders: Sequence[BorderTrack], reference_plane: str) -> Sheet:
    """Lay out both condyles' tracks from the side and from above, from centric relation (CR)."""
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
    wide = (panel.PAGE_WIDTH_MM - 30.0) / 2.0
    words = (f"forward along the {reference_plane}, mm", "up from the plane, mm")
    items: list[Item] = []
    for column, (side, lines) in enumerate(tracks.items()):
        left = 13.0 + column * (wide + 14.0)
        above, below = (left, 53.0, wide, 31.0), (left, 16.0, wide, 24.0)
        items += _tracks(above, lines, _FORWARD, _UP, f"{side} condyle, from the side", words)
        items += _tracks(below, lines, _FORWARD, _LEFT, f"{side} condyle, from above")
    return Sheet(panel.PAGE_WIDTH_MM, _CONDYLE_HEIGHT_MM, tuple(items), _key(tracks["right"]))


def measured_chart(lines: Sequence[TrackLine], reference_plane: str) -> Sheet:
    """Lay out measured tracks of both condyles and the guidance fitted to them, from CR."""
    wide = (panel.PAGE_WIDTH_MM - 30.0) / 2.0
    words = (f"forward along the {reference_plane}, mm", "up from the plane, mm")
    items: list[Item] = []
    tracks: list[Track] = []
    for column, side in enumerate(("right", "left")):
        tracks = [
            *(
                Track(
                    f"{line.kind}, measured", MEASURED_STYLES[line.kind], line.measured[:, column]
                )
                for line in lines
            ),
            *(
                Track("fitted guidance", _FITTED, line.fitted[:, column], thin=True)
                for line in lines
                if len(line.fitted)
            ),
        ]
        left = 13.0 + column * (wide + 14.0)
        above, below = (left, 64.0, wide, 42.0), (left, 19.0, wide, 31.0)
        items += _tracks(above, tracks, _FORWARD, _UP, f"{side} condyle, from the side", words)
        items += _tracks(below, tracks, _FORWARD, _LEFT, f"{side} condyle, from above")
    return Sheet(panel.PAGE_WIDTH_MM, _MEASURED_HEIGHT_MM, tuple(items), _key(tracks))


def _tracks(
    box: Box,
    tracks: Sequence[Track],
    x: int,
    y: int,
    title: str,
    words: tuple[str, str] | None = None,
) -> list[Item]:
    """Return tracks with their scales, in true proportion: a millimetre is as long both ways."""
    every_point = np.concatenate([t.points for t in tracks]) if tracks else np.zeros((1, 3))
    reach = np.concatenate([every_point[:, [x, y]], np.zeros((1, 2))])
    frame = panel.same_scale(box, reach.min(axis=0) - 0.6, reach.max(axis=0) + 0.6)
    start = frame.place(0.0, 0.0)
    items: list[Item] = [panel.title(frame, title)]
    for order, track in enumerate(tracks):
        every = max(1, round(len(track.points) / 6))
        first = (every * (order + 1)) // (len(tracks) + 1)
        marked = tuple(range(first, len(track.points), every))
        points = frame.places(track.points[:, x], track.points[:, y])
        items.append(replace(_sample(track, 3.0), points=points, marked=marked, within=box))
    items += [
        Line(np.array([start]), colours.INK, 0.0, mark="+", mark_pt=7.0, within=box),
        Words("CR", frame.place(0.0, 0.0, (-4.0, -7.0)), "right", "baseline", 6.5),
        *panel.scales(frame, *(words or (_WORDS[x], _WORDS[y]))),
    ]
    return items


def _sample(track: Track, mark_pt: float) -> Line:
    """Return how a track is drawn, without its points."""
    return Line(
        np.empty((0, 2)),
        track.style.colour,
        0.9 if track.thin else 1.5,
        track.style.line,
        track.style.marker,
        mark_pt,
        mark_fill=colours.PAPER if track.thin else track.style.colour,
    )


def _key(tracks: Sequence[Track]) -> Key:
    named = {track.label: track for track in tracks}
    entries = tuple((_sample(track, 3.5), label) for label, track in named.items())
    return Key(entries, columns=3, sample=4.0, gap=0.8, between=2.0, below=0.5)
