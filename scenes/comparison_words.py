"""Two runs side by side in words: sentences, tables, and the summary for the screen."""

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.comparing.comparison import BiteChange, Comparison
from kinematics.comparing.matched_findings import FigureChange, MatchedFinding
from kinematics.planning.finding_groups import FindingGroup, finding_groups
from kinematics.planning.findings import SEVERITIES, Figure, Finding
from kinematics.planning.group_wording import group_sentence, kind_words
from kinematics.planning.judging import DentureBase
from kinematics.planning.matched_stops import MatchedStops
from kinematics.planning.wording import enumeration
from scenes import colours, phrases
from scenes.phrases import counted, length, number, pair
from scenes.report_tables import Table

#: Less than this is no change of height, mm: rounding.
_NOTHING_MM: Final = 5e-4
_NONE: Final = "–"


@dataclass(frozen=True)
class ToldFinding:
    """A finding that is gone, new or changed, in words.

    Attributes
    ----------
    heading : str
        Its severity, and how that has changed.
    text : str
        What was or is found.
    figures : tuple of str
        Figures that differ, before and after.
    """

    heading: str
    text: str
    figures: tuple[str, ...]


@dataclass(frozen=True)
class ToldGroup:
    """Findings with one cause, all gone, all new or all changed.

    Attributes
    ----------
    number : int
        By which pictures name them; 0 for notes, which they do not.
    severity, sign : str
        The gravest of them, before or after.
    plain : str
        What they are called in plain words.
    sentence : str
        All of them in one sentence.
    findings : tuple of ToldFinding
        Each of them.
    teeth : tuple of int
        Teeth that they name.
    """

    number: int
    severity: str
    sign: str
    plain: str
    sentence: str
    findings: tuple[ToldFinding, ...]
    teeth: tuple[int, ...]


@dataclass(frozen=True)
class FindingSection:
    """All findings of one state: those that call for attention, and notes."""

    state: str
    title: str
    told: tuple[ToldGroup, ...]
    notes: tuple[ToldGroup, ...]


_TITLES: Final = {
    "gone": "What is gone",
    "new": "What is new",
    "changed": "What has changed",
}


def finding_sections(
    comparison: Comparison, bases: Sequence[DentureBase] = ()
) -> tuple[FindingSection, ...]:
    """Return what is gone, new and changed, gravest first; numbered but for notes.

    Parameters
    ----------
    comparison : Comparison
        What is different.
    bases : sequence of DentureBase
        Denture bases of either case.
    """
    sections, count = [], 0
    for state, title in _TITLES.items():
        items = sorted(comparison.of_state(state), key=_gravity, reverse=True)
        told: list[ToldGroup] = []
        notes: list[ToldGroup] = []
        for group in finding_groups((item.told for item in items), bases):
            # One object of a finding stands for one item, equal ones may be several.
            own = [item for item in items if any(item.told is one for one in group.findings)]
            grave = max(map(_gravity, own)) > 0
            count += grave
            (told if grave else notes).append(_told(group, own, count if grave else 0))
        sections.append(FindingSection(state, title, tuple(told), tuple(notes)))
    return tuple(sections)


def _gravity(item: MatchedFinding) -> int:
    """Return how grave a finding is or was, whichever is graver; 0 for a note."""
    return max(SEVERITIES.index(one.severity) for one in (item.before, item.after) if one)


def _told(group: FindingGroup, items: Sequence[MatchedFinding], count: int) -> ToldGroup:
    severity = SEVERITIES[max(map(_gravity, items))]
    plain = kind_words(group.kind).plain
    return ToldGroup(
        count,
        severity,
        colours.SEVERITY_SIGN[severity],
        plain[0].upper() + plain[1:],
        group_sentence(group),
        tuple(_finding_words(item) for item in items),
        tuple(sorted({code for item in items for code in _teeth_of(item)})),
    )


def _finding_words(item: MatchedFinding) -> ToldFinding:
    heading: str = item.told.severity
    if item.before and item.after and item.severity_changed:
        heading = f"{item.before.severity} before, now {item.after.severity}"
    return ToldFinding(heading, item.told.text, tuple(map(_figure_words, item.figures)))


def _teeth_of(item: MatchedFinding) -> tuple[int, ...]:
    codes: set[int] = set()
    for one in (item.before, item.after):
        if one is not None:
            codes |= _named(one)
    return tuple(sorted(codes))


def _named(finding: Finding) -> set[int]:
    pairs = ((finding.tooth_upper, finding.tooth_lower), *finding.together)
    return {code for both in pairs for code in both if code}


def _figure_words(change: FigureChange) -> str:
    ends = [
        _NONE if value is None else phrases.figure(Figure(change.name, value, change.unit))
        for value in (change.before, change.after)
    ]
    return f"{change.name}: {ends[0]} before, {ends[1]} after"


def counts_sentence(comparison: Comparison) -> str:
    """Say how many findings are gone, new, changed and unchanged."""
    counts = {s: len(comparison.of_state(s)) for s in ("gone", "new", "changed", "unchanged")}
    if not any(counts[state] for state in _TITLES):
        same = counted(counts["unchanged"], "finding")
        return f"Nothing is gone, new or changed among the findings ({same} in both)."
    said = [f"{counts[state]} {state}" for state in counts]
    return f"Findings: {', '.join(said)}."


def is_same(comparison: Comparison) -> bool:
    """Tell whether two runs tell the same."""
    stops, bite = comparison.stops, comparison.bite
    return not (
        any(comparison.of_state(state) for state in _TITLES)
        or any(item.changed for item in comparison.verdicts)
        or stops.gone
        or stops.new
        or abs(bite.pin_mm) >= _NOTHING_MM
        or comparison.teeth_gone
        or comparison.teeth_new
    )


def teeth_sentence(comparison: Comparison) -> str:
    """Say which teeth only one of the runs has; empty where both have the same."""
    said = [
        f"{'tooth' if len(codes) == 1 else 'teeth'} {enumeration(codes)} only {when}"
        for codes, when in ((comparison.teeth_gone, "before"), (comparison.teeth_new, "after"))
        if codes
    ]
    if not said:
        return ""
    return f"Not the same teeth: {'; '.join(said)}. What rests on them is gone or new with them."


def bite_sentence(bite: BiteChange) -> str:
    """Say how the height of the bite has changed."""
    if abs(bite.pin_mm) < _NOTHING_MM:
        height = "The bite in maximal intercuspation is as high as before"
    else:
        way = "raised" if bite.pin_mm > 0.0 else "lowered"
        height = (
            f"The bite in maximal intercuspation is {way} by {length(abs(bite.pin_mm))} at the "
            f"lower incisal point, square to the reference plane (pin change "
            f"{'+' if bite.pin_mm > 0.0 else ''}{number(bite.pin_mm, 2)} mm); the jaw is "
            f"{'more' if bite.opening_deg > 0.0 else 'less'} open by "
            f"{number(abs(bite.opening_deg), 2)}° about the condyles"
        )
    aside = [
        f"{length(abs(value))} {ahead if value > 0.0 else back}"
        for value, ahead, back in (
            (bite.ahead_mm, "farther ahead", "farther back"),
            (bite.left_mm, "farther to the patient's left", "farther to the patient's right"),
        )
        if abs(value) >= _NOTHING_MM
    ]
    return f"{height}{'; the point lies ' + enumeration(aside) if aside else ''}."


def stops_sentence(stops: MatchedStops) -> str:
    """Say how many centric stops are gone, new and kept."""
    if not stops.gone and not stops.new:
        return f"All {counted(len(stops.kept), 'centric stop')} are kept, and none is new."
    return f"Centric stops: {len(stops.gone)} gone, {len(stops.new)} new, {len(stops.kept)} kept."


def stops_table(stops: MatchedStops) -> Table:
    """Return by pairs of teeth which stops are gone, new and kept."""
    pairs: dict[tuple[int, int], list[int]] = {}
    groups = (stops.gone, stops.new, tuple(one for one, _ in stops.kept))
    for column, group in enumerate(groups):
        for stop in group:
            counts = pairs.setdefault((stop.tooth_upper, stop.tooth_lower), [0, 0, 0])
            counts[column] += 1
    rows = [
        (pair(*teeth), *(str(count) if count else _NONE for count in counts))
        for teeth, counts in sorted(pairs.items())
        if counts[0] or counts[1]
    ]
    return Table(("upper/lower", "gone", "new", "kept"), tuple(rows))


def verdicts_table(comparison: Comparison, titles: Mapping[str, str]) -> Table:
    """Return what guides each excursion before and after."""
    rows = tuple(
        (
            titles.get(item.excursion, item.excursion),
            item.before or _NONE,
            item.after or _NONE,
            "changed" if item.changed else "as before",
        )
        for item in comparison.verdicts
    )
    return Table(("excursion", "guided before by", "guided after by", ""), rows)


def loads_table(comparison: Comparison, titles: Mapping[str, str]) -> Table | None:
    """Return the largest loads before and after; None where there are none."""
    if not comparison.loads:
        return None
    rows = tuple(
        (
            item.framework,
            titles.get(item.excursion, item.excursion),
            *(_NONE if n is None else f"{number(n, 1)} N" for n in (item.before_n, item.after_n)),
        )
        for item in comparison.loads
    )
    head = ("carried by", "excursion", "largest across its teeth before", "after")
    return Table(head, rows)


def comparison_summary(
    titles: Sequence[str], comparison: Comparison, bases: Sequence[DentureBase]
) -> str:
    """Return the summary for the screen; titles of both cases, denture bases of either."""
    return "\n".join(_summary_lines(titles, comparison, bases))


def _summary_lines(
    titles: Sequence[str], comparison: Comparison, bases: Sequence[DentureBase]
) -> Iterator[str]:
    yield f"Before: {titles[0]}"
    yield f"After:  {titles[1]}"
    yield ""
    if is_same(comparison):
        yield "Nothing differs: findings, guidance, centric stops and height of the bite are alike."
        return
    if teeth := teeth_sentence(comparison):
        yield teeth
    yield counts_sentence(comparison)
    for section in finding_sections(comparison, bases):
        for group in section.told:
            said = f"{group.severity}: {group.plain}. {group.sentence}"
            yield textwrap.fill(
                said, 96, initial_indent=f"  {section.state:9}", subsequent_indent=" " * 11
            )
    yield textwrap.fill(bite_sentence(comparison.bite), 96)
    yield stops_sentence(comparison.stops)
    for verdict in comparison.verdicts:
        if verdict.changed:
            kinds = [kind or "nothing told" for kind in (verdict.before, verdict.after)]
            yield f"Guidance in {verdict.excursion}: {kinds[0]} before, {kinds[1]} after."
