"""Which articulation for which teeth: schools, what is done place by place, and the other way."""

import csv
import io
import json
from dataclasses import replace
from functools import cache
from itertools import product
from types import SimpleNamespace
from typing import get_args

import numpy as np
import pytest

from kinematics.advice_files import ADVICE_COLUMNS, advice_entries, advice_rows
from kinematics.guidance.excursions import lateroprotrusion
from kinematics.planning.articulation_schools import CarriedBy, Opposite, schools, schools_for
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.joined_teeth import Bridge
from kinematics.planning.judging import BaseScheme, DentureBase, JudgingSettings
from kinematics.planning.replaced_units import replaced_units
from kinematics.planning.replacement import replacement_contacts
from kinematics.planning.scheme_advice import scheme_advice
from kinematics.planning.schemes_compared import judged_by_schemes, other_ways
from kinematics.planning.stops import Stop
from kinematics.planning.unit_contacts import unit_contacts
from kinematics.result_files import plain
from kinematics.table_cells import table_text
from scenes.advice_words import advice_words
from tests.replaced_mouth import AHEAD, LEFT, RIGHT, STEEP, base, with_course
from tests.shipped_cases import coarse, judged_alone
from tests.small_mouth import UPPERS, mouth, occlusion, swept

CASTS = mouth()
SWEEPS = tuple(swept(CASTS, move, travel_mm=2.0) for move in (RIGHT, LEFT, AHEAD))
LOWERS = tuple(code + 30 if code < 20 else code + 10 for code in UPPERS)
COMPLETE = DentureBase(name="opposite", teeth=LOWERS, scheme="balanced")


def stop(upper, lower):
    """Return a centric stop of a pair."""
    return Stop(upper, lower, (0.0, 0.0, 0.0), 0.0, 0.1, (0.0, 0.0, 1.0))


def advice_on(bases, sweeps=SWEEPS, stops=(), casts=CASTS, **changes):
    """Return the advice on some bases of the small mouth."""
    return scheme_advice(replace(occlusion(casts, bases), **changes), sweeps, stops)


def test_every_school_says_where_it_stands():
    """From memory, or common practice; and in a sentence why."""
    for school in schools():
        assert "from memory" in school.source or "common practice" in school.source, school.name
        assert school.says.endswith(".")
        assert 30 < len(school.says) < 200


@pytest.mark.parametrize(
    ("kind", "upper", "opposite"),
    list(product(get_args(CarriedBy), (True, False), get_args(Opposite))),
)
def test_schools_that_differ_stand_side_by_side(kind, upper, opposite):
    """Whatever is replaced, somebody wants something; opposite teeth, schools differ."""
    found = schools_for(kind, upper, opposite, has_canine=True)
    assert found
    wanted = {(item.mi, item.working, item.nonworking, item.protrusion) for item in found}
    if opposite == "other teeth":
        assert len(wanted) > 1
    elif kind != "complete denture":
        assert {item.working for item in found} == {"balanced"}
    assert set(schools_for(kind, upper, opposite, has_canine=False)) <= set(found)


@pytest.mark.parametrize(
    ("teeth", "abutments", "kind"),
    [
        ((16, 17), (15, 13), "distal extension, one side"),
        ((17,), (16,), "distal extension, one side"),
        ((15, 16), (13, 17), "tooth-bounded"),
        ((13,), (11, 15), "tooth-bounded"),
        ((11, 21), (13, 23), "anterior"),
        ((11,), (13, 21), "anterior"),
        ((13, 11, 21, 23), (15, 25), "anterior"),
        ((16, 17, 26, 27), (15, 25), "distal extension, both sides"),
        (UPPERS, (), "complete denture"),
        ((16, 17, 15, 13, 11, 21, 23, 25, 26), (27,), "distal extension, one side"),
    ],
)
def test_what_carries_a_base(teeth, abutments, kind):
    """By whether teeth of its arch stand behind it and in front."""
    (unit,) = replaced_units(occlusion(CASTS, (base(teeth=teeth, abutments=abutments),)))
    assert (unit.kind, unit.opposite) == (kind, "other teeth")
    assert set(unit.teeth) == set(teeth)
    units = replaced_units(occlusion(CASTS, (base(teeth=teeth, abutments=abutments), COMPLETE)))
    assert units[0].opposite == "complete denture"
    assert units[1].kind == "complete denture"


def test_two_bases_end_free_on_both_sides_together():
    """Each of them is then one of two."""
    bases = (base(), DentureBase(name="upper left", teeth=(26, 27), abutments=(25,)))
    units = replaced_units(occlusion(CASTS, bases))
    assert {unit.kind for unit in units} == {"distal extension, both sides"}


def test_bridges_and_implants_are_units_of_their_own():
    """An implant on a base or in a bridge is told with these."""
    made = replace(
        occlusion(CASTS, (base(),)),
        joined=(Bridge("front bridge", pontics=(11,), abutments=(13, 21)),),
        conditions=tuple(ToothCondition(tooth=code, implant=True) for code in (26, 36, 47)),
    )
    units = {unit.name: unit for unit in replaced_units(made)}
    assert units["front bridge"].kind == "bridge"
    assert units["implants of the upper arch"].teeth == (26,)
    assert units["implants of the lower arch"].teeth == (47, 36)
    on_implants = Bridge("front bridge", pontics=(25,), abutments=(23, 26))
    carried = tuple(ToothCondition(tooth=code, implant=True) for code in (23, 26))
    units = {
        u.name: u for u in replaced_units(replace(made, joined=(on_implants,), conditions=carried))
    }
    assert units["front bridge"].kind == "implants"
    told = scheme_advice(made, SWEEPS, ())
    assert [item.scheme for item in told] == ["contacts only in MI", *["canine"] * 3]
    assert [way.scheme for way in told[1].other_ways] == ["canine", "group", "balanced"]


@pytest.mark.parametrize("seed", range(60))
def test_wants_are_met_exactly_where_the_planted_contacts_meet_them(seed):
    """Random distances of 16 from 46 in all three movements, against a twin by plain counting."""
    rng = np.random.default_rng(seed)
    courses, sweeps = {}, []
    for place, sweep in zip(("working side", "nonworking side", "protrusion"), SWEEPS, strict=True):
        level = rng.choice([0.0, 0.01, 0.05, 0.15, 0.5])
        course = np.where(
            rng.random(len(sweep.travel_mm)) < rng.choice([0.0, 0.4, 0.6, 1.0]), 0.6, level
        )
        moved = with_course(CASTS, sweep, course)
        gaps = np.where(np.isinf(moved.pair_gap_mm), np.inf, moved.pair_gap_mm + 5.0)
        gaps[:, moved.upper_codes.index(16), moved.lower_codes.index(46)] = course
        sweeps.append(replace(moved, pair_gap_mm=gaps))
        courses[place] = course[sweep.travel_mm > 0.55]
    (told,) = advice_on((base(),), tuple(sweeps), [stop(16, 46)])
    touching = {place: 100.0 * np.mean(course <= 0.02) for place, course in courses.items()}
    within = {place: np.all(course <= 0.1) for place, course in courses.items()}
    for item in told.contacts:
        assert item.touching_percent == pytest.approx(touching[item.place])
        assert item.least_gap_mm == courses[item.place].min()
        assert item.nearest == (16, 46)
    twin = {
        "clear": lambda place: touching[place] == 0.0,
        "shares": lambda place: touching[place] >= 50.0,
        "balanced": lambda place: within[place],
    }
    for asked in told.schools:
        for answer in asked.answers:
            if answer.demand in twin:
                assert answer.met == ("yes" if twin[answer.demand](answer.place) else "no")
        assert asked.met == all(answer.met != "no" for answer in asked.answers)
    mi = {asked.answers[0].met for asked in told.schools}
    assert mi == {"no"}  # 17 has no stop


def test_a_near_approach_is_not_held_against_the_natural_guidance():
    """16 comes within 0.1 mm of 46 and touches nowhere: near, yet nothing is added to guidance."""
    sweeps = []
    for sweep in SWEEPS:
        moved = with_course(CASTS, sweep, np.full(len(sweep.travel_mm), 0.1))
        gaps = np.where(np.isinf(moved.pair_gap_mm), np.inf, moved.pair_gap_mm + 5.0)
        gaps[:, moved.upper_codes.index(16), moved.lower_codes.index(46)] = 0.1
        sweeps.append(replace(moved, pair_gap_mm=gaps))
    (told,) = advice_on((base(),), tuple(sweeps))
    (kept,) = [s for s in told.schools if s.school.name == "the natural guidance kept"]
    assert {answer.met for answer in kept.answers[1:]} == {"yes"}
    assert sum(way.attention for way in told.other_ways) > 0


def test_each_excursion_of_a_place_is_measured_by_itself():
    """16 touches all the way to the right and nowhere ahead of that: each is told for itself.

    Balance is lost where it is lost in one of the two.
    """
    swept_both = [swept(CASTS, move, travel_mm=2.0) for move in (RIGHT, lateroprotrusion(-45.0))]
    sweeps = []
    for sweep, level in zip(swept_both, (0.0, 0.5), strict=True):
        moved = with_course(CASTS, sweep, np.full(len(sweep.travel_mm), level))
        gaps = np.where(np.isinf(moved.pair_gap_mm), np.inf, moved.pair_gap_mm + 5.0)
        gaps[:, moved.upper_codes.index(16), moved.lower_codes.index(46)] = level
        sweeps.append(replace(moved, pair_gap_mm=gaps))
    (done,) = unit_contacts(occlusion(CASTS, (base(),)), sweeps, (16, 17))
    assert (done.touching_percent, done.touching_in) == (100.0, "right lateral")
    assert (done.balanced_percent, done.balanced_in) == (0.0, sweeps[1].excursion.name)
    assert done.touching == done.within == ((16, 46),)


def test_protrusion_is_balanced_only_where_both_sides_touch():
    """16 keeps near 46 all the way; 26 does or does not: both sides of a base must balance it."""
    sweep = SWEEPS[2]
    both = DentureBase(name="upper", teeth=(16, 17, 26, 27), abutments=(15, 25), scheme="balanced")
    for level, percent in ((0.05, 100.0), (0.5, 0.0)):
        moved = with_course(CASTS, sweep, np.full(len(sweep.travel_mm), 0.05))
        gaps = np.where(np.isinf(moved.pair_gap_mm), np.inf, moved.pair_gap_mm + 5.0)
        for upper, lower, gap in ((16, 46, 0.05), (26, 36, level)):
            gaps[:, moved.upper_codes.index(upper), moved.lower_codes.index(lower)] = gap
        found = unit_contacts(
            occlusion(CASTS, (both,)), [replace(moved, pair_gap_mm=gaps)], both.teeth
        )
        assert [item.balanced_percent for item in found] == [percent]


def test_how_lightly_implants_meet_is_not_judged():
    """Casts do not yield: the school that wants light contact is not asked about MI."""
    made = replace(occlusion(CASTS), conditions=(ToothCondition(tooth=26, implant=True),))
    (told,) = scheme_advice(made, SWEEPS, ())
    answers = {asked.school.name: asked.answers[0].met for asked in told.schools}
    assert answers == {"implants protected": "not asked", "implants as natural teeth": "no"}


@pytest.mark.parametrize("scheme", get_args(BaseScheme))
def test_the_other_way_is_what_the_case_would_find_with_that_scheme(scheme):
    """Counts and pairs as of a case that has the scheme from the start."""
    casts = mouth(STEEP, domes=(46,))
    sweeps = tuple(swept(casts, move, travel_mm=2.0) for move in (RIGHT, LEFT, AHEAD))
    (told,) = advice_on((base(),), sweeps, casts=casts)
    (way,) = [item for item in told.other_ways if item.scheme == scheme]
    contacts = replacement_contacts(occlusion(casts, (base(scheme),)), sweeps)
    graver = [item for item in contacts if item.severity != "note"]
    assert (way.serious, way.attention, way.allowed) == tuple(
        sum(item.severity == severity for item in contacts)
        for severity in ("serious", "attention", "note")
    )
    assert set(way.against) == {(item.tooth, item.opponent) for item in graver}
    assert way.chosen == (scheme == "contacts only in MI")


def test_only_the_base_asked_about_changes_its_scheme():
    """Contacts of another base are judged by its own scheme, and not counted here."""
    casts = mouth(STEEP, domes=(46,))
    sweeps = (swept(casts, RIGHT, travel_mm=2.0),)
    other = DentureBase(name="upper left", teeth=(26, 27), abutments=(25,), scheme="balanced")
    alone = advice_on((base(),), sweeps, casts=casts)[0]
    both = advice_on((base(), other), sweeps, casts=casts)[0]
    assert both.other_ways == alone.other_ways


def test_a_unit_that_guides_alone_does_not_share():
    """A steep 16 touches all the way, but holds the others open: no sharing, and how much."""
    casts = mouth(STEEP, domes=(46,))
    sweeps = (swept(casts, RIGHT, travel_mm=2.0),)
    (told,) = advice_on((base(),), sweeps, casts=casts)
    (done,) = told.contacts
    assert (done.place, done.side, done.touching_percent) == ("working side", "right", 100.0)
    assert done.held_mm > 0.1
    shares = [a for s in told.schools for a in s.answers if a.demand == "shares"]
    assert [answer.met for answer in shares] == ["no"]
    assert any(figure.value == done.held_mm for figure in shares[0].figures)


def test_teeth_on_both_sides_are_asked_side_by_side():
    """A complete denture has a working and a nonworking side on either side."""
    found = unit_contacts(occlusion(CASTS), SWEEPS, UPPERS)
    assert [(item.place, item.side) for item in found] == [
        ("working side", "right"), ("nonworking side", "right"),
        ("working side", "left"), ("nonworking side", "left"), ("protrusion", ""),
    ]  # fmt: skip


def test_teeth_of_a_bridge_are_judged_as_natural_ones():
    """A pontic 16 that guides is a working interference with canine guidance, none with group."""
    casts = mouth(STEEP, domes=(46,))
    sweeps = (swept(casts, RIGHT, travel_mm=2.0),)
    made = replace(occlusion(casts), joined=(Bridge("bridge", pontics=(16,), abutments=(15, 17)),))
    (unit,) = replaced_units(made)
    ways = {way.scheme: way for way in other_ways(judged_by_schemes(made, sweeps, unit), "canine")}
    assert ways["canine"].serious == 1
    assert ways["canine"].chosen
    assert ways["group"].serious == 0


@cache
def judged_case(name):
    """Return what the findings of a built-in case and its advice rest on, once a process."""
    occlusal, sweeps, said = judged_alone(coarse(name))
    advice = scheme_advice(occlusal, sweeps, said.stops)
    return SimpleNamespace(advice=advice, replacement=said.replacement, findings=said.findings)


CASES = {
    "upper_distal_extension": {"distal extension, one side"},
    "lower_distal_extension": {"complete denture", "distal extension, both sides"},
    "class_three_base": {"tooth-bounded"},
    "replaced_canine": {"tooth-bounded"},
}


@pytest.mark.parametrize("name", CASES)
def test_built_in_cases_are_advised_on(name):
    """What carries the teeth, in words and as files; chosen schemes find what the findings say."""
    result = judged_case(name)
    assert {item.unit.kind for item in result.advice} == CASES[name]
    for item in result.advice:
        (way,) = [way for way in item.other_ways if way.chosen]
        mine = [c for c in result.replacement if c.base == item.unit.name]
        assert way.serious == sum(c.severity == "serious" for c in mine)
        assert way.attention == sum(c.severity == "attention" for c in mine)
    told = advice_words(result, JudgingSettings())
    assert len(told.units) == len(result.advice)
    for unit in told.units:
        for table in (unit.schools, unit.schemes):
            assert all(len(row) == len(table.head) for row in table.rows)
            assert not any(word in str(table) for word in ("inf", "nan", "None"))
    json.dumps(plain(advice_entries(result.advice, JudgingSettings())), allow_nan=False)
    rows = list(csv.DictReader(io.StringIO(table_text(ADVICE_COLUMNS, advice_rows(result.advice)))))
    asked = sum(len(s.answers) for item in result.advice for s in item.schools)
    assert len(rows) == asked
    assert {row["done"] for row in rows} <= {"yes", "no", "not asked"}


def test_nothing_is_advised_where_nothing_is_replaced():
    """Sound natural teeth: no section."""
    result = judged_case("natural_dentition")
    assert result.advice == ()
    assert advice_words(result, JudgingSettings()) is None


def test_the_balanced_case_reaches_balance_and_misses_what_others_want():
    """Of the lower bases against a complete denture the one school is met in every excursion."""
    lower = [
        item for item in judged_case("lower_distal_extension").advice if not item.unit.is_upper
    ]
    for item in lower:
        (asked,) = item.schools
        assert [answer.met for answer in asked.answers[1:]] == ["yes"] * 3
    upper = judged_case("lower_distal_extension").advice[0]
    schools_met = {s.school.name: [a.met for a in s.answers[1:]] for s in upper.schools}
    assert set(schools_met["bilateral balance"]) == {"yes"}
    assert "no" in schools_met["canine guidance on complete dentures"]
