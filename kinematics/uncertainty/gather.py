"""From the rows of a study to what it found."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.planning.findings import SEVERITIES
from kinematics.uncertainty.design import Design
from kinematics.uncertainty.found import FindingShare, QuantitySpread, Uncertainty
from kinematics.uncertainty.found_in_runs import ABSENT, FoundInRuns, found_in_runs
from kinematics.uncertainty.influence import influences
from kinematics.uncertainty.needed import needed_records
from kinematics.uncertainty.settings import UncertaintySettings
from kinematics.uncertainty.shares import AGREE, Bools, settled, share_of

#: Findings that the case as set does not have are told if they hold in so many samples.
_WORTH_TELLING: Final = 1.0 - AGREE
_MIDDLE: Final = (0.5, 0.025, 0.975)


@dataclass(frozen=True)
class QuantityInRuns:
    """One quantity.

    Attributes
    ----------
    name, unit : str
        What it is.
    as_set : float
        In the case as set; NaN where there is none.
    values : ndarray, shape (runs,)
        In every run; NaN where there is none.
    """

    name: str
    unit: str
    as_set: float
    values: Floats


@dataclass(frozen=True)
class StudyRows:
    """What the runs of a study and the case as set say.

    Attributes
    ----------
    refused : sequence of str
        Why the settings of a run make no case; empty where they do.
    findings_as_set : sequence of str
        Findings of the case as set: JSON lists of kind, excursion, severity, pairs and travel.
    findings : sequence of sequence of str
        Of every run.
    quantities : sequence of QuantityInRuns
        Gaps, loads and the like.
    """

    refused: Sequence[str]
    findings_as_set: Sequence[str]
    findings: Sequence[Sequence[str]]
    quantities: Sequence[QuantityInRuns] = ()


def gather(of: Design, settings: UncertaintySettings, rows: StudyRows) -> Uncertainty:
    """Return what a study found.

    Parameters
    ----------
    of : Design
        Its runs.
    settings : UncertaintySettings
        Seed and number of samples.
    rows : StudyRows
        Of all runs, in their order.
    """
    counted = np.array([not why for why in rows.refused], dtype=np.bool_)
    return Uncertainty(
        settings.seed,
        len(of.independent),
        of.runs,
        int(np.count_nonzero(~counted)),
        of.factors,
        _findings(of, settings, rows, counted),
        tuple(_quantities(of, settings, rows, counted)),
    )


def _findings(
    of: Design, settings: UncertaintySettings, rows: StudyRows, counted: Bools
) -> tuple[FindingShare, ...]:
    """Return the findings as set, and others that hold often enough; gravest first."""
    found = found_in_runs(rows.findings_as_set, rows.findings)
    samples = of.independent[counted[of.independent]]
    holds = found.severities != ABSENT
    shares = holds[samples].mean(axis=0) if len(samples) else np.zeros(holds.shape[1])
    told = [
        place
        for place in range(len(found.findings))
        if place < found.set_ones or shares[place] >= _WORTH_TELLING
    ]
    told.sort(key=lambda place: (-_gravity(found, place), -shares[place]))
    outcomes = np.where(counted[:, None], holds[:, told], np.nan)
    between = influences([item.name for item in of.factors], of.table, outcomes, settings.seed)
    bare = [_finding(found, place, samples) for place in told]
    open_ones = [n for n, item in enumerate(bare) if item.settled == "not settled"]
    needed = dict(
        zip(open_ones, needed_records(of, holds[:, told][:, open_ones], counted), strict=True)
    )
    return tuple(
        replace(item, influences=mine, needed=needed.get(n, ()))
        for n, (item, mine) in enumerate(zip(bare, between, strict=True))
    )


def _gravity(found: FoundInRuns, place: int) -> int:
    """Return how grave a finding is as set, or else in most runs that have it."""
    if place < found.set_ones:
        return SEVERITIES.index(found.findings[place].severity)
    counts = [np.count_nonzero(found.severities[:, place] == n) for n in range(len(SEVERITIES))]
    return max(range(len(counts)), key=lambda n: (counts[n], n))


def _finding(found: FoundInRuns, place: int, samples: Ints) -> FindingShare:
    """Return in how many samples a finding holds, not yet what that depends on."""
    told, severities = found.findings[place], found.severities[samples, place]
    holds = share_of(severities != ABSENT)
    return FindingShare(
        told.about.kind,
        told.about.excursion,
        told.pairs,
        told.severity if place < found.set_ones else None,
        holds,
        share_of(severities == SEVERITIES.index("serious")),
        settled(holds.share) if holds.of else "not settled",
    )


def _quantities(
    of: Design, settings: UncertaintySettings, rows: StudyRows, counted: Bools
) -> Iterator[QuantitySpread]:
    """Yield quantities that at least one sample has."""
    if not rows.quantities:
        return
    every = np.stack([item.values for item in rows.quantities], axis=1)
    every = np.where(counted[:, None] & np.isfinite(every), every, np.nan)
    between = influences([item.name for item in of.factors], of.table, every, settings.seed)
    for item, values, mine in zip(rows.quantities, every.T, between, strict=True):
        inside = values[of.independent]
        inside = inside[np.isfinite(inside)]
        if len(inside):
            median, low, high = np.quantile(inside, _MIDDLE).tolist()
            as_set = float(item.as_set) if np.isfinite(item.as_set) else None
            yield QuantitySpread(item.name, item.unit, as_set, len(inside), median, low, high, mine)
