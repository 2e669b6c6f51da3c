"""Published and derived numbers of guided movement, through the program's own kinematics."""

import math

import numpy as np
import pytest

from kinematics.guidance import excursions
from kinematics.guidance.readings import christensen_angles
from tests.published_jaw import PUBLISHED, at_travel, guided, incisal_tip, jaw, moved, slope_deg

SIDES = {"protrusive": 1, "working": 1, "nonworking": -1}  # left lateral: the left side works


def test_equal_guides_give_pure_translation():
    """With equal condylar and incisal inclination nothing turns and every point moves alike."""
    given = PUBLISHED["equal_guides"]
    for height, balkwill in given["triangles"]:
        tip = incisal_tip(height, balkwill)
        guidance = jaw(given["inclination_deg"], given["inclination_deg"])
        travel = given["incisal_travel_mm"]
        positions, pose = at_travel(guidance, excursions.protrusion("CR"), travel, tip)
        np.testing.assert_allclose(pose[:3, :3], np.eye(3), atol=1e-13)
        assert np.linalg.norm(pose[:3, 3]) == pytest.approx(travel, abs=1e-12)
        assert slope_deg(pose[:3, 3]) == pytest.approx(given["inclination_deg"], abs=1e-9)
        seat = np.array([0.0, -50.0, 0.0])
        assert np.linalg.norm(positions.condyle_right[0] - seat) == pytest.approx(travel, abs=1e-12)


@pytest.mark.parametrize("row", PUBLISHED["christensen"]["rows"], ids=lambda row: f"{row[0]:g}")
def test_christensen_angle_and_gap(row):
    """Christensen angle and gap 50 mm behind the incisal point, with a level incisal guide."""
    given = PUBLISHED["christensen"]
    for balkwill, gamma, gap in zip(given["balkwill_deg"], row[1::2], row[2::2], strict=True):
        tip = incisal_tip(given["triangle_height_mm"], balkwill)
        guidance = jaw(row[0], 0.0)
        _, pose = at_travel(guidance, excursions.protrusion("CR"), given["incisal_travel_mm"], tip)
        angle = math.degrees(christensen_angles(pose[None], np.eye(4))[0])
        assert angle == pytest.approx(gamma, abs=given["gamma_tolerance_deg"])
        behind = tip - [given["gap_at_mm"], 0.0, 0.0]
        assert -moved(pose, behind)[2] == pytest.approx(gap, abs=given["gap_tolerance_mm"])


def test_balkwill_angle_reverses_on_flat_paths():
    """The Christensen angle falls with the Balkwill angle on steep paths and grows on flat ones."""
    given = PUBLISHED["christensen"]
    angles = {}
    for condylar in (15.0, 30.0):
        for balkwill in given["balkwill_deg"]:
            tip = incisal_tip(given["triangle_height_mm"], balkwill)
            pose = at_travel(jaw(condylar, 0.0), excursions.protrusion("CR"), 5.0, tip)[1]
            angles[condylar, balkwill] = christensen_angles(pose[None], np.eye(4))[0]
    assert angles[30.0, 15.0] > angles[30.0, 20.0] > angles[30.0, 25.0]
    assert angles[15.0, 15.0] < angles[15.0, 20.0] < angles[15.0, 25.0]


def test_gap_is_about_half_the_condylar_drop():
    """Condylar descent, and the gap as a share of it at two distances."""
    given = PUBLISHED["half_the_condylar_drop"]
    tip = incisal_tip(given["triangle_height_mm"], given["balkwill_deg"])
    guidance = jaw(given["condylar_inclination_deg"], 0.0)
    travel = given["incisal_travel_mm"]
    positions, pose = at_travel(guidance, excursions.protrusion("CR"), travel, tip)
    descent = -positions.condyle_left[0, 2]
    assert descent == pytest.approx(given["condylar_descent_mm"], abs=6e-5)
    for distance, share in given["share_at_mm"]:
        gap = -moved(pose, tip - [distance, 0.0, 0.0])[2]
        assert gap / descent == pytest.approx(share, abs=6e-4)


def test_both_guidances_blend_along_the_arch():
    """Slopes of the paths of three points, and how well the old linear rule does."""
    given = PUBLISHED["blend"]
    height, travel = given["triangle_height_mm"], given["incisal_travel_mm"]
    condylar, incisal = given["condylar_inclination_deg"], given["incisal_inclination_deg"]
    tip = incisal_tip(height, given["balkwill_deg"])
    pose = at_travel(jaw(condylar, incisal), excursions.protrusion("CR"), travel, tip)[1]
    gamma = math.degrees(christensen_angles(pose[None], np.eye(4))[0])
    assert gamma == pytest.approx(given["gamma_deg"], abs=6e-5)
    for distance, slope in given["slopes"]:
        found = slope_deg(moved(pose, tip - [distance, 0.0, 0.0]))
        assert found == pytest.approx(slope, abs=0.006)
        linear = incisal + distance / height * (condylar - incisal)
        assert abs(found - linear) < given["linear_rule_agrees_within_deg"]


def first_order_slope(condylar, incisal, tip, behind):
    """Slope at the very start of a protrusion: a chord of 0.1 micrometres."""
    pose = guided(jaw(condylar, incisal), excursions.protrusion("CR"), 1e-4, tip)[1][0]
    return slope_deg(moved(pose, tip - behind))


def test_first_order_slopes_along_the_occlusal_plane():
    """Slopes at the start of the movement at five distances, for two pairs of guidances."""
    given = PUBLISHED["blend_first_order"]
    for condylar, incisal, balkwill, *slopes in given["rows"]:
        tip = incisal_tip(given["triangle_height_mm"], balkwill)
        for distance, slope in zip(given["distances_mm"], slopes, strict=True):
            found = first_order_slope(condylar, incisal, tip, np.array([distance, 0.0, 0.0]))
            assert found == pytest.approx(slope, abs=6e-4)


def test_tangents_blend_linearly_in_the_plane_of_the_triangle():
    """Between incisal point and condyle the tangents blend; angles do so within 0.65 degrees."""
    given = PUBLISHED["blend_first_order"]
    condylar, incisal = given["in_plane_condylar_deg"], given["in_plane_incisal_deg"]
    tip = incisal_tip(given["triangle_height_mm"], 0.0)
    for fraction, slope in given["in_plane"]:
        found = first_order_slope(condylar, incisal, tip, fraction * tip)
        assert found == pytest.approx(slope, abs=6e-4)
        linear = incisal + fraction * (condylar - incisal)
        assert abs(found - linear) < given["in_plane_linear_rule_within_deg"]


def test_incisal_guidance_steeper_than_the_condylar_closes_the_rear():
    """The Christensen angle is negative where the incisal guidance is the steeper one."""
    given = PUBLISHED["steeper_incisal_guidance"]
    tip = incisal_tip(given["triangle_height_mm"], given["balkwill_deg"])
    guidance = jaw(given["condylar_inclination_deg"], given["incisal_inclination_deg"])
    travel = given["incisal_travel_mm"]
    pose = at_travel(guidance, excursions.protrusion("CR"), travel, tip)[1]
    gamma = math.degrees(christensen_angles(pose[None], np.eye(4))[0])
    assert gamma == pytest.approx(given["gamma_deg"], abs=6e-4)


def molar_movements(stage, distance, height, balkwill, forward, beside):
    """Displacements of the first molar, protrusive, working and nonworking, at 3 mm."""
    tip = incisal_tip(height, balkwill)
    guidance = jaw(
        stage["condylar_deg"],
        stage["incisal_deg"],
        stage["wing_deg"],
        stage["bennett_deg"],
        distance,
    )
    travel = PUBLISHED["two_stage"]["incisal_travel_mm"]
    straight = at_travel(guidance, excursions.protrusion("CR"), travel, tip)[1]
    lateral = at_travel(guidance, excursions.left_lateral("CR"), travel, tip)[1]
    poses = {"protrusive": straight, "working": lateral, "nonworking": lateral}
    return {
        name: moved(pose, np.array([forward, SIDES[name] * beside, tip[2]]))
        for name, pose in poses.items()
    }


def gaps_over_cusps(movements):
    """Vertical gap over cusps of the published angles."""
    angles = PUBLISHED["two_stage"]["cusp_angles_deg"]
    return {
        name: -move[2] - math.hypot(move[0], move[1]) * math.tan(math.radians(angles[name]))
        for name, move in movements.items()
    }


@pytest.mark.parametrize("stage", ["without_disclusion", "with_disclusion"])
def test_two_stage_tables(stage):
    """Slopes of the molar paths and gaps over the cusps follow from the published settings."""
    given = PUBLISHED["two_stage"]
    side = given["equilateral_side_mm"]
    height = side * math.sqrt(3.0) / 2.0
    place_of_molar = given["molar_forward_mm"], given["molar_beside_mm"]
    movements = molar_movements(given[stage], side, height, given["balkwill_deg"], *place_of_molar)
    for name, slope in given[stage]["slopes_deg"].items():
        assert slope_deg(movements[name]) == pytest.approx(slope, abs=given["slope_tolerance_deg"])
    gaps = gaps_over_cusps(movements)
    for name, gap in given[stage].get("gaps_mm", {}).items():
        assert gaps[name] == pytest.approx(gap, abs=given["gap_tolerance_mm"])
        published = given[stage]["published_gaps_mm"][name]
        assert gaps[name] == pytest.approx(published, abs=given["published_gap_tolerance_mm"])


def test_two_stage_gaps_hardly_depend_on_the_triangle():
    """Molar place, Balkwill angle and intercondylar distance keep the gaps within the bands."""
    given = PUBLISHED["two_stage"]
    band = given["robust"]
    side = given["equilateral_side_mm"]
    usual = {
        "intercondylar_mm": side,
        "balkwill_deg": given["balkwill_deg"],
        "molar_forward_mm": given["molar_forward_mm"],
        "molar_beside_mm": given["molar_beside_mm"],
    }
    for name, value in [(key, value) for key in usual for value in band[key]]:
        varied = usual | {name: value}
        gaps = gaps_over_cusps(
            molar_movements(
                given["with_disclusion"],
                varied["intercondylar_mm"],
                side * math.sqrt(3.0) / 2.0,
                varied["balkwill_deg"],
                varied["molar_forward_mm"],
                varied["molar_beside_mm"],
            )
        )
        for movement, gap in gaps.items():
            least, most = band[f"{movement}_mm"]
            assert least - 0.005 <= gap <= most + 0.005, (movement, name, value)


def test_wings_are_not_angles_in_the_frontal_plane():
    """Reading the wings in the frontal plane would give gaps that ours stay clear of."""
    given = PUBLISHED["two_stage"]
    wrong = given["wings_in_the_frontal_plane"]
    place_of_molar = given["molar_forward_mm"], given["molar_beside_mm"]
    gaps = gaps_over_cusps(
        molar_movements(
            given["with_disclusion"],
            wrong["intercondylar_mm"],
            wrong["triangle_height_mm"],
            wrong["balkwill_deg"],
            *place_of_molar,
        )
    )
    for name, gap in wrong["wrong_gaps_mm"].items():
        assert gaps[name] > gap + 0.08
