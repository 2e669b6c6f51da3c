"""What answers one page: keeps the teeth that stand, and computes what a state asks for.

Where the jaw stands is answered first, in the thread of the page. What takes longer, the
excursions and all that is judged by them, goes on beside it as long as the settings stay the same,
however often the jaw is moved meanwhile.
"""

import threading
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.case_changes import changed_case
from kinematics.checks import InputError
from kinematics.checkup import kernels_for, weighed_sweeps
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.warm_up import is_first_run, warm_up
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import opened
from kinematics.lessons.lesson import Lesson
from kinematics.live import RAISED_BITE, PoseAt, movement_named, movements_of, pose_asked_for
from kinematics.mounting import (
    Teeth,
    changed,
    lower_moved,
    remounted,
    same_teeth,
    same_unchanged_teeth,
    teeth_for,
)
from kinematics.planning.findings import Finding
from kinematics.records.spread import stale_errors
from scenes.builtin_cases import builtin_case
from scenes.case_marks import marked
from scenes.moving_casts import moving_casts
from scenes.page_answers import MAP_LIMIT_MM, pose_answer, reach_answer, teeth_answer
from scenes.page_casts import OWN
from scenes.page_following import Following
from scenes.page_lane import unless_stale
from scenes.page_lessons import LessonDesk, Shown
from scenes.page_loads import loads_answer
from scenes.page_messages import (
    GIVEN_CASE,
    CaseFileRequest,
    FileRequest,
    Show,
    SureRequest,
    progress,
)
from scenes.page_report import Origin, write_case_file, write_report
from scenes.page_results import excursions_answer, rest_answer
from scenes.page_sure import studied, sure_answer
from scenes.page_trial import parts_before
from scenes.page_welcome import case_answer, welcome
from scenes.scene import Scene

#: Returns a case that the page made of its own casts, by its name.
OwnCases = Callable[[str], Case | None]

#: How often a study looks whether the page knows the findings.
_LOOK_S: Final = 0.05
_COMPILING: Final = "compiling the numerical kernels: only on the first run, one to three minutes"
_MAKING: Final = "making the teeth and settling them into maximal intercuspation (MI)"
_SEATING: Final = "reading the scans, and seating the casts at the bite (MI)"
_CHANGING: Final = "changing single teeth"
_LONG: Final = "the more triangles, the longer it takes"
_FORMING: Final = f"{_MAKING}, and forming them by the generated path: this takes longest"


def _no_own_case(_name: str) -> Case | None:
    return None


@dataclass(frozen=True)
class _Standing:
    """What stands on the desk: the teeth of one case, mounted on its guidance.

    Attributes
    ----------
    case : Case
        What is asked for.
    made_for : Case
        What the teeth were made for; it differs in settings that do not change them.
    teeth : Teeth
        As they stand in MI.
    casts : MountedCasts
        The teeth on the guidance of the case.
    move : ndarray, shape (4, 4)
        How the lower stands in its coordinates now, against how the teeth have it: distances are
        measured between the teeth, whose trees are laid out for that once.
    scene : Scene
        Both casts in MI.
    """

    case: Case
    made_for: Case
    teeth: Teeth
    casts: MountedCasts
    move: Floats
    scene: Scene


class Desk:
    """Computes the answers to one page.

    Parameters
    ----------
    threads : int
        How many threads may compute; the answers do not depend on it.
    given : Case or None
        The case of the file named on the command line.
    lessons : mapping of str to Lesson
        Lessons that can be taken, by their names on the page.
    """

    def __init__(
        self, threads: int, given: Case | None, lessons: Mapping[str, Lesson] | None = None
    ) -> None:
        self._threads = threads
        self._lessons = lessons or {}
        self._teacher = LessonDesk(self._lessons, threads)
        self._given = given
        self._given_name = marked(GIVEN_CASE, given) if given else ""
        self._own: OwnCases = _no_own_case
        self._standing: _Standing | None = None
        self._following: Following | None = None
        #: Kinds of answers that the page has for what stands.
        self._told: set[str] = set()
        #: Which case the page knows, and its movements.
        self._told_case: tuple[str, tuple[Excursion, ...]] = ("", ())
        #: All findings that the page was told last, and of which case; set by one thread, read by
        #: that of a study.
        self._found: tuple[Case, tuple[Finding, ...]] | None = None

    def welcome(self, first: Show) -> bytes:
        """Return what a page is told before it asks anything."""
        return welcome(first, self._given, self._given_name, self._lessons)

    def bring(self, own: OwnCases) -> None:
        """Say where cases that the page makes of its own casts are found."""
        self._own = own

    def answers(self, show: Show, stop: threading.Event) -> Iterator[bytes]:
        """Yield each message as soon as it is ready.

        Raises
        ------
        Stale
            Soon after `stop` is set.
        InputError, NotConverged
            Settings that do not go together.
        """
        base = self.case_named(show.case)
        case = changed_case(base, show.changes, show.trial)
        told = show.case, movements_of(case)
        if told != self._told_case:
            yield case_answer(show.number, show.case, base, case)
            self._told_case = told
        if self._standing is None or case != self._standing.case:
            yield from self._take_up(show.number, case, stop)
        standing = self._standing
        assert standing is not None
        if "teeth" not in self._told:
            changed_codes = tuple(sorted({change.tooth for change in case.change}))
            notes = standing.teeth.change_notes
            yield teeth_answer(
                show.number, standing.scene, standing.casts, case.replacement_teeth,
                changed_codes, notes,
            )  # fmt: skip
            self._told.add("teeth")
        excursion = movement_named(case, show.movement, show.start)
        at, message = self._pose(show, standing, excursion, stop)
        yield message
        if self._following is None:
            # Not beside the pose: both use all threads, and whoever moves a setting waits for it.
            self._following = Following(case, standing.teeth, standing.casts, self._threads)
        yield from self._results(show, standing, at, stop)

    def report(self, request: FileRequest, folder: Path, stop: threading.Event) -> Iterator[bytes]:
        """Yield progress while one file is made in `folder`; called beside `answers`."""
        origin = Origin(request.case, self.case_named(request.case))
        case = changed_case(origin.case, request.changes, request.trial)
        if isinstance(request, CaseFileRequest):
            write_case_file(case, folder, origin)
            return
        for words in write_report(case, folder, self._threads, stop, origin):
            yield progress(request.number, words)

    def how_sure(self, request: SureRequest, stop: threading.Event) -> Iterator[bytes]:
        """Yield how far a study is, and how sure findings are; called beside `answers`."""
        case = changed_case(self.case_named(request.case), request.changes, request.trial)
        found = yield from studied(request.number, case, self._threads, stop)
        yield sure_answer(request.number, self._findings_of(case, stop), found)

    def _findings_of(self, case: Case, stop: threading.Event) -> tuple[Finding, ...]:
        """Wait until the page was told all findings of a case, and return them."""
        look = unless_stale(stop)
        while (found := self._found) is None or found[0] != case:
            look()
            stop.wait(_LOOK_S)
        return found[1]

    def close(self) -> None:
        """Leave off: the page has gone."""
        if self._following is not None:
            self._following.drop()

    def case_named(self, name: str) -> Case:
        """Return an unchanged case by its name on the page.

        Raises
        ------
        InputError
            There is none.
        """
        if name.startswith(OWN):
            own = self._own(name)
            if own is None:
                raise InputError("the casts of this case are no longer there; bring them again")
            return own
        if not name.startswith(GIVEN_CASE):
            return builtin_case(name)
        if self._given is None:
            raise InputError(
                "no case file was named when the page was started; choose a built-in case"
            )
        if name != self._given_name:
            raise InputError("the page was started with other casts than those asked for")
        return self._given

    def _take_up(self, number: int, case: Case, stop: threading.Event) -> Iterator[bytes]:
        """Mount the teeth of another case, and drop what was computed for the last one."""
        if self._following is not None:
            self._following.drop()
            self._following = None
        before = self._standing
        if before is not None and same_teeth(before.made_for, case):
            casts = remounted(before.teeth, case, (before.casts,), Workers(self._threads))
            move = lower_moved(before.teeth, casts)
            self._standing = replace(before, case=case, casts=casts, move=move)
            self._told &= {"teeth"}
            return
        look = unless_stale(stop)
        if before is not None and same_unchanged_teeth(before.made_for, case):
            yield progress(number, _CHANGING)
            self._stand(case, changed(before.teeth, case, self._threads), look)
            return
        scanned = case.scans is not None
        more = kernels_for(case)
        if is_first_run(maps=True, scans=scanned, more=more):
            yield progress(number, _COMPILING)
        warm_up(look, maps=True, more=more)
        yield progress(number, _making_words(case))
        self._stand(case, teeth_for(case, look, self._threads), look)

    def _stand(self, case: Case, teeth: Teeth, look: Callable[..., None]) -> None:
        """Mount other teeth, and forget what the page was told of those before."""
        look()
        casts = remounted(teeth, case, (), Workers(self._threads))
        scene = moving_casts(casts, case.replacement_teeth)
        scene = replace(scene, parts=(*scene.parts, *parts_before(case, teeth, casts)))
        self._standing = _Standing(case, case, teeth, casts, lower_moved(teeth, casts), scene)
        self._told = set()

    def _pose(
        self, show: Show, standing: _Standing, excursion: Excursion, stop: threading.Event
    ) -> tuple[PoseAt, bytes]:
        """Return where the jaw stands, and the message with what touches and is near."""
        casts = standing.casts
        workers = Workers(self._threads, progress=unless_stale(stop))
        at = pose_asked_for(standing.case, casts, excursion, show.travel_mm, workers)
        opening_rad = at.opening_rad + casts.opening_rad(show.opening_mm)
        stands = opened(at.positions, np.array([opening_rad]))[0]
        near = distance_map(standing.teeth.pair, stands @ standing.move, MAP_LIMIT_MM, workers)
        return at, pose_answer(
            show.number, standing.scene, casts, excursion, at, show.opening_mm, stands, near
        )

    def _results(
        self, show: Show, standing: _Standing, at: PoseAt, stop: threading.Event
    ) -> Iterator[bytes]:
        """Yield what is judged by whole excursions, as far as the page was not told."""
        case, casts, excursion = standing.case, standing.casts, at.excursion
        following = self._following
        assert following is not None
        if "excursions" not in self._told:
            judged = following.judged(stop)
            yield excursions_answer(show.number, case, casts, judged)
            self._told.add("excursions")
        if show.lesson is not None:
            shown = Shown(case, standing.made_for, standing.teeth, casts, at, following)
            yield from self._teacher.answers(show, show.lesson, shown, stop)
        if "rest" not in self._told:
            result = following.result(stop)
            spread = self.case_named(show.case).guidance_spread
            left_out = stale_errors(spread, case.guidance)
            yield rest_answer(show.number, case, casts, result, left_out)
            self._told.add("rest")
            self._found = case, result.findings
        if show.map == "excursion" and excursion != RAISED_BITE:
            near = following.reach(excursion, MAP_LIMIT_MM, stop)
            yield reach_answer(show.number, standing.scene, excursion, near)
        if case.has_loads and "loads" not in self._told:
            sweeps = weighed_sweeps(following.result(stop).sweeps)
            for loads in following.loads(stop):
                yield loads_answer(show.number, case, sweeps, loads)
            self._told.add("loads")


def _making_words(case: Case) -> str:
    """Say what is done until the teeth stand."""
    if case.scans is not None:
        return _SEATING
    return _FORMING if case.generated_path else f"{_MAKING}: {_LONG}"
