"""Findings in plain language: which tooth, what it does, how much; nothing of the trade's words."""

from dataclasses import replace

import pytest

from kinematics.planning.canine_findings import WEAK_CANINE
from kinematics.planning.extent_rules import EXTENT_RULES
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.interference_rules import RULES
from kinematics.planning.outlier_contacts import OUTLIER_KIND
from kinematics.planning.recorded_settings import RECORDS_DO_NOT_FIT, SETTINGS_DIFFER
from kinematics.planning.rim_contacts import RIM_KIND
from kinematics.planning.rooms.room_rules import ROOM_RULES
from kinematics.planning.surveying.survey_rules import SURVEY_RULES
from kinematics.planning.tracked_settings import AXIS_DIFFERS, SETTINGS_DIFFER_FROM_TRACKS
from scenes.everyday import everyday_length
from scenes.plain_findings import plain_items
from scenes.tooth_names import kinds_explained, tooth_name
from tests.reading_level import TRADE_WORDS, grade

TOUCH = Finding(
    "replacement tooth touches",
    "serious",
    "of no matter",
    excursion="left lateral",
    tooth_upper=16,
    tooth_lower=46,
    figures=(
        Figure("least distance at 0.8 mm", 0.0, "mm"),
        Figure("height along the closing arc at 0.6 mm", 0.057, "mm"),
    ),
)


def test_one_item_for_what_is_alike():
    """All movements of one pair, either side as one, and the greatest height among them."""
    more = replace(
        TOUCH,
        excursion="right lateral from CR",
        figures=(Figure("height along the closing arc at 1.0 mm", 0.11, "mm"),),
    )
    forward = replace(TOUCH, excursion="protrusion", figures=())
    other = replace(TOUCH, tooth_upper=17)
    item, second = plain_items((TOUCH, other, more, forward), (16,))
    assert item.teeth == (16, 46)
    assert item.title == "Upper right first molar (16, replacement tooth) and lower right first" \
        " molar (46)"  # fmt: skip
    assert item.text == (
        "When your lower jaw slides forward or to either side, these two teeth touch. There they"
        " keep the other teeth apart by 0.11 mm (about as thick as a sheet of paper)."
    )
    assert second.teeth == (17, 46)


def test_one_tooth_alone_and_many_teeth():
    """One tooth that meets nothing; more than two directions; more teeth than can be named."""
    bare = replace(TOUCH, kind="no centric stop", tooth_lower=None, figures=())
    (item,) = plain_items((bare,))
    assert item.text == "When you bite together, this tooth meets no other tooth."
    ways = ("protrusion", "left lateral", "right lateral", "lateroprotrusion 45")
    (item,) = plain_items(tuple(replace(TOUCH, excursion=way) for way in ways))
    assert item.text.startswith("When your lower jaw slides in several directions, these two")
    front = [replace(TOUCH, kind="anterior contact in MI", tooth_upper=code, tooth_lower=code + 30)
             for code in (11, 12, 13)]  # fmt: skip
    (item,) = plain_items(front)
    assert item.title == "Teeth 11, 41, 12, 42, 13 and 43"
    assert item.teeth == (11, 41, 12, 42, 13, 43)


def touch(upper, lower, height_mm, way):
    """Return a touch of two teeth in a movement."""
    height = Figure("height along the closing arc at 1.0 mm", height_mm, "mm")
    return replace(
        TOUCH, excursion=way, tooth_upper=upper, tooth_lower=lower, figures=(height,)
    )  # fmt: skip


def test_what_is_too_small_to_tell_apart_is_told_once():
    """By its teeth, movement by movement; what is bigger stays apart."""
    tiny = (
        touch(16, 46, 0.004, "right lateral"),
        touch(15, 45, 0.009, "right lateral"),
        touch(25, 35, 0.001, "left lateral"),
        touch(17, 47, 0.05, "right lateral"),
    )
    item, big = plain_items(tiny)
    assert item.teeth == (16, 46, 15, 45, 25, 35)
    assert item.text == (
        "When your lower jaw slides to the right, these teeth touch: 16 with 46 and 15 with 45."
        " When it slides to the left: 25 with 35. There they keep the other teeth apart by less"
        " than 0.01 mm (much thinner than a hair)."
    )
    assert big.teeth == (17, 47)


def test_touches_that_hold_nothing_open_are_told_once():
    """Without an amount, and apart from those that have one or of which none is known."""
    none = (touch(14, 45, 0.0, "right lateral"), touch(24, 35, 0.0, "left lateral"))
    (item,) = plain_items(none)
    assert item.text.endswith("touch: 14 with 45. When it slides to the left: 24 with 35.")
    assert len(plain_items((*none, touch(16, 46, 0.004, "right lateral")))) == 2
    unknown = tuple(replace(own, figures=()) for own in none)
    assert len(plain_items(unknown)) == 2


def test_the_same_on_either_side_is_told_once():
    """As much on the same teeth of the other side; not where it is more, nor on other teeth."""
    right = touch(17, 47, 0.061, "left lateral")
    (item,) = plain_items((right, touch(27, 37, 0.06, "right lateral")))
    assert item.title.startswith("Upper right second molar (17)")
    assert "slides to the left, these teeth touch: 17 with 47. When it slides to the right:" \
        " 27 with 37." in item.text  # fmt: skip
    assert item.text.count("mm") == 1
    assert len(plain_items((right, touch(27, 37, 0.12, "right lateral")))) == 2
    assert len(plain_items((right, touch(26, 36, 0.061, "right lateral")))) == 2
    assert grade(item.text) < 8.0


@pytest.mark.parametrize(
    ("ways", "words"),
    [
        (
            ("lateroprotrusion -45", "right lateral", "left lateral"),
            "to either side, or forward and to the right at the same time",
        ),
        (("lateroprotrusion -45", "lateroprotrusion 45"), "forward and to either side"),
        (("left lateral", "protrusion"), "forward or to the left"),
    ],
)
def test_several_movements_are_told_each_once(ways, words):
    """Straight ones first, and nothing that could be read as another movement."""
    (item,) = plain_items(tuple(replace(TOUCH, excursion=way) for way in ways))
    assert item.text.startswith(f"When your lower jaw slides {words}, these two teeth touch.")


@pytest.mark.parametrize(
    ("excursion", "words"),
    [
        ("left lateral", "slides to the left,"),
        ("lateroprotrusion -45", "slides forward and to the right,"),
        ("lateroprotrusion 30 from CR", "slides forward and to the left,"),
        ("retrusion", "slides backward,"),
        ("protrusion from CR", "slides forward,"),
    ],
)
def test_movements_in_plain_words(excursion, words):
    """Left and right are the patient's; where a movement starts is left out."""
    (item,) = plain_items((replace(TOUCH, excursion=excursion),))
    assert words in item.text


def test_notes_are_left_out_and_unknown_kinds_are_left_to_the_dentist():
    """What a later version may find is not told in the words of the trade."""
    assert plain_items((replace(TOUCH, severity="note"),)) == ()
    (item,) = plain_items((replace(TOUCH, kind="new rule"),))
    assert item.text == "Your dentist will look more closely at these two teeth."
    (item,) = plain_items((Finding("new rule", "attention", "x"),))
    assert (item.title, item.teeth) == ("Your bite", ())


def test_a_touch_that_holds_nothing_open_tells_no_amount():
    """A height of nothing is no sentence; one without bound is not among the figures."""
    flat = replace(TOUCH, figures=(Figure("height along the closing arc at 0.6 mm", 0.0, "mm"),))
    (item,) = plain_items((flat,))
    assert item.text.endswith("these two teeth touch.")


def graver(rules):
    """Return the kinds of a table that are graver than notes."""
    return {rule.kind for rule in rules if rule.severity != "note"}


def test_every_kind_that_can_call_for_attention_has_its_words():
    """No rule of the table falls back to "look more closely"."""
    kinds = graver(RULES) | {
        "replacement tooth touches", "replacement tooth comes near", "no centric stop",
        "centric stops", "stops off the axis", "scheme not reached", WEAK_CANINE,
        "raised bite", RIM_KIND, OUTLIER_KIND, RECORDS_DO_NOT_FIT, SETTINGS_DIFFER,
        SETTINGS_DIFFER_FROM_TRACKS, AXIS_DIFFERS, *graver(EXTENT_RULES),
        *graver(ROOM_RULES), *graver(SURVEY_RULES),
    }  # fmt: skip
    for kind in kinds:
        (item,) = plain_items((replace(TOUCH, kind=kind),))
        assert "look more closely" not in item.text, kind
        assert grade(item.text) < 8.0, kind
        assert not TRADE_WORDS.search(item.text), kind


def test_what_the_records_leave_open_is_not_told_as_fact():
    """A plain sentence of the doubt in place of the amount, apart from what is certain."""
    open_one = replace(TOUCH, determined=False)
    (item,) = plain_items((open_one,))
    assert item.text.endswith("This is not certain yet: your dentist will measure it again.")
    assert "mm" not in item.text and grade(item.text) < 8.0
    certain, doubted = plain_items((TOUCH, replace(open_one, excursion="protrusion")))
    assert "not certain" not in certain.text and "forward" not in certain.text
    assert "not certain" in doubted.text and "forward" in doubted.text


@pytest.mark.parametrize(
    ("right", "left", "words"),
    [(0, 0, "no back teeth meet, on either side."), (3, 0, "the back teeth of one side do not")],
)
def test_back_teeth_that_do_not_meet_are_told_by_side(right, left, words):
    """As the dentist's page says it: of one side, or of either."""
    figures = (
        Figure("stops on right back teeth", float(right), ""),
        Figure("stops on left back teeth", float(left), ""),
        Figure("stops on front teeth", 1.0, ""),
    )
    (item,) = plain_items((Finding("centric stops", "serious", "x", figures=figures),))
    assert words in item.text and grade(item.text) < 8.0


def test_a_raised_bite_is_told_of_the_bite():
    """Not of the teeth that would meet first; how much, at the front teeth."""
    drop = Figure("drop of the lower incisal point from MI", 3.0, "mm")
    (item,) = plain_items((replace(TOUCH, kind="raised bite", figures=(drop,)),))
    assert (item.title, item.teeth) == ("Your bite", ())
    assert item.text.endswith("At the front teeth that is 3.0 mm (about as thick as two coins).")


def test_teeth_by_name():
    """Arch, side, kind and number; milk teeth are called so; kinds are explained once."""
    assert tooth_name(16) == "upper right first molar (16)"
    assert tooth_name(31) == "lower left central incisor (31)"
    assert tooth_name(54) == "upper right first milk molar (54)"
    assert tooth_name(16, "made") == "upper right first molar (16, made)"
    assert kinds_explained((16, 47, 34, 11)) == (
        ("incisor", "a front tooth that cuts"),
        ("premolar", "a small back tooth"),
        ("molar", "a big back tooth"),
    )
    assert kinds_explained(()) == ()


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (0.0004, "less than 0.01 mm (much thinner than a hair)"),
        (0.03, "0.03 mm (about half a hair)"),
        (0.06, "0.06 mm (about as thick as a hair)"),
        (0.1, "0.10 mm (about as thick as a sheet of paper)"),
        (0.5, "0.50 mm (about as thick as a fingernail)"),
        (0.76, "0.76 mm (about as thick as a bank card)"),
        (2.0, "2.0 mm (about as thick as a coin)"),
        (9.5, "9.5 mm (thicker than a pencil)"),
    ],
)
def test_lengths_like_everyday_things(value, words):
    """Each has its unit and something that everybody has held."""
    assert everyday_length(value) == words


def test_twice_as_much_is_like_something_else():
    """From what is told with its amount up to what is thicker than all comparisons."""
    for hundredths in range(1, 470):
        once, twice = (everyday_length(0.01 * n) for n in (hundredths, 2 * hundredths))
        assert once.split("(")[1] != twice.split("(")[1], once
