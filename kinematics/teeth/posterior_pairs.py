"""Which posterior pairs lack a centric stop in MI, and those teeth brought together.

A supporting cusp may find its stop on a neighbour of its opponent, a first premolar on the canine
for one. The two teeth of such a pair are then moved towards each other, rigidly and by the heights
of their cusps and ridges, until they meet too.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Final

from kinematics.checks import NotConverged
from kinematics.conventions import TOLERANCES, Floats
from kinematics.teeth.meeting import KindPair, Meeting, Teeth, pair_name
from kinematics.teeth.settling import WANTED_REACH_MM, Settled, settle
from kinematics.teeth.settling_programme import LIFT, Freedom

#: Upper and lower tooth of the same number.
POSTERIOR_PAIRS: Final = tuple((f"U{number}", f"L{number}") for number in range(4, 9))
#: How far a tooth may rise towards its opponent, and a cusp or ridge grow or give way, mm; what
#: each costs per mm.
RISE_MM: Final = 0.6
GROWTH_MM: Final = 0.4
RISE_COST: Final = 0.3
GROWTH_COST: Final = 0.3
#: Large steps are allowed in so many rounds.
WIDE_ROUNDS: Final = 6
#: A new attempt forgets what earlier rounds met, and may pass where the last one was held up.
MOST_ATTEMPTS: Final = 3


def open_pairs(
    teeth: Teeth, meetings: Sequence[Meeting], pairs: Iterable[KindPair] = POSTERIOR_PAIRS
) -> dict[KindPair, float]:
    """Return the pairs without a centric stop, and their arc gap, mm (inf: far apart)."""
    first = min((meeting.gap_mm for meeting in meetings), default=0.0)
    gaps = {
        pair: min((m.gap_mm - first for m in meetings if m.kinds == pair), default=float("inf"))
        for pair in pairs
        if set(pair) <= set(teeth)
    }
    return {pair: gap for pair, gap in gaps.items() if gap > 0.5 * TOLERANCES.stop_mm}


def _towards(teeth: Teeth, kind: str) -> list[Freedom]:
    """Return the freedoms of a tooth that is brought towards its opponent."""
    parts = [
        Freedom(kind, part, GROWTH_MM, GROWTH_MM, GROWTH_COST, GROWTH_COST)
        for part in range(len(teeth[kind].heights))
    ]
    return [Freedom(kind, LIFT, RISE_MM, RISE_MM, RISE_COST, RISE_COST), *parts]


def _apart(settled: Settled, movable: frozenset[str]) -> dict[KindPair, float]:
    """Return the open pairs of which one tooth is movable, and their gap, mm."""
    pairs = open_pairs(settled.teeth, settled.meetings)
    return {pair: gap for pair, gap in pairs.items() if movable & set(pair)}


def with_every_pair(
    settled: Settled,
    freedoms_of: Callable[[Teeth], Sequence[Freedom]],
    mi_pose: Floats,
    movable: frozenset[str],
    among: frozenset[str] | None = None,
) -> Settled:
    """Return the teeth with every posterior pair of which one tooth is movable brought to meet.

    Parameters
    ----------
    settled : Settled
        Teeth of the left side in MI.
    freedoms_of : callable
        Gives the freedoms with which they settled, from where they stand.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    movable : frozenset of str
        Crown types that may be moved.
    among : frozenset of str, optional
        Only pairs with one of these crown types are looked at.

    Raises
    ------
    NotConverged
        A pair stays apart; the message names it.
    """
    for _ in range(MOST_ATTEMPTS):
        pairs = _apart(settled, movable)
        if not pairs:
            return settled
        teeth = settled.teeth
        moved = sorted({kind for pair in pairs for kind in pair} & movable)
        others = [freedom for freedom in freedoms_of(teeth) if freedom.kind not in moved]
        helped = [freedom for kind in moved for freedom in _towards(teeth, kind)]
        settled = settle(teeth, [*others, *helped], mi_pose, WIDE_ROUNDS, among, frozenset(pairs))
    pairs = _apart(settled, movable)
    if pairs:
        raise NotConverged(
            "bringing to a centric stop, counted from the midline: "
            f"{', '.join(map(pair_name, pairs))}; gap, mm, at least",
            min(WANTED_REACH_MM, max(pairs.values())),
            MOST_ATTEMPTS,
        )
    return settled
