"""Findings with one cause are told once: every finding in one group, gravest first."""

from collections import Counter
from itertools import product

import numpy as np
import pytest

from kinematics import checkup
from kinematics.planning.finding_groups import finding_groups, sides_of
from kinematics.planning.findings import SEVERITIES, Figure, Finding
from kinematics.planning.group_wording import group_sentence, kind_words, next_steps
from kinematics.planning.judging import DentureBase
from kinematics.planning.rooms.room_rules import TO_BE_CUT
from scenes.builtin_cases import builtin_case

BASE = DentureBase("upper right base", (15, 16, 17), (13, 14))
OTHER = DentureBase("upper left base", (25, 26), (23, 24))
KINDS = (
    "replacement tooth touches",
    "replacement tooth comes near",
    "nonworking interference",
    "stops off the axis",
    "contacts near MI",
)


def touch(upper, lower, excursion, severity="attention", kind=KINDS[0]):
    """Return a finding of one pair in one excursion."""
    return Finding(
        kind,
        severity,
        f"In {excursion} {upper} touches {lower} from 1.5 to 2.9 mm; more. And more.",
        excursion,
        tooth_upper=upper,
        tooth_lower=lower,
        figures=(Figure("height along the closing arc, at 2.1 mm", 0.1, "mm"),),
    )


def test_every_finding_is_in_exactly_one_group():
    """Whatever the kinds, teeth, excursions and severities; groups keep the order of gravity."""
    choice = np.random.default_rng(7)
    pairs = ((15, 46), (16, 46), (17, 47), (26, 36), (27, 37))
    every = list(product(pairs, ("left lateral", "protrusion"), SEVERITIES, KINDS))
    findings = [touch(*every[k][0], *every[k][1:]) for k in choice.permutation(len(every))]
    findings.sort(key=lambda item: -SEVERITIES.index(item.severity))
    groups = finding_groups(findings, (BASE, OTHER))
    held = Counter(id(finding) for group in groups for finding in group.findings)
    assert held == Counter(id(finding) for finding in findings)
    places = [findings.index(group.findings[0]) for group in groups]
    assert places == sorted(places)
    for group in groups:
        assert {finding.kind for finding in group.findings} == {group.kind}
        assert len({finding.severity == "note" for finding in group.findings}) == 1


def test_a_base_makes_one_group_and_two_bases_two():
    """Teeth of one base in several excursions stand together; another base stands apart."""
    findings = (
        touch(15, 46, "left lateral", "serious"),
        touch(26, 36, "right lateral"),
        touch(17, 47, "protrusion"),
        touch(15, 46, "left lateral from CR"),
    )
    first, second = finding_groups(findings, (BASE, OTHER))
    assert (first.base, second.base) == (BASE, OTHER)
    assert first.severity == "serious"
    assert first.pairs == ((15, 46), (17, 47))
    assert sides_of(first) == ((15, 17), (46, 47))
    assert first.excursions == ("left lateral", "protrusion", "left lateral from CR")


def test_interferences_of_other_teeth_stand_apart():
    """The same pair in two excursions is one cause; another pair is another."""
    findings = tuple(
        touch(*pair, excursion, kind="nonworking interference")
        for pair, excursion in (
            ((27, 37), "right lateral"),
            ((17, 47), "left lateral"),
            ((27, 37), "lateroprotrusion -45"),
        )
    )
    assert [len(group.findings) for group in finding_groups(findings)] == [2, 1]


def test_a_group_is_told_in_one_sentence():
    """Teeth, excursions once each with their starts, scheme, and the worst with its figure."""
    findings = (
        touch(15, 46, "left lateral", "serious"),
        touch(15, 46, "left lateral from CR"),
        touch(17, 47, "lateroprotrusion -45"),
    )
    (group,) = finding_groups(findings, (BASE,))
    assert group_sentence(group) == (
        "Replacement teeth 15 and 17 touch 46 and 47 in left lateral (from MI and CR) and"
        " lateroprotrusion 45° right (from MI), against the scheme of base 'upper right base'"
        " (contacts only in MI); worst: in left lateral 15 touches 46 from 1.5 to 2.9 mm, where it"
        " holds the other teeth open by 0.10 mm along the closing arc."
    )
    (alone,) = finding_groups(findings[:1], (BASE,))
    assert group_sentence(alone) == "In left lateral 15 touches 46 from 1.5 to 2.9 mm; more."


def test_the_worst_of_near_misses_is_the_nearest():
    """Not the one that lasts longest, which comes first."""
    findings = tuple(
        Finding(
            KINDS[1],
            "attention",
            f"In {excursion} 17 comes near 47.",
            excursion,
            tooth_upper=17,
            tooth_lower=47,
            figures=(Figure("least distance at 1.0 mm", gap, "mm"),),
        )
        for excursion, gap in (("left lateral", 0.1), ("protrusion", 0.03), ("right lateral", 0.2))
    )
    (group,) = finding_groups(findings, (BASE,))
    assert group_sentence(group).endswith("; worst: in protrusion 17 comes near 47.")


def test_what_others_rest_on_is_done_first():
    """Records before stops before excursions; notes ask for nothing; alike steps once."""
    kinds = ("replacement tooth touches", "stops off the axis", "deflective contact")
    findings = [touch(16, 46, "left lateral", kind=kind) for kind in kinds]
    notes = [touch(17, 47, "protrusion", "note", kind="raised bite")]
    steps = next_steps(finding_groups([*findings, *notes], (BASE,)))
    assert len(steps) == 3
    assert [word in step for word, step in zip(("record", "axis", "foil"), steps, strict=True)] == [
        True
    ] * 3
    assert not any("height of the bite" in step for step in steps)


@pytest.mark.parametrize(
    ("basis", "asked"),
    [
        ("recorded", "Take another record of centric relation and compare it"),
        ("assumed", "Record centric relation, here only assumed"),
        ("as set", "Take a second record of centric relation;"),
    ],
)
def test_a_record_is_asked_for_by_what_the_case_has(basis, asked):
    """A second one only where there may be a first."""
    found = touch(16, 46, "retrusion", kind="deflective contact")
    (step,) = next_steps(finding_groups([found]), basis)
    assert step.startswith(asked)
    assert "16 and 46 still meet first" in step


@pytest.mark.parametrize("kind", [*KINDS, "raised bite", "never heard of"])
def test_every_kind_has_words(kind):
    """Also kinds without words of their own."""
    words = kind_words(kind)
    assert words.plain and words.step


def test_clauses_are_not_cut_within_brackets():
    """What is told of a group's gravest finding keeps its brackets whole."""
    result = checkup.run(builtin_case("anterior_open_bite"), progress=lambda _: None)
    for group in finding_groups(result.findings):
        sentence = group_sentence(group)
        assert sentence.count("(") == sentence.count(")"), sentence


def test_interferences_of_one_kind_at_many_teeth_have_one_cause():
    """Up to two pairs stand alone; with a third all are one group, notes apart."""
    pairs = ((16, 46), (15, 45), (26, 36))
    found = [
        Finding("working interference", "serious", f"{u} touches.", tooth_upper=u, tooth_lower=low)
        for u, low in pairs
    ]
    assert len(finding_groups(found[:2])) == 2
    note = Finding("working interference", "note", "24 brushes.", tooth_upper=24, tooth_lower=34)
    other = Finding("nonworking interference", "serious", "17 touches.", tooth_upper=17)
    groups = finding_groups([*found, other, note])
    assert [(group.kind, len(group.findings)) for group in groups] == [
        ("working interference", 3),
        ("nonworking interference", 1),
        ("working interference", 1),
    ]
    assert groups[0].teeth == (15, 16, 26, 36, 45, 46)


def test_marks_of_every_movement_stand_alone():
    """Each names many teeth in one movement: two of them are told one by one, the step once."""
    kind = "marks differ from the casts"
    found = [Finding(kind, "attention", f"In {where} 27 differs.") for where in ("MI", "CR")]
    groups = finding_groups(found)
    assert [group.findings for group in groups] == [(found[0],), (found[1],)]
    assert [group_sentence(group) for group in groups] == ["In MI 27 differs.", "In CR 27 differs."]
    assert len(next_steps(groups)) == 1


def test_what_is_met_is_not_told_as_what_lacks_something():
    """Rests of 14, 24 and 34 lack room, opposite 44, 34 and 24: seats are planned at the first."""
    found = [
        Finding(
            TO_BE_CUT,
            "attention",
            f"The rest on {about} has no room.",
            tooth_upper=upper,
            tooth_lower=lower,
            about=about,
        )
        for about, upper, lower in ((14, 14, 44), (24, 24, 34), (34, 24, 34))
    ]
    (group,) = finding_groups(found)
    assert (group.teeth, group.spoken_of) == ((14, 24, 34, 44), (14, 24, 34))
    assert sides_of(group) == ((14, 24, 34), (44,))
    assert "(rest room): 14, 24 and 34 (opposite: 44); worst" in group_sentence(group)
    (step,) = next_steps([group])
    assert "seats at 14, 24 and 34 with" in step
    (both,) = finding_groups(found[1:])
    assert both.spoken_of == both.teeth == (24, 34) and sides_of(both) == ((24,), (34,))
    assert "(rest room): 24 and 34; worst" in group_sentence(both)
