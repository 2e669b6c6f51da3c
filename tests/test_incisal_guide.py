"""The tip follows its table: flat, inclined, wings in the table's own frame, measured."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from kinematics.checks import InputError
from kinematics.geometry.poses import move_points
from kinematics.guidance import excursions
from kinematics.guidance.guidance import prepare
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import CENTRIC_RELATION, GuidanceCoordinates, opened, place
from kinematics.guidance.settings import GuidanceSettings, IncisalTable, SideGuidance

TIP = np.array([84.0, 1.0, -33.0])
MI = GuidanceCoordinates(0.5, 0.5, 0.0, 0.02)

TABLES = st.builds(
    IncisalTable,
    sagittal_deg=st.floats(0.0, 70.0),
    wing_right_deg=st.floats(0.0, 50.0),
    wing_left_deg=st.floats(0.0, 50.0),
    freedom_mm=st.floats(0.0, 1.0),
)


def jaw(table, condylar_deg=35.0, **side):
    """Two equal sides and a table."""
    both = SideGuidance(condylar_inclination_deg=condylar_deg, **side)
    return prepare(GuidanceSettings(right=both, left=both, incisal_table=table))


def in_mi(guidance, tip=TIP, mi=MI):
    """Place of the tip in MI, hinge frame."""
    positions = place(guidance, mi.advance_right_mm, mi.advance_left_mm, mi.shift_mm)
    return move_points(opened(positions, mi.opening_rad), tip[None])[0, 0]


def followed(guidance, excursion, count=13, tip=TIP, start=MI):
    """Displacements of the tip from MI along 6 mm of an excursion, and positions and openings."""
    origin = in_mi(guidance, tip)
    course = excursions.along(guidance, excursion, start, np.linspace(0.0, 6.0, count))
    positions = place(guidance, *course)
    opening = table_opening(guidance, positions, tip, origin)
    moved = move_points(opened(positions, opening), tip[None])[:, 0] - origin
    return moved, positions, opening


def height_over_table(table, moved):
    """How far tips stand above the table, written out as the words say it (negative: below)."""
    slope = math.radians(table.sagittal_deg)
    wing = np.where(moved[..., 1] < 0.0, table.wing_right_deg, table.wing_left_deg)
    side = np.tan(np.radians(wing)) * np.abs(moved[..., 1])
    flat = moved[..., 2] + side
    ahead = (moved[..., 0] - table.freedom_mm) * math.sin(slope)
    inclined = ahead + moved[..., 2] * math.cos(slope) + side
    return np.maximum(flat, inclined)


@given(TABLES, st.floats(-90.0, 90.0), st.floats(0.0, 55.0))
def test_the_tip_lies_on_its_table(table, azimuth, condylar_deg):
    """At the opening found the tip touches the table, and any more opening frees it."""
    guidance = jaw(table, condylar_deg)
    moved, positions, opening = followed(guidance, excursions.lateroprotrusion(azimuth))
    np.testing.assert_allclose(height_over_table(table, moved), 0.0, atol=1e-12)
    origin = in_mi(guidance)
    for more in (1e-4, 0.1, 0.5, 1.0):
        freed = move_points(opened(positions, opening + more), TIP[None])[:, 0] - origin
        assert (height_over_table(table, freed) < 0.0).all()


@given(TABLES)
def test_in_mi_the_table_gives_back_the_opening_of_mi(table):
    """The table starts where the tip stands."""
    _, _, opening = followed(jaw(table), excursions.protrusion(), 2)
    assert opening[0] == pytest.approx(MI.opening_rad, abs=1e-14)


def test_the_opening_agrees_with_a_slow_search():
    """Closing step by step from wide open finds the same first touch."""
    table = IncisalTable(sagittal_deg=50.0, wing_right_deg=25.0, wing_left_deg=10.0, freedom_mm=0.4)
    guidance = jaw(table, immediate_shift_mm=1.0)
    moved, positions, opening = followed(guidance, excursions.right_lateral(), 4)
    origin = in_mi(guidance)
    for row in range(len(moved)):
        pose = positions.pose_at_zero[row]

        def height(angle, pose=pose):
            turn = np.array([math.cos(angle), math.sin(angle)])
            turned = np.array(
                [TIP[0] * turn[0] + TIP[2] * turn[1], TIP[1], TIP[2] * turn[0] - TIP[0] * turn[1]]
            )
            return float(height_over_table(table, pose[:3, :3] @ turned + pose[:3, 3] - origin))

        angles = np.arange(1.0, -0.3, -1e-3)
        touched = next(k for k, angle in enumerate(angles) if height(angle) >= 0.0)
        found = brentq(height, angles[touched], angles[touched - 1], xtol=1e-14)
        assert opening[row] == pytest.approx(found, abs=1e-12)


def test_freedom_lets_the_tip_go_level_and_then_down():
    """A long centric: no change of height over the freedom, then the inclination."""
    table = IncisalTable(sagittal_deg=45.0, freedom_mm=0.5)
    moved, *_ = followed(jaw(table), excursions.protrusion(), 601)
    free = moved[:, 0] <= 0.5
    assert 20 < free.sum() < 580
    np.testing.assert_allclose(moved[free, 2], 0.0, atol=1e-12)
    np.testing.assert_allclose(moved[~free, 2], 0.5 - moved[~free, 0], atol=1e-12)


def test_behind_mi_the_table_is_flat():
    """Retrusion to CR keeps the height of the tip."""
    table = IncisalTable(sagittal_deg=60.0, wing_right_deg=30.0, wing_left_deg=30.0)
    guidance = jaw(table)
    origin = in_mi(guidance)
    course = excursions.along(guidance, excursions.retrusion(), MI, np.linspace(0.0, 0.5, 6))
    positions = place(guidance, *course)
    poses = opened(positions, table_opening(guidance, positions, TIP, origin))
    moved = move_points(poses, TIP[None])[:, 0] - origin
    np.testing.assert_allclose(moved[:, 2], 0.0, atol=1e-12)
    assert moved[-1, 0] < -0.4


def test_wings_lie_on_their_own_sides():
    """The right wing guides a movement to the right, the left wing one to the left."""
    table = IncisalTable(wing_right_deg=30.0, wing_left_deg=10.0)
    for excursion, angle in ((excursions.right_lateral(), 30.0), (excursions.left_lateral(), 10.0)):
        moved, *_ = followed(jaw(table), excursion)
        slope = -moved[1:, 2] / np.abs(moved[1:, 1])
        np.testing.assert_allclose(slope, math.tan(math.radians(angle)), atol=1e-12)


@pytest.mark.parametrize("azimuth", [-90.0, 0.0, 40.0])
def test_tip_on_the_upper_guides_a_translating_jaw_alike(azimuth):
    """Where the jaw does not turn, a table on the lower gives the same movement."""
    angles = {"sagittal_deg": 35.0, "wing_right_deg": 20.0, "wing_left_deg": 20.0}
    settings = {"progressive_shift_deg": 0.0}
    lower = jaw(IncisalTable(**angles), **settings)
    upper = jaw(IncisalTable(tip_on="upper", **angles), **settings)
    excursion = excursions.lateroprotrusion(azimuth, "CR")
    course = excursions.along(lower, excursion, CENTRIC_RELATION, [0.0, 1.0, 4.0])
    openings = []
    for guidance in (lower, upper):
        positions = place(guidance, *course)
        openings.append(table_opening(guidance, positions, TIP, TIP))
    if azimuth == 0.0:
        np.testing.assert_allclose(openings[0], openings[1], atol=1e-14)
        np.testing.assert_allclose(openings[1], 0.0, atol=1e-14)
    else:
        assert openings[1][0] == pytest.approx(0.0, abs=1e-14)
        assert np.abs(openings[0] - openings[1]).max() < 0.02


@given(TABLES, st.floats(-90.0, 90.0))
def test_an_upper_tip_lies_on_the_table_of_the_lower(table, azimuth):
    """Seen from the lower, the upper tip touches the table and more opening frees it."""
    table = IncisalTable(
        table.sagittal_deg, table.wing_right_deg, table.wing_left_deg, table.freedom_mm, "upper"
    )
    guidance = jaw(table)
    origin = in_mi(guidance)
    course = excursions.along(guidance, excursions.lateroprotrusion(azimuth), MI, [0.0, 2.0, 5.0])
    positions = place(guidance, *course)
    opening = table_opening(guidance, positions, TIP, origin)
    for more, check in ((0.0, lambda h: abs(h) < 1e-12), (0.05, lambda h: h < 0.0)):
        for pose in opened(positions, opening + more):
            seen = np.linalg.solve(pose, np.append(origin, 1.0))[:3]
            assert check(height_over_table(table, TIP - seen))


def test_a_measured_table_of_a_plane_is_that_plane():
    """Points taken from an inclined plane with wings guide as the plane does, inside them."""
    table = IncisalTable(sagittal_deg=30.0, wing_right_deg=20.0, wing_left_deg=20.0)
    x, y = np.meshgrid(np.linspace(-2.0, 8.0, 11), np.array([-8.0, -4.0, 0.0, 4.0, 8.0]))
    tangent, cosine = math.tan(math.radians(20.0)), math.cos(math.radians(30.0))
    inclined = -(x * math.sin(math.radians(30.0)) + tangent * np.abs(y)) / cosine
    z = np.minimum(inclined, -tangent * np.abs(y))
    points = tuple(zip(x.ravel(), y.ravel(), z.ravel(), strict=True))
    for excursion in (excursions.protrusion(), excursions.left_lateral()):
        wanted = followed(jaw(table), excursion)[2]
        found = followed(jaw(IncisalTable(measured_points=points)), excursion)[2]
        # Over the bend between flat and inclined the facets cut the corner of the wings.
        np.testing.assert_allclose(found, wanted, atol=6e-4)
    straight = followed(jaw(table), excursions.protrusion())[2]
    measured = followed(jaw(IncisalTable(measured_points=points)), excursions.protrusion())[2]
    np.testing.assert_allclose(measured, straight, atol=1e-9)


def test_beyond_a_measured_table_nothing_guides():
    """Past its last point the tip never meets it, and such a jaw has no pose."""
    points = ((-1.0, -2.0, 0.0), (-1.0, 2.0, 0.0), (2.0, -2.0, -1.0), (2.0, 2.0, -1.0))
    guidance = jaw(IncisalTable(measured_points=points))
    tip = np.array([84.0, 0.0, -33.0])
    progress = np.linspace(0.0, 6.0, 13)
    course = excursions.along(guidance, excursions.protrusion("CR"), CENTRIC_RELATION, progress)
    positions = place(guidance, *course)
    opening = table_opening(guidance, positions, tip, np.array([84.0, 0.0, -33.0 + 1.0 / 3.0]))
    # The condyles go forward by cos 35 of the progress, and the tip a little less.
    reached = progress * math.cos(math.radians(35.0)) < 2.0
    np.testing.assert_array_equal(np.isfinite(opening), reached)
    assert (opening[~reached] == -np.inf).all()
    with pytest.raises(InputError, match=r"opening_rad: entry \(5,\) is -inf"):
        opened(positions, opening)


def test_without_a_table_nothing_guides():
    """No table, no touch."""
    guidance = prepare(GuidanceSettings())
    positions = place(guidance, [0.0, 1.0], [0.0, 1.0])
    np.testing.assert_array_equal(table_opening(guidance, positions, TIP, TIP), [-np.inf, -np.inf])


def test_a_tip_that_cannot_reach_its_table_never_meets_it():
    """A table too high for the tip's circle gives -inf, never a wrong angle."""
    guidance = jaw(IncisalTable())
    positions = place(guidance, 0.0, 0.0)
    opening = table_opening(guidance, positions, TIP, np.array([84.0, 1.0, 200.0]))
    assert opening[0] == -np.inf


def test_a_tip_above_its_table_is_refused():
    """A table below all the tip can reach, or behind the axis, is a fault of the input."""
    guidance = jaw(IncisalTable())
    positions = place(guidance, 0.0, 0.0)
    with pytest.raises(InputError, match=r"incisal guide, position 0: .*the tip is above the"):
        table_opening(guidance, positions, TIP, np.array([84.0, 1.0, -200.0]))


def test_points_that_are_no_points_are_refused():
    """The tip must be one finite point."""
    guidance = jaw(IncisalTable())
    with pytest.raises(
        InputError, match=r"tip_lower: wanted an array of shape \(3\), found \(2,\)"
    ):
        table_opening(guidance, place(guidance, 0.0, 0.0), TIP[:2], TIP)


def test_measured_points_on_one_line_are_refused():
    """A line is no table."""
    points = ((0.0, 0.0, 0.0), (1.0, 0.0, -1.0), (2.0, 0.0, -2.0))
    with pytest.raises(InputError, match="the 3 points lie on one line seen from above"):
        jaw(IncisalTable(measured_points=points))
