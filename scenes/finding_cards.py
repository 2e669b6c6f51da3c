"""Findings as text: everything each says about itself, and how many there are."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from kinematics.planning.findings import SEVERITIES, Figure, Finding
from scenes import colours
from scenes.phrases import figure, pair, place_words, severity_count, travel
from scenes.share_words import ShownShare

#: Where a first clause ends, but for what stands in brackets.
_CLAUSE_ENDS: Final = re.compile(r"[;.] (?![^()]*\))")
#: Names of components, and of what they are where they are negative.
_OPPOSITE: Final = {"forward": "backward", "to the left": "to the right", "upward": "downward"}
#: Sources up to this many letters stand with each finding.
_SHORT_SOURCE: Final = 60


@dataclass(frozen=True)
class FindingCard:
    """One finding as text; `lead` is its first clause, `details` are (name, text) pairs.

    `sure` tells how often it holds where settings are uncertain; None where that was not studied.
    """

    severity: str
    sign: str
    text: str
    lead: str
    teeth: str
    where: str
    details: tuple[tuple[str, str], ...]
    determined: bool
    sure: ShownShare | None = None


def long_sources(findings: Iterable[Finding]) -> dict[str, int]:
    """Return numbers for the sources too long to be repeated with every finding."""
    sources = dict.fromkeys(finding.threshold_source for finding in findings)
    long = [source for source in sources if len(source) > _SHORT_SOURCE]
    return {source: number for number, source in enumerate(long, start=1)}


def finding_card(
    finding: Finding,
    titles: Mapping[str, str],
    sources: Mapping[str, int],
    sure: ShownShare | None = None,
) -> FindingCard:
    """Return everything a finding says about itself, in words.

    Parameters
    ----------
    finding : Finding
        What was found.
    titles : mapping of str to str
        As in the other tables.
    sources : mapping of str to int
        Sources that are told elsewhere, under a number.
    sure : ShownShare, optional
        How often it holds where settings are uncertain.
    """
    details = [("surface", finding.surface)] if finding.surface else []
    details += [(item.name, figure(item)) for item in map(_without_sign, finding.figures)]
    source = finding.threshold_source
    if source in sources:
        source = f"source {sources[source]}"
    if finding.threshold is not None:
        limit = figure(finding.threshold) + (f" ({source})" if source else "")
        details.append((f"compared with {finding.threshold.name}", limit))
    elif source:
        details.append(("rule from", source))
    if finding.margin is not None:
        details.append(("how near", f"{figure(finding.margin)} {finding.margin.name}"))
    if finding.runner_up:
        details.append(("runner-up", finding.runner_up))
    if finding.place is not None:
        details.append(("place", place_words(finding.place)))
    excursion = finding.excursion or ""
    where = [titles.get(excursion, excursion), travel(finding.travel_from_mm, finding.travel_to_mm)]
    return FindingCard(
        finding.severity,
        colours.SEVERITY_SIGN[finding.severity],
        finding.text,
        lead(finding.text),
        _teeth(finding),
        ", ".join(word for word in where if word),
        tuple(details),
        finding.determined,
        sure,
    )


def _without_sign(item: Figure) -> Figure:
    """Return a component with its direction in words, as sentences tell it; others as they are."""
    if item.value < 0.0 and item.name in _OPPOSITE:
        return Figure(_OPPOSITE[item.name], -item.value, item.unit)
    return item


def _teeth(finding: Finding) -> str:
    """Return every tooth pair of which a finding is true."""
    pairs = (finding.tooth_upper, finding.tooth_lower), *finding.together
    return " and ".join(filter(None, (pair(*teeth) for teeth in pairs)))


def lead(text: str) -> str:
    """Return the first clause of a statement, for the first page; the rest stands below."""
    clauses = _CLAUSE_ENDS.split(text, maxsplit=1)
    return clauses[0] + "." if len(clauses) > 1 else text


def severity_counts(findings: Iterable[Finding]) -> tuple[tuple[str, str, str], ...]:
    """Return (severity, sign, how many in words), gravest first."""
    found = [finding.severity for finding in findings]
    return tuple(
        (name, colours.SEVERITY_SIGN[name], severity_count(name, found.count(name)))
        for name in reversed(SEVERITIES)
    )
