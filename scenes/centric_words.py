"""Records of centric relation in the words of the report: where MI lies, and how they agree."""

import math
from dataclasses import dataclass
from typing import Final

from kinematics.checkup_result import Checkup
from kinematics.planning.centric_basis import CentricBasis, centric_basis
from kinematics.planning.centric_findings import SCATTER_SOURCE, places_of, way_words
from kinematics.scans.centric_records import CentricRecords, PlaceByRecord
from scenes.phrases import degrees, length
from scenes.report_tables import Table

#: Condyles nearer to their paths than this stand on them, mm.
_FITS_MM: Final = 0.01
#: Openings that differ by less are told as one, degrees.
_AS_OPEN_DEG: Final = 0.05


@dataclass(frozen=True)
class CentricWords:
    """The part of the report about records of centric relation.

    Attributes
    ----------
    place : tuple of str
        Where they put MI, and what does not fit.
    scatter : Table
        Further records against the first; no rows for a single one.
    agreement : str
        How far they agree, and what is usual.
    """

    place: tuple[str, ...]
    scatter: Table
    agreement: str


def basis_of(checkup: Checkup) -> CentricBasis:
    """Return what a checked case knows of centric relation."""
    return centric_basis(on_scans=checkup.scans is not None, recorded=checkup.centric is not None)


def centric_words(records: CentricRecords | None, scatter_mm: float) -> CentricWords | None:
    """Return what the report says about records of CR; None where there are none.

    Parameters
    ----------
    records : CentricRecords or None
        What they say.
    scatter_mm : float
        The scatter that the case reckons with.
    """
    if records is None:
        return None
    return CentricWords(_place_lines(records), _scatter(records), _agreement(records, scatter_mm))


def _place_lines(records: CentricRecords) -> tuple[str, ...]:
    place, mi = records.place, records.place.mi
    count = len(records.others) + 1
    told = "from a record of it" if count == 1 else f"from the first of {count} records of it"
    moves = _shift_words(mi.shift_mm)
    if mi.in_cr:
        return (
            f"Centric relation (CR) is known {told}; it puts both condyles where they stand in MI,"
            " so that there is no slide. Is it a record of CR, and not the bite itself?",
            _held_open(records),
        )
    return (
        f"Centric relation (CR) is known {told}, in which the condyles count as seated. From there"
        f" to MI the right condyle advances {length(mi.advance_right_mm)} along its path and the"
        f" left one {length(mi.advance_left_mm)}{moves}; this takes the place of the setting"
        " maximal_intercuspation.",
        _held_open(records),
        _beside(place),
    )


def _shift_words(shift_mm: float) -> str:
    if shift_mm == 0.0:
        return ", without a shift to the side"
    side = "left" if shift_mm > 0.0 else "right"
    return f", and the jaw shifts {length(abs(shift_mm))} to the {side}"


def _held_open(records: CentricRecords) -> str:
    open_deg, open_mm = records.place.held_open_deg, records.held_open_mm
    if abs(open_deg) < _AS_OPEN_DEG:
        return "The record held the jaw as far open as it is in MI."
    way = "open" if open_deg >= 0.0 else "closed"
    return (
        f"The record held the jaw {degrees(abs(open_deg))} more {way} than in MI, that is"
        f" {length(abs(open_mm))} at the lower incisal point. It is closed about the hinge axis;"
        " the thicker the record, the more an axis that is off moves the place found."
    )


def _beside(place: PlaceByRecord) -> str:
    """Say what of the place in MI does not fit the paths."""
    if place.mi.residual_mm < _FITS_MM:
        return f"The place found fits the paths that are set within {length(_FITS_MM)}."
    sides = (("right", place.beside_right_mm), ("left", place.beside_left_mm))
    told = [
        f"the {side} condyle by {length(math.hypot(*vector))} ({way_words(vector)})"
        for side, vector in sides
    ]
    return (
        "In MI the record puts the condyles beside the paths that are set: "
        f"{' and '.join(told)}. The casts move on the paths, so that their CR differs from the"
        " record by as much."
    )


def _scatter(records: CentricRecords) -> Table:
    return Table(
        ("against the first record", "which way", "apart"),
        tuple(
            (f"record {other.number}, {name}", way_words(vector), length(math.hypot(*vector)))
            for other in records.others
            for name, vector in places_of(other)
        ),
    )


def _agreement(records: CentricRecords, scatter_mm: float) -> str:
    usual = f"As published, {SCATTER_SOURCE}."
    if not records.others:
        return (
            "One record cannot tell how well it can be repeated: with two or three the report says"
            f" how far they agree. {usual}"
        )
    more = records.scatter_mm > scatter_mm
    return (
        f"The largest difference is {length(records.scatter_mm)},"
        f" {'more' if more else 'no more'} than the scatter that is reckoned with"
        f" (record_scatter_mm = {length(scatter_mm)}). {usual}"
    )
