"""What result files tell of schemes for replaced teeth: entries of findings.json, and a table."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from kinematics.planning.judging import JudgingSettings
from kinematics.planning.scheme_advice import SchemeAdvice
from kinematics.planning.school_answers import Answer, SchoolAnswers, nearest_of
from kinematics.planning.school_words import change_words
from kinematics.planning.unit_contacts import UnitContacts
from kinematics.table_cells import Row, number

ADVICE_FILE: Final = "schemes.csv"
ADVICE_COLUMNS: Final = [
    "teeth_of", "carried_by", "teeth", "opposite", "scheme", "school", "place", "side", "wanted",
    "done", "wanted_of", "to_stay_clear", "amiss", "pairs",
    "touching_percent", "back_touching_percent", "balanced_percent", "least_gap_mm",
    "held_open_mm", "source",
]  # fmt: skip


def advice_entries(
    advice: Iterable[SchemeAdvice], settings: JudgingSettings
) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of schemes for replaced teeth.

    Parameters
    ----------
    advice : iterable of SchemeAdvice
        What there is to say.
    settings : JudgingSettings
        Tolerances by which the case is judged.
    """
    return [
        {
            "teeth_of": item.unit.name,
            "carried_by": item.unit.kind,
            "teeth": item.unit.teeth,
            "opposite": item.unit.opposite,
            "scheme": item.scheme,
            "teeth_with_a_stop": item.stopped,
            "contacts": item.contacts,
            "schools": [_school(item, asked, settings) for asked in item.schools],
            "nearest_by_share_of_wants_met": [one.school.name for one in nearest_of(item.schools)],
            "by_every_scheme": item.other_ways,
        }
        for item in advice
    ]


def _school(
    item: SchemeAdvice, asked: SchoolAnswers, settings: JudgingSettings
) -> Mapping[str, Any]:
    return {
        "school": asked.school,
        "answers": asked.answers,
        "wants_judged": len(asked.judged),
        "wants_missed": len(asked.missed),
        "would_have_to_change": [
            change_words(answer, item.done_at(answer), settings) for answer in asked.missed
        ],
    }


def advice_rows(advice: Iterable[SchemeAdvice]) -> Iterator[Row]:
    """Yield one row for everything that a school wants somewhere; columns `ADVICE_COLUMNS`."""
    for item in advice:
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
                    *_contact_cells(item.done_at(answer)),
                    asked.school.source,
                ]


def _answer_cells(answer: Answer) -> Row:
    return [
        answer.place,
        answer.side,
        answer.demand,
        answer.met,
        *(" ".join(map(str, teeth)) for teeth in (answer.teeth, answer.clear, answer.amiss)),
        " ".join(f"{upper}/{lower}" for upper, lower in answer.pairs),
    ]


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
