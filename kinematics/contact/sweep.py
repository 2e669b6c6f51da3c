"""Closure, guide, tracks, patches and gaps along one excursion."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from kinematics.contact.closure import Closures, arc_gaps_mm
from kinematics.contact.contacts import Patches, patches
from kinematics.contact.course import Course, Ends, courses_of
from kinematics.contact.mounted import (
    GUIDED_BY_NOTHING,
    GUIDED_BY_TABLE,
    GUIDED_BY_TEETH,
    MountedCasts,
)
from kinematics.contact.places import horizontal_mm
from kinematics.contact.pose_rows import joined, picked
from kinematics.contact.sweep_gaps import Brisk, Told, same_starts, sweep_gaps
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.travel import COARSE_MM, TRAVEL_SLACK_MM, FirstLook, places_at_travels
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats, Ints
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import JawPositions

__all__ = [
    "GUIDED_BY_NOTHING",
    "GUIDED_BY_TABLE",
    "GUIDED_BY_TEETH",
    "Sweep",
    "sweep",
    "sweeps",
]


@dataclass(frozen=True)
class Sweep:
    """One excursion in n poses, the first at its start (MI or CR).

    Attributes
    ----------
    excursion : Excursion
        Name, azimuth and start.
    travel_mm : ndarray, shape (n,)
        Horizontal travel of the lower incisal point from the start, increasing.
    from_mi_mm : ndarray, shape (n,)
        Horizontal distance of the lower incisal point from its place in MI.
    crossover : ndarray, shape (n,)
        True beyond edge-to-edge: shown, not judged.
    edge_to_edge_mm : float or None
        Travel at edge-to-edge, None where it is not reached.
    positions : JawPositions
        Advances, shift, condyles and poses at opening 0.
    opening_rad : ndarray, shape (n,)
        Opening at closure (teeth or table, whichever comes first).
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower at closure.
    guide : ndarray, shape (n,)
        GUIDED_BY_TEETH, GUIDED_BY_TABLE or GUIDED_BY_NOTHING.
    closures : Closures
        First touch of the teeth.
    runner_up : Closures
        First touch when the first tooth pair is left out.
    runner_up_gap_mm : ndarray, shape (n,)
        Arc gap of the runner-up at its own contact; inf where there is none.
    incisal_point : ndarray, shape (n, 3)
        Lower incisal point in the hinge frame, mm.
    patches : Patches
        Contact patches within `tolerance_mm`.
    tolerance_mm : float
        Distance up to which two surfaces count as touching.
    upper_codes, lower_codes : tuple of int
        Teeth of the rows and columns of `pair_gap_mm`.
    pair_gap_mm : ndarray, shape (n, uppers, lowers)
        Shortest distance of every tooth pair; inf beyond `gap_limit_mm`, or `measured_mm` where
        that is less.
    gap_limit_mm : float
        Distance beyond which gaps are not told.
    measured_mm : float
        Distance up to which they were measured beyond the first pose; where that is finite, not in
        crossover.
    partly : ndarray, shape (n,), or None
        Poses in which only gaps of some teeth were measured, and of teeth in contact; None where
        there are none.
    reading_slack_mm : float
        By how much poses at readings may miss their travel.
    """

    excursion: Excursion
    travel_mm: Floats
    from_mi_mm: Floats
    crossover: Bools
    edge_to_edge_mm: float | None
    positions: JawPositions
    opening_rad: Floats
    poses: Floats
    guide: Ints
    closures: Closures
    runner_up: Closures
    runner_up_gap_mm: Floats
    incisal_point: Floats
    patches: Patches
    tolerance_mm: float
    upper_codes: tuple[int, ...]
    lower_codes: tuple[int, ...]
    pair_gap_mm: Floats
    gap_limit_mm: float
    measured_mm: float = np.inf
    partly: Bools | None = None
    reading_slack_mm: float = TRAVEL_SLACK_MM

    @cached_property
    def usual_step_mm(self) -> float:
        """Median travel from one pose to the next; 0 of a single pose."""
        return float(np.median(np.diff(self.travel_mm))) if len(self.travel_mm) > 1 else 0.0


def sweep(
    casts: MountedCasts,
    excursion: Excursion,
    settings: SweepSettings,
    tolerance_mm: float,
    readings_mm: tuple[float, ...],
    workers: Workers,
) -> Sweep:
    """Follow one excursion from MI or CR to edge-to-edge and beyond; see `sweeps`."""
    (found,) = sweeps(casts, (excursion,), settings, tolerance_mm, readings_mm, workers)
    return found


def sweeps(
    casts: MountedCasts,
    excursions: tuple[Excursion, ...],
    settings: SweepSettings,
    tolerance_mm: float,
    readings_mm: tuple[float, ...],
    workers: Workers,
    brisk: Brisk | None = None,
) -> tuple[Sweep, ...]:
    """Follow excursions from MI or CR to edge-to-edge and beyond, all at once.

    Parameters
    ----------
    casts : MountedCasts
        Casts, guidance and MI.
    excursions : tuple of Excursion
        Where to go, and from where; at least one.
    settings : SweepSettings
        Step, travel and gap limit.
    tolerance_mm : float
        Distance up to which surfaces count as touching.
    readings_mm : tuple of float
        Travels that must be among the poses.
    workers : Workers
        Threads.
    brisk : Brisk, optional
        What may be left out, to have an answer at once.

    Returns
    -------
    tuple of Sweep
        One an excursion, the same as if each were followed alone.

    Raises
    ------
    InputError
        Neither teeth nor table meet at the start.
    """
    wanted = _wanted_travels(settings, readings_mm)
    slack = _slack_mm(brisk, wanted, settings, readings_mm)
    follow_all = brisk is None or brisk.crossover
    look = _first_look(brisk, settings)
    ends = None if follow_all else Ends(casts, settings.step_mm, settings.travel_mm, look.step_mm)
    found = places_at_travels(casts, excursions, wanted, workers, slack, ends, look)
    courses = courses_of(casts, excursions, found)
    if ends is not None and not ends.hold(excursions, courses):
        found = places_at_travels(casts, excursions, wanted, workers, slack, first_look=look)
        courses = courses_of(casts, excursions, found)
    poses = np.concatenate([course.poses for course in courses])
    told = ~np.concatenate([course.crossover & (brisk is not None) for course in courses])
    shown = told | (brisk is None or brisk.crossover)
    starts = np.array([course.rows.start for course in courses])
    within = _patches_where(casts, poses, shown, starts, tolerance_mm, workers)
    near = np.concatenate([_unjudged(course, readings_mm, brisk) for course in courses])
    which = Told(told, near, starts)
    limit_mm = settings.gap_limit_mm
    gaps = sweep_gaps(casts, poses, within, which, tolerance_mm, limit_mm, brisk, workers)
    in_mi = casts.incisal_point_in_mi
    return tuple(
        Sweep(
            excursion=excursion,
            travel_mm=course.travel_mm,
            from_mi_mm=horizontal_mm(places.incisal_point - in_mi),
            crossover=course.crossover,
            edge_to_edge_mm=course.edge_to_edge_mm,
            positions=places.positions,
            opening_rad=places.closure.opening_rad,
            poses=course.poses,
            guide=places.closure.guide,
            closures=places.closure.teeth,
            runner_up=places.runner_up,
            runner_up_gap_mm=arc_gaps_mm(places.closure.teeth, places.runner_up),
            incisal_point=places.incisal_point,
            patches=_patches_of(within, course.rows),
            tolerance_mm=tolerance_mm,
            upper_codes=casts.upper.codes,
            lower_codes=casts.lower.codes,
            pair_gap_mm=gaps[course.rows],
            gap_limit_mm=limit_mm,
            measured_mm=np.inf if brisk is None else brisk.measured_mm,
            partly=None if brisk is None else near[course.rows],
            reading_slack_mm=TRAVEL_SLACK_MM if brisk is None else brisk.reading_slack_mm,
        )
        for excursion, places, course in zip(excursions, found, courses, strict=True)
    )


def _unjudged(course: Course, readings_mm: tuple[float, ...], brisk: Brisk | None) -> Bools:
    """Return the poses (n,) of a course that are too near to its start to be judged."""
    if brisk is None:
        return np.zeros(len(course.travel_mm), dtype=bool)
    off_mm = np.abs(course.travel_mm[:, None] - readings_mm).min(axis=1, initial=np.inf)
    return np.asarray((course.travel_mm < brisk.from_mm) & (off_mm > brisk.reading_slack_mm))


def _patches_where(
    casts: MountedCasts,
    poses: Floats,
    shown: Bools,
    starts: Ints,
    tolerance_mm: float,
    workers: Workers,
) -> Patches:
    """Return the patches of some poses; those of starts that are one pose are sought once."""
    first, place = same_starts(poses, starts)
    again = np.setdiff1d(starts, starts[first])
    sought = np.setdiff1d(np.flatnonzero(shown), again)
    found = patches(casts.pair, poses[sought], tolerance_mm, workers)
    found = replace(found, pose=sought[found.pose])
    parts = [found]
    for start, known in zip(starts, starts[first][place], strict=True):
        if start != known:
            same = picked(found, found.pose == known)
            parts.append(replace(same, pose=np.full(len(same.pose), start)))
    every = joined(parts)
    return picked(every, np.argsort(every.pose, kind="stable"))


def _patches_of(found: Patches, rows: slice) -> Patches:
    """Return the patches of some poses, numbered from the first of them."""
    begin, end = np.searchsorted(found.pose, (rows.start, rows.stop))
    some = picked(found, slice(int(begin), int(end)))
    return replace(some, pose=some.pose - rows.start)


def _wanted_travels(settings: SweepSettings, readings_mm: tuple[float, ...]) -> Floats:
    """Return all travels to stop at, ascending from 0."""
    steps = np.arange(int(np.floor(settings.travel_mm / settings.step_mm + 1e-9)) + 1)
    travels = np.concatenate([steps * settings.step_mm, readings_mm, [settings.travel_mm]])
    # Rounded so that a reading position and a step that mean the same travel are one pose.
    return np.unique(np.round(travels[travels <= settings.travel_mm], 9))


def _slack_mm(
    brisk: Brisk | None, wanted: Floats, settings: SweepSettings, readings_mm: tuple[float, ...]
) -> Floats:
    """Return by how much each wanted travel may be missed."""
    if brisk is None:
        return np.full(len(wanted), TRAVEL_SLACK_MM)
    of_others_mm = brisk.slack_steps * settings.step_mm
    return np.where(np.isin(wanted, readings_mm), brisk.reading_slack_mm, of_others_mm)


def _first_look(brisk: Brisk | None, settings: SweepSettings) -> FirstLook:
    """Return how excursions are looked along at first.

    Where poses may miss their travel by half a step, a look step by step finds nearly all at once.
    """
    if brisk is None:
        return FirstLook()
    step_mm = settings.step_mm if brisk.slack_steps >= 0.5 else COARSE_MM
    return FirstLook(step_mm, brisk.sufficed_mm)
