"""Lessons: what is asked has one right answer, which the engine gives; goals are read from it."""

import math
import re
import tomllib
from pathlib import Path

import pytest

from kinematics.contact.workers import Workers
from kinematics.lessons import relations
from kinematics.lessons.conditions import NOW, START
from kinematics.lessons.explanations import with_numbers
from kinematics.lessons.formulas import worked
from kinematics.lessons.moment import moment_at
from kinematics.lessons.played import looked_up, standing_of
from kinematics.lessons.readings import KINDS, reading
from kinematics.live import pose_asked_for
from scenes.lesson_words import value_words
from tests.played_lessons import NAMES, lesson_named, moment_named, played
from tests.published_jaw import PUBLISHED

LESSONS = tomllib.loads(
    (Path(__file__).parent / "published" / "lessons.toml").read_text(encoding="utf-8")
)
ROUNDS = [(name, i) for name in NAMES for i in range(len(lesson_named(name).rounds))]


def value(name, which, text, moment=NOW):
    """Return a reading at the place where a round is shown, or at another moment."""
    return played(name)[which].look(reading(text), moment)


def test_there_are_twelve():
    """Each with a title of its own."""
    assert len(NAMES) == 12
    assert len({lesson_named(name).title for name in NAMES}) == 12


@pytest.mark.parametrize(("name", "which"), ROUNDS)
def test_a_round_is_not_done_where_it_begins_and_done_where_it_is_shown(name, which):
    """So there is something to do, and it can be done."""
    one = played(name)[which]
    assert not one.at_start.done
    assert one.shown.done


@pytest.mark.parametrize(("name", "which"), ROUNDS)
def test_exactly_one_answer_is_right(name, which):
    """By the engine, where the goal is reached."""
    assert sum(played(name)[which].shown.right) == 1


@pytest.mark.parametrize(("name", "which"), ROUNDS)
def test_the_formula_gives_what_the_engine_measures(name, which):
    """To rounding where it is exact, to hundredths where it is of the first order."""
    one = lesson_named(name).rounds[which]
    found = worked(one.formula, played(name)[which].moment)
    assert math.isfinite(found.given)
    if found.found is not None:
        exact = found.formula.exact
        assert found.given == pytest.approx(found.found, abs=1e-9 if exact else 0.01)


@pytest.mark.parametrize(("name", "which"), ROUNDS)
def test_the_explanation_is_filled_with_numbers_and_units(name, which):
    """No braces are left, and every number that was put in has its unit."""
    lesson = lesson_named(name)
    one, look = lesson.rounds[which], played(name)[which].look
    for text in (one.predict, one.move, one.explain):
        told = with_numbers(text, lesson.moments, look, value_words)
        assert "{" not in told
        for asked in re.findall(r"\{([^{}]*)\}", text):
            words = with_numbers(f"{{{asked}}}", lesson.moments, look, value_words)
            assert words in told
            if re.fullmatch(r"[−\d.]+", words):
                assert asked.startswith("stops")


@pytest.mark.parametrize("name", [NAMES[i] for i in (0, 1, 3, 4, 5, 8, 11)])
def test_settings_alone_do_not_reach_the_goal(name):
    """With all settings as shown but the jaw elsewhere it is not done.

    Goals are read from casts that were closed, not from settings.
    """
    which = 0
    lesson, one = lesson_named(name), played(name)[which]
    now = one.moment
    at = pose_asked_for(now.case, now.casts, now.excursion, 0.0, Workers(1))
    there = moment_at(now.case, now.casts, at, Workers(1), now.judged)
    look = looked_up(there, lambda moment: moment_named(name, moment))
    assert not standing_of(lesson, lesson.rounds[which], look).done


def test_condyles_drop_and_incisors_do_not():
    """The Christensen gap."""
    name = "01_christensen_gap"
    assert value(name, 0, "drop of the right condyle") > 2.0 * value(
        name, 0, "drop of the right condyle", START
    )
    before = value(name, 0, "drop of the incisal point", START)
    assert value(name, 0, "drop of the incisal point") == pytest.approx(before, abs=0.05)


def test_equal_guides_turn_nothing():
    """All teeth go down at the inclination of the guides (Christensen, J Prosthet Dent 1958)."""
    name = "02_equal_guides"
    slopes = [value(name, 0, f"slope of {code}") for code in (47, 46, 44, 43, 31, 36)]
    assert slopes == pytest.approx([50.0] * 6, abs=1e-6)


def test_the_condylar_share_rises_toward_the_back():
    """As is published of people; see the source in the table."""
    assert "rises toward the back" in LESSONS["posterior_influence"]["source"]
    name = "03_share_along_the_arch"
    gained = [
        value(name, 0, f"slope of {code}") - value(name, 0, f"slope of {code}", START)
        for code in (43, 44, 45, 46, 47)
    ]
    assert gained == sorted(gained)
    assert gained[-1] < 22.0 / 2.0  # of 22 degrees, the front has more to say


def test_a_bennett_angle_without_side_shift():
    """1.3 degrees at 5 mm, as derived from the rigid jaw."""
    found = value("04_bennett_angle_without_shift", 0, "Bennett angle")
    (row,) = [r for r in PUBLISHED["bennett"]["rows"] if r[:2] == [110.0, 5.0]]
    assert found == pytest.approx(row[2], abs=0.005)


def test_side_shift_costs_more_than_five_degrees():
    """0.75 mm (Lundeen, Shryock & Gibbs 1978) beside 5 degrees."""
    name = "05_shift_against_inclination"
    assert played(name)[0].moment.case.guidance.right.immediate_shift_mm == pytest.approx(
        PUBLISHED["side_shift"]["immediate_mm"]
    )
    assert value(name, 0, "gap of 47") < value(name, 0, "gap of 47", "flatter")


def test_a_long_centric_keeps_its_height():
    """Within what is published of its length."""
    table, name = LESSONS["long_centric"], "08_slide_or_long_centric"
    assert table["least_mm"] <= value(name, 0, "forward way of the slide") <= table["greatest_mm"]
    assert value(name, 0, "height of the slide") <= table["level_mm"]


def test_planes_are_as_far_apart_as_is_published():
    """The angle that the lesson takes."""
    table = LESSONS["axis_orbital"]
    found = re.search(r"plane ([\d.]+) degrees", lesson_named(NAMES[8]).rounds[0].formula)
    assert table["least_deg"] <= float(found[1]) <= table["greatest_deg"]


@pytest.mark.parametrize(("ahead_mm", "error_mm"), LESSONS["hinge_axis"]["rows"])
def test_a_wrong_hinge_axis(ahead_mm, error_mm):
    """The classic figures."""
    table, relation = LESSONS["hinge_axis"], relations.axis_error()
    given = {"e": table["axis_error_mm"], "g": table["record_mm"], "x": ahead_mm}
    found = relation.solution.evalf(subs={s: given[s.name] for s in relation.arguments})
    assert float(found) == pytest.approx(error_mm, abs=table["tolerance_mm"])


def test_the_casts_are_off_by_as_much():
    """As the formula says, by the engine's own closing about both axes."""
    name = "10_hinge_axis_wrong"
    off = value(name, 0, "forward move of 36") - value(name, 0, "forward move of 36", "true_axis")
    found = worked("error of a hinge axis 5 mm too low", played(name)[0].moment)
    assert off == pytest.approx(found.given, abs=0.005)


def test_christensen_angles_of_the_published_table():
    """By the relation that lessons show."""
    table, relation = PUBLISHED["christensen"], relations.christensen()
    for beta, *pairs in table["rows"]:
        for phi, gamma in zip(table["balkwill_deg"], pairs[::2], strict=True):
            given = {
                "beta": math.radians(beta), "phi": math.radians(phi), "sigma": 0.0,
                "a": table["triangle_height_mm"], "p": table["incisal_travel_mm"],
            }  # fmt: skip
            found = relation.solution.evalf(subs={s: given[s.name] for s in relation.arguments})
            assert math.degrees(float(found)) == pytest.approx(
                gamma, abs=table["gamma_tolerance_deg"]
            )


def test_every_kind_of_reading_says_what_it_is():
    """A sentence, and a unit or words."""
    for kind in KINDS:
        assert kind.meaning.endswith(".")
        assert kind.unit in ("mm", "deg", "N", "N mm", "")
