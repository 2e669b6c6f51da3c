"""A case while its settings move: the pose shown and the main excursions at once, the rest after.

What is told here is told by the code of a whole run: one pose of an excursion is that of its sweep,
and excursions are judged by the same rules. The rest is a whole run itself, `examining.examined`.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.case_excursions import excursions_of, followed_excursions
from kinematics.case_judged import Judged, judged
from kinematics.checks import InputError
from kinematics.contact.closure import Closures, arc_gaps_mm, runner_up
from kinematics.contact.contacts import Patches, patches
from kinematics.contact.mounted import (
    GUIDED_BY_PIN,
    GUIDED_BY_TEETH,
    MountedCasts,
    incisal_points,
)
from kinematics.contact.sweep_gaps import Brisk
from kinematics.contact.travel import place_at_travel
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import (
    Excursion,
    left_lateral,
    protrusion,
    right_lateral,
)
from kinematics.guidance.mandible import JawPositions, opened
from kinematics.mounting import Teeth, remounted, same_teeth, teeth_for
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.raised_bite import raised_jaw

__all__ = [
    "MAIN",
    "RAISED_BITE",
    "Judged",
    "PoseAt",
    "Teeth",
    "brisk",
    "excursions_judged",
    "movement_named",
    "movements_of",
    "pose_asked_for",
    "pose_at_travel",
    "raised_pose",
    "remounted",
    "same_teeth",
    "teeth_for",
]

#: The excursions that are judged while settings move.
MAIN: Final = (protrusion(), right_lateral(), left_lateral())
#: No movement: where the incisal pin holds the jaw open, condyles in CR.
RAISED_BITE: Final = Excursion("raised bite", 0.0, "CR")


@dataclass(frozen=True)
class PoseAt:
    """The lower at one travel of an excursion, at closure.

    Attributes
    ----------
    excursion : Excursion
        The movement.
    travel_mm : float
        Horizontal travel of the lower incisal point from its start; less than asked for where the
        path ends before.
    positions : JawPositions
        Where the condyles stand, of one position.
    opening_rad : float
        Opening at closure, on teeth or table.
    pose : ndarray, shape (4, 4)
        hinge_from_lower at closure.
    guide : int
        GUIDED_BY_TEETH, GUIDED_BY_TABLE, GUIDED_BY_NOTHING or, of a raised bite, GUIDED_BY_PIN.
    closures : Closures
        First touch of the teeth, of one position.
    runner_up : Closures
        First touch when the first tooth pair is left out.
    runner_up_gap_mm : float
        Arc gap of the runner-up at its own contact; inf where there is none.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in the hinge frame, mm.
    patches : Patches
        Contact patches within the tolerance.
    """

    excursion: Excursion
    travel_mm: float
    positions: JawPositions
    opening_rad: float
    pose: Floats
    guide: int
    closures: Closures
    runner_up: Closures
    runner_up_gap_mm: float
    incisal_point: Floats
    patches: Patches


def pose_at_travel(
    casts: MountedCasts,
    excursion: Excursion,
    travel_mm: float,
    tolerance_mm: float,
    workers: Workers,
) -> PoseAt:
    """Return the pose that a sweep of an excursion has at one travel.

    Parameters
    ----------
    casts : MountedCasts
        Casts, guidance and MI.
    excursion : Excursion
        Where to go, and from where.
    travel_mm : float
        Horizontal travel of the lower incisal point from the start, 0 or more. Where the path ends
        before, its last place is shown.
    tolerance_mm : float
        Distance up to which surfaces count as touching.
    workers : Workers
        Threads; what their progress callback raises stops the search.

    Raises
    ------
    InputError
        Neither teeth nor table meet at the start.
    """
    places, reached_mm = place_at_travel(casts, excursion, travel_mm, workers)
    here, closed = places.positions, places.closure
    poses = opened(here, closed.opening_rad)
    return PoseAt(
        excursion=excursion,
        travel_mm=reached_mm,
        positions=here,
        opening_rad=float(closed.opening_rad[0]),
        pose=poses[0],
        guide=int(closed.guide[0]),
        closures=closed.teeth,
        runner_up=places.runner_up,
        runner_up_gap_mm=float(arc_gaps_mm(closed.teeth, places.runner_up)[0]),
        incisal_point=places.incisal_point[0],
        patches=patches(casts.pair, poses, tolerance_mm, workers),
    )


def raised_pose(
    casts: MountedCasts, pin_opening_mm: float, tolerance_mm: float, workers: Workers
) -> PoseAt:
    """Return the pose in which the incisal pin holds the jaw open; see `raised_bite`.

    What would touch next is the first contact in CR; where teeth hold the jaw, it is their own
    runner-up.
    """
    jaw = raised_jaw(casts, pin_opening_mm)
    opening_rad = np.array([jaw.opening_rad])
    poses = opened(jaw.positions, opening_rad)
    second, gap = jaw.first, jaw.gap_mm
    if not jaw.pin_holds:
        second, gaps = runner_up(casts.pair, jaw.positions.pose_at_zero, jaw.first, workers)
        gap = float(gaps[0])
    return PoseAt(
        excursion=RAISED_BITE,
        travel_mm=0.0,
        positions=jaw.positions,
        opening_rad=jaw.opening_rad,
        pose=poses[0],
        guide=GUIDED_BY_PIN if jaw.pin_holds else GUIDED_BY_TEETH,
        closures=jaw.first,
        runner_up=second,
        runner_up_gap_mm=gap,
        incisal_point=incisal_points(casts, jaw.positions, opening_rad)[0],
        patches=patches(casts.pair, poses, tolerance_mm, workers),
    )


def movements_of(case: Case) -> tuple[Excursion, ...]:
    """Return what can be shown of a case: excursions, and the bite as the pin raises it."""
    raised = (RAISED_BITE,) if case.pin_opening_mm > 0.0 else ()
    return (*excursions_of(case), *raised)


def movement_named(case: Case, name: str, start: str) -> Excursion:
    """Return a movement of a case by its name and where it starts.

    Raises
    ------
    InputError
        The case has no such movement; the message lists those it has.
    """
    known = movements_of(case)
    for one in known:
        if (one.name, one.start) == (name, start):
            return one
    names = ", ".join(f"{one.name} from {one.start}" for one in known)
    raise InputError(f"movement: the case has no '{name}' from {start}; it has {names}")


def pose_asked_for(
    case: Case, casts: MountedCasts, excursion: Excursion, travel_mm: float, workers: Workers
) -> PoseAt:
    """Return where the jaw stands at one travel of a movement of a case, or as the pin raises it.

    Raises
    ------
    InputError
        Neither teeth nor table meet at the start.
    """
    tolerance_mm = case.judging.tolerance_mm
    if excursion == RAISED_BITE:
        return raised_pose(casts, case.pin_opening_mm, tolerance_mm, workers)
    return pose_at_travel(casts, excursion, travel_mm, tolerance_mm, workers)


def excursions_judged(case: Case, casts: MountedCasts, workers: Workers) -> Judged:
    """Follow protrusion and both lateral excursions from MI, and say what they mean.

    Findings are those that a whole run has about these excursions and MI, but for what lies
    between two of its poses; the slide from CR and records of it are left out. Between the reading
    positions poses may stand some micrometres beside those of a whole run; each is exact for its
    own travel.

    Parameters
    ----------
    case : Case
        Its guidance is that of the casts.
    casts : MountedCasts
        Its teeth, mounted.
    workers : Workers
        Threads; what their progress callback raises stops the work.

    Raises
    ------
    InputError
        Neither teeth nor table meet in MI.
    """
    return judged(
        case, casts, followed_excursions(case, casts, MAIN, workers, brisk(case)), workers
    )


def brisk(case: Case) -> Brisk:
    """Return what sweeps may leave out that are only to be judged."""
    judging = case.judging
    # Between the readings only records that scatter ask what teeth do that do not quite touch.
    all_asked = judging.record_scatter_mm > judging.tolerance_mm
    from_mm = judging.near_mi_mm if all_asked else np.inf
    near_mm = _judged_up_to_mm(judging)
    return Brisk(near_mm, from_mm, case.replacement_teeth, judging.approach_margin_mm)


def _judged_up_to_mm(judging: JudgingSettings) -> float:
    """Return the distance up to which teeth count as near; farther gaps are seldom asked for."""
    return max(
        judging.tolerance_mm,
        judging.balanced_tolerance_mm,
        judging.record_scatter_mm,
        judging.reading_tolerances_mm[-1],
    )
