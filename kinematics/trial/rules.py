"""Changes of a trial set-up that contradict each other, or the teeth that a case has."""

from collections.abc import Collection, Iterator, Sequence

from kinematics.checks import Contradiction
from kinematics.tooth_codes import is_upper
from kinematics.trial.settings import Change

#: The key of the list of changes in a case file.
KEY = "change"


def change_contradictions(
    changes: Sequence[Change],
    standing: Collection[int] | None,
    named: Sequence[tuple[str, int]],
) -> Iterator[Contradiction]:
    """Yield what keeps changes from being made, one after the other.

    Parameters
    ----------
    changes : sequence of Change
        In their order.
    standing : collection of int or None
        ISO 3950 numbers of the teeth before the first; None: known only when scans are read.
    named : sequence of (str, int)
        What else names a tooth, and which: such a tooth cannot be taken out.
    """
    there = None if standing is None else set(standing)
    holders: dict[int, str] = {}
    for name, code in named:
        holders.setdefault(code, name)
    for number, change in enumerate(changes):
        where, code = f"{KEY}[{number}]", change.tooth
        if change.kind == "remove" and code in holders:
            yield (
                (where,),
                f"{where}: {code} cannot be removed, it is named by {holders[code]}; take it out "
                "there first",
            )
        if there is None:
            continue
        if (fault := absence(change, there)) is not None:
            yield (where,), f"{where}: {fault}"
            continue
        there = there_after(change, there)
        if not any(is_upper(other) == is_upper(code) for other in there):
            yield (
                (where,),
                f"{where}: {code} is the last tooth of its arch, and without it nothing can meet; "
                "keep it",
            )
            return


def absence(change: Change, there: Collection[int]) -> str | None:
    """Return what is wrong with a change where these teeth stand; None where nothing is."""
    code = change.tooth
    if change.kind == "add" and code in there:
        return (
            f'tooth {code} stands already, so none can be added; kind = "crown" gives it a crown, '
            '"remove" takes it out first'
        )
    if change.kind != "add" and code not in there:
        known = ", ".join(str(c) for c in sorted(there) if is_upper(c) == is_upper(code))
        return f"there is no tooth {code} to change; its arch has {known}"
    return None


def there_after(change: Change, there: Collection[int]) -> set[int]:
    """Return the teeth that stand after a change."""
    if change.kind == "remove":
        return set(there) - {change.tooth}
    return set(there) | {change.tooth}
