"""Excursions followed and judged in a thread of their own, while the page moves the jaw."""

import threading
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor, TimeoutError
from typing import Final, TypeVar

import numpy as np

from kinematics.case import Case
from kinematics.case_excursions import border_tracks
from kinematics.checkup import on_scans, weighed, weighed_sweeps
from kinematics.checkup_result import Checkup
from kinematics.contact.envelope import Side, envelope
from kinematics.contact.gap_maps import DistanceMap
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.examining import examined
from kinematics.guidance.excursions import Excursion
from kinematics.live import Judged, excursions_judged
from kinematics.mounting import Teeth
from kinematics.planning.base_loads import ExcursionLoads
from kinematics.tracks.from_tracks import placed_in
from scenes.page_lane import Stale, unless_stale

T = TypeVar("T")

#: How often it is asked whether an answer is still wanted.
_LOOK_S: Final = 0.005


class Following:
    """What follows from the settings of a case, computed from when this is made.

    Parameters
    ----------
    case : Case
        What is asked for.
    teeth : Teeth
        Its teeth.
    casts : MountedCasts
        The same on its guidance.
    threads : int
        How many threads may compute; results do not depend on it.
    """

    def __init__(self, case: Case, teeth: Teeth, casts: MountedCasts, threads: int) -> None:
        self._case, self._teeth, self._casts = case, teeth, casts
        self._dropped = threading.Event()
        self._look = unless_stale(self._dropped)
        self._workers = Workers(threads, progress=self._look)
        self._thread = ThreadPoolExecutor(1)
        self._judged: Future[Judged] = self._thread.submit(self._judge)
        self._result: Future[Checkup] | None = None
        self._weighing: Future[ExcursionLoads] | None = None
        self._weighed: list[ExcursionLoads] = []

    def drop(self) -> None:
        """Leave off: nobody wants it any more."""
        self._dropped.set()
        self._thread.shutdown(wait=True, cancel_futures=True)
        # What was raised in its thread refers to this object, and would keep all results alive.
        self._judged, self._result, self._weighing = Future(), None, None

    def judged(self, stop: threading.Event) -> Judged:
        """Wait for the three main excursions and what is judged by them."""
        return _waited_for(self._judged, stop)

    def result(self, stop: threading.Event) -> Checkup:
        """Wait for everything that the case is asked for."""
        return _waited_for(self._whole(), stop)

    def loads(self, stop: threading.Event) -> Iterator[tuple[ExcursionLoads, ...]]:
        """Yield the loads of all excursions so far, each time that one more is weighed.

        One at a time, so that what is asked for meanwhile waits for one excursion at most. What
        is not taken, since nobody goes on after it, is yielded again to the next who asks.
        """
        found = self.result(stop)
        sweeps = weighed_sweeps(found.sweeps)
        while len(self._weighed) < len(sweeps):
            if self._weighing is None:
                sweep = sweeps[len(self._weighed)]
                self._weighing = self._thread.submit(self._weigh, found, sweep)
            loads = _waited_for(self._weighing, stop)
            yield (*self._weighed, loads)
            self._weighed.append(loads)
            self._weighing = None

    def reach(self, excursion: Excursion, limit_mm: float, stop: threading.Event) -> DistanceMap:
        """Wait for the least distance of every vertex over the judged poses of an excursion."""
        result = self._whole()
        return _waited_for(self._thread.submit(self._reach, result, excursion, limit_mm), stop)

    def _whole(self) -> Future[Checkup]:
        """Return what is computed when it is asked for, so as not to delay what comes before."""
        if self._result is None:
            self._result = self._thread.submit(self._complete)
        return self._result

    def _judge(self) -> Judged:
        return excursions_judged(self._case, self._casts, self._workers)

    def _complete(self) -> Checkup:
        borders = border_tracks(self._casts)
        placed = placed_in(self._case.tracked)
        found = examined(self._case, self._casts, borders, self._workers, self._look, placed=placed)
        return on_scans(found, self._teeth, self._casts)

    def _weigh(self, found: Checkup, sweep: Sweep) -> ExcursionLoads:
        return next(weighed(self._case, self._casts, found.frameworks, (sweep,), self._workers))

    def _reach(self, result: Future[Checkup], excursion: Excursion, limit_mm: float) -> DistanceMap:
        sweeps = result.result().sweeps
        found = next(item for item in sweeps if item.excursion == excursion)
        poses = np.ascontiguousarray(found.poses[~found.crossover])
        upper, lower = (
            envelope(self._casts.pair, poses, limit_mm, side, workers=self._workers)
            for side in Side
        )
        return DistanceMap(upper.least_mm, lower.least_mm)


def _waited_for(future: Future[T], stop: threading.Event) -> T:
    """Return what a future holds.

    Raises
    ------
    Stale
        Soon after `stop` is set; the work goes on.
    """
    while True:
        try:
            return future.result(_LOOK_S)
        except TimeoutError:
            if future.done():
                raise
            if stop.is_set():
                raise Stale from None
