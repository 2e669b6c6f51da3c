"""The check list for the chair: marks to expect in the mouth before anything is cut."""

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from kinematics.checkup_result import Checkup
from kinematics.contact.sweep import Sweep
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.foil_marks import (
    GUESSED,
    Crowns,
    FoilMark,
    marks_along,
    marks_in_cr,
    marks_in_mi,
    unmarked,
)
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.slide import NO_SLIDE
from kinematics.planning.stops import strip_readings
from kinematics.planning.wording import enumeration, excursion_label
from kinematics.tooth_codes import is_upper
from scenes.phrases import excursion_title, length, number, side_words, tolerance, travel

_MOUNTING: Final = "mounting in doubt: do not cut"
_SETTINGS: Final = "settings in doubt: do not cut"
_CASTS_ONLY: Final = "on the casts only: do not cut"
_EXTRA: Final = "casts differ: do not cut"
_RECORD: Final = "record in doubt: do not cut"
_BALANCE: Final = "balance lost there: do not cut"
#: What a row means where the mouth shows something else, and what to do then. Common practice.
_MEANING: Final = (
    (_MOUNTING, "look at the seating of the casts, take the record of MI again, remount, compare"),
    (_SETTINGS, "take a record of this excursion, set the guidance by it, compare again"),
    (_CASTS_ONLY, "this contact is not there in the mouth; settings or mounting made it"),
    (_EXTRA, "the mouth has a contact that the casts do not show; remount, then compare again"),
    (_RECORD, "take the centric record again, check it against the first, remount"),
)
#: Told only where balance is wanted.
_MEANING_OF_BALANCE: Final = (
    _BALANCE,
    "this contact is wanted; without it the teeth do not balance there in the mouth and a base may"
    " tip; remount, compare again, then build the contact up or set the teeth anew",
)
#: What a shim strip does at a tooth, in the words of the list.
_STRIP: Final = {"holds": "strip held", "drags": "strip drags", "free": "strip slips"}
_PRESENT_BITE: Final = "All marks are those of the present bite, not of the raised one."
_GUESSED: Final = (
    f"{GUESSED.strip()}: no separate top of this cusp was found on the scan, and its tip was put"
    " where such a cusp usually stands. A mark a little beside it is no difference."
)
_GUIDES: Final = ("incisor", "canine")


@dataclass(frozen=True)
class CheckRow:
    """One line to tick.

    Attributes
    ----------
    teeth : str
        Upper over lower number.
    detail : str
        Travel and side where the jaw moves; empty in MI.
    upper, lower : str
        Expected places on both teeth.
    differs : str
        What it means where the mouth shows something else, in a word.
    """

    teeth: str
    detail: str
    upper: str
    lower: str
    differs: str


@dataclass(frozen=True)
class CheckGroup:
    """The lines of one position or movement.

    Attributes
    ----------
    title, note : str
        Which, and which side works or what else must be known.
    foil : str
        Thickness and colour of the foil.
    rows : tuple of CheckRow
        Pairs of teeth in the order of the upper arch.
    unmarked : str
        Teeth that should stay without a mark; empty where every tooth has one.
    remark : str
        What explains the lines; empty where they need no words.
    """

    title: str
    note: str
    foil: str
    rows: tuple[CheckRow, ...]
    unmarked: str = ""
    remark: str = ""


@dataclass(frozen=True)
class Checklist:
    """Everything on the check list.

    Attributes
    ----------
    sequence : tuple of str
        Steps of the work.
    groups : tuple of CheckGroup
        Lines to tick, in the order of the steps.
    extra : str
        What it means where a tooth is marked that should not be, in a word.
    meaning : tuple of (str, str)
        These words, and what to do then.
    guessed : str
        What is meant by a cusp that is marked as guessed; empty where none is.
    """

    sequence: tuple[str, ...]
    groups: tuple[CheckGroup, ...]
    extra: str = _EXTRA
    meaning: tuple[tuple[str, str], ...] = _MEANING
    guessed: str = ""


def checklist(checkup: Checkup, judging: JudgingSettings) -> Checklist:
    """Return which marks to expect, in the order in which they are made.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    judging : JudgingSettings
        Near-MI length and readings.
    """
    crowns = Crowns(checkup.upper, checkup.lower, checkup.scans.guessed if checkup.scans else {})
    thin = tolerance(checkup.sweeps[0].tolerance_mm) if checkup.sweeps else ""
    steps = _sequence(thin, judging, checkup.slide.kind != NO_SLIDE)
    if checkup.raised is not None:
        steps = (_PRESENT_BITE, *steps)
    groups = tuple(_groups(checkup, crowns, judging))
    balance = any(row.differs == _BALANCE for group in groups for row in group.rows)
    meaning = (*_MEANING, _MEANING_OF_BALANCE) if balance else _MEANING
    listed = [row.upper + row.lower for group in groups for row in group.rows]
    guessed = _GUESSED if any(GUESSED in places for places in listed) else ""
    return Checklist(steps, groups, meaning=meaning, guessed=guessed)


def _sequence(thin: str, judging: JudgingSettings, cr_is_apart: bool) -> tuple[str, ...]:
    """Return the steps of the work; CR has marks of its own where it is not MI. Common practice."""
    near = length(judging.near_mi_mm)
    return (
        f"Dry the teeth. MI first: foil of the first colour, {thin} thick or the nearest thinner"
        " one; close and tap.",
        "Draw an 8 µm strip between the teeth in MI: the list says where it is held and where it"
        " slips.",
        "Lateral excursions next: foil of the second colour, as thin; from MI to the right until"
        " edge-to-edge, compare; wipe off, then to the left.",
        "Protrusion and the movements between, in the second colour again.",
        "MI once more in the first colour over it: what keeps the second colour alone belongs to"
        f" the excursions. Marks that end within {near} of MI are not listed.",
        "Last CR: lead the jaw back, let it close lightly until the first touch."
        + ("" if cr_is_apart else " Here CR is MI: it closes into the marks of MI."),
    )


def _groups(checkup: Checkup, crowns: Crowns, judging: JudgingSettings) -> Iterator[CheckGroup]:
    """Yield MI, the lateral excursions, protrusion and what lies between, and CR."""
    from_mi = [sweep for sweep in checkup.sweeps if sweep.excursion.start == "MI"]
    excursions = [sweep for sweep in from_mi if sweep.excursion.name != RETRUSION]
    if excursions:
        marks = marks_in_mi(crowns, excursions[0])
        foil = f"foil {tolerance(excursions[0].tolerance_mm)}, first colour"
        rows = tuple(_row(mark, _MOUNTING) for mark in marks)
        bare = _unmarked_words(checkup, marks)
        remark = _without_stop(checkup, marks, tolerance(excursions[0].tolerance_mm))
        yield CheckGroup("Maximal intercuspation (MI)", "", foil, rows, bare, remark)
        yield _strip_group(excursions[0])
    for sweep in sorted(excursions, key=_turn):
        marks = marks_along(crowns, sweep, judging)
        wanted = _balanced_pairs(checkup, judging, sweep, marks)
        yield _excursion_group(sweep, marks, _unmarked_words(checkup, marks), wanted)
    for sweep in from_mi:
        if sweep.excursion.name == RETRUSION and checkup.slide.kind != NO_SLIDE:
            marks = marks_in_cr(crowns, sweep, checkup.slide)
            note = f"first touch; from there the jaw slides {length(checkup.slide.length_mm)} to MI"
            foil = f"foil {tolerance(sweep.tolerance_mm)}, first colour on dry teeth"
            rows = tuple(_row(mark, _RECORD) for mark in marks)
            yield CheckGroup("Centric relation (CR)", note, foil, rows)


def _without_stop(checkup: Checkup, marks: Sequence[FoilMark], thick: str) -> str:
    """Return why pairs that have no centric stop are marked all the same; empty for none."""
    stops = {(stop.tooth_upper, stop.tooth_lower) for stop in checkup.stops}
    pairs = [(mark.tooth_upper, mark.tooth_lower) for mark in marks]
    bare = [f"{upper}/{lower}" for upper, lower in pairs if (upper, lower) not in stops]
    if not bare:
        return ""
    return (
        f"No stop, marked all the same, for the gap is smaller than the foil is thick ({thick}):"
        f" {enumeration(bare)}."
    )


def _strip_group(mi: Sweep) -> CheckGroup:
    """Return at which upper teeth a shim strip is held, drags or slips in MI."""
    readings = strip_readings(mi)
    rows = []
    for reading, words in _STRIP.items():
        teeth = [code for code, read in readings.items() if read == reading]
        if teeth:
            told = ", ".join(_neighbours(mi.upper_codes, teeth))
            rows.append(CheckRow(words, "", f"at {told}", "", _MOUNTING))
    return CheckGroup("Shim strip in MI", "", "strip 8 µm, no colour", tuple(rows))


def _balanced_pairs(
    checkup: Checkup, judging: JudgingSettings, sweep: Sweep, marks: Sequence[FoilMark]
) -> frozenset[Pair]:
    """Return the pairs whose contact in an excursion is wanted for balance."""
    if judging.scheme == "balanced":
        return frozenset((mark.tooth_upper, mark.tooth_lower) for mark in marks)
    label = excursion_label(sweep.excursion)
    teeth = (
        (contact.tooth, contact.opponent)
        for contact in checkup.replacement
        if contact.scheme == "balanced"
        and contact.standing == "allowed by its scheme"
        and contact.excursion == label
    )
    return frozenset((a, b) if is_upper(a) else (b, a) for a, b in teeth)


def _turn(sweep: Sweep) -> float:
    """Return the place of an excursion in the sequence: straight to the side comes first."""
    return -abs(sweep.excursion.azimuth_deg) if abs(sweep.excursion.azimuth_deg) == 90.0 else 0.0


def _row(mark: FoilMark, differs: str, detail: str = "", between: str = "; ") -> CheckRow:
    """Return a line; `between` stands between the places of one tooth."""
    return CheckRow(
        f"{mark.tooth_upper}/{mark.tooth_lower}",
        detail,
        between.join(mark.on_upper),
        between.join(mark.on_lower),
        differs,
    )


def _excursion_group(
    sweep: Sweep, marks: Sequence[FoilMark], bare: str, balanced: Container[Pair]
) -> CheckGroup:
    edge = sweep.edge_to_edge_mm
    until = f"until edge-to-edge at {number(edge, 1)} mm" if edge is not None else ""
    note = ", ".join(word for word in (side_words(sweep.excursion), until) if word)
    foil = f"foil {tolerance(sweep.tolerance_mm)}, second colour"
    rows = tuple(_excursion_row(mark, balanced) for mark in marks)
    return CheckGroup(excursion_title(sweep.excursion), note, foil, rows, bare)


def _excursion_row(mark: FoilMark, balanced: Container[Pair]) -> CheckRow:
    """Return a line with the travel of a mark; nonworking contacts are named as such."""
    where = travel(mark.travel_from_mm, mark.travel_to_mm) + ", with breaks" * mark.broken
    side = "nonworking, " * (mark.role == "nonworking")
    differs = _SETTINGS if mark.role in _GUIDES else _CASTS_ONLY
    if differs == _CASTS_ONLY and (mark.tooth_upper, mark.tooth_lower) in balanced:
        differs = _BALANCE
    return _row(mark, differs, side + where, " → ")


def _unmarked_words(checkup: Checkup, marks: tuple[FoilMark, ...]) -> str:
    """Return the teeth without a mark, neighbours as "17 to 14"."""
    return ", ".join(
        words
        for arch in (checkup.upper, checkup.lower)
        for words in _neighbours(arch.codes, unmarked(arch.codes, marks))
    )


def _neighbours(codes: Sequence[int], chosen: Sequence[int]) -> Iterator[str]:
    """Yield the chosen among some teeth: each, or the ends of three and more in a row."""
    for is_chosen, row in groupby(codes, lambda code: code in chosen):
        if is_chosen:
            first, *rest = row
            if len(rest) > 1:
                yield f"{first} to {rest[-1]}"
            else:
                yield from map(str, (first, *rest))
