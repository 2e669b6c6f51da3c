"""What an adjustment brings about: stops kept and lost, aim reached or not, new contacts."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.planning.adjusting.settings import KEEPS_STOP, ONLY_GUIDE, Adjustment
from kinematics.planning.adjusting.wanted_paths import excursions_wanted, guiding_pairs
from kinematics.planning.contact_runs import judged, pair_gaps_of, pairs_within, upto_edge
from kinematics.planning.contact_runs import moved as left_start
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.heights import heights_mm
from kinematics.planning.matched_stops import FewerStops, fewer_stops, stopped_pairs
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.stops import Stop


@dataclass(frozen=True)
class ContactRange:
    """A tooth pair that touches in some part of an excursion.

    Attributes
    ----------
    tooth_upper, tooth_lower : int
        ISO 3950 numbers.
    excursion, start : str
        Which, and from where.
    travel_from_mm, travel_to_mm : float
        First and last travel at which it does.
    least_gap_mm : float
        Least shortest distance there.
    """

    tooth_upper: int
    tooth_lower: int
    excursion: str
    start: str
    travel_from_mm: float
    travel_to_mm: float
    least_gap_mm: float


@dataclass(frozen=True)
class Outcome:
    """Before and after.

    Attributes
    ----------
    stops_kept, stops_lost, stops_new : tuple of (int, int)
        Tooth pairs with a centric stop in MI before and after, before alone, after alone.
    still_there : tuple of ContactRange
        Contacts that were to go and did not.
    still_high_mm : float
        Of an aim in MI: how far the teeth named still hold the others open, along the closing arc.
    new_contacts : tuple of ContactRange
        Contacts that were not there before, of any tooth pair and excursion.
    closes_mm : float
        By how much the jaw closes further in MI, at the lower incisal point along the arc.
    is_reached : bool
        Whether the aim is reached and no tooth pair loses its last stop.
    stops_fewer : tuple of FewerStops
        Tooth pairs that keep a stop, but not every one.
    """

    stops_kept: tuple[Pair, ...]
    stops_lost: tuple[Pair, ...]
    stops_new: tuple[Pair, ...]
    still_there: tuple[ContactRange, ...]
    still_high_mm: float
    new_contacts: tuple[ContactRange, ...]
    closes_mm: float
    is_reached: bool
    stops_fewer: tuple[FewerStops, ...] = ()


@dataclass(frozen=True)
class Moved:
    """Casts with what was found when they were moved.

    Attributes
    ----------
    occlusion : Occlusion
        The casts, and by what they are judged.
    sweeps : tuple of Sweep
        Their excursions, the first from MI.
    stops : tuple of Stop
        Their centric stops.
    """

    occlusion: Occlusion
    sweeps: tuple[Sweep, ...]
    stops: tuple[Stop, ...]


def outcome(before: Moved, after: Moved, adjustment: Adjustment) -> Outcome:
    """Compare casts before and after an adjustment."""
    was, now = (stopped_pairs(moved.stops) for moved in (before, after))
    lost = tuple(pair for pair in was if pair not in now)
    still = tuple(_still_there(after, adjustment))
    high = _still_high_mm(after, adjustment) if adjustment.is_in_mi else 0.0
    enough = after.occlusion.settings.stop_tolerance_mm
    casts = before.occlusion.casts
    radius = float(np.hypot(casts.incisal_point[0], casts.incisal_point[2]))
    closed = casts.mi.opening_rad - after.occlusion.casts.mi.opening_rad
    return Outcome(
        stops_kept=tuple(pair for pair in was if pair in now),
        stops_lost=lost,
        stops_new=tuple(pair for pair in now if pair not in was),
        still_there=still,
        still_high_mm=high,
        new_contacts=tuple(_new_contacts(before, after)),
        closes_mm=closed * radius,
        is_reached=not still and not lost and high <= enough,
        stops_fewer=tuple(fewer_stops(before.stops, after.stops)),
    )


def _still_high_mm(after: Moved, adjustment: Adjustment) -> float:
    heights = heights_mm(after.occlusion, after.sweeps[0], frozenset(adjustment.teeth))
    return float(heights[0])


def _still_there(after: Moved, adjustment: Adjustment) -> Iterator[ContactRange]:
    """Yield contacts that an aim for excursions wants gone."""
    guides = guiding_pairs(after.occlusion, adjustment.teeth)
    for sweep in excursions_wanted(after.sweeps, adjustment.excursions):
        mask = judged(sweep, after.occlusion.settings)
        if not mask.any():
            continue
        for pair in pairs_within(sweep, mask, sweep.tolerance_mm):
            unwanted = {
                ONLY_GUIDE: pair not in guides,
                KEEPS_STOP: not set(pair).isdisjoint(adjustment.teeth),
            }.get(adjustment.so_that, False)
            if unwanted:
                yield _range(sweep, pair, mask)


def _new_contacts(before: Moved, after: Moved) -> Iterator[ContactRange]:
    """Yield contacts that were not there: next to the start, and in the judged part beyond."""
    for was, now in zip(before.sweeps, after.sweeps, strict=True):
        for old, new in zip(_parts(before, was), _parts(after, now), strict=True):
            known = _touching(was, old)
            for pair in _touching(now, new):
                if pair not in known:
                    yield _range(now, pair, new)


def _parts(moved: Moved, sweep: Sweep) -> tuple[Bools, Bools]:
    """Return the poses next to the start, and those that are judged, each of shape (n,).

    MI itself is left out: what meets there are the stops.
    """
    settings = moved.occlusion.settings
    beyond, shown = judged(sweep, settings), upto_edge(sweep, settings)
    if sweep.excursion.start == "MI":
        shown = left_start(sweep, settings)
    return shown & ~beyond, beyond


def _touching(sweep: Sweep, mask: Bools) -> tuple[Pair, ...]:
    return pairs_within(sweep, mask, sweep.tolerance_mm) if mask.any() else ()


def _range(sweep: Sweep, pair: Pair, mask: Bools) -> ContactRange:
    gaps = pair_gaps_of(sweep, *pair)
    rows = np.flatnonzero(mask & (gaps <= sweep.tolerance_mm))
    travel = sweep.travel_mm[rows]
    return ContactRange(
        *pair,
        sweep.excursion.name,
        sweep.excursion.start,
        float(travel[0]),
        float(travel[-1]),
        float(gaps[rows].min()),
    )
