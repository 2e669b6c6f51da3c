"""What result files tell of schemes for replaced teeth: entries of findings.json, and a table."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from kinematics.planning.scheme_advice import SchemeAdvice
from kinematics.planning.school_answers import Answer
from kinematics.planning.unit_contacts import UnitContacts
from kinematics.table_cells import Row, number

ADVICE_FILE: Final = "schemes.csv"
ADVICE_COLUMNS: Final = [
    "teeth_of", "carried_by", "teeth", "opposite", "scheme", "school", "place", "side", "wanted",
    "done", "touching_percent", "back_touching_percent", "balanced_percent", "least_gap_mm",
    "held_open_mm", "source",
]  # fmt: skip


def advice_entries(advice: Iterable[SchemeAdvice]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of schemes for replaced teeth."""
    return [
        {
            "teeth_of": item.unit.name,
            "carried_by": item.unit.kind,
            "teeth": item.unit.teeth,
            "opposite": item.unit.opposite,
            "scheme": item.scheme,
            "teeth_with_a_stop": item.stopped,
            "contacts": item.contacts,
            "schools": item.schools,
            "by_every_scheme": item.other_ways,
        }
        for item in advice
    ]


def advice_rows(advice: Iterable[SchemeAdvice]) -> Iterator[Row]:
    """Yield one row for everything that a school wants somewhere; columns `ADVICE_COLUMNS`."""
    for item in advice:
        done: dict[tuple[str, str], UnitContacts] = {
            (one.place, one.side): one for one in item.contacts
        }
        for asked in item.schools:
            for answer in asked.answers:
                yield [
                    item.unit.name,
                    item.unit.kind,
                    " ".join(map(str, item.unit.teeth)),
                    item.unit.opposite,
                    item.scheme,
                    asked.school.name,
                    *_answer_cells(answer),
                    *_contact_cells(done.get((answer.place, answer.side))),
                    asked.school.source,
                ]


def _answer_cells(answer: Answer) -> Row:
    return [answer.place, answer.side, answer.demand, answer.met]


def _contact_cells(done: UnitContacts | None) -> Row:
    if done is None:
        return [""] * 5
    return [
        number(done.touching_percent),
        number(done.back_touching_percent),
        number(done.balanced_percent),
        number(done.least_gap_mm),
        number(done.held_mm),
    ]
