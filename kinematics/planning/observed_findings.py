"""Marks in the mouth that are not as the casts let expect, as findings."""

from typing import Final

from kinematics.planning.findings import Figure, Finding
from kinematics.planning.given_marks import IN_CR, IN_MI, excursion_named
from kinematics.planning.observed_marks import ComparedMarks
from kinematics.planning.wording import enumeration, excursion_words, sentence

MARKS_DIFFER: Final = "marks differ from the casts"
_SOURCE: Final = (
    "common practice: casts are judged by only where their marks are those of the mouth"
)
#: What a difference may mean, by where it is. Common practice.
_MEANS_MI: Final = (
    "the casts may not stand as the jaw does (mounting, bite record), or a tooth is worn or has"
    " moved since they were made"
)
_MEANS_CR: Final = (
    "the centric record or the mounting may be off, or a tooth is worn or has moved since the casts"
    " were made"
)
_MEANS_MOVING: Final = (
    "the settings of the guidance or the mounting may be off, or a tooth is worn or has moved since"
    " the casts were made"
)


def marks_finding(marks: ComparedMarks) -> Finding | None:
    """Return how casts and mouth differ in one movement; None where they agree."""
    if marks.agree:
        return None
    where, means = _where(marks.movement)
    told = []
    if marks.not_found:
        touch = "touches" if len(marks.not_found) == 1 else "touch"
        named = enumeration(marks.not_found)
        told.append(f"the mouth shows no mark on {named}, which {touch} on the casts")
    if marks.not_expected:
        named = enumeration(marks.not_expected)
        told.append(f"the mouth shows marks on {named}, where the casts do not touch")
    same = len(marks.agreed) + len(marks.agreed_bare)
    differ = len(marks.not_found) + len(marks.not_expected)
    return Finding(
        kind=MARKS_DIFFER,
        severity="attention",
        text=sentence(f"{where} {', and '.join(told)}: {means}; check before anything is ground"),
        excursion=None if marks.movement in (IN_MI, IN_CR) else marks.movement,
        figures=(
            Figure("teeth on which casts and mouth differ", float(differ), ""),
            Figure("teeth on which they agree", float(same), ""),
        ),
        threshold_source=_SOURCE,
    )


def _where(movement: str) -> tuple[str, str]:
    """Return a movement as it begins a sentence, and what a difference in it may mean."""
    if movement == IN_MI:
        return "in MI", _MEANS_MI
    if movement == IN_CR:
        return "at the first touch in CR", _MEANS_CR
    return f"in {excursion_words(excursion_named(movement))}", _MEANS_MOVING
