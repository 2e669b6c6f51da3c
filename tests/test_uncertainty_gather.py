"""From rows of a study to what it found, on runs whose findings are decided by a formula."""

import json
from dataclasses import replace

import numpy as np
import pytest

from kinematics.uncertainty.found_in_runs import ABSENT, found_in_runs
from kinematics.uncertainty.gather import QuantityInRuns, StudyRows, gather
from kinematics.uncertainty.settings import UncertaintySettings
from tests.uncertain_toys import alone, made

SETTINGS = UncertaintySettings(samples=256, seed=4)


def told(kind, *pairs, severity="attention", excursion="left lateral", travel=(0.5, 3.0)):
    """Return a finding as a row tells it."""
    return json.dumps([kind, excursion, severity, [list(pair) for pair in pairs], *travel])


@pytest.fixture(scope="module")
def study():
    """Return runs of two settings, and what they say."""
    of = made((alone("x"), alone("y", error=0.2)), SETTINGS.samples, SETTINGS.seed)
    x, y = of.values.T
    rows = []
    for number in range(of.runs):
        row = [told("always", (16, 46))]
        if x[number] < 1.0:
            grave = "serious" if x[number] < 0.0 else "attention"
            more = [(17, 47)] if y[number] > 0.1 else []
            row.append(told("interference", (16, 46), *more, severity=grave, travel=(x[number], 2)))
        if x[number] + y[number] > 1.2:
            row.append(told("new", (26, 36), severity="serious"))
        if y[number] > 0.5:
            row.append(told("rare", (25, 35)))
        rows.append(row)
    as_set = [told("interference", (16, 46), severity="serious"), told("always", (16, 46))]
    quantities = (
        QuantityInRuns("gap", "mm", 0.0, np.where(x > 2.0, np.nan, 3.0 * x)),
        QuantityInRuns("never", "mm", np.nan, np.full(of.runs, np.nan)),
        QuantityInRuns("always", "N", 2.0, np.full(of.runs, 2.0)),
        QuantityInRuns("beyond", "deg", np.inf, np.where(x < 0.0, np.inf, 1.0 + y)),
    )
    return of, StudyRows([""] * of.runs, as_set, rows, quantities)


def test_findings_are_told_gravest_first_then_by_how_often_they_hold(study):
    """Those as set, and what holds in 5 % of samples without being set; what is rarer is not."""
    of, rows = study
    found = gather(of, SETTINGS, rows)
    kinds = [(item.kind, item.as_set) for item in found.findings]
    assert kinds == [("interference", "serious"), ("new", None), ("always", "attention")]
    x, y = of.values[of.independent].T
    interference, new, always = found.findings
    assert interference.holds.count == np.count_nonzero(x < 1.0)
    assert interference.serious.count == np.count_nonzero(x < 0.0)
    assert interference.pairs == ((16, 46),)
    assert new.holds.count == new.serious.count == np.count_nonzero(x + y > 1.2)
    assert always.holds.count == always.holds.of == 256 and always.settled == "holds"
    assert always.influences == () and always.needed == ()
    assert interference.settled == "not settled"
    assert interference.influences[0].factor == "x" and interference.influences[0].total > 0.9
    assert interference.needed[0].factor == "x"
    assert interference.needed[0].times_better == pytest.approx(1.645, rel=0.15)
    assert interference.needed[1].times_better is None
    assert (found.samples, found.runs, found.refused, found.seed) == (256, of.runs, 0, 4)


def test_quantities_are_told_over_the_samples_that_have_them(study):
    """Median and middle 95 %; what no sample has is left out, and no result is NaN."""
    of, rows = study
    gap, always, beyond = gather(of, SETTINGS, rows).quantities
    x, _ = of.values[of.independent].T
    inside = 3.0 * x[x <= 2.0]
    assert (gap.told, gap.as_set) == (len(inside), 0.0)
    assert [gap.median, gap.low, gap.high] == pytest.approx(
        np.quantile(inside, [0.5, 0.025, 0.975])
    )
    assert gap.influences[0].factor == "x" and gap.influences[0].first > 0.8
    assert (always.median, always.low, always.high, always.influences) == (2.0, 2.0, 2.0, ())
    assert beyond.as_set is None and beyond.told == np.count_nonzero(x >= 0.0)
    assert beyond.influences[0].factor == "y"


def test_refused_runs_count_in_no_share(study):
    """They say nothing, and are told; a study in which all are refused settles nothing."""
    of, rows = study
    why = ["no such case" if number % 3 == 0 else "" for number in range(of.runs)]
    blank = [row if not said else [] for row, said in zip(rows.findings, why, strict=True)]
    found = gather(of, SETTINGS, replace(rows, refused=why, findings=blank))
    left = [number for number in of.independent if not why[number]]
    assert found.refused == sum(map(bool, why))
    assert {item.holds.of for item in found.findings} == {len(left)}
    always = next(item for item in found.findings if item.kind == "always")
    assert always.holds.share == 1.0 and always.settled == "holds"
    nothing = gather(of, SETTINGS, replace(rows, refused=["no"] * of.runs, findings=[[]] * of.runs))
    assert [item.settled for item in nothing.findings] == ["not settled"] * 2
    assert all(item.holds.of == 0 and not item.influences for item in nothing.findings)
    assert all(need.times_better is None for item in nothing.findings for need in item.needed)
    assert nothing.quantities == ()


def test_findings_are_matched_by_kind_excursion_and_shared_pairs():
    """The very same teeth first, then the most in common; what is left over is grouped."""
    as_set = [
        told("a", (16, 46)),
        told("a", (16, 46), (17, 47)),
        told("b", (None, None), excursion=None, travel=(None, None)),
    ]
    runs = [
        [told("a", (16, 46), (17, 47), severity="note"), told("b", (None, None), excursion=None)],
        [told("a", (17, 47), (18, 48)), told("a", (16, 46))],
        [told("a", (26, 36)), told("a", (16, 46), excursion="protrusion")],
        [told("a", (26, 36), (27, 37), severity="serious")],
        [told("a", (27, 37), (26, 36), severity="serious")],
        [],
    ]
    found = found_in_runs(as_set, runs)
    assert found.set_ones == 3
    assert [item.pairs for item in found.findings[3:]] == [((26, 36), (27, 37)), ((16, 46),)]
    assert found.findings[4].about.excursion == "protrusion"
    no = ABSENT
    assert found.severities.tolist() == [
        [no, 0, 1, no, no],
        [1, 1, no, no, no],
        [no, no, no, 1, 1],
        [no, no, no, 2, no],
        [no, no, no, 2, no],
        [no, no, no, no, no],
    ]


def test_the_same_rows_give_the_same_result(study):
    """To the last bit."""
    of, rows = study
    assert gather(of, SETTINGS, rows) == gather(of, SETTINGS, rows)
