"""Runs of a study on scanned casts whose MI follows from a record of CR."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_changes import changed_case
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.studies.point import FINDINGS, REFUSED, Varied, prepare, run_sample, with_mi_set
from kinematics.studies.quantities import SLIDE
from kinematics.uncertainty.factors import factors
from tests.made_records import record_of, rows
from tests.scanned_case import case_of, scans_in_mi

MI = GuidanceCoordinates(0.5, 0.3, 0.0, 0.0)
RIGHT, LEFT = (f"maximal_intercuspation.advance_{side}_mm" for side in ("right", "left"))


@pytest.fixture(scope="module")
def recorded(tmp_path_factory):
    """Return a case of scanned casts with a record of CR from which MI follows."""
    case = case_of(tmp_path_factory.mktemp("scans") / "case", *scans_in_mi(10_000))
    record = record_of(prepare_guidance(case.guidance), MI, np.eye(4), np.eye(4), 0.02)
    return replace(
        case,
        scans=replace(case.scans, centric_records=(rows(record),)),
        sweep=replace(case.sweep, step_mm=0.5, travel_mm=3.0),
    )


def test_mi_can_be_varied_where_a_record_gives_it(recorded):
    """It stands where the record puts it, and may then be changed; other cases stay."""
    assert "place of MI ahead of CR, right and left" in {f.name for f in factors(recorded.studied)}
    told = with_mi_set(recorded)
    assert not told.mi_is_recorded
    found = told.mi.advance_right_mm, told.mi.advance_left_mm, told.mi.shift_mm
    assert found == pytest.approx((0.5, 0.3, 0.0), abs=1e-6)
    assert changed_case(told, {RIGHT: 0.8}).mi.advance_right_mm == 0.8
    assert with_mi_set(told) is told


def test_runs_start_where_the_record_puts_mi(recorded):
    """Told by numbers as by the record; farther from CR, the slide is longer."""
    at = with_mi_set(recorded).mi
    same = {RIGHT: at.advance_right_mm, LEFT: at.advance_left_mm}
    prepared = prepare(Varied(recorded, ({}, same, {RIGHT: 1.0, LEFT: 0.8})))
    as_set, by_numbers, farther = (run_sample(prepared, number) for number in range(3))
    assert [row[REFUSED] for row in (as_set, by_numbers, farther)] == [""] * 3
    assert by_numbers[FINDINGS] == as_set[FINDINGS]
    assert by_numbers[SLIDE] == pytest.approx(as_set[SLIDE], abs=1e-6)
    assert farther[SLIDE] > as_set[SLIDE] + 0.2
