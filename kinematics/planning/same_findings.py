"""What findings are about, and which of two runs are about the same thing."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from kinematics.planning.findings import Finding

#: Upper and lower tooth; None where no tooth is named.
ToothPair = tuple[int | None, int | None]


@dataclass(frozen=True)
class About:
    """What a finding is about.

    Attributes
    ----------
    kind, excursion : str, str or None
        As of the finding.
    pairs : frozenset of ToothPair
        All its tooth pairs.
    """

    kind: str
    excursion: str | None
    pairs: frozenset[ToothPair]


def about(finding: Finding) -> About:
    """Return what a finding is about."""
    pairs = {(finding.tooth_upper, finding.tooth_lower), *finding.together}
    return About(finding.kind, finding.excursion, frozenset(pairs))


def partners(before: Sequence[About], after: Sequence[About]) -> dict[int, int]:
    """Return which finding of one run is about the same thing as which of another.

    Kind and excursion are the same. What is about the very same teeth is matched first, in the
    order of the runs; then what has teeth in common, the most first.

    Returns
    -------
    dict of int to int
        Places in `before` with those in `after`, each at most once.
    """
    there: dict[tuple[str, str | None], list[int]] = {}
    for j, other in enumerate(after):
        there.setdefault((other.kind, other.excursion), []).append(j)
    partner: dict[int, int] = {}
    taken: set[int] = set()
    ways: tuple[Callable[[About, About], int], ...] = (_same_teeth, _shared_teeth)
    for same in ways:
        candidates = [
            (-same(one, after[j]), i, j)
            for i, one in enumerate(before)
            if i not in partner
            for j in there.get((one.kind, one.excursion), ())
            if j not in taken and same(one, after[j]) > 0
        ]
        for _, i, j in sorted(candidates):
            if i not in partner and j not in taken:
                partner[i] = j
                taken.add(j)
    return partner


def _same_teeth(one: About, other: About) -> int:
    return int(one.pairs == other.pairs)


def _shared_teeth(one: About, other: About) -> int:
    return len(one.pairs & other.pairs)
