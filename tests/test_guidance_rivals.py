"""Which other kind of guidance lies within the scatter of the records, and which teeth decide."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.articulation import verdict
from kinematics.planning.guidance_kinds import kind_of
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.scheme_findings import scheme_finding
from kinematics.planning.unstopped_findings import Holders, unstopped_findings
from kinematics.result_files import plain
from tests.made_sweeps import TRAVEL, made
from tests.small_mouth import mouth, occlusion, swept

RECORDED = JudgingSettings(record_scatter_mm=0.3)
STILL = 0.0 * TRAVEL
#: Pairs of the right side that may come near beside the canine.
BESIDE = ((12, 42), (14, 44), (15, 45), (16, 46), (17, 47))


def nearest(gaps, **how):
    """Return the nearest rival of a right lateral excursion."""
    return verdict(made({(13, 43): STILL, **gaps}, **how), RECORDED).rival


@pytest.mark.parametrize("seed", range(60))
def test_the_nearest_planted_pair_decides(seed):
    """One pair at one reading position is nearer than all others: it, its place and its gap."""
    rng = np.random.default_rng(seed)
    pair = BESIDE[rng.integers(len(BESIDE))]
    gap, at = rng.uniform(0.021, 0.299), float(rng.choice([1.0, 2.0, 3.0]))
    gaps = {other: rng.uniform(gap, 0.6) + 0.001 + STILL for other in BESIDE}
    gaps[pair] = np.where(np.isclose(TRAVEL, at), gap, gaps[pair])
    found = nearest(gaps)
    assert (found.tooth_upper, found.tooth_lower) == pair
    assert found.travel_mm == pytest.approx(at)
    assert (found.distance_mm, found.way) == (gap, "misses")
    (first, *_), excursion = ((13, 43),), made({}).excursion
    assert found.kind == kind_of((first, pair), excursion, 0)


@pytest.mark.parametrize("beyond_mm", [0.301, 0.5, 0.99])
def test_what_lies_beyond_the_scatter_is_no_rival(beyond_mm):
    """Nor is anything where the records are exact."""
    assert nearest({(16, 46): beyond_mm + STILL}, second_gap=2.0) is None
    near = made({(13, 43): STILL, (16, 46): 0.1 + STILL})
    assert verdict(near, JudgingSettings()).rival is None
    assert verdict(near, RECORDED).rival is not None


def test_a_pair_that_changes_nothing_is_passed_over():
    """A second back tooth beside a canine with one makes the group: it decides, not the first."""
    gaps = {(14, 44): 0.01 + STILL, (24, 34): 0.05 + STILL, (15, 45): 0.12 + STILL}
    found = nearest(gaps, second_gap=2.0)
    assert found.kind == "canine with posterior teeth (group)"
    assert (found.tooth_upper, found.distance_mm) == (15, 0.12)
    assert found.in_short == (
        "could also be canine with posterior teeth (group): at 1.0 mm 15 on 45 misses by 0.12 mm"
    )


def test_what_only_just_counts_as_touching_decides_too():
    """Within the tolerance, but not at the thinnest foil."""
    found = nearest({(14, 44): 0.015 + STILL}, second_gap=2.0)
    assert (found.kind, found.way) == ("canine", "counts as touching")
    assert found.decided_by == "at 1.0 mm 14 on 44 counts as touching at 15 µm"


def test_what_comes_next_decides_where_nothing_else_is_near():
    """The runner-up alone would be another kind, 0.2 mm behind along the closing arc."""
    found = nearest({}, second=(12, 42), second_gap=0.2)
    assert (found.kind, found.way) == ("incisors only", "comes next")
    assert found.decided_by.endswith("12 on 42 comes next, 0.20 mm behind the first contact")
    assert nearest({}, second=(13, 44), second_gap=0.2) is None


def test_files_have_a_rival_only_where_there_is_one():
    """Without one their bytes are as before."""
    sweep = made({(13, 43): STILL, (12, 42): 0.06 + STILL})
    assert "rival" not in plain(verdict(sweep, JudgingSettings()))
    assert plain(verdict(sweep, RECORDED))["rival"]["kind"] == "canine with incisors"


def test_a_scheme_that_is_missed_says_what_it_could_also_be():
    """Group function aimed at, canine found: the back tooth that misses is named."""
    falls = {16: (0.8, 1.0)}
    clear = dict.fromkeys((47, 46, 45, 41, 31, 35, 36, 37), 3.0) | {46: 0.15}
    casts = mouth(falls, clear)
    subject = occlusion(casts, scheme="group", record_scatter_mm=0.3)
    sweep = swept(casts, made({}).excursion)
    text = scheme_finding(subject, sweep).text
    assert "the guidance found is: canine; within the 0.30 mm scatter of records" in text
    assert "could also be partial group: at 3.0 mm 16 on 46 misses by" in text


@pytest.mark.parametrize("as_scanned", [True, False])
def test_a_bite_as_scanned_has_no_scatter_of_records(as_scanned):
    """Stops that are missing there by 0.1 mm are missing; by a record of that scatter, perhaps."""
    casts = mouth(clearances={46: 0.1})
    subject = occlusion(casts, record_scatter_mm=0.3)
    subject = replace(subject, bite_as_scanned=as_scanned)
    sweep = swept(casts, made({}).excursion)
    found = unstopped_findings(subject, sweep, (46,), Holders(frozenset()))
    assert {item.determined for item in found} == {as_scanned}
