"""Sentences and tables of the report: replacement teeth near the start, slide, guidance."""

import re
from dataclasses import replace

import pytest

from kinematics.planning.articulation import Verdict
from kinematics.planning.guidance_kinds import LATERAL_KINDS, PROTRUSIVE_KINDS
from kinematics.planning.guidance_stretches import Stretch
from scenes import report_tables
from scenes.report_tables import mostly


def test_replacement_teeth_next_to_the_start(example):
    """What ends at the start is told by excursion; what goes on stands among the findings."""
    touch, near = example.replacement
    start = replace(touch, standing="near MI only", severity="note", travel_from_mm=0.1)
    titles = report_tables.excursion_titles(example)
    far = replace(start, touches=False, least_gap_mm=0.12, tooth=15)
    assert report_tables.near_start_replacements((near, start, touch, far), titles) == (
        "Left lateral excursion: 16 touches 46 (0.1 to 2.5 mm),"
        " 15 comes within 0.12 mm of 46 (0.1 to 2.5 mm).",
    )


def test_the_slide_in_words(example):
    """Direction and kind are said; no slide is said too."""
    sentence = report_tables.slide_sentence(example.slide)
    assert "first contact is 14/44" in sentence
    assert "0.62 mm forward, 50 µm to the left, 0.31 mm up" in sentence
    assert "changes the height" in sentence
    backward = replace(example.slide, forward_mm=-0.2, left_mm=-0.1, up_mm=-0.3)
    assert "0.20 mm backward, 0.10 mm to the right, 0.30 mm down" in report_tables.slide_sentence(
        backward
    )
    none = replace(example.slide, kind="none", forward_mm=0.0, left_mm=0.0, up_mm=0.0)
    assert "first contact is 14/44. There is no slide" in report_tables.slide_sentence(none)
    together = report_tables.slide_sentence(none, example.stops)
    assert together.startswith(f"In centric relation (CR) all {len(example.stops)} centric stops")
    assert "meet together" in together and "no slide" in together


def test_teeth_of_balanced_bases_are_not_told_to_stay_near(example):
    """Nearness at the start is told of other schemes, a touch of all."""
    touch = replace(example.replacement[0], standing="near MI only", scheme="balanced")
    near = replace(touch, touches=False)
    titles = report_tables.excursion_titles(example)
    assert len(report_tables.near_start_replacements((touch,), titles)) == 1
    assert report_tables.near_start_replacements((near,), titles) == ()
    other = replace(near, scheme="contacts only in MI")
    assert len(report_tables.near_start_replacements((other,), titles)) == 1


@pytest.mark.parametrize(
    ("kind", "end_mm", "told"),
    [
        ("canine", 2.0, "canine over most of the way"),
        ("canine", 1.2, "canine over the longest part of the way"),
        ("canine", 1.5, "canine over the longest part of the way"),
        ("nonworking only", 2.0, "nonworking contacts alone over most of the way"),
        ("incisors only", 2.0, "incisors alone over most of the way"),
        ("one-sided anterior", 2.0, "front teeth of one side over most of the way"),
        ("posterior only", 2.0, "posterior teeth alone over most of the way"),
        ("table only", 2.0, "the guide table alone over most of the way"),
        ("none", 2.0, "no contact over most of the way"),
    ],
)
def test_a_kind_that_does_not_hold_all_the_way_says_how_far(kind, end_mm, told):
    """In words that do not contradict it."""
    parts = (
        Stretch(0.0, end_mm, kind, (), ()),
        Stretch(end_mm, 2.0 + 0.1, "partial group", (), ()),
        Stretch(2.0 + 0.1, 3.0, "anterior", (), ()),
    )
    assert mostly(Verdict("protrusion", kind, True, (), "", parts)) == told
    whole = (Stretch(0.0, 3.0, kind, (), ()),)
    assert mostly(Verdict("protrusion", kind, True, (), "", whole)) == kind
    assert mostly(Verdict("protrusion", "not judged", False, (), "")) == "not judged"


def test_every_kind_that_stands_alone_is_reworded():
    """None of them is told as "only" over a part."""
    for kind in (*LATERAL_KINDS, *PROTRUSIVE_KINDS):
        parts = (Stretch(0.0, 2.0, kind, (), ()), Stretch(2.0, 3.0, "another", (), ()))
        told = mostly(Verdict("protrusion", kind, True, (), "", parts))
        assert not re.search(r"\b(only|none|one-sided)\b", told)
