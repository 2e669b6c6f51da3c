"""A desk with real settings and cases that answers with pictures and results recorded once.

It refuses what the engine refuses before it computes, and takes no time for the rest: for tests of
how the page is handled, not of what it says.
"""

import threading
from contextlib import contextmanager
from functools import cache
from html import escape

from kinematics.case_changes import changed_case
from kinematics.case_file import case_toml
from kinematics.live import movements_of
from scenes.case_places import DEFAULT_CASE
from scenes.check_command import REPORT_FILE
from scenes.page_desk import Desk
from scenes.page_frames import arrays_of, frame, header_of
from scenes.page_messages import CaseFileRequest, first_show, progress
from scenes.page_report import Origin
from scenes.page_server import served_files
from scenes.page_welcome import case_answer
from tests.running_page import running_page
from tests.thinned_picture import thinned

_PATIENCE_S = 60.0
COARSE = {"dentition.triangles_per_arch": 15_000}


@cache
def recording():
    """Return what the engine answers to the first state on coarse teeth: header, arrays by kind."""
    desk = Desk(1, None)
    show = first_show(DEFAULT_CASE).model_copy(update={"changes": COARSE, "map": "excursion"})
    heard = [(header_of(m), arrays_of(m)) for m in desk.answers(show, threading.Event())]
    desk.close()
    return {header["kind"]: (header, arrays) for header, arrays in heard}


@cache
def coarser_recording():
    """Return the same with few triangles in the picture."""
    return thinned(recording())


class RecordedDesk(Desk):
    """Answers any state with the first one's picture, under the names of what was asked.

    `recorded`: see `recording`; the coarser one when left out.
    """

    def __init__(self, recorded=None):
        super().__init__(1, None)
        self._recorded = recorded or coarser_recording()
        #: What the page was told last, by kind.
        self._known = {}
        self._asked = threading.Event()

    def answers(self, show, stop):
        """Yield the case as it is asked for, and the rest as it was recorded."""
        self._asked.set()
        base = self.case_named(show.case)
        case = changed_case(base, show.changes, show.trial)
        named = show.case, movements_of(case)
        told = [case_answer(show.number, show.case, base, case)]
        yield from self._unless_known("case", named, told)
        yield from self._unless_known("teeth", show.case, [self._again("teeth", show)])
        yield self._again(
            "pose", show, movement=show.movement, start=show.start,
            travel_mm=show.travel_mm, opened_mm=show.opening_mm,
        )  # fmt: skip
        follow = case.has_loads
        kinds = ("excursions", "rest", *(("loads",) if follow else ()))
        results = (self._again(kind, show, **_following(kind, follow)) for kind in kinds)
        yield from self._unless_known("rest", case, results)
        if show.map == "excursion":
            yield self._again("reach", show, movement=show.movement, start=show.start)

    def report(self, request, folder, stop):
        """Yield progress; of a report, which takes long, write its case, when a state was shown."""
        if isinstance(request, CaseFileRequest):
            yield from super().report(request, folder, stop)
            return
        self._asked.clear()
        yield progress(request.number, "drawing")
        assert self._asked.wait(_PATIENCE_S), "no state was asked for while a report was made"
        base = self.case_named(request.case)
        content = escape(case_toml(changed_case(base, request.changes, request.trial)))
        name = f"{Origin(request.case, base).stem}{REPORT_FILE}"
        (folder / name).write_text(f"<!doctype html><pre>{content}</pre>", "utf-8")

    def _unless_known(self, kind, what, messages):
        """Yield messages that the page has not been told last; when it was, it knows them."""
        if self._known.get(kind) == what:
            return
        self._known.pop(kind, None)  # a newer state may come in between
        yield from messages
        self._known[kind] = what

    def _again(self, kind, show, **changes):
        header, arrays = self._recorded[kind]
        return frame({**header, "number": show.number, **changes}, arrays)


def _following(kind, follow):
    return {} if kind == "loads" else {"loads_follow": follow}


@contextmanager
def recorded_page(guard=None, coarser=True):
    """Run the server of the page with recorded desks; `guard`: see `running_page`.

    `coarser`: with few triangles, for who does not look at the casts.
    """
    recorded = coarser_recording() if coarser else recording()
    with _page(lambda: RecordedDesk(recorded), guard) as running:
        yield running


@contextmanager
def engine_page():
    """Run the server of the page with the engine itself."""
    with _page(lambda: Desk(1, None), None) as running:
        yield running


def _page(make_desk, guard):
    first = first_show(DEFAULT_CASE)
    return running_page(make_desk, files=served_files(), first=first, guard=guard)
