"""What some teeth do at one place: on the working or nonworking side of an excursion, or ahead."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import LEFT, RIGHT, Bools
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.base_rules import Place
from kinematics.planning.contact_runs import judged, least_gap_over, pairs_within, upto_last_reading
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair, working_side
from kinematics.planning.heights import heights_mm
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import arch_place, is_posterior, is_right

SideName = Literal["right", "left", ""]


@dataclass(frozen=True)
class UnitContacts:
    """What the teeth of a unit do in all movements from MI in which they have one place.

    Attributes
    ----------
    place : str
        "working side", "nonworking side" or "protrusion".
    side : str
        Side on which the teeth stand; empty in protrusion, where all of them count.
    teeth : tuple of int
        Which of them stand there, from the patient's right to left.
    touching, within : tuple of (int, int)
        Pairs, upper and lower tooth, that touch somewhere in the judged travel; and that come
        within the balanced tolerance there, up to the last reading.
    touching_percent : float
        Share of the judged poses in which one of them touches, in the excursion where it is
        greatest.
    touching_in : str
        Name of that excursion.
    back_touching_percent : float
        The same of its back teeth.
    balanced_percent : float
        Share of the judged poses, up to the last reading, in which one of them is within the
        balanced tolerance, in protrusion one of each of `balance_parts`; in the excursion where it
        is least.
    balanced_in : str
        Name of that excursion.
    least_gap_mm : float
        Shortest distance of one of them from an opponent; inf beyond what was measured.
    least_gap_at_mm : float
        Travel at which it was read.
    least_gap_in : str
        Name of that excursion.
    nearest : (int, int)
        Upper and lower tooth of that distance, (0, 0) where there is none.
    held_mm : float
        The most that they hold all other teeth open while one of them touches; inf where nothing
        else would meet.
    """

    place: Place
    side: SideName
    teeth: tuple[int, ...]
    touching: tuple[Pair, ...]
    within: tuple[Pair, ...]
    touching_percent: float
    touching_in: str
    back_touching_percent: float
    balanced_percent: float
    balanced_in: str
    least_gap_mm: float
    least_gap_at_mm: float
    least_gap_in: str
    nearest: Pair
    held_mm: float


@dataclass(frozen=True)
class _Seen:
    """One excursion with the pairs of a unit that have the place, and what they do in it."""

    sweep: Sweep
    pairs: list[Pair]
    mask: Bools
    touching: Bools
    back_touching: Bools
    balanced: Bools
    held_mm: float


def unit_contacts(
    occlusion: Occlusion, sweeps: Sequence[Sweep], teeth: tuple[int, ...]
) -> tuple[UnitContacts, ...]:
    """Return what some teeth do on each side they stand on, then in protrusion.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweeps : sequence of Sweep
        The excursions; those from CR and retrusions are passed over.
    teeth : tuple of int
        ISO 3950 numbers of one arch.
    """
    used = [s for s in sweeps if s.excursion.start == "MI" and s.excursion.name != RETRUSION]
    found: list[UnitContacts | None] = []
    for side in (RIGHT, LEFT):
        own = tuple(code for code in teeth if is_right(code) == (side == RIGHT))
        working = [s for s in used if working_side(s.excursion) == side]
        other = [s for s in used if working_side(s.excursion) == -side]
        found.append(_at(occlusion, working, own, "working side", side))
        found.append(_at(occlusion, other, own, "nonworking side", side))
    ahead = [sweep for sweep in used if working_side(sweep.excursion) == 0]
    found.append(_at(occlusion, ahead, teeth, "protrusion", 0))
    return tuple(item for item in found if item is not None)


def _at(
    occlusion: Occlusion, sweeps: list[Sweep], teeth: tuple[int, ...], place: Place, side: int
) -> UnitContacts | None:
    """Return what teeth do at one place; None where there are none, or nothing is judged."""
    seen = [_seen(occlusion, sweep, teeth) for sweep in sweeps]
    seen = [item for item in seen if item.pairs and item.mask.any()]
    if not seen:
        return None
    settings, tolerance_mm = occlusion.settings, occlusion.settings.tolerance_mm
    # Each excursion by itself: what guides a lateral one need not touch in a lateroprotrusion.
    touching, most = max(
        ((_percent(item.touching, item.mask), item) for item in seen), key=lambda found: found[0]
    )
    balanced, least = min(
        ((_percent(item.balanced, _read(occlusion, item)), item) for item in seen),
        key=lambda found: found[0],
    )
    gap, at, where, nearest = min((_nearest(item) for item in seen), key=lambda found: found[0])
    return UnitContacts(
        place=place,
        side="" if side == 0 else "right" if side == RIGHT else "left",
        teeth=tuple(sorted(teeth, key=arch_place)),
        touching=_named(pair for item in seen for pair in _near(item, item.mask, tolerance_mm)),
        within=_named(
            pair
            for item in seen
            for pair in _near(item, _read(occlusion, item), settings.balanced_tolerance_mm)
        ),
        touching_percent=touching,
        touching_in=most.sweep.excursion.name,
        back_touching_percent=max(_percent(item.back_touching, item.mask) for item in seen),
        balanced_percent=balanced,
        balanced_in=least.sweep.excursion.name,
        least_gap_mm=gap,
        least_gap_at_mm=at,
        least_gap_in=where,
        nearest=nearest,
        held_mm=max(item.held_mm for item in seen),
    )


def _seen(occlusion: Occlusion, sweep: Sweep, teeth: tuple[int, ...]) -> _Seen:
    settings = occlusion.settings
    mask = judged(sweep, settings)
    pairs = [
        (upper, lower)
        for upper in sweep.upper_codes
        for lower in sweep.lower_codes
        if upper in teeth or lower in teeth
    ]
    back = [pair for pair in pairs if is_posterior_pair(pair)]
    gap = least_gap_over(sweep, pairs)
    touching = mask & (gap <= settings.tolerance_mm)
    held = 0.0
    if touching.any():
        held = float(heights_mm(occlusion, sweep, frozenset(teeth))[touching].max())
    return _Seen(
        sweep=sweep,
        pairs=pairs,
        mask=mask,
        touching=touching,
        back_touching=mask & (least_gap_over(sweep, back) <= settings.tolerance_mm),
        balanced=_balanced(sweep, pairs, teeth, settings.balanced_tolerance_mm),
        held_mm=held,
    )


def balance_parts(teeth: Sequence[int]) -> dict[str, tuple[int, ...]]:
    """Return the parts of some teeth that must each touch where protrusion is balanced, by name.

    Right and left back teeth, and front teeth: those that there are.
    """
    back = [code for code in teeth if is_posterior(code)]
    parts = {
        "right back": tuple(code for code in back if is_right(code)),
        "front": tuple(code for code in teeth if code not in back),
        "left back": tuple(code for code in back if not is_right(code)),
    }
    return {name: part for name, part in parts.items() if part}


def _balanced(sweep: Sweep, pairs: list[Pair], teeth: tuple[int, ...], limit_mm: float) -> Bools:
    """Return the poses, shape (n,), in which teeth keep near; ahead each part of them does."""
    ahead = working_side(sweep.excursion) == 0
    parts = list(balance_parts(teeth).values()) if ahead else [teeth]
    near = [
        least_gap_over(sweep, [pair for pair in pairs if pair[0] in part or pair[1] in part])
        <= limit_mm
        for part in parts
    ]
    return np.asarray(np.all(near, axis=0), dtype=np.bool_)


def _read(occlusion: Occlusion, seen: _Seen) -> Bools:
    return seen.mask & upto_last_reading(seen.sweep, occlusion.settings)


def _near(seen: _Seen, mask: Bools, limit_mm: float) -> Iterator[Pair]:
    """Yield the pairs of a unit that come within a distance in some poses."""
    near = pairs_within(seen.sweep, mask, limit_mm)
    return (pair for pair in near if pair in seen.pairs)


def _named(pairs: Iterable[Pair]) -> tuple[Pair, ...]:
    """Return pairs, each once, from the patient's right to left."""
    return tuple(sorted(set(pairs), key=lambda pair: (arch_place(pair[0]), arch_place(pair[1]))))


def _percent(so: Bools, mask: Bools) -> float:
    """Return the share, percent, of the poses of a mask, shape (n,), in which something is so."""
    asked = int(mask.sum())
    return 100.0 * int((so & mask).sum()) / asked if asked else 0.0


def _nearest(seen: _Seen) -> tuple[float, float, str, Pair]:
    """Return the shortest distance in the judged travel, where it is, and of which pair."""
    sweep, poses = seen.sweep, np.flatnonzero(seen.mask)
    gaps = least_gap_over(sweep, seen.pairs)[poses]
    pose = int(poses[int(np.argmin(gaps))])
    least, at = float(gaps.min()), float(sweep.travel_mm[pose])
    if not math.isfinite(least):
        return math.inf, at, sweep.excursion.name, (0, 0)
    rows = [sweep.upper_codes.index(upper) for upper, _ in seen.pairs]
    columns = [sweep.lower_codes.index(lower) for _, lower in seen.pairs]
    pair = seen.pairs[int(np.argmin(sweep.pair_gap_mm[pose, rows, columns]))]
    return least, at, sweep.excursion.name, pair
