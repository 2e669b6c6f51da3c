"""In which order what was found would be done: needs, order, amounts, contradictions."""

import tomllib
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

from kinematics.case_sequence import order_of_work
from kinematics.planning.sequence.step_rules import STEP_RULES, rule_of_step
from kinematics.trial.settings import Change
from tests.made_needs import Needs, finding, room_of

BEFORE = tomllib.loads(
    (Path(__file__).parent / "published" / "order_of_work.toml").read_text("utf-8")
)["before"]
KINDS = [rule.kind for rule in STEP_RULES]
#: Teeth that may be in need, and replacement teeth of the base.
NATURAL, REPLACED = (13, 14, 24, 26, 36, 44, 46), (15, 16, 17)
#: Findings without an amount of their own, and the step each asks for.
KNOWN = (
    (finding("no bilateral tripod"), "settle"),
    (finding("marks differ from the casts", 14, 44), "settle"),
    (finding("nonworking interference", 26, 36), "adjustment"),
    (finding("nonworking interference", 26, 36, severity="note"), None),
    (finding("contacts near MI", severity="note"), None),
)
IN_SET_UP = (
    (finding("stops off the axis", 16, None), "set-up"),
    (finding("balance missing"), "set-up"),
    (finding("nonworking interference", 16, 46), "set-up"),
)


def drawn(seed):
    """Return random needs, and the steps that they ask for by a rule of their own."""
    draw = np.random.default_rng(seed)

    def size():
        return float(draw.uniform(0.05, 2.5))

    def some(teeth, figure, most=2):
        count = int(draw.integers(0, most + 1)) if draw.random() < 0.5 else 0
        return {int(code): figure() for code in draw.choice(teeth, count, replace=False)}

    def unless(share, value):
        return None if draw.random() < share else value

    base = bool(draw.random() < 0.6)
    told = [one for one in KNOWN + (IN_SET_UP if base else ()) if draw.random() < 0.25]
    needs = Needs(
        heights=some((26, 36, 46), lambda: size() * (1.0 if draw.random() < 0.5 else -1.0)),
        cuts=some(NATURAL + (REPLACED if base else ()), size),
        guides=some((13, 14, 24), lambda: unless(0.3, float(draw.uniform(0.05, 1.0)))),
        clasps=some((14, 24, 26), lambda: float(draw.uniform(0.0, 0.5))),
        seats=some((14, 24, 26), lambda: unless(0.3, size())),
        crowns=some((14, 24, 36, 46), lambda: unless(0.3, size()) or 0.0, 3),
        clear=some(REPLACED, size) if base else {},
        findings=tuple(one for one, _ in told),
        base=base,
        raised=bool(draw.random() < 0.2),
        changes=(Change(kind="lower", tooth=46, by_mm=0.7),) if draw.random() < 0.2 else (),
    )
    return needs, steps_of(needs, [kind for _, kind in told if kind])


def steps_of(needs, told):
    """Say which steps some needs ask for, tooth by tooth."""
    crowned = set(needs.crowns)
    steps = set(told)
    cut = {
        kind
        for kind, teeth in (
            ("occlusal plane", {*needs.heights, *(change.tooth for change in needs.changes)}),
            ("adjustment", {code for code in needs.cuts if code not in REPLACED}),
            ("guide planes", set(needs.guides)),
            ("clasp undercuts", {code for code, has in needs.clasps.items() if has < 0.25}),
            ("rest seats", {code for code, deep in needs.seats.items() if deep is not None}),
        )
        if teeth - crowned
    }
    steps |= cut
    if "adjustment" in told and {26, 36} & set(needs.cuts):
        steps -= {"adjustment"} - cut
    if crowned:
        steps.add("crowns")
    if needs.base:
        steps |= {"framework", "set-up", "processing"}
    if needs.base or crowned:
        steps |= {"impression", "records", "check"}
    return steps


@pytest.fixture(scope="module")
def planned(example):
    """Return random needs, the steps they ask for, and the order of work, 150 of them."""
    every = map(drawn, range(150))
    return [
        (needs, steps, order_of_work(needs.case, needs.found(example))) for needs, steps in every
    ]


def test_the_order_of_the_table_is_the_only_one_that_sources_allow():
    """Whatever comes next, tried one after the other, there is never a choice."""
    pairs = [(row["first"], row["then"]) for row in BEFORE]
    assert {kind for pair in pairs for kind in pair} == set(KINDS)
    assert all(row["source"] for row in BEFORE)
    left, order = set(KINDS), []
    while left:
        free = [kind for kind in left if not any(b == kind and a in left for a, b in pairs)]
        assert len(free) == 1
        order += free
        left -= {free[0]}
    assert order == KINDS


def test_rows_of_the_table_name_only_what_stands_before():
    """A row comes after all it names; what changes its amounts is among what comes before."""
    for place, rule in enumerate(STEP_RULES):
        earlier = KINDS[:place]
        assert set(rule.after) <= set(earlier) and set(rule.changed_by) <= set(earlier)
        assert rule.source and rule.why


def test_steps_are_those_that_are_needed_and_in_order(planned):
    """No step without need, none forgotten; every pair stands as the sources say."""
    for needs, steps, order in planned:
        got = [step.kind for step in order.steps]
        assert [step.number for step in order.steps] == list(range(1, len(got) + 1))
        extra = {"settle", "check"}  # these follow from what the others hold
        assert set(got) - extra == steps - extra
        for one, other in combinations(got, 2):
            assert not any(row["first"] == other and row["then"] == one for row in BEFORE)
        cuts = any(item.cuts for step in order.steps for item in step.items)
        chosen = any(item.choices for step in order.steps for item in step.items)
        assert ("settle" in got) == (cuts or chosen or "settle" in steps)
        assert ("check" in got) == (cuts or bool(needs.heights) or "check" in steps)
        assert all(step.items for step in order.steps)


def test_steps_say_after_which_they_come(planned):
    """By the numbers of what the case has of them; never of a later step."""
    for *_, order in planned:
        number = {step.kind: step.number for step in order.steps}
        for step in order.steps:
            rule = rule_of_step(step.kind)
            assert step.after == tuple(
                sorted(number[kind] for kind in rule.after if kind in number)
            )
            assert all(one < step.number for one in (*step.after, *step.measure_again_after))
            known = {kind for kind in rule.changed_by if kind in number}
            assert {number[kind] for kind in known} == set(step.measure_again_after)


def test_amounts_are_those_of_the_parts(planned):
    """Each figure once, on its own tooth, unchanged; nothing is added up."""
    for needs, _, order in planned:
        told = [
            (amount.tooth, amount.value)
            for step in order.steps
            for item in step.items
            for amount in item.amounts
            if amount.tooth and amount.unit == "mm"
        ]
        wanted = [
            *((code, abs(off)) for code, off in needs.heights.items()),
            *((code, deep) for code, deep in needs.cuts.items()),
            *((code, 0.5 * deep) for code, deep in needs.cuts.items()),
            *((code, cut) for code, cut in needs.guides.items() if cut is not None),
            *((code, value) for code in needs.guides for value in (3.0, 1.2)),
            *((code, has) for code, has in needs.clasps.items() if has < 0.25 for _ in range(2)),
            *((code, deep) for code, deep in needs.seats.items() if deep is not None),
            *((46, deep + 0.07) for deep in needs.seats.values() if deep is not None),
            *((code, 1.5 - (1.5 - lacks)) for code, lacks in needs.crowns.items() if lacks > 0.0),
            *((code, high) for code, high in needs.clear.items()),
            *((code, room_of(deep)) for code, deep in needs.seats.items() if needs.base),
            *((change.tooth, change.by_mm) for change in needs.changes),
        ]
        assert sorted(told) == sorted(wanted)


def test_nothing_is_cut_twice(planned):
    """What a crowned tooth would lose goes into its crown; a tooth of two steps says so at both."""
    for needs, _, order in planned:
        for step in order.steps:
            for item in step.items:
                if set(item.teeth) & set(needs.crowns) and len(item.teeth) == 1:
                    assert step.kind in ("crowns", "settle", "check", "impression")
        taken = {code: off for code, off in needs.heights.items() if code not in needs.crowns}
        taken |= {
            change.tooth: change.by_mm for change in needs.changes if change.tooth not in taken
        }
        for code in taken.keys() & needs.cuts.keys() - needs.crowns.keys():
            for kind in ("occlusal plane", "adjustment"):
                said = [
                    line
                    for item in order.items(kind)
                    if item.teeth == (code,)
                    for line in item.cautions
                    if "adjusted" in line
                ]
                assert said and all("do not add" in s or "contradicts" in s for s in said)


def test_what_has_more_than_one_way_is_to_be_chosen_first(planned):
    """Every item with choices is named in the first step, with its teeth."""
    for *_, order in planned:
        choosing = [item for step in order.steps for item in step.items if item.choices]
        named = [item for item in order.items("settle") if item.part == "later steps"]
        assert len(named) == bool(choosing)
        assert all(set(item.teeth) <= set(named[0].teeth) for item in choosing)
