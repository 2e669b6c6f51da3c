"""Settings of guidance: ranges, contradictions, and what they become for computing."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from kinematics.checks import InputError
from kinematics.geometry.curves import CircularCurve, MeasuredCurve, StraightCurve
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import place
from kinematics.guidance.readings import bennett_angles
from kinematics.guidance.settings import GuidanceSettings, IncisalTable, SideGuidance

READER = TypeAdapter(GuidanceSettings)
POINTS = [[0.0, 0.0], [3.0, 2.0], [9.0, 4.0]]


def refused(given_settings):
    """Return the faults of settings that must be refused: place and text of each."""
    with pytest.raises(ValidationError) as caught:
        READER.validate_python(given_settings)
    return [(".".join(map(str, fault["loc"])), fault["msg"]) for fault in caught.value.errors()]


def test_defaults_are_those_of_the_built_in_cases():
    """35 degrees, 9 degrees progressive, straight, no shift, 104 mm, no table."""
    guidance = prepare(GuidanceSettings())
    assert guidance.reference_plane == "occlusal"
    assert guidance.half_distance_mm == 52.0
    assert guidance.table is None
    for side in (guidance.right, guidance.left):
        assert side.path == StraightCurve(math.radians(35.0), 15.0)
        assert side.progressive_rad == math.radians(9.0)
        assert (side.fischer_rad, side.shift_limit_mm, side.early_over_mm) == (0.0, 0.0, 0.0)
        np.testing.assert_array_equal(side.outward, [0.0, side.sign, 0.0])
        assert not side.pure_rotation


def test_sides_are_independent():
    """Each side is prepared from its own settings, in radians."""
    guidance = prepare(
        GuidanceSettings(
            right=SideGuidance(
                condylar_inclination_deg=43.0,
                fischer_deg=5.0,
                progressive_shift_deg=0.0,
                immediate_shift_mm=0.75,
                shift_timing="early",
                early_over_mm=2.0,
                working_elevation_deg=30.0,
                working_retrusion_deg=90.0 - 30.0,
            ),
            left=SideGuidance(path="curved", eminence_radius_mm=15.0, path_length_mm=10.0),
        )
    )
    right = guidance.right
    assert right.path == StraightCurve(math.radians(43.0), 15.0)
    assert right.fischer_rad == math.radians(5.0)
    assert (right.progressive_rad, right.shift_limit_mm, right.early_over_mm) == (0.0, 0.75, 2.0)
    wanted = [
        -math.cos(math.radians(30.0)) * math.sin(math.radians(60.0)),
        -0.4330127018922193,
        0.5,
    ]
    np.testing.assert_allclose(right.outward, wanted, atol=1e-15)
    assert np.linalg.norm(right.outward) == pytest.approx(1.0, abs=1e-15)
    assert guidance.left.path == CircularCurve(math.radians(35.0) + 5.0 / 30.0, 15.0, 10.0)
    with pytest.raises(ValueError, match="read-only"):
        right.outward[0] = 1.0


def test_an_early_distance_has_no_say_on_an_immediate_shift():
    """Immediate means over no distance at all."""
    side = SideGuidance(immediate_shift_mm=0.75, early_over_mm=2.0)
    assert prepare(GuidanceSettings(right=side)).right.early_over_mm == 0.0


def test_measured_points_become_a_path_that_ends_with_them():
    """Points replace inclination and radius."""
    side = READER.validate_python({"right": {"path": "measured", "measured_points": POINTS}}).right
    path = prepare(GuidanceSettings(right=side)).right.path
    assert isinstance(path, MeasuredCurve)
    assert math.hypot(9.0, 4.0) < path.length_mm < 11.0


def test_measured_points_that_turn_back_are_refused_by_name():
    """The message names the side and the point."""
    side = SideGuidance(path="measured", measured_points=((0.0, 0.0), (2.0, 1.0), (1.0, 2.0)))
    with pytest.raises(InputError, match="guidance left measured_points: point 2"):
        prepare(GuidanceSettings(left=side))


@given(
    st.floats(8.0, 30.0),
    st.floats(3.0, 12.0),
    st.floats(0.0, 0.3),
    st.floats(-5.0, 10.0),
    st.sampled_from(["immediate", "early"]),
)
def test_a_bennett_angle_is_read_back_where_it_was_read(angle, read_at, shift, fischer, timing):
    """The progressive angle that follows gives that Bennett angle at that advance."""
    side = SideGuidance(
        bennett_angle_deg=angle,
        bennett_read_at_mm=read_at,
        immediate_shift_mm=shift,
        fischer_deg=fischer,
        shift_timing=timing,
        early_over_mm=5.0,
        path="curved",
    )
    guidance = prepare(GuidanceSettings(right=side, left=side))
    used = shift * min(1.0, read_at / 5.0) if timing == "early" else shift
    readings = bennett_angles(place(guidance, read_at, 0.0, used))
    assert math.degrees(readings.angle_rad[0]) == pytest.approx(angle, abs=1e-9)
    assert readings.advance_mm[0] == read_at


def test_a_bennett_angle_without_immediate_shift_is_the_progressive_angle():
    """It is then the same wherever it is read."""
    side = SideGuidance(bennett_angle_deg=17.0)
    assert prepare(GuidanceSettings(left=side)).left.progressive_rad == math.radians(17.0)


def test_a_bennett_angle_smaller_than_the_shift_gives_is_refused():
    """One millimetre of shift alone is more than 5 degrees at 3 mm."""
    side = SideGuidance(bennett_angle_deg=5.0, bennett_read_at_mm=3.0, immediate_shift_mm=1.0)
    message = (
        r"guidance right bennett_angle_deg = 5 degrees: the immediate side shift of 1 mm alone "
        r"gives 22\.14 degrees at an advance of 3 mm"
    )
    with pytest.raises(InputError, match=message):
        prepare(GuidanceSettings(right=side))


def test_a_bennett_angle_read_beyond_the_path_is_refused():
    """It cannot have been read where the condyle never is."""
    side = SideGuidance(
        bennett_angle_deg=15.0, bennett_read_at_mm=12.0, immediate_shift_mm=1.0, path_length_mm=10.0
    )
    with pytest.raises(
        InputError, match="bennett_read_at_mm = 12 mm: the condylar path ends at 10"
    ):
        prepare(GuidanceSettings(left=side))


@pytest.mark.parametrize(
    ("settings", "where", "text"),
    [
        ({"right": {"condylar_inclination_deg": 95}}, "right.condylar_inclination_deg", "80"),
        ({"left": {"condylar_inclination_deg": -1}}, "left.condylar_inclination_deg", "0"),
        ({"right": {"immediate_shift_mm": float("nan")}}, "right.immediate_shift_mm", "finite"),
        ({"right": {"path": "wavy"}}, "right.path", "straight"),
        ({"right": {"angle_deg": 3}}, "right.angle_deg", "nexpected keyword"),
        ({"reference_plane": "Frankfort"}, "reference_plane", "axis-orbital"),
        ({"intercondylar_distance_mm": 40}, "intercondylar_distance_mm", "60"),
        ({"incisal_table": {"wing_left_deg": 80}}, "incisal_table.wing_left_deg", "70"),
        ({"incisal_table": {"tip_on": "table"}}, "incisal_table.tip_on", "lower"),
        ({"right": {"path": "measured"}}, "right", "a measured path needs them"),
        ({"right": {"measured_points": POINTS}}, "right", "any other path must have none"),
        (
            {"left": {"path": "curved", "eminence_radius_mm": 5}},
            "left",
            "take a larger radius or a shorter path",
        ),
        (
            {"left": {"bennett_angle_deg": 10, "progressive_shift_deg": 8}},
            "left",
            "two ways to say one thing",
        ),
        (
            {"left": {"bennett_angle_deg": 20, "immediate_shift_mm": 0.5}},
            "left",
            "give bennett_read_at_mm",
        ),
        ({"left": {"bennett_read_at_mm": 3}}, "left", "without bennett_angle_deg"),
        (
            {"right": {"pure_rotation": True}, "left": {"immediate_shift_mm": 0.5}},
            "",
            "right.pure_rotation leaves no room for left.immediate_shift_mm = 0.5",
        ),
        (
            {"incisal_table": {"sagittal_deg": 10, "measured_points": [[0, 0, 0]] * 3}},
            "incisal_table",
            "two ways to give one table",
        ),
        (
            {"incisal_table": {"measured_points": [[0, 0, 0]]}},
            "incisal_table",
            "wanted at least 3 points, found 1",
        ),
    ],
)
def test_settings_that_cannot_be_used_are_refused_where_they_stand(settings, where, text):
    """One fault, at its key, saying what is accepted."""
    faults = refused(settings)
    assert len(faults) == 1
    assert faults[0][0] == where
    assert text in faults[0][1]


def test_settings_cannot_be_changed():
    """They are frozen; a changed copy is checked again."""
    side = SideGuidance()
    with pytest.raises(dataclasses.FrozenInstanceError):
        side.fischer_deg = 3.0
    assert dataclasses.replace(side, fischer_deg=3.0).fischer_deg == 3.0
    with pytest.raises(ValidationError):
        dataclasses.replace(side, fischer_deg=300.0)


def test_settings_survive_writing_and_reading():
    """What is written down reads back equal."""
    settings = GuidanceSettings(
        reference_plane="Camper",
        right=SideGuidance(path="measured", measured_points=tuple(map(tuple, POINTS))),
        incisal_table=IncisalTable(sagittal_deg=40.0, wing_left_deg=15.0),
    )
    assert READER.validate_json(READER.dump_json(settings)) == settings
