"""The order of work in words: report, table, findings.json, pages for patient and laboratory."""

import json

import pytest

from kinematics.case_sequence import order_of_work
from kinematics.planning.sequence.steps import Amount, Item, OrderOfWork
from kinematics.result_files import plain
from kinematics.sequence_files import SEQUENCE_COLUMNS, sequence_entries, sequence_rows
from scenes.laboratory_amounts import amounts_table, changed_first
from scenes.patient_plan import patient_plan
from scenes.report import template
from scenes.sequence_words import PLACES, amounts_words, sequence_section, steps_words
from tests.made_needs import ALL
from tests.reading_level import TRADE_WORDS, grade
from tests.test_report import Page
from tests.test_sequence import drawn


@pytest.fixture(scope="module")
def order(example):
    """Return an order of work in which every step stands."""
    return order_of_work(ALL.case, ALL.found(example))


@pytest.fixture(scope="module")
def orders(example):
    """Return 80 orders of work, of random needs."""
    needs = (drawn(seed)[0] for seed in range(500, 580))
    return [order_of_work(one.case, one.found(example)) for one in needs]


def shown(order):
    """Return the section as the report shows it, as text."""
    text = template("sequence.html").render(ordered=sequence_section(order))
    return Page(text).text


@pytest.mark.parametrize(
    "numbers, words",
    [
        ((1,), "step 1"),
        ((1, 2), "steps 1 and 2"),
        ((1, 2, 3), "steps 1 to 3"),
        ((1, 2, 3, 4, 6, 8, 9), "steps 1 to 4, 6, 8 and 9"),
    ],
)
def test_numbers_of_steps_in_words(numbers, words):
    """Three and more in a row as a range."""
    assert steps_words(numbers) == words


def test_every_figure_has_a_name_a_unit_and_its_uncertainty():
    """One uncertainty of all is told once; another tooth is named."""
    two = (Amount("off the tip", 0.9, plus_minus=0.27, tooth=46), Amount("off the edge", 0.05))
    item = Item((46,), "", "Cut.", "occlusal plane", amounts=two)
    assert amounts_words(item) == ("off the tip 0.90\xa0mm ± 0.27\xa0mm", "off the edge 50\xa0µm")
    alike = tuple(Amount(name, 0.9, plus_minus=0.2, tooth=34) for name in "ab")
    item = Item((46,), "", "Cut.", "occlusal plane", amounts=alike)
    assert amounts_words(item) == (
        "a (34) 0.90\xa0mm", "b (34) 0.90\xa0mm", "each ± 0.20\xa0mm",
    )  # fmt: skip
    item = Item((14,), "", "Cut.", "survey", amounts=(Amount("leans by", 2.4, "deg"),))
    assert amounts_words(item) == ("leans by 2.4°",)


def test_the_section_tells_every_step_and_amount(order):
    """Headings numbered, what comes before, all figures, choices and cautions; sources last."""
    text = shown(order)
    section = sequence_section(order)
    places = [text.index(f"{step.number}. {step.title}") for step in order.steps]
    assert places == sorted(places) and len(places) == 13
    for step, words in zip(order.steps, section.steps, strict=True):
        for item, told in zip(step.items, words.items, strict=True):
            assert item.text in text
            assert all(line.replace("\xa0", " ") in text.replace("\xa0", " ")
                       for line in told.amounts)  # fmt: skip
            assert all(choice in told.choices for choice in item.choices)
    assert "Measure again after steps 2 to 4." in text
    assert "McCracken" in text and "common practice" in text
    assert "Every amount is measured on the casts as they are." in text


def test_a_case_that_needs_nothing_says_so():
    """Instead of an empty section; a case whose order was not worked out has none."""
    assert "Nothing that was found in this case asks for a step" in shown(OrderOfWork())
    assert sequence_section(None) is None and shown(None) == ""
    assert patient_plan(OrderOfWork()) is None and patient_plan(None) is None
    assert amounts_table(None).rows == () and changed_first(OrderOfWork()) == ""


def test_figures_are_found_where_the_report_says(order, orders):
    """Every item names a section; its mark is one of the report."""
    known = {mark for _, mark in PLACES.values()}
    for one in (order, *orders):
        for step in one.steps:
            assert all(item.part in PLACES and PLACES[item.part][1] in known for item in step.items)


def test_the_table_has_a_row_for_every_amount(orders):
    """Or one for an item without; findings.json says the same."""
    for one in orders:
        rows = list(sequence_rows(one))
        items = [item for step in one.steps for item in step.items]
        assert len(rows) == sum(len(item.amounts) or 1 for item in items)
        assert all(len(row) == len(SEQUENCE_COLUMNS) for row in rows)
        told = json.loads(json.dumps(plain(sequence_entries(one))))
        figures = [
            amount["value"] for step in told for item in step["items"] for amount in item["amounts"]
        ]
        column = SEQUENCE_COLUMNS.index("value")
        values = [float(row[column]) for row in rows if row[column]]
        assert values == pytest.approx(figures, abs=1e-6)


def test_the_plan_for_the_patient_is_plain(orders, order):
    """No word of the trade, no grade above 7; every kind of step has its words."""
    for one in (order, *orders):
        plan = patient_plan(one)
        if plan is None:
            continue
        lines = [*(line for visit in plan.visits for line in visit.lines), *plan.unknown]
        text = " ".join(lines)
        assert not TRADE_WORDS.search(text), text
        assert grade(text) < 7.0, text
        assert "  " not in text and "None" not in text
        assert plan.cuts == any("safely come off" in line for line in plan.unknown)
        assert plan.cuts == any(item.cuts for step in one.steps for item in step.items)
    titles = [visit.title for visit in patient_plan(order).visits]
    assert len(titles) == 6


def test_the_laboratory_gets_amounts_tooth_by_tooth(order):
    """Seats, guide planes, clasps, crowns and set-ups; not what is asked elsewhere on its page."""
    rows = amounts_table(order).rows
    by_tooth = {(row[0], row[1]): row for row in rows}
    assert "0.80" in by_tooth["24", "mesial rest seat"][2]
    assert "0.30" in by_tooth["13", "distal surface"][2]
    assert "1.20" in by_tooth["14", "crown"][2]
    assert "0.20" in by_tooth["15, 16 and 17", "base 'upper right base'"][2]
    assert not any(row[0] == "17" for row in rows)
    assert changed_first(order).startswith("In the mouth 13, 14, 24, 26, 36 and 46 change first")
