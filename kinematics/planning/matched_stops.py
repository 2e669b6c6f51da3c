"""Which centric stops are the same before and after a change, and which tooth pairs have fewer."""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.stops import Stop

#: Stops of one tooth pair that lie farther apart are two different stops, mm. Chosen for this
#: program: less than two cusps of a tooth are apart.
SAME_STOP_MM: Final = 1.0


@dataclass(frozen=True)
class MatchedStops:
    """Centric stops: those that are gone, new, and kept.

    Attributes
    ----------
    gone, new : tuple of Stop
        Of the run before, and of the run after.
    kept : tuple of (Stop, Stop)
        Of the same tooth pair, not farther apart than `SAME_STOP_MM`.
    """

    gone: tuple[Stop, ...]
    new: tuple[Stop, ...]
    kept: tuple[tuple[Stop, Stop], ...]


@dataclass(frozen=True)
class FewerStops:
    """A tooth pair that keeps some of its centric stops.

    Attributes
    ----------
    tooth_upper, tooth_lower : int
        ISO 3950 numbers.
    kept, before : int
        How many it keeps, and of how many.
    """

    tooth_upper: int
    tooth_lower: int
    kept: int
    before: int

    @property
    def words(self) -> str:
        """How many it keeps, as "17/47 keeps 2 of 4"."""
        return f"{self.tooth_upper}/{self.tooth_lower} keeps {self.kept} of {self.before}"


def stopped_pairs(stops: Sequence[Stop]) -> tuple[tuple[int, int], ...]:
    """Return the tooth pairs that have a stop, upper and lower, each once, in order."""
    return tuple(dict.fromkeys(map(_pair, stops)))


def matched_stops(before: Sequence[Stop], after: Sequence[Stop]) -> MatchedStops:
    """Match the stops of each tooth pair, the nearest first.

    Parameters
    ----------
    before, after : sequence of Stop
        Of two runs.
    """
    near = sorted(
        (math.dist(one.point, other.point), i, j)
        for i, one in enumerate(before)
        for j, other in enumerate(after)
        if _pair(one) == _pair(other)
    )
    kept: dict[int, int] = {}
    for apart_mm, i, j in near:
        if apart_mm <= SAME_STOP_MM and i not in kept and j not in kept.values():
            kept[i] = j
    return MatchedStops(
        tuple(stop for i, stop in enumerate(before) if i not in kept),
        tuple(stop for j, stop in enumerate(after) if j not in kept.values()),
        tuple((before[i], after[j]) for i, j in sorted(kept.items())),
    )


def fewer_stops(before: Sequence[Stop], after: Sequence[Stop]) -> Iterator[FewerStops]:
    """Yield the tooth pairs that have a stop still, but lose one; see `matched_stops`."""
    matched = matched_stops(before, after)
    was, gone = Counter(map(_pair, before)), Counter(map(_pair, matched.gone))
    left = set(map(_pair, after))
    for pair, count in was.items():
        if pair in left and gone[pair]:
            yield FewerStops(*pair, count - gone[pair], count)


def _pair(stop: Stop) -> tuple[int, int]:
    return stop.tooth_upper, stop.tooth_lower
