"""Amounts of every tooth for the laboratory, from the order of work."""

from collections.abc import Iterator
from typing import Final

from kinematics.planning.sequence.steps import Item, OrderOfWork, Part, Step, StepKind
from kinematics.planning.wording import enumeration
from scenes.report_tables import Table
from scenes.sequence_words import amounts_words

#: Steps of which the laboratory has to know the amounts.
_TOLD: Final[tuple[StepKind, ...]] = (
    "guide planes",
    "clasp undercuts",
    "rest seats",
    "crowns",
    "framework",
    "set-up",
)
#: Told on this page elsewhere: contacts in excursions, and what to ask.
_ELSEWHERE: Final[tuple[Part, ...]] = ("replacement teeth", "findings")
_HEAD: Final = ("teeth", "for", "how much, on the casts as they are", "what to do")
#: Steps that are done in the mouth before the impression.
_IN_THE_MOUTH: Final[tuple[StepKind, ...]] = (
    "guide planes",
    "clasp undercuts",
    "rest seats",
)


#: All steps that change natural teeth before it.
_CHANGING: Final[tuple[StepKind, ...]] = ("occlusal plane", "adjustment", *_IN_THE_MOUTH, "crowns")


def amounts_table(order: OrderOfWork | None) -> Table:
    """Return what is cut, shaped and set up, tooth by tooth; no rows where nothing is made."""
    if order is None or order.step("impression") is None:
        return Table(_HEAD, ())
    told = (step for step in order.steps if step.kind in _TOLD)
    return Table(_HEAD, tuple(row for step in told for row in _rows(step)))


def _rows(step: Step) -> Iterator[tuple[str, ...]]:
    for item in step.items:
        if item.part not in _ELSEWHERE and (item.amounts or step.kind not in _IN_THE_MOUTH):
            yield (
                enumeration(sorted(item.teeth)),
                item.where,
                "; ".join(amounts_words(item)) or "–",
                _to_do(step, item),
            )


def changed_first(order: OrderOfWork | None) -> str:
    """Return which teeth change in the mouth before the impression; empty for none."""
    if order is None or order.step("impression") is None:
        return ""
    items = (item for kind in _CHANGING for item in order.items(kind))
    teeth = sorted({code for item in items for code in item.teeth})
    if not teeth:
        return ""
    return f"In the mouth {enumeration(teeth)} change first; measure again on the new casts."


def _to_do(step: Step, item: Item) -> str:
    if step.kind in _IN_THE_MOUTH:
        return "in the mouth; measure again"
    if step.kind == "framework":
        return "keep to the room above rests; relieve"
    if step.kind == "set-up":
        return item.because or item.text
    return item.text.partition(";")[0].partition(":")[0].rstrip(".")
