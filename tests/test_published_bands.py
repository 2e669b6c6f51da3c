"""Settings found outside of what has been published: told as a note, with the source."""

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.planning.published_bands import (
    BANDS,
    BENNETT_ANGLE,
    IMMEDIATE_SHIFT,
    INCLINATION,
    unusual_settings,
)
from kinematics.records.from_records import settings_from_records
from kinematics.records.settings import RecordFitting
from scenes.record_words import record_lines, record_words
from scenes.report import html_report
from tests.made_excursion_records import SET
from tests.test_records_command import FINE, case_of
from tests.test_report import WORDS, Page

PUBLISHED = tomllib.loads(
    Path(__file__).with_name("published").joinpath("records.toml").read_text()
)
ONE_LATERAL = (("protrusive", 5.0), ("left lateral", 5.0), ("right lateral", 5.0))


def said(kinds=SET, fitting=FINE, **side):
    """Return what exact records of a jaw, alike on both sides, say."""
    mine = SideGuidance(**{"condylar_inclination_deg": 40.0, **side})
    case = case_of(GuidanceSettings(right=mine, left=mine), kinds, fitting)
    return settings_from_records(case.recorded)


def notes(found):
    """Return which settings are told as unusual."""
    return [(of.side, of.name) for of in unusual_settings(found)]


def test_bands_hold_what_was_published():
    """Ranges and means of people lie within, and no band is wider than twice what they spread."""
    inclination, shift, angle = (BANDS[n] for n in (INCLINATION, IMMEDIATE_SHIFT, BENNETT_ANGLE))
    low, high = PUBLISHED["inclination_range"]["range_deg"]
    assert inclination.low <= low
    assert high <= inclination.high
    assert inclination.high - inclination.low < 2.0 * (high - low)
    for _, mean, deviation in PUBLISHED["inclination_of_people"]["groups"]:
        assert inclination.low < mean - deviation
        assert mean + deviation < inclination.high
    shifts = PUBLISHED["immediate_side_shift"]
    assert [shift.low, shift.high] == shifts["range_mm"]
    assert str(shifts["people"]) in shift.source
    for mean in PUBLISHED["immediate_side_shift_means"]["mean_mm"]:
        assert shift.low < mean < shift.high
    for mean in PUBLISHED["bennett_angle"]["mean_deg"]:
        assert angle.low < mean < angle.high
        assert f"{mean}" in angle.source


@pytest.mark.parametrize(
    ("side", "kinds", "name"),
    [
        ({"condylar_inclination_deg": 72.0}, SET, INCLINATION),
        ({"condylar_inclination_deg": 12.0}, SET, INCLINATION),
        ({"immediate_shift_mm": 4.2}, SET, IMMEDIATE_SHIFT),
        ({"progressive_shift_deg": 36.0}, ONE_LATERAL, BENNETT_ANGLE),
    ],
)
def test_what_lies_outside_is_told_of_both_sides(side, kinds, name):
    """By exact records, whose intervals are narrow."""
    assert notes(said(kinds, **side)) == [("right", name), ("left", name)]


@pytest.mark.parametrize(
    "side",
    [
        {},
        {"condylar_inclination_deg": 62.0},
        {"condylar_inclination_deg": 26.0},
        {"immediate_shift_mm": 2.9},
        {"immediate_shift_mm": 0.0, "progressive_shift_deg": 20.0},
    ],
)
def test_what_was_published_is_no_note(side):
    """Up to the ends of what people have."""
    assert notes(said(**side)) == []


def test_a_value_outside_by_its_own_error_is_no_note():
    """A shift of none that scatter puts below none."""
    counts = [
        len(notes(settings_from_records(case_of(fitting=RecordFitting(), seed=seed).recorded)))
        for seed in range(50)
    ]
    assert sum(count > 0 for count in counts) < 25


def test_the_note_names_value_interval_and_source(example):
    """On the screen and in the report; it is no error and no finding."""
    found = said(immediate_shift_mm=4.2)
    words = record_words(found, FINE, "Frankfort plane")
    lines = "\n".join(record_lines(words))
    for words_told in (lines, Page(html_report(replace(example, recorded=found), WORDS)).text):
        assert "Note: the right immediate shift follows as 4.20 mm (" in words_told
        assert "published are 0.00 mm to 3.00 mm: 914 people in 23 studies" in words_told
        assert "look at the record and the mounting again" in words_told


def test_an_interval_that_reaches_into_the_band_is_told():
    """So that nobody takes it for certain."""
    (one, _) = unusual_settings(said(condylar_inclination_deg=67.0, fitting=RecordFitting()))
    assert one.may_be_inside
    (sure, _) = unusual_settings(said(condylar_inclination_deg=75.0, fitting=FINE))
    assert not sure.may_be_inside
