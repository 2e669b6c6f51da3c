"""Whether a contact of a balanced base is balanced by back teeth of the other side."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import LEFT, RIGHT, Bools, Floats
from kinematics.planning.contact_runs import is_broken
from kinematics.planning.farther_gaps import least_gaps_over
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair, side_of, working_side
from kinematics.planning.occlusion import Occlusion


@dataclass(frozen=True)
class Unbalanced:
    """Where a contact of a balanced base stands without back teeth that balance it.

    Attributes
    ----------
    from_mm, to_mm : float
        First and last judged travel.
    broken : bool
        True where it is balanced somewhere between the two.
    gap_mm : float
        Distance of the nearest teeth that could, where it is greatest; inf beyond the gap limit.
    at_mm : float
        Travel at which that is.
    """

    from_mm: float
    to_mm: float
    broken: bool
    gap_mm: float
    at_mm: float


def balance_gap_mm(occlusion: Occlusion, sweep: Sweep, pair: Pair, asked: Bools) -> Floats:
    """Return how near the teeth come that would balance a contact, shape (n,), mm.

    These are back teeth of the other side, wherever the contact stands; for front teeth in a
    straight movement those of both sides, and the farther side counts. Balanced articulation:
    terms of the Glossary of Prosthodontic Terms, J Prosthet Dent 2017;117(5S). inf where they are
    farther than the sweep measures, are not there, or it is not `asked` there, shape (n,).
    """
    both = working_side(sweep.excursion) == 0 and not is_posterior_pair(pair)
    sides = (RIGHT, LEFT) if both else (-side_of(pair),)
    return np.asarray(
        np.max([_back_gap_mm(occlusion, sweep, side, asked) for side in sides], axis=0)
    )


def _back_gap_mm(occlusion: Occlusion, sweep: Sweep, side: int, asked: Bools) -> Floats:
    """Return the shortest distance of the back teeth of one side, inf beyond what is measured."""
    pairs = [
        (upper, lower)
        for upper in sweep.upper_codes
        if is_posterior_pair((upper, 0)) and side_of((upper, 0)) == side
        for lower in sweep.lower_codes
    ]
    nearest = least_gaps_over(occlusion, sweep, pairs, asked)
    return np.where(nearest < sweep.gap_limit_mm, nearest, np.inf)


def unbalanced(occlusion: Occlusion, sweep: Sweep, pair: Pair, lone: Bools) -> Unbalanced | None:
    """Return where, in a mask (n,), a contact is not balanced; None where it is throughout."""
    if not lone.any():
        return None
    poses, gap = np.flatnonzero(lone), balance_gap_mm(occlusion, sweep, pair, lone)
    worst = int(poses[np.argmax(gap[poses])])
    travel = sweep.travel_mm
    return Unbalanced(
        from_mm=float(travel[poses[0]]),
        to_mm=float(travel[poses[-1]]),
        broken=is_broken(lone),
        gap_mm=float(gap[worst]),
        at_mm=float(travel[worst]),
    )
