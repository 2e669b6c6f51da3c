"""What a finding is: a statement about the case with its severity and its evidence."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from kinematics.conventions import TOLD_IF_SET

Severity = Literal["note", "attention", "serious"]

#: From the least to the gravest.
SEVERITIES: tuple[Severity, ...] = ("note", "attention", "serious")


@dataclass(frozen=True)
class Figure:
    """A number with its name and unit ("mm", "deg", "N/N", "um", "")."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True)
class Finding:
    """One statement with everything needed to check it.

    Attributes
    ----------
    kind : str
        Stable name of the rule, e.g. "nonworking interference".
    severity : str
        "note", "attention" or "serious".
    text : str
        One plain sentence that stands alone.
    excursion : str or None
        Name of the excursion; None for MI and CR.
    travel_from_mm, travel_to_mm : float or None
        Range of travel in which it holds.
    tooth_upper, tooth_lower : int or None
        ISO 3950 numbers.
    place : tuple of float or None
        Point in the hinge frame, mm.
    figures : tuple of Figure
        The numbers behind the statement.
    threshold : Figure or None
        What the deciding figure was compared with.
    threshold_source : str
        Where the threshold comes from.
    margin : Figure or None
        How far the deciding figure lies from the threshold.
    runner_up : str
        What would touch next, in words with its arc gap; empty where it does not apply.
    determined : bool
        False where the difference that decides is below the scatter of the records.
    together : tuple of (int, int)
        Further tooth pairs, upper and lower, of which the same is true.
    surface : str
        A sentence about the scanned surface at its contact, where that is doubtful; else empty.
    about : int or None
        Which of two teeth is spoken of, where the other is named only as what it meets.
    """

    kind: str
    severity: Severity
    text: str
    excursion: str | None = None
    travel_from_mm: float | None = None
    travel_to_mm: float | None = None
    tooth_upper: int | None = None
    tooth_lower: int | None = None
    place: tuple[float, float, float] | None = None
    figures: tuple[Figure, ...] = ()
    threshold: Figure | None = None
    threshold_source: str = ""
    margin: Figure | None = None
    runner_up: str = ""
    determined: bool = True
    together: tuple[tuple[int, int], ...] = ()
    surface: str = field(default="", metadata=TOLD_IF_SET)
    about: int | None = field(default=None, metadata=TOLD_IF_SET)


@dataclass(frozen=True)
class Weighed:
    """A finding with what orders it among those of its severity.

    Attributes
    ----------
    finding : Finding
        What is found.
    held_open_mm : float
        How far it holds other teeth open; inf where nothing else would meet.
    near_miss : bool
        True where teeth only come near, or meet only next to MI or CR.
    """

    finding: Finding
    held_open_mm: float = 0.0
    near_miss: bool = False


def gravest_first(weighed: Iterable[Weighed]) -> tuple[Finding, ...]:
    """Return findings from serious to note; in each severity what matters most comes first.

    That is what holds most open, to a micrometre; then what touches before what comes near, what
    the records determine before what they do not, and what lasts over more travel. Equals keep
    their order.
    """
    return tuple(item.finding for item in sorted(weighed, key=_order))


def _order(item: Weighed) -> tuple[int, float, bool, bool, float]:
    finding = item.finding
    start, end = finding.travel_from_mm, finding.travel_to_mm
    travel = 0.0 if start is None or end is None else round(end - start, 3)
    severity = SEVERITIES.index(finding.severity)
    held = round(item.held_open_mm, 3)
    return -severity, -held, item.near_miss, not finding.determined, -travel


def first_of_severity(findings: Iterable[Finding], more: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings, gravest first, with some put before all others of their severity."""
    both = (*more, *findings)
    return tuple(sorted(both, key=lambda finding: -SEVERITIES.index(finding.severity)))


def margin_to(value: float, threshold: Figure) -> Figure:
    """Return how far a figure lies from its threshold, and on which side, never negative."""
    side = "above the threshold" if value >= threshold.value else "below the threshold"
    return Figure(side, abs(value - threshold.value), threshold.unit)


def told_apart(scatter_mm: float, *differences_mm: float) -> bool:
    """Tell whether one of some differences is at least the scatter of the records."""
    return any(abs(difference) >= scatter_mm for difference in differences_mm)
