"""Axes of a grid as they are asked for, and what is refused before anything runs."""

import pytest

from kinematics.case_changes import setting_of
from kinematics.checks import InputError
from kinematics.varying.grid import MOST_POINTS, PARTS, grid_over, middle_of
from kinematics.varying.setting_names import known_settings
from scenes.builtin_cases import builtin_case

CASE = builtin_case("upper_distal_extension")
RIGHT = "guidance.right.condylar_inclination_deg"
BOTH = "guidance.condylar_inclination_deg"


def test_points_stand_in_equal_steps_with_both_ends():
    """Values are as asked, exactly at points, and between them by parts of a step."""
    grid = grid_over(CASE, [f"{RIGHT}=20..50:7", "guidance.intercondylar_distance_mm=90..120:4"])
    right, distance = grid.axes
    assert right.values == (20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0)
    assert distance.values == (90.0, 100.0, 110.0, 120.0)
    assert grid.shape == (7, 4) and len(grid.points) == len(set(grid.points)) == 28
    assert grid.points[:2] == ((0, 0), (0, PARTS))
    assert grid.changes((PARTS // 2, 0)) == {
        RIGHT: 22.5,
        "guidance.intercondylar_distance_mm": 90.0,
    }
    assert grid.values(middle_of(0, 1)) == (22.5, 105.0)
    assert grid.as_set == (35.0, 104.0) and right.step == 5.0


def test_guidance_without_a_side_means_both():
    """One axis moves the same setting of both sides; where they differ nothing is as set."""
    (axis,) = grid_over(CASE, [f"{BOTH}=20..50"]).axes
    assert axis.paths == (RIGHT, RIGHT.replace("right", "left"))
    assert axis.count == 11 and axis.as_set == 35.0
    unequal = builtin_case("unequal_condyles")
    assert setting_of(unequal, RIGHT) != setting_of(unequal, axis.paths[1])
    assert grid_over(unequal, [f"{BOTH}=20..50"]).as_set is None


@pytest.mark.parametrize(
    "text",
    [
        "guidance.progressive_shift_deg=0..20",  # not set, so that something stands in for it
        "guidance.right.immediate_shift_mm=0..1.5:4",
        "dentition.overbite_mm=1.5..3:3",
        "dentition.over_erupted_mm.46=0.5..2",
        "maximal_intercuspation.advance_right_mm=0..0.5",
        "load.mucosa_ratio=4..20",
        "hinge_axis.forward_mm=-5..5",
        "judging.tolerance_mm=0.01..0.05",
        f"{RIGHT}=2e1..5.0e1:5",
    ],
)
def test_any_number_of_a_case_can_be_varied(text):
    """Settings of every table, and the place of the hinge axis."""
    (axis,) = grid_over(CASE, [text]).axes
    assert len({*axis.values} - {axis.as_set}) in (axis.count, axis.count - 1)


REFUSED = [
    ([], "found 0 settings"),
    ([f"{RIGHT}=1..2"] * 3, "found 3 settings"),
    (["nonsense"], "wanted SETTING=FROM..TO"),
    ([""], "wanted SETTING=FROM..TO"),
    (["=20..50"], "wanted SETTING=FROM..TO"),
    ([RIGHT], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20-50"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20..fifty"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20..50:"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20..50:seven"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20..50:7.5"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20..50:-3"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=nan..50"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20..inf"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=20..50..70"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT} = 20..50"], "wanted SETTING=FROM..TO"),
    ([f"{RIGHT}=-1e308..1e308"], "is no range"),
    ([f"{RIGHT}=50..20"], "is no range; give the smaller first"),
    ([f"{RIGHT}=20..20"], "is no range"),
    ([f"{RIGHT}=20..50:1"], "1 points; accepted are 2 to 2,500"),
    ([f"{RIGHT}=20..50:0"], "0 points"),
    ([f"{RIGHT}=20..50:2501"], "2501 points"),
    ([f"{RIGHT}=20..50:60", "guidance.intercondylar_distance_mm=90..120:60"], "60 x 60 = 3,600"),
    ([f"{RIGHT}=20..90"], "= 90.0: must be 0 to 80 degrees"),
    ([f"{RIGHT}=-5..50"], "= -5.0: must be 0 to 80 degrees"),
    ([f"{BOTH}=20..90"], "must be 0 to 80 degrees"),
    (["guidance.right.condylar_inclinaton_deg=20..50"], f"did you mean '{RIGHT}'"),
    (["guidance.condylar_inclinaton_deg=20..50"], f"did you mean '{BOTH}'"),
    (["gidance.right.condylar_inclination_deg=20..50"], f"did you mean '{RIGHT}'"),
    (["overbite=1..2"], "did you mean 'dentition.overbite_mm'?"),
    (["immediate_shift=0..1"], "did you mean 'guidance.immediate_shift_mm' or 'guidance.left."),
    (["bennet=0..20"], "did you mean 'guidance.bennett_angle_deg'"),
    (["guidance.incisal_table.sagital_deg=0..40"], "mean 'guidance.incisal_table.sagittal_deg'"),
    (["guidance.sagittal_deg=0..40"], "'guidance.incisal_table.sagittal_deg'"),
    (["xyzzy=0..1"], "there is no such setting; `cuspway settings` tells all"),
    (["guidance.right.path=1..2"], "must be one of 'straight', 'curved', 'measured'"),
    (["guidance.right.pure_rotation=0..1"], "must be true or false"),
    (["title=1..2"], "title"),
    (["dentition.triangles_per_arch=10000..20000"], "whole number"),
    (["guidance.incisal_table.sagittal_deg=0..40"], "no [guidance.incisal_table]"),
    (["denture_bases[7].teeth=1..2"], "there is no such setting"),
    (["hinge_axis.forward_mm=0..90"], "found 90; accepted are -30 to 30"),
    (["hinge_axis.sideways_mm=0..2"], "hinge_axis"),
    ([f"{RIGHT}=20..50:3", f"{RIGHT}=20..40:3"], "varied by the other axis already"),
    ([f"{BOTH}=20..50:3", f"{RIGHT}=20..40:3"], "varied by the other axis already"),
]


@pytest.mark.parametrize(("asked", "said"), REFUSED, ids=lambda value: str(value)[:60])
def test_what_cannot_be_varied_is_refused_one_fault_a_line(asked, said):
    """The message names the argument, what was found and what is accepted, each once."""
    with pytest.raises(InputError) as refused:
        grid_over(CASE, asked)
    lines = str(refused.value).splitlines()
    assert any(said in line for line in lines) and len(lines) == len({*lines})
    for line in lines:
        assert line.startswith("--over")
        setting = line.removeprefix("--over ").partition(":")[0].partition(" ")[0]
        assert not setting or line.count(f"{setting}: {setting}") == 0


def test_all_that_is_wrong_with_all_axes_is_told_at_once():
    """Both axes, both ends, both sides: as many lines as there are faults."""
    with pytest.raises(InputError) as refused:
        grid_over(CASE, [f"{RIGHT}=-5..90:1", "dentition.overbit_mm=1..2"])
    lines = str(refused.value).splitlines()
    assert len(lines) == 2 and "1 points" in lines[0] and "'dentition.overbite_mm'" in lines[1]
    with pytest.raises(InputError) as refused:
        grid_over(CASE, [f"{BOTH}=-5..90", "hinge_axis.up_mm=-40..40"])
    assert len(str(refused.value).splitlines()) == 6


def test_scans_have_no_built_in_teeth_to_vary():
    """Known settings are told as they can be asked for, of both sides too."""
    known = [*known_settings(CASE)]
    assert {RIGHT, BOTH, "dentition.overbite_mm", "hinge_axis.tilt_deg"} <= {*known}
    assert len(known) == len({*known}) and MOST_POINTS == 2500
