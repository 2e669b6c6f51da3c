"""How good a record of a factor would have to be for a finding to be settled.

Nothing is run anew: samples are weighted as if the standard errors of one factor were smaller, by
the ratio of its density then to its density now.
"""

from collections.abc import Callable
from functools import lru_cache, partial
from typing import Final

import numpy as np
from scipy.linalg import solve_triangular
from scipy.special import ndtr, ndtri

from kinematics.conventions import Floats
from kinematics.uncertainty.design import Design
from kinematics.uncertainty.found import Factor, NeededRecord
from kinematics.uncertainty.margins import bounds, mixing
from kinematics.uncertainty.shares import Bools, settled

#: Weighted samples tell no more than so many equal ones; with fewer nothing is said. Chosen for
#: this program: then a share of 95 % is known to within about 4 %.
_FEWEST: Final = 30.0
#: By what standard errors are divided, in steps; no record is better than the last.
_TRIED: Final = tuple(float(2.0 ** (step / 8.0)) for step in range(1, 49))
_ROUNDS: Final = 12


def needed_records(of: Design, holds: Bools, counted: Bools) -> list[tuple[NeededRecord, ...]]:
    """Return, finding by finding, the records that would settle it; least effort first.

    Parameters
    ----------
    of : Design
        The study.
    holds : ndarray, shape (runs, findings)
        In which runs findings hold that are not settled.
    counted : ndarray, shape (runs,)
        Runs that were not refused.

    Returns
    -------
    list of tuple of NeededRecord
        One for every factor.
    """
    count = holds.shape[1]
    by_factor = [
        _of_factor(of, number, holds[counted], counted) for number in range(len(of.factors))
    ]
    return [
        tuple(sorted((mine[finding] for mine in by_factor), key=_effort))
        for finding in range(count)
    ]


def _effort(record: NeededRecord) -> float:
    return np.inf if record.times_better is None else record.times_better


def _of_factor(of: Design, number: int, holds: Bools, counted: Bools) -> list[NeededRecord]:
    """Return what one factor would need, finding by finding, of runs that count."""
    factor, columns = of.factors[number], of.columns(number)
    values, errors = of.values[counted][:, columns], of.errors[counted][:, columns]
    # a pair's values of a factor stand in its other runs again, which make no more of them
    alone = np.isin(np.flatnonzero(counted), of.independent)

    @lru_cache(maxsize=len(_TRIED))
    def weights(times: float) -> Floats | None:
        found = density_ratio(factor, values, errors, times)
        once = found[alone]
        squares = float(np.sum(once**2))
        return found if squares and float(once.sum()) ** 2 / squares >= _FEWEST else None

    def settles(finding: int, times: float) -> bool | None:
        found = weights(times)
        if found is None:
            return None
        share = float(found[holds[:, finding]].sum() / found.sum())
        return settled(share) != "not settled"

    return [_needed(factor, partial(settles, finding)) for finding in range(holds.shape[1])]


def _needed(factor: Factor, settles: Callable[[float], bool | None]) -> NeededRecord:
    """Return the record of a factor that settles a finding, if the samples tell of one."""
    below = 1.0
    for times in _TRIED:
        answer = settles(times)
        if answer is None:
            break
        if answer:
            least = _least(settles, below, times)
            errors = tuple(one.standard_error / least for one in factor.settings)
            return NeededRecord(factor.name, least, errors)
        below = times
    return NeededRecord(factor.name, None)


def _least(settles: Callable[[float], bool | None], below: float, above: float) -> float:
    """Return the least divisor between one that does not settle a finding and one that does."""
    for _ in range(_ROUNDS):
        middle = 0.5 * (below + above)
        if settles(middle):
            above = middle
        else:
            below = middle
    return above


def density_ratio(factor: Factor, values: Floats, errors: Floats, times: float) -> Floats:
    """Return the density of samples of one factor with smaller standard errors, by that of now.

    Parameters
    ----------
    factor : Factor
        Its settings.
    values, errors : ndarray, shape (n, settings)
        Samples, and the normal errors behind them; see `Design`.
    times : float
        By what the standard errors of all its settings are divided.

    Returns
    -------
    ndarray, shape (n,)
        Of settings that follow from others, as where a correlation is 1, the others alone count.
    """
    lower = mixing(factor)
    free = np.flatnonzero(np.diagonal(lower))
    then = np.empty((len(values), len(free)))
    logarithm = np.zeros(len(values))
    for column, at in enumerate(free):
        of = factor.settings[at]
        below, above = bounds(of)
        off = (values[:, at] - of.nominal) / of.standard_error
        least, most = ndtr(times * below), ndtr(times * above)
        with np.errstate(divide="ignore"):  # so far out that it would not be drawn at all
            then[:, column] = ndtri((ndtr(times * off) - least) / (most - least))
        inside = np.log((ndtr(above) - ndtr(below)) / (most - least))
        logarithm += np.log(times) + inside - 0.5 * (times**2 - 1.0) * off**2
    if len(free) > 1:
        both = np.asarray(np.isfinite(then).all(axis=1))
        square = lower[np.ix_(free, free)]
        now = errors[:, free]
        for sign, normal in ((1.0, now), (-1.0, np.where(both[:, None], then, 0.0))):
            alone = solve_triangular(square, normal.T, lower=True).T
            logarithm += 0.5 * sign * ((alone**2).sum(axis=1) - (normal**2).sum(axis=1))
        logarithm[~both] = -np.inf
    return np.asarray(np.exp(logarithm))
