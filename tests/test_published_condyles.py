"""Published and derived numbers of the condyles and the hinge axis, through the program."""

import math

import numpy as np
import pytest

from kinematics.geometry.poses import move_points, opening_rotation, pose_of
from kinematics.guidance import excursions
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import CENTRIC_RELATION, opened, place
from kinematics.guidance.readings import bennett_angles
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from tests.published_jaw import PUBLISHED, at_travel, incisal_tip, jaw, moved, slope_deg


def horizontal_angles(forward, beside, distance, bennett):
    """First-order directions of the laterotrusive and mediotrusive paths, from forward."""
    working = {} if bennett else {"pure_rotation": True}
    guidance = jaw(0.0, 0.0, 0.0, bennett, distance, **working)
    course = excursions.along(
        guidance, excursions.left_lateral("CR"), CENTRIC_RELATION, np.array([1e-5])
    )
    pose = place(guidance, *course).pose_at_zero[0]
    angles = []
    for side in (1.0, -1.0):
        move = moved(pose, np.array([forward, side * beside, -30.0]))
        angles.append(math.degrees(math.atan2(move[1], move[0])))
    return angles


def test_horizontal_determinants():
    """Directions of the two paths of a tooth seen from above, and the angle between them."""
    given = PUBLISHED["horizontal_determinants"]
    for forward, beside, distance, bennett, lateral, medial, between in given["rows"]:
        found = horizontal_angles(forward, beside, distance, bennett)
        assert found == pytest.approx([lateral, medial], abs=given["tolerance_deg"])
        assert sum(found) == pytest.approx(between, abs=given["tolerance_deg"])


def test_directions_of_the_horizontal_determinants():
    """Wider away from the condyle, from the midline and with side shift; narrower in wide jaws."""
    usual = sum(horizontal_angles(50.0, 24.0, 110.0, 0.0))
    assert sum(horizontal_angles(55.0, 24.0, 110.0, 0.0)) > usual
    assert sum(horizontal_angles(50.0, 28.0, 110.0, 0.0)) > usual
    assert sum(horizontal_angles(50.0, 24.0, 110.0, 7.5)) > usual
    assert sum(horizontal_angles(50.0, 24.0, 120.0, 0.0)) < usual


def test_directions_of_the_vertical_determinants():
    """Steeper molar paths with steep condyles, little shift and detrusion (Okeson)."""
    tip = incisal_tip(86.6025, 20.0)

    def molar_slope(side, condylar=35.0, shift=10.0, **more):
        guidance = jaw(condylar, 30.0, 15.0, shift, 104.0, **more)
        pose = at_travel(guidance, excursions.left_lateral("CR"), 3.0, tip)[1]
        return slope_deg(moved(pose, np.array([50.0, side * 25.0, tip[2]])))

    assert molar_slope(-1, condylar=45.0) > molar_slope(-1)
    for side in (1, -1):
        assert molar_slope(side, shift=20.0) < molar_slope(side)
        assert molar_slope(side, immediate_shift_mm=1.0) < molar_slope(side)
    assert molar_slope(1, working_elevation_deg=40.0) < molar_slope(1)
    assert molar_slope(1, working_elevation_deg=-40.0) > molar_slope(1)


def left_lateral_at(forward_mm, condylar_deg, shift_deg, distance_mm, **side):
    """Positions in left lateral with the right condyle so far forward."""
    guidance = jaw(condylar_deg, 0.0, 0.0, shift_deg, distance_mm, **side)
    return place(guidance, forward_mm / math.cos(math.radians(condylar_deg)), 0.0, 0.0)


def test_bennett_angle_and_side_shift():
    """Slide of the working condyle, and the Bennett angle that rigidity alone gives."""
    given = PUBLISHED["bennett"]
    for distance, forward, apparent, level_7_5, level_15, sloping_15 in given["rows"]:
        rotation = left_lateral_at(forward, 0.0, 7.5, distance, pure_rotation=True)
        reading = bennett_angles(rotation)
        assert math.degrees(reading.angle_rad[0]) == pytest.approx(
            apparent, abs=given["angle_tolerance_deg"]
        )
        assert reading.advance_mm[0] == forward
        assert rotation.laterotrusion_mm[0] == 0.0
        for condylar, shift, slide in (
            (0.0, 7.5, level_7_5),
            (0.0, 15.0, level_15),
            (35.0, 15.0, sloping_15),
        ):
            positions = left_lateral_at(forward, condylar, shift, distance)
            assert positions.laterotrusion_mm[0] == pytest.approx(
                slide, abs=given["slide_tolerance_mm"]
            )
            read = math.degrees(bennett_angles(positions).angle_rad[0])
            assert read == pytest.approx(shift, abs=1e-9)


def test_side_shift_splits_into_immediate_and_progressive():
    """Medial travel is the immediate part plus the progressive angle, read at any advance."""
    given = PUBLISHED["side_shift"]
    side = SideGuidance(
        progressive_shift_deg=given["progressive_deg"], immediate_shift_mm=given["immediate_mm"]
    )
    guidance = prepare(GuidanceSettings(right=side, left=side))
    positions = place(guidance, np.array([2.0, 4.0, 8.0]), 0.0, given["immediate_mm"])
    medial, forward = positions.medial_mm, positions.forward_mm
    rate = math.degrees(math.atan((medial[2] - medial[0]) / (forward[2] - forward[0])))
    assert rate == pytest.approx(given["progressive_deg"], abs=1e-9)
    assert medial[0] - rate_of(given) * forward[0] == pytest.approx(
        given["immediate_mm"], abs=1e-12
    )
    assert (np.diff(bennett_angles(positions).angle_rad) < 0.0).all()


def rate_of(given):
    """Medial travel per forward travel."""
    return math.tan(math.radians(given["progressive_deg"]))


@pytest.mark.parametrize(("inclination", "angle"), PUBLISHED["rule_of_thumb"]["rows"])
def test_a_bennett_angle_set_by_the_rule_of_thumb_is_read_back(inclination, angle):
    """An eighth of the condylar inclination plus 12, set as Bennett angle, is read anywhere."""
    assert angle == pytest.approx(inclination / 8.0 + 12.0, abs=1e-9)
    side = SideGuidance(condylar_inclination_deg=inclination, bennett_angle_deg=angle)
    positions = place(prepare(GuidanceSettings(right=side)), np.array([1.0, 4.0, 10.0]), 0.0)
    read = np.degrees(bennett_angles(positions).angle_rad)
    np.testing.assert_allclose(read, angle, atol=1e-9)


def test_unequal_inclinations_roll_the_jaw():
    """Five millimetres forward on paths of 43 and 37 degrees."""
    given = PUBLISHED["roll"]
    right, left = given["inclinations_deg"]
    sides = [
        SideGuidance(condylar_inclination_deg=deg, progressive_shift_deg=0.0)
        for deg in (right, left)
    ]
    guidance = prepare(
        GuidanceSettings(
            intercondylar_distance_mm=given["intercondylar_mm"], right=sides[0], left=sides[1]
        )
    )
    forward = given["forward_mm"]
    positions = place(
        guidance, forward / math.cos(math.radians(right)), forward / math.cos(math.radians(left))
    )
    drop = positions.condyle_left[0, 2] - positions.condyle_right[0, 2]
    assert drop == pytest.approx(given["drop_difference_mm"], abs=6e-4)
    axis = positions.pose_at_zero[0, :3, 1]
    assert math.degrees(math.asin(axis[2])) == pytest.approx(given["roll_deg"], abs=6e-4)


def closed_about_wrong_axis(offset_mm, opening_rad):
    """Poses (n, 4, 4) in which casts end whose record was taken open, closed about another axis.

    The jaw opens about its own hinge axis. The casts are mounted so that an axis which stands off
    it by `offset_mm` (n, 3) is that of the hinge frame; there they close by the same angle.
    """
    guidance = prepare(GuidanceSettings())
    n = len(offset_mm)
    seated, still = place(guidance, np.zeros(n), np.zeros(n)), np.tile(np.eye(3), (n, 1, 1))
    mounted = pose_of(still, -offset_mm)
    record = mounted @ opened(seated, np.full(n, opening_rad))
    return pose_of(still, offset_mm) @ opened(seated, np.full(n, -opening_rad)) @ record


def test_hinge_axis_error_moves_every_point_alike():
    """A wrong axis shifts every cusp by 2 e sin(opening / 2), whatever its direction."""
    given = PUBLISHED["hinge_axis"]
    points = np.array([[50.0, 25.0, -30.0], [84.0, 0.0, -33.0], [40.0, -28.0, -31.0]])
    for error, record, radius, off in given["rows"]:
        opening = 2.0 * math.asin(0.5 * record / radius)
        turns = np.radians([0.0, 70.0, 200.0])
        offsets = error * np.stack([np.cos(turns), 0.0 * turns, np.sin(turns)], axis=1)
        for pose in closed_about_wrong_axis(offsets, opening):
            np.testing.assert_allclose(pose[:3, :3], np.eye(3), atol=1e-15)
            found = np.linalg.norm(move_points(pose, points) - points, axis=1)
            np.testing.assert_allclose(found, off, atol=given["tolerance_mm"])
            np.testing.assert_allclose(found, found[0], atol=1e-13)


def test_the_shift_stands_across_the_axis_error():
    """An axis too far forward leaves the lower cast low; one too high brings it forward."""
    offsets = np.array([[5.0, 0.0, 0.0], [0.0, 0.0, 5.0], [0.0, 0.0, 0.0]])
    forward, high, none = closed_about_wrong_axis(offsets, 0.04)[:, :3, 3]
    np.testing.assert_allclose(forward / np.linalg.norm(forward), [0.0, 0.0, -1.0], atol=0.03)
    np.testing.assert_allclose(high / np.linalg.norm(high), [1.0, 0.0, 0.0], atol=0.03)
    np.testing.assert_allclose(none, 0.0, atol=1e-15)


def test_hinge_axis_scatter():
    """Share of records below 300 micrometres with a scattered axis; worse with a wider gape."""
    given = PUBLISHED["hinge_axis"]["scatter"]
    offsets = np.zeros((20_000, 3))
    generator = np.random.default_rng(20020515)
    offsets[:, [0, 2]] = generator.normal(scale=given["scatter_mm"], size=(len(offsets), 2))

    def share(gape):
        opening = 2.0 * math.asin(0.5 * gape / given["radius_mm"])
        poses = closed_about_wrong_axis(offsets, opening)
        return np.mean(np.linalg.norm(poses[:, :3, 3], axis=1) < given["limit_mm"])

    least, most = given["share_below"]
    assert least <= share(given["gape_mm"]) <= most
    assert share(2.0 * given["gape_mm"]) < share(given["gape_mm"]) - 0.2


def test_retruded_opening():
    """Hinge opening that belongs to a chord of 17.2 mm at the incisors."""
    given = PUBLISHED["retruded_opening"]
    for radius, angle in given["rows"]:
        pose = opening_rotation(math.radians(angle))
        chord = np.linalg.norm(moved(pose, incisal_tip(radius, 20.0)))
        assert chord == pytest.approx(given["chord_mm"], abs=radius * math.radians(0.006))


def test_a_table_inclined_as_the_overlap_leads_to_edge_to_edge():
    """On it the lower edge has passed the overbite when it has gone forward by the overjet."""
    given = PUBLISHED["overlap"]
    overbite, overjet = given["overbite_mm"], given["overjet_mm"]
    tip = incisal_tip(86.6025, 20.0)
    guidance = jaw(35.0, given["inclination_deg"])
    pose = at_travel(guidance, excursions.protrusion("CR"), math.hypot(overbite, overjet), tip)[1]
    # The published angle is rounded to a tenth of a degree: 3 micrometres over 3.6 mm.
    np.testing.assert_allclose(moved(pose, tip), [overjet, 0.0, -overbite], atol=0.004)


def test_one_degree_of_condylar_inclination():
    """What one degree does to the height of the second molar while the incisal guide is held."""
    given = PUBLISHED["condylar_error"]
    tip = incisal_tip(86.6025, 0.0)
    molar = (1.0 - given["share"]) * tip
    for condylar, travel, micrometres in given["rows"]:
        heights = []
        for deg in (condylar, condylar + 1.0):
            pose = at_travel(jaw(deg, 0.0), excursions.protrusion("CR"), travel, tip)[1]
            heights.append(moved(pose, molar)[2])
        found = 1000.0 * (heights[0] - heights[1])
        assert found == pytest.approx(micrometres, rel=given["relative_tolerance"])
