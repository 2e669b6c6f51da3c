"""A lesson played: its moments read, its goals looked at, its answers judged."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from kinematics.case import Case
from kinematics.case_changes import changed_case
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.lessons.conditions import NOW, START, Look, holds
from kinematics.lessons.lesson import Lesson, Place, Round
from kinematics.lessons.moment import Moment, moment_at
from kinematics.lessons.reading_names import Reading, Value
from kinematics.live import movement_named, pose_asked_for

#: Returns the teeth of a case, mounted by it.
Mount = Callable[[Case], MountedCasts]


@dataclass(frozen=True)
class Standing:
    """How a round stands.

    Attributes
    ----------
    reached : tuple of bool
        Of every condition of its goal, whether it holds.
    right : tuple of bool
        Of every answer, whether it holds now.
    """

    reached: tuple[bool, ...]
    right: tuple[bool, ...]

    @property
    def done(self) -> bool:
        """Whether the goal is reached."""
        return all(self.reached)


def moment_of(case: Case, place: Place, mount: Mount, workers: Workers) -> Moment:
    """Return the moment of a place.

    Parameters
    ----------
    case : Case
        Of the lesson, unchanged.
    place : Place
        With nothing left out.
    mount : callable
        Mounts the teeth of a case.
    workers : Workers
        Threads; what their progress callback raises stops the work.

    Raises
    ------
    InputError
        Settings that make no case, or a movement that the case does not have.
    """
    changed = changed_case(case, place.settings, place.changes)
    excursion = movement_named(changed, place.movement or "", place.start or "")
    casts = mount(changed)
    at = pose_asked_for(changed, casts, excursion, place.travel_mm or 0.0, workers)
    return moment_at(changed, casts, at, workers)


def looked_up(now: Moment, others: Callable[[str], Moment]) -> Look:
    """Return how readings are looked up: now, or at moments that are made when first asked for."""

    def look(reading: Reading, moment: str) -> Value:
        return reading.of(now if moment == NOW else others(moment))

    return look


def standing_of(lesson: Lesson, one: Round, look: Look) -> Standing:
    """Return how a round stands.

    Raises
    ------
    InputError
        A reading that the case does not have.
    """
    return Standing(
        tuple(holds(item, look) for item in lesson.conditions(one.goal)),
        tuple(
            all(holds(item, look) for item in lesson.conditions(answer.holds))
            for answer in one.answers
        ),
    )


def refuse_unusable(lesson: Lesson, case: Case) -> None:
    """Refuse a lesson with a place that its case cannot have.

    Raises
    ------
    InputError
        Settings that make no case, movements that it does not have; all of them.
    """
    places = {"start": lesson.place(START)}
    places |= {f"moments.{name}": lesson.place(name) for name in lesson.moments}
    places |= {f"rounds[{i + 1}].shown": lesson.shown(i) for i in range(len(lesson.rounds))}
    faults = []
    for where, place in places.items():
        try:
            changed = changed_case(case, place.settings, place.changes)
            movement_named(changed, place.movement or "", place.start or "")
        except InputError as error:
            faults += [f"{where}: {line}" for line in str(error).split("\n")]
    if faults:
        raise InputError("\n".join(dict.fromkeys(faults)))


def tried(lesson: Lesson, case: Case, mount: Mount, workers: Workers) -> tuple[str, ...]:
    """Take all rounds of a lesson as its "shown" has them, and return what does not go well.

    Parameters
    ----------
    lesson, case : Lesson, Case
        The lesson, and its case unchanged.
    mount, workers : callable, Workers
        See `moment_of`.

    Raises
    ------
    InputError
        A reading that the case does not have.
    """

    @cache
    def others(name: str) -> Moment:
        return moment_of(case, lesson.place(name), mount, workers)

    told = []
    for number, one in enumerate(lesson.rounds):
        where = f"round {number + 1}"
        if standing_of(lesson, one, looked_up(others(START), others)).done and number == 0:
            told.append(f"{where}: its goal is reached at the start already")
        shown = moment_of(case, lesson.shown(number), mount, workers)
        standing = standing_of(lesson, one, looked_up(shown, others))
        missed = [text for text, held in zip(one.goal, standing.reached, strict=True) if not held]
        told += [f"{where}: where it is shown this does not hold: {text}" for text in missed]
        if sum(standing.right) != 1:
            told.append(f"{where}: {sum(standing.right)} answers are right, not one")
    return tuple(told)
