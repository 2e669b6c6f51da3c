"""One run of a study tells what a whole run tells of the same settings."""

import json
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_changes import changed_case
from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import judged, occlusion_of
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.excursions import left_lateral, protrusion, retrusion, right_lateral
from kinematics.mounting import mounted_casts
from kinematics.planning.contact_runs import judged as judged_poses
from kinematics.planning.extent_findings import extent_findings
from kinematics.planning.slide import centric_slide
from kinematics.studies.point import (
    FINDINGS,
    REFUSED,
    Varied,
    columns,
    outcome,
    prepare,
    run_sample,
)
from kinematics.studies.quantities import quantities
from kinematics.uncertainty.hinge_axis import AXIS_FORWARD, AXIS_TILT, AXIS_UP
from tests.shipped_cases import coarse

CASES = ("upper_distal_extension", "nonworking_interference")
RIGHT = "guidance.right.condylar_inclination_deg"
LEFT = "guidance.left.condylar_inclination_deg"
CHANGES = (
    {},
    {RIGHT: 22.0, LEFT: 31.0},
    {RIGHT: 51.0, LEFT: 44.0, "guidance.right.immediate_shift_mm": 0.8},
    {"guidance.intercondylar_distance_mm": 121.0},
    {AXIS_FORWARD: 4.0, AXIS_UP: -3.0},
    {AXIS_TILT: 6.0},
    {"dentition.overbite_mm": 3.0},
    {RIGHT: 95.0},
)


@pytest.fixture(scope="module", params=CASES)
def prepared(request):
    """Return what all runs of a case share."""
    return prepare(Varied(coarse(request.param), CHANGES))


def whole(case):
    """Return a case's casts and everything that a whole run has of the same excursions."""
    casts, workers = mounted_casts(case), Workers()
    paths = (protrusion(), right_lateral(), left_lateral(), retrusion())
    sweeps = followed_excursions(case, casts, paths, workers)
    slide = centric_slide(sweeps[-1], case.judging.stop_tolerance_mm)
    return casts, judged(case, casts, sweeps, workers, slide)


def told_by(findings):
    """Return what is told of findings, but for figures."""
    return sorted(
        (one.kind, str(one.excursion), one.severity, one.tooth_upper or 0, one.tooth_lower or 0)
        for one in findings
    )


@pytest.mark.parametrize("number", [0, 2])
def test_findings_are_those_of_a_whole_run_of_these_excursions(prepared, number):
    """But for those on set-ups and records, and notes on contacts that end between two poses."""
    case = changed_case(prepared.subject.case, CHANGES[number])
    casts, found = whole(case)
    at_once = extent_findings(occlusion_of(case, casts, Workers()), found.extents)
    expected = [one for one in found.findings if one not in at_once]
    row = run_sample(prepared, number)
    assert row[REFUSED] == ""
    kept = [json.loads(text) for text in row[FINDINGS]]
    named = sorted((k, str(e), s, p[0][0] or 0, p[0][1] or 0) for k, e, s, p, _, _ in kept)
    elsewhere = {"casts that cannot be put together with certainty", "contacts near MI"}
    assert [one for one in named if one[0] not in elsewhere] == [
        one for one in told_by(expected) if one[0] not in elsewhere
    ]
    assert any(one[0] == "deflective contact" or one[1] != "None" for one in named)


@pytest.mark.parametrize("number", [1, 5])
def test_quantities_are_those_of_sweeps_that_leave_nothing_out(prepared, number):
    """Least gaps over every judged pose, gaps of first molars and turns at the readings."""
    told = outcome(prepared, CHANGES[number])
    row = run_sample(prepared, number)
    limit, teeth = told.case.sweep.gap_limit_mm, set(told.case.replacement_teeth)
    for label, sweep in zip(
        ("protrusion", "right lateral", "left lateral"), told.judged.sweeps, strict=False
    ):
        uppers, lowers = sweep.upper_codes, sweep.lower_codes
        gaps = pair_gaps(told.casts.pair, sweep.poses, limit, uppers, lowers)
        if teeth:
            where = judged_poses(sweep, told.case.judging)
            of_them = np.isin(uppers, list(teeth))[:, None] | np.isin(lowers, list(teeth))
            least = gaps[where][:, of_them].min()
            assert row[f"least gap of replacement teeth: {label}, mm"] == pytest.approx(least)
        for at in (1.0, 3.0):
            pose = int(np.argmin(np.abs(sweep.travel_mm - at)))
            if abs(sweep.travel_mm[pose] - at) > 1e-6:
                continue
            gap = gaps[pose, uppers.index(26), lowers.index(36)]
            name = f"gap of first molars: {label} at {at:g} mm, left, mm"
            np.testing.assert_allclose(row[name], np.nan if np.isinf(gap) else gap)
            if label == "protrusion":
                turn = sweep.poses[pose, :3, :3] @ sweep.poses[0, :3, :3].T
                angle = np.degrees(np.arctan2(turn[2, 0], turn[0, 0]))
                name = f"Christensen angle: {label} at {at:g} mm, deg"
                assert row[name] == pytest.approx(angle, abs=1e-9)


def test_a_true_axis_elsewhere_leaves_the_bite_and_turns_the_jaw_about_it(prepared):
    """Teeth stand in MI as they did; seen from the mounted frame the hinge lies elsewhere."""
    before, after = outcome(prepared, {}).casts, outcome(prepared, CHANGES[4]).casts
    in_mi = [
        move_points(casts.mi_pose, casts.lower.mesh.vertices[::97]) for casts in (before, after)
    ]
    shift = np.array([4.0, 0.0, -3.0])
    np.testing.assert_allclose(in_mi[1] + shift, in_mi[0], atol=1e-9)
    uppers = [casts.upper.mesh.vertices[::97] for casts in (before, after)]
    np.testing.assert_allclose(uppers[1] + shift, uppers[0], atol=1e-12)


def test_a_tilted_reference_plane_is_another_inclination_to_the_teeth(prepared):
    """The front of a plane tilted by 6 degrees lies lower: guides of 35 are as 29 were, or 41."""
    tilted = outcome(prepared, {AXIS_TILT: 6.0}).casts
    plain = outcome(prepared, {}).casts
    turn = tilted.upper.mesh.vertices[::97], plain.upper.mesh.vertices[::97]
    rise = turn[0][:, 2] - turn[1][:, 2]
    assert (rise[turn[1][:, 0] > 60.0] > 4.0).all()
    angle = np.radians(6.0)
    back = np.array(
        [[np.cos(angle), 0, np.sin(angle)], [0, 1, 0], [-np.sin(angle), 0, np.cos(angle)]]
    )
    np.testing.assert_allclose(turn[0] @ back.T, turn[1], atol=1e-9)


def test_settings_of_teeth_build_them_anew(prepared):
    """A deeper overbite is another dentition; one of guidance is not."""
    same, other = (outcome(prepared, CHANGES[number]).casts for number in (1, 6))
    assert np.array_equal(same.upper.mesh.vertices, prepared.teeth.upper.mesh.vertices)
    fresh = mounted_casts(changed_case(prepared.subject.case, CHANGES[6]))
    assert np.array_equal(other.upper.mesh.vertices, fresh.upper.mesh.vertices)


def test_settings_that_make_no_case_are_a_row_that_says_why(prepared):
    """Every column is there, and empty."""
    row = run_sample(prepared, 7)
    assert "condylar_inclination_deg = 95.0: must be 0 to 80" in row[REFUSED]
    assert list(row) == list(columns(prepared.subject.case))
    assert row[FINDINGS] == ()
    numbers = [q.name for q in quantities(prepared.subject.case) if q.kind == "float"]
    assert numbers and all(np.isnan(row[name]) for name in numbers)


def test_a_row_has_its_columns_and_is_the_same_each_time(prepared):
    """Names and kinds are told before anything runs."""
    kinds = columns(prepared.subject.case)
    first, second = run_sample(prepared, 2), run_sample(prepared, 2)
    assert list(first) == list(kinds)
    types = {"float": float, "text": str, "texts": tuple}
    assert all(isinstance(first[name], types[kind]) for name, kind in kinds.items())
    np.testing.assert_equal(dict(first), dict(second))


def test_mi_from_a_doubtful_record_moves_the_condyles_and_not_the_bite(prepared):
    """The casts stay in their bite; how far the condyles are from CR there differs."""
    subject = replace(
        prepared,
        subject=Varied(prepared.subject.case, ({"maximal_intercuspation.advance_right_mm": 0.9},)),
    )
    told, plain = outcome(subject, subject.subject.changes[0]), outcome(prepared, {})
    upper = told.casts.upper.mesh.vertices
    assert np.array_equal(upper, plain.casts.upper.mesh.vertices)
    at_bite = [inverse(one.casts.mi_pose) for one in (told, plain)]
    seen = [move_points(pose, upper[::97]) for pose in at_bite]
    lower = [one.casts.lower.mesh.vertices[::97] for one in (told, plain)]
    apart = [
        np.linalg.norm(one[:50] - other[:50], axis=1)
        for one, other in zip(seen, lower, strict=True)
    ]
    np.testing.assert_allclose(apart[0], apart[1], atol=1e-9)
    assert told.casts.mi.advance_right_mm == 0.9
