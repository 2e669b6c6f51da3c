"""How the kind of guidance changes along an excursion: stretches over which it stays the same."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.planning.contact_runs import pairs_in
from kinematics.planning.guidance_kinds import Pair, kind_of, role, working_side

Pairs = tuple[Pair, ...]

#: Travels that differ by less than this are equal, mm: poses stand at theirs less exactly still.
EQUAL_MM: Final = 0.02


@dataclass(frozen=True)
class Stretch:
    """Part of the judged travel over which the guidance kind stays the same.

    Attributes
    ----------
    from_mm, to_mm : float
        Travel of its first and last pose.
    kind : str
        Guidance kind.
    touching : tuple of (int, int)
        Pairs that touch somewhere in it.
    guiding : tuple of (int, int)
        Those of them that make the kind: nonworking contacts are left out unless they are alone.
    """

    from_mm: float
    to_mm: float
    kind: str
    touching: tuple[Pair, ...]
    guiding: tuple[Pair, ...]


def touching_at(sweep: Sweep, poses: Sequence[int], tolerance_mm: float) -> list[Pairs]:
    """Return the tooth pairs within a shortest distance in each of some poses, in arch order."""
    return pairs_in(sweep, sweep.pair_gap_mm[list(poses)] <= tolerance_mm)


def kind_at(sweep: Sweep, pose: int, tolerance_mm: float) -> str:
    """Return the guidance kind in one pose at one tolerance."""
    (touching,) = touching_at(sweep, [pose], tolerance_mm)
    return kind_of(touching, sweep.excursion, int(sweep.guide[pose]))


def stretches(sweep: Sweep, mask: Bools, tolerance_mm: float) -> tuple[Stretch, ...]:
    """Return the stretches of one kind among some poses, in order.

    Parameters
    ----------
    sweep : Sweep
        One excursion.
    mask : ndarray, shape (n,)
        The poses to look at.
    tolerance_mm : float
        Shortest distance up to which a pair counts as touching.
    """
    poses, side = np.flatnonzero(mask).tolist(), working_side(sweep.excursion)
    near = sweep.pair_gap_mm[poses] <= tolerance_mm
    kinds = _kinds(sweep, poses, pairs_in(sweep, near))
    cuts = [i for i in range(len(poses)) if i == 0 or kinds[i] != kinds[i - 1]] + [len(poses)]
    touching = pairs_in(sweep, np.logical_or.reduceat(near, cuts[:-1], axis=0))
    found = []
    for (first, end), pairs in zip(pairwise(cuts), touching, strict=True):
        guiding = tuple(pair for pair in pairs if role(pair, side) != "nonworking")
        found.append(
            Stretch(
                float(sweep.travel_mm[poses[first]]),
                float(sweep.travel_mm[poses[end - 1]]),
                kinds[first],
                pairs,
                guiding or pairs,
            )
        )
    return tuple(found)


def _kinds(sweep: Sweep, poses: list[int], touching: list[Pairs]) -> list[str]:
    """Return the guidance kind in each of some poses; of most it is that of the one before."""
    seen = list(zip(touching, sweep.guide[poses].tolist(), strict=True))
    kinds = {(pairs, guide): kind_of(pairs, sweep.excursion, guide) for pairs, guide in set(seen)}
    return [kinds[item] for item in seen]


def travel_of_kinds(found: tuple[Stretch, ...]) -> dict[str, float]:
    """Return the travel of each kind, mm; between two stretches each takes half of the step."""
    ends = [found[0].from_mm]
    ends += [0.5 * (one.to_mm + two.from_mm) for one, two in pairwise(found)]
    ends.append(found[-1].to_mm)
    lengths: dict[str, list[float]] = {}
    for stretch, start, end in zip(found, ends[:-1], ends[1:], strict=True):
        lengths.setdefault(stretch.kind, []).append(end - start)
    return {kind: math.fsum(parts) for kind, parts in lengths.items()}


def longest_kind(found: tuple[Stretch, ...]) -> str:
    """Return the kind that holds over most of the travel, the first of equals."""
    travel = travel_of_kinds(found)
    most_mm = max(travel.values())
    return next(kind for kind, mm in travel.items() if mm > most_mm - EQUAL_MM)


def holds_most(found: tuple[Stretch, ...], kind: str) -> bool:
    """Tell whether a kind holds over more than half of the travel."""
    travel = travel_of_kinds(found)
    return 2.0 * travel[kind] > math.fsum(travel.values()) + EQUAL_MM
