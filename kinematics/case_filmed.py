"""A case in motion, in even steps of travel, for films and animated files."""

from dataclasses import dataclass

import numpy as np

from kinematics.case import Case
from kinematics.contact.contacts import Patches, pair_gaps, patches
from kinematics.contact.gap_maps import DistanceMap, distance_map
from kinematics.contact.mounted import GUIDED_BY_TEETH, MountedCasts, incisal_points
from kinematics.contact.places import horizontal_mm
from kinematics.contact.pose_rows import picked
from kinematics.contact.travel import places_at_travels
from kinematics.contact.workers import Workers
from kinematics.conventions import LEFT, RIGHT, Bools, Floats, Ints
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import JawPositions, opened
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair, side_of


@dataclass(frozen=True)
class Filmed:
    """One excursion in n poses, the first at its start, at even travels of the incisal point.

    Attributes
    ----------
    excursion : Excursion
        Name and start.
    travel_mm : ndarray, shape (n,)
        Horizontal travel of the lower incisal point; of border movements its way.
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
    incisal_point : ndarray, shape (n, 3)
        Lower incisal point, hinge frame, mm.
    phases : tuple of str
        Of border movements on which line each pose lies; else empty.
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
    incisal_point: Floats
    phases: tuple[str, ...] = ()


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
    closure = places.closure
    return filmed_at(
        case,
        casts,
        excursion,
        travel[wanted],
        (picked(places.positions, wanted), closure.opening_rad[wanted]),
        (closure.guide[wanted], closure.teeth.point[wanted]),
        (),
        workers,
    )


def filmed_at(
    case: Case,
    casts: MountedCasts,
    excursion: Excursion,
    travel_mm: Floats,
    standing: tuple[JawPositions, Floats],
    guided: tuple[Ints, Floats],
    phases: tuple[str, ...],
    workers: Workers,
) -> Filmed:
    """Measure what is shown of the casts in some poses.

    Parameters
    ----------
    case, casts, excursion, workers
        See `filmed`.
    travel_mm : ndarray, shape (n,)
        How far the lower incisal point has come.
    standing : JawPositions and ndarray, shape (n,)
        Where the condyles are, and opening in radians.
    guided : ndarray, shape (n,), and ndarray, shape (n, 3)
        What guides, and where teeth meet first.
    phases : tuple of str
        See `Filmed`.
    """
    poses = opened(*standing)
    guide, first = guided
    limit_mm = case.sweep.gap_limit_mm
    uppers, lowers = casts.upper.codes, casts.lower.codes
    gaps = pair_gaps(casts.pair, poses, limit_mm, uppers, lowers, workers)
    pairs = [(upper, lower) for upper in uppers for lower in lowers]
    flat = gaps.reshape(len(poses), -1)
    touches = flat <= case.judging.tolerance_mm
    return Filmed(
        excursion,
        travel_mm,
        poses,
        guide,
        distance_map(casts.pair, poses, limit_mm, workers),
        limit_mm,
        tuple(tuple(pairs[i] for i in np.flatnonzero(row)) for row in touches),
        np.stack([_least(flat, _back_of(pairs, side)) for side in (RIGHT, LEFT)], axis=1),
        patches(casts.pair, poses, case.judging.tolerance_mm, workers),
        np.where((guide == GUIDED_BY_TEETH)[:, None], first, np.nan),
        incisal_points(casts, *standing),
        phases,
    )


def _back_of(pairs: list[Pair], side: int) -> Bools:
    """Return which pairs are back teeth of one side."""
    return np.array([is_posterior_pair(pair) and side_of(pair) == side for pair in pairs])


def _least(gaps: Floats, chosen: Bools) -> Floats:
    return np.asarray(gaps[:, chosen].min(axis=1, initial=np.inf))
