"""The summary for the screen: what a person wants to read first, without the figures."""

import re
import textwrap
from collections import Counter
from collections.abc import Sequence

from kinematics.case import Case
from kinematics.checkup_result import Checkup
from kinematics.planning.articulation import Verdict
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.findings import SEVERITIES, Finding
from kinematics.planning.group_wording import group_sentence
from kinematics.planning.plausibility import implausible_settings
from kinematics.result_texts import CAUTION
from scenes.load_words import framework_loads
from scenes.phrases import UNDETERMINED, length, severity_count
from scenes.planned_in_short import planned_in_short
from scenes.replaced_in_short import replaced_in_short
from scenes.report_tables import excursion_titles
from scenes.uncertainty_words import sure_in_short


def _paragraph(text: str, first: str = "", indent: str = "") -> str:
    text = "".join(letter if letter.isprintable() else " " for letter in text)
    return textwrap.fill(text, 96, initial_indent=first, subsequent_indent=indent)


def _count_words(findings: Sequence[Finding]) -> str:
    counts = Counter(finding.severity for finding in findings)
    words = [severity_count(s, counts[s]) for s in reversed(SEVERITIES) if counts[s]]
    return ", ".join(words) or "none"


def _statement(text: str, determined: bool) -> str:
    """Return the first sentence, and whether the records decide it."""
    first = re.split(r"(?<=\.) (?=[A-Z])", text, maxsplit=1)[0]
    return first if determined else f"{first} ({UNDETERMINED})"


def _guided(verdict: Verdict) -> str:
    """Return what guides, and the nearest other kind that the records do not exclude."""
    if verdict.rival is None:
        return _statement(verdict.text, verdict.determined)
    other = verdict.rival.in_short
    return f"{_statement(verdict.text, determined=True)} {other[0].upper()}{other[1:]}."


def _guided_head(case: Case, checkup: Checkup) -> str:
    head = "What guides" if checkup.raised is None else "What guides the present bite"
    if any(verdict.rival for verdict in checkup.verdicts):
        scatter = length(case.judging.record_scatter_mm)
        head += f" (what it could also be lies within the {scatter} scatter of records)"
    return head


def _load_lines(checkup: Checkup) -> list[str]:
    """Return the largest load across the teeth of each base, bridge and splint; a line for each."""
    told = framework_loads(checkup.loads, excursion_titles(checkup))
    if not told:
        return []
    head = (
        "Largest push across the teeth, for every 100 N of closing force (in brackets the range"
        " over force tilt and mucosa)"
    )
    lines = ["", *_paragraph(head).split("\n")]
    for part in told:
        lines.append(_paragraph(part.in_short, "  ", " " * 6))
        lines += [
            _paragraph(f"{words}.", "      caution: ", " " * 15) for words in part.warnings[:-1]
        ]
    return lines


def summary(case: Case, checkup: Checkup) -> str:
    """Return every verdict and graver group of findings in a sentence; notes are only counted."""
    titles = excursion_titles(checkup)
    lines = [_paragraph(case.title)]
    if case.note:
        lines.append(_paragraph(case.note))
    doubts = implausible_settings(case.guidance)
    lines += [_paragraph(doubt, "  caution    ", " " * 13) for doubt in doubts]
    if checkup.doubts is not None:
        lines += ["", "What the findings rest on"]
        lines += [
            _paragraph(f"{line.name}: {line.text}; {line.meaning}.", "  ", " " * 6)
            for line in checkup.doubts.quality.lines
        ]
    lines += ["", _guided_head(case, checkup)]
    lines += [
        _paragraph(
            f"{titles.get(verdict.excursion, verdict.excursion)}: " + _guided(verdict),
            "  ",
            " " * 6,
        )
        for verdict in checkup.verdicts
    ]
    # Notes are for the report; here they would bury the rest.
    groups = finding_groups(checkup.findings, case.denture_bases)
    groups = tuple(group for group in groups if group.severity != "note")
    grave = sum(finding.severity != "note" for finding in checkup.findings)
    once = "; those with one cause are told once" if len(groups) < grave else ""
    lines += ["", f"Findings: {_count_words(checkup.findings)}{once}"]
    lines += [
        _paragraph(
            _statement(group_sentence(group), group.determined), f"  {group.severity:9}  ", " " * 13
        )
        for group in groups
    ]
    sure = [_paragraph(line, "  ", " " * 6) for line in sure_in_short(checkup.uncertainty)]
    lines += ["", "How sure", *sure] if sure else []
    lines += _load_lines(checkup)
    replaced = [_paragraph(f"{line}.", "  ", " " * 6) for line in replaced_in_short(checkup)]
    lines += ["", "Replaced teeth", *replaced] if replaced else []
    planned = [_paragraph(line, "  ", " " * 6) for line in planned_in_short(case, checkup)]
    lines += ["", "Plan", *planned] if planned else []
    lines += ["", _paragraph(CAUTION)]
    return "\n".join(lines)
