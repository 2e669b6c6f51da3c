"""`cuspway records`: what it prints, the case it writes, and what it refuses."""

import os
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_by_records import case_by_records
from kinematics.case_file import case_toml, parse_case, read_case
from kinematics.checks import InputError
from kinematics.geometry.poses import inverse, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import CENTRIC_RELATION, pose_at
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.from_records import settings_from_records
from kinematics.records.settings import GuidanceSpread, RecordFitting, SideSpread
from scenes import command_line
from scenes.record_words import record_lines, record_words
from tests.made_excursion_records import (
    SET,
    any_jaw,
    noisy,
    paired_records,
    poses_in,
    records_of,
    unlike,
)
from tests.made_records import settings_of
from tests.scanner_like import any_place

FINE = RecordFitting(translation_scatter_mm=0.01, rotation_scatter_deg=0.05)
GIVEN = GuidanceSettings(
    right=SideGuidance(
        condylar_inclination_deg=41.0, path="curved", progressive_shift_deg=7.0,
        immediate_shift_mm=0.6,
    ),
    left=SideGuidance(condylar_inclination_deg=28.0, progressive_shift_deg=14.0),
)  # fmt: skip


def case_of(given=GIVEN, kinds=SET, fitting=FINE, seed=None, **more):
    """Return a case with records made from guidance that it does not know."""
    poses = poses_in(given, kinds)
    if seed is not None:
        rng = np.random.default_rng(seed)
        poses = [noisy(pose, rng) for pose in poses]
    return Case(
        guidance=unlike(given),
        interocclusal_records=tuple(records_of(poses, kinds)),
        settings_from_records=fitting,
        **more,
    )


def run(capsys, *arguments):
    """Return exit code, output and complaints of the command."""
    code = command_line.main(["records", *map(str, arguments)])
    told = capsys.readouterr()
    return code, told.out, told.err


def _correlation(case, side, *names):
    """Return that of two errors of one side in the spread of a case."""
    spread = case.guidance_spread
    one, other = (spread.correlated.index(f"{side}.{name}") for name in names)
    return spread.correlations[one][other]


def test_the_settings_found_are_written_with_their_errors(tmp_path, capsys):
    """A case file of its own, whose settings are those of the jaw; nothing else changes."""
    path, made = tmp_path / "case.toml", tmp_path / "set.toml"
    path.write_text(case_toml(case_of(title="Found")), "utf-8")
    code, out, err = run(capsys, path, "--write", made)
    assert (code, err) == (0, "")
    assert "right condylar inclination: 41.0°, standard error" in out
    assert f"Written to {made}" in out
    case = read_case(made)
    for side in ("right", "left"):
        found, given = getattr(case.guidance, side), getattr(GIVEN, side)
        assert found.condylar_inclination_deg == pytest.approx(
            given.condylar_inclination_deg, abs=1e-3
        )
        assert found.progressive_shift_deg == pytest.approx(given.progressive_shift_deg, abs=1e-3)
        assert found.immediate_shift_mm == pytest.approx(given.immediate_shift_mm, abs=1e-4)
        assert found.path == given.path
        spread = getattr(case.guidance_spread, side)
        assert 0.0 < spread.condylar_inclination_deg < 1.0
        assert 0.0 < spread.immediate_shift_mm < 0.3
        assert spread.found_condylar_inclination_deg == found.condylar_inclination_deg
        assert _correlation(case, side, "progressive_shift_deg", "immediate_shift_mm") < -0.5
    assert case.guidance.right.eminence_radius_mm == pytest.approx(19.0, abs=0.01)
    assert case.guidance_spread.left.eminence_curvature_per_mm is None
    assert case.title == "Found"
    assert sorted(os.listdir(tmp_path)) == ["case.toml", "set.toml"]
    again = settings_from_records(case.recorded)
    assert all(estimate.holds_as_set for estimate in again.estimates)


@pytest.mark.parametrize("seed", range(50))
def test_a_case_with_records_survives_its_file(seed):
    """Transforms and pairs, scatter and what is known, spread: text and back, the same case."""
    given = any_jaw(seed)
    mi = pose_at(prepare(given), CENTRIC_RELATION)
    poses = poses_in(given, seed=seed)
    records = (*records_of(poses)[:3], *paired_records(poses, mi)[3:])
    fitting = replace(FINE, right_as_set=("curvature",), scatter_about_mm=(55.0, 1.0, -30.0))
    inclination = given.right.condylar_inclination_deg
    right = SideSpread(condylar_inclination_deg=1.25, found_condylar_inclination_deg=inclination)
    spread = GuidanceSpread(right=right)
    case = Case(
        guidance=given,
        interocclusal_records=records,
        settings_from_records=fitting if seed % 2 else None,
        guidance_spread=spread if seed % 3 else None,
    )
    assert parse_case(case_toml(case), "case.toml") == case


@pytest.mark.parametrize("seed", range(20))
def test_noisy_records_always_make_a_case(seed):
    """Shifts below nothing are set to nothing and the rest is sought anew; it is told."""
    given = replace(GIVEN, right=replace(GIVEN.right, immediate_shift_mm=0.0))
    case = case_of(given, fitting=None, seed=seed)
    made = case_by_records(case)
    found = settings_from_records(case.recorded).by_name
    for side in ("right", "left"):
        shift = found.get((side, "immediate shift"))
        of = getattr(made.case.guidance, side)
        if shift is not None and shift.value < 0.0:
            assert of.immediate_shift_mm == 0.0
            assert any(note.startswith(f"{side} immediate shift: ") for note in made.notes)
            assert of.progressive_shift_deg != round(found[side, "progressive shift"].value, 4)
        elif shift is not None and found[side, "progressive shift"].value >= 0.0:
            # the other side, sought anew, leans on this one a little
            assert of.immediate_shift_mm == pytest.approx(shift.value, abs=0.01)
    assert made.case.interocclusal_records == case.interocclusal_records
    assert made.case.settings_from_records == case.settings_from_records


def test_a_bennett_angle_gives_way_to_what_is_found():
    """Two ways to say one thing cannot both stand in the case that is written."""
    case = case_of()
    sides = {
        side: replace(getattr(case.guidance, side), bennett_angle_deg=12.0)
        for side in ("right", "left")
    }
    made = case_by_records(replace(case, guidance=replace(case.guidance, **sides))).case
    assert made.guidance.right.bennett_angle_deg is None
    assert made.guidance.right.progressive_shift_deg == pytest.approx(7.0, abs=1e-3)


def test_scans_are_named_from_the_new_file(tmp_path, capsys):
    """A case of scans written to another folder finds its scans from there."""
    hinge, bite = any_place(3), any_place(4)
    scans = settings_of(hinge, bite)
    poses = poses_in(GIVEN)
    given = Case().mi
    to_scan = [
        inverse(hinge) @ p @ inverse(pose_at(prepare(GIVEN), given)) @ hinge @ bite for p in poses
    ]
    case = Case(
        guidance=unlike(GIVEN),
        scans=scans,
        interocclusal_records=tuple(records_of(to_scan)),
        settings_from_records=FINE,
    )
    path = tmp_path / "case.toml"
    path.write_text(case_toml(case), "utf-8")
    (tmp_path / "other").mkdir()
    code, _, err = run(capsys, path, "--write", tmp_path / "other" / "set.toml")
    assert (code, err) == (0, "")
    text = (tmp_path / "other" / "set.toml").read_text("utf-8")
    assert 'upper = "../upper.stl"' in text
    made = read_case(tmp_path / "other" / "set.toml")
    assert made.guidance.right.condylar_inclination_deg == pytest.approx(41.0, abs=1e-3)


def test_what_cannot_be_done_is_said_and_nothing_is_written(tmp_path, capsys):
    """No records, a file that is there, a folder that is not, a record that is none."""
    path = tmp_path / "case.toml"
    path.write_text('title = "None"\n', "utf-8")
    code, out, err = run(capsys, path)
    assert (code, out) == (2, "")
    assert "has no interocclusal_records; add them to the case file" in err
    path.write_text(case_toml(case_of()), "utf-8")
    (tmp_path / "there.toml").write_text("mine", "utf-8")
    code, _, err = run(capsys, path, "--write", tmp_path / "there.toml")
    assert code == 2
    assert "is there already, and no file is replaced" in err
    assert (tmp_path / "there.toml").read_text("utf-8") == "mine"
    code, out, err = run(capsys, path, "--write", tmp_path / "nowhere" / "new.toml")
    assert (code, out) == (2, "")
    assert "--write" in err and "cannot be written" in err
    behind = pose_of(np.eye(3), np.array([-6.0, 0.0, 0.0]))
    text = case_toml(Case()) + "\n".join(
        ["[[interocclusal_records]]", 'kind = "protrusive"', f"transform = {behind.tolist()}"]
    )
    path.write_text(text, "utf-8")
    code, _, err = run(capsys, path)
    assert code == 2
    assert f"{path}: 1 fault" in err
    assert "interocclusal_records[0] (protrusive): puts the right condyle 6.0 mm behind" in err
    assert sorted(os.listdir(tmp_path)) == ["case.toml", "there.toml"]
    with pytest.raises(InputError, match="nothing follows that could be set"):
        short = case_of(kinds=(("protrusive", 1.0),), fitting=None)
        case_by_records(short)


def test_the_words_say_what_follows_and_what_does_not():
    """Every number with its unit, the plane named, reasons whole, no figure without its error."""
    case = case_of(kinds=(("protrusive", 5.0), ("left lateral", 6.0)))
    found = settings_from_records(case.recorded)
    words = record_words(found, FINE, "Camper plane")
    text = "\n".join(record_lines(words))
    for said in (
        "1, protrusive, transform; misfit",
        "right Bennett angle at an advance of 6.0 mm: ",
        "right progressive shift (9.0°): One left lateral record at one advance",
        "left immediate shift (0.00 mm): No right lateral record moves the left condyle inward.",
        "left curvature (straight): There is one record of the left condyle at one advance only",
        "Inclinations refer to the Camper plane",
        "(outside)",
        "right condylar inclination, set to 35.0°, follows as",
    ):
        assert said in text, text
    assert "nan" not in text.lower() and "e-" not in text
    assert record_words(None, FINE, "Camper plane") is None


def test_the_record_of_readme_can_be_read(tmp_path, capsys):
    """What README shows is a case file, from which inclinations follow."""
    readme = (Path(__file__).parents[1] / "README.md").read_text("utf-8")
    (shown,) = re.findall(r"```toml\n(\[\[interocclusal_records\]\].*?)```", readme, re.DOTALL)
    path = tmp_path / "case.toml"
    path.write_text(shown, "utf-8")
    code, out, err = run(capsys, path)
    assert (code, err) == (0, "")
    assert "1, protrusive, 3 pairs of points" in out
    assert "left condylar inclination: 3" in out


def test_records_that_do_not_agree_are_said_to():
    """A record that is off: the misfit is told with what to do."""
    poses = poses_in(GIVEN)
    poses[1] = pose_of(np.eye(3), np.array([0.0, 0.0, -2.0])) @ poses[1]
    case = Case(guidance=GIVEN, interocclusal_records=tuple(records_of(poses)))
    fitting = RecordFitting(left_as_set=("curvature",), right_as_set=("curvature",))
    found = settings_from_records(replace(case, settings_from_records=fitting).recorded)
    words = record_words(found, fitting, "occlusal plane")
    assert "fit worse than their scatter explains" in words.misfit
    assert "less than 1 in 1000" in words.misfit
