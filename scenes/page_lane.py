"""A thread that answers one request at a time, and of those that wait only the newest."""

import threading
from collections.abc import Callable, Iterable

from kinematics.checks import InputError, NotConverged
from scenes.page_messages import Said, fault

Request = Said


class Stale(Exception):
    """What was being computed is no longer wanted."""


class Failed(RuntimeError):
    """A fault of the program in one sentence for the page; the terminal has been told the rest."""


def unless_stale(stop: threading.Event) -> Callable[..., None]:
    """Return what ends long work as soon as it is no longer wanted: a progress callback.

    Whatever it is told is let go; it raises `Stale` once `stop` is set.
    """

    def look(*_told: object) -> None:
        if stop.is_set():
            raise Stale

    return look


class Job:
    """One request, from when it came until it is answered or no longer wanted."""

    def __init__(self, request: Request | None) -> None:
        self.request = request
        self.stop = threading.Event()
        self.sent = threading.Semaphore(0)

    def drop(self) -> None:
        """Let no more of it be computed or sent."""
        self.stop.set()
        self.sent.release()  # its thread may be waiting


#: Yields the answers to a request, or to none: what is to be done before any.
Work = Callable[[Request | None, threading.Event], Iterable[bytes]]
Post = Callable[[Job, bytes], None]


class Lane:
    """A thread that answers one request at a time; of those that wait only the newest.

    Parameters
    ----------
    work : callable
        Yields the answers of a request; in the thread.
    post : callable
        Gets every answer; in the thread.
    ended : callable
        Called last of all; in the thread.
    complain : callable
        Gets every error that the program is to blame for.
    """

    def __init__(
        self,
        work: Work,
        post: Post,
        ended: Callable[[], None],
        complain: Callable[[Exception], None],
    ) -> None:
        self._work, self._post, self._ended, self._complain = work, post, ended, complain
        self._change = threading.Condition()
        self._next: Job | None = None
        self._newest: Job | None = None
        self._over = False
        self._thread: threading.Thread | None = None

    def offer(self, request: Request | None) -> None:
        """Answer this next; what was asked before is no longer wanted."""
        job = Job(request)
        with self._change:
            if self._over:
                return
            if self._newest is not None:
                self._newest.drop()
            self._newest = self._next = job
            self._change.notify()
        if self._thread is None:
            # A daemon: whatever it computes must not keep the program from ending.
            self._thread = threading.Thread(target=self._run, daemon=True)
            self._thread.start()

    def end(self) -> bool:
        """Answer nothing more; return whether there is a thread, which then ends."""
        with self._change:
            self._over = True
            if self._newest is not None:
                self._newest.drop()
            self._change.notify()
        return self._thread is not None

    def _run(self) -> None:
        while (job := self._take()) is not None:
            self._answer(job)
        self._ended()

    def _take(self) -> Job | None:
        with self._change:
            self._change.wait_for(lambda: self._next is not None or self._over)
            job, self._next = self._next, None
            return None if self._over else job

    def _answer(self, job: Job) -> None:
        number = job.request.number if job.request else None
        try:
            for message in self._work(job.request, job.stop):
                self._post(job, message)
                # A desk goes on after an answer only if the page has got it: it may remember that.
                job.sent.acquire()
                if job.stop.is_set():
                    return
        except Stale:
            return
        except (InputError, NotConverged) as error:  # both name the settings that do not fit
            keys: tuple[str, ...] = getattr(error, "keys", ())
            self._post(job, fault(number, str(error), keys))
        except Failed as error:
            self._post(job, fault(number, str(error)))
        except Exception as error:  # the outermost place of this thread: the page is told
            if not job.stop.is_set():
                self._complain(error)
                what = f"{type(error).__name__}: {error}".partition("\n")[0]
                told = f"internal error, a fault of the program: {what}"
                self._post(job, fault(number, told))
