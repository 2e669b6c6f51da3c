"""Findings in plain language: which tooth, what it does, how much; nothing of the trade's words."""

from dataclasses import replace

import pytest

from kinematics.planning.findings import Figure, Finding
from kinematics.planning.interference_rules import RULES
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


def test_every_kind_that_can_call_for_attention_has_its_words():
    """No rule of the table falls back to "look more closely"."""
    kinds = {rule.kind for rule in RULES if rule.severity != "note"} | {
        "replacement tooth touches", "replacement tooth comes near", "no centric stop",
        "centric stops", "stops off the axis", "scheme not reached",
        "raised bite",
    }  # fmt: skip
    for kind in kinds:
        (item,) = plain_items((replace(TOUCH, kind=kind),))
        assert "look more closely" not in item.text, kind
        assert grade(item.text) < 8.0, kind
        assert not TRADE_WORDS.search(item.text), kind


def test_a_raised_bite_is_told_of_the_bite():
    """Not of the teeth that would meet first; how much, at the front teeth."""
    drop = Figure("drop of the lower incisal point from MI", 3.0, "mm")
    (item,) = plain_items((replace(TOUCH, kind="raised bite", figures=(drop,)),))
    assert (item.title, item.teeth) == ("Your bite", ())
    assert item.text.endswith("At the front teeth that is 3.0 mm (thicker than a coin).")


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
        (0.06, "0.06 mm (about as thick as a hair)"),
        (0.1, "0.10 mm (about as thick as a sheet of paper)"),
        (0.5, "0.50 mm (about as thick as a fingernail)"),
        (0.76, "0.76 mm (about as thick as a bank card)"),
        (2.0, "2.0 mm (about as thick as a coin)"),
        (9.0, "9.0 mm (thicker than a coin)"),
    ],
)
def test_lengths_like_everyday_things(value, words):
    """Each has its unit and something that everybody has held."""
    assert everyday_length(value) == words
