"""Which share of a study belongs to which finding of a whole run."""

from collections.abc import Sequence
from typing import Final

from kinematics.planning.findings import Finding
from kinematics.planning.same_findings import About, about, partners
from kinematics.uncertainty.found import FindingShare, Uncertainty

#: Findings that do not hold as set are told if they hold in this share of samples. Chosen for this
#: program: the rest of the 95 % that settle a finding.
TOLD_FROM: Final = 0.05


def matched_shares(
    findings: Sequence[Finding], studied: Uncertainty | None
) -> dict[Finding, FindingShare]:
    """Return the shares of those findings that were studied.

    They are matched as two runs are: between two poses a whole run can find a pair of teeth more.

    Parameters
    ----------
    findings : sequence of Finding
        Of a whole run.
    studied : Uncertainty or None
        The study; None: there was none.
    """
    shares = () if studied is None else studied.findings
    told = [About(share.kind, share.excursion, frozenset(share.pairs)) for share in shares]
    matched = partners([about(finding) for finding in findings], told)
    return {findings[place]: shares[mine] for place, mine in matched.items()}


def not_as_set(findings: Sequence[Finding], studied: Uncertainty) -> tuple[FindingShare, ...]:
    """Return what does not hold with the settings as they are, but in some samples.

    What belongs to one of the findings is left out. Most samples first.
    """
    own = tuple(matched_shares(findings, studied).values())
    others = (item for item in studied.findings if item.as_set is None and item not in own)
    return tuple(sorted(others, key=lambda item: -item.holds.share))
