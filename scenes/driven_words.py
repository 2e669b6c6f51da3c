"""Casts moved as the jaw was recorded, in words: where teeth meet, stand apart, or overlap."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.tracks.driven_casts import DrivenPair, DrivenTrack
from scenes.phrases import length, number, pair
from scenes.report_tables import Table

#: So many pairs of a track are named; the rest is counted.
_PAIRS_NAMED: Final = 6
_NOTE: Final = (
    "The casts were moved to every place of a track whose noise is independent of the others, and"
    " closed or opened about the recorded condyles until the first teeth meet: by so much the jaw"
    " stood open, or the casts overlap. What that is known to (95 % interval, from noise and from"
    " how the recorder was fixed) is drawn as a band; within it, open and overlapping cannot be"
    " told from touching. An overlap beyond it says that track, mounting and bite do not belong"
    " together, or that teeth and their sockets give way. The movement is that of this recording:"
    " condylar paths as the case sets them take no part in it, and it is not judged as the"
    " excursions are."
)


@dataclass(frozen=True)
class DrivenWords:
    """The part of the report about casts moved along tracks.

    Attributes
    ----------
    table : Table
        Each track: how the casts stand along it, and which teeth meet.
    note : str
        How that was found and what it means.
    """

    table: Table
    note: str


def driven_words(driven: Sequence[DrivenTrack]) -> DrivenWords | None:
    """Return what the report says of casts moved along tracks; None where there are none."""
    if not driven:
        return None
    return DrivenWords(
        Table(
            (
                "track", "places", "open", "touching, as far as is known", "overlapping",
                "known to", "teeth that meet",
            ),
            tuple(_row(track) for track in driven),
        ),
        _NOTE,
    )  # fmt: skip


def _row(track: DrivenTrack) -> tuple[str, ...]:
    places = len(track.gap_mm) + track.nothing_met
    over = track.overlapping
    still_open = ~track.closed
    told_open = f"{int(still_open.sum()) + track.nothing_met}"
    if still_open.any():
        told_open += f", up to {length(float(track.gap_mm.max()))}"
    told_over = f"{int(over.sum())}"
    if over.any():
        worst = int(np.argmin(track.gap_mm))
        told_over += (
            f", by up to {length(-float(track.gap_mm[worst]))} at"
            f" {number(float(track.time_s[worst]), 2)} s"
        )
    known = f"± {length(float(track.uncertain_mm.max()))}" if len(track.gap_mm) else ""
    return (
        f"{track.number}, {track.kind}",
        str(places),
        told_open,
        str(int((track.closed & ~over).sum())),
        told_over,
        known,
        _pairs(track.pairs),
    )


def _pairs(pairs: Sequence[DrivenPair]) -> str:
    if not pairs:
        return "none"
    told = [
        f"{pair(p.tooth_upper, p.tooth_lower)} in {p.touching} places"
        f" ({number(p.from_s, 2)} to {number(p.to_s, 2)} s)"
        for p in pairs[:_PAIRS_NAMED]
    ]
    if len(pairs) > _PAIRS_NAMED:
        told.append(f"and {len(pairs) - _PAIRS_NAMED} more")
    return "; ".join(told)
