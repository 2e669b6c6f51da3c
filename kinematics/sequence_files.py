"""What result files tell of the order of work: entries of findings.json, and a table."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from kinematics.planning.sequence.steps import Amount, Item, OrderOfWork, Step
from kinematics.table_cells import Row, numbers, tooth_cell

SEQUENCE_FILE: Final = "sequence.csv"
SEQUENCE_COLUMNS: Final = [
    "step", "kind", "title", "after_steps", "measure_again_after_steps", "item", "teeth", "where",
    "what", "because", "cuts_natural_tooth", "base", "amount", "tooth", "value", "unit",
    "plus_minus", "choices", "cautions", "figures_from",
]  # fmt: skip


def sequence_entries(order: OrderOfWork | None) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of every step, in order."""
    if order is None:
        return []
    return [
        {
            "step": step.number,
            "kind": step.kind,
            "title": step.title,
            "after_steps": step.after,
            "measure_again_after_steps": step.measure_again_after,
            "why": step.why,
            "source": step.source,
            "items": step.items,
        }
        for step in order.steps
    ]


def sequence_rows(order: OrderOfWork) -> Iterator[Row]:
    """Yield one row an amount, or one an item without; columns `SEQUENCE_COLUMNS`."""
    for step in order.steps:
        for count, item in enumerate(step.items, start=1):
            for amount in item.amounts or (None,):
                yield [*_step_cells(step), str(count), *_item_cells(item, amount)]


def _step_cells(step: Step) -> Row:
    return [
        str(step.number),
        step.kind,
        step.title,
        _numbers(step.after),
        _numbers(step.measure_again_after),
    ]


def _item_cells(item: Item, amount: Amount | None) -> Row:
    return [
        _numbers(item.teeth),
        item.where,
        item.text,
        item.because,
        "yes" if item.cuts else "no",
        item.base,
        *_amount_cells(amount),
        "; ".join(item.choices),
        "; ".join(item.cautions),
        item.part,
    ]


def _amount_cells(amount: Amount | None) -> Row:
    if amount is None:
        return [""] * 5
    spread = "" if amount.plus_minus is None else numbers(amount.plus_minus)[0]
    return [
        amount.name,
        tooth_cell(amount.tooth),
        *numbers(amount.value),
        amount.unit,
        spread,
    ]


def _numbers(values: tuple[int, ...]) -> str:
    return " ".join(map(str, values))
