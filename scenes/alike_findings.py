"""Findings that say the same of other teeth: one is told in full, the others as rows of a table."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import takewhile
from typing import Final

from kinematics.planning.findings import Figure, Finding
from scenes import colours
from scenes.phrases import figure, number, pair, travel
from scenes.report_tables import Table
from scenes.share_words import ShownAt, ShownShare

#: So many alike are told in full; of more, the greatest alone.
_TOLD_IN_FULL: Final = 2
_NUMBER: Final = re.compile(r"(\d+(?:\.\d+)?)( µm)?")
_LENGTH: Final = re.compile(r"\d+(?:\.\d+)?(?: (?:mm|µm)\b)?")
_RANGE: Final = re.compile(r"from # to #")
#: What a tooth is called beside its number where it stands too high.
_REMARK: Final = "over-erupted "
_READ_AT: Final = re.compile(r"(?P<stem>.*?),? at (?P<at>\d+\.\d mm)(?P<rest>.*)")


@dataclass(frozen=True)
class Alike:
    """One finding that is told in full, and those that differ from it in teeth and numbers only."""

    told: Finding
    others: tuple[Finding, ...]


def alike(findings: Iterable[Finding], excursions: Iterable[str]) -> tuple[Alike, ...]:
    """Return findings with those like them; one or two of a kind stand alone.

    A finding becomes a row only where the row and the one told in full hold all its numbers.

    Parameters
    ----------
    findings : iterable of Finding
        Of one group, what is told in full first.
    excursions : iterable of str
        Names of excursions as they stand in sentences.
    """
    names = sorted(excursions, key=len, reverse=True)
    clusters: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        clusters.setdefault(_likeness(finding, names), []).append(finding)
    found = []
    for first, *others in clusters.values():
        rows = tuple(item for item in others if _is_all_told(item, first, names))
        if len(rows) < _TOLD_IN_FULL:
            rows = ()
        found.append(Alike(first, rows))
        found += [Alike(item, ()) for item in others if item not in rows]
    return tuple(found)


def _bare(text: str, excursions: Sequence[str]) -> str:
    """Return a text without the names of excursions and remarks about teeth."""
    for name in excursions:
        text = text.replace(name, "")
    return text.replace(_REMARK, "")


def _likeness(finding: Finding, excursions: Sequence[str]) -> tuple[object, ...]:
    """Return what two findings must share: words, names of figures, the limit, the surface."""
    return (
        _RANGE.sub("at #", _LENGTH.sub("#", _bare(finding.text, excursions))),
        tuple(_LENGTH.sub("#", item.name) for item in finding.figures),
        finding.threshold,
        finding.threshold_source,
        finding.determined,
        len(finding.together),
        finding.excursion is None,
        finding.surface,
    )


def _is_all_told(finding: Finding, first: Finding, excursions: Sequence[str]) -> bool:
    """Tell whether every number of a text is in its row, or the same in the text told in full."""
    own, other = (_NUMBER.findall(_bare(item.text, excursions)) for item in (finding, first))
    if len(own) != len(other):
        other = [("", "")] * len(own)
    values = [
        *(float(code) for teeth in _pairs(finding) for code in teeth if code),
        *(at for at in (finding.travel_from_mm, finding.travel_to_mm) if at is not None),
        *(item.value for item in finding.figures),
        *(float(said) for item in finding.figures for said, _ in _NUMBER.findall(item.name)),
    ]
    return all(
        said == before or any(_is_rounded(value, *said) for value in values)
        for said, before in zip(own, other, strict=True)
    )


def _is_rounded(value: float, digits: str, micrometres: str) -> bool:
    """Tell whether digits are a value, rounded to as many of them."""
    half = 0.5001 * 10.0 ** -len(digits.partition(".")[2])
    return abs((1e3 if micrometres else 1.0) * value - float(digits)) <= half


def _pairs(finding: Finding) -> tuple[tuple[int | None, int | None], ...]:
    return (finding.tooth_upper, finding.tooth_lower), *finding.together


def alike_table(findings: Sequence[Finding], titles: Mapping[str, str], sure: ShownAt) -> Table:
    """Return a row for each of some alike findings: everything in which they can differ.

    Parameters
    ----------
    findings : sequence of Finding
        All alike.
    titles : mapping of str to str
        Headings of the excursions by their labels.
    sure : callable
        Tells how often a finding holds where settings are uncertain.
    """
    read_at = [_read_at(item) for item in findings]
    columns = [("teeth", [_teeth(item) for item in findings])]
    if findings[0].excursion:
        columns.append(("excursion, travel", [_where(item, titles) for item in findings]))
    if all(read_at):
        columns.append(("read at", read_at))
    for own in zip(*(item.figures for item in findings), strict=True):
        columns.append(_column(own, said=all(read_at)))
    columns.append(("holds in, of samples", [_holds(sure(item)) for item in findings]))
    columns.append(("how near to the limit", [_margin(item.margin) for item in findings]))
    columns.append(
        (
            "runner-up",
            [
                item.runner_up.removeprefix(f"at {at} " if all(read_at) else "")
                for item, at in zip(findings, read_at, strict=True)
            ],
        )
    )
    columns.append(
        ("place, mm forward, left and up of the hinge axis", [_place(item) for item in findings])
    )
    shown = [(head, cells) for head, cells in columns if any(cells)]
    return Table(
        tuple(head for head, _ in shown), tuple(zip(*(cells for _, cells in shown), strict=True))
    )


def _read_at(finding: Finding) -> str:
    """Return the travel at which all figures of a finding were read; empty where they differ."""
    found = {_READ_AT.fullmatch(item.name) for item in finding.figures}
    at = {part["at"] for part in found if part}
    return at.pop() if len(at) == 1 else ""


def _teeth(finding: Finding) -> str:
    remarks = [code for code in re.findall(rf"{_REMARK}(\d\d)", finding.text)]
    told = " and ".join(filter(None, (pair(*teeth) for teeth in _pairs(finding))))
    remark = f", {', '.join(dict.fromkeys(remarks))} {_REMARK.strip()}" if remarks else ""
    return f"{colours.SEVERITY_SIGN[finding.severity]} {told}{remark}"


def _where(finding: Finding, titles: Mapping[str, str]) -> str:
    label = finding.excursion or ""
    way = travel(finding.travel_from_mm, finding.travel_to_mm)
    return f"{titles.get(label, label)}, {way}"


def _column(own: Sequence[Figure], said: bool) -> tuple[str, list[str]]:
    """Return the name of a figure, and in every cell its value; where it was read unless said."""
    parts = [_READ_AT.fullmatch(item.name) for item in own]
    stems = [
        found["stem"] + found["rest"] if found else item.name
        for found, item in zip(parts, own, strict=True)
    ]
    shared = _shared_words(stems)
    cells = []
    for item, stem, found in zip(own, stems, parts, strict=True):
        beside = [
            stem[len(shared) :].strip(" ,"),
            f"at {found['at']}" if found and not said else "",
        ]
        cells.append(", ".join([_value(item), *filter(None, beside)]))
    return shared.rstrip(" ,"), cells


def _shared_words(texts: Sequence[str]) -> str:
    """Return the words with which all texts begin."""
    words = zip(*(text.split(" ") for text in texts), strict=False)
    return " ".join(own[0] for own in takewhile(lambda own: len(set(own)) == 1, words))


def _value(item: Figure) -> str:
    return f"{number(item.value, 2)} N" if item.unit == "N/N" else figure(item)


def _holds(shown: ShownShare | None) -> str:
    return shown.short if shown else ""


def _margin(margin: Figure | None) -> str:
    return f"{figure(margin)} {margin.name}" if margin else ""


def _place(finding: Finding) -> str:
    return ", ".join(number(value, 1) for value in finding.place) if finding.place else ""
