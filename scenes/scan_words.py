"""Scans in the words of the report: what was read, mended and mounted, and what stays unknown."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from kinematics.scans.bite_overlaps import LEAST_OVERLAP_MM
from kinematics.scans.cleaning_report import cleaning_words
from kinematics.scans.let_in import SeatingRecord
from kinematics.scans.mean_values import RECORD_MM, MeanValue
from kinematics.scans.scanned_casts import ScanRecord, ScansRecord
from kinematics.scans.settings import MountingKind
from scenes.phrases import CUSP_LETTERS, length
from scenes.point_words import point_table
from scenes.report_tables import Table

#: How each way of mounting works, and what error to expect of it, with sources.
_MOUNTINGS: Final[Mapping[MountingKind, tuple[str, str]]] = {
    "transform": (
        "The hinge frame was given as a transform from the coordinates of the scans.",
        "How far it is off depends on how it was found; nothing about that can be told here.",
    ),
    "hinge axis": (
        "The hinge frame was found from two points of the hinge axis and a reference point.",
        "Of points located by measure of the face instead of on the patient, most lie within 5 to 6"
        " mm of the true axis, in some studies few (Zuckerman, J Prosthet Dent 1982). With such an"
        " axis and a record 2 mm open, the error at the second molar was below 0.3 mm in 87 % of 57"
        " people and above 0.5 mm in 1 % (Morneburg & Proeschel, Int J Prosthodont 2002;15:358-364)"
        ". An axis 5 mm off makes an error of about 0.15 mm in front and 0.27 mm at a second molar"
        " when a record 3 mm thick is closed (geometry).",
    ),
    "mean values": (
        "The hinge frame was found from three landmarks of the lower arch and mean values; no"
        " measurement of this patient tells where the hinge axis lies.",
        "With a mean axis and a record 2 mm open, one person in ten had an error of 0.44 mm or more"
        " at the second molar; with a Balkwill angle wrong by some degrees, 1.12 mm or more. A"
        " wrong angle costs more than an axis 5 mm off (same group as Morneburg & Proeschel, Int J"
        " Prosthodont 2002;15:358-364).",
    ),
}
#: Keys of mean values, in words, with their units.
_MEAN_VALUES: Final[Mapping[str, tuple[str, str]]] = {
    "axis_incisal_mm": ("hinge axis to lower incisal point", "mm"),
    "balkwill_deg": ("Balkwill angle", "°"),
}
#: Where their range comes from, and what the third mean value does.
_MEAN_VALUE_NOTE: Final = (
    f"Error: by how much all teeth are displaced once a record {RECORD_MM:g} mm thick is closed, by"
    " geometry. Range of 120 people (Int J Comput Dent 2015, PMID 26734666). The distance"
    " between the condyles (mean 99.6 mm, 85.2 to 112.6, same source) changes nothing in closing;"
    " 10 mm of it change the angle between the working and the nonworking path of a molar by 5.5 to"
    " 6° (geometry)."
)
#: What may look wrong in a picture of scans and is not.
PICTURE_WORDS: Final = (
    "Gaps in the picture are holes of the scans; margins of crowns are as fine as the triangles."
)
#: More teeth than this that overlap stand two side by side.
_ONE_COLUMN: Final = 8
#: What no scan shows.
_UNSEEN: Final = (
    "Gums take no part in contacts: a tooth that would meet a ridge or a pad is not found.",
    "What the scanner did not see was closed by it or left open; fissures are smoothed, steep walls"
    " and the spaces between teeth are the least certain.",
    "A scan does not show how firmly teeth stand, what bone and roots are like, or which marks the"
    " patient's own movements make. Compare with marks in the mouth before anything is cut.",
)


@dataclass(frozen=True)
class ScanWords:
    """The part of the report about scans.

    Attributes
    ----------
    files : Table
        Both files: triangles, teeth, fingerprints.
    cleaning : tuple of (str, tuple of str)
        Of each cast, what was mended.
    mounting, expected_error : str
        How the hinge frame was found, and what error to expect.
    mean_values : Table
        Mean values that were used, and what people differ by; no rows unless they were.
    mean_value_note : str
        Where that comes from.
    bite : tuple of str
        What maximal intercuspation rests on, and how the casts were seated there.
    overlaps : Table
        Teeth that overlap at the bite; no rows where none does.
    points : Table
        Points picked on the casts; no rows where none was.
    doubts : tuple of str
        What was guessed, and what a scan cannot show.
    pictures : str
        What may look wrong in a picture of scans and is not.
    """

    files: Table
    cleaning: tuple[tuple[str, tuple[str, ...]], ...]
    mounting: str
    expected_error: str
    mean_values: Table
    mean_value_note: str
    bite: tuple[str, ...]
    overlaps: Table
    points: Table
    doubts: tuple[str, ...]
    pictures: str = PICTURE_WORDS


def scan_words(record: ScansRecord | None, reference_plane: str) -> ScanWords | None:
    """Return what the report says about scans; None for built-in teeth.

    Parameters
    ----------
    record : ScansRecord or None
        Where the casts came from.
    reference_plane : str
        In words.
    """
    if record is None:
        return None
    both = (("upper", record.upper), ("lower", record.lower))
    how, error = _MOUNTINGS[record.mounting]
    return ScanWords(
        files=Table(
            ("cast", "file", "kind", "triangles", "teeth from", "fingerprint (SHA-256)"),
            tuple(_file_row(side, of) for side, of in both),
        ),
        cleaning=tuple((f"{side} cast", cleaning_words(of.cleaning)) for side, of in both),
        mounting=f"{how} Inclinations refer to the {reference_plane}.",
        expected_error=error,
        mean_values=_mean_values(record.mean_values),
        mean_value_note=_MEAN_VALUE_NOTE,
        bite=tuple(_bite_lines(record)),
        overlaps=_overlaps(record.seating),
        points=point_table(record.points),
        doubts=(*_guessed(record), *_UNSEEN),
    )


def _file_row(side: str, record: ScanRecord) -> tuple[str, ...]:
    labels = record.labels
    strays = sum(labels.strays.values())
    mended = f"; {strays} stray triangles were given to what surrounds them" if strays else ""
    count = f"{record.triangles:,}".replace(",", "\u202f")
    return side, record.file, record.kind, count, labels.source + mended, f"{record.sha256[:16]}…"


def _mean_values(values: tuple[MeanValue, ...]) -> Table:
    """Return what was used beside what people have, and the error of a record closed by it."""
    rows = []
    for value in values:
        name, unit = _MEAN_VALUES[value.name]
        gap = "" if unit == "°" else " "
        rows.append(
            (
                name,
                f"{value.used:.1f}{gap}{unit}",
                f"{value.least:.1f} to {value.greatest:.1f}{gap}{unit}",
                length(value.error_least_mm),
                length(value.error_greatest_mm),
            )
        )
    head = ("mean value", "used", "least to greatest of people")
    errors = (f"error if the patient has the {which} of people" for which in ("least", "greatest"))
    return Table((*head, *errors), tuple(rows))


def _guessed(record: ScansRecord) -> Iterator[str]:
    """Yield which cusps were put where such a cusp usually stands."""
    named = [f"{code} {cusp}" for code, cusps in record.guessed.items() for cusp in cusps]
    if named:
        yield (
            "No separate top was found for these cusps (worn, restored or not labelled); the"
            f" highest place where each usually stands was taken: {', '.join(named)}"
            f" ({CUSP_LETTERS}). What is said of their places is less certain; the check list marks"
            " them as guessed."
        )


def _bite_lines(record: ScansRecord) -> Iterator[str]:
    """Yield what maximal intercuspation rests on, and how the casts were seated there."""
    yield (
        "The lower cast was moved into maximal intercuspation (MI) by a bite record."
        if record.by_bite_record
        else "Maximal intercuspation (MI) is the bite in which the casts were scanned."
    )
    yield from _seating_lines(record.seating)
    way = "before" if record.rest_mm >= 0.0 else "beyond"
    yield (
        f"Closed about the hinge axis, they meet {length(abs(record.rest_mm))} {way} that bite,"
        " measured at the incisal point."
    )


def _seating_lines(seating: SeatingRecord | None) -> Iterator[str]:
    """Yield how far the casts overlap at the bite, and what was done about it."""
    if seating is None:
        return
    yield f"There the casts stand in each other by {length(seating.as_scanned_mm)} at most."
    if seating.allowance_mm == 0.0:
        yield (
            "No allowance is made (allowance_um = 0): rigid casts meet at their deepest overlap"
            " alone, and the jaw stays open by as much."
        )
        return
    seated = "needed no move to seat it"
    if seating.moved_mm:
        seated = f"was moved by {length(seating.moved_mm)} at most to seat it"
    yield (
        f"An allowance of {length(seating.allowance_mm)} is made for teeth that yield and for the"
        f" error of scans: the lower cast {seated}, and"
        f" overlaps of up to {length(seating.seated_mm)} were let in, by which the surfaces of the"
        " casts differ from the scans."
    )
    if seating.edges_mm > 0.0:
        yield (
            "Where edges still crossed between the points of the scans, each cast yielded by up to"
            f" {length(seating.edges_mm)} more."
        )
    if seating.seated_mm > seating.allowance_mm + 0.001:
        yield (
            "Some overlap is deeper than the allowance however the casts are seated: the bite, or a"
            " scan, is not right there."
        )


def _overlaps(seating: SeatingRecord | None) -> Table:
    """Return the teeth that overlap at the bite, deepest first; of many two side by side."""
    teeth = () if seating is None else seating.by_tooth
    deep = (tooth for tooth in teeth if tooth.as_scanned_mm >= LEAST_OVERLAP_MM)
    cells = [
        (str(tooth.code), length(tooth.as_scanned_mm), length(tooth.let_in_mm))
        for tooth in sorted(deep, key=lambda tooth: -tooth.as_scanned_mm)
    ]
    head = ("tooth", "overlap as scanned", "let in")
    if len(cells) <= _ONE_COLUMN:
        return Table(head, tuple(cells))
    half = (len(cells) + 1) // 2
    right = [*cells[half:], ("", "", "")]
    return Table(2 * head, tuple((*cells[row], *right[row]) for row in range(half)))
