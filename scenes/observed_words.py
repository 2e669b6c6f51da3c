"""Marks found in the mouth beside those of the casts, as a table."""

from collections.abc import Sequence

from kinematics.planning.given_marks import IN_CR, IN_MI, excursion_named
from kinematics.planning.observed_marks import ComparedMarks
from kinematics.planning.wording import enumeration
from scenes.phrases import excursion_title
from scenes.report_tables import Table

_NONE = "–"


def observed_table(marks: Sequence[ComparedMarks]) -> Table:
    """Return a row for every movement of which marks were given; nothing for other teeth."""
    return Table(
        (
            "marks given of",
            "expected and found",
            "expected, not found",
            "found, not expected",
            "not expected, none found",
        ),
        tuple(
            (
                _title(own.movement),
                *(
                    enumeration(teeth) or _NONE
                    for teeth in (own.agreed, own.not_found, own.not_expected, own.agreed_bare)
                ),
            )
            for own in marks
        ),
    )


def _title(movement: str) -> str:
    named = {IN_MI: "Maximal intercuspation (MI)", IN_CR: "Centric relation (CR), first touch"}
    return named.get(movement) or excursion_title(excursion_named(movement))
