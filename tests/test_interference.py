"""Interferences: every row of the table, heights against closed forms, mirror, boundaries."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.contact.mounted import GUIDED_BY_TABLE
from kinematics.guidance import excursions
from kinematics.guidance.excursions import Excursion
from kinematics.planning.contact_findings import interference_finding
from kinematics.planning.interference import interferences
from kinematics.planning.interference_rules import RULES, movement_of, rules_for
from kinematics.planning.judging import DentureBase
from kinematics.tooth_codes import mirror, opponent
from tests.made_sweeps import NONE, PROTRUSION, between, made
from tests.small_mouth import UPPERS, mouth, occlusion, openings, swept


@pytest.fixture(scope="module")
def casts():
    """Return a mouth; in hand-made sweeps no closing is asked of it."""
    return mouth()


def found_in(casts, sweep, **settings):
    """Return (kind, severity, pair) of what interferes in a sweep of hand-made gaps."""
    items = interferences(occlusion(casts, **settings), sweep)
    return [(item.rule.kind, item.rule.severity, item.pair) for item in items]


WORKING, NONWORKING, CANINE = (16, 46), (27, 37), (13, 43)
ROWS = [
    # scheme, gaps of the canine, the back pair, back pair, excursion, what is found
    ("canine", 0.0, WORKING, None, ("working interference", "attention")),
    ("canine", 0.03, WORKING, None, ("working interference", "serious")),
    ("canine", 0.0, NONWORKING, None, ("nonworking contact", "note")),
    ("canine", 0.03, NONWORKING, None, ("nonworking interference", "serious")),
    ("canine", 0.0, WORKING, PROTRUSION, ("protrusive interference", "attention")),
    ("canine", 0.03, NONWORKING, PROTRUSION, ("protrusive interference", "serious")),
    ("group", 0.0, WORKING, None, None),
    ("group", 0.03, WORKING, None, ("working interference", "attention")),
    ("group", 0.0, NONWORKING, None, ("nonworking contact", "note")),
    ("group", 0.03, NONWORKING, None, ("nonworking interference", "serious")),
    ("group", 0.0, WORKING, PROTRUSION, ("protrusive interference", "attention")),
    ("group", 0.03, WORKING, PROTRUSION, ("protrusive interference", "serious")),
]


@pytest.mark.parametrize(("scheme", "canine_gap", "pair", "excursion", "wanted"), ROWS)
def test_each_row_of_canine_and_group(casts, scheme, canine_gap, pair, excursion, wanted):
    """A contact against the scheme is found; one that holds the guiding teeth open is graver."""
    gaps = {CANINE: canine_gap + NONE, pair: between(0.8, 1.6)}
    sweep = made(
        gaps,
        first=(12, 42),
        second=pair,
        second_gap=0.0,
        **({"excursion": excursion} if excursion else {}),
    )
    found = found_in(casts, sweep, scheme=scheme)
    assert found == ([(*wanted, pair)] if wanted else [])


def test_thirty_micrometres_clear_at_twenty_is_no_contact(casts):
    """0.03 mm is not a touch at a tolerance of 0.02 mm; at 0.04 mm it is."""
    sweep = made({CANINE: NONE, WORKING: between(0.8, 1.6, 0.03)})
    assert found_in(casts, sweep) == []
    assert len(found_in(casts, sweep, tolerance_mm=0.04)) == 1


def test_where_the_guide_table_carries_the_jaw_no_tooth_lifts_it(casts):
    """The canine is open, but the table holds it so: the nonworking contact is only a contact."""
    gaps = {CANINE: 0.03 + NONE, NONWORKING: between(0.8, 1.6)}
    sweep = made(gaps, first=(12, 42), guide=GUIDED_BY_TABLE)
    assert found_in(casts, sweep) == [("nonworking contact", "note", NONWORKING)]


def test_a_height_along_the_arc_counts_as_well_as_a_shortest_distance():
    """Where the canine is just within the tolerance but the arc is longer, it is held open."""
    casts = mouth({27: (1.2, -0.3)}, {37: -0.42})
    sweep = swept(casts, excursions.right_lateral(), travel_mm=1.0)
    gaps = sweep.pair_gap_mm.copy()
    gaps[:, sweep.upper_codes.index(13), sweep.lower_codes.index(43)] = 0.02
    (item,) = interferences(occlusion(casts), replace(sweep, pair_gap_mm=gaps))
    assert item.rule.kind == "nonworking interference"
    assert item.held_open_mm == 0.02
    assert item.heights[0].height_mm > 0.02


def test_figures_are_read_beyond_the_near_mi_length():
    """A contact that lifts next to MI and only touches beyond lifts nothing."""
    casts = mouth({27: (1.2, -0.3)}, {37: -0.1})
    sweep = swept(casts, excursions.right_lateral())
    gaps = sweep.pair_gap_mm.copy()
    gaps[:, sweep.upper_codes.index(27), sweep.lower_codes.index(37)] = 0.01
    beyond = sweep.travel_mm > 0.55
    first = {
        "tooth_upper": np.where(beyond, 13, sweep.closures.tooth_upper),
        "tooth_lower": np.where(beyond, 43, sweep.closures.tooth_lower),
    }
    gaps[beyond, sweep.upper_codes.index(13), sweep.lower_codes.index(43)] = 0.0
    sweep = replace(sweep, pair_gap_mm=gaps, closures=replace(sweep.closures, **first))
    (item,) = interferences(occlusion(casts), sweep)
    assert (item.rule.kind, item.travel_from_mm) == ("nonworking contact", 0.0)
    assert {height.height_mm for height in item.heights} == {0.0}


def test_a_contact_that_comes_back_later_counts_from_there(casts):
    """Touching next to MI and again at 1.2 mm: only the second is the interference."""
    gaps = np.minimum(between(0.0, 0.3), between(1.2, 2.0))
    (item,) = interferences(occlusion(casts), made({CANINE: NONE, WORKING: gaps}))
    assert (item.travel_from_mm, item.travel_to_mm, item.broken) == (1.2, 2.0, False)
    twice = np.minimum(between(0.8, 1.0), between(1.2, 2.0))
    (item,) = interferences(occlusion(casts), made({CANINE: NONE, WORKING: twice}))
    assert (item.travel_from_mm, item.travel_to_mm, item.broken) == (0.8, 2.0, True)


def test_crossover_is_not_judged(casts):
    """Beyond edge-to-edge nothing interferes; without an edge, beyond the last reading neither."""
    late = made({CANINE: NONE, WORKING: between(2.0, 3.0)}, edge=1.95)
    assert found_in(casts, late) == []
    assert (
        found_in(casts, made({CANINE: NONE, WORKING: between(2.0, 3.0)}), readings_mm=(0, 1.9))
        == []
    )


def test_two_back_teeth_share_a_group_but_one_tooth_does_not(casts):
    """With group function 46 on two uppers is still a single tooth; two pairs are a group."""
    one = made(
        {CANINE: 0.1 + NONE, (16, 46): NONE, (15, 46): NONE}, second=(15, 46), second_gap=0.0
    )
    assert {kind for kind, _, _ in found_in(casts, one, scheme="group")} == {"working interference"}
    two = made({CANINE: 0.1 + NONE, (16, 46): NONE, (15, 45): NONE})
    assert found_in(casts, two, scheme="group") == []


def test_a_retrusion_has_no_excursive_interference(casts):
    """Back teeth meet on the way to CR: that is judged as a slide."""
    back = made({WORKING: NONE}, Excursion("retrusion", 0.0, "MI"))
    assert found_in(casts, back) == []
    assert movement_of(back.excursion) == "retrusive"


def test_replacement_teeth_are_left_to_their_base(casts):
    """The natural scheme does not speak about replacement teeth."""
    sweep = made({CANINE: NONE, WORKING: between(0.8, 1.6), (17, 47): between(0.8, 1.6)})
    base = DentureBase(name="right", teeth=(16,), abutments=(15,))
    found = interferences(occlusion(casts, bases=(base,)), sweep)
    assert [item.pair for item in found] == [(17, 47)]


def test_balance_needs_working_and_nonworking_contacts(casts):
    """Each missing side is told with its range; at a tolerance of 0.1 mm for the mucosa."""
    balanced = {WORKING: 0.09 + NONE, NONWORKING: between(0.0, 2.0, 0.05)}
    items = interferences(occlusion(casts, scheme="balanced"), made(balanced))
    assert [(i.rule.contact, i.travel_from_mm, i.travel_to_mm) for i in items] == [
        ("nonworking", 2.1, 3.0)
    ]
    items = interferences(occlusion(casts, scheme="balanced"), made({NONWORKING: NONE}))
    assert [i.rule.contact for i in items] == ["working posterior"]


def test_balance_in_protrusion_needs_right_left_and_front(casts):
    """Three contacts must hold; without any, three findings."""
    subject = occlusion(casts, scheme="balanced")
    missing = interferences(subject, made({}, PROTRUSION))
    wanted = ["right posterior", "left posterior", "anterior"]
    assert [item.rule.contact for item in missing] == wanted
    held = made({WORKING: NONE, (26, 36): NONE, (11, 41): NONE}, PROTRUSION)
    assert interferences(subject, held) == ()
    text = interference_finding(subject, held, missing[2]).text
    assert text == (
        "In protrusion no front teeth touch within 0.10 mm from 0.6 to 3.0 mm: front teeth must"
        " touch in protrusion."
    )


def test_every_row_is_reachable():
    """Each row of the table belongs to a scheme, and all movements are judged."""
    for rule in RULES:
        assert rule in rules_for(rule.scheme, rule.movement)
        assert rule.source
    assert {rule.movement for rule in RULES} == {"centric", "MI", "lateral", "protrusive"}
    assert rules_for("canine", "retrusive") == ()


EXCURSIONS = {
    "right": excursions.right_lateral(),
    "left": excursions.left_lateral(),
    "ahead": excursions.protrusion(),
}


@pytest.mark.parametrize("seed", range(60))
def test_planted_interferences_are_found_with_their_height(seed):
    """Tooth, excursion and height as planted: the height to a millionth of a millimetre."""
    rng = np.random.default_rng(seed)
    code = int(rng.choice([17, 16, 15, 25, 26, 27]))
    steep = float(rng.uniform(1.3, 2.2))
    name = str(rng.choice(list(EXCURSIONS)))
    working = (code < 20) == (name == "right")
    share = {"ahead": (1.0, 0.0)}.get(name, (0.3, 1.0) if working else (1.0, -0.3))
    falls = {code: (steep * share[0], steep * share[1])}
    over_erupted = {opponent(code): -float(rng.uniform(0.2, 0.5))}
    casts = mouth(falls, over_erupted)
    sweep = swept(casts, EXCURSIONS[name], step_mm=0.25, travel_mm=1.5)
    angles = openings(casts, falls, over_erupted, sweep.positions.pose_at_zero)
    column = UPPERS.index(code)
    alone = angles[:, column] - np.delete(angles, column, axis=1).max(axis=1)
    heights = np.maximum(alone, 0.0) * sweep.closures.radius_mm
    assert heights.max() > 0.05
    items = interferences(occlusion(casts), sweep)
    (item,) = [item for item in items if item.pair == (code, opponent(code))]
    assert item.rule.severity == "serious"
    within = (sweep.travel_mm > 0.55) & (sweep.travel_mm <= item.travel_to_mm)
    for height in item.heights:
        assert height.height_mm == pytest.approx(heights[within].max(), abs=1e-9)
    assert {height.tooth for height in item.heights} == {code, opponent(code)}
    assert {item.pair for item in items} == {(code, opponent(code))}


def test_a_mirrored_mouth_gives_mirrored_interferences():
    """The same tooth on the other side interferes in the other excursion by the same figures."""
    right = swept(mouth({16: (0.9, 1.6)}), excursions.right_lateral())
    left = swept(mouth({26: (0.9, 1.6)}), excursions.left_lateral())
    (one,) = interferences(occlusion(mouth({16: (0.9, 1.6)})), right)
    (other,) = interferences(occlusion(mouth({26: (0.9, 1.6)})), left)
    assert other.pair == (mirror(one.pair[0]), mirror(one.pair[1]))
    np.testing.assert_allclose(np.array(other.place) * [1, -1, 1], one.place, atol=1e-9)
    for a, b in zip(one.heights, other.heights, strict=True):
        assert (mirror(a.tooth), a.travel_mm) == (b.tooth, pytest.approx(b.travel_mm, abs=1e-9))
        assert b.height_mm == pytest.approx(a.height_mm, abs=1e-9)


def test_the_over_erupted_tooth_is_the_one_judged():
    """Of a pair with an over-erupted tooth only that one is left out to find the height."""
    casts = mouth({16: (0.9, 1.6)})
    sweep = swept(casts, excursions.right_lateral())
    subject = occlusion(casts, over_erupted=(46,))
    (item,) = interferences(subject, sweep)
    assert [height.tooth for height in item.heights] == [46]
    text = interference_finding(subject, sweep, item).text
    assert text.startswith("In right lateral excursion over-erupted 46 touches 16 from 0.0 to 3.0")
    assert "found by leaving out 46)" in text


def test_balanced_counts_only_what_the_mucosa_cannot_make_up_for():
    """A contact that lifts the others by more than 0.1 mm interferes, whichever tooth it is."""
    casts = mouth()
    sweep = swept(casts, excursions.right_lateral())
    items = interferences(occlusion(casts, scheme="balanced"), sweep)
    lifting = [item for item in items if item.rule.condition == "lifts"]
    assert [item.pair for item in lifting] == [(13, 43)]
    assert min(height.height_mm for height in lifting[0].heights) > 0.1
    loose = occlusion(casts, scheme="balanced", balanced_tolerance_mm=1.0)
    at_one = swept(casts, excursions.right_lateral(), travel_mm=1.0)
    assert all(item.rule.condition != "lifts" for item in interferences(loose, at_one))
