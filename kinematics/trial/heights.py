"""Which teeth still stand as high as a case says, once a trial set-up has changed them."""

from collections.abc import Mapping, Sequence
from typing import Final

from kinematics.trial.settings import Change

#: What is left of an over-eruption is told from here on. Chosen for this program.
LEAST_LEFT_MM: Final = 0.05
#: Changes that take height from a tooth or give it some, `by_mm`.
_LOWERED_BY: Final = {"lower": 1.0, "flatten": 1.0, "wear": 1.0, "raise": -1.0}
#: Changes after which nothing of the tooth as it stood is left.
_ANOTHER: Final = ("remove", "add", "crown")


def still_over_erupted(given_mm: Mapping[int, float], changes: Sequence[Change]) -> frozenset[int]:
    """Return the teeth that stand too high still, by at least `LEAST_LEFT_MM`.

    Parameters
    ----------
    given_mm : mapping of int to float
        By how much teeth have over-erupted before any change.
    changes : sequence of Change
        What a trial set-up does, in this order.
    """
    left_mm = dict(given_mm)
    for change in changes:
        if change.tooth not in left_mm:
            continue
        if change.kind in _ANOTHER:
            del left_mm[change.tooth]
        elif change.kind in _LOWERED_BY:
            left_mm[change.tooth] -= _LOWERED_BY[change.kind] * (change.by_mm or 0.0)
    changed = {change.tooth for change in changes}
    return frozenset(
        code for code, mm in left_mm.items() if code not in changed or mm >= LEAST_LEFT_MM
    )
