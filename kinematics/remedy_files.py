"""What result files tell of remedies: entries of findings.json, and a table."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from kinematics.planning.findings import Finding
from kinematics.planning.remedies.found import Effect, Remedy, ToothRemedies
from kinematics.planning.remedies.pasted import pasted
from kinematics.table_cells import Row, numbers, pairs_cell, yes_no

REMEDIES_FILE: Final = "remedies.csv"
REMEDY_COLUMNS: Final = [
    "tooth", "distance_wanted_mm", "kind", "found", "amount", "unit", "resolution", "sought_up_to",
    "clears", "keeps_stops", "stops_lost", "stops_fewer", "stops_new", "cut_mm3", "added_mm3",
    "thickest_mm", "natural_teeth_cut", "findings_gone", "findings_new", "guides",
    "across_per_along_before", "across_per_along_after", "smallest", "reason", "entry",
]  # fmt: skip


def remedy_entries(remedies: Iterable[ToothRemedies]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of remedies, tooth by tooth."""
    return [
        {
            "tooth": item.tooth,
            "distance_wanted_mm": item.margin_mm,
            "flagged": [finding.text for finding in item.flagged],
            "note": item.note,
            "remedies": [_entry(remedy) for remedy in item.remedies],
            "smallest_by_volume": None if item.smallest is None else item.smallest.kind,
        }
        for item in remedies
    ]


def _entry(remedy: Remedy) -> Mapping[str, Any]:
    effect = remedy.effect
    return {
        "kind": remedy.kind,
        "is_found": remedy.is_found,
        "amount": remedy.amount if remedy.is_found else None,
        "unit": remedy.unit,
        "resolution": remedy.resolution,
        "sought_up_to": remedy.limit,
        "changes": remedy.changes,
        "adjustment": remedy.adjustment,
        "cut_mm3": remedy.cut_mm3,
        "added_mm3": remedy.added_mm3,
        "thickest_mm": remedy.thickest_mm,
        "natural_teeth_cut": remedy.natural_cut,
        "reason": remedy.reason,
        "effect": None if effect is None else _effect(effect),
    }


def _effect(effect: Effect) -> Mapping[str, Any]:
    return {
        "stops_kept": effect.stops_kept,
        "stops_lost": effect.stops_lost,
        "stops_new": effect.stops_new,
        "stops_fewer": effect.stops_fewer,
        "findings_gone": [finding.text for finding in effect.gone],
        "findings_new": [finding.text for finding in effect.new],
        "findings_changed": effect.changed,
        "guides": effect.loads,
    }


def remedy_rows(remedies: Iterable[ToothRemedies]) -> Iterator[Row]:
    """Yield one row for every kind of change of every tooth, or one with why none was sought."""
    for item in remedies:
        own = [str(item.tooth), *numbers(item.margin_mm)]
        if item.note:
            yield [*own, *[""] * 21, item.note, ""]
        for remedy in item.remedies:
            yield [*own, *_cells(remedy, remedy is item.smallest)]


def _cells(remedy: Remedy, smallest: bool) -> Row:
    found, effect = remedy.is_found, remedy.effect
    amounts = numbers(remedy.amount) if found else [""]
    weighed = numbers(remedy.cut_mm3, remedy.added_mm3, remedy.thickest_mm) if found else [""] * 3
    return [
        remedy.kind,
        yes_no(found),
        *amounts,
        remedy.unit,
        *numbers(remedy.resolution, remedy.limit),
        yes_no(found),
        yes_no(remedy.keeps_stops) if found else "",
        "" if effect is None else pairs_cell(effect.stops_lost),
        "" if effect is None else "; ".join(fewer.words for fewer in effect.stops_fewer),
        "" if effect is None else pairs_cell(effect.stops_new),
        *weighed,
        " ".join(map(str, remedy.natural_cut)),
        "" if effect is None else _kinds(effect.gone),
        "" if effect is None else _kinds(effect.new),
        *_load_cells(effect),
        yes_no(smallest),
        remedy.reason,
        pasted(remedy).replace("\n", "; "),
    ]


def _load_cells(effect: Effect | None) -> Row:
    loads = () if effect is None else effect.loads
    return [
        " ".join(str(load.tooth) for load in loads),
        *(
            " ".join("none" if value is None else numbers(value)[0] for value in values)
            for values in ([load.before for load in loads], [load.after for load in loads])
        ),
    ]


def _kinds(findings: Iterable[Finding]) -> str:
    return "; ".join(finding_in_short(finding) for finding in findings)


def finding_in_short(finding: Finding) -> str:
    """Return kind, teeth and excursion of a finding."""
    teeth = "/".join(str(code) for code in (finding.tooth_upper, finding.tooth_lower) if code)
    parts = [finding.kind, teeth, f"in {finding.excursion}" if finding.excursion else ""]
    return " ".join(part for part in parts if part)
