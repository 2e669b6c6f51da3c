"""Which findings have one cause: the same kind at the same teeth or base, in several excursions.

Interferences of one kind at many teeth have one cause too: what should guide does not.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.findings import SEVERITIES, Finding, Severity
from kinematics.planning.judging import DentureBase
from kinematics.tooth_codes import is_upper

REPLACEMENT_TOUCHES: Final = "replacement tooth touches"
REPLACEMENT_NEAR: Final = "replacement tooth comes near"
#: Kinds of which every base with replacement teeth makes one group.
_BY_BASE: Final = (REPLACEMENT_TOUCHES, REPLACEMENT_NEAR)
#: Kinds of which the same teeth make one group; all others make one group each.
_BY_TEETH: Final = (
    "nonworking interference",
    "nonworking contact",
    "working interference",
    "protrusive interference",
    "interference",
)

#: Kinds of which every finding stands alone: each speaks of many teeth in one movement.
_ALONE: Final = ("marks differ from the casts",)

#: More pairs of teeth than this with one kind of interference make one group.
MOST_APART: Final = 2

#: Kinds of which the gravest is that with the least (1) or greatest (-1) figure of this name.
_WORST_BY: Final = {
    REPLACEMENT_NEAR: ("least distance", 1.0),
    "stops off the axis": ("least angle of the stops", -1.0),
}

_Key = tuple[str, bool, tuple[object, ...]]


@dataclass(frozen=True)
class FindingGroup:
    """Findings with one cause.

    Attributes
    ----------
    kind : str
        The kind of all of them.
    findings : tuple of Finding
        Gravest first: in the order in which they came, near misses and stops off the axis by
        their figure.
    base : DentureBase or None
        The base whose replacement teeth they speak of.
    """

    kind: str
    findings: tuple[Finding, ...]
    base: DentureBase | None = None

    @property
    def severity(self) -> Severity:
        """That of the gravest."""
        return self.findings[0].severity

    @property
    def determined(self) -> bool:
        """Whether the records decide the gravest."""
        return self.findings[0].determined

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """Upper and lower teeth that are named, each pair once; 0 stands for no tooth."""
        found = (pair for finding in self.findings for pair in _pairs(finding))
        return tuple(dict.fromkeys(pair for pair in found if any(pair)))

    @property
    def teeth(self) -> tuple[int, ...]:
        """ISO 3950 numbers of all teeth that are named, each once, ascending."""
        return tuple(sorted({code for pair in self.pairs for code in pair if code}))

    @property
    def spoken_of(self) -> tuple[int, ...]:
        """Those of them that it speaks of, not only as what others meet, ascending."""
        found = (
            (finding.about,)
            if finding.about
            else [code for pair in _pairs(finding) for code in pair]
            for finding in self.findings
        )
        return tuple(sorted({code for codes in found for code in codes if code}))

    @property
    def excursions(self) -> tuple[str, ...]:
        """Labels of the excursions, each once; none in MI and CR."""
        return tuple(dict.fromkeys(item.excursion for item in self.findings if item.excursion))


def finding_groups(
    findings: Iterable[Finding], bases: Sequence[DentureBase] = ()
) -> tuple[FindingGroup, ...]:
    """Put every finding into exactly one group; notes never stand among graver findings.

    Parameters
    ----------
    findings : iterable of Finding
        Gravest first.
    bases : sequence of DentureBase
        Denture bases of the case; a replacement tooth on none of them makes groups by its pair.

    Returns
    -------
    tuple of FindingGroup
        In the order of the gravest finding of each.
    """
    findings = tuple(findings)
    members: dict[_Key, list[Finding]] = {}
    base_of: dict[_Key, DentureBase | None] = {}
    many = _at_many_teeth(findings)
    for finding in findings:
        base = _base(finding, bases)
        note = finding.severity == "note"
        key = finding.kind, note, () if (finding.kind, note) in many else _cause(finding, base)
        members.setdefault(key, []).append(finding)
        base_of[key] = base
    return tuple(
        FindingGroup(key[0], tuple(sorted(own, key=_order)), base_of[key])
        for key, own in members.items()
    )


def _at_many_teeth(findings: Sequence[Finding]) -> set[tuple[str, bool]]:
    """Return the kinds of interference, of notes and of graver findings, told as one group."""
    pairs: dict[tuple[str, bool], set[tuple[int, int]]] = {}
    for finding in findings:
        if finding.kind in _BY_TEETH:
            kind = finding.kind, finding.severity == "note"
            pairs.setdefault(kind, set()).update(_pairs(finding))
    return {kind for kind, found in pairs.items() if len(found) > MOST_APART}


def _order(finding: Finding) -> tuple[int, float]:
    """Return what orders findings within a group; equals keep their order."""
    name, sign = _WORST_BY.get(finding.kind, ("", 0.0))
    figures = (sign * item.value for item in finding.figures if name and item.name.startswith(name))
    return -SEVERITIES.index(finding.severity), min(figures, default=0.0)


def _pairs(finding: Finding) -> tuple[tuple[int, int], ...]:
    return (finding.tooth_upper or 0, finding.tooth_lower or 0), *finding.together


def _cause(finding: Finding, base: DentureBase | None) -> tuple[object, ...]:
    if base is not None:
        return (base.name, *base.teeth)
    if finding.kind in _ALONE:
        return (finding.text,)
    by_teeth = finding.kind in (*_BY_BASE, *_BY_TEETH)
    return tuple(sorted(_pairs(finding))) if by_teeth else ()


def _base(finding: Finding, bases: Sequence[DentureBase]) -> DentureBase | None:
    if finding.kind not in _BY_BASE:
        return None
    own = {code for pair in _pairs(finding) for code in pair}
    return next((base for base in bases if own & set(base.teeth)), None)


def sides_of(group: FindingGroup) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return the teeth of a group that stand on its base, and those that meet them.

    Without a base: those spoken of, and those they meet; if all are spoken of, upper and lower.
    """
    codes = group.teeth
    held = set(group.base.teeth if group.base else group.spoken_of)
    if held.issuperset(codes):
        held = {code for code in codes if is_upper(code)}
    return (
        tuple(code for code in codes if code in held),
        tuple(code for code in codes if code not in held),
    )
