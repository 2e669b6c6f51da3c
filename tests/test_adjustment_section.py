"""Adjustments in a case file, in the report and in result files."""

from dataclasses import replace

import numpy as np
import pytest
import trimesh

from kinematics.adjustment_files import (
    ADJUSTMENT_COLUMNS,
    adjusted_teeth,
    adjustment_entries,
    adjustment_rows,
)
from kinematics.case_adjusted import Adjusted
from kinematics.case_file import case_toml, parse_case
from kinematics.checks import InputError
from kinematics.geometry.meshes import mesh_of
from kinematics.planning.adjusting.adjusted_casts import adjusted_casts
from kinematics.planning.adjusting.cutting_rules import CUTTING_RULES
from kinematics.planning.adjusting.outcome import outcome
from kinematics.planning.adjusting.planned import plan
from kinematics.planning.adjusting.settings import KEEPS_STOP, OPENS_FOSSA, Adjustment
from kinematics.planning.adjusting.tooth_cut import cut_vertices
from kinematics.result_files import plain
from kinematics.result_texts import json_text
from kinematics.scans.scan_files import read_scan
from scenes.adjustment_words import adjustment_section
from scenes.case_words import CaseWords
from scenes.cut_maps import STEPS_MM, cut_legend, cut_scene, step_colours
from scenes.report import html_report
from tests.adjusted_mouth import fine_mouth, moved
from tests.shipped_cases import shipped_in_full


@pytest.fixture(scope="module")
def done():
    """Return an adjustment that reaches its aim, and one that does not."""
    mouth = moved(fine_mouth({16: (0.42, 0.42)}))
    found = []
    for asked in (
        Adjustment(KEEPS_STOP, (16,), cut="upper"),
        Adjustment(KEEPS_STOP, (16,), cut="upper", deepest_mm=0.1),
        Adjustment(OPENS_FOSSA, (26,)),
    ):
        planned = plan(mouth.occlusion, mouth.sweeps, mouth.stops, asked)
        after = moved(adjusted_casts(mouth.occlusion.casts, planned.cuts))
        found.append(Adjusted(planned, outcome(mouth, after, asked)))
    return tuple(found)


def test_the_section_tells_what_comes_off_and_what_then_holds(done):
    """Depth twice, rule, stops and new contacts; or what hinders."""
    reached, hindered, idle = adjustment_section(done).parts
    (row,) = reached.cuts.rows
    cut = done[0].planned.cuts[0]
    assert reached.title == "1. 16 keeps its stop and clears all excursions"
    assert reached.lead == "The aim is reached and every stop in MI stays."
    assert row[0] == "16\nagainst 46"
    assert row[2] == f"{cut.deepest_mm:.2f} mm"
    assert row[3] == f"{cut.deepest_square_mm:.2f} mm"
    assert cut.deepest_square_mm < cut.deepest_mm
    assert "(the arch is named by the case)" in row[1]
    assert any(line.startswith("Stops in MI that stay: 17/47, 16/46") for line in reached.after)
    assert hindered.lead == "The aim is not reached by this."
    assert any("no cut is to be deeper than deepest_mm = 0.1" in why for why in hindered.reasons)
    assert hindered.reasons[-1].startswith("Still touching: 16 on 46 in ")
    assert idle.cuts.rows == ()
    assert "None of these teeth is high in MI" in idle.reasons[0]
    assert adjustment_section(()) is None


def test_rules_are_printed_with_their_sources(done):
    """Every row of the table stands in the report, and the caution beside it."""
    section = adjustment_section(done)
    assert len(section.rules.rows) == len(CUTTING_RULES)
    assert all(row[-1] for row in section.rules.rows)
    assert "not of this tooth" in section.caution


def test_files_tell_the_same(done):
    """One row a tooth that is cut, as many cells as columns, and entries without NaN."""
    rows = list(adjustment_rows(done))
    assert {len(row) for row in rows} == {len(ADJUSTMENT_COLUMNS)}
    told = [dict(zip(ADJUSTMENT_COLUMNS, row, strict=True)) for row in rows]
    assert [row["aim_reached"] for row in told] == ["yes", "no", "yes"]
    assert float(told[1]["still_too_near_mm"]) > 0.1
    assert float(told[1]["deepest_along_arc_mm"]) == pytest.approx(0.1)
    entries = plain(adjustment_entries(done))
    assert entries[0]["outcome"]["is_reached"] is True
    assert entries[0]["cuts"][0]["volume_mm3"] == done[0].planned.cuts[0].surface.volume_mm3
    assert "NaN" not in json_text({"adjustments": entries})


def test_every_tooth_cut_is_a_mesh_with_depths(done, tmp_path):
    """Two readers find every digit: ours, and trimesh; units stand in the header."""
    (name,) = files = adjusted_teeth(done[:1])
    assert name == "adjusted_16.ply" and adjusted_teeth(done[2:]) == {}
    path = tmp_path / name
    path.write_bytes(files[name])
    surface = done[0].planned.cuts[0].surface
    depths = {
        "depth_along_arc_mm": surface.arc_mm,
        "depth_square_mm": done[0].planned.cuts[0].square_mm,
    }
    ours, other = read_scan(path), trimesh.load(path, process=False)
    other_numbers = other.metadata["_ply_raw"]["vertex"]["data"]
    for vertices, faces in ((ours.vertices, ours.faces), (other.vertices, other.faces)):
        np.testing.assert_array_equal(vertices, surface.after.vertices)
        np.testing.assert_array_equal(faces, surface.after.faces)
    for column, depth_mm in depths.items():
        np.testing.assert_array_equal(ours.vertex_scalars[column], depth_mm)
        np.testing.assert_array_equal(np.ravel(other_numbers[column]), depth_mm)
    header = files[name].split(b"end_header")[0].decode("ascii")
    assert "comment x, y, z in mm: hinge frame" in header
    assert "depth_square_mm: the same, shortest distance from the uncut surface, mm\n" in header


def test_a_tooth_cut_twice_is_told_from_where_it_began(done):
    """Both depths along the arc add up; square to the surface it is that of the uncut tooth."""
    item = done[0]
    first = item.planned.cuts[0]
    more = np.where(first.surface.arc_mm > 0.0, 0.05, 0.0)
    mi_pose = moved(fine_mouth()).occlusion.casts.mi_pose
    deeper = mesh_of(
        cut_vertices(mi_pose, first.surface.after.vertices, more, upper=True),
        first.surface.after.faces,
    )
    second = replace(first.surface, before=first.surface.after, after=deeper, arc_mm=more)
    again = replace(item, planned=replace(item.planned, cuts=(replace(first, surface=second),)))
    content = adjusted_teeth((item, again))["adjusted_16.ply"]
    rows = content.split(b"end_header\n")[1][: 40 * len(more)]
    told = np.frombuffer(rows, "<f8").reshape(-1, 5)
    np.testing.assert_array_equal(told[:, :3], deeper.vertices)
    np.testing.assert_array_equal(told[:, 3], first.surface.arc_mm + more)
    _, wanted, _ = trimesh.proximity.closest_point(
        trimesh.Trimesh(first.surface.before.vertices, first.surface.before.faces, process=False),
        deeper.vertices,
    )
    np.testing.assert_allclose(told[:, 4], np.where(told[:, 3] > 0.0, wanted, 0.0), atol=1e-9)


def test_the_report_shows_a_map_of_every_tooth_cut(done, example):
    """Section, pictures and legend stand in the page."""
    words = CaseWords("An invented case", "", "occlusal", ())
    page = html_report(replace(example, adjusted=done), words)
    assert page.count('class="cut-map"') == 2
    assert "What would have to come off?" in page
    assert "comes off along the bite" in page


def test_depth_is_coloured_in_steps(done):
    """A triangle has the colour of its step; none where less than the first comes off."""
    cut = done[0].planned.cuts[0]
    (part,) = cut_scene(cut).parts
    depth = cut.surface.arc_mm[cut.surface.before.faces].mean(axis=1)
    paints = part.paint.reshape(-1, 3, 3)
    assert (paints == paints[:, :1]).all()
    deepest = int(np.argmax(depth))
    step = np.searchsorted(STEPS_MM, depth[deepest], side="right") - 1
    np.testing.assert_array_equal(paints[deepest, 0], step_colours()[step])
    assert len(np.unique(paints[depth < STEPS_MM[0], 0], axis=0)) == 1
    assert len(cut_legend().items) > 2 * len(STEPS_MM)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("so_that = 'flat stop'\nteeth = [49]", "teeth|tooth = 49: not a tooth number"),
        ("so_that = 'flat stop'\nteeth = [16, 16]", "16 stands twice; name it once"),
        ("so_that = 'flat stop'\nteeth = [18]", "the dentition has no tooth 18"),
        (
            "so_that = 'flat stop'\nteeth = [16]\nexcursions = ['protrusion']",
            "leave excursions out",
        ),
        (
            "so_that = 'only these teeth guide'\nteeth = [13]\nexcursions = ['right']",
            "'right' is not followed; accepted are 'protrusion', 'right lateral'",
        ),
        ("so_that = 'flat'\nteeth = [16]", "so_that"),
        ("so_that = 'flat stop'\nteeth = []", "teeth"),
        ("so_that = 'flat stop'\nteeth = [16]\nmargin_mm = 9", "margin_mm = 9"),
    ],
)
def test_what_cannot_be_asked_is_refused(text, message):
    """Each fault says where it is and what is accepted."""
    with pytest.raises(InputError, match=message):
        parse_case(f"[[adjustments]]\n{text}", "my_case.toml")


def test_a_case_file_holds_what_was_asked():
    """Written and read again an adjustment is the same."""
    case = parse_case(
        "[[adjustments]]\nso_that = 'flat stop'\nteeth = [16]\nwidth_mm = 0.8", "case.toml"
    )
    assert parse_case(case_toml(case), "again.toml") == case


def test_a_built_in_case_is_adjusted():
    """On crowns: 17 is cut on the nonworking side, all stops stay, and the canines guide alone."""
    result = shipped_in_full("nonworking_interference")
    (item,) = result.adjusted
    (cut,) = item.planned.cuts
    assert (cut.tooth, cut.against, cut.excursion) == (17, (47,), "left lateral")
    assert [rule.high for rule in cut.rules] == ["in excursions alone, nonworking side"]
    assert item.outcome.is_reached
    assert len(item.outcome.stops_kept) > 4
    assert 0.1 < cut.deepest_mm < 0.4
