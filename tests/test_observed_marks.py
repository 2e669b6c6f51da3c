"""Marks found in the mouth against those of the casts, and against a slower way to compare."""

import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_file import case_toml, parse_case
from kinematics.checks import InputError
from kinematics.planning.given_marks import ObservedMarks, movement_names
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.observed_findings import MARKS_DIFFER, marks_finding
from kinematics.planning.observed_marks import ComparedMarks, all_compared, compared
from kinematics.result_files import findings_document
from scenes.builtin_cases import builtin_case
from scenes.chairside import checklist
from scenes.observed_words import observed_table
from tests.example_checkup import LOWERS, UPPERS
from tests.shipped_cases import run_case

SETTINGS = JudgingSettings()
TITLES = {
    "MI": "Maximal intercuspation (MI)",
    "protrusion": "Protrusion",
    "right lateral": "Right lateral excursion",
    "left lateral": "Left lateral excursion",
    "lateroprotrusion -45": "Lateroprotrusion 45° to the right",
    "CR": "Centric relation (CR)",
}


def any_marks(seed):
    """Return marks of any movement: some teeth marked, some not, some not looked at."""
    rng = np.random.default_rng(seed)
    movement = str(rng.choice(list(TITLES)))
    looked_at = rng.permutation([code for code in (*UPPERS, *LOWERS) if rng.random() < 0.6])
    cut = int(rng.integers(0, len(looked_at) + 1))
    return ObservedMarks(
        movement, tuple(map(int, looked_at[:cut])), tuple(map(int, looked_at[cut:]))
    )


def on_the_list(example, movement):
    """Return the teeth that the check list of the report names as marked."""
    groups = {group.title: group for group in checklist(example, SETTINGS).groups}
    rows = groups[TITLES[movement]].rows
    return {int(code) for row in rows for code in row.teeth.split("/")}


@pytest.mark.parametrize("seed", range(70))
def test_every_tooth_is_judged_as_the_check_list_says(example, seed):
    """Tooth by tooth: on the list or not, marked or not; teeth that are not named stay out."""
    marks = any_marks(seed)
    (found,) = all_compared([marks], example.sweeps, SETTINGS, example.slide)
    listed = on_the_list(example, marks.movement)
    answers = {}
    for code in (*UPPERS, *LOWERS):
        if code in marks.marked:
            answers[code] = "agreed" if code in listed else "not_expected"
        elif code in marks.unmarked:
            answers[code] = "not_found" if code in listed else "agreed_bare"
    told = {
        code: field
        for field in ("agreed", "agreed_bare", "not_found", "not_expected")
        for code in getattr(found, field)
    }
    assert told == answers
    assert found.agree == (not {"not_found", "not_expected"} & set(answers.values()))
    said = marks_finding(found)
    assert (said is None) == found.agree
    if said is not None:
        named = {int(code) for code in re.findall(r"\b[1-4][1-8]\b", said.text.split(": ")[0])}
        differ = {code for code, answer in answers.items() if answer.startswith("not_")}
        degrees = {45} if marks.movement.startswith("lateroprotrusion") else set()
        assert named - degrees == differ - degrees


def test_what_is_compared_needs_its_movement(example):
    """Without the slide nothing is said of CR; without its sweep nothing of a movement."""
    marks = [ObservedMarks("CR", (16,)), ObservedMarks("left lateral", (16,))]
    assert all_compared(marks, example.sweeps[:1], SETTINGS, None) == ()
    same = all_compared(
        [ObservedMarks("CR", (16, 11)), ObservedMarks("MI", (16, 11))],
        example.sweeps,
        SETTINGS,
        replace(example.slide, kind="none"),
    )
    assert replace(same[0], movement="MI") == same[1]  # CR is MI: it closes into its marks


def test_the_finding_names_teeth_and_what_it_may_mean():
    """Each difference with its teeth, and another meaning in MI, in CR and in a movement."""
    said = {
        movement: marks_finding(compared(ObservedMarks(movement, (14,), (16,)), [(16, 46)]))
        for movement in ("MI", "CR", "right lateral", "lateroprotrusion 45")
    }
    assert said["MI"].text == (
        "In MI the mouth shows no mark on 16, which touches on the casts, and the mouth shows marks"
        " on 14, where the casts do not touch: the casts may not stand as the jaw does (mounting,"
        " bite record), or a tooth is worn or has moved since they were made; check before anything"
        " is ground."
    )
    assert said["CR"].text.startswith("At the first touch in CR")
    assert "the centric record" in said["CR"].text
    assert said["right lateral"].text.startswith("In right lateral excursion")
    assert "settings of the guidance" in said["right lateral"].text
    assert said["lateroprotrusion 45"].text.startswith("In lateroprotrusion 45 degrees to the left")
    assert {item.severity for item in said.values()} == {"attention"}
    assert [item.excursion for item in said.values()] == [
        None, None, "right lateral", "lateroprotrusion 45",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "movement = 'MI'\nmarked = [16, 26]\nunmarked = [26]",
            r"observed_marks\[0\]: 26 stands there both as marked and as unmarked; name it once",
        ),
        ("movement = 'MI'\nmarked = [16, 16]", r"observed_marks\[0\]: 16 stands there 2 times"),
        ("movement = 'MI'", r"observed_marks\[0\]: names no tooth; give the teeth"),
        ("movement = 'MI'\nmarked = [19]", r"observed_marks\[0\]: tooth = 19: not a tooth number"),
        (
            "movement = 'MI'\nmarked = [18]",
            r"observed_marks\[0\]: the dentition has no tooth 18; name teeth that are there",
        ),
        (
            "movement = 'right latral'\nmarked = [16]",
            r"movement = 'right latral': not followed in this case; accepted are MI, protrusion, "
            r"right lateral, left lateral, lateroprotrusion -45, lateroprotrusion 45, CR; did you "
            r"mean 'right lateral'\?",
        ),
        (
            "movement = 'MI'\nmarked = [16]\n[[observed_marks]]\nmovement = 'MI'\nmarked = [17]",
            r"observed_marks: 'MI' stands 2 times; put its teeth together in one",
        ),
        ("marked = [16]", r"observed_marks\[0\]\.movement: missing"),
        ("movement = 'MI'\nmarked = 16", r"marked = 16: must be a list in square brackets"),
    ],
)
def test_contradictions_are_refused_with_advice(text, says):
    """The message says which entry, what was found, and what is accepted."""
    with pytest.raises(InputError, match=says):
        parse_case(f"[[observed_marks]]\n{text}", "my_case.toml")


@pytest.mark.parametrize(
    ("beside", "says"),
    [
        ("unmarked = [19]", "tooth = 19: not a tooth number"),
        ("unmarked = [16]", "16 stands there both as marked and as unmarked"),
        ("unmarked = [18]", "the dentition has no tooth 18"),
        ("unmarked = 3", "unmarked = 3: must be a list"),
        ("unmarkt = [17]", "unmarkt: unknown key"),
        ("[[observed_marks]]\nmovement = 'MI'\nmarked = [19]", r"\[1\]: tooth = 19"),
        ("[[observed_marks]]\nmovement = 'MI'", r"\[1\]: names no tooth"),
        ("[[observed_marks]]\nmarked = [17]", r"\[1\]\.movement: missing"),
        ("[judging]\nscheme = 'none'", "judging.scheme"),
        ("[guidance]\nreference_plane = 'none'", "guidance.reference_plane"),
        ("[[denture_bases]]\nname = 'b'\nteeth = [18]", "denture base 'b': the dentition has no"),
    ],
)
def test_a_wrong_movement_is_told_with_all_other_faults(beside, says):
    """Whatever else is wrong in the file, with the marks or elsewhere."""
    text = f"[[observed_marks]]\nmovement = 'right latral'\nmarked = [16]\n{beside}\n"
    with pytest.raises(InputError, match=says) as refused:
        parse_case(text, "my_case.toml")
    assert str(refused.value).startswith("my_case.toml: 2 faults\n")
    assert "observed_marks[0].movement = 'right latral': not followed" in str(refused.value)


def test_movements_follow_the_case():
    """Lateroprotrusions are those that the case follows, each once."""
    assert movement_names(()) == ("MI", "protrusion", "right lateral", "left lateral", "CR")
    assert movement_names((30.0, 30.0))[4:] == ("lateroprotrusion 30", "CR")


@pytest.fixture(scope="module")
def run_with_marks():
    """Return a built-in case with marks of MI and a movement, and what a run says of it."""
    case = builtin_case("upper_distal_extension")
    case = replace(
        case,
        dentition=replace(case.dentition, triangles_per_arch=15_000),
        observed_marks=(
            ObservedMarks("MI", (26, 36), (27,)),
            ObservedMarks("left lateral", (23, 33, 27), (37,)),
            ObservedMarks("right lateral", (13, 43)),
        ),
    )
    return case, run_case(case)


def test_a_run_tells_marks_in_findings_result_file_and_report(run_with_marks):
    """Where they differ it is a finding; the table of the check list tells all that was given."""
    case, result = run_with_marks
    said = [item for item in result.findings if item.kind == MARKS_DIFFER]
    assert [item.excursion for item in said] == [None, "left lateral"]
    assert "no mark on 27, which touches on the casts" in said[0].text
    assert "marks on 27, where the casts do not touch" in said[1].text
    assert result.marks == (
        ComparedMarks("MI", (26, 36), (), (27,), ()),
        ComparedMarks("left lateral", (23, 33), (37,), (), (27,)),
        ComparedMarks("right lateral", (13, 43), (), (), ()),
    )
    assert findings_document(case, result, ())["observed_marks"][0]["not_found"] == [27]
    assert parse_case(case_toml(case), "x") == case
    rows = observed_table(result.marks).rows
    assert rows[0] == ("Maximal intercuspation (MI)", "26 and 36", "27", "–", "–")
    assert rows[1] == ("Left lateral excursion", "23 and 33", "–", "27", "37")
