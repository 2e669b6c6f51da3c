"""Gaps of all tooth pairs along excursions, and what a first answer leaves out of them."""

from dataclasses import dataclass, field

import numpy as np

from kinematics.contact.contacts import Patches, pair_gaps
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.travel import TRAVEL_SLACK_MM
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats, Ints
from kinematics.guidance.excursions import Excursion


@dataclass(frozen=True)
class Brisk:
    """What a sweep may leave out while it is a first answer; what it tells is as exact as ever.

    Attributes
    ----------
    measured_mm : float
        Distance up to which gaps are measured beyond the first pose, where that is less than the
        gap limit; no more than up to which surfaces count as touching: of teeth in contact alone.
        In crossover, which is not judged, only these are told.
    from_mm : float
        In poses nearer than this to their start, readings apart, only gaps of some teeth, and of
        teeth in contact, are told.
    teeth : tuple of int
        Those teeth.
    teeth_mm : float
        Distance up to which their gaps are measured, where that is more than `measured_mm`.
    slack_steps : float
        By how much poses between the readings may miss their travel, as a part of a step.
    reading_slack_mm : float
        By how much poses at readings may miss their travel, mm; at most `HARDLY_MM`.
    crossover : bool
        Whether crossover is told: its contact patches, and poses at other travels than readings.
    start_gaps_mm : ndarray, shape (uppers, lowers), or None
        Gaps up to the gap limit in the first pose of every excursion, where they are known.
    sufficed_mm : dict
        How far it was enough to look along each excursion, and will be; see `FirstLook`.
    """

    measured_mm: float
    from_mm: float = 0.0
    teeth: tuple[int, ...] = ()
    teeth_mm: float = 0.0
    slack_steps: float = 0.05
    reading_slack_mm: float = TRAVEL_SLACK_MM
    crossover: bool = True
    start_gaps_mm: Floats | None = None
    sufficed_mm: dict[Excursion, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Told:
    """Which gaps a brisk answer has.

    Attributes
    ----------
    judged : ndarray, shape (n,)
        Poses in which some are asked for.
    near : ndarray, shape (n,)
        Poses in which only those of some teeth are.
    starts : ndarray, shape (excursions,)
        First poses, in which all are, up to the whole limit.
    """

    judged: Bools
    near: Bools
    starts: Ints


def sweep_gaps(
    casts: MountedCasts,
    poses: Floats,
    within: Patches,
    told: Told,
    tolerance_mm: float,
    limit_mm: float,
    brisk: Brisk | None,
    workers: Workers,
) -> Floats:
    """Return the gaps of all tooth pairs in poses of excursions.

    Parameters
    ----------
    casts : MountedCasts
        The arches.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower.
    within : Patches
        Contact patches of the same poses.
    told : Told
        Which gaps a brisk answer has.
    tolerance_mm : float
        Distance up to which surfaces count as touching.
    limit_mm : float
        Distance up to which gaps are measured.
    brisk : Brisk, optional
        What may be left out.
    workers : Workers
        Threads.

    Returns
    -------
    ndarray, shape (n, uppers, lowers)
        mm, of teeth in the order of the arches; inf beyond the limit, or where not told.
    """
    teeth = casts.upper.codes, casts.lower.codes
    if brisk is None:
        return pair_gaps(casts.pair, poses, limit_mm, *teeth, workers, within)
    starts = told.starts
    beyond_patches = told.judged & ~told.near & (brisk.measured_mm > tolerance_mm)
    limits = np.where(beyond_patches, min(limit_mm, brisk.measured_mm), 0.0)
    first, place = same_starts(poses, starts)
    limits[starts] = 0.0
    if brisk.start_gaps_mm is None:
        limits[starts[first]] = limit_mm
    gaps = pair_gaps(casts.pair, poses, limits, *teeth, workers, within)
    limits = np.where(told.judged, min(limit_mm, max(brisk.measured_mm, brisk.teeth_mm)), 0.0)
    limits[starts] = 0.0
    uppers, lowers = (tuple(code for code in codes if code in brisk.teeth) for codes in teeth)
    for upper, lower in ((uppers, teeth[1]), (teeth[0], lowers)):
        if upper and lower:
            rows, columns = np.isin(teeth[0], upper), np.isin(teeth[1], lower)
            found = pair_gaps(casts.pair, poses, limits, upper, lower, workers, within)
            gaps[np.ix_(np.arange(len(poses)), rows, columns)] = found
    known = brisk.start_gaps_mm
    gaps[starts] = gaps[starts[first]][place] if known is None else known
    return gaps


def same_starts(poses: Floats, starts: Ints) -> tuple[Ints, Ints]:
    """Return which starts differ from one another, and for every start which of those it is.

    Most excursions start at the same place, which need be looked at only once.
    """
    seen: dict[bytes, int] = {}
    place = [seen.setdefault(poses[start].tobytes(), len(seen)) for start in starts]
    return np.unique(place, return_index=True)[1], np.array(place)
