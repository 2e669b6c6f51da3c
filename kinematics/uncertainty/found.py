"""What a study of uncertain settings found: how often each finding holds, and what decides it."""

from dataclasses import dataclass
from typing import Literal

from kinematics.planning.findings import Severity

Settled = Literal["holds", "does not hold", "not settled"]


@dataclass(frozen=True)
class UncertainSetting:
    """One setting that is known to within something.

    Attributes
    ----------
    path : str
        Where it stands in a case file, as "guidance.right.condylar_inclination_deg"; or one of
        `hinge_axis.AXIS`, which stand in none. Of a curved path the curvature, 1 / radius, is
        uncertain: "guidance.right.eminence_curvature_per_mm", which stands in none either.
    nominal : float
        As set.
    standard_error : float
        Standard deviation of what it may be, in its own unit.
    least, greatest : float
        What is accepted; beyond it nothing is drawn.
    unit : str
        "mm", "deg" or "1/mm".
    source : str
        Where the standard error comes from: a publication, records, or the case file.
    """

    path: str
    nominal: float
    standard_error: float
    least: float
    greatest: float
    unit: str
    source: str


@dataclass(frozen=True)
class Factor:
    """Settings whose errors hang together, or that one record gives: varied, and ranked, as one.

    Attributes
    ----------
    name : str
        In words, as "condylar inclination, right and left".
    settings : tuple of UncertainSetting
        Its settings.
    correlations : tuple of tuple of float
        Of their errors, in this order; 1 on the diagonal.
    """

    name: str
    settings: tuple[UncertainSetting, ...]
    correlations: tuple[tuple[float, ...], ...]


@dataclass(frozen=True)
class Share:
    """How many of some samples something holds in, with a 95 % interval of the share."""

    count: int
    of: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """Count by number; 0 without samples."""
        return self.count / self.of if self.of else 0.0


@dataclass(frozen=True)
class Influence:
    """How much of the variance of something one factor accounts for.

    Attributes
    ----------
    factor : str
        Name of the factor.
    first, first_low, first_high : float
        First-order Sobol index with its 95 % interval: by this factor alone.
    total, total_low, total_high : float
        Total Sobol index with its 95 % interval: by this factor, alone and with others.
    """

    factor: str
    first: float
    first_low: float
    first_high: float
    total: float
    total_low: float
    total_high: float


@dataclass(frozen=True)
class NeededRecord:
    """How good a record of one factor would have to be for a finding to be settled.

    Attributes
    ----------
    factor : str
        Name of the factor.
    times_better : float or None
        By what all standard errors of the factor would have to be divided; None where even exact
        values would not settle the finding, or where the samples do not tell.
    standard_errors : tuple of float
        Of its settings then, in their order; none where `times_better` is None.
    """

    factor: str
    times_better: float | None
    standard_errors: tuple[float, ...] = ()


@dataclass(frozen=True)
class FindingShare:
    """How often one finding holds.

    Attributes
    ----------
    kind, excursion : str, str or None
        As of the finding.
    pairs : tuple of (int or None, int or None)
        Tooth pairs, upper and lower, as of the finding.
    as_set : str or None
        Severity with the settings as they are; None where it does not hold then.
    holds : Share
        Samples in which it holds, at whatever severity.
    serious : Share
        Samples in which it is serious.
    settled : {"holds", "does not hold", "not settled"}
        Whether at least 95 % of samples agree.
    influences : tuple of Influence
        Most influence first.
    needed : tuple of NeededRecord
        Of a finding that is not settled: the records that would settle it, least effort first.
    """

    kind: str
    excursion: str | None
    pairs: tuple[tuple[int | None, int | None], ...]
    as_set: Severity | None
    holds: Share
    serious: Share
    settled: Settled
    influences: tuple[Influence, ...] = ()
    needed: tuple[NeededRecord, ...] = ()


@dataclass(frozen=True)
class QuantitySpread:
    """How much one quantity spreads.

    Attributes
    ----------
    name, unit : str
        What it is.
    as_set : float or None
        With the settings as they are; None where there is none.
    told : int
        Samples that have a value.
    median, low, high : float
        Of them; low and high hold the middle 95 %.
    influences : tuple of Influence
        Most influence first.
    """

    name: str
    unit: str
    as_set: float | None
    told: int
    median: float
    low: float
    high: float
    influences: tuple[Influence, ...] = ()


@dataclass(frozen=True)
class Uncertainty:
    """What a study of the uncertain settings of one case found.

    Attributes
    ----------
    seed : int
        Of the samples.
    samples : int
        Independent samples behind the shares.
    runs : int
        All runs, those for influences among them.
    refused : int
        Runs whose settings make no case; they count in no share.
    factors : tuple of Factor
        What was varied.
    findings : tuple of FindingShare
        Gravest first, then by how often they hold.
    quantities : tuple of QuantitySpread
        Gaps, loads and the like.
    """

    seed: int
    samples: int
    runs: int
    refused: int
    factors: tuple[Factor, ...]
    findings: tuple[FindingShare, ...]
    quantities: tuple[QuantitySpread, ...]
