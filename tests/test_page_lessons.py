"""Lessons on the page: what the program tells of a round, and a student taking one in a browser."""

import threading

import pytest
from playwright.sync_api import expect

from kinematics.checks import InputError
from scenes.lesson_math import equation_tree, numbers_tree
from scenes.lesson_places import builtin_lessons
from scenes.page_desk import Desk
from scenes.page_frames import header_of
from scenes.page_messages import LessonAsked, first_show
from scenes.page_server import served_files
from tests.access_rules import keeps_the_rules
from tests.open_page import opened
from tests.played_lessons import played
from tests.running_page import running_page

NAME = "04_bennett_angle_without_shift"
CASE = "natural_dentition"
LESSONS = builtin_lessons()


def lesson_desk():
    """Return a desk of the engine with the built-in lessons."""
    return Desk(1, None, LESSONS)


def show(number, name=NAME, round_=0, place=None, case=CASE, **more):
    """Return a state of the page in a lesson."""
    place = place or LESSONS[name].place("start")
    told = {
        "number": number, "case": case, "changes": place.settings, "movement": place.movement,
        "start": place.start, "travel_mm": place.travel_mm,
        "lesson": LessonAsked(name=name, round=round_), **more,
    }  # fmt: skip
    return first_show(case).model_copy(update=told)


def told(desk, wanted):
    """Return what is told of a lesson."""
    for message in desk.answers(wanted, threading.Event()):
        header = header_of(message)
        if header["kind"] == "lesson":
            return header
    raise AssertionError("nothing was told of the lesson")


@pytest.fixture(scope="module")
def desk():
    """Return one desk for all that is asked of it."""
    made = lesson_desk()
    yield made
    made.close()


def test_a_round_is_told_as_it_stands(desk):
    """The question at first; what is right, and why, only when the goal is reached."""
    first = told(desk, show(1))
    assert not first["done"]
    assert "right" not in first and "explain" not in first
    assert [row["name"] for row in first["readings"]] == list(LESSONS[NAME].readings)
    assert first["readings"][0]["start"] == first["readings"][0]["now"] == "0.32°"
    assert [row["reached"] for row in first["goal"]] == [False, True]
    shown = told(desk, show(2, place=LESSONS[NAME].shown(0)))
    assert shown["done"]
    assert shown["right"] == [False, True, False]
    assert "1.30°" in shown["explain"]
    assert shown["formula"]["given"] == shown["formula"]["found"] == "1.30°"
    assert shown["readings"][0]["start"] == "0.32°"
    assert shown["readings"][0]["now"] == "1.30°"


def test_settings_without_the_way_do_not_do(desk):
    """The check reads where the condyle stands, not the slider of any setting."""
    shown = LESSONS[NAME].shown(0)
    assert not told(desk, show(3, place=shown, travel_mm=2.0))["done"]
    steeper = {**shown.settings, "guidance.left.condylar_inclination_deg": 60.0}
    other = told(desk, show(4, place=shown, changes=steeper))
    assert not other["done"]


def test_what_cannot_be_read_is_told(desk):
    """A lesson about 47 with 47 taken out; a lesson about another case."""
    name = "05_shift_against_inclination"
    removed = [{"kind": "remove", "tooth": 47}]
    told_ = told(desk, show(5, name, trial=removed))
    assert told_["fault"].startswith("tooth 47: ")
    other = told(desk, show(6, name, case="steep_guidance"))
    assert other["away"] is True


def test_a_lesson_that_there_is_not_is_refused(desk):
    """As a page of another program would ask for one."""
    with pytest.raises(InputError, match="a lesson that there is not"):
        told(desk, show(7).model_copy(update={"lesson": LessonAsked(name="none", round=0)}))
    with pytest.raises(InputError, match="a lesson that there is not"):
        told(desk, show(8, round_=9))


def texts(tree):
    """Return all that a tree of MathML says, in order."""
    return "".join(part if isinstance(part, str) else texts(part) for part in tree[1:])


def test_numbers_stand_where_symbols_stood():
    """Every term but the result, each with its unit; signs and order stay."""
    from kinematics.lessons.formulas import worked

    found = worked("Christensen angle", played("01_christensen_gap")[0].moment)
    assert texts(equation_tree(found)) == "sin(β+γ−φ)=sin(β−φ)+p·sin(β−σ)a"
    assert texts(numbers_tree(found)) == (
        "sin(45.00°+γ−21.45°)=sin(45.00°−21.45°)+3.27 mm·sin(45.00°−23.46°)90.25 mm"
    )


@pytest.fixture(scope="module")
def lesson_page(browser):
    """Give a page of the engine with the built-in lessons, on their case."""
    with running_page(lesson_desk, files=served_files(), first=first_show(CASE)) as running:
        with opened(browser, running, None) as page:
            page.rested()
            yield page
        assert running.complaints == []


def begin(page, name):
    """Choose a lesson from the list, by keyboard."""
    page.find("#lessons").press("Enter")
    page.find(f"[data-lesson='{name}']").press("Enter")
    expect(page.find("#lesson-question")).to_be_visible()


def test_a_lesson_is_predicted_moved_seen_and_explained(lesson_page):
    """With keys alone; nothing is given away before the goal is reached."""
    page = lesson_page
    begin(page, NAME)
    assert page.text("#lesson-where") == "Lesson 4 of 12"
    expect(page.find("#lesson-title")).to_be_focused()
    expect(page.find("#lesson-task")).to_be_hidden()
    expect(page.find("#lesson-predict")).to_be_disabled()
    page.find("#lesson-answers input").first.press("Space")
    page.find("#lesson-predict").press("Enter")
    expect(page.find("#lesson-task")).to_be_visible()
    expect(page.find("#lesson-verdict")).to_be_hidden()
    expect(page.find("#lesson-explanation")).to_be_hidden()
    (reached,) = page.texts("#lesson-goal .reached")
    assert reached.startswith("✓ outward move of the right condyle is 0 mm, within 0.01 mm")
    page.find("#lesson-show").press("Enter")
    expect(page.find("#lesson-explanation")).to_be_visible()
    assert page.text("#lesson-verdict").startswith("✗ You expected: “0°")
    assert "between 1° and 2°" in page.text("#lesson-verdict")
    assert page.find("#lesson-formula math").count() > 5
    assert "measured on the casts: 1.30°" in page.text("#lesson-formula")
    keeps_the_rules(page)
    cut_off = page.tab.evaluate(
        """() => [...document.querySelectorAll("#lesson *")]
          .filter((e) => e.getBoundingClientRect().right > document.documentElement.clientWidth
            && !e.closest(".formula-line"))
          .map((e) => e.textContent)"""
    )
    assert cut_off == []


def test_the_jaw_can_be_moved_by_hand_meanwhile(lesson_page):
    """Figures follow, the lesson stays as it was reached."""
    page = lesson_page
    before = page.texts("#lesson-readings td.now")
    page.find("#travel-slider").first.press("ArrowUp")
    page.rested()
    expect(page.find("#lesson-readings td.now").first).not_to_have_text(before[0])
    expect(page.find("#lesson-explanation")).to_be_visible()
    assert page.shows[-1]["lesson"] == {"name": NAME, "round": 0}


def test_another_case_is_told_and_left(lesson_page):
    """And a button leads back to where the lesson begins; then it is left, and marked as done."""
    page = lesson_page
    page.find("#case-chooser").select_option("unequal_condyles")
    expect(page.find("#lesson-back")).to_be_visible()
    page.find("#lesson-back").press("Enter")
    page.rested()
    assert page.shows[-1]["case"] == CASE
    page.find("#lesson-next").press("Enter")
    expect(page.find("#lesson-where")).to_have_text("Lesson 5 of 12")
    page.find("#lesson-close").press("Enter")
    expect(page.find("#lesson")).to_be_hidden()
    page.find("#travel-slider").first.press("ArrowUp")
    page.rested()
    assert "lesson" not in page.shows[-1]
    page.find("#lessons").press("Enter")
    assert page.texts(".lesson-done") == ["✓ done"]
    keeps_the_rules(page)
    page.find("#lessons-close").press("Enter")
    page.check_manners()
