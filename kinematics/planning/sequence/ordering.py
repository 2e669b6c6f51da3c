"""Items put into steps, and steps into the order of the table."""

from collections.abc import Iterable

from kinematics.planning.sequence.step_rules import STEP_RULES
from kinematics.planning.sequence.steps import Item, OrderOfWork, Step, StepKind

#: An item with the step in which it is done.
Wanted = tuple[StepKind, Item]


def in_order(wanted: Iterable[Wanted]) -> OrderOfWork:
    """Return all items as numbered steps, each with those before which it must not be done.

    Items of one step keep their order; a kind without items is no step.
    """
    by_kind: dict[StepKind, list[Item]] = {}
    for kind, item in wanted:
        by_kind.setdefault(kind, []).append(item)
    needed = [rule for rule in STEP_RULES if rule.kind in by_kind]
    number = {rule.kind: count for count, rule in enumerate(needed, start=1)}

    def numbers(kinds: Iterable[StepKind]) -> tuple[int, ...]:
        return tuple(sorted(number[kind] for kind in kinds if kind in number))

    return OrderOfWork(
        tuple(
            Step(
                number=number[rule.kind],
                kind=rule.kind,
                title=rule.title,
                items=tuple(by_kind[rule.kind]),
                after=numbers(rule.after),
                measure_again_after=numbers(rule.changed_by),
                why=rule.why,
                source=rule.source,
            )
            for rule in needed
        )
    )
