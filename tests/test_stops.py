"""Centric stops, teeth without one, what a strip does, and whether stops balance to the axis."""

import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.contact.closure import close
from kinematics.contact.pair import LeaveOut
from kinematics.guidance import excursions
from kinematics.planning.axis_balance import ALONG_AXIS_DEG, angle_off_axis_deg
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.mi_findings import stop_findings
from kinematics.planning.stops import (
    Stop,
    centric_stops,
    strip_reading,
    strip_readings,
    teeth_without_stop,
)
from kinematics.tooth_codes import opponent
from scenes.report_tables import stops_sentence
from tests.shipped_cases import with_teeth
from tests.small_mouth import UPPERS, mouth, occlusion, swept

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)
SETTINGS = JudgingSettings()
UP = np.array([0.0, 0.0, 1.0])


def in_mi(casts):
    """Return a sweep that starts in MI."""
    return swept(casts, excursions.protrusion(), travel_mm=1.0, step_mm=1.0)


def test_every_tip_in_contact_is_a_stop():
    """Ten tips in ten planes give ten stops, all even."""
    sweep = in_mi(mouth())
    stops = centric_stops(sweep.patches, SETTINGS)
    assert sorted(stop.tooth_upper for stop in stops) == sorted(UPPERS)
    assert max(abs(stop.arc_gap_mm) for stop in stops) < 1e-9
    assert teeth_without_stop(stops, sweep.upper_codes) == ()


@pytest.mark.parametrize(("clearance_um", "is_stop"), [(1.6, True), (1.7, False)])
def test_a_stop_is_within_two_micrometres_along_the_arc(clearance_um, is_stop):
    """46 closes 34 degrees off the vertical: 1.6 micrometres low are 1.93 along the arc."""
    sweep = in_mi(mouth(clearances={46: 1e-3 * clearance_um}))
    stops = centric_stops(sweep.patches, SETTINGS)
    assert ((16, 46) in {(s.tooth_upper, s.tooth_lower) for s in stops}) == is_stop
    assert (16 in teeth_without_stop(stops, sweep.upper_codes)) != is_stop
    on_scans = centric_stops(sweep.patches, JudgingSettings(stop_tolerance_mm=0.02))
    assert 16 in {stop.tooth_upper for stop in on_scans}


def test_arc_gap_is_what_closing_with_all_other_pairs_left_out_gives():
    """The gap along the arc equals further closing of that pair alone, times its radius."""
    casts = mouth(clearances={46: 0.0015, 36: 0.0008})
    sweep = in_mi(casts)
    start = sweep.positions.pose_at_zero[:1]
    first = sweep.closures.opening_rad[0]
    for stop in centric_stops(sweep.patches, SETTINGS):
        own = (stop.tooth_upper, stop.tooth_lower)
        others = frozenset((u, opponent(v)) for u in UPPERS for v in UPPERS) - {own}
        alone = close(casts.pair, start, LeaveOut(pairs=others))
        gap = (first - alone.opening_rad[0]) * alone.radius_mm[0]
        assert stop.arc_gap_mm == pytest.approx(gap, abs=1e-7)


def test_strip_holds_drags_and_runs_free_as_published():
    """An 8 micrometre strip in gaps of 0 to 9 micrometres."""
    published = PUBLISHED["shim_strip"]
    got = [strip_reading(1e-3 * gap) for gap in published["gap_um"]]
    assert got == published["reading"]
    readings = strip_readings(in_mi(mouth(clearances={46: 0.007, 36: 0.02})))
    assert (readings[17], readings[16], readings[26]) == ("holds", "drags", "free")


def stop(normal, point=(0.0, 0.0, 0.0), upper=16, lower=46):
    """Return a stop with a normal of unit length."""
    unit = np.array(normal, dtype=float) / np.linalg.norm(normal)
    return Stop(upper, lower, point, 0.0, 0.3, tuple(unit))


def incline(slope_deg, turn_deg, distance=2.0):
    """Return a stop on an incline that faces the axis, at a distance from it."""
    slope, turn = np.radians([slope_deg, turn_deg])
    toward = np.array([np.cos(turn), np.sin(turn)])
    normal = [*(-np.sin(slope) * toward), np.cos(slope)]
    return stop(normal, (*(distance * toward), 0.0))


@given(st.floats(0.0, 60.0))
def test_a_single_stop_is_off_the_axis_by_its_slope(slope):
    """One incline alone pushes along its normal, and nothing can be done about it."""
    angle = angle_off_axis_deg((incline(slope, 40.0),), 16, UP, np.zeros(3))
    assert angle == pytest.approx(slope, abs=1e-6)


@given(st.floats(5.0, 50.0), st.floats(0.0, 360.0))
def test_tripod_stops_on_inclines_balance(slope, turn):
    """Three inclines that face each other push straight along the axis together."""
    tripod = tuple(incline(slope, turn + 120.0 * k) for k in range(3))
    assert angle_off_axis_deg(tripod, 16, UP, np.zeros(3)) == pytest.approx(0.0, abs=1e-6)


def test_two_inclines_that_face_each_other_balance_and_two_alike_do_not():
    """Buccal and lingual inclines of 30 degrees balance; two buccal ones do not."""
    facing = (incline(30.0, 0.0), incline(30.0, 180.0))
    alike = (incline(30.0, -20.0), incline(30.0, 20.0))
    assert angle_off_axis_deg(facing, 16, UP, np.zeros(3)) < 1e-6
    assert angle_off_axis_deg(alike, 16, UP, np.zeros(3)) > 25.0


def test_twist_about_the_axis_counts():
    """Two facing pushes past each other turn the tooth: their moment does not balance."""
    past = (
        stop((-0.5, 0.0, 0.87), (2.0, 1.5, 0.0)),
        stop((0.5, 0.0, 0.87), (-2.0, -1.5, 0.0)),
    )
    assert angle_off_axis_deg(past, 16, UP, np.zeros(3)) > ALONG_AXIS_DEG
    straight = (
        stop((-0.5, 0.0, 0.87), (2.0, 1.5, 0.0)),
        stop((0.5, 0.0, 0.87), (-2.0, 1.5, 0.0)),
    )
    assert angle_off_axis_deg(straight, 16, UP, np.zeros(3)) < 1e-6


def test_a_lower_tooth_is_pushed_the_other_way():
    """The same stop pushes 46 down with the opposite sign."""
    stops = (incline(20.0, 0.0),)
    assert angle_off_axis_deg(stops, 46, -UP, np.zeros(3)) == pytest.approx(20.0, abs=1e-6)
    assert angle_off_axis_deg(stops, 46, UP, np.zeros(3)) == pytest.approx(90.0)
    assert angle_off_axis_deg(stops, 47, -UP, np.zeros(3)) == 90.0


def test_what_stops_and_their_absence_say():
    """Counts, strip, a back tooth left without, front teeth without, each in its severity."""
    casts = mouth(clearances={46: 0.3, 36: 0.01, 41: 0.2, 31: 4.0})
    sweep = in_mi(casts)
    stops = centric_stops(sweep.patches, SETTINGS)
    found = stop_findings(occlusion(casts), sweep, stops)
    by_kind = {}
    for finding in found:
        by_kind.setdefault(finding.kind, []).append(finding)
    (count,) = by_kind["centric stops"]
    assert [figure.value for figure in count.figures[:3]] == [2.0, 2.0, 2.0]
    graver = [f for f in by_kind["no centric stop"] if f.severity == "attention"]
    (both,) = graver
    assert both.text.startswith(
        "In MI neither 16 nor 46 has a centric stop, and they stand 0.30 mm"
    )
    assert "16 and 46 are free to over-erupt unless held" in both.text
    assert (both.tooth_upper, both.tooth_lower) == (16, 46)
    assert "Kiliaridis" in both.threshold_source
    assert both.margin.value == pytest.approx(0.3 - 0.002, abs=1e-6)
    (near,) = [f for f in by_kind["no centric stop"] if f.severity == "note"]
    assert (near.tooth_upper, near.tooth_lower) == (26, 36)
    assert "within the contact tolerance of 20 µm" in near.text
    assert [figure.name for figure in near.figures] == ["least distance", "least arc gap"]
    assert near.margin.value == pytest.approx(near.figures[1].value - 0.002)
    assert near.figures[1].value >= near.figures[0].value
    (front,) = by_kind["front teeth without a centric stop"]
    assert front.text == "Front teeth without a centric stop: 11, 21, 41 and 31."
    assert by_kind["shim strip in MI"][0].text == (
        "In MI an 8 µm shim strip would be held by 17, 15, 13, 23, 25 and 27, slip free at 16, 11,"
        " 21 and 26."
    )


def test_a_tooth_with_nothing_near_names_no_opponent():
    """Beyond what was measured the distance is a bound and the opponent is not named."""
    casts = mouth(clearances={46: 5.0})
    sweep = in_mi(casts)
    found = stop_findings(occlusion(casts), sweep, centric_stops(sweep.patches, SETTINGS))
    upper, lower = [f for f in found if f.kind == "no centric stop"]
    assert (upper.tooth_upper, upper.tooth_lower) == (16, None)
    assert (lower.tooth_upper, lower.tooth_lower) == (None, 46)
    assert upper.text == (
        "In MI 16 has no centric stop and stands over 3.00 mm from any tooth; 16 is free to"
        " over-erupt unless held by a splint, a bridge or a rest."
    )
    assert upper.figures == ()
    assert upper.margin.value == pytest.approx(3.0 - 0.002)


def test_stops_of_a_replacement_tooth_off_its_axis_are_flagged():
    """A single stop on a slope of 35 degrees cannot balance; on a level plane it can."""
    base = DentureBase(name="right", teeth=(16,), abutments=(15,))
    for slope, flagged in ((0.7, True), (0.0, False)):
        casts = mouth({16: (0.0, slope)}, domes=(46,))
        sweep = in_mi(casts)
        stops = centric_stops(sweep.patches, SETTINGS)
        found = stop_findings(occlusion(casts, bases=(base,)), sweep, stops)
        off = [f for f in found if f.kind == "stops off the axis"]
        assert bool(off) == flagged
        if flagged:
            angle = off[0].figures[0].value
            assert angle == pytest.approx(np.degrees(np.arctan(0.7)), abs=2.0)
            assert off[0].threshold.value == ALONG_AXIS_DEG


def test_front_teeth_that_touch_in_mi_are_a_fault_of_balance_only():
    """Balanced articulation wants the front teeth clear in MI; the other schemes do not."""
    casts = mouth()
    sweep = in_mi(casts)
    stops = centric_stops(sweep.patches, SETTINGS)
    for scheme, count in (("balanced", 4), ("canine", 0), ("group", 0)):
        found = stop_findings(occlusion(casts, scheme=scheme), sweep, stops)
        assert sum(f.kind == "anterior contact in MI" for f in found) == count


def test_no_back_tooth_that_meets_is_serious():
    """Without upper back teeth nothing meets on either side, and the sentence says so."""
    lost = tuple(quadrant + number for quadrant in (10, 20) for number in (4, 5, 6, 7))
    result = with_teeth("natural_dentition", missing=lost)
    (count,) = (finding for finding in result.findings if finding.kind == "centric stops")
    assert count.severity == "serious"
    assert "no back tooth of either side has a centric stop" in count.text
    assert "no back tooth of either side meets" in stops_sentence(result)
