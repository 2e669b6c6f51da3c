"""Sweeps made of nothing but gaps, for tests of what contacts mean."""

import numpy as np

from kinematics.contact.closure import MEETS, Closures
from kinematics.contact.contacts import Patches
from kinematics.contact.mounted import GUIDED_BY_TEETH
from kinematics.contact.sweep import Sweep
from kinematics.geometry.poses import identity_poses
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import JawPositions

UPPERS = (17, 16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26, 27)
LOWERS = (47, 46, 45, 44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37)
TRAVEL = np.round(np.arange(31) * 0.1, 9)
RIGHT_LATERAL = Excursion("right lateral", -90.0, "MI")
PROTRUSION = Excursion("protrusion", 0.0, "MI")


#: Gaps over the whole travel: none, and one that nothing bridges.
NONE, FAR = 0.0 * TRAVEL, 0.5


def between(start, end, inside=0.0, outside=FAR):
    """Return gaps that are small over part of the travel."""
    return np.where((start - 0.01 < TRAVEL) & (end + 0.01 > TRAVEL), inside, outside)


def closures_of(pair, n):
    """Return closures in which one pair touches at one place."""
    zero = np.zeros(n, dtype=np.int64)
    return Closures(
        opening_rad=np.zeros(n),
        status=zero + MEETS,
        kind=zero,
        point=np.tile([50.0, -20.0, -33.0], (n, 1)),
        normal=np.tile([0.0, 0.0, 1.0], (n, 1)),
        face_upper=zero,
        face_lower=zero,
        tooth_upper=zero + pair[0],
        tooth_lower=zero + pair[1],
        radius_mm=np.full(n, 60.0),
        on_rim=zero,
    )


def made(
    gaps,
    excursion=RIGHT_LATERAL,
    travel=TRAVEL,
    edge=None,
    guide=GUIDED_BY_TEETH,
    first=(13, 43),
    second=(12, 42),
    second_gap=1.0,
):
    """Return a sweep in which each pair of `gaps` keeps the distances given, others are far."""
    n = len(travel)
    distance = np.full((n, len(UPPERS), len(LOWERS)), np.inf)
    for (upper, lower), values in gaps.items():
        distance[:, UPPERS.index(upper), LOWERS.index(lower)] = values
    still, none = np.zeros(n), np.zeros(0)
    whole = np.zeros(0, dtype=np.int64)
    condyles = np.tile([0.0, -52.0, 0.0], (n, 1)), np.tile([0.0, 52.0, 0.0], (n, 1))
    return Sweep(
        excursion=excursion,
        travel_mm=travel,
        from_mi_mm=travel,
        crossover=travel > (np.inf if edge is None else edge),
        edge_to_edge_mm=edge,
        positions=JawPositions(
            still, still, still, *condyles, identity_poses(n), whole, still, still, still
        ),
        opening_rad=still,
        poses=identity_poses(n),
        guide=np.full(n, guide),
        closures=closures_of(first, n),
        runner_up=closures_of(second, n),
        runner_up_gap_mm=np.full(n, second_gap),
        incisal_point=np.zeros((n, 3)),
        patches=Patches(whole, whole, whole, none[:, None], none[:, None], none, none, none),
        tolerance_mm=0.02,
        upper_codes=UPPERS,
        lower_codes=LOWERS,
        pair_gap_mm=distance,
        gap_limit_mm=3.0,
    )
