"""Where rests, connectors and conditions of teeth contradict the rest of a case."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from kinematics.checks import Contradiction
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.judging import DentureBase
from kinematics.tooth_codes import is_upper


def framework_contradictions(
    bases: Sequence[DentureBase],
    conditions: Sequence[ToothCondition],
    may_have: Callable[[int], bool],
    replaced: Sequence[int],
    pontics: Sequence[int],
) -> Iterator[Contradiction]:
    """Yield what the dentition, bases or bridges do not leave to frameworks, and to conditions.

    Parameters
    ----------
    bases : sequence of DentureBase
        All of a case.
    conditions : sequence of ToothCondition
        What is said of natural teeth.
    may_have : callable
        Tells whether there may be a tooth of a number.
    replaced, pontics : sequence of int
        ISO 3950 numbers of teeth on bases and in bridges.
    """
    yield from _of_connectors(bases)
    for base in bases:
        yield from _of_rests(base, may_have, replaced, pontics)
    yield from _of_conditions(conditions, may_have, replaced, pontics)


def _of_connectors(bases: Sequence[DentureBase]) -> Iterator[Contradiction]:
    """Yield connectors that would join bases of both arches."""
    upper = {base.connector for base in bases if is_upper(base.teeth[0])}
    for name in dict.fromkeys(base.connector for base in bases if not is_upper(base.teeth[0])):
        if name and name in upper:
            named = ", ".join(f"'{base.name}'" for base in bases if base.connector == name)
            yield (
                (),
                f"denture_bases: the connector '{name}' joins bases of both arches ({named}); "
                "name it differently in each arch",
            )


def _of_rests(
    base: DentureBase,
    may_have: Callable[[int], bool],
    replaced: Sequence[int],
    pontics: Sequence[int],
) -> Iterator[Contradiction]:
    """Yield rests on what is no natural tooth; of a tooth of its own base the base says it."""
    for number, rest in enumerate(base.rests):
        where = f"denture base '{base.name}': rests[{number}]"
        if not may_have(rest.tooth):
            yield (
                (),
                f"{where}: the dentition has no tooth {rest.tooth}; a rest lies on a natural "
                "tooth that is there",
            )
        elif rest.tooth in replaced:
            yield (
                (),
                f"{where}: {rest.tooth} is a replacement tooth; a rest lies on a natural tooth",
            )
        elif rest.tooth in pontics:
            yield (
                (),
                f"{where}: {rest.tooth} is a pontic; a rest lies on a natural tooth, such as an "
                "abutment of its bridge",
            )


def _of_conditions(
    conditions: Sequence[ToothCondition],
    may_have: Callable[[int], bool],
    replaced: Sequence[int],
    pontics: Sequence[int],
) -> Iterator[Contradiction]:
    for code, count in Counter(condition.tooth for condition in conditions).items():
        where = f"tooth_conditions: {code}"
        if count > 1:
            yield (), f"{where} stands {count} times; say all of it in one entry"
        if not may_have(code):
            yield (
                (),
                f"{where} is not in the dentition; name a tooth that is there",
            )
        elif code in replaced or code in pontics:
            what = "a replacement tooth" if code in replaced else "a pontic"
            yield (
                (),
                f"{where} is {what}, which has no root; name natural teeth and implants only",
            )
