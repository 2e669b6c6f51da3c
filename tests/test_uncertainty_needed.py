"""How good a record would have to be: by closed forms, and by studies with that record."""

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from kinematics.uncertainty.needed import density_ratio, needed_records
from tests.uncertain_toys import alone, made, setting, tied

#: 95 % of normal values lie below so many standard deviations.
ONE_SIDED = float(stats.norm.ppf(0.95))


def sharper(factor, times):
    """Return a factor with smaller standard errors."""
    smaller = [replace(one, standard_error=one.standard_error / times) for one in factor.settings]
    return replace(factor, settings=tuple(smaller))


def needed(of, holds):
    """Return what one finding needs, by factor."""
    (told,) = needed_records(of, holds[:, None], np.ones(of.runs, bool))
    assert list(told) == sorted(told, key=lambda item: item.times_better or np.inf)
    return {item.factor: item for item in told}


@pytest.mark.parametrize("away", [0.3, 0.7, 1.2])
def test_one_setting_needs_what_the_normal_distribution_says(away):
    """A finding that turns some way off what is set: so much smaller must the error be."""
    of = made((alone("x", nominal=2.0, error=3.0),), 4096)
    told = needed(of, of.values[:, 0] < 2.0 + 3.0 * away)["x"]
    assert told.times_better == pytest.approx(ONE_SIDED / away, rel=0.05)
    assert told.standard_errors == (pytest.approx(3.0 / told.times_better),)


def test_others_that_stay_uncertain_are_reckoned_with():
    """A sum of two: what the better known one leaves over is the other's."""
    of = made((alone("x", error=2.0), alone("y", error=1.0)), 8192)
    told = needed(of, of.values.sum(axis=1) < 2.5)
    wanted = 2.0 / np.sqrt((2.5 / ONE_SIDED) ** 2 - 1.0)
    assert told["x"].times_better == pytest.approx(wanted, rel=0.05)
    # even exactly known, the lesser one leaves too much
    assert told["y"].times_better is None and told["y"].standard_errors == ()


def test_nothing_settles_a_finding_that_turns_where_the_setting_is():
    """As set it lies on the edge: half of the samples have it, however good the record."""
    of = made((alone("x"),), 1024)
    assert needed(of, of.values[:, 0] < 0.0)["x"].times_better is None


@pytest.mark.parametrize(
    "factor",
    [
        tied("two", (setting("a", error=2.0), setting("b", 1.0)), 0.6),
        tied("one and the same", (setting("a", error=2.0), setting("b", 1.0)), 1.0),
        tied("cut off", (setting("a", 0.0, 2.0, 0.0), setting("b", 1.0, 1.0, 0.5, 4.0)), -0.4),
    ],
    ids=lambda factor: factor.name,
)
def test_weighted_samples_say_what_a_study_with_the_record_says(factor):
    """Settings that hang together, and are cut off: share by weights, and by a second study."""
    others = (alone("c", error=0.8),)

    def holds(of):
        return of.values @ [1.0, 0.5, 1.0] < 2.6

    of = made((factor, *others), 8192)
    for times in (1.3, 2.0, 3.0):
        mine = of.columns(0)
        weights = density_ratio(factor, of.values[:, mine], of.errors[:, mine], times)
        again = made((sharper(factor, times), *others), 8192, seed=7)
        wanted = np.mean(holds(again)[again.independent])
        assert np.mean(weights) == pytest.approx(1.0, abs=0.05)
        assert np.sum(weights[holds(of)]) / np.sum(weights) == pytest.approx(wanted, abs=0.015)
    told = needed(of, holds(of))[factor.name]
    assert told.times_better is not None
    again = made((sharper(factor, told.times_better), *others), 8192, seed=7)
    assert np.mean(holds(again)[again.independent]) == pytest.approx(0.95, abs=0.01)


@pytest.mark.parametrize("away", [0.2, 0.25, 0.3, 0.5, 1.0, 1.5])
def test_few_samples_say_no_more_than_they_know(away):
    """Of 256, a hundred times: what they tell is near what is true, else they tell nothing."""
    # what the better known one leaves over is the other's
    wanted = 1.0 / np.sqrt((away / ONE_SIDED) ** 2 - 0.1**2)
    ratios = []
    for seed in range(100):
        of = made((alone("x"), alone("y", error=0.1)), 256, seed)
        told = needed(of, of.values.sum(axis=1) < away)["x"]
        if told.times_better is None:
            assert away < 0.5
        else:
            ratios.append(told.times_better / wanted)
    off = np.abs(np.array(ratios) - 1.0)
    assert len(ratios) > 10
    assert np.mean(off < 0.35) >= 0.97
    assert off.max() < 0.5


def test_runs_that_were_refused_have_no_weight():
    """Whatever is said of them."""
    of = made((alone("x"), alone("y")), 1024)
    holds = of.values.sum(axis=1) < 1.5
    counted = np.arange(of.runs) % 5 != 0
    wrong = np.where(counted, holds, ~holds)
    told = [needed_records(of, one[:, None], counted) for one in (holds, wrong)]
    assert told[0] == told[1]
    assert needed_records(of, holds[:, None], np.zeros(of.runs, bool))[0][0].times_better is None
