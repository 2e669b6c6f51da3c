"""How far places of an excursion lie along it, where edges meet, and what is beyond."""

from dataclasses import dataclass, field

import numpy as np

from kinematics.contact.closure import Closures
from kinematics.contact.edge_to_edge import edge_to_edge_travel
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.places import Places, horizontal_mm
from kinematics.conventions import LEFT, RIGHT, Bools, Floats
from kinematics.guidance.excursions import RETRUSION, Excursion
from kinematics.guidance.mandible import opened


@dataclass(frozen=True)
class Course:
    """The poses of an excursion.

    Attributes
    ----------
    rows : slice
        Where they are among those of all excursions.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower at closure.
    travel_mm : ndarray, shape (n,)
        Horizontal travel of the lower incisal point from the start.
    edge_to_edge_mm : float or None
        Travel at edge-to-edge, None where it is not reached.
    crossover : ndarray, shape (n,)
        True beyond it.
    """

    rows: slice
    poses: Floats
    travel_mm: Floats
    edge_to_edge_mm: float | None
    crossover: Bools


def courses_of(
    casts: MountedCasts,
    excursions: tuple[Excursion, ...],
    found: tuple[Places, ...],
) -> list[Course]:
    """Return the course of each excursion.

    Parameters
    ----------
    casts : MountedCasts
        Casts whose edges meet.
    excursions : tuple of Excursion
        Where the jaw goes.
    found : tuple of Places
        The places of each.
    """
    courses = []
    first = 0
    for excursion, places in zip(excursions, found, strict=True):
        rows = slice(first, first + len(places.progress_mm))
        first = rows.stop
        poses, travel, edge = _travelled_to_edge(casts, excursion, places)
        crossover = travel > (np.inf if edge is None else edge)
        courses.append(Course(rows, poses, travel, edge, crossover))
    return courses


def _travelled_to_edge(
    casts: MountedCasts, excursion: Excursion, places: Places
) -> tuple[Floats, Floats, float | None]:
    """Return poses (n, 4, 4) at closure and travel (n,) of places, and where edges meet."""
    poses = opened(places.positions, places.closure.opening_rad)
    travel = horizontal_mm(places.incisal_point - places.incisal_point[0])
    return poses, travel, _edge_to_edge(casts, excursion, poses, travel, places.closure.teeth)


@dataclass(frozen=True)
class Ends:
    """How far excursions are followed that are told up to edge-to-edge alone.

    Where that is must be told at the first look, from other poses: one step of that is added, and
    whether it was enough is looked at afterwards, at all poses.

    Attributes
    ----------
    casts : MountedCasts
        Casts whose edges meet.
    step_mm, travel_mm, look_mm : float
        From one pose to the next, in all, and from one pose to the next at the first look.
    told_mm : dict
        Travel of each excursion beyond which nothing is judged, once it was looked along.
    """

    casts: MountedCasts
    step_mm: float
    travel_mm: float
    look_mm: float
    told_mm: dict[Excursion, float] = field(default_factory=dict)

    def __call__(self, excursion: Excursion, places: Places) -> float:
        """Return the travel beyond which nothing is judged, mm."""
        *_, edge = _travelled_to_edge(self.casts, excursion, places)
        end_mm = np.inf if edge is None else edge + self.look_mm + self.step_mm
        if end_mm >= self.travel_mm:
            end_mm = np.inf
        self.told_mm[excursion] = end_mm
        return end_mm

    def hold(self, excursions: tuple[Excursion, ...], courses: list[Course]) -> bool:
        """Tell whether all excursions were followed beyond edge-to-edge."""
        reached = (
            np.inf if course.edge_to_edge_mm is None else course.edge_to_edge_mm
            for course in courses
        )
        return all(
            edge + self.step_mm <= self.told_mm[excursion]
            for excursion, edge in zip(excursions, reached, strict=True)
        )


def _edge_to_edge(
    casts: MountedCasts, excursion: Excursion, poses: Floats, travel: Floats, teeth: Closures
) -> float | None:
    """Return the travel at edge-to-edge, judged on the working side, or on both in protrusion."""
    if excursion.name == RETRUSION:
        return None
    side = 0
    if abs(excursion.azimuth_deg) > 45.0:
        side = LEFT if excursion.azimuth_deg > 0.0 else RIGHT
    guiding = np.stack([teeth.tooth_upper, teeth.tooth_lower], axis=1)
    return edge_to_edge_travel(casts, poses, travel, guiding, side)
