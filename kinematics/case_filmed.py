"""A case in motion, in even steps of travel, for films and animated files."""

from dataclasses import dataclass

import numpy as np

from kinematics.case import Case
from kinematics.contact.contacts import Patches, pair_gaps, patches
from kinematics.contact.gap_maps import DistanceMap, distance_map
from kinematics.contact.mounted import GUIDED_BY_TEETH, MountedCasts
from kinematics.contact.places import horizontal_mm
from kinematics.contact.travel import places_at_travels
from kinematics.contact.workers import Workers
from kinematics.conventions import LEFT, RIGHT, Bools, Floats, Ints
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import opened
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair, side_of


@dataclass(frozen=True)
class Filmed:
    """One excursion in n poses, the first at its start, at even travels of the incisal point.

    Attributes
    ----------
    excursion : Excursion
        Name and start.
    travel_mm : ndarray, shape (n,)
        Horizontal travel of the lower incisal point.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower at closure.
    guide : ndarray, shape (n,)
        GUIDED_BY_TEETH or GUIDED_BY_TABLE.
    near : DistanceMap
        How far every vertex is from the other arch, a row a pose.
    limit_mm : float
        Distance up to which that was measured.
    touching : tuple of tuple of (int, int)
        In every pose the tooth pairs within the tolerance of the case.
    back_gap_mm : ndarray, shape (n, 2)
        Least shortest distance of back teeth, right and left; inf beyond the limit.
    contacts : Patches
        Contact patches within the tolerance of the case.
    guiding : ndarray, shape (n, 3)
        Where the teeth meet first, hinge frame, mm; nan where they do not guide.
    """

    excursion: Excursion
    travel_mm: Floats
    poses: Floats
    guide: Ints
    near: DistanceMap
    limit_mm: float
    touching: tuple[tuple[Pair, ...], ...]
    back_gap_mm: Floats
    contacts: Patches
    guiding: Floats


def filmed(
    case: Case,
    casts: MountedCasts,
    excursion: Excursion,
    travels_mm: Floats,
    workers: Workers,
) -> Filmed:
    """Move the casts of a case along an excursion.

    Parameters
    ----------
    case : Case
        Its tolerance says what touches, its gap limit how far gaps are told.
    casts : MountedCasts
        Its teeth, mounted.
    excursion : Excursion
        Where to go, and from where.
    travels_mm : ndarray, shape (k,)
        Travels, ascending from 0; the last place reached comes last where the path ends before.
    workers : Workers
        Threads.

    Raises
    ------
    InputError
        Nothing guides at the start.
    """
    (places,) = places_at_travels(casts, (excursion,), travels_mm, workers)
    travel = horizontal_mm(places.incisal_point - places.incisal_point[0])
    # Where use of a side shift begins or ends there are places between, which no frame needs.
    wanted = np.isin(np.round(travel, 6), np.round(travels_mm, 6))
    wanted[-1] = True
    poses = opened(places.positions, places.closure.opening_rad)[wanted]
    guide, first = places.closure.guide[wanted], places.closure.teeth.point[wanted]
    limit_mm = case.sweep.gap_limit_mm
    uppers, lowers = casts.upper.codes, casts.lower.codes
    gaps = pair_gaps(casts.pair, poses, limit_mm, uppers, lowers, workers)
    pairs = [(upper, lower) for upper in uppers for lower in lowers]
    flat = gaps.reshape(len(poses), -1)
    touches = flat <= case.judging.tolerance_mm
    return Filmed(
        excursion,
        travel[wanted],
        poses,
        guide,
        distance_map(casts.pair, poses, limit_mm, workers),
        limit_mm,
        tuple(tuple(pairs[i] for i in np.flatnonzero(row)) for row in touches),
        np.stack([_least(flat, _back_of(pairs, side)) for side in (RIGHT, LEFT)], axis=1),
        patches(casts.pair, poses, case.judging.tolerance_mm, workers),
        np.where((guide == GUIDED_BY_TEETH)[:, None], first, np.nan),
    )


def _back_of(pairs: list[Pair], side: int) -> Bools:
    """Return which pairs are back teeth of one side."""
    return np.array([is_posterior_pair(pair) and side_of(pair) == side for pair in pairs])


def _least(gaps: Floats, chosen: Bools) -> Floats:
    return np.asarray(gaps[:, chosen].min(axis=1, initial=np.inf))
