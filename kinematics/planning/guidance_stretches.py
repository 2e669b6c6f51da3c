"""How the kind of guidance changes along an excursion: stretches over which it stays the same."""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.planning.contact_runs import pairs_within
from kinematics.planning.guidance_kinds import Pair, kind_of, role, working_side


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


def touching_pairs(sweep: Sweep, pose: int, tolerance_mm: float) -> tuple[Pair, ...]:
    """Return the tooth pairs within a shortest distance in one pose, in the order of the arch."""
    return pairs_within(sweep, _poses_of(sweep, [pose]), tolerance_mm)


def kind_at(sweep: Sweep, pose: int, tolerance_mm: float) -> str:
    """Return the guidance kind in one pose at one tolerance."""
    touching = touching_pairs(sweep, pose, tolerance_mm)
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
    poses, side = [int(pose) for pose in np.flatnonzero(mask)], working_side(sweep.excursion)
    kinds = [kind_at(sweep, pose, tolerance_mm) for pose in poses]
    cuts = [i for i in range(len(poses)) if i == 0 or kinds[i] != kinds[i - 1]] + [len(poses)]
    found = []
    for first, end in pairwise(cuts):
        within = poses[first:end]
        touching = pairs_within(sweep, _poses_of(sweep, within), tolerance_mm)
        guiding = tuple(pair for pair in touching if role(pair, side) != "nonworking")
        found.append(
            Stretch(
                float(sweep.travel_mm[within[0]]),
                float(sweep.travel_mm[within[-1]]),
                kinds[first],
                touching,
                guiding or touching,
            )
        )
    return tuple(found)


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
    return max(travel, key=lambda kind: travel[kind])


def _poses_of(sweep: Sweep, poses: list[int]) -> Bools:
    mask = np.zeros(len(sweep.travel_mm), dtype=np.bool_)
    mask[poses] = True
    return mask
