"""Gaps that a first answer leaves out, measured where a judgement asks for them."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning import farther_gaps
from kinematics.planning.contact_runs import least_gap_over, pair_gaps_of
from kinematics.planning.farther_gaps import least_gaps_over, measured_at
from tests.replaced_mouth import LEFT, RIGHT
from tests.small_mouth import mouth, occlusion, swept

MEASURED_MM = 0.05
BACK = [(16, 46), (16, 47), (17, 47), (26, 36)]


@pytest.fixture(scope="module", params=[RIGHT, LEFT])
def both(request):
    """Return casts, a sweep of them, and the same with near gaps alone."""
    casts = mouth({16: (0.2, 0.1), 26: (0.1, -0.2)}, {47: 0.5})
    whole = swept(casts, request.param)
    near = np.where(whole.pair_gap_mm <= MEASURED_MM, whole.pair_gap_mm, np.inf)
    return casts, whole, replace(whole, pair_gap_mm=near, measured_mm=MEASURED_MM)


@pytest.mark.parametrize("pairs", [BACK, BACK[1:3], BACK[-1:], []])
def test_the_nearest_is_what_a_whole_run_measures(both, pairs):
    """The same bits where asked for; elsewhere what the first answer has."""
    casts, whole, brief = both
    asked = np.arange(len(whole.travel_mm)) % 3 > 0
    got = least_gaps_over(occlusion(casts), brief, pairs, asked)
    np.testing.assert_array_equal(got[asked], least_gap_over(whole, pairs)[asked])
    np.testing.assert_array_equal(got[~asked], least_gap_over(brief, pairs)[~asked])


def test_the_limit_grows_until_something_is_near(both, monkeypatch):
    """Poses whose nearest pair is found are not measured again, and none beyond the gap limit."""
    casts, whole, brief = both
    tries = []

    def watched(subject, sweep, poses, pairs, limit_mm):
        tries.append((limit_mm, len(poses)))
        return measured_at(subject, sweep, poses, pairs, limit_mm)

    monkeypatch.setattr(farther_gaps, "measured_at", watched)
    least_gaps_over(occlusion(casts), brief, BACK, np.ones(len(whole.travel_mm), dtype=bool))
    limits, counts = zip(*tries, strict=True)
    assert list(limits) == [min(MEASURED_MM * 2.0**k, 3.0) for k in range(1, len(tries) + 1)]
    assert list(counts) == sorted(counts, reverse=True)
    assert counts[-1] < counts[0]


def test_only_the_teeth_of_the_pairs_are_measured(both):
    """Others stay as they were, also in the poses asked for."""
    casts, whole, brief = both
    poses = np.array([7, 12, 20])
    got = measured_at(occlusion(casts), brief, poses, [(16, 46), (17, 47)], brief.gap_limit_mm)
    for pair in ((16, 46), (16, 47), (17, 46), (17, 47)):
        np.testing.assert_array_equal(
            pair_gaps_of(got, *pair)[poses], pair_gaps_of(whole, *pair)[poses]
        )
    np.testing.assert_array_equal(pair_gaps_of(got, 26, 36), pair_gaps_of(brief, 26, 36))
