"""Where the lower stands: rigid, mirrored, continuous, and back to guidance coordinates."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from kinematics.checks import InputError
from kinematics.conventions import LEFT, RIGHT
from kinematics.geometry.poses import move_points, opening_rotation, pose_of
from kinematics.guidance.condyles import slide_to_distance
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import (
    CENTRIC_RELATION,
    GuidanceCoordinates,
    coordinates_of,
    opened,
    place,
    place_at,
    pose_at,
)
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from tests.jaw_strategies import (
    MIRROR,
    mirrored_coordinates,
    mirrored_settings,
    settings_and_coordinates,
)

DEFAULT = prepare(GuidanceSettings())


def jaw(right=None, left=None, **more):
    """Prepare guidance from fields of each side."""
    return prepare(
        GuidanceSettings(
            right=SideGuidance(**(right or {})), left=SideGuidance(**(left or {})), **more
        )
    )


def test_centric_relation_is_where_the_lower_is_stored():
    """No advance, no shift, no opening: identity, condyles on the axis, no working side."""
    positions = place_at(DEFAULT, CENTRIC_RELATION)
    np.testing.assert_array_equal(pose_at(DEFAULT, CENTRIC_RELATION), np.eye(4))
    np.testing.assert_array_equal(positions.condyle_right, [[0.0, -52.0, 0.0]])
    np.testing.assert_array_equal(positions.condyle_left, [[0.0, 52.0, 0.0]])
    assert positions.working_side[0] == 0
    assert positions.laterotrusion_mm[0] == positions.medial_mm[0] == positions.forward_mm[0] == 0.0


@given(settings_and_coordinates())
def test_the_jaw_is_rigid_and_carries_its_condyles(case):
    """Poses are rigid motions that carry both condyle centres; their distance is exact."""
    settings, coordinates = case
    guidance = prepare(settings)
    positions = place_at(guidance, coordinates)
    distance = np.linalg.norm(positions.condyle_left - positions.condyle_right)
    assert distance == pytest.approx(settings.intercondylar_distance_mm, abs=1e-12)
    for pose in (positions.pose_at_zero[0], pose_at(guidance, coordinates)):
        np.testing.assert_allclose(pose[:3, :3] @ pose[:3, :3].T, np.eye(3), atol=1e-14)
        assert np.linalg.det(pose[:3, :3]) == pytest.approx(1.0)
        half = guidance.half_distance_mm
        carried = move_points(pose, np.array([[0.0, -half, 0.0], [0.0, half, 0.0]]))
        wanted = np.concatenate([positions.condyle_right, positions.condyle_left])
        np.testing.assert_allclose(carried, wanted, atol=1e-12)


@given(settings_and_coordinates())
def test_swapped_sides_give_mirrored_poses(case):
    """Settings and coordinates with sides swapped give the mirror image."""
    settings, coordinates = case
    pose = pose_at(prepare(settings), coordinates)
    other = pose_at(prepare(mirrored_settings(settings)), mirrored_coordinates(coordinates))
    np.testing.assert_allclose(other, MIRROR @ pose @ MIRROR, atol=1e-9)


@given(settings_and_coordinates())
def test_guidance_coordinates_come_back_from_the_pose(case):
    """A pose that the paths allow turns into the coordinates it was made from, nothing left."""
    settings, coordinates = case
    guidance = prepare(settings)
    found = coordinates_of(guidance, pose_at(guidance, coordinates))
    got = dataclasses.astuple(found)
    np.testing.assert_allclose(got[:4], dataclasses.astuple(coordinates)[:4], atol=1e-9)
    assert max(found.residual_mm, found.residual_rad) < 1e-9


@given(
    settings_and_coordinates(),
    st.tuples(*[st.floats(-0.4, 0.4)] * 3),
    st.tuples(*[st.floats(-0.02, 0.02)] * 3),
)
def test_a_pose_off_the_paths_leaves_a_true_residual(case, move, turn):
    """What is reported as left over is what separates the pose from the rebuilt one."""
    settings, coordinates = case
    guidance = prepare(settings)
    nudge = pose_of(Rotation.from_rotvec(turn).as_matrix(), np.array(move))
    given_pose = nudge @ pose_at(guidance, coordinates)
    found = coordinates_of(guidance, given_pose)
    rebuilt = pose_at(guidance, found)
    half = guidance.half_distance_mm
    seats = np.array([[0.0, -half, 0.0], [0.0, half, 0.0]])
    apart = np.linalg.norm(move_points(given_pose, seats) - move_points(rebuilt, seats), axis=1)
    assert found.residual_mm == pytest.approx(apart.max(), abs=1e-9)
    angle = np.linalg.norm(Rotation.from_matrix(rebuilt[:3, :3].T @ given_pose[:3, :3]).as_rotvec())
    assert found.residual_rad == pytest.approx(angle, abs=1e-9)
    # No neighbour in guidance coordinates brings the condyles nearer.
    best = np.sum((move_points(given_pose, seats) - move_points(rebuilt, seats)) ** 2)
    for step in 1e-3 * np.array([[1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0], [1, 1, 0]]):
        advances = np.array([found.advance_right_mm, found.advance_left_mm]) + step[:2]
        try:
            near = place(guidance, advances[0], advances[1], found.shift_mm)
        except InputError:
            continue
        centres = np.stack([near.condyle_right[0], near.condyle_left[0]])
        assert np.sum((move_points(given_pose, seats) - centres) ** 2) > best - 1e-7


def test_a_jaw_pulled_back_behind_centric_relation_leaves_all_of_it():
    """Paths begin in CR: a pose 0.5 mm behind it has no advance and 0.5 mm left over."""
    found = coordinates_of(DEFAULT, pose_of(np.eye(3), np.array([-0.5, 0.0, 0.0])))
    assert (found.advance_right_mm, found.advance_left_mm, found.shift_mm) == (0.0, 0.0, 0.0)
    assert found.residual_mm == pytest.approx(0.5, abs=1e-12)
    assert found.residual_rad == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("scale", [1.001, -1.0])
def test_a_pose_that_scales_or_mirrors_is_refused(scale):
    """The message says by how much the matrix is off."""
    pose = np.diag([1.0, scale, 1.0, 1.0])
    with pytest.raises(InputError, match="pose: not a rigid motion"):
        coordinates_of(DEFAULT, pose)


def test_level_condyles_without_shift_have_no_working_side():
    """Equal advances move the jaw straight, on equal paths without any turn."""
    positions = place(DEFAULT, [0.0, 2.0, 9.0], [0.0, 2.0, 9.0])
    np.testing.assert_array_equal(positions.working_side, [0, 0, 0])
    np.testing.assert_array_equal(positions.laterotrusion_mm, 0.0)
    np.testing.assert_allclose(positions.pose_at_zero[:, :3, :3], np.tile(np.eye(3), (3, 1, 1)))
    cos, sin = math.cos(math.radians(35.0)), math.sin(math.radians(35.0))
    np.testing.assert_allclose(
        positions.pose_at_zero[2, :3, 3], [9.0 * cos, 0.0, -9.0 * sin], atol=1e-12
    )


def test_the_farther_condyle_names_the_working_side():
    """The condyle that goes farther is the nonworking one; the jaw moves to the other side."""
    positions = place(DEFAULT, [3.0, 0.0], [0.0, 3.0])
    np.testing.assert_array_equal(positions.working_side, [LEFT, RIGHT])
    tip = move_points(positions.pose_at_zero, np.array([[84.0, 0.0, -33.0]]))[:, 0]
    assert tip[0, 1] > 1.0
    assert tip[1, 1] < -1.0


def test_a_shift_alone_names_the_working_side():
    """Level condyles: the shift moves both condyles sideways and says which side works."""
    guidance = jaw(right={"immediate_shift_mm": 1.0})
    positions = place(guidance, 0.0, 0.0, 0.6)
    assert positions.working_side[0] == LEFT
    assert [positions.medial_mm[0], positions.laterotrusion_mm[0]] == pytest.approx([0.6, 0.6])
    np.testing.assert_allclose(positions.pose_at_zero[0, :3, 3], [0.0, 0.6, 0.0], atol=1e-12)


def test_unequal_paths_keep_the_distance_by_equal_moves():
    """With level condyles on unequal paths both centres move in by the same micrometres."""
    guidance = jaw(right={"condylar_inclination_deg": 45.0})
    positions = place(guidance, 8.0, 8.0)
    right, left = positions.condyle_right[0], positions.condyle_left[0]
    assert right[1] + left[1] == pytest.approx(0.0, abs=1e-13)
    assert 0.0 < 52.0 - left[1] < 0.02
    assert np.linalg.norm(left - right) == pytest.approx(104.0, abs=1e-12)


def test_lateral_path_runs_forward_down_and_inward_as_set():
    """Forward and drop follow the inclination plus the Fischer angle, inward the progressive."""
    guidance = jaw(
        right={"condylar_inclination_deg": 30.0, "fischer_deg": 6.0, "progressive_shift_deg": 9.0}
    )
    positions = place(guidance, 4.0, 0.0)
    forward = 4.0 * math.cos(math.radians(36.0))
    wanted = [
        forward,
        -52.0 + forward * math.tan(math.radians(9.0)),
        -4.0 * math.sin(math.radians(36.0)),
    ]
    np.testing.assert_allclose(positions.condyle_right[0], wanted, atol=1e-12)
    assert positions.forward_mm[0] == pytest.approx(forward, abs=1e-12)


def test_lateral_path_starts_where_the_common_advance_ends():
    """On a curved path the excess continues with the slope reached, not with that at CR."""
    guidance = jaw(right={"path": "curved"}, left={"path": "curved"})
    both = place(guidance, 3.0, 3.0)
    further = place(guidance, 3.0 + 1e-6, 3.0)
    step = (further.condyle_right[0] - both.condyle_right[0]) / 1e-6
    start = math.radians(35.0) + 2.5 / 19.0
    assert math.atan2(-step[2], step[0]) == pytest.approx(start - 3.0 / 19.0, abs=1e-6)


@pytest.mark.parametrize(("elevation", "retrusion"), [(0.0, 0.0), (30.0, 0.0), (-20.0, 25.0)])
def test_working_condyle_slides_along_its_own_direction(elevation, retrusion):
    """Outward, upward and backward in the proportions of its angles."""
    guidance = jaw(
        right={"progressive_shift_deg": 15.0},
        left={"working_elevation_deg": elevation, "working_retrusion_deg": retrusion},
    )
    positions = place(guidance, 5.0, 0.0)
    slide = positions.condyle_left[0] - [0.0, 52.0, 0.0]
    assert np.linalg.norm(slide) == pytest.approx(positions.laterotrusion_mm[0], abs=1e-12)
    assert math.degrees(math.asin(slide[2] / np.linalg.norm(slide))) == pytest.approx(elevation)
    assert math.degrees(math.atan2(-slide[0], slide[1])) == pytest.approx(retrusion)


def test_less_medial_travel_than_rotation_gives_moves_the_working_condyle_inward():
    """It then moves on the transverse axis alone, whatever its outward direction, and says so."""
    guidance = jaw(
        right={"progressive_shift_deg": 0.0},
        left={"working_elevation_deg": 30.0, "working_retrusion_deg": 20.0},
    )
    positions = place(guidance, 5.0, 0.0)
    assert positions.laterotrusion_mm[0] == pytest.approx(-(104.0 - math.sqrt(104.0**2 - 25.0)))
    np.testing.assert_allclose(
        positions.condyle_left[0], [0.0, 52.0 + positions.laterotrusion_mm[0], 0.0], atol=1e-12
    )


def test_pure_rotation_keeps_the_working_condyle():
    """It stays, in protrusion too; the other one's medial travel is what the distance leaves."""
    guidance = jaw(left={"pure_rotation": True, "condylar_inclination_deg": 20.0})
    positions = place(guidance, [4.0, 7.0], [0.0, 3.0])
    both = place(guidance, 3.0, 3.0)
    np.testing.assert_array_equal(positions.condyle_left[0], [0.0, 52.0, 0.0])
    np.testing.assert_allclose(positions.condyle_left[1], both.condyle_left[0], atol=1e-12)
    np.testing.assert_array_equal(positions.laterotrusion_mm, 0.0)
    assert positions.medial_mm[0] == pytest.approx(104.0 - math.sqrt(104.0**2 - 16.0), abs=1e-12)


@given(settings_and_coordinates())
def test_a_small_change_of_coordinates_moves_the_jaw_little(case):
    """Nothing jumps where a condyle overtakes the other or the slide turns inward."""
    settings, coordinates = case
    guidance = prepare(settings)
    assume(coordinates.advance_right_mm < 11.0 and coordinates.advance_left_mm < 11.0)
    pose = place_at(guidance, coordinates).pose_at_zero[0]
    shift = coordinates.shift_mm
    for right, left in ((1e-6, 0.0), (0.0, 1e-6), (1e-6, 1e-6)):
        advances = coordinates.advance_right_mm + right, coordinates.advance_left_mm + left
        if (advances[0] - advances[1]) * shift < 0.0:
            continue
        near = place(guidance, *advances, shift).pose_at_zero[0]
        assert np.abs(near - pose).max() < 5e-6


def test_opening_turns_about_the_condyles():
    """Opening leaves both condyles and brings the incisal point down."""
    positions = place(DEFAULT, [2.0, 5.0], [2.0, 1.0])
    poses = opened(positions, [0.1, 0.2])
    seats = np.array([[0.0, -52.0, 0.0], [0.0, 52.0, 0.0]])
    carried = move_points(poses, seats)
    np.testing.assert_allclose(carried[:, 0], positions.condyle_right, atol=1e-12)
    np.testing.assert_allclose(carried[:, 1], positions.condyle_left, atol=1e-12)
    np.testing.assert_array_equal(poses[1], positions.pose_at_zero[1] @ opening_rotation(0.2))
    tip = np.array([[84.0, 0.0, -33.0]])
    closed = move_points(positions.pose_at_zero, tip)
    assert (move_points(poses, tip)[..., 2] < closed[..., 2] - 5.0).all()


def test_attitude_is_the_smallest_turn():
    """At opening 0 the lower is turned about an axis at right angles to the line of condyles."""
    pose = place(jaw(right={"condylar_inclination_deg": 50.0}), 6.0, 1.0).pose_at_zero[0]
    axis = Rotation.from_matrix(pose[:3, :3]).as_rotvec()
    assert abs(axis[1]) < 1e-15
    assert axis @ pose[:3, 1] == pytest.approx(0.0, abs=1e-15)


def test_slide_to_distance_solves_the_rigid_distance():
    """The root near zero, for a point too near, too far and just right."""
    apart = np.array([[2.0, 99.0, 1.0], [2.0, 101.0, 1.0], [0.0, 100.0, 0.0]])
    direction = np.array([0.0, 1.0, 0.0])
    slide = slide_to_distance(apart, direction, 100.0)
    np.testing.assert_allclose(
        np.linalg.norm(apart + slide[:, None] * direction, axis=1), 100.0, rtol=1e-15
    )
    assert slide[0] > 0.0 > slide[1]
    assert slide[2] == 0.0


@pytest.mark.parametrize(
    ("coordinates", "message"),
    [
        ((16.0, 0.0, 0.0), r"advance_right_mm\[0\] = 16 mm: must be 0 to 15 mm, the length of the"),
        ((0.0, -0.5, 0.0), r"advance_left_mm\[0\] = -0\.5 mm: must be 0 to 15 mm"),
        (([1.0, 0.0], [0.0, 2.0], [0.0, 0.5]), r"shift_mm\[1\] = 0\.5 mm: must be positive"),
        ((2.0, 0.0, 0.9), r"shift_mm\[0\] = 0\.9 mm: the immediate_shift_mm of the right side"),
        ((0.0, 0.0, -0.1), r"the left side allows a size of 0 to 0 mm"),
        (([1.0, 2.0], [1.0, 2.0, 3.0], 0.0), r"arrays of one length, found shapes \(2,\), \(3,\)"),
        ((float("nan"), 0.0, 0.0), r"advance_right_mm: entry \(0,\) is nan"),
        (("far", 0.0, 0.0), r"advance_right_mm: wanted numbers"),
    ],
)
def test_unreachable_coordinates_are_refused(coordinates, message):
    """The message names the coordinate, its value and what is accepted."""
    guidance = jaw(right={"immediate_shift_mm": 0.75})
    with pytest.raises(InputError, match=message):
        place(guidance, *coordinates)


def test_rounding_at_a_limit_is_no_fault():
    """Values off a limit by rounding are taken as on it, and reported so."""
    guidance = jaw(right={"immediate_shift_mm": 0.75})
    positions = place(
        guidance, [15.0 + 1e-12, 1.0, -1e-13], [0.0, 1.0 + 1e-12, 0.0], [0.75 + 1e-13, 0.3, 0.0]
    )
    assert positions.advance_right_mm.tolist() == [15.0, 1.0, 0.0]
    assert positions.shift_mm.tolist() == [0.75, 0.3, 0.0]
    assert positions.working_side.tolist() == [LEFT, LEFT, 0]


def test_one_row_of_many_equals_the_row_alone():
    """Results do not depend on what is computed beside them."""
    guidance = jaw(right={"path": "curved"}, left={"immediate_shift_mm": 1.0})
    right, left, shift = (
        np.array([3.0, 1.0, 0.0]),
        np.array([1.0, 4.0, 2.0]),
        np.array([0.0, -1.0, -0.4]),
    )
    many = place(guidance, right, left, shift)
    for row in range(3):
        alone = place_at(guidance, GuidanceCoordinates(right[row], left[row], shift[row], 0.0))
        np.testing.assert_array_equal(alone.pose_at_zero[0], many.pose_at_zero[row])
