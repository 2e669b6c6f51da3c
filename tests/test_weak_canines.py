"""Canine guidance is questioned exactly where the canine that guides should not do so alone."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.all_findings import all_findings
from kinematics.planning.canine_findings import WEAK_CANINE, canine_findings
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.findings import SEVERITIES
from kinematics.planning.guidance_kinds import CANINE, NONE, NONWORKING_ONLY, SINGLE_POSTERIOR
from kinematics.planning.guidance_without import guidance_without
from kinematics.planning.joined_teeth import Bridge
from kinematics.planning.judging import DentureBase
from kinematics.planning.weak_canines import WEAKNESS_RULE, weak_canines, weaknesses
from tests.replaced_mouth import AHEAD, LEFT, RIGHT
from tests.shipped_cases import coarse, judged_alone
from tests.small_mouth import UPPERS, mouth, occlusion, openings, swept

CASTS = mouth()
SWEEPS = {move.name: swept(CASTS, move, travel_mm=2.0) for move in (RIGHT, LEFT, AHEAD)}
CANINES = {"right lateral": (13, 43), "left lateral": (23, 33), "protrusion": ()}
#: Conditions of a tooth, and the severity that its guidance has then; None: it is sound.
CONDITIONS = {
    "sound": ({}, None),
    "crown": ({"crown": True}, None),
    "bone 80": ({"bone_support_percent": 80.0}, None),
    "bone 75": ({"bone_support_percent": 75.0}, None),
    "bone 74": ({"bone_support_percent": 74.0}, "attention"),
    "bone 50": ({"bone_support_percent": 50.0}, "serious"),
    "root-filled": ({"root_filled": True}, "attention"),
    "post": ({"root_filled": True, "post": True, "crown": True}, "attention"),
    "implant": ({"implant": True, "crown": True}, "attention"),
    "mobile": ({"mobility_degree": 1}, "attention"),
    "loose": ({"mobility_degree": 2}, "serious"),
    "loose all over": ({"mobility_degree": 3, "root_filled": True}, "serious"),
}


def subject(bases=(), joined=(), conditions=(), casts=CASTS, **settings):
    """Return what is judged."""
    made = occlusion(casts, bases, **settings)
    return replace(made, joined=tuple(joined), conditions=tuple(conditions))


def found_in(name):
    """Return what a built-in case with coarse teeth is judged to be."""
    return judged_alone(coarse(name))[2]


@pytest.mark.parametrize("seed", range(80))
def test_the_question_stands_exactly_where_a_weak_canine_guides(seed):
    """Random conditions, bases and bridges on random teeth: only canines of the side count."""
    rng = np.random.default_rng(seed)
    expected, conditions, bases, joined = {}, [], [], []
    for code in rng.choice([13, 23, 33, 43, 16, 26, 46, 36], size=3, replace=False).tolist():
        name = str(rng.choice(list(CONDITIONS)))
        changes, severity = CONDITIONS[name]
        conditions.append(ToothCondition(tooth=code, **changes))
        expected[code] = {severity}
    free = [code for code in (13, 23, 17) if code not in expected]
    if free and seed % 3 == 0:
        (code,) = rng.choice(free, size=1).tolist()
        bases.append(DentureBase(name="a base", teeth=(code,)))
        expected[code] = {"serious"}
    elif free and seed % 3 == 1:
        (code,) = rng.choice(free, size=1).tolist()
        joined.append(Bridge("a bridge", pontics=(code,), abutments=(11,)))
        expected[code] = {"attention"}
    made = subject(bases, joined, conditions)
    for name, sweep in SWEEPS.items():
        found = {item.tooth: item.severity for item in weak_canines(made, sweep)}
        wanted = {
            code: max(expected[code], key=SEVERITIES.index)
            for code in CANINES[name]
            if expected.get(code, {None}) != {None}
        }
        assert found == wanted
        told = canine_findings(made, sweep)
        assert [item.severity for item in told] == [found[code] for code in sorted(found)]
        assert all(item.kind == WEAK_CANINE and item.excursion == name for item in told)


@pytest.mark.parametrize("name", CONDITIONS)
def test_each_condition_alone(name):
    """A crown and bone down to 75 % are sound; the graver of two rows counts."""
    changes, severity = CONDITIONS[name]
    rows = weaknesses(subject(conditions=[ToothCondition(tooth=13, **changes)]), 13)
    assert (rows[0].severity if rows else None) == severity


def test_every_row_can_be_reached():
    """No row of the table is dead."""
    reached = {"replacement tooth", "pontic"}
    for changes, _ in CONDITIONS.values():
        rows = weaknesses(subject(conditions=[ToothCondition(tooth=13, **changes)]), 13)
        reached |= {row.weakness for row in rows}
    assert reached == {row.weakness for row in WEAKNESS_RULE}
    assert all(row.source for row in WEAKNESS_RULE)


@pytest.mark.parametrize("seed", range(50))
def test_no_question_where_another_tooth_guides(seed):
    """A steep 16 holds the canine open: however weak the canine is, it does not guide."""
    rng = np.random.default_rng(seed)
    fall = (0.9 + rng.uniform(-0.05, 0.2), 1.6 + rng.uniform(-0.1, 0.4))
    casts = mouth({16: fall})
    sweep = swept(casts, RIGHT, travel_mm=1.6)
    weak = subject(conditions=[ToothCondition(tooth=13, mobility_degree=3)], casts=casts)
    assert weak_canines(weak, sweep) == ()


def test_travel_of_a_canine_that_guides_only_in_part():
    """16 leads to where 13 takes over: told with its range; a shorter guidance is passed over."""
    sweep = SWEEPS["right lateral"]
    made = subject(conditions=[ToothCondition(tooth=13, implant=True)])
    (whole,) = weak_canines(made, sweep)
    assert whole.of_mm == pytest.approx(whole.travel_mm)
    row, column = sweep.upper_codes.index(16), sweep.lower_codes.index(46)
    for until_mm, stands in ((1.2, True), (1.7, False)):
        gaps = sweep.pair_gap_mm.copy()
        gaps[sweep.travel_mm < until_mm, row, column] = 0.0
        found = weak_canines(made, replace(sweep, pair_gap_mm=gaps))
        assert bool(found) == stands
        if found:
            assert found[0].from_mm == pytest.approx(until_mm, abs=0.051)
            assert found[0].travel_mm == pytest.approx(2.0 - until_mm, abs=0.06)


@pytest.mark.parametrize("clear_mm", [0.02, 0.1, 0.3])
def test_what_guides_instead_is_as_in_closed_form(clear_mm):
    """16 stands a little clear: without 13 it guides, and the jaw closes by the known amount."""
    clear = {46: clear_mm}
    falls = {16: (0.9, 1.0), 13: (0.9, 1.6)}
    casts = mouth(falls, clear)
    sweep = swept(casts, RIGHT, travel_mm=1.5)
    asked = sweep.travel_mm > 0.55
    got = guidance_without(subject(casts=casts), sweep, frozenset({13}), asked)
    assert (got.kind, got.guiding) == (SINGLE_POSTERIOR, ((16, 46),))
    angles = openings(casts, falls, clear, sweep.positions.pose_at_zero)
    others = np.delete(angles, UPPERS.index(13), axis=1).max(axis=1)
    lowered = (angles.max(axis=1) - others) * sweep.closures.radius_mm
    assert got.lowered_mm == pytest.approx(lowered[asked].max(), abs=1e-9)
    assert got.lowered_at_mm == sweep.travel_mm[asked][lowered[asked].argmax()]


def test_a_mouth_of_nothing_but_canines_has_nothing_to_guide_instead():
    """Said so, without a number."""
    casts = mouth(uppers=(13, 23))
    sweep = swept(casts, RIGHT, travel_mm=1.5)
    made = subject(conditions=[ToothCondition(tooth=43, implant=True)], casts=casts)
    got = guidance_without(made, sweep, frozenset({43, 23}), sweep.travel_mm > 0.55)
    assert (got.kind, got.lowered_mm) == (NONE, np.inf)
    made = subject(conditions=made.conditions, casts=mouth(uppers=(13,)))
    alone = swept(made.casts, RIGHT, travel_mm=1.5)
    (told,) = canine_findings(made, alone)
    assert "Without 43 nothing else would meet there" in told.text
    assert all(np.isfinite(item.value) for item in told.figures)


def test_the_replaced_canine_is_questioned_and_what_comes_instead_is_named():
    """As a finding among all others: serious, in right lateral only, with what would guide."""
    found = [item for item in found_in("replaced_canine").findings if item.kind == WEAK_CANINE]
    assert {item.severity for item in found} == {"serious"}
    assert {item.excursion for item in found} == {"right lateral"}
    text = found[0].text
    assert "13, which is a replacement tooth" in text
    assert f"Without 13 the guidance would be: {NONWORKING_ONLY} (27 on 37)" in text


def test_a_condition_in_the_case_is_asked_of():
    """The same teeth with a post under 23: the left side is questioned, the right is not."""
    case = replace(
        coarse("natural_dentition"),
        tooth_conditions=(ToothCondition(tooth=23, root_filled=True, post=True),),
    )
    found = [item for item in judged_alone(case)[2].findings if item.kind == WEAK_CANINE]
    assert {item.severity for item in found} == {"attention"}
    assert all(item.excursion.startswith("left") for item in found)
    sound = found_in("natural_dentition")
    assert not [item for item in sound.findings if item.kind == WEAK_CANINE]
    assert any(item.kind == CANINE for item in sound.verdicts)


def test_findings_are_told_gravest_first_with_all_others():
    """They stand among the others by severity."""
    sweeps = tuple(SWEEPS.values())
    made = subject(conditions=[ToothCondition(tooth=13, mobility_degree=2)])
    told = all_findings(made, sweeps, (), None, ())
    assert any(item.kind == WEAK_CANINE for item in told)
    ranks = [SEVERITIES.index(item.severity) for item in told]
    assert ranks == sorted(ranks, reverse=True)
