"""Condylar paths walked by arc length."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.checks import InputError
from kinematics.geometry.curves import (
    StraightCurve,
    circular_curve,
    displacement,
    inclination,
    measured_curve,
    turned,
)

POINTS = np.array([[0.0, 0.0], [2.0, 1.7], [4.5, 3.6], [8.0, 5.2], [12.0, 6.0]])
CURVES = {
    "straight": StraightCurve(math.radians(35.0), 15.0),
    "circular": circular_curve(math.radians(35.0), 15.0, 5.0, 15.0),
    "measured": measured_curve(POINTS, "points", 15.0),
}


def fine(curve, steps=2000):
    """Arc lengths over a whole curve, and the places there."""
    arcs = np.linspace(0.0, curve.length_mm, steps + 1)
    return arcs, displacement(curve, arcs)


@pytest.mark.parametrize("curve", CURVES.values(), ids=CURVES.keys())
def test_arc_length_is_the_length_of_the_way(curve):
    """Short chords along a curve are as long as the arc lengths between them."""
    arcs, places = fine(curve)
    chords = np.linalg.norm(np.diff(places, axis=0), axis=1)
    np.testing.assert_allclose(chords, np.diff(arcs), rtol=2e-6)
    np.testing.assert_array_equal(places[0], [0.0, 0.0])


@pytest.mark.parametrize("curve", CURVES.values(), ids=CURVES.keys())
def test_inclination_is_the_slope_of_the_way(curve):
    """Chords point where the inclination at their middle says."""
    arcs, places = fine(curve)
    chords = np.diff(places, axis=0)
    slopes = np.arctan2(chords[:, 1], chords[:, 0])
    middle = inclination(curve, 0.5 * (arcs[1:] + arcs[:-1]))
    np.testing.assert_allclose(slopes, middle, atol=1e-4)


@pytest.mark.parametrize("curve", CURVES.values(), ids=CURVES.keys())
def test_a_steeper_path_is_the_integral_of_the_steeper_tangent(curve):
    """Turning a displacement gives the integral of the turned tangent."""
    steeper = math.radians(7.0)
    arcs, places = fine(curve)
    middle = inclination(curve, 0.5 * (arcs[1:] + arcs[:-1])) + steeper
    steps = np.diff(arcs)[:, None] * np.stack([np.cos(middle), np.sin(middle)], axis=1)
    np.testing.assert_allclose(turned(places, steeper)[-1], steps.sum(axis=0), atol=1e-5)


@given(st.floats(0.0, 60.0), st.floats(8.0, 60.0), st.floats(1.0, 10.0))
def test_chord_to_the_record_has_the_given_inclination(chord_deg, radius, record):
    """A record at that distance reads the inclination that was set, whatever the radius."""
    curve = circular_curve(math.radians(chord_deg), radius, record, 12.0)
    forward, drop = displacement(curve, np.array([record]))[0]
    assert math.degrees(math.atan2(drop, forward)) == pytest.approx(chord_deg, abs=1e-11)


def test_circular_curve_lies_on_its_circle_and_passes_the_crest():
    """Every place is one radius from the centre; past the crest the curve climbs again."""
    curve = circular_curve(math.radians(35.0), 15.0, 5.0, 15.0)
    start = curve.start_inclination_rad
    centre = 15.0 * np.array([math.sin(start), math.cos(start)])
    _, places = fine(curve)
    # Forward is x and drop grows downwards, so the centre lies ahead of and above the start.
    np.testing.assert_allclose(
        np.hypot(places[:, 0] - centre[0], places[:, 1] + centre[1]), 15.0, rtol=1e-13
    )
    assert start == pytest.approx(math.radians(35.0) + 5.0 / 30.0)
    crest = int(np.argmax(places[:, 1]))
    assert crest * curve.length_mm / 2000 == pytest.approx(15.0 * start, abs=0.01)
    assert (np.diff(places[: crest - 1, 1]) > 0.0).all()
    assert (np.diff(places[crest + 1 :, 1]) < 0.0).all()


def test_measured_curve_passes_its_points_without_overshoot():
    """The points are reached at their arc lengths and nothing wiggles between them."""
    curve = measured_curve(POINTS, "points", 50.0)
    np.testing.assert_allclose(displacement(curve, curve.lengths_mm), POINTS, atol=1e-12)
    assert curve.length_mm == curve.lengths_mm[-1] > np.linalg.norm(POINTS[-1])
    _, places = fine(curve)
    assert (np.diff(places, axis=0) > 0.0).all()


def test_measured_points_of_an_arc_give_back_the_arc():
    """Points taken from a circular path give its places within 2 micrometres between them."""
    arc = circular_curve(math.radians(35.0), 19.0, 5.0, 10.0)
    taken = displacement(arc, np.linspace(0.0, 10.0, 21))
    arcs = np.linspace(0.0, 9.99, 400)
    off = displacement(measured_curve(taken, "points", 10.0), arcs) - displacement(arc, arcs)
    assert np.abs(off).max() < 2e-3


def test_two_points_make_a_straight_path():
    """Two measured points are a straight path of that inclination."""
    curve = measured_curve([[0.0, 0.0], [4.0, 3.0]], "points", 15.0)
    np.testing.assert_allclose(displacement(curve, np.array([2.5])), [[2.0, 1.5]], atol=1e-12)
    assert curve.length_mm == pytest.approx(5.0)


def test_a_measured_path_may_be_cut_short():
    """The stated path length ends it before its last point."""
    assert measured_curve(POINTS, "points", 6.0).length_mm == 6.0


@pytest.mark.parametrize(
    ("points", "message"),
    [
        ([[0.0, 0.0]], r"condyle: wanted at least 2 points \(forward, drop\), found 1"),
        ([[1.0, 0.0], [2.0, 1.0]], r"first point is \(1, 0\) mm; it must be \(0, 0\)"),
        (
            [[0.0, 0.0], [2.0, 1.0], [1.5, 2.0]],
            r"point 2 \(forward 1\.5 mm\) does not lie ahead of point 1 \(forward 2 mm\)",
        ),
        ([[0.0, 0.0], [float("nan"), 1.0]], r"entry \(1, 0\) is nan"),
    ],
)
def test_unusable_points_are_refused(points, message):
    """The message names the point and what it must be."""
    with pytest.raises(InputError, match=message):
        measured_curve(points, "condyle", 15.0)
