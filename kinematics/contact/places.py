"""Closed jaw positions along excursions, and how fast the incisal point moves there."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from kinematics.contact.closing_rates import travel_rates
from kinematics.contact.closure import Closures, close_and_next
from kinematics.contact.mounted import (
    GUIDED_BY_NOTHING,
    GuidedClosure,
    MountedCasts,
    incisal_points,
    on_teeth_or_table,
)
from kinematics.contact.pose_rows import picked
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion, along, greatest_progress
from kinematics.guidance.mandible import CENTRIC_RELATION, GuidanceCoordinates, JawPositions, place

#: Progress by which rates are told, mm: short beside what bends a path, long beside rounding.
RATE_STEP_MM: Final = 1e-5


@dataclass(frozen=True)
class Places:
    """Closed jaw positions along one excursion.

    Attributes
    ----------
    progress_mm : ndarray, shape (n,)
        Where along the excursion.
    positions : JawPositions
        Condyles.
    closure : GuidedClosure
        On teeth or table.
    runner_up : Closures
        First touch when the first tooth pair is left out.
    incisal_point : ndarray, shape (n, 3)
        At closure, hinge frame, mm; nan where nothing guides.
    rate : ndarray, shape (n, 3)
        How fast it moves, mm per mm of progress; nan where nothing guides.
    """

    progress_mm: Floats
    positions: JawPositions
    closure: GuidedClosure
    runner_up: Closures
    incisal_point: Floats
    rate: Floats


def start_of(casts: MountedCasts, excursion: Excursion) -> GuidanceCoordinates:
    """Return where the condyles stand at the start of an excursion."""
    return casts.mi if excursion.start == "MI" else CENTRIC_RELATION


def horizontal_mm(way: Floats) -> Floats:
    """Return the horizontal lengths (n,) of ways (n, 3), mm."""
    return np.asarray(np.sqrt(way[:, 0] ** 2 + way[:, 1] ** 2))


def closed_places(
    casts: MountedCasts,
    excursions: Sequence[Excursion],
    progress_mm: Sequence[Floats],
    workers: Workers,
) -> list[Places]:
    """Close the jaw at some progress of each excursion, all at once.

    Parameters
    ----------
    casts : MountedCasts
        Casts, guidance and MI.
    excursions : sequence of Excursion
        Where to go, and from where.
    progress_mm : sequence of ndarray, shape (n,)
        Where along each.
    workers : Workers
        Threads.
    """
    here, beside, steps = [], [], []
    for excursion, at in zip(excursions, progress_mm, strict=True):
        start = start_of(casts, excursion)
        last = greatest_progress(casts.guidance, excursion, start)
        step = np.where(at + RATE_STEP_MM <= last, RATE_STEP_MM, -RATE_STEP_MM)
        step = np.where(at + step >= 0.0, step, 0.0)
        both = np.array(along(casts.guidance, excursion, start, np.concatenate([at, at + step])))
        here.append(both[:, : len(at)])
        beside.append(both[:, len(at) :])
        steps.append(step)
    count = sum(map(len, progress_mm))
    every = place(casts.guidance, *np.concatenate(here + beside, axis=1))
    positions, moved = picked(every, slice(count)), picked(every, slice(count, None))
    touches = close_and_next(casts.pair, positions.pose_at_zero, workers)
    closure = on_teeth_or_table(casts, positions, touches.first)
    guided = closure.guide != GUIDED_BY_NOTHING
    points = incisal_points(casts, positions, np.where(guided, closure.opening_rad, 0.0))
    rate = travel_rates(casts, positions, moved, np.concatenate(steps), closure)
    points[~guided] = np.nan
    all_places = Places(
        np.concatenate(progress_mm), positions, closure, touches.runner_up, points, rate
    )
    cuts = np.cumsum([0, *map(len, progress_mm)])
    return [picked(all_places, slice(a, b)) for a, b in pairwise(cuts)]
