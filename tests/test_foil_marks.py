"""Marks that foil should leave: which pairs, over which travel, and where on both teeth."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.casts.crown_directions import crown_of
from kinematics.guidance import excursions
from kinematics.planning.foil_marks import Crowns, marks_along, marks_in_cr, marks_in_mi, unmarked
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.tooth_regions import region_words
from tests.small_mouth import mouth, swept

SETTINGS = JudgingSettings()


@pytest.fixture(scope="module")
def crowns(example):
    """Return the crowns of the example."""
    return Crowns(example.upper, example.lower)


def test_marks_of_an_excursion_end_at_edge_to_edge(example, crowns):
    """Travel of every pair beyond the near-MI length, up to the last pose before edge-to-edge."""
    marks = marks_along(crowns, example.sweeps[0], SETTINGS)
    told = [(m.tooth_upper, m.tooth_lower, m.travel_from_mm, m.travel_to_mm) for m in marks]
    assert told == [
        (11, 41, 0.0, pytest.approx(3.3)),
        (21, 31, 0.0, pytest.approx(3.3)),
    ]
    assert {m.role for m in marks} == {"incisor"}


def test_sides_of_a_lateral_excursion(example, crowns):
    """To the left, right back teeth are nonworking; a pair is told from where it begins."""
    marks = {m.tooth_upper: m for m in marks_along(crowns, example.sweeps[2], SETTINGS)}
    assert {code: m.role for code, m in marks.items()} == {
        16: "nonworking",
        23: "canine",
        24: "posterior",
    }
    assert (marks[16].travel_from_mm, marks[16].travel_to_mm) == pytest.approx((0.5, 2.5))
    assert (marks[24].travel_from_mm, marks[24].travel_to_mm) == pytest.approx((0.0, 0.8))
    assert not marks[16].broken


def test_a_pair_that_touches_next_to_mi_alone_leaves_no_mark_of_its_own(example, crowns):
    """What ends within the near-MI length is left to the marks of MI; gaps are told as breaks."""
    sweep = example.sweeps[2]
    gaps = sweep.pair_gap_mm.copy()
    upper, lower = sweep.upper_codes.index(24), sweep.lower_codes.index(34)
    gaps[5:, upper, lower] = 1.0
    row, column = sweep.upper_codes.index(16), sweep.lower_codes.index(46)
    gaps[10:15, row, column] = 1.0
    marks = {
        m.tooth_upper: m for m in marks_along(crowns, replace(sweep, pair_gap_mm=gaps), SETTINGS)
    }
    assert 24 not in marks
    assert marks[16].broken


def test_marks_in_mi_are_the_patches_of_its_pose(example, crowns):
    """Every pair with a patch in the first pose, from the patient's right to left; no others."""
    sweep = example.sweeps[1]
    patches = sweep.patches
    rows = patches.pose == 0
    marks = marks_in_mi(crowns, sweep)
    assert [(m.tooth_upper, m.tooth_lower) for m in marks] == [
        (int(a), int(b))
        for a, b in zip(patches.tooth_upper[rows], patches.tooth_lower[rows], strict=True)
    ]
    no_tooth = replace(patches, tooth_lower=np.where(rows, 0, patches.tooth_lower))
    assert marks_in_mi(crowns, replace(sweep, patches=no_tooth)) == ()


def test_places_of_a_moved_lower_are_told_on_the_lower():
    """A lower tip that slides is marked at its own place all the way, the upper along a line."""
    casts = mouth()
    crowns = Crowns(casts.upper, casts.lower)
    sweep = swept(casts, excursions.protrusion())
    (mark,) = [m for m in marks_along(crowns, sweep, SETTINGS) if m.tooth_upper == 21]
    tip = region_words(crown_of(casts.lower, 31), casts.lower.tooth(31).edge[0])
    assert mark.on_lower == (tip,)
    assert mark.travel_to_mm == pytest.approx(3.0)


def test_teeth_without_a_mark(example, crowns):
    """All of the teeth asked for that touch nothing, in their order."""
    marks = marks_along(crowns, example.sweeps[0], SETTINGS)
    assert unmarked((12, 11, 41, 42, 31), marks) == (12, 42)
    assert unmarked((16,), ()) == (16,)


def test_the_first_contact_in_cr_is_marked_on_both_teeth(example, crowns):
    """The pair that meets first, and one that meets with it; what is no tooth is left out."""
    back, slide = example.sweeps[4], example.slide
    (mark,) = marks_in_cr(crowns, back, slide)
    assert (mark.tooth_upper, mark.tooth_lower) == (14, 44)
    assert len(mark.on_upper) == len(mark.on_lower) == 1
    both = marks_in_cr(crowns, back, replace(slide, together=((24, 34),)))
    assert [m.tooth_upper for m in both] == [14, 24]
    assert marks_in_cr(crowns, back, replace(slide, first_contact_upper=0)) == ()
