"""What is told while settings move is what a whole run tells."""

import threading
from dataclasses import fields, replace
from itertools import combinations, product
from types import SimpleNamespace

import numpy as np
import pytest

from kinematics import live
from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import judged
from kinematics.contact.closure import runner_up
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import left_lateral, protrusion, retrusion
from kinematics.planning.contact_runs import least_gap_over
from kinematics.planning.farther_gaps import least_gaps_over
from kinematics.planning.findings import Finding
from tests.shipped_cases import coarse

#: Cases whose teeth are not formed by their movement, which takes long.
QUICK = (
    "upper_distal_extension",
    "class_three_base",
    "nonworking_interference",
    "anterior_open_bite",
    "replaced_canine",
)


def turned(case, change_deg):
    """Return a case with other condylar inclinations."""
    sides = {
        name: replace(
            getattr(case.guidance, name),
            condylar_inclination_deg=getattr(case.guidance, name).condylar_inclination_deg
            + change_deg,
        )
        for name in ("right", "left")
    }
    return replace(case, guidance=replace(case.guidance, **sides))


def balanced(case):
    """Return a case judged by a scheme that asks for contacts on both sides."""
    bases = tuple(replace(base, scheme="balanced") for base in case.denture_bases)
    return replace(case, judging=replace(case.judging, scheme="balanced"), denture_bases=bases)


def same(first, second, where=""):
    """Compare results field by field, arrays by their bits."""
    if isinstance(first, np.ndarray):
        assert np.array_equal(first, second), where
    elif isinstance(first, tuple):
        assert len(first) == len(second), where
        for i, pair in enumerate(zip(first, second, strict=True)):
            same(*pair, f"{where}[{i}]")
    elif isinstance(first, dict):
        same(tuple(first.items()), tuple(second.items()), where)
    elif hasattr(first, "__dataclass_fields__"):
        for item in fields(first):
            same(getattr(first, item.name), getattr(second, item.name), f"{where}.{item.name}")
    else:
        assert first == second, where


def measured_wholly(casts, sweep, workers):
    """Return a sweep on the same poses, of which nothing is left out."""
    zero, teeth = sweep.positions.pose_at_zero, (sweep.upper_codes, sweep.lower_codes)
    second, gap = runner_up(casts.pair, zero, sweep.closures, workers)
    gaps = pair_gaps(casts.pair, sweep.poses, sweep.gap_limit_mm, *teeth, workers)
    whole = {"runner_up": second, "runner_up_gap_mm": gap, "pair_gap_mm": gaps}
    return replace(sweep, measured_mm=np.inf, partly=None, **whole)


@pytest.fixture(scope="module", params=QUICK)
def built(request):
    """Return a case and its teeth."""
    case = coarse(request.param)
    return case, live.teeth_for(case, lambda _: None)


@pytest.mark.parametrize("change", [lambda c: c, lambda c: turned(c, 12.0), balanced])
def test_findings_are_those_of_the_same_sweeps_fully_measured(built, change):
    """Few gaps are measured, yet every kind, tooth, severity and figure is the same."""
    case, teeth = built
    case = change(case)
    casts, workers = live.remounted(teeth, case), Workers(2)
    quick = live.excursions_judged(case, casts, workers)
    sweeps = tuple(measured_wholly(casts, item, workers) for item in quick.sweeps)
    assert (np.isfinite(sweeps[1].pair_gap_mm) > np.isfinite(quick.sweeps[1].pair_gap_mm)).any()
    full = judged(case, casts, sweeps, workers)
    assert all(isinstance(item, Finding) for item in quick.findings)
    for name in ("findings", "verdicts", "stops", "replacement"):
        same(getattr(quick, name), getattr(full, name), name)


def test_gaps_next_to_the_start_that_were_left_out_are_measured_where_they_are_asked_for(built):
    """Of whatever teeth, also beside some that were measured; and some had been left out."""
    case, teeth = built
    casts, workers = live.remounted(teeth, case), Workers(2)
    arches = SimpleNamespace(casts=casts, workers=workers)
    left_out = 0
    for quick in live.excursions_judged(case, casts, workers).sweeps:
        whole = measured_wholly(casts, quick, workers)
        assert quick.partly.any() and not quick.partly[0]
        for two in combinations(quick.upper_codes, 2):
            pairs = list(product(two, quick.lower_codes))
            found = least_gaps_over(arches, quick, pairs, quick.partly)[quick.partly]
            np.testing.assert_array_equal(found, least_gap_over(whole, pairs)[quick.partly])
            left_out += int((least_gap_over(quick, pairs)[quick.partly] > found).sum())
    assert left_out > 20


def test_readings_are_exact_and_other_poses_near_their_travel(built):
    """The first answer hits every reading; its other poses are within 5 micrometres of theirs."""
    case, teeth = built
    casts, workers = live.remounted(teeth, case), Workers(2)
    quick = live.excursions_judged(case, casts, workers)
    whole = followed_excursions(case, casts, live.MAIN, workers)
    for brisk, exact in zip(quick.sweeps, whole, strict=True):
        assert len(brisk.travel_mm) == len(exact.travel_mm)
        missed = np.abs(brisk.travel_mm - exact.travel_mm)
        assert 1e-6 < missed.max() < 0.0051
        for reading_mm in case.judging.readings_mm:
            if reading_mm < exact.travel_mm[-1]:
                assert missed[np.argmin(np.abs(exact.travel_mm - reading_mm))] < 2e-9


def test_the_first_answer_finds_what_a_whole_run_finds(built):
    """The same kinds, teeth and severities, on poses that hardly differ."""
    case, teeth = built
    casts, workers = live.remounted(teeth, case), Workers(2)
    quick = live.excursions_judged(case, casts, workers)
    whole = judged(case, casts, followed_excursions(case, casts, live.MAIN, workers), workers)
    told = [
        {(one.kind, one.tooth_upper, one.tooth_lower, one.severity) for one in found.findings}
        for found in (quick, whole)
    ]
    assert told[0] == told[1]


@pytest.mark.parametrize("threads", [1, 2])
def test_a_pose_is_that_of_its_sweep(built, threads):
    """Whatever else is asked for, and on any number of threads."""
    case, teeth = built
    casts, workers = live.remounted(teeth, case), Workers(threads)
    tolerance_mm = case.judging.tolerance_mm
    for excursion in (protrusion(), left_lateral()):
        (sweep,) = followed_excursions(case, casts, (excursion,), Workers())
        for travel_mm in (0.0, 0.5, 2.3):
            row = int(np.argmin(np.abs(sweep.travel_mm - travel_mm)))
            at = live.pose_at_travel(casts, excursion, travel_mm, tolerance_mm, workers)
            assert at.travel_mm == sweep.travel_mm[row]
            assert np.array_equal(at.pose, sweep.poses[row])
            assert at.guide == sweep.guide[row]
            assert at.runner_up_gap_mm == sweep.runner_up_gap_mm[row]
            mine = sweep.patches.area_mm2[sweep.patches.pose == row]
            assert np.array_equal(at.patches.area_mm2, mine)


def test_beyond_the_end_the_last_place_is_shown():
    """A retrusion ends in CR, some tenths of a millimetre from MI."""
    case = coarse("upper_distal_extension")
    casts = live.remounted(live.teeth_for(case, print), case)
    at = live.pose_at_travel(casts, retrusion(), 4.0, 0.02, Workers())
    assert 0.1 < at.travel_mm < 1.0
    assert at.positions.advance_right_mm == 0.0


def test_excursions_no_longer_wanted_are_left_off():
    """What the callback of the workers raises comes through, wherever the work has got to."""

    class Unwanted(Exception):
        pass

    case = coarse("upper_distal_extension")
    casts = live.remounted(live.teeth_for(case, print), case)
    looks, stop = [], threading.Event()

    def look(_done, _total):
        looks.append(0)
        if stop.is_set():
            raise Unwanted

    live.excursions_judged(case, casts, Workers(2, look))
    assert len(looks) > 5
    stop.set()
    with pytest.raises(Unwanted):
        live.excursions_judged(case, casts, Workers(2, look))
