"""The built-in lessons played by the engine, each once: at its start and where it is shown."""

from dataclasses import dataclass
from functools import cache

from kinematics.contact.workers import Workers
from kinematics.lessons.conditions import START
from kinematics.lessons.kept_teeth import KeptTeeth
from kinematics.lessons.lesson import Lesson
from kinematics.lessons.moment import Moment
from kinematics.lessons.played import Standing, looked_up, moment_of, standing_of
from scenes.builtin_cases import builtin_case
from scenes.lesson_places import builtin_lessons

WORKERS = Workers(1)
NAMES = tuple(builtin_lessons())
#: Teeth are made once for all lessons.
_TEETH = KeptTeeth(1, lambda *_: None)


@dataclass(frozen=True)
class PlayedRound:
    """One round: how it stands at the start of the lesson and where it is shown, and the moment."""

    at_start: Standing
    shown: Standing
    moment: Moment
    look: object


@cache
def lesson_named(name) -> Lesson:
    """Return a built-in lesson."""
    return builtin_lessons()[name]


@cache
def moment_named(name, moment) -> Moment:
    """Return a moment that a lesson compares with."""
    lesson = lesson_named(name)
    return moment_of(builtin_case(lesson.case), lesson.place(moment), _TEETH.mounted, WORKERS)


@cache
def played(name) -> tuple[PlayedRound, ...]:
    """Return all rounds of a lesson."""
    lesson = lesson_named(name)

    def others(moment):
        return moment_named(name, moment)

    rounds = []
    for number, one in enumerate(lesson.rounds):
        shown = moment_of(builtin_case(lesson.case), lesson.shown(number), _TEETH.mounted, WORKERS)
        start_look, look = looked_up(others(START), others), looked_up(shown, others)
        rounds.append(
            PlayedRound(
                standing_of(lesson, one, start_look),
                standing_of(lesson, one, look),
                shown,
                look,
            )
        )
    return tuple(rounds)
