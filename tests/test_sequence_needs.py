"""Single needs in the order of work: limits, choices, contradictions, what a search found."""

from dataclasses import replace

import pytest

from kinematics.case_sequence import order_of_work
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.findings import Figure
from kinematics.planning.remedies.found import Effect, Remedy, ToothRemedies
from kinematics.planning.surveying.survey_rules import MOST_CUT_MM
from kinematics.trial.settings import AMOUNTS, Change
from scenes.patient_plan import patient_plan
from tests.made_needs import Needs, finding


def test_a_case_without_needs_has_no_steps(example):
    """Notes and teeth in line ask for nothing."""
    still = Needs(findings=(finding("contacts near MI", severity="note"),), seats={14: None})
    assert order_of_work(still.case, still.found(example)).steps == ()


@pytest.mark.parametrize("off_mm, words", [(0.9, ""), (1.1, "half"), (2.1, "more than the enamel")])
def test_more_than_enamel_allows_is_said(example, off_mm, words):
    """By textbook figures of enamel at the cusp, 2.0 to 2.5 mm."""
    needs = Needs(heights={46: off_mm})
    (item,) = order_of_work(needs.case, needs.found(example)).items("occlusal plane")
    assert any(words in line for line in item.cautions) if words else item.cautions == ()


@pytest.mark.parametrize("cut_mm, chosen", [(0.2, False), (MOST_CUT_MM + 0.01, True), (None, True)])
def test_a_guide_plane_that_is_too_deep_is_a_choice(example, cut_mm, chosen):
    """Up to half a millimetre is cut; more, or a crown too low, wants another way."""
    needs = Needs(guides={14: cut_mm})
    (item,) = order_of_work(needs.case, needs.found(example)).items("guide planes")
    assert bool(item.choices) == chosen
    assert item.cuts == (cut_mm is not None)


def test_room_that_comes_by_itself_is_measured_first(example):
    """The tooth opposite a rest is brought down before: the seat may need less."""
    needs = Needs(heights={46: 0.9}, seats={24: 0.8})
    (item,) = order_of_work(needs.case, needs.found(example)).items("rest seats")
    assert any(line.startswith("46 opposite is brought down first") for line in item.cautions)
    needs = Needs(heights={46: -0.9}, seats={24: 0.8})
    (item,) = order_of_work(needs.case, needs.found(example)).items("rest seats")
    assert any(line.startswith("46 opposite is to be built up") for line in item.cautions)


@pytest.mark.parametrize("condition", [{"crown": True}, {"implant": True}, {"root_filled": True}])
def test_cutting_a_crown_is_said(example, condition):
    """Of a tooth that bears one, or stands on an implant; a root filling alone changes nothing."""
    needs = Needs(heights={46: 0.9})
    case = replace(needs.case, tooth_conditions=(ToothCondition(tooth=46, **condition),))
    (item,) = order_of_work(case, needs.found(example)).items("occlusal plane")
    assert any("no enamel" in line for line in item.cautions) == ("root_filled" not in condition)


def test_scans_without_a_record_of_centric_relation_ask_for_one(example):
    """Where something is to be done at all."""
    for needs, asked in ((Needs(cuts={26: 0.2}), 1), (Needs(), 0)):
        found = replace(needs.found(example), scans=object())
        items = order_of_work(needs.case, found).items("settle")
        assert sum(item.part == "what the records cannot tell" for item in items) == asked


def test_replacement_teeth_are_cut_in_the_set_up(example):
    """What adjusting takes off them costs no tooth."""
    needs = Needs(cuts={16: 0.3}, base=True)
    order = order_of_work(needs.case, needs.found(example))
    assert order.step("adjustment") is None
    cut = [item for item in order.items("set-up") if item.part == "adjustments"]
    assert len(cut) == 1 and not cut[0].cuts


def test_a_raised_bite_needs_a_record_at_its_height(example):
    """MI is void then; the amount is that of the pin."""
    needs = Needs(base=True, raised=True)
    found = needs.found(example)
    items = order_of_work(needs.case, found).items("records")
    (item,) = (one for one in items if one.part == "vertical dimension")
    assert [amount.value for amount in item.amounts] == [found.raised.pin_opening_mm]


def test_many_pairs_that_interfere_are_not_cut_one_by_one(example):
    """They have one cause: what should guide does not."""
    pairs = ((15, 45), (16, 46), (25, 35))
    needs = Needs(findings=tuple(finding("working interference", *pair) for pair in pairs))
    order = order_of_work(needs.case, needs.found(example))
    assert [step.kind for step in order.steps] == ["settle"]
    assert "what should guide" in order.steps[0].items[0].text
    assert not any(item.cuts for item in order.steps[0].items)


@pytest.mark.parametrize("held_mm", [0.001, 0.019, 0.021, 0.3])
def test_what_holds_open_by_less_than_the_contact_tolerance_is_not_cut(example, held_mm):
    """Foil tells whether it is there at all; from the tolerance on it is an adjustment."""
    height = Figure("height along the closing arc at 16", held_mm, "mm")
    one = replace(finding("working interference", 16, 46), figures=(height,))
    needs = Needs(findings=(one,))
    order = order_of_work(needs.case, needs.found(example))
    slight = held_mm < 0.02
    assert (order.step("adjustment") is None) == slight
    told = [item.text for item in order.items("settle")]
    assert any("see whether foil marks 16 and 46" in text.lower() for text in told) == slight


def found_ways(tooth, **amounts):
    """Return what a search would have found for a tooth: some kinds with their amounts."""
    effect = Effect((), (), (), 0.0, "", (), (), (), 0, (), None)
    ways = tuple(
        Remedy(kind, (), None, amount, "mm", 0.01, 2.0, amount, natural_cut=(tooth,), effect=effect)
        for kind, amount in amounts.items()
    )
    none = Remedy("tilt", (), None, 0.0, "deg", 0.1, 5.0, reason="none helps")
    return ToothRemedies(tooth, 0.05, (), "", (*ways, none))


def test_ways_that_a_search_found_stand_in_place_of_the_finding(example):
    """With their amounts, to be chosen from; one of them or the adjustment of the case."""
    needs = Needs(findings=(finding("nonworking interference", 17, 47),), cuts={26: 0.2})
    found = needs.found(example)
    told = replace(found, remedies=(found_ways(17, flatten=0.7, adjust=0.2),))
    cut, way = order_of_work(needs.case, told).items("adjustment")
    assert (cut.teeth, way.teeth) == ((26,), (17,))
    assert [amount.value for amount in way.amounts] == [0.7, 0.2]
    assert len(way.choices) == 2 and "cut what stands in the way" in way.text
    said = {True: "more than one way", False: "A little comes off"}
    for one, several in ((told, True), (found, False)):
        plan = patient_plan(order_of_work(needs.case, one))
        text = " ".join(line for visit in plan.visits for line in visit.lines)
        assert said[several] in text and said[not several] not in text
    twice = replace(found, remedies=(found_ways(26, adjust=0.2),))
    *_, way, _ = order_of_work(needs.case, twice).items("adjustment")
    assert any("one of both" in line for line in way.cautions)
    none = replace(found, remedies=(found_ways(17),))
    texts = [item.text for item in order_of_work(needs.case, none).items("adjustment")]
    assert any(text.startswith("No single change was found") for text in texts)


@pytest.mark.parametrize("kind", AMOUNTS)
def test_every_change_on_trial_has_its_step(example, kind):
    """Of natural teeth before the impression or in the set-up; told once, as on trial."""
    values = {"by_mm": 0.4, "by_deg": 5.0, "mesial_deg": 3.0, "mesial_mm": 0.5, "from_mm": 1.0}
    given = {name: values[name] for name in AMOUNTS[kind] if name in values}
    changes = (Change(kind=kind, tooth=46 if kind != "steepen" else 13, **given),)
    needs = Needs(changes=changes)
    case = needs.case if kind != "add" else replace(Needs().case)
    order = order_of_work(case, needs.found(example))
    told = [item for step in order.steps for item in step.items if item.where == "trial set-up"]
    assert len(told) == (kind != "add")


def test_amounts_are_as_uncertain_as_what_they_rest_on(example):
    """Heights by the interval of the plane; cuts, seats and crowns by the records' scatter."""
    needs = Needs(heights={46: 0.9}, cuts={26: 0.2}, seats={24: 0.8}, crowns={36: 0.4})
    for scatter_mm, known in ((0.0, None), (0.3, 0.3)):
        judging = replace(needs.case.judging, record_scatter_mm=scatter_mm)
        order = order_of_work(replace(needs.case, judging=judging), needs.found(example))

        def spread(kind, order=order):
            return order.items(kind)[0].amounts[0].plus_minus

        assert spread("occlusal plane") == 0.2
        assert {spread(kind) for kind in ("adjustment", "rest seats", "crowns")} == {known}
