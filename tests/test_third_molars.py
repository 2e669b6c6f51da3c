"""Third molars of the built-in dentition: where they stand, what they change, how they meet."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from pydantic import ValidationError

from kinematics import checkup
from kinematics.case import Case
from kinematics.case_file import parse_case
from kinematics.checks import InputError
from kinematics.planning.judging import DentureBase
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import THIRD_MOLARS, DentitionSettings
from kinematics.tooth_codes import PERMANENT
from scenes.case_words import case_words
from scenes.report import html_report
from tests import built_dentition
from tests.built_dentition import STOP_UM, check_stops, first_gaps_um, gap_mm


@cache
def made(*third_molars):
    """Return a coarse dentition with third molars."""
    return build(DentitionSettings(triangles_per_arch=12_000, third_molars=third_molars))


def corners_of(dentition, code):
    """Return the triangles of a tooth, mm."""
    arch = dentition.upper if code < 30 else dentition.lower
    return arch.mesh.corners[arch.tooth_of_face == code]


def test_the_other_teeth_are_those_without_third_molars():
    """Every other tooth keeps its bits, every stop its place."""
    plain, with_all = built_dentition.coarse(), made(*THIRD_MOLARS)
    for code in (*plain.upper.codes, *plain.lower.codes):
        np.testing.assert_array_equal(corners_of(plain, code), corners_of(with_all, code))
    kept = [stop for stop in with_all.stops if stop.upper_tooth % 10 < 8 > stop.lower_tooth % 10]
    assert [(s.cusp, *s.point) for s in kept] == [(s.cusp, *s.point) for s in plain.stops]


def test_third_molars_meet_in_mi_on_both_sides():
    """The lower buccal cusps and the upper mesiolingual one find stops; nothing is deeper."""
    dentition = made(*THIRD_MOLARS)
    check_stops(dentition)
    for upper, lower in ((18, 48), (28, 38)):
        cusps = {
            s.cusp for s in dentition.stops if (s.upper_tooth, s.lower_tooth) == (upper, lower)
        }
        assert {f"{lower} MB", f"{upper} ML"} <= cusps
        assert abs(first_gaps_um(dentition, [(upper, lower)])[upper, lower]) <= STOP_UM


def test_third_molars_stand_behind_second_molars_and_touch_them():
    """Farther back and higher on the occlusal sphere; right ones mirror left ones."""
    dentition = made(*THIRD_MOLARS)
    for arch, second, third in ((dentition.upper, 27, 28), (dentition.lower, 37, 38)):
        front, behind = arch.tooth(second).centre, arch.tooth(third).centre
        assert 7.0 < front[0] - behind[0] < 11.0
        assert behind[2] > front[2]
        assert -0.03 < gap_mm(arch, third, second) < 0.05
        mirrored = corners_of(dentition, third - 10 if third == 28 else 48)
        left = corners_of(dentition, third)[:, ::-1] * [1.0, -1.0, 1.0]
        np.testing.assert_allclose(
            np.sort(mirrored.reshape(-1, 3), axis=0), np.sort(left.reshape(-1, 3), axis=0)
        )


@pytest.mark.parametrize("code", THIRD_MOLARS)
def test_a_single_third_molar(code):
    """Only the named one is there; without its opponent it may over-erupt."""
    dentition = made(code)
    codes = {*dentition.upper.codes, *dentition.lower.codes}
    assert codes & set(THIRD_MOLARS) == {code}
    moved = build(
        DentitionSettings(
            triangles_per_arch=12_000, third_molars=(code,), over_erupted_mm={code: 1.0}
        )
    )
    shift = corners_of(moved, code) - corners_of(dentition, code)
    assert np.linalg.norm(shift, axis=2) == pytest.approx(1.0)


def test_third_molars_can_be_lost_replaced_and_moved():
    """A replacement third molar follows its over-erupted opponent as other teeth do."""
    dentition = build(
        DentitionSettings(
            triangles_per_arch=12_000,
            third_molars=THIRD_MOLARS,
            missing=(28,),
            over_erupted_mm={38: 1.0},
            replacements=(18,),
        )
    )
    assert 28 not in dentition.upper.codes
    assert (18, 48) in {(s.upper_tooth, s.lower_tooth) for s in dentition.stops}
    assert abs(first_gaps_um(dentition)) <= STOP_UM


@pytest.mark.parametrize(
    "settings",
    [
        {"overbite_mm": 3.75, "overjet_mm": 3.58, "arch_width_scale": 0.985},
        {"overbite_mm": 1.0, "overjet_mm": 4.2, "cusp_inclination_change_deg": 8.0},
        {"overbite_mm": 4.0, "overjet_mm": 2.2, "arch_width_scale": 1.03},
        {"cusp_inclination_change_deg": -8.0, "size_scale": 0.85},
        {"overjet_mm": 4.2, "overbite_mm": 4.0, "arch_width_scale": 0.97},
    ],
)
def test_third_molars_find_stops_in_other_set_ups(settings):
    """Steep and flat cusps, deep and far overlaps, wide and narrow arches."""
    dentition = build(
        DentitionSettings(triangles_per_arch=10_000, third_molars=THIRD_MOLARS, **settings)
    )
    assert abs(first_gaps_um(dentition)) <= STOP_UM
    pairs = {(s.upper_tooth, s.lower_tooth) for s in dentition.stops}
    assert {(18, 48), (28, 38)} <= pairs


def test_denture_bases_may_name_third_molars_that_are_there():
    """As abutments; the message of a tooth that is not there says what to do."""
    base = DentureBase(name="a", teeth=(17,), abutments=(18,))
    dentition = DentitionSettings(third_molars=(18,))
    assert Case(title="t", dentition=dentition, denture_bases=(base,)).replacement_teeth == (17,)
    with pytest.raises(ValidationError, match=r"no tooth 18; .* dentition\.third_molars"):
        Case(title="t", denture_bases=(base,))


def test_a_check_with_third_molars_reports_them():
    """From a case file to the page: stops, gaps of every back tooth, charts and settings."""
    case = parse_case(
        "dentition = {third_molars = [18, 28, 38, 48], triangles_per_arch = 10_000}", "c.toml"
    )
    result = checkup.run(case, lambda step: None)
    pairs = {(stop.tooth_upper, stop.tooth_lower) for stop in result.stops}
    assert {(18, 48), (28, 38)} <= pairs
    page = html_report(result, case_words(case))
    assert "third molar (8)" in page
    assert "18/48" in page
    assert "18, 28, 38, 48" in page


CHART = """
[dentition]
missing = [18, 28, 15, 16, 48, 35]
[[denture_bases]]
name = "a"
teeth = [15, 16]
abutments = [14, 17]
[[bridges]]
name = "b"
pontics = [35]
abutments = [34, 36]
"""


def test_a_chart_of_all_missing_teeth_is_understood():
    """Third molars that are not made, and teeth that a base or a bridge replaces, may be named."""
    charted = parse_case(CHART, "c.toml")
    plain = parse_case(
        CHART.replace("missing = [18, 28, 15, 16, 48, 35]", "missing = []"), "c.toml"
    )
    small = {"triangles_per_arch": 10_000}
    one, other = (
        build(replace(case.dentition_with_replacements(), **small)) for case in (charted, plain)
    )
    assert one.upper.codes == other.upper.codes and 15 in one.upper.codes
    for a, b in ((one.upper, other.upper), (one.lower, other.lower)):
        np.testing.assert_array_equal(a.mesh.vertices, b.mesh.vertices)
    told = [[(stop.cusp, *stop.point) for stop in item.stops] for item in (one, other)]
    assert told[0] == told[1]


def test_a_chart_still_has_no_abutment_among_the_missing():
    """Nor a rest, nor all teeth of an arch, unless a complete denture replaces some."""
    text = CHART.replace("missing = [18", "missing = [14, 17, 34, 18")
    with pytest.raises(InputError) as refused:
        parse_case(text, "c.toml")
    for code, unit in ((14, "denture base 'a'"), (17, "denture base 'a'"), (34, "bridge 'b'")):
        assert f"{unit}: the dentition has no tooth {code}" in str(refused.value)
    upper = [code for code in PERMANENT if code < 30]
    chart = f"[dentition]\nmissing = {upper}\n"
    with pytest.raises(InputError, match="leaves no tooth in the upper arch"):
        parse_case(chart, "c.toml")
    whole = f"[[denture_bases]]\nname = 'whole'\nteeth = {[c for c in upper if c % 10 < 8]}\n"
    case = parse_case(chart + whole, "c.toml")
    assert len(case.dentition_with_replacements().standing(case.replacement_teeth)) == 28


def test_worn_and_over_erupted_third_molars_that_are_not_there_are_still_refused():
    """That one is missing says nothing wrong; that it is worn or has over-erupted does."""
    assert DentitionSettings(missing=THIRD_MOLARS).standing(()) == DentitionSettings().made
    for key in ("wear_mm", "over_erupted_mm"):
        with pytest.raises(ValidationError, match=f"{key} names the third molar 18"):
            DentitionSettings(missing=(28,), **{key: {18: 0.5}})
