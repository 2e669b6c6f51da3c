"""Whether a contact of a balanced base is balanced by back teeth of the other side."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import LEFT, RIGHT, Bools, Floats
from kinematics.planning.contact_runs import is_broken
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair, side_of, working_side


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


def balance_gap_mm(sweep: Sweep, pair: Pair) -> Floats:
    """Return how near the teeth come that would balance a contact, shape (n,), mm.

    These are back teeth of the other side, wherever the contact stands; for front teeth in a
    straight movement those of both sides, and the farther side counts. Balanced articulation:
    terms of the Glossary of Prosthodontic Terms, J Prosthet Dent 2017;117(5S). inf where they are
    farther than the sweep measures, or are not there.
    """
    both = working_side(sweep.excursion) == 0 and not is_posterior_pair(pair)
    sides = (RIGHT, LEFT) if both else (-side_of(pair),)
    return np.asarray(np.max([_back_gap_mm(sweep, side) for side in sides], axis=0))


def _back_gap_mm(sweep: Sweep, side: int) -> Floats:
    """Return the shortest distance of the back teeth of one side, inf beyond what is measured."""
    back = [
        is_posterior_pair((code, 0)) and side_of((code, 0)) == side for code in sweep.upper_codes
    ]
    nearest = sweep.pair_gap_mm[:, back].min(axis=(1, 2), initial=np.inf)
    return np.where(nearest < sweep.gap_limit_mm, nearest, np.inf)


def unbalanced(sweep: Sweep, pair: Pair, lone: Bools) -> Unbalanced | None:
    """Return where, in a mask (n,), a contact is not balanced; None where it is throughout."""
    if not lone.any():
        return None
    poses, gap = np.flatnonzero(lone), balance_gap_mm(sweep, pair)
    worst = int(poses[np.argmax(gap[poses])])
    travel = sweep.travel_mm
    return Unbalanced(
        from_mm=float(travel[poses[0]]),
        to_mm=float(travel[poses[-1]]),
        broken=is_broken(lone),
        gap_mm=float(gap[worst]),
        at_mm=float(travel[worst]),
    )
