"""How much of the variance of an outcome each factor accounts for: Sobol indices with intervals.

First-order indices by Saltelli et al. (Computer Physics Communications 2010;181:259-270), total
ones by Jansen (ibid. 1999;117:35-43). Intervals come from drawing whole pairs of samples again and
again, with a seed of their own. `scipy.stats.sobol_indices` gives the same indices; its intervals
have no seed, and it takes no pairs of which some are left out.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.uncertainty.found import Influence
from kinematics.uncertainty.shares import WIDE, share_of

#: How often pairs are drawn again, and how many of these draws are held in memory at once.
_DRAWS: Final = 1000
_AT_ONCE: Final = 50
#: With fewer pairs nothing can be said of variances. Chosen for this program.
FEWEST_PAIRS: Final = 8
_INTERVAL: Final = (0.025, 0.975)


@dataclass(frozen=True)
class Indices:
    """Indices of one outcome, factor by factor.

    Attributes
    ----------
    first, total : ndarray, shape (factors,)
        First-order and total.
    first_ends, total_ends : ndarray, shape (2, factors)
        Ends of their 95 % intervals.
    """

    first: Floats
    first_ends: Floats
    total: Floats
    total_ends: Floats


def influences(
    names: Sequence[str], table: Ints, outcomes: Floats, seed: int
) -> tuple[tuple[Influence, ...], ...]:
    """Return the influence of all factors on every outcome, most influence first.

    Parameters
    ----------
    names : sequence of str
        Of the factors.
    table : ndarray, shape (pairs, 2 + factors)
        Which run is which; see `Design.table`.
    outcomes : ndarray, shape (runs, outcomes)
        NaN where a run has none: its whole pair is left out then.
    seed : int
        Of the draws.

    Returns
    -------
    tuple of tuple of Influence
        None for an outcome that is always the same, or that too few pairs have. Indices and ends
        of intervals lie within 0 to 1, where they are known to lie.
    """
    told: list[tuple[Influence, ...]] = []
    for of in indices(table, outcomes, seed):
        if of is None:
            told.append(())
            continue
        if len(names) == 1:  # all there is, and not to be estimated
            told.append((Influence(names[0], *[1.0] * 6),))
            continue
        columns = (of.first, *of.first_ends, of.total, *of.total_ends)
        rows = np.clip(np.stack(columns, axis=1), 0.0, 1.0).tolist()
        mine = [Influence(name, *row) for name, row in zip(names, rows, strict=True)]
        told.append(tuple(sorted(mine, key=lambda item: (-item.total, -item.first))))
    return tuple(told)


def indices(table: Ints, outcomes: Floats, seed: int) -> list[Indices | None]:
    """Return the indices of every outcome, as they come out; see `influences`."""
    found: list[Indices | None] = [None] * outcomes.shape[1]
    if not table.size:
        return found
    runs = outcomes[table]
    whole = np.asarray(np.isfinite(runs).all(axis=1))
    # outcomes that the same pairs have are drawn again together
    same: dict[bytes, list[int]] = {}
    for column in range(outcomes.shape[1]):
        same.setdefault(whole[:, column].tobytes(), []).append(column)
    for columns in same.values():
        pairs = runs[whole[:, columns[0]]][:, :, columns]
        if len(pairs) < FEWEST_PAIRS:
            continue
        varied = [number for number in range(len(columns)) if np.ptp(pairs[:, :2, number]) > 0.0]
        if varied:
            for number, of in zip(varied, _together(pairs[:, :, varied], seed), strict=True):
                found[columns[number]] = of
    return found


def _together(runs: Floats, seed: int) -> list[Indices | None]:
    """Return the indices of outcomes that all vary, of runs (pairs, 2 + factors, outcomes)."""
    pairs, width, count = runs.shape
    centred = runs - runs[:, :2].mean(axis=(0, 1))
    first, second, swapped = centred[:, :1], centred[:, 1:2], centred[:, 2:]
    parts = np.concatenate(
        [
            0.5 * (first + second),
            0.5 * (first**2 + second**2),
            second * (swapped - first),
            0.5 * (swapped - first) ** 2,
        ],
        axis=1,
    ).reshape(pairs, -1)
    shape = (-1, 2 * width - 2, count)
    once = _ratios(parts.mean(axis=0).reshape(shape))
    rng, drawn = np.random.default_rng(seed), []
    for _ in range(_DRAWS // _AT_ONCE):
        times = rng.multinomial(pairs, np.full(pairs, 1.0 / pairs), _AT_ONCE) / pairs
        # einsum adds in one order, whatever number of threads there is
        drawn.append(_ratios(np.einsum("dp,pk->dk", times, parts).reshape(shape)))
    ends = np.quantile(np.concatenate(drawn), _INTERVAL, axis=0)
    factors = width - 2
    found: list[Indices | None] = []
    for number in range(count):
        if not np.isfinite(once[0, :, number]).all():
            found.append(None)
            continue
        mine = Indices(
            once[0, :factors, number],
            ends[:, :factors, number],
            once[0, factors:, number],
            ends[:, factors:, number],
        )
        either = np.unique(runs[:, :, number])
        found.append(_yes_or_no(mine, runs[:, :, number]) if len(either) == 2 else mine)
    return found


def _yes_or_no(of: Indices, runs: Floats) -> Indices:
    """Return indices of an outcome of two values, intervals wide enough for few changes.

    Where exchanging a factor changes the outcome in few pairs or none, draws among them do not show
    how few they are: the share of pairs that change has an interval of its own.
    """
    pairs = len(runs)
    step = float(np.ptp(runs))
    variance = float(np.var(runs[:, :2]))
    changes = runs[:, 2:] != runs[:, :1]
    shares = [share_of(changed) for changed in changes.T]
    ends = np.array([[one.low for one in shares], [one.high for one in shares]])
    total = 0.5 * ends * step**2 / variance
    half = WIDE * step * np.sqrt(ends[1] / (pairs * variance))
    return Indices(
        of.first,
        np.stack(
            (
                np.minimum(of.first_ends[0], of.first - half),
                np.maximum(of.first_ends[1], of.first + half),
            )
        ),
        of.total,
        np.stack((np.minimum(of.total_ends[0], total[0]), np.maximum(of.total_ends[1], total[1]))),
    )


def _ratios(means: Floats) -> Floats:
    """Return indices (draws, 2 factors, outcomes) of means of both halves and what varies."""
    variance = means[:, 1:2] - means[:, :1] ** 2
    # a draw in which nothing varies tells of no influence
    return np.divide(means[:, 2:], variance, out=np.zeros_like(means[:, 2:]), where=variance > 0.0)
