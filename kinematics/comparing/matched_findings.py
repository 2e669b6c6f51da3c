"""Which findings of two runs are about the same thing, and how they differ."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from kinematics.planning.findings import Figure, Finding
from kinematics.planning.same_findings import about, partners

State = Literal["gone", "new", "changed", "unchanged"]
STATES: Final[tuple[State, ...]] = ("gone", "new", "changed", "unchanged")

#: Figures that differ by no more are told alike: one of the last digit that a report shows, which
#: rounding can change. Chosen for this program.
SAME_WITHIN: Final = {"mm": 0.01, "deg": 0.1, "um": 1.0, "mm2": 0.01, "N": 1.0, "N/N": 0.01}
_ELSE_WITHIN: Final = 0.01
#: Where along an excursion a figure was read, in its name: it may be read elsewhere afterwards.
_READ_AT: Final = re.compile(r" at \d+\.\d+ mm")


@dataclass(frozen=True)
class FigureChange:
    """One figure of a finding, before and after; None where it has none of that name."""

    name: str
    unit: str
    before: float | None
    after: float | None


@dataclass(frozen=True)
class MatchedFinding:
    """One finding of either run, or the same of both.

    Attributes
    ----------
    state : {"gone", "new", "changed", "unchanged"}
        Unchanged: the same severity, and no figure that a report would show otherwise.
    before, after : Finding or None
        As each run tells it.
    figures : tuple of FigureChange
        The figures that differ; none where the finding is gone or new.
    """

    state: State
    before: Finding | None
    after: Finding | None
    figures: tuple[FigureChange, ...] = ()

    @property
    def told(self) -> Finding:
        """The finding as it is after, or as it was."""
        found = self.after or self.before
        assert found is not None
        return found

    @property
    def severity_changed(self) -> bool:
        """Whether both runs tell it, with another severity each."""
        if self.before is None or self.after is None:
            return False
        return self.before.severity != self.after.severity


def matched_findings(
    before: Sequence[Finding], after: Sequence[Finding]
) -> tuple[MatchedFinding, ...]:
    """Match findings by what they are about: kind, excursion and teeth.

    What is about the very same teeth is matched first, in the order of the runs; then what has
    teeth in common, the most first. Severity and figures may differ.

    Returns
    -------
    tuple of MatchedFinding
        Gone, new, changed, unchanged; each in the order of its run.
    """
    partner = partners([about(one) for one in before], [about(one) for one in after])
    found = [MatchedFinding("gone", one, None) for i, one in enumerate(before) if i not in partner]
    taken = set(partner.values())
    found += [MatchedFinding("new", None, one) for j, one in enumerate(after) if j not in taken]
    both = [_of_both(before[i], after[j]) for i, j in sorted(partner.items(), key=lambda p: p[1])]
    return tuple(sorted([*found, *both], key=lambda item: STATES.index(item.state)))


def _of_both(before: Finding, after: Finding) -> MatchedFinding:
    figures = tuple(_differing(_figures_of(before), _figures_of(after)))
    alike = (
        before.severity == after.severity
        and before.determined == after.determined
        and about(before) == about(after)
        and not figures
    )
    return MatchedFinding("unchanged" if alike else "changed", before, after, figures)


def _figures_of(finding: Finding) -> dict[str, Figure]:
    """Return the figures of a finding by their names, its travel among them."""
    travel = {
        "from": finding.travel_from_mm,
        "to": finding.travel_to_mm,
    }
    ends = [
        Figure(f"travel {end}", value, "mm") for end, value in travel.items() if value is not None
    ]
    bare = [_READ_AT.sub("", item.name) for item in finding.figures]
    names = [
        name if bare.count(name) == 1 else item.name
        for name, item in zip(bare, finding.figures, strict=True)
    ]
    return dict(zip(names, finding.figures, strict=True)) | {item.name: item for item in ends}


def _differing(before: dict[str, Figure], after: dict[str, Figure]) -> Iterable[FigureChange]:
    """Yield the figures that one of two has alone, or that differ by more than is shown."""
    for name in dict.fromkeys([*before, *after]):
        ends = before.get(name), after.get(name)
        values = [None if end is None else end.value for end in ends]
        unit = next(end.unit for end in ends if end is not None)
        if None not in values:
            one, other = (value for value in values if value is not None)
            if abs(one - other) <= SAME_WITHIN.get(unit, _ELSE_WITHIN):
                continue
        yield FigureChange(name, unit, values[0], values[1])
