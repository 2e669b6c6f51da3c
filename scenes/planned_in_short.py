"""What a plan rests on in short, for the summary on the screen: changes, cuts, remedies, order."""

from collections.abc import Iterator

from kinematics.case import Case
from kinematics.case_adjusted import Adjusted
from kinematics.checkup_result import Checkup
from kinematics.planning.sequence.steps import OrderOfWork
from kinematics.planning.wording import sentence
from kinematics.trial.wording import set_up_words
from scenes.adjustment_words import aim_words, reached_words
from scenes.phrases import length
from scenes.remedy_words import smallest_words


def planned_in_short(case: Case, checkup: Checkup) -> Iterator[str]:
    """Yield the trial set-up, every adjustment, the smallest remedies and the order of work."""
    if told := set_up_words(case.change):
        yield f"{told[0].upper()}{told[1:]}."
    for number, item in enumerate(checkup.adjusted, start=1):
        yield f"Adjustment {number}, wanted: {_adjustment(item)}"
    for remedies in checkup.remedies:
        told = (
            f"nothing was sought: {remedies.note}." if remedies.note else smallest_words(remedies)
        )
        yield f"What would clear {remedies.tooth}: {told[0].lower()}{told[1:]}"
    if checkup.sequence is not None and checkup.sequence.steps:
        yield _order(checkup.sequence)


def _adjustment(item: Adjusted) -> str:
    planned = item.planned
    cuts = ", ".join(f"up to {length(cut.deepest_mm)} off {cut.tooth}" for cut in planned.cuts)
    told = [aim_words(planned.adjustment), cuts, *planned.hinders]
    return " ".join([*map(sentence, filter(None, told)), reached_words(item)])


def _order(order: OrderOfWork) -> str:
    titles = "; ".join(
        f"{step.number} {step.title[0].lower()}{step.title[1:]}" for step in order.steps
    )
    return f"In which order, with amounts in the report: {titles}."
