"""Lateral load of a slanting contact: statics of an incline, with and without friction."""

import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.planning.lateral_load import across_per_along, angle_to_axis_deg, with_friction

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)
UP = np.array([0.0, 0.0, 1.0])


def incline(slope_deg):
    """Return the normal of an upper incline that faces inward, and the way out along it."""
    slope = np.radians(slope_deg)
    return np.array([np.sin(slope), 0, np.cos(slope)]), np.array([np.cos(slope), 0, -np.sin(slope)])


def test_load_on_an_incline_without_friction():
    """Across = along x tan(slope), as statics gives it."""
    published = PUBLISHED["incline_without_friction"]
    got = [100 * across_per_along(incline(slope)[0], UP) for slope in published["slope_deg"]]
    np.testing.assert_allclose(got, published["lateral_n_per_100_n"], atol=0.05)


@pytest.mark.parametrize("row", PUBLISHED["incline_with_friction"])
def test_load_on_an_incline_with_friction_follows_the_movement(row):
    """Outward friction adds to the slope, sliding back in it takes from it."""
    got = []
    for slope in row["slope_deg"]:
        normal, outward = incline(slope)
        push = with_friction(normal, outward if row["outward"] else -outward, row["coefficient"])
        got.append(100 * across_per_along(push, UP))
    np.testing.assert_allclose(got, row["lateral_n_per_100_n"], atol=0.05)


@given(st.floats(0.1, 80.0), st.floats(0.0, 0.5), st.floats(0.01, 100.0), st.floats(0.0, 360.0))
def test_friction_is_the_tangent_of_the_sum_of_angles(slope, coefficient, speed, turn):
    """tan(slope + atan mu) in any direction around the axis, whatever the speed."""
    normal, outward = incline(slope)
    cos, sin = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    about = np.array([[cos, -sin, 0], [sin, cos, 0], [0, 0, 1.0]])
    push = with_friction(about @ normal, about @ (speed * outward), coefficient)
    angle = np.radians(slope) + np.arctan(coefficient)
    wanted = np.tan(angle) if angle < np.pi / 2 - 1e-6 else np.inf
    assert across_per_along(push, UP) == pytest.approx(wanted, rel=1e-6)


def test_a_force_with_no_part_along_the_axis():
    """At right angles or away from the root the ratio is infinite, not negative."""
    assert across_per_along(np.array([1.0, 0, 0]), UP) == np.inf
    assert across_per_along(np.array([1.0, 0, -0.5]), UP) == np.inf
    assert across_per_along(UP, UP) == 0.0
    assert angle_to_axis_deg(np.array([1.0, 0, 0]), UP) == pytest.approx(90.0)
    np.testing.assert_array_equal(with_friction(UP, np.zeros(3), 0.3), UP)
