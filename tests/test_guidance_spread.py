"""Standard errors in a case: bound to the values they belong to, with their correlations."""

import threading
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_by_records import _path_changes, case_by_records
from kinematics.case_changes import changed_case
from kinematics.case_file import case_toml, parse_case, read_case
from kinematics.checks import InputError
from kinematics.records.found_settings import Estimate
from kinematics.records.from_records import settings_from_records
from kinematics.records.spread import KEYS, stale_errors
from kinematics.result_files import findings_document
from scenes import command_line
from scenes.case_marks import marked
from scenes.case_words import setting_changes
from scenes.page_desk import Desk
from scenes.page_frames import header_of
from scenes.page_messages import GIVEN_CASE, first_show
from tests.test_records_command import case_of


@pytest.fixture(scope="module")
def made():
    """Return a case by records in which nearly everything follows, scattered."""
    return case_by_records(case_of(seed=3)).case


def test_every_setting_found_has_error_value_and_correlations(made):
    """Nothing that follows is missing, on either side; the matrix is that of the fit."""
    spread, found = made.guidance_spread, settings_from_records(made.recorded)
    names = [f"{of.side}.{KEYS[of.quantity][0]}" for of in found.estimates]
    assert set(spread.correlated) <= set(names)
    assert len(spread.correlated) >= 6
    between = np.array(spread.correlations)
    assert np.allclose(between, between.T)
    assert (np.linalg.eigvalsh(between) > -1e-5).all()
    for name in spread.correlated:
        side, key = name.split(".")
        assert getattr(getattr(spread, side), key) > 0.0
    assert stale_errors(spread, made.guidance) == ()
    assert parse_case(case_toml(made), "again") == made


def test_correlations_are_those_of_records_taken_again_and_again():
    """Two hundred sets of scattered records: how the settings found differ, pair by pair."""
    cases = [case_of(seed=seed, fitting=None) for seed in range(200)]
    found = [settings_from_records(case.recorded) for case in cases]
    first = found[0]
    same = [of for of in found if len(of.estimates) == len(first.estimates)]
    assert len(same) > 150
    values = np.array([[e.value for e in of.estimates] for of in same])
    said = np.mean([of.correlations for of in same], axis=0)
    assert np.abs(np.corrcoef(values.T) - said).max() < 0.3


def test_a_setting_changed_in_the_file_is_told(made, tmp_path, capsys):
    """With both keys, both values, and what to do; nothing is computed with a wrong error."""
    settings = {error: (quantity, setting) for quantity, (error, setting) in KEYS.items()}
    path, text = tmp_path / "case.toml", case_toml(made)
    for name in made.guidance_spread.correlated:
        side, error = name.split(".")
        quantity, setting = settings[error]
        value = getattr(getattr(made.guidance, side), setting)
        head, section, rest = text.partition(f"[guidance.{side}]")
        before = f"\n{setting} = {value}"
        assert before in rest
        other = 37.5 if quantity == "curvature" else 7.5
        path.write_text(head + section + rest.replace(before, f"\n{setting} = {other}", 1))
        with pytest.raises(InputError) as refused:
            read_case(path)
        told = str(refused.value)
        assert f"guidance_spread.{side}.{error}: the standard error belongs to" in told
        assert f"guidance.{side}.{setting} = {value:g}, which now is {other}" in told
        assert "find the settings anew (`cuspway records` or `cuspway tracks`)" in told
    assert command_line.main(["records", str(path)]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_changes_leave_out_what_they_make_stale(made):
    """As on the page: the others stay, and so does their correlation."""
    changed = changed_case(made, {"guidance.right.condylar_inclination_deg": 33.0})
    before, after = made.guidance_spread, changed.guidance_spread
    assert after.right.condylar_inclination_deg is None
    assert after.right.found_condylar_inclination_deg is None
    assert after.left == before.left
    assert "right.condylar_inclination_deg" not in after.correlated
    assert len(after.correlations) == len(before.correlations) - 1
    (stale,) = stale_errors(before, changed.guidance)
    assert (stale.side, stale.quantity) == ("right", "condylar inclination")
    assert parse_case(case_toml(changed), "again") == changed
    assert any("guidance spread" in item.text for item in setting_changes(changed, made))


def test_changes_of_everything_leave_no_spread(made):
    """And a case without any is as it was."""
    values = {"eminence_radius_mm": 50.0, "immediate_shift_mm": 0.1}
    every = {
        f"guidance.{side}.{setting}": values.get(setting, 27.0)
        for side in ("right", "left")
        for _, setting in KEYS.values()
    }
    assert changed_case(made, every).guidance_spread is None
    assert changed_case(Case(), {"pin_opening_mm": 1.0}).guidance_spread is None


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("found_condylar_inclination_deg = ", "# ", "belong together"),
        ('correlated = ["right', 'correlated = ["wrong', "is not a standard error that is given"),
        ("correlations = [[1.0", "correlations = [[0.5", "must be 1 of each with itself"),
        ("correlations = [[1.0, ", "correlations = [[", "rows of"),
    ],
)
def test_spreads_that_say_something_impossible_are_refused(made, old, new, words):
    """Each with its key."""
    text = case_toml(made)
    assert old in text
    with pytest.raises(InputError, match=words) as refused:
        parse_case(text.replace(old, new, 1), "case")
    assert "guidance_spread" in str(refused.value)


def test_results_hold_errors_values_and_correlations(made, example):
    """For later studies, with the case and with what the records say."""
    found = settings_from_records(made.recorded)
    told = findings_document(made, replace(example, recorded=found), [])
    assert told["case"]["guidance_spread"]["right"]["condylar_inclination_deg"] > 0.0
    assert len(told["interocclusal_records"]["correlations"]) == len(found.estimates)


def test_the_page_says_that_an_error_was_left_out(made):
    """Beside the facts, as soon as the setting is moved; not before."""
    coarse = replace(made, dentition=replace(made.dentition, triangles_per_arch=10_000))
    desk = Desk(1, coarse)
    first = first_show(marked(GIVEN_CASE, coarse))
    for changes, words in (
        ({}, []),
        ({"guidance.left.progressive_shift_deg": 3.0}, ["left progressive shift"]),
    ):
        show = first.model_copy(update={"number": len(words) + 1, "changes": changes})
        told = [header_of(m) for m in desk.answers(show, threading.Event())]
        facts = next(m["facts"] for m in told if m["kind"] == "rest")
        names = [name for name, value in facts if value.startswith("left out: ")]
        assert names == [f"standard error of the {word}" for word in words]
    desk.close()


def test_what_a_new_fit_makes_less_certain_is_told(made):
    """Of fewer records: which standard error the case had, and what became of it."""
    fewer = replace(made, interocclusal_records=made.interocclusal_records[:1])
    again = case_by_records(fewer)
    told = [note for note in again.notes if "the case had it with a standard error of" in note]
    assert any(note.endswith("which is lost, since nothing of it follows here") for note in told)
    for note in told:
        side, name = note.split(":")[0].split(" ")
        assert f"of {getattr(getattr(made.guidance_spread, side), name):g}, which" in note
    assert not [note for note in case_by_records(made).notes if "the case had it" in note]


def test_a_curve_that_bends_the_other_way_is_told_as_such():
    """No setting takes it; straight is as near as one comes, and that is not a fault."""
    found = Estimate("left", "curvature", -0.010, 0.003, -0.015, -0.004, "per mm", 0.02)
    changes, (note,) = _path_changes(found)
    assert changes == {"guidance.left.path": "straight"}
    assert "bends the other way" in note and "--measured-paths" in note
    assert not found.holds_as_set
    assert replace(found, as_set=0.0).holds_as_set
    assert not replace(found, as_set=0.0, low=0.01, high=0.02).holds_as_set
