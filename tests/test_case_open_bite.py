"""Built-in case with an anterior open bite: front teeth neither meet nor guide."""

from dataclasses import replace

import pytest

from kinematics.tooth_codes import is_posterior
from tests.shipped_cases import coarse, run_case


@pytest.fixture(scope="module")
def case():
    """Take the case as it is shipped, with coarse teeth."""
    return coarse("anterior_open_bite")


@pytest.fixture(scope="module")
def result(case):
    """Run it."""
    return run_case(case)


def test_edges_stand_apart_as_set(case, result):
    """2 mm between the middles of the central incisors' edges, but for what settling moves."""
    upper, lower = result.upper.tooth(21).edge[8], result.lower.tooth(31).edge[8]
    assert upper[2] - lower[2] == pytest.approx(case.dentition.open_bite_mm, abs=0.2)


def test_no_front_tooth_touches_and_back_teeth_guide(result):
    """No excursion is guided by front teeth; interferences of back teeth are serious."""
    for sweep in result.sweeps[:3]:
        until = sweep.travel_mm <= 2.0
        touching = sweep.patches.tooth_upper[until[sweep.patches.pose]]
        assert all(is_posterior(int(code)) for code in touching)
    assert next(v.kind for v in result.verdicts if v.excursion == "protrusion") == "posterior only"
    assert result.findings[0].severity == "serious"


def test_closing_the_bite_gives_front_guidance_back(case):
    """Without the open bite canines and incisors guide, and nothing calls for attention."""
    closed = replace(case, dentition=replace(case.dentition, open_bite_mm=0.0))
    again = run_case(closed)
    kinds = {verdict.excursion: verdict.kind for verdict in again.verdicts}
    assert kinds["protrusion"] == "anterior"
    assert kinds["left lateral"] == "canine"
    assert {finding.severity for finding in again.findings} == {"note"}
