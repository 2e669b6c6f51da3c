"""What the records of a case cannot tell, as text: open statements, what is taken as exact."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from kinematics.checkup_result import Checkup
from kinematics.planning.centric_basis import CENTRIC_RECORDS, CentricBasis
from kinematics.planning.guidance_rivals import Rival
from kinematics.planning.judging import PUBLISHED_LIMITS, JudgingSettings
from kinematics.planning.record_doubts import (
    RECORDS,
    RecordDoubts,
    record_doubts,
    records_for,
)
from scenes import colours
from scenes.centric_words import basis_of
from scenes.finding_cards import lead
from scenes.phrases import length
from scenes.report_tables import Table, excursion_titles
from scenes.setting_tables import SettingRow

_RECORD_NAMES: Final = {
    "CR": "centric (CR)",
    "MI": "MI",
    "protrusion": "protrusive",
    "right lateral": "right lateral",
    "left lateral": "left lateral",
}
#: (What, in which respect) is taken as exact in every case.
_EXACT: Final = (
    (
        "The mounting",
        "where the casts sit to the hinge axis and to each other, in CR and in MI.",
    ),
    (
        "The settings",
        "condylar paths, side shift and incisal guide as they are given, each time the same,"
        " without play.",
    ),
    (
        "The surfaces",
        "no error of impression, stone, scan or wear since then is added to the teeth.",
    ),
    (
        "Rigid teeth",
        "no tooth yields in its socket, no base sinks into the mucosa, no jaw bends and no condyle"
        " leaves its path under load. In a mouth that bites harder, more teeth touch than here."
        " Only what is said of loads on replacement teeth lets teeth, bases and joints give way.",
    ),
)


#: What the scatter stands for where scans come without a record of centric relation.
_ASSUMED: Final = (
    "This case has no record of centric relation. The scatter of {scatter} that it reckons with"
    " (record_scatter_mm under [judging] of the case file) is no measurement of this patient: it"
    " stands for what such records usually differ by (0.33 to 0.44 mm between materials, Utz et"
    " al., J Oral Rehabil 2002;29:458-466), and with that for the error of mounting and guidance. A"
    " smaller number alone makes nothing more certain. To lower it, take two or three records of"
    " centric relation, give them as scans.centric_records, and set record_scatter_mm to the"
    " greatest difference that the report then tells; with a located hinge axis and records of the"
    " excursions the same is true of what guides."
)
#: Of casts that stand in MI as they were scanned.
_AS_SCANNED: Final = (
    " What is said of maximal intercuspation is left out of this: the casts stand there as they"
    " were scanned on each other, without a record between them; how far that bite is known stands"
    " under “Scans, mounting and bite”."
)


@dataclass(frozen=True)
class RecordLimits:
    """The part of the report that says what these records cannot tell.

    Attributes
    ----------
    scatter : str
        What scatter is reckoned with.
    open_statements, in_short : str
        How many verdicts and findings are open; the same with the scatter named.
    table : Table
        Each of them: how far from its limit, and which record would decide it; no rows where none
        is open.
    records : tuple of (str, str)
        Records that would decide them, and what each gives.
    exact : tuple of (str, str)
        What is taken as exact.
    defaults : tuple of (str, str)
        Group of settings, and those of them that stand at the value taken where nothing is given.
    published : tuple of str
        How well contacts are found again and how far mountings go wrong, with sources.
    """

    scatter: str
    open_statements: str
    in_short: str
    table: Table
    records: tuple[tuple[str, str], ...]
    exact: tuple[tuple[str, str], ...]
    defaults: tuple[tuple[str, str], ...]
    published: tuple[str, ...]


def record_limits(
    checkup: Checkup, judging: JudgingSettings, at_default: Sequence[SettingRow]
) -> RecordLimits:
    """Return what the records of a case cannot tell.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    judging : JudgingSettings
        The scatter of the records, and what contacts are judged by.
    at_default : sequence of SettingRow
        Settings of guidance and MI that stand at the value taken where nothing is given.
    """
    as_scanned = checkup.scans is not None and not checkup.scans.by_bite_record
    doubts = record_doubts(checkup.findings, checkup.sweeps, judging, bite_as_scanned=as_scanned)
    rows, keys = _open_rows(doubts, excursion_titles(checkup))
    head = ("what is open", "by how much, or what it could also be", "record that would decide it")
    basis = basis_of(checkup)
    records = {"CR": CENTRIC_RECORDS[basis], **RECORDS}
    return RecordLimits(
        scatter=f"{_scatter_words(doubts, basis)}{_AS_SCANNED if as_scanned else ''}",
        open_statements=_count_words(doubts, "With that scatter"),
        in_short=_count_words(doubts, _within_words(doubts, basis)),
        table=Table(head, rows),
        records=tuple((_RECORD_NAMES[key], text) for key, text in records.items() if key in keys),
        exact=_EXACT,
        defaults=_default_lines(at_default),
        published=PUBLISHED_LIMITS,
    )


def _within_words(doubts: RecordDoubts, basis: CentricBasis) -> str:
    scatter = length(doubts.scatter_mm)
    if doubts.is_set and basis == "assumed":
        return f"With the scatter of records that this case assumes, {scatter},"
    return f"With records that scatter by {scatter}"


def _scatter_words(doubts: RecordDoubts, basis: CentricBasis) -> str:
    scatter = length(doubts.scatter_mm)
    if doubts.is_set and basis == "assumed":
        return _ASSUMED.format(scatter=scatter)
    if doubts.is_set:
        return (
            f"The records of this case are set to scatter by {scatter} (record_scatter_mm under"
            " [judging] of the case file). What is decided by less is not determined by them."
        )
    return (
        "The records of this case are taken as exact, so nothing is marked as open for their"
        f" scatter. To show what rests on that, the usual scatter of recorded mountings, {scatter},"
        " is tried here."
    )


def _count_words(doubts: RecordDoubts, scattered: str) -> str:
    """Say how much is open, and out of how much."""
    are = "are" if doubts.is_set else "would be"
    verdicts = f"{len(doubts.verdicts)} of {doubts.judged_verdicts} verdicts on guidance"
    findings = "finding that calls" if doubts.graver_findings == 1 else "findings that call"
    near = f" and {len(doubts.near)} of {doubts.graver_findings} {findings} for attention"
    notes = f", besides {_notes(doubts.open_notes)}," if doubts.open_notes else ""
    if not (doubts.verdicts or doubts.near):
        return (
            f"{scattered} no verdict on guidance (of {doubts.judged_verdicts}) and no finding that"
            f" calls for attention (of {doubts.graver_findings}) {are} open{notes.rstrip(',')}."
        )
    near = near if doubts.graver_findings else ""
    return f"{scattered} {verdicts}{near}{notes} {are} open."


def _notes(count: int) -> str:
    return "one note" if count == 1 else f"{count} notes"


def _open_rows(
    doubts: RecordDoubts, titles: Mapping[str, str]
) -> tuple[tuple[tuple[str, str, str], ...], set[str]]:
    """Return a row for every open statement, and the keys of all records that would decide one."""
    used: set[str] = set()
    others = {item.excursion: _rival_words(item.rival) for item in doubts.verdicts}
    rows = []
    for label, other in others.items():
        keys = records_for(label)
        used |= {*keys}
        rows.append((f"what guides: {titles.get(label, label)}", other, _names(keys)))
    for item in doubts.near:
        finding, distance = item.finding, item.distance_mm
        keys = records_for(finding.excursion, finding.kind)
        used |= {*keys}
        by_kind = others.get(finding.excursion or "", "no limit in mm")
        apart = by_kind if distance is None else length(distance)
        sign = colours.SEVERITY_SIGN[finding.severity]
        what = f"{sign} {finding.severity}: {lead(finding.text)}"
        rows.append((what, apart, _names(keys)))
    return tuple(rows), used


def _rival_words(rival: Rival | None) -> str:
    return f"{rival.kind}: {rival.decided_by}" if rival else "too little travel to judge by"


def _names(keys: Sequence[str]) -> str:
    return ", ".join(_RECORD_NAMES[key] for key in keys)


def _default_lines(rows: Sequence[SettingRow]) -> tuple[tuple[str, str], ...]:
    """Return settings by group; where both sides hold the same, they are told once."""
    told = {
        group: ", ".join(f"{row.name} {row.shown}" for row in own)
        for group, own in groupby(rows, lambda row: row.group)
    }
    lines: dict[str, str] = {}
    for group, text in told.items():
        both = group.removesuffix(", right").removesuffix(", left")
        same = told.get(f"{both}, right") == told.get(f"{both}, left") == text
        lines[f"{both}, right and left" if same else group] = text
    return tuple(lines.items())
