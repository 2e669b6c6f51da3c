"""Plots of how far the casts stand open, or overlap, when they move as the jaw was recorded."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from kinematics.tracks.driven_casts import DrivenTrack
from scenes import colours, panel
from scenes.panel import Panel
from scenes.sheet import Box, Item, Key, Line, Sheet
from scenes.track_charts import MEASURED_STYLES

_ROW_MM: Final = 42.0
_KEY_MM: Final = 9.0
#: Wider gaps than this are cut off, mm: there nothing can be read of contacts.
_MOST_MM: Final = 3.0
_LEAST_MM: Final = 0.5
_BAND: Final[colours.Line] = (0, (3.0, 1.6))


def driven_chart(driven: Sequence[DrivenTrack]) -> Sheet:
    """Lay out the gap along every track over time, and what it is known to."""
    items: list[Item] = []
    for row, track in enumerate(driven):
        bottom = _KEY_MM + 9.0 + (len(driven) - 1 - row) * _ROW_MM
        items += _track(track, (16.0, bottom, panel.PAGE_WIDTH_MM - 20.0, _ROW_MM - 14.0))
    height = _KEY_MM + 3.0 + len(driven) * _ROW_MM
    return Sheet(panel.PAGE_WIDTH_MM, height, tuple(items), _key())


def _track(track: DrivenTrack, box: Box) -> list[Item]:
    shown = np.minimum(track.gap_mm, _MOST_MM)
    low = min(
        float(shown.min(initial=0.0)), -float(track.uncertain_mm.max(initial=0.0)), -_LEAST_MM
    )
    high = max(float(shown.max(initial=0.0)), _LEAST_MM)
    room = 0.06 * (high - low)
    last_s = float(track.time_s.max(initial=1.0))
    frame = Panel(box, (0.0, last_s), (low - room, high + room))
    style = MEASURED_STYLES[track.kind]
    bands = [
        Line(frame.places(track.time_s, sign * track.uncertain_mm), colours.SOFT_INK, 0.8, _BAND)
        for sign in (-1.0, 1.0)
    ]
    return [
        panel.title(frame, f"{track.number}, {track.kind}; below 0 the casts overlap"),
        *panel.scales(frame, "time, s", "open, mm", upward_step=panel.step_for(high - low, 4)),
        Line(frame.level(0.0), colours.INK, 0.9),
        *bands,
        Line(
            frame.places(track.time_s, track.gap_mm),
            style.colour,
            1.3,
            mark=style.marker,
            mark_pt=2.6,
            within=box,
        ),
    ]


def _key() -> Key:
    nowhere = np.empty((0, 2))
    entries = (
        (Line(nowhere, colours.INK, 0.9), "first teeth just touch"),
        (Line(nowhere, colours.SOFT_INK, 0.8, _BAND), "what the gap is known to, 95 % interval"),
    )
    return Key(entries, columns=2, sample=4.0, gap=0.8, between=2.0, below=0.5)
