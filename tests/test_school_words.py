"""What schools want, what is found and what would have to change, in words and counts."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from kinematics.planning.articulation_schools import schools
from kinematics.planning.extents import extents
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.replaced_units import replaced_units
from kinematics.planning.scheme_advice import scheme_advice
from kinematics.planning.school_answers import Answer, SchoolAnswers, nearest_of
from kinematics.planning.school_words import change_words, found_words, wanted_words
from kinematics.planning.stops import Stop
from kinematics.planning.unit_contacts import UnitContacts, balance_parts
from scenes.advice_words import advice_words
from scenes.replaced_in_short import replaced_in_short
from tests.made_set_ups import altered
from tests.made_set_ups import base as base_of
from tests.made_set_ups import occlusion as set_up_on
from tests.replaced_mouth import AHEAD, LEFT, RIGHT, STEEP, base
from tests.small_mouth import mouth, occlusion, swept

AS_SET = JudgingSettings()
DONE = UnitContacts(
    place="working side", side="right", teeth=(17, 16), touching=((16, 46),), within=((16, 46),),
    touching_percent=40.0, touching_in="right lateral", back_touching_percent=40.0,
    balanced_percent=60.0, balanced_in="right lateral", least_gap_mm=0.0,
    least_gap_at_mm=1.0, least_gap_in="right lateral", nearest=(16, 46), held_mm=0.15,
)  # fmt: skip


def answer(demand, met="no", **changes):
    """Return an answer about 17 and 16 on the working side."""
    made = Answer("working side", "right", demand, met, (), (17, 16), pairs=((16, 46),))
    return replace(made, **changes)


WORDS = {
    "clear": (
        "17 and 16 touch nothing",
        "contact over 40 % of the way in right lateral excursion (16 on 46)",
        "on the working side (right) contact of 16 on 46 would have to go",
    ),
    "shares": (
        "one of 17 and 16 touches over 50 % of the way or more, and they hold no other tooth open",
        "contact over 40 % of the way in right lateral excursion (16 on 46), holds"
        " other teeth open by up to 0.15 mm",
        "on the working side (right) one of 17 and 16 would have to touch over 50 % of the way or"
        " more (now 40 %) and they would have to hold other teeth open by no more than 20 µm (now"
        " 0.15 mm)",
    ),
    "lifts nothing": (
        "17 and 16 may touch, but they hold no other tooth open",
        "contact over 40 % of the way in right lateral excursion (16 on 46), holds"
        " other teeth open by up to 0.15 mm",
        "on the working side (right) they would have to hold other teeth open by no more than 20 µm"
        " (now 0.15 mm)",
    ),
    "balanced": (
        "one of 17 and 16 stays within 0.10 mm of an opponent all the way, and no other tooth is"
        " held open by more than 0.10 mm",
        "within 0.10 mm over 60 % of the way in right lateral excursion (16 on 46), holds"
        " other teeth open by up to 0.15 mm",
        "on the working side (right) one of 17 and 16 would have to stay within 0.10 mm of an"
        " opponent all the way (now over 60 %) and they would have to hold other teeth open by no"
        " more than 0.10 mm (now 0.15 mm)",
    ),
    "as natural": (
        "17 and 16 touch nothing against the guidance of the natural teeth",
        "contact over 40 % of the way in right lateral excursion (16 on 46), against it: 16 on 46",
        "on the working side (right) contact of 16 on 46 would have to go",
    ),
}


@pytest.mark.parametrize("demand", WORDS)
def test_wanted_found_and_what_would_have_to_change(demand):
    """With teeth and, where there is one, the figure."""
    wanted, found, change = WORDS[demand]
    asked = answer(demand)
    assert wanted_words(asked, AS_SET) == wanted
    assert found_words(asked, DONE, AS_SET) == found
    assert change_words(asked, DONE, AS_SET) == change


def test_stops_in_mi_are_told_by_tooth():
    """Which have none, and which should have none."""
    asked = Answer("MI", "", "stops, front clear", "no", (), (16, 15), (12, 11), (16, 11))
    assert wanted_words(asked, AS_SET) == (
        "a centric stop on each of 16 and 15, no centric stop on any of 12 and 11"
    )
    assert found_words(asked, None, AS_SET) == "none on 16, one on 11"
    assert change_words(asked, None, AS_SET) == (
        "in MI 16 would have to get a centric stop and 11 would have to lose the centric stop"
    )
    done = replace(asked, amiss=(), met="yes")
    assert found_words(done, None, AS_SET) == "on each of 16 and 15, none on any of 12 and 11"


def test_where_nothing_touches_the_nearest_is_told():
    """And where nothing was measured near, nothing is."""
    far = replace(DONE, touching=(), touching_percent=0.0, least_gap_mm=0.23)
    assert found_words(answer("clear", "yes", pairs=()), far, AS_SET) == (
        "nothing touches, nearest 0.23 mm (16 on 46)"
    )
    none = replace(far, least_gap_mm=math.inf)
    assert found_words(answer("clear", "yes", pairs=()), none, AS_SET) == "nothing touches"


def test_teeth_without_which_nothing_would_meet():
    """They hold open without end: what would have to change is that others meet too."""
    alone = replace(DONE, held_mm=math.inf, touching_percent=100.0)
    asked = answer("lifts nothing")
    assert found_words(asked, alone, AS_SET).endswith("without it nothing else would meet")
    assert change_words(asked, alone, AS_SET) == (
        "on the working side (right) other teeth would have to meet together with 17 and 16"
    )


@pytest.mark.parametrize("percent", [0.4, 99.6])
def test_a_share_never_reads_as_nothing_or_all_where_it_is_neither(percent):
    """Rounding makes no "0 %" of some and no "100 %" of not all."""
    some = replace(DONE, touching_percent=percent)
    told = found_words(answer("clear"), some, AS_SET)
    assert ("less than 1 %" in told) == (percent < 1.0)
    assert ("more than 99 %" in told) == (percent > 99.0)


def test_nearest_is_by_the_share_of_wants_met_and_names_all_equals():
    """A school that asks for one thing and misses it is far; what is not asked is not counted."""
    yes, no, free = answer("clear", "yes"), answer("clear"), answer("free", "not asked")
    wants = [(no, yes), (free, no), (free,), (no, yes, no, yes, free)]
    made = [SchoolAnswers(*pair) for pair in zip(schools(), wants, strict=False)]
    assert nearest_of(made) == (made[0], made[3])
    assert [len(item.judged) for item in made] == [2, 1, 0, 4]
    assert nearest_of(made[2:3]) == ()


def test_balance_ahead_asks_every_part_of_the_teeth():
    """Right and left back teeth, and front teeth if there are some, each for itself."""
    ahead = answer("balanced", place="protrusion", side="", teeth=(16, 15, 13, 25, 26))
    assert wanted_words(ahead, AS_SET).startswith(
        "one of the right back, front and left back teeth each stays within 0.10 mm"
    )
    assert balance_parts((17, 16)) == {"right back": (17, 16)}


def test_the_report_counts_wants_and_names_single_changes():
    """A steep 16 guides alone: of each school what is met, and what one change is missing."""
    casts = mouth(STEEP, domes=(46,))
    sweeps = tuple(swept(casts, move, travel_mm=2.0) for move in (RIGHT, LEFT, AHEAD))
    stops = [Stop(16, 46, (0.0, 0.0, 0.0), 0.0, 0.1, (0.0, 0.0, 1.0))]
    stops.append(replace(stops[0], tooth_upper=17, tooth_lower=47))
    advice = scheme_advice(occlusion(casts, (base(),)), sweeps, stops)

    class Told:
        findings, extents = (), ()

    Told.advice = advice
    (unit,) = advice_words(Told, AS_SET).units
    counts = {
        asked.school.name: (len(asked.judged), len(asked.missed)) for asked in advice[0].schools
    }
    for name, (judged, missed) in counts.items():
        assert f"{name} {judged - missed} of {judged}" in unit.counts
        assert sum(line.startswith(f"{name} misses one want: ") for line in unit.changes) == (
            missed == 1
        )
    assert unit.changes
    for row in unit.schools.rows:
        for cell in row[2:]:
            assert cell == "not asked" or ("\nwanted: " in cell and "; found: " in cell)
    (line,) = replaced_in_short(Told)
    least = min(missed / judged for judged, missed in counts.values())
    named = [name for name, (judged, missed) in counts.items() if missed / judged == least]
    assert all(name in line for name in named)
    assert line.startswith(
        "Scheme, 'upper right': contacts only in MI; nearest of 3 schools by wants met: "
    )


def test_nothing_is_asked_of_teeth_that_face_none():
    """No tooth opposite 17 and 16: not met and met would both be made up."""
    (unit,) = replaced_units(occlusion(mouth(), (base(),)))
    assert unit.unopposed == ()
    casts = altered(removed=(45, 46, 47))
    sweeps = [swept(casts, move, travel_mm=1.0) for move in (RIGHT, AHEAD)]
    (told,) = scheme_advice(set_up_on(casts, base()), sweeps, ())
    assert told.unit.unopposed == (17, 16) and told.contacts == ()
    assert all(not asked.judged for asked in told.schools)
    (words,) = advice_words(SimpleNamespace(advice=(told,), findings=()), AS_SET).units
    assert "17 and 16 face no tooth" in words.facts
    assert words.counts == "None of what the schools want could be judged here."


@pytest.mark.parametrize(
    ("low", "gone", "teeth", "told"),
    [
        ({}, (), (15, 16, 17), "'base' (15 16 17): all of it needed"),
        ({}, (46, 47), (16, 17), "'base' (16 17): none needed"),
        ({}, (47,), (15, 16, 17), "'base' (15 16 17): 15 16, without 17"),
        ({47: 0.6}, (17,), (15, 16), "one more tooth, 17, would stand opposite 47"),
    ],
)
def test_the_shortest_set_up_stands_in_one_line(low, gone, teeth, told):
    """What is needed, what not, and what one more tooth would stand opposite to."""
    subject = set_up_on(altered(low, removed=gone), base_of(*teeth))
    (line,) = replaced_in_short(SimpleNamespace(extents=extents(subject), advice=()))
    assert line.startswith("Shortest set-up, 'base'") and told in line


def test_where_stops_do_not_tell_the_line_says_so():
    """Front teeth alone."""
    subject = set_up_on(altered(), base_of(12, 11, 21, abutments=(13, 22)))
    (line,) = replaced_in_short(SimpleNamespace(extents=extents(subject), advice=()))
    assert line == "Shortest set-up, 'base': not told by stops"
