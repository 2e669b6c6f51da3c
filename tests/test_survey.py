"""Survey of built-in casts: tilts, clasps, guide planes, tripod marks, and what is told of them."""

import json
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_file import parse_case
from kinematics.case_judged import occlusion_of
from kinematics.case_surveyed import surveyed_case
from kinematics.checks import InputError
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.mounting import mounted_casts
from kinematics.planning.framework import frameworks
from kinematics.planning.surveying.path_frames import occlusal_up, path_frame
from kinematics.planning.surveying.settings import ArchSurvey, SurveySettings
from kinematics.planning.surveying.survey_findings import survey_findings
from kinematics.planning.surveying.survey_rules import (
    MOST_CUT_MM,
    NO_UNDERCUT,
    SOFT_UNDERCUT,
    TO_BE_CUT,
    TOO_DEEP,
)
from kinematics.planning.surveying.surveys import surveys
from kinematics.planning.surveying.tilt_search import cost_mm, searched_tilt
from kinematics.result_files import plain
from kinematics.survey_files import SURVEY_COLUMNS, survey_entries, survey_rows
from scenes.survey_chart import abutment_sheet, path_sheet, survey_key
from scenes.survey_views import abutment_scene, depth_paint, path_scene
from scenes.survey_words import survey_section
from scenes.wax_up_words import wax_up_words
from tests.shipped_cases import coarse

NAME = "upper_distal_extension"


@cache
def mounted():
    """Return a case, its casts, and its occlusion."""
    case = coarse(NAME)
    case = replace(case, dentition=replace(case.dentition, triangles_per_arch=10_000))
    casts = mounted_casts(case)
    return case, casts, occlusion_of(case, casts, Workers())


@cache
def upper_survey(forward_deg=0.0, left_deg=0.0, **settings):
    """Survey the upper cast at a tilt."""
    _, _, occlusion = mounted()
    upper = ArchSurvey(forward_deg=forward_deg, left_deg=left_deg)
    (survey,) = surveys(occlusion, frameworks(occlusion), SurveySettings(upper=upper, **settings))
    return survey


def tilted_left(left_deg):
    """Survey it tilted to the left alone."""
    return upper_survey(left_deg=left_deg) if left_deg else upper_survey()


@cache
def found_survey():
    """Survey the upper cast as its case asks for, at the tilt that is found."""
    case, casts, _ = mounted()
    return surveyed_case(case, casts, (), lambda _: None)


def test_a_crown_undercuts_more_on_the_side_that_is_lowered():
    """Facial surfaces of the lowered side look down: 24 and 26 gain by it, and 14 loses."""
    lowered, level, raised = (tilted_left(tilt) for tilt in (6.0, 0.0, -6.0))
    for code, sign in ((14, -1.0), (24, 1.0), (26, 1.0)):
        facial = [
            next(t for t in item.teeth if t.tooth == code).side("facial").usable_mm
            for item in (lowered, level, raised)
        ]
        assert np.all(sign * np.diff(facial) < 0.0), (code, facial)


def test_the_tilt_found_is_no_dearer_than_any_of_its_grid_and_than_none():
    """Its cost is the least of every tilt compared, and comes out again."""
    found = found_survey()["surveys"][0]
    assert found.search.cost_mm <= found.search.level_cost_mm
    again = upper_survey(found.forward_deg, found.left_deg)
    assert again.path == found.path and again.teeth == found.teeth
    for left in (0.0, 6.0, -6.0):
        assert (
            _cost(tilted_left(left)) >= found.search.cost_mm - 0.03
        )  # heights are coarser in the search


def _cost(survey):
    usable = [tooth.retentive.usable_mm for tooth in survey.teeth if tooth.clasped]
    cuts = [np.inf if guide.cut_mm is None else guide.cut_mm for guide in survey.guides]
    tilt = np.hypot(np.tan(np.radians(survey.forward_deg)), np.tan(np.radians(survey.left_deg)))
    return cost_mm(usable, cuts, survey.undercut_mm, float(np.degrees(np.arctan(tilt))))


def test_a_search_finds_the_valley_of_a_bowl_and_stays_in_its_limit():
    """A cost with one least place, inside and outside of what may be tilted."""
    for middle, wanted in (((3.3, -4.2), (3.5, -4.0)), ((30.0, 0.0), (10.0, 0.0))):
        forward, left, search = searched_tilt(
            lambda f, a, m=middle: np.hypot(f - m[0], a - m[1]), 10.0
        )
        assert (forward, left) == wanted
        assert search.cost_mm < search.level_cost_mm


def test_of_tilts_that_cost_the_same_the_smallest_is_taken():
    """A plain without a valley leaves the cast as it stands."""
    assert searched_tilt(lambda *_: 1.0, 10.0)[:2] == (0.0, 0.0)


def test_what_a_tilt_costs_is_the_sum_that_the_report_tells():
    """Shortfall, unlikeness, cuts and degrees; a crown too low counts as one millimetre."""
    assert cost_mm([0.30, 0.40], [], 0.25, 0.0) == pytest.approx(0.10)
    assert cost_mm([0.10, 0.25], [0.2], 0.25, 3.0) == pytest.approx(0.6 + 0.15 + 0.2 + 0.03)
    assert cost_mm([9.0, 0.5], [np.inf], 0.25, 0.0) == pytest.approx(1.0)
    assert cost_mm([], [], 0.25, 0.0) == 0.0


def test_tripod_marks_stand_on_the_cast_at_one_height_far_apart():
    """On the mucosa, clear of teeth, in a plane square to the path, and not in a line."""
    _, casts, _ = mounted()
    survey = found_survey()["surveys"][0]
    marks, up = np.array(survey.tripod), -np.array(survey.path)
    assert marks.shape == (3, 3)
    assert np.ptp(marks @ up) < 1e-9
    area = 0.5 * np.linalg.norm(np.cross(marks[1] - marks[0], marks[2] - marks[0]))
    assert area > 500.0
    away = np.linalg.norm(casts.upper.body.mesh.vertices[:, None] - marks, axis=2).min(axis=0)
    assert (away < 1.0).all()
    natural = np.isin(casts.upper.tooth_of_face, [13, 12, 11, 21, 22, 23, 24, 25, 26, 27, 14])
    teeth = casts.upper.mesh.corners[natural].reshape(-1, 3)
    assert np.linalg.norm(teeth[:, None] - marks, axis=2).min() > 1.9


def test_replacement_teeth_are_not_surveyed_and_lines_lie_on_the_crowns():
    """A line runs along vertices of its tooth; what stands on a base has neither line nor depth."""
    _, casts, _ = mounted()
    survey = upper_survey()
    assert not {15, 16, 17} & set(survey.lines)
    own = np.unique(casts.upper.mesh.faces[np.isin(casts.upper.tooth_of_face, [15, 16, 17])])
    assert survey.depth_mm[own].max() == 0.0
    points = {tuple(point) for point in casts.upper.mesh.vertices}
    for lines in survey.lines.values():
        assert lines and all(tuple(point) in points for line in lines for point in line)


def test_findings_say_what_clasps_and_guide_planes_lack():
    """A wanted undercut that no clasp finds, a plane that must be cut, one that costs too much."""
    _, _, occlusion = mounted()
    (deep,) = (upper_survey(undercut_mm=1.0),)
    found = survey_findings(occlusion, (deep,))
    lacking = [item for item in found if item.kind == NO_UNDERCUT]
    assert {item.tooth_upper for item in lacking} == {14, 24, 26}
    assert all(item.severity == "attention" and item.margin.value > 0.0 for item in lacking)
    tall = upper_survey(guide_plane_height_mm=6.0)
    (plane,) = (f for f in survey_findings(occlusion, (tall,)) if f.kind in (TOO_DEEP, TO_BE_CUT))
    assert plane.tooth_upper == 14 and plane.kind == TOO_DEEP
    assert "not of this tooth" in plane.threshold_source
    survey = upper_survey(undercut_mm=0.15)
    usual = survey_findings(occlusion, (survey,))
    assert not [item for item in usual if item.severity != "note"]
    (mucosa,) = [item for item in usual if item.kind == SOFT_UNDERCUT]
    assert mucosa.figures[0].value == survey.soft.deepest_mm
    (cut,) = [item for item in usual if item.kind == TO_BE_CUT]
    assert cut.figures[-1].value <= MOST_CUT_MM


def test_files_and_report_tell_the_same_figures():
    """JSON keeps every digit, the table a row for each thing, the report rounds."""
    survey = found_survey()["surveys"][0]
    entry = json.loads(json.dumps(plain(survey_entries((survey,)))))[0]
    assert entry["arch"] == "upper" and entry["tilt_from"] == "occlusal plane of the arch"
    assert entry["path_of_insertion"] == list(survey.path)
    rows = [dict(zip(SURVEY_COLUMNS, row, strict=True)) for row in survey_rows((survey,))]
    kinds = [row["kind"] for row in rows]
    assert kinds.count("side of a tooth") == 4 * len(survey.teeth)
    assert kinds.count("tripod mark") == 3 and kinds.count("rest") == len(survey.rests)
    words = survey_section((survey,)).casts[0]
    assert "front" in words.lead and "tilts were compared" in words.lead
    assert words.guides.rows[0][0] == "14 distal"
    assert {row[-1] for row in words.teeth.rows} >= {"clasp: undercut as wanted", "reciprocal arm"}
    assert survey_section(()) is None


def test_pictures_show_every_surveyed_tooth_and_no_set_up():
    """Facial and lingual of each, the side to the base, three marks with numbers, and a key."""
    _, casts, _ = mounted()
    survey = found_survey()["surveys"][0]
    path = path_scene(casts.upper, survey, (15, 16, 17))
    assert {part.role for part in path.parts}.isdisjoint({"replacement tooth", "denture base"})
    assert "15" not in {label.text for label in path.labels}
    over = path_sheet(path, casts.upper, survey, 1.2)
    numbers = [item.text for item in over.items if getattr(item, "text", "") in ("1", "2", "3")]
    assert sorted(numbers) == ["1", "2", "3"]
    sides, views = abutment_scene(casts.upper, survey)
    assert len(sides.parts) == len(views) == 2 * len(survey.teeth) + 1
    inside = 0.5 * np.array([sides.view.width_mm, sides.view.height_mm])
    for part in sides.parts:
        assert (np.abs(part.vertices[:, :2]) <= inside).all()
    assert abutment_sheet(sides, views, survey, 2.0).items
    assert any("0.75 mm or more" in getattr(i, "text", "") for i in survey_key(survey).items)
    bands = depth_paint(np.array([0.0, 0.249, 0.25, 0.5, 0.75]), "upper tooth")
    assert len(np.unique(bands, axis=0)) == 4 and (bands[0] == bands[1]).all()


def test_a_path_frame_of_the_upper_points_out_of_the_cast():
    """Teeth up on the surveyor: against the hinge frame of an upper cast, downward."""
    _, casts, _ = mounted()
    up = occlusal_up(casts.upper, True)
    assert up[2] < -0.9 and occlusal_up(casts.lower, False)[2] > 0.9
    assert path_frame(up, 5.0, 0.0).up[0] < up[0]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('[survey.upper]\ntilt = "found"\nleft_deg = 3', "forward_deg or left_deg is set"),
        ("[survey.upper]\nclasps = [36]", "36 is a tooth of the lower"),
        ("[survey.upper]\nclasps = [14, 14]", "14 is named twice"),
        ("[survey.upper]\nclasps = [19]", "19"),
        ("[survey.lower]\nclasps = [38]", "the dentition has no tooth 38"),
        ("[survey.upper]\nforward_deg = 40", "40"),
    ],
)
def test_settings_that_cannot_be_are_refused_with_what_to_do(text, told):
    """Each says which key, and why."""
    with pytest.raises(InputError) as refused:
        parse_case(text, "case.toml")
    assert told in str(refused.value) and "survey" in str(refused.value)


def test_a_clasp_on_a_replacement_tooth_is_refused():
    """It is borne by a natural tooth."""
    case = coarse(NAME)
    with pytest.raises(ValueError, match="16 is a replacement tooth"):
        replace(case, survey=SurveySettings(upper=ArchSurvey(clasps=(16,))))


def test_a_case_without_a_survey_is_left_as_it_is():
    """Nothing is computed, and findings stay the same object."""
    _, casts, _ = mounted()
    findings = ()
    told = surveyed_case(Case(), casts, findings, lambda _: None)
    assert told == {"surveys": (), "wax_ups": (), "findings": findings}


def test_changes_of_a_case_are_told_like_a_wax_up():
    """A tooth 1 mm higher adds about its outline; the words say that the case changed it."""
    _, casts, _ = mounted()
    after = casts.lower
    raised = after.mesh.vertices.copy()
    raised[np.unique(after.mesh.faces[after.tooth_of_face == 45]), 2] += 1.0
    before = after
    after = replace(after, mesh=mesh_of(raised, after.mesh.faces))
    told = surveyed_case(Case(), casts, (), lambda _: None, [(before, after)])
    (found,) = told["wax_ups"]
    assert found.by_changes and not found.is_upper
    assert [tooth.tooth for tooth in found.teeth] == [45]
    assert found.teeth[0].most_added_mm <= 1.0 + 1e-9
    assert "changes of the case" in wax_up_words((found,))[0].lead
