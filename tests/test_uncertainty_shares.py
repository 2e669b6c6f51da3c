"""Shares and influences: against closed forms, other libraries, and over 200 seeds."""

import numpy as np
import pytest
from scipy import stats

from kinematics.uncertainty.found import Influence
from kinematics.uncertainty.influence import indices, influences
from kinematics.uncertainty.shares import settled, share_of
from tests.uncertain_toys import EXACT, WEIGHTS, alone, four, made, setting, tied

SEEDS = range(200)
#: An event of the linear toy: the outcome stays below one standard deviation above its mean.
LIMIT = float(np.sqrt(np.sum(WEIGHTS**2)))
SHARE = float(stats.norm.cdf(1.0))


def below_both(correlation):
    """Return how often two normal values of some correlation both stay below 1."""
    return stats.multivariate_normal([0, 0], [[1, correlation], [correlation, 1]]).cdf([1.0, 1.0])


#: Exact indices of that event: of two outcomes that share one factor, or all others.
VARIANCE = SHARE * (1.0 - SHARE)
FIRST = np.array([(below_both(s) - SHARE**2) / VARIANCE for s in EXACT])
TOTAL = np.array([1.0 - (below_both(1.0 - s) - SHARE**2) / VARIANCE for s in EXACT])


@pytest.mark.parametrize(
    ("count", "of", "low", "high"),
    # textbook examples of the score interval: 81 of 263, 15 of 148, 0 of 20, 1 of 29 (Newcombe,
    # Stat Med 1998;17:857-872, table I, method 3)
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611),
     (1, 29, 0.0061, 0.1718)],
)  # fmt: skip
def test_intervals_of_shares_are_the_published_ones(count, of, low, high):
    """To four decimals; of all samples as of none, mirrored."""
    share = share_of(np.arange(of) < count)
    assert (share.count, share.of) == (count, of)
    assert (share.low, share.high) == pytest.approx((low, high), abs=5e-5)
    mirrored = share_of(np.arange(of) >= count)
    assert (mirrored.low, mirrored.high) == pytest.approx((1 - high, 1 - low), abs=5e-5)


def test_no_samples_tell_nothing():
    """The interval is everything."""
    share = share_of(np.zeros(0, bool))
    assert (share.share, share.low, share.high) == (0.0, 0.0, 1.0)


def test_what_nineteen_of_twenty_samples_agree_on_is_settled():
    """Either way, the limits included."""
    told = [settled(share) for share in (1.0, 0.95, 0.94, 0.06, 0.05, 0.0)]
    assert told == ["holds"] * 2 + ["not settled"] * 2 + ["does not hold"] * 2


@pytest.mark.parametrize("samples", [64, 256])
def test_intervals_hold_what_they_should_over_200_seeds(samples):
    """Of shares, and of first-order and total indices of a sum and of an event."""
    right = dict.fromkeys(("share", "first", "total", "event first", "event total"), 0.0)
    for seed in SEEDS:
        of = made(four(), samples, seed)
        outcome = of.values @ WEIGHTS
        event = outcome < LIMIT
        share = share_of(event[of.independent])
        right["share"] += share.low <= SHARE <= share.high
        found, of_event = indices(of.table, np.stack([outcome, event], axis=1), seed)
        for name, ends, exact in (
            ("first", found.first_ends, EXACT),
            ("total", found.total_ends, EXACT),
            ("event first", of_event.first_ends, FIRST),
            ("event total", of_event.total_ends, TOTAL),
        ):
            right[name] += ((ends[0] <= exact) & (exact <= ends[1])) / len(SEEDS)
    right["share"] /= len(SEEDS)
    for name, share in right.items():
        assert np.min(share) >= 0.95, name


def test_intervals_are_no_wider_than_they_need_to_be():
    """Of 4096 samples: a seventh or so at most, of a sum as of an event."""
    of = made(four(), 4096)
    outcome = of.values @ WEIGHTS
    found = indices(of.table, np.stack([outcome, outcome < LIMIT], axis=1), 1)
    for item in found:
        assert np.ptp(item.first_ends, axis=0).max() < 0.15
        assert np.ptp(item.total_ends, axis=0).max() < 0.15


def test_correlated_settings_are_ranked_as_one():
    """A sum of one factor alone, two settings that hang together, and one that is cut off."""
    factors = (
        alone("a"),
        tied("b and c", (setting("b", error=2.0), setting("c", 1.0)), 0.6),
        alone("d", error=0.5, least=0.0),
    )
    of = made(factors, 4096)
    parts = np.array([4.0, 4 + 1 + 2 * 0.6 * 2, 9 * stats.truncnorm(0, np.inf, 0, 0.5).var()])
    exact = dict(zip(("a", "b and c", "d"), parts / parts.sum(), strict=True))
    names = [factor.name for factor in factors]
    outcome = of.values @ [2.0, 1.0, 1.0, 3.0]
    (told,) = influences(names, of.table, outcome[:, None], 3)
    assert [item.factor for item in told] == ["b and c", "a", "d"]
    for item in told:
        assert item.first == pytest.approx(exact[item.factor], abs=0.02)
        assert item.total == pytest.approx(exact[item.factor], abs=0.02)
        assert item.first_low <= exact[item.factor] <= item.first_high


def test_a_function_with_interactions_has_its_published_indices():
    """Ishigami & Homma 1990 with 7 and 0.1: closed forms of first-order and total indices."""
    of = made(tuple(alone(f"x{n}") for n in range(3)), 16384)
    x = np.pi * (2.0 * stats.norm.cdf(of.values) - 1.0)
    outcome = np.sin(x[:, 0]) + 7 * np.sin(x[:, 1]) ** 2 + 0.1 * x[:, 2] ** 4 * np.sin(x[:, 0])
    (found,) = indices(of.table, outcome[:, None], 1)
    assert found.first == pytest.approx([0.3139, 0.4424, 0.0], abs=0.02)
    assert found.total == pytest.approx([0.5576, 0.4424, 0.2437], abs=0.01)


def test_indices_are_those_of_another_library():
    """`scipy.stats.sobol_indices`, of several outcomes at once."""
    of = made(four(), 512)
    outcomes = np.stack(
        [of.values @ WEIGHTS, np.prod(1.0 + of.values, axis=1), np.exp(of.values[:, 1])], axis=1
    )
    runs = outcomes[of.table]
    given = {
        "f_A": runs[:, 0].T.copy(),
        "f_B": runs[:, 1].T.copy(),
        "f_AB": np.moveaxis(runs[:, 2:], 0, -1).copy(),
    }
    wanted = stats.sobol_indices(func=given, n=256)
    found = indices(of.table, outcomes, 1)
    assert np.stack([item.first for item in found]) == pytest.approx(wanted.first_order, abs=1e-10)
    assert np.stack([item.total for item in found]) == pytest.approx(wanted.total_order, abs=1e-10)


def test_what_has_no_value_leaves_its_whole_pair_out():
    """In whichever run it lacks; too few pairs, or no variance, give no indices."""
    of = made(four(), 256)
    outcome = of.values @ WEIGHTS
    holes = outcome.copy()
    lacking = of.table[[3, 17, 40], [0, 1, 4]]
    holes[lacking] = np.nan
    few = np.where(np.arange(of.runs) < 7 * of.table.shape[1], outcome, np.nan)
    same = np.ones(of.runs)
    found = indices(of.table, np.stack([outcome, holes, few, same], axis=1), 1)
    kept = np.delete(of.table, [3, 17, 40], axis=0)
    (wanted,) = indices(np.arange(kept.size).reshape(kept.shape), outcome[kept].reshape(-1, 1), 1)
    assert found[1].first == pytest.approx(wanted.first, abs=1e-12)
    assert found[1].total_ends == pytest.approx(wanted.total_ends, abs=1e-12)
    assert found[2:] == [None, None]
    assert influences("abcd", of.table, np.stack([few, same], axis=1), 1) == ((), ())


def test_a_factor_that_changes_nothing_in_the_samples_is_not_certain_to_have_none():
    """A rare event: the interval says how little so few samples tell; the same bits for a seed."""
    of = made(four(), 64)
    event = of.values @ WEIGHTS > 1.5 * LIMIT
    outcomes = event[:, None].astype(float)
    (told,) = influences("abcd", of.table, outcomes, 5)
    still = [item for item in told if item.total == 0.0]
    assert still and all(item.total_high > 0.1 for item in still)
    assert influences("abcd", of.table, outcomes, 5) == (told,)
    assert all(0.0 <= item.first_low <= item.first_high <= 1.0 for item in told)


def test_the_only_factor_accounts_for_everything():
    """That is so by definition; an outcome that never changes still has no indices."""
    table = np.arange(3 * 32).reshape(32, 3)
    drawn = np.random.default_rng(4).normal(size=(3 * 32, 1)) > 0.4
    outcomes = np.hstack([drawn, np.ones_like(drawn)]).astype(np.float64)
    changing, constant = influences(["inclination"], table, outcomes, 1)
    assert changing == (Influence("inclination", *[1.0] * 6),)
    assert constant == ()
