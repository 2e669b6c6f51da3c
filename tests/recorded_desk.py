"""A desk with real settings and cases that answers with pictures and results recorded once.

It refuses what the engine refuses before it computes, and takes no time for the rest: for tests of
how the page is handled, not of what it says.
"""

import threading
from contextlib import contextmanager
from functools import cache

from kinematics.case_changes import changed_case
from scenes.case_places import DEFAULT_CASE
from scenes.page_desk import Desk
from scenes.page_frames import arrays_of, frame, header_of
from scenes.page_messages import first_show
from scenes.page_results import movements_of
from scenes.page_server import served_files
from scenes.page_welcome import case_answer
from tests.running_page import running_page

COARSE = {"dentition.triangles_per_arch": 15_000}


@cache
def recording():
    """Return what the engine answers to the first state on coarse teeth: header, arrays by kind."""
    desk = Desk(1, None)
    show = first_show(DEFAULT_CASE).model_copy(update={"changes": COARSE, "map": "excursion"})
    heard = [(header_of(m), arrays_of(m)) for m in desk.answers(show, threading.Event())]
    desk.close()
    return {header["kind"]: (header, arrays) for header, arrays in heard}


class RecordedDesk(Desk):
    """Answers any state with the first one's picture, under the names of what was asked."""

    def __init__(self):
        super().__init__(1, None)
        self._recorded = recording()
        self._known = {}

    def answers(self, show, stop):
        """Yield the case as it is asked for, and the rest as it was recorded."""
        base = self.case_named(show.case)
        case = changed_case(base, show.changes, show.trial)
        named = show.case, movements_of(case)
        if self._is_new("case", named):
            yield case_answer(show.number, show.case, base, case)
        if self._is_new("teeth", show.case):
            yield self._again("teeth", show)
        yield self._again(
            "pose", show, movement=show.movement, start=show.start,
            travel_mm=show.travel_mm, opened_mm=show.opening_mm,
        )  # fmt: skip
        if self._is_new("rest", case):
            follow = case.has_loads
            yield self._again("excursions", show, loads_follow=follow)
            yield self._again("rest", show, loads_follow=follow)
            if follow:
                yield self._again("loads", show)
        if show.map == "excursion":
            yield self._again("reach", show, movement=show.movement, start=show.start)

    def _is_new(self, kind, what):
        known = self._known.get(kind) == what
        self._known[kind] = what
        return not known

    def _again(self, kind, show, **changes):
        header, arrays = self._recorded[kind]
        return frame({**header, "number": show.number, **changes}, arrays)


@contextmanager
def recorded_page(guard=None):
    """Run the server of the page with recorded desks; `guard`: see `running_page`."""
    recording()
    with _page(RecordedDesk, guard) as running:
        yield running


@contextmanager
def engine_page():
    """Run the server of the page with the engine itself."""
    with _page(lambda: Desk(1, None), None) as running:
        yield running


def _page(make_desk, guard):
    first = first_show(DEFAULT_CASE)
    return running_page(make_desk, files=served_files(), first=first, guard=guard)
