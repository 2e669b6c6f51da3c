"""Lesson files: a broken one says in which line what is wrong; conditions mean what they say."""

import re
from importlib.resources import files

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.lessons.conditions import condition, holds
from kinematics.lessons.lesson_file import parse_lesson, read_lesson
from kinematics.toml_text import line_of
from scenes.lesson_places import builtin_lessons, own_lessons
from scenes.lesson_words import condition_words
from scenes.lessons_command import lessons_text

NAMES = tuple(builtin_lessons())
TEXTS = {
    name: files("scenes").joinpath("lessons", f"{name}.toml").read_text("utf-8") for name in NAMES
}
KEYS = (
    "title",
    "about",
    "case",
    "readings",
    "predict",
    "move",
    "goal",
    "explain",
    "words",
    "holds",
)


def refusal(text):
    """Return what is said of a lesson that cannot be used."""
    with pytest.raises(InputError) as caught:
        parse_lesson(text, "mine.toml")
    return str(caught.value)


def broken(seed):
    """Return a built-in lesson with one seeded fault, its line, and words that must be told."""
    rng = np.random.default_rng(seed)
    lines = TEXTS[NAMES[rng.integers(len(NAMES))]].split("\n")
    places = [i for i, line in enumerate(lines) if line.split(" = ")[0] in KEYS]
    at = int(rng.choice(places))
    key, _, value = lines[at].partition(" = ")
    way = rng.integers(4)
    if way == 0:
        lines[at] = f"{key}x = {value}"
        return lines, at, (f"{key}x: unknown key", f"did you mean '{key}'")
    if way == 1:
        lines[at] = f"{key} = 7"
        return lines, at, (key, "found 7")
    if key in ("readings", "goal", "holds"):
        lines[at] = (
            f'{key} = ["gape of 47 < 1"]' if key != "readings" else f'{key} = ["gape of 47"]'
        )
        return lines, at, ("there is no reading 'gape of 47'", "did you mean 'gap of TOOTH'")
    if key == "explain":
        lines[at] = f'{key} = "It is {{gap of 99}}."'
        return lines, at, ("'gap of 99': 99 is no tooth number",)
    lines[at] = f'{key} = ""'
    return lines, at, (key, "at least 1 character")


@pytest.mark.parametrize("seed", range(60))
def test_a_seeded_fault_is_told_with_its_line(seed):
    """Key, line, what was found and what is accepted."""
    lines, at, words = broken(seed)
    told = refusal("\n".join(lines))
    assert told.startswith("mine.toml: ")
    assert f"line {at + 1}, " in told
    for part in words:
        assert part in told


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('case = "natural_dentition"\n', "", "line 1, case: is missing"),
        ('goal = ["gap of 47 >= 0.85"', 'goal = ["gap of 47 >= lots"', "no reading 'lots'"),
        ('goal = ["gap of 47 >= 0.85"', 'goal = ["gap of 47"', "is no condition"),
        ('goal = ["gap of 47 >= 0.85"', 'goal = ["gap of 47 is big"', "is a number"),
        ('goal = ["gap of 47 >= 0.85"', 'goal = ["gap of 47 = 1"', "within"),
        ('goal = ["gap of 47 >= 0.85"', 'goal = ["contact > 1"', "compare it by 'is'"),
        ('goal = ["gap of 47 >= 0.85"', 'goal = ["gap of 47 > Christensen angle"', "compares mm"),
        ('goal = ["gap of 47 >= 0.85"', 'goal = ["travel > travel at noon"', "no moment 'noon'"),
        ('formula = "Christensen angle"', 'formula = "Pythagoras"', "there is no formula"),
        ("[start]", "[moments.now]\n[start]", "cannot be the name of a moment"),
        ("travel_mm = 3.0", "travel_mm = 300.0", "less than or equal to 15"),
        ('look = "right"', 'look = "above"', "'front', 'right'"),
    ],
)  # fmt: skip
def test_what_cannot_be_meant(old, new, told):
    """Said in words for a teacher, with the line."""
    text = TEXTS["01_christensen_gap"]
    assert old in text
    assert told in refusal(text.replace(old, new, 1))
    assert "line " in refusal(text.replace(old, new, 1))


def test_several_faults_come_at_once():
    """So that a file is mended in one go."""
    text = TEXTS["01_christensen_gap"].replace("title =", "titel =").replace("look =", "looks =")
    assert "titel" in refusal(text) and "looks" in refusal(text)


def test_broken_toml_says_where():
    """Line and column, and the line itself."""
    told = refusal(TEXTS["01_christensen_gap"].replace('look = "right"', 'look = "right'))
    assert re.search(r"at line 5, column \d+", told)


def test_lines_are_found_in_nested_lists():
    """In the second table of a list within the second table of another."""
    text = '[[a]]\n[[a.b]]\nc = 1\n[[a]]\n[[a.b]]\nc = 2\n[[a.b]]\nd = """\nc = 9\n"""\nc = 3\n'
    assert line_of(text, ("a", 0, "b", 0, "c")) == 3
    assert line_of(text, ("a", 1, "b", 1, "c")) == 11
    assert line_of(text, ("a", 1, "b", 1, "e")) == 7


@pytest.mark.parametrize(
    ("text", "values", "expected"),
    [
        ("gap of 47 < 0.5", {"gap of 47": 0.4}, True),
        ("gap of 47 <= 0.4", {"gap of 47": 0.4}, True),
        ("gap of 47 > 0.5", {"gap of 47": 0.4}, False),
        ("gap of 47 = 0.5 within 0.1", {"gap of 47": 0.41}, True),
        ("gap of 47 = 0.5 within 0.05", {"gap of 47": 0.41}, False),
        ("guidance at 3 mm is canine", {"guidance at 3 mm": "canine"}, True),
        ("guidance at 3 mm is not canine", {"guidance at 3 mm": "canine"}, False),
        ("contact is 17 on 47", {"contact": "17 on 47"}, True),
        ("stops >= 20", {"stops": 22.0}, True),
        ("gap of 47 < gap of 46", {"gap of 47": 1.0, "gap of 46": 2.0}, True),
    ],
)
def test_conditions_mean_what_they_say(text, values, expected):
    """Each sign, for numbers, words and other readings."""
    assert holds(condition(text, {}), lambda one, _: values[one.name]) is expected


def test_conditions_are_told_in_words():
    """With units, as a student reads them."""
    assert condition_words(condition("gap of 47 >= 0.85", {})) == "gap of 47 at least 0.85 mm"
    told = condition_words(condition("slope of 47 = slope of 47 at start within 0.5", {}))
    assert told == "slope of 47 is slope of 47 (at the start), within 0.5°"
    assert condition_words(condition("finding about 17 is serious", {})) == (
        "finding about 17 is serious"
    )


def test_a_teachers_own_lessons_are_read_from_a_folder(tmp_path):
    """All that end in .toml; faults of all of them in one message."""
    for i, name in enumerate(NAMES[:2]):
        (tmp_path / f"{i}.toml").write_text(TEXTS[name], "utf-8")
    (tmp_path / "notes.txt").write_text("not a lesson", "utf-8")
    found = own_lessons(tmp_path)
    assert [one.title for one in found.values()] == [
        builtin_lessons()[name].title for name in NAMES[:2]
    ]
    assert list(own_lessons(tmp_path / "1.toml")) == ["own_1"]
    (tmp_path / "2.toml").write_text("title = 3\n", "utf-8")
    (tmp_path / "3.toml").write_text(
        TEXTS[NAMES[0]].replace("natural_dentition", "natural_denture"), "utf-8"
    )
    with pytest.raises(InputError) as caught:
        own_lessons(tmp_path)
    assert "2.toml" in str(caught.value)
    assert "no built-in case 'natural_denture'" in str(caught.value)


def test_an_empty_folder_and_a_missing_file_are_refused(tmp_path):
    """Not shown as a page without lessons."""
    with pytest.raises(InputError, match=r"lesson files end in \.toml"):
        own_lessons(tmp_path)
    with pytest.raises(InputError, match="no such file"):
        read_lesson(tmp_path / "none.toml")


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('movement = "protrusion"', 'movement = "protrude"', "has no 'protrude' from MI"),
        ('right.condylar_inclination_deg" = 45', 'right.condylar_inclinaton_deg" = 45', "did you"),
        ('right.condylar_inclination_deg" = 45', 'right.condylar_inclination_deg" = 99', "0 to 80"),
        ('case = "natural_dentition"', 'case = "natural_dentitoin"', "did you mean 'natural_denti"),
    ],
)  # fmt: skip
def test_places_that_a_case_cannot_have_are_refused(tmp_path, old, new, told):
    """Settings and movements are looked at before a student meets them."""
    text = TEXTS["01_christensen_gap"]
    path = tmp_path / "mine.toml"
    path.write_text(text.replace(old, new), "utf-8")
    assert old in text
    with pytest.raises(InputError, match=re.escape(told)):
        own_lessons(path)


def test_a_lesson_is_tried_as_it_is_shown(tmp_path):
    """A goal that is never reached, and answers of which none is right, are told."""
    path = tmp_path / "mine.toml"
    text = TEXTS["04_bennett_angle_without_shift"]
    path.write_text(text, "utf-8")
    assert "can be taken" in lessons_text(None, path, False)
    far = text.replace("condyle = 5 within", "condyle = 50 within").replace("< 2", "< 1.2")
    path.write_text(far, "utf-8")
    with pytest.raises(InputError) as caught:
        lessons_text(None, path, False)
    assert "does not hold: forward move of the left condyle = 50 within 0.05" in str(caught.value)
    assert "0 answers are right, not one" in str(caught.value)
