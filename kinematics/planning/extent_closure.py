"""MI when some replacement teeth are left out: how far the jaw closes, and on which stops."""

import math
from dataclasses import dataclass
from typing import Final

from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.mounted import GUIDED_BY_NOTHING, guided_closure
from kinematics.guidance.mandible import opened, place_at
from kinematics.planning.occlusion import Occlusion, without
from kinematics.planning.stops import Stop, centric_stops
from kinematics.tooth_codes import is_posterior, is_right

#: Distances are not measured beyond this, mm.
GAP_LIMIT_MM: Final = 3.0


@dataclass(frozen=True)
class ClosedInMi:
    """The jaw closed in MI without some teeth.

    Attributes
    ----------
    opening_rad : float
        Opening at the first touch of teeth or guide table; -inf where nothing meets.
    stops : tuple of Stop
        Centric stops.
    gap_mm : dict of int to float
        Shortest distance of every tooth of either arch that stays from the teeth of the other; inf
        beyond `GAP_LIMIT_MM`.
    """

    opening_rad: float
    stops: tuple[Stop, ...]
    gap_mm: dict[int, float]

    @property
    def with_stop(self) -> frozenset[int]:
        """Teeth of either arch with a centric stop."""
        pairs = ((stop.tooth_upper, stop.tooth_lower) for stop in self.stops)
        return frozenset(code for pair in pairs for code in pair)

    @property
    def sides(self) -> frozenset[str]:
        """Sides, "right" and "left", on which back teeth have a stop."""
        back = (stop.tooth_upper for stop in self.stops if is_posterior(stop.tooth_upper))
        return frozenset("right" if is_right(code) else "left" for code in back)

    def stops_of(self, tooth: int, others: frozenset[int] | None = None) -> int:
        """Count the stops of a tooth; those with some others alone, if given."""
        pairs = [{stop.tooth_upper, stop.tooth_lower} for stop in self.stops]
        return sum(tooth in pair and (others is None or bool(pair & others)) for pair in pairs)


def closed_in_mi(occlusion: Occlusion, dropped: frozenset[int] = frozenset()) -> ClosedInMi:
    """Close the jaw from open, the condyles as in MI, without some teeth.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    dropped : frozenset of int
        Teeth of either arch that take no part.
    """
    casts, settings = occlusion.casts, occlusion.settings
    at = place_at(casts.guidance, casts.mi)
    closed = guided_closure(casts, at, occlusion.workers, without(dropped))
    opening = float(closed.opening_rad[0])
    uppers = tuple(code for code in casts.upper.codes if code not in dropped)
    lowers = tuple(code for code in casts.lower.codes if code not in dropped)
    codes = (*uppers, *lowers)
    if closed.guide[0] == GUIDED_BY_NOTHING:
        return ClosedInMi(-math.inf, (), dict.fromkeys(codes, math.inf))
    # Teeth left out stand in the others here; only what those that stay do is read.
    poses = opened(at, closed.opening_rad)
    near = patches(casts.pair, poses, settings.tolerance_mm, occlusion.workers)
    stops = tuple(
        stop
        for stop in centric_stops(near, settings)
        if dropped.isdisjoint((stop.tooth_upper, stop.tooth_lower))
    )
    gaps = pair_gaps(casts.pair, poses, GAP_LIMIT_MM, uppers, lowers, occlusion.workers, near)[0]
    nearest = [*gaps.min(axis=1, initial=math.inf), *gaps.min(axis=0, initial=math.inf)]
    return ClosedInMi(opening, stops, dict(zip(codes, map(float, nearest), strict=True)))


def closes_further_mm(occlusion: Occlusion, before: ClosedInMi, after: ClosedInMi) -> float:
    """Return how far the lower incisal point goes on closing, along its arc; inf without end."""
    point = occlusion.casts.incisal_point
    radius_mm = math.hypot(float(point[0]), float(point[2]))
    return (before.opening_rad - after.opening_rad) * radius_mm
