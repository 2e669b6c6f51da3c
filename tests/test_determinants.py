"""Published determinants of occlusion, reproduced as grids over the built-in natural teeth."""

import math
import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from kinematics.case_changes import changed_case
from kinematics.checks import InputError
from kinematics.guidance.cusp_paths import cusp_paths
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.studies.point import Varied, columns, prepare, run_sample
from kinematics.studies.quantities import BETWEEN_PATHS, MOLAR_GAPS
from kinematics.varying.determinants import determinants_on, trend
from kinematics.varying.grid import grid_over
from kinematics.varying.told import told
from kinematics.varying.variation import Variation
from tests.shipped_cases import coarse

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "determinants.toml").read_text("utf-8")
)
#: Advances so small that the angle is that at the start.
AT_START_MM = 1e-4


@pytest.fixture(scope="module")
def natural():
    """Return the natural teeth, built once: what all runs of them share."""
    return prepare(Varied(coarse("natural_dentition"), ()))


def over(prepared, setting, given):
    """Run the points of a grid alone, on teeth that stand."""
    case = prepared.subject.case
    both = {f"guidance.{s}.{key}": v for s in ("right", "left") for key, v in given.items()}
    grid, kinds = grid_over(changed_case(case, both), (setting,)), columns(case)
    changes = tuple(both | grid.changes(place) for place in grid.points)
    standing = replace(prepared, subject=Varied(case, changes))
    rows = [run_sample(standing, number) for number in range(len(changes))]
    runs = dict(zip(grid.points, rows, strict=True))
    says = {place: told(row, kinds) for place, row in runs.items()}
    return Variation(grid, kinds, runs, says, rows[0], ())


def does(name):
    """Return what the side of a molar does in the excursion of a quantity."""
    where, side = name.partition(": ")[2].split(", ")[:2]
    if "protrusion" in where:
        return "protrusive"
    return "working" if where.split()[0] == side else "nonworking"


@pytest.mark.parametrize("factor", PUBLISHED["vertical"]["factor"], ids=lambda f: f["setting"])
def test_molars_part_as_published(natural, factor):
    """Where cusps may be higher, gaps of molars rise with the factor; else they fall."""
    found = over(natural, factor["setting"], factor.get("given", {}))
    (item,) = determinants_on(found)
    assert item.rule.cusps == factor["cusps"]
    gaps = [one for one in item.compared if one.quantity.startswith(MOLAR_GAPS)]
    asked = [one for one in gaps if does(one.quantity) in factor["told"]]
    assert {does(one.quantity) for one in asked} == set(factor["told"])
    rises = factor["cusps"] == "may be higher"
    for one in asked:
        assert one.agrees, one
        assert (one.last > one.first) == rises


@pytest.mark.parametrize("factor", PUBLISHED["horizontal"]["factor"], ids=lambda f: f["setting"])
def test_paths_of_a_cusp_open_as_published(natural, factor):
    """The angle between the working and the nonworking path goes the published way."""
    (item,) = determinants_on(over(natural, factor["setting"], {}))
    assert item.rule.angle == factor["angle"]
    angles = [one for one in item.compared if one.quantity.startswith(BETWEEN_PATHS)]
    assert len(angles) == 2
    for one in angles:
        assert one.agrees and (one.last > one.first) == (factor["angle"] == "wider")


@pytest.mark.parametrize("figures", PUBLISHED["horizontal"]["figures"])
@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_paths_of_a_cusp_have_the_exact_angles(figures, side):
    """To a hundredth of a degree, on either side."""
    ahead, aside, distance, bennett, outward, inward, angle = figures
    shift = {"progressive_shift_deg": bennett} if bennett else {"pure_rotation": True}
    settings = SideGuidance(condylar_inclination_deg=0.0, **shift)
    guidance = prepare_guidance(
        GuidanceSettings(intercondylar_distance_mm=distance, right=settings, left=settings)
    )
    paths = cusp_paths(guidance, np.array([[ahead, side * aside, -33.0]]), AT_START_MM)[0]
    within = PUBLISHED["horizontal"]["tolerance_deg"]
    assert paths.laterotrusive_deg == pytest.approx(outward, abs=within)
    assert paths.mediotrusive_deg == pytest.approx(inward, abs=within)
    assert paths.between_deg == pytest.approx(angle, abs=within)


def test_an_immediate_shift_comes_before_the_advance():
    """The cusp has gone aside by the shift and then as without it."""
    bare = SideGuidance(condylar_inclination_deg=0.0, progressive_shift_deg=0.0)
    shifting = SideGuidance(
        condylar_inclination_deg=0.0, progressive_shift_deg=0.0, immediate_shift_mm=1.0
    )
    point, paths = np.array([50.0, -24.0, -33.0]), []
    for side in (bare, shifting):
        guidance = prepare_guidance(GuidanceSettings(right=side, left=side))
        paths.append(cusp_paths(guidance, point[None], 3.0)[0].mediotrusive_deg)
    rise = math.tan(math.radians(paths[1])) - math.tan(math.radians(paths[0]))
    forward = 3.0 * (52.0 + 24.0) / 104.0  # of the cusp where its condyle advances by 3 mm
    assert rise == pytest.approx(1.0 / forward, rel=0.03)


def test_points_on_the_midline_and_too_long_advances_are_refused():
    """Both say what is accepted."""
    guidance = prepare_guidance(GuidanceSettings())
    with pytest.raises(InputError, match="midline"):
        cusp_paths(guidance, np.array([[50.0, 0.0, -33.0]]), 3.0)
    for advance in (0.0, 40.0):
        with pytest.raises(InputError, match="at most 15 mm"):
            cusp_paths(guidance, np.array([[50.0, 20.0, -33.0]]), advance)


def test_trends():
    """Small steps are none; what is not known takes no part."""
    rows = np.array([[0.0, 1.0], [0.5, np.nan], [1.0, 2.0]])
    assert trend(rows, 0.1) == "rises"
    assert trend(-rows, 0.1) == "falls"
    assert trend(rows, 0.6) == "stays"
    assert trend(np.abs(rows - 0.5), 0.1) == "rises and falls"
