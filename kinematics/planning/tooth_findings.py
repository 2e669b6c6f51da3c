"""Findings about one tooth: how a table of rules and a place in the mouth become a finding."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from kinematics.planning.contact_runs import point_of
from kinematics.planning.findings import Figure, Finding, Severity
from kinematics.planning.occlusion import Occlusion, centre_of
from kinematics.planning.wording import sentence
from kinematics.tooth_codes import is_upper

KindT = TypeVar("KindT", bound=str)


@dataclass(frozen=True)
class FindingRule(Generic[KindT]):
    """One row of a table of rules, printed in the report as it stands.

    Attributes
    ----------
    kind : str
        Name of the finding.
    severity : str
        "note", "attention" or "serious".
    text : str
        When it applies.
    source : str
        Where that comes from.
    """

    kind: KindT
    severity: Severity
    text: str
    source: str


def rule_for(rules: Iterable[FindingRule[KindT]], kind: KindT) -> FindingRule[KindT]:
    """Return the row of a kind of finding."""
    return next(rule for rule in rules if rule.kind == kind)


def upper_and_lower(tooth: int, other: int = 0) -> tuple[int | None, int | None]:
    """Return a tooth and what it meets in the other arch (0: none), the upper first."""
    pair = (tooth, other or None)
    return pair if is_upper(tooth) else pair[::-1]


def tooth_finding(
    occlusion: Occlusion,
    rule: FindingRule[KindT],
    text: str,
    *,
    tooth: int | None = None,
    opponent: int = 0,
    place: tuple[float, float, float] | None = None,
    figures: tuple[Figure, ...] = (),
    threshold: Figure | None = None,
    margin: Figure | None = None,
    determined: bool = True,
) -> Finding:
    """Return a finding about a tooth, at the middle of its crown in MI; or about no tooth.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    rule : FindingRule
        What kind of finding it is, how grave, and why.
    text : str
        What is said; it is made a sentence.
    tooth, opponent : int
        ISO 3950 numbers of the tooth spoken of and of what it meets; None or 0 where there is none.
    place : tuple of float, optional
        Point in the hinge frame, mm, where it is not the middle of the crown.
    figures, threshold, margin, determined
        As in `Finding`.
    """
    upper, lower = (None, None) if tooth is None else upper_and_lower(tooth, opponent)
    if tooth is not None and place is None:
        place = point_of(centre_of(occlusion, tooth, occlusion.casts.mi_pose))
    return Finding(
        kind=rule.kind,
        severity=rule.severity,
        text=sentence(text),
        tooth_upper=upper,
        tooth_lower=lower,
        place=place,
        figures=figures,
        threshold=threshold,
        threshold_source=rule.source,
        margin=margin,
        determined=determined,
        about=tooth if opponent else None,
    )
