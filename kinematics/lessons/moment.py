"""One moment of a lesson: a case with its settings, the jaw at one travel, and what follows."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np

from kinematics.case import Case
from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import Judged
from kinematics.checks import InputError
from kinematics.checkup import weighed
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion, retrusion
from kinematics.live import (
    RAISED_BITE,
    PoseAt,
    excursions_judged,
    pose_asked_for,
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
    at: PoseAt
    pose_at_start: Floats
    judged: Callable[[], Judged]
    slide: Callable[[], CentricSlide]
    loads: Callable[[], ExcursionLoads]

    @property
    def excursion(self) -> Excursion:
        """The movement."""
        return self.at.excursion


def moment_at(
    case: Case,
    casts: MountedCasts,
    at: PoseAt,
    workers: Workers,
    judged: Callable[[], Judged] | None = None,
) -> Moment:
    """Return a moment; what takes long is computed when it is first asked for.

    Parameters
    ----------
    case, casts : Case, MountedCasts
        Its guidance, and its teeth mounted by it.
    at : PoseAt
        Where the jaw stands; see `live.pose_asked_for`.
    workers : Workers
        Threads; what their progress callback raises stops the work.
    judged : callable, optional
        Returns what the main excursions say, where that is computed elsewhere.

    Raises
    ------
    InputError
        Neither teeth nor table meet at the start.
    """
    start = casts.mi_pose
    if at.excursion.start == "CR" and at.excursion != RAISED_BITE:
        start = pose_asked_for(case, casts, at.excursion, 0.0, workers).pose
    told = cache(judged or (lambda: excursions_judged(case, casts, workers)))

    @cache
    def slide() -> CentricSlide:
        (back,) = followed_excursions(case, casts, (retrusion(),), workers)
        return centric_slide(back, case.judging.stop_tolerance_mm)

    @cache
    def loads() -> ExcursionLoads:
        found = told()
        sweep = next((item for item in found.sweeps if item.excursion == at.excursion), None)
        if sweep is None:
            raise InputError(
                f"loads are known of protrusion and both lateral excursions, not of "
                f"{at.excursion.name}"
            )
        return next(weighed(case, casts, found.frameworks, (sweep,), workers))

    return Moment(case, casts, at, np.asarray(start), told, slide, loads)
