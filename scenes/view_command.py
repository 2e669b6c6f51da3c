"""What `cuspway view` does: a case in, a window with its casts, until it is closed."""

import argparse
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.checks import InputError, NotConverged
from kinematics.contact.gap_maps import DistanceMap
from kinematics.guidance.excursions import Excursion
from kinematics.live import PoseAt, movements_of
from scenes.display_probe import refuse_without_display
from scenes.film_arguments import FARTHEST_MM, USUAL_SPEED_MM_A_S
from scenes.moving_casts import moves
from scenes.phrases import counted
from scenes.told_results import SIGNALS
from scenes.view_desk import LIMIT_MM, ViewDesk
from scenes.view_keys import FARTHEST, IN_SHORT, PICTURE, PLAY, QUIT, Key, pressed
from scenes.view_marks import contact_marks
from scenes.view_pictures import case_name, keep_picture, picture_name, refuse_unless_folder
from scenes.view_settings import offered
from scenes.view_state import Around, ViewState, at_travel, play, played, reached
from scenes.view_window import Shown, ViewWindow
from scenes.view_words import told_line, words_of

#: How long nothing is looked for where nothing goes on, seconds.
_REST_S: Final = 0.01
#: Longest way that a playing jaw goes from one picture to the next, seconds of its speed.
_LONGEST_S: Final = 0.25
_PATH_ENDS: Final = "The movement ends here: the path goes no farther."
_COMPUTING: Final = "computing: the teeth are formed anew …"


@dataclass(frozen=True)
class ViewOptions:
    """How the window begins.

    Attributes
    ----------
    movement : str
        Of `film_arguments.MOVEMENTS`.
    travel_mm : float
        Where the jaw stands.
    size : (int, int)
        Of the window, pixels.
    pictures : Path
        Folder for pictures.
    threads : int
        How many may compute.
    """

    movement: str
    travel_mm: float
    size: tuple[int, int]
    pictures: Path
    threads: int


def options_of(arguments: argparse.Namespace) -> ViewOptions:
    """Return what the arguments of the command ask for."""
    return ViewOptions(
        arguments.movement,
        arguments.travel,
        arguments.size,
        arguments.pictures,
        arguments.threads,
    )


def view(
    given: Case,
    name: str | None,
    options: ViewOptions,
    progress: Callable[[str], None],
    say: Callable[[str], None],
) -> str:
    """Show the casts of a case in a window until it is closed.

    Parameters
    ----------
    given : Case
        The case.
    name : str or None
        As the user named it.
    options : ViewOptions
        How the window begins.
    progress : callable
        Gets the name of every step when it begins.
    say : callable
        Gets a line whenever the jaw has come to rest elsewhere, and where pictures are.

    Returns
    -------
    str
        How it ended.

    Raises
    ------
    InputError, NotConverged
        A case that cannot be used, no display, a folder that is not there.
    """
    refuse_unless_folder(options.pictures)
    refuse_without_display()
    desk = ViewDesk(given, progress, options.threads)
    progress("opening the window")
    window = ViewWindow(options.size, f"{given.title} - Cuspway")
    try:
        with _asked_to_stop() as stopped:
            showing = _Showing(desk, window, options, case_name(name), say)
            while not (window.closed or stopped() or showing.ended):
                showing.go_on()
    finally:
        window.close()
    return f"The window has been closed; {counted(showing.kept, 'picture')} kept."


@contextmanager
def _asked_to_stop() -> Iterator[Callable[[], bool]]:
    """Give what tells whether a signal came: while a window draws, none may end its work."""
    came: list[int] = []
    before = [signal.signal(number, lambda got, _frame: came.append(got)) for number in SIGNALS]
    try:
        yield lambda: bool(came)
    finally:
        for number, handler in zip(SIGNALS, before, strict=True):
            signal.signal(number, handler)


class _Showing:
    """Goes between keys, what is computed, and what the window draws."""

    def __init__(
        self,
        desk: ViewDesk,
        window: ViewWindow,
        options: ViewOptions,
        name: str,
        say: Callable[[str], None],
    ) -> None:
        self.ended, self.kept = False, 0
        self._desk, self._window, self._folder = desk, window, options.pictures
        self._name, self._say = name, say
        self._message, self._told = IN_SHORT, ""
        self._near: tuple[PoseAt, DistanceMap] | None = None
        self._last_s = time.monotonic()
        vertices = np.concatenate([part.vertices for part in desk.scene.parts])
        self._low, self._high = (
            tuple(np.round(ends).tolist()) for ends in (vertices.min(axis=0), vertices.max(axis=0))
        )
        middle = [round(float(value)) for value in desk.scene.view.centre]
        self._state = ViewState(
            _named(movements_of(desk.case), options.movement),
            options.travel_mm,
            places_mm=(middle[0], 0.0, middle[2]),
            setting=offered(desk.case)[0]["id"],
        )
        self._at = desk.pose(self._state.excursion, self._state.travel_mm)
        self._state = reached(self._state, self._at.travel_mm)
        self._show()

    def go_on(self) -> None:
        """Take keys, go on playing, draw what changed; rest where nothing did."""
        self._window.listen()
        state = self._state
        if state.look and self._window.turned:
            state = replace(state, look="")
        state, message = self._played(state), self._message
        # A setting is taken up before the next key, which may step on from it.
        while self._window.keys and not self.ended and state.changes == self._state.changes:
            state = self._pressed(state, self._window.keys.popleft())
        if state != self._state:
            self._take(state)
        elif message != self._message and not self.ended:
            self._show()
        else:
            time.sleep(_REST_S)

    def _played(self, state: ViewState) -> ViewState:
        now_s = time.monotonic()
        spent_s, self._last_s = now_s - self._last_s, now_s
        if not state.heading:
            return state
        return played(state, USUAL_SPEED_MM_A_S * min(spent_s, _LONGEST_S))

    def _pressed(self, state: ViewState, key: Key) -> ViewState:
        """Return the state after a key; those that do more than change it do that."""
        self._message = ""
        if key.name in QUIT:
            self.ended = True
        elif key.name == PLAY:
            return play(state, state.travel_mm >= self._farthest(state))
        elif key.name == FARTHEST:
            return at_travel(state, FARTHEST_MM)
        elif key.name == PICTURE:
            self._take(state)  # what the keys before it asked for, and without a message
            self._keep()
            return self._state
        else:
            around = Around(self._desk.given, self._desk.case, self._low, self._high)
            return pressed(state, around, key)
        return state

    def _farthest(self, state: ViewState) -> float:
        """Return where the path of a movement ends, or where nobody goes on."""
        return self._desk.pose(state.excursion, FARTHEST_MM).travel_mm - 1e-6

    def _take(self, state: ViewState) -> None:
        """Compute what a state asks for and show it; refused settings stay as they were."""
        before = self._state
        try:
            self._set(state)
        except (InputError, NotConverged) as error:
            self._desk.take_up(before.changes)
            self._message = f"Not done: {'; '.join(str(error).splitlines())}"
            self._say(self._message)
            state = replace(state, changes=before.changes)
            self._set(state)
        self._show()

    def _set(self, state: ViewState) -> None:
        """Mount and move as a state asks."""
        if state.changes != self._state.changes:
            if self._desk.forms_teeth(state.changes):
                self._message = _COMPUTING
                self._show()
                self._message = ""
            self._desk.take_up(state.changes)
        known = movements_of(self._desk.case)
        if state.excursion not in known:
            state = replace(state, excursion=known[0], travel_mm=0.0)
        self._at = self._desk.pose(state.excursion, state.travel_mm)
        self._state = reached(state, self._at.travel_mm)
        if self._state.travel_mm < state.travel_mm:
            self._message = _PATH_ENDS

    def _show(self) -> None:
        """Draw what stands, and tell it on the terminal once the jaw is at rest."""
        state, at, desk = self._state, self._at, self._desk
        near = None
        if state.near:
            if self._near is None or self._near[0] is not at:
                self._near = at, desk.near(at)
            near = self._near[1]
        words = words_of(desk.case, state, at, self._message)
        self._window.put_in(desk.scene)
        move = moves(desk.casts, at.pose)
        self._window.show(Shown(state, move, contact_marks(at), near, LIMIT_MM, words))
        told = told_line(desk.case, state, at)
        if not state.heading and told != self._told:
            self._say(told)
            self._told = told

    def _keep(self) -> None:
        """Keep a picture, and say where it is."""
        try:
            name = picture_name(self._name, self._at)
            path = keep_picture(self._folder, name, self._window.pixels())
        except InputError as error:
            self._message = str(error)
        else:
            self.kept += 1
            self._message = f"Picture kept: {path}"
            self._say(self._message)


def _named(movements: tuple[Excursion, ...], name: str) -> Excursion:
    """Return a movement from MI by the name that the command takes."""
    return next(one for one in movements if one.name.replace(" ", "-") == name)
