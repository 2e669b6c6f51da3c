"""One moment of a lesson: a case with its settings, the jaw at one travel, and what follows."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np

from kinematics.case import Case
from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import Judged
from kinematics.checkup import weighed
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion, retrusion
from kinematics.live import (
    RAISED_BITE,
    PoseAt,
    excursions_judged,
    pose_at_travel,
    raised_pose,
)
from kinematics.planning.base_loads import ExcursionLoads
from kinematics.planning.slide import CentricSlide, centric_slide


@dataclass(frozen=True)
class Moment:
    """Where the jaw stands, and what else can be asked there.

    Attributes
    ----------
    case, casts : Case, MountedCasts
        Settings, and the teeth mounted by them.
    excursion : Excursion
        The movement.
    at : PoseAt
        The jaw at closure, at one travel.
    pose_at_start : ndarray, shape (4, 4)
        hinge_from_lower where the movement starts.
    judged : callable
        Returns what protrusion and both lateral excursions say.
    slide : callable
        Returns the way from first contact in CR to MI.
    loads : callable
        Returns who carries what along the excursion; only of cases that have loads.
    """

    case: Case
    casts: MountedCasts
    excursion: Excursion
    at: PoseAt
    pose_at_start: Floats
    judged: Callable[[], Judged]
    slide: Callable[[], CentricSlide]
    loads: Callable[[], ExcursionLoads]


def moment_at(
    case: Case,
    casts: MountedCasts,
    excursion: Excursion,
    travel_mm: float,
    workers: Workers,
    judged: Callable[[], Judged] | None = None,
) -> Moment:
    """Return a moment; what takes long is computed when it is first asked for.

    Parameters
    ----------
    case, casts : Case, MountedCasts
        Its guidance, and its teeth mounted by it.
    excursion : Excursion
        A movement of the case, `live.RAISED_BITE` among them.
    travel_mm : float
        Horizontal travel of the lower incisal point, 0 or more.
    workers : Workers
        Threads; what their progress callback raises stops the work.
    judged : callable, optional
        Returns what the main excursions say, where that is computed elsewhere.

    Raises
    ------
    InputError
        Neither teeth nor table meet at the start.
    """
    tolerance_mm = case.judging.tolerance_mm
    start = casts.mi_pose
    if excursion == RAISED_BITE:
        at = raised_pose(casts, case.pin_opening_mm, tolerance_mm, workers)
    else:
        at = pose_at_travel(casts, excursion, travel_mm, tolerance_mm, workers)
        if excursion.start == "CR":
            start = pose_at_travel(casts, excursion, 0.0, tolerance_mm, workers).pose
    told = cache(judged or (lambda: excursions_judged(case, casts, workers)))

    @cache
    def slide() -> CentricSlide:
        (back,) = followed_excursions(case, casts, (retrusion(),), workers)
        return centric_slide(back, case.judging.stop_tolerance_mm)

    @cache
    def loads() -> ExcursionLoads:
        found = told()
        sweep = next(item for item in found.sweeps if item.excursion == excursion)
        return next(weighed(case, casts, found.frameworks, (sweep,), workers))

    return Moment(case, casts, excursion, at, np.asarray(start), told, slide, loads)
