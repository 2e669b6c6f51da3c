"""Lessons on the page: what a round asks, how far it is, and what is seen and explained."""

import threading
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from kinematics.case import Case
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.lessons.conditions import NOW, START, Look
from kinematics.lessons.explanations import with_numbers
from kinematics.lessons.kept_teeth import KeptTeeth
from kinematics.lessons.lesson import Lesson, Place
from kinematics.lessons.moment import Moment, moment_at
from kinematics.lessons.played import looked_up, moment_of, standing_of
from kinematics.live import PoseAt
from kinematics.mounting import Teeth
from scenes.builtin_cases import builtin_case
from scenes.lesson_words import condition_words, sought_words, value_words
from scenes.page_following import Following
from scenes.page_frames import frame
from scenes.page_lane import Stale
from scenes.page_messages import LessonAsked, Show, progress

_READING: Final = "reading what the lesson compares with"


@dataclass(frozen=True)
class Shown:
    """What stands on the desk when a lesson is looked at.

    Attributes
    ----------
    case, made_for : Case
        What is asked for, and what the teeth were made for.
    teeth, casts : Teeth, MountedCasts
        The teeth, and the same on the guidance of the case.
    at : PoseAt
        Where the jaw stands.
    following : Following
        What follows from the settings.
    """

    case: Case
    made_for: Case
    teeth: Teeth
    casts: MountedCasts
    at: PoseAt
    following: Following


class LessonDesk:
    """Answers what a page asks of lessons; used in the thread of the desk.

    Parameters
    ----------
    lessons : mapping of str to Lesson
        By their names on the page.
    threads : int
        How many threads may compute; the answers do not depend on it.
    """

    def __init__(self, lessons: Mapping[str, Lesson], threads: int) -> None:
        self._lessons, self._threads = lessons, threads
        self._teeth = KeptTeeth(threads, self._look)
        #: Moments that the lesson at hand compares with, by lesson and name.
        self._moments: dict[tuple[str, str], Moment] = {}
        self._now: Moment | None = None
        #: Of the newest request: what was begun for an older one may go on for it.
        self._stop = threading.Event()

    def answers(
        self, show: Show, asked: LessonAsked, shown: Shown, stop: threading.Event
    ) -> Iterator[bytes]:
        """Yield how a round of a lesson stands where the page has the jaw.

        Raises
        ------
        Stale
            Soon after `stop` is set.
        InputError
            There is no such lesson, or no such round of it.
        """
        self._stop = stop
        lesson = self._lessons.get(asked.name)
        if lesson is None or asked.round >= len(lesson.rounds):
            raise InputError("the page asked for a lesson that there is not; load it anew")
        head = {"kind": "lesson", "number": show.number, "name": asked.name, "round": asked.round}
        if show.case != lesson.case:
            yield frame({**head, "away": True})
            return
        self._teeth.keep(shown.made_for, shown.teeth)
        if any((asked.name, name) not in self._moments for name in (START, *lesson.moments)):
            yield progress(show.number, _READING)
        now = self._moment_now(shown)

        def others(name: str) -> Moment:
            return self._moment(asked.name, lesson, name)

        yield frame({**head, **_told(lesson, asked.round, looked_up(now, others), now)})

    def _moment_now(self, shown: Shown) -> Moment:
        """Return what is shown as a moment; what is known of the same settings is kept."""
        workers = Workers(self._threads, progress=self._look)
        now = moment_at(
            shown.case, shown.casts, shown.at, workers,
            lambda: shown.following.judged(self._stop),
        )  # fmt: skip
        before = self._now
        if before is not None and before.casts is now.casts and before.case == now.case:
            slide, judged = before.slide, before.judged
            loads = before.loads if before.excursion == now.excursion else now.loads
            now = replace(now, slide=slide, judged=judged, loads=loads)
        self._now = now
        return now

    def _moment(self, key: str, lesson: Lesson, name: str) -> Moment:
        found = self._moments.get((key, name))
        if found is None:
            workers = Workers(self._threads, progress=self._look)
            case, place = builtin_case(lesson.case), lesson.place(name)
            found = moment_of(case, place, self._teeth.mounted, workers)
            self._moments[key, name] = found
        return found

    def _look(self, *_told: object) -> None:
        """End long work as soon as nobody waits for it."""
        if self._stop.is_set():
            raise Stale


def lessons_welcome(lessons: Mapping[str, Lesson]) -> list[Mapping[str, Any]]:
    """Return what a page is told of all lessons before one is begun."""
    return [
        {
            "name": name,
            "title": lesson.title,
            "about": lesson.about,
            "case": lesson.case,
            "look": lesson.look,
            "start": _state(lesson.place(START)),
            "shown": [_state(lesson.shown(i)) for i in range(len(lesson.rounds))],
        }
        for name, lesson in lessons.items()
    ]


def _state(place: Place) -> Mapping[str, Any]:
    """Return a place as the page has states."""
    return {
        "changes": place.settings,
        "trial": None if place.changes is None else list(place.changes),
        "movement": place.movement,
        "start": place.start,
        "travel_mm": place.travel_mm,
    }


def _told(lesson: Lesson, number: int, look: Look, now: Moment) -> Mapping[str, Any]:
    """Return how a round stands, in words; what it was all about only once it is done."""
    one = lesson.rounds[number]

    def filled(text: str) -> str:
        return with_numbers(text, lesson.moments, look, value_words)

    try:
        standing = standing_of(lesson, one, look)
        conditions = lesson.conditions(one.goal)
        told: dict[str, Any] = {
            "predict": filled(one.predict),
            "answers": [answer.words for answer in one.answers],
            "move": filled(one.move),
            "readings": [
                {
                    "name": sought_words(asked),
                    "start": value_words(asked.reading, look(asked.reading, START))
                    if asked.moment == NOW
                    else "",
                    "now": value_words(asked.reading, look(asked.reading, asked.moment)),
                }
                for asked in lesson.sought()
            ],
            "goal": [
                {"words": condition_words(item), "reached": reached}
                for item, reached in zip(conditions, standing.reached, strict=True)
            ],
            "done": standing.done,
        }
        if standing.done:
            told |= {"right": list(standing.right), "explain": filled(one.explain)}
            told["formula"] = None if one.formula is None else _formula(one.formula, now)
        return told
    except InputError as error:
        return {"fault": str(error)}


def _formula(name: str, now: Moment) -> Mapping[str, Any]:
    # what works with symbols takes a second to fetch
    from kinematics.lessons.formulas import worked
    from scenes.lesson_math import equation_tree, numbers_tree, symbol_tree, term_words

    found = worked(name, now)
    formula, result = found.formula, found.formula.result
    return {
        "equation": equation_tree(found),
        "numbers": numbers_tree(found),
        "result": symbol_tree(result.symbol),
        "given": term_words(result, found.given),
        "found": "" if found.found is None else term_words(result, found.found),
        "meaning": result.meaning,
        "terms": [
            {
                "symbol": symbol_tree(term.symbol),
                "meaning": term.meaning,
                "value": term_words(term, value),
            }
            for term, value in zip(formula.terms, found.values, strict=True)
        ],
        "source": formula.source,
        "exact": formula.exact,
    }
