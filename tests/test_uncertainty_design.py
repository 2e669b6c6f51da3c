"""Samples of uncertain settings: distributions, correlations, and which run is which."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from kinematics.uncertainty.design import changes
from kinematics.uncertainty.margins import cut_off, mixing
from tests.uncertain_toys import alone, four, made, setting, tied

MANY = 16384


def test_runs_are_those_of_pairs_and_exchanges():
    """Two independent samples, then the first with one factor of the second, factor by factor."""
    factors = (*four(), tied("both", (setting("y"), setting("z")), 0.5))
    of = made(factors, samples=64)
    assert of.runs == 32 * 7 and of.table.shape == (32, 7)
    assert len(of.independent) == 64
    first, second = of.values[of.table[:, 0]], of.values[of.table[:, 1]]
    assert (first != second).all()
    for number in range(len(factors)):
        mine = of.columns(number)
        wanted = first.copy()
        wanted[:, mine] = second[:, mine]
        assert np.array_equal(of.values[of.table[:, 2 + number]], wanted)
    assert changes(of, 3) == dict(zip(of.paths, of.values[3], strict=True))


@given(seed=st.integers(0, 2**31 - 1), more=st.integers(1, 4))
@settings(max_examples=30)
def test_more_samples_begin_with_the_fewer_and_bits_are_the_same(seed, more):
    """A longer study takes over every run of a shorter one."""
    fewer, again, longer = (made(four(), n, seed) for n in (32, 32, 32 << more))
    assert fewer.values.tobytes() == again.values.tobytes()
    assert longer.values[: fewer.runs].tobytes() == fewer.values.tobytes()
    assert made(four(), 32, (seed + 1) % 2**31).values.tobytes() != fewer.values.tobytes()


@pytest.mark.parametrize(
    ("nominal", "error", "least", "greatest"),
    [(35.0, 7.8, 0.0, 80.0), (0.0, 0.5, 0.0, 5.0), (1.0, 3.0, 0.0, 1.5), (0.2, 0.05, 0.0, 0.21)],
)
def test_values_are_normal_and_cut_off(nominal, error, least, greatest):
    """As `scipy.stats.truncnorm` says, not heaped up at the limits."""
    one = setting("x", nominal, error, least, greatest)
    of = made((alone("x", nominal=nominal, error=error, least=least, greatest=greatest),), MANY)
    values = of.values[of.independent][:, 0]
    below, above = (least - nominal) / error, (greatest - nominal) / error
    wanted = stats.truncnorm(below, above, nominal, error)
    assert stats.kstest(values, wanted.cdf).statistic < 0.002
    assert (values > least).all() and (values < greatest).all()
    errors = np.linspace(-6.0, 6.0, 41)[:, None]
    upward = errors > 0.0
    exact = np.where(upward, wanted.isf(stats.norm.sf(errors)), wanted.ppf(stats.norm.cdf(errors)))
    assert cut_off((one,), errors) == pytest.approx(exact, rel=1e-8, abs=1e-8)


@given(correlation=st.floats(-1.0, 1.0), seed=st.integers(0, 1000))
@settings(max_examples=20)
def test_correlations_are_those_asked_for(correlation, seed):
    """Of the errors, whatever the seed; settings that go with each other entirely do so."""
    factor = tied("both", (setting("y", error=2.0), setting("z", 5.0)), correlation)
    of = made((factor, *four()), 4096, seed)
    for block in of.table[:, :3].T:
        found = np.corrcoef(of.values[block][:, :2].T)[0, 1]
        assert found == pytest.approx(correlation, abs=0.02)
    lower = mixing(factor)
    assert lower @ lower.T == pytest.approx(np.array(factor.correlations), abs=1e-9)
    others = np.corrcoef(of.values[of.independent].T)[0, 2:]
    assert np.abs(others).max() < 0.05


@given(
    st.lists(st.lists(st.floats(-1, 1), min_size=2, max_size=2), min_size=3, max_size=8).filter(
        lambda rows: all(np.hypot(*row) > 0.1 for row in rows)
    )
)
def test_settings_that_follow_from_others_are_mixed_too(rows):
    """Many settings of two causes: correlations have rank 2, and come out all the same."""
    ways = np.array(rows) / np.linalg.norm(rows, axis=1, keepdims=True)
    wanted = ways @ ways.T
    np.fill_diagonal(wanted, 1.0)
    factor = tied("all", [setting(f"x{n}") for n in range(len(rows))], 0.0)
    lower = mixing(type(factor)("all", factor.settings, tuple(map(tuple, wanted.tolist()))))
    assert np.isfinite(lower).all()
    assert lower @ lower.T == pytest.approx(wanted, abs=2e-3)


def test_quasi_random_samples_tell_a_mean_better_than_random_ones():
    """Over 100 seeds, at the same number of samples: less than a fifth of the scatter."""
    quasi, plain = [], []
    for seed in range(100):
        of = made(four(), 256, seed)
        outcome = of.values[of.independent].sum(axis=1)
        quasi.append(np.mean(outcome))
        plain.append(np.mean(np.random.default_rng(seed).normal(size=(256, 4)).sum(axis=1)))
    assert np.std(quasi) < 0.2 * np.std(plain)


def test_without_factors_there_is_nothing_to_run():
    """No runs, no samples, no columns."""
    of = made(())
    assert of.runs == 0 and of.paths == () and len(of.independent) == 0
