"""Which share of a study belongs to which finding of a whole run."""

from collections.abc import Sequence
from typing import Final

from kinematics.planning.findings import Finding
from kinematics.uncertainty.found import FindingShare, Uncertainty

#: Findings that do not hold as set are told if they hold in this share of samples. Chosen for this
#: program: the rest of the 95 % that settle a finding.
TOLD_FROM: Final = 0.05

_Pair = tuple[int | None, int | None]


def matched_shares(
    findings: Sequence[Finding], studied: Uncertainty | None
) -> dict[Finding, FindingShare]:
    """Return the shares of those findings that were studied.

    A share of the very same kind, excursion and teeth belongs to a finding; if there is none, that
    which has most teeth in common with it: between two poses a whole run can find a pair more.

    Parameters
    ----------
    findings : sequence of Finding
        Of a whole run.
    studied : Uncertainty or None
        The study; None: there was none.
    """
    shares = () if studied is None else studied.findings
    found = ((finding, _share_of(finding, shares)) for finding in findings)
    return {finding: share for finding, share in found if share is not None}


def not_as_set(findings: Sequence[Finding], studied: Uncertainty) -> tuple[FindingShare, ...]:
    """Return what does not hold with the settings as they are, but in some samples.

    What belongs to one of the findings is left out. Most samples first.
    """
    own = tuple(matched_shares(findings, studied).values())
    others = (item for item in studied.findings if item.as_set is None and item not in own)
    return tuple(sorted(others, key=lambda item: -item.holds.share))


def pairs_of(finding: Finding) -> tuple[_Pair, ...]:
    """Return all tooth pairs of which a finding is true; none where it names no tooth."""
    pairs = ((finding.tooth_upper, finding.tooth_lower), *finding.together)
    return tuple(pair for pair in pairs if any(pair))


def _share_of(finding: Finding, shares: Sequence[FindingShare]) -> FindingShare | None:
    alike = [
        share
        for share in shares
        if (share.kind, share.excursion) == (finding.kind, finding.excursion)
    ]
    own = set(pairs_of(finding))
    for share in alike:
        if _pairs(share) == own:
            return share
    nearest = max(alike, key=lambda share: len(_pairs(share) & own), default=None)
    return nearest if nearest is not None and _pairs(nearest) & own else None


def _pairs(share: FindingShare) -> set[_Pair]:
    return {pair for pair in share.pairs if any(pair)}
