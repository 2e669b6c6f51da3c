"""Samples run by processes of this machine, one sample at a time in each.

A process gets the subject of a job once, when it takes the job up, and from then on numbers of
samples, a few ahead, so that it never waits for the next.
"""

import signal
import traceback
from collections.abc import Generator, Sequence
from contextlib import ExitStack, suppress
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait
from multiprocessing.reduction import ForkingPickler
from typing import Any, Final

from kinematics.engine.hands import LOOK_S, HandLost, Missing
from kinematics.engine.plan import Plan
from kinematics.engine.processes import Started, signals_as_usual, started
from kinematics.engine.sharing import Sharing, Task
from kinematics.engine.work import Bench, Outcome, Parcel, Refused, parcel

#: So many samples a process has, with the one that it runs.
AHEAD: Final = 3
#: So long, seconds, a process that broke its pipe is waited for, to learn how it ended.
_PATIENCE_S: Final = 2.0
#: One process a core, so one thread a process, also in the libraries that it uses.
_ONE_THREAD: Final = {
    name: "1" for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS")
}


@dataclass(frozen=True)
class LocalHands:
    """Runs samples in a number of processes of its own; of one alone, in this process.

    Attributes
    ----------
    processes : int
        At least 1; no more are started than there are samples.
    """

    processes: int

    def work(self, plan: Plan, missing: Missing) -> Generator[Outcome, None, None]:
        """Yield what is done as it comes in; see `Hands`."""
        samples = sum(len(run) for runs in missing.values() for run in runs)
        sharing = Sharing(missing, 1)
        count = min(self.processes, samples)
        return _here(plan, sharing) if count <= 1 else _elsewhere(plan, sharing, count)


def _here(plan: Plan, sharing: Sharing) -> Generator[Outcome, None, None]:
    """Run all samples in this process."""
    bench = Bench()
    while task := sharing.next_for(None):
        outcome = bench.run(task.job, task.job, parcel(plan, task.job), task.numbers)
        if isinstance(outcome, Refused):
            sharing.drop(task.job)
        yield outcome


@dataclass(eq=False)
class _Hand:
    """A process as it is seen from here: the job that it has, and its tasks, the first running."""

    process: Started
    job: int | None = None
    tasks: list[Task] = field(default_factory=list)
    next: Task | None = None


def _elsewhere(plan: Plan, sharing: Sharing, count: int) -> Generator[Outcome, None, None]:
    """Run all samples in processes started for that."""
    with started(count, serve, _ONE_THREAD) as processes:
        yield from _by(processes, plan, sharing)


class KeptHands:
    """Runs samples in processes that stay from one plan to the next, until it is closed.

    They begin with the first plan that has samples for more than one of them. Not to be used again
    after work on a plan was broken off.

    Parameters
    ----------
    processes : int
        At least 1; of one alone samples are run in this process.
    """

    def __init__(self, processes: int) -> None:
        self._count = processes
        self._processes: list[Started] = []
        self._stack = ExitStack()
        self._plans = 0

    def __enter__(self) -> "KeptHands":
        """Return itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the processes."""
        self._processes = []
        self._stack.close()

    @property
    def have_begun(self) -> bool:
        """Whether the processes stand."""
        return bool(self._processes)

    def work(self, plan: Plan, missing: Missing) -> Generator[Outcome, None, None]:
        """Yield what is done as it comes in; see `Hands`."""
        samples = sum(len(run) for runs in missing.values() for run in runs)
        sharing = Sharing(missing, 1)
        if min(self._count, samples) <= 1:
            return _here(plan, sharing)
        if not self._processes:
            opened = started(self._count, serve, _ONE_THREAD)
            self._processes = self._stack.enter_context(opened)
        self._plans += 1
        return _by(self._processes, plan, sharing, self._plans)


def _by(
    processes: Sequence[Started], plan: Plan, sharing: Sharing, number: int = 0
) -> Generator[Outcome, None, None]:
    """Run all samples in processes that stand; `number` tells this plan from their others."""
    jobs = _Jobs(plan, number)
    hands = [_Hand(item) for item in processes]
    for hand in hands:
        _feed(hand, sharing, jobs)
    while busy := [hand for hand in hands if hand.tasks]:
        ready = wait([hand.process.connection for hand in busy], LOOK_S)
        if not ready:
            yield None
        failure: Exception | None = None
        for hand in (hand for hand in busy if hand.process.connection in ready):
            try:
                outcome = _answer(hand, jobs)
            except Exception as error:  # after what others have finished is kept
                failure = failure or error
                continue
            if isinstance(outcome, Refused):
                sharing.drop(outcome.job)
            _feed(hand, sharing, jobs)
            yield outcome
        if failure is not None:
            raise failure


class _Jobs:
    """Jobs as bytes. The last is kept: when several processes share one, they begin together."""

    def __init__(self, plan: Plan, number: int) -> None:
        self._plan, self._number = plan, number
        self._last: tuple[int, Any] | None = None

    def name(self, job: int) -> str:
        """Return the name of a job."""
        return self._plan.jobs[job].name

    def bytes_of(self, job: int) -> Any:
        """Return a job as a process reads it."""
        if self._last is None or self._last[0] != job:
            self._last = job, ForkingPickler.dumps((self._number, job, parcel(self._plan, job)))
        return self._last[1]


def _feed(hand: _Hand, sharing: Sharing, jobs: _Jobs) -> None:
    """Give a process as many samples as it may have.

    A process that still has something to tell may wait for us to listen, and we for it to read, if
    it got more than a pipe holds; so it gets another job only when it has no task left.
    """
    while len(hand.tasks) < AHEAD:
        hand.next = hand.next or sharing.next_for(hand)
        task = hand.next
        if task is None or (hand.tasks and task.job != hand.job):
            return
        # That a process has ended is noticed when all that it told before has been heard.
        with suppress(ConnectionError):
            if task.job != hand.job:
                hand.process.connection.send_bytes(jobs.bytes_of(task.job))
                hand.job = task.job
            hand.process.connection.send(task.numbers)
        hand.tasks.append(task)
        hand.next = None


def _answer(hand: _Hand, jobs: _Jobs) -> Outcome:
    """Return what a process has to tell; raise what its sample raised, or that it has ended."""
    try:
        answer: Outcome | Exception = hand.process.connection.recv()
    except (EOFError, ConnectionError) as error:
        task = hand.tasks[0]
        where = f" while it ran sample {task.numbers[0]} of job '{jobs.name(task.job)}'"
        raise HandLost(_loss(hand.process, where)) from error
    if isinstance(answer, Exception):
        raise answer
    del hand.tasks[0]
    return answer


def _loss(item: Started, where: str) -> str:
    item.process.join(_PATIENCE_S)
    code = item.process.exitcode or 0
    names = {number.value: number.name for number in signal.Signals}
    how = names.get(-code, f"signal {-code}") if code < 0 else f"code {code}"
    killed = (
        "; a process that is killed like this most often found no memory left" if code == -9 else ""
    )
    return (
        f"a process of this study ended by itself ({how}){where}{killed}. What was finished "
        "is kept: run the same study again with fewer processes, and it goes on from there"
    )


def serve(connection: Connection) -> None:
    """Run samples whose numbers come through the connection, until nobody wants any more."""
    signals_as_usual()
    bench = Bench()
    with suppress(EOFError, ConnectionError):
        while True:
            try:
                message: tuple[int, int, Parcel] | range = connection.recv()
                if isinstance(message, tuple):
                    number, job, wanted = message  # comes before its samples
                    continue
                answer: Outcome | Exception = bench.run((number, job), job, wanted, message)
            except (EOFError, ConnectionError):
                raise
            except Exception as error:
                answer = _portable(error)
            connection.send(answer)


def _portable(error: Exception) -> Exception:
    """Return an error that another process can read, with its traceback as a note."""
    told = "".join(traceback.format_exception(error))
    try:
        error.add_note(told)
        copied: Exception = ForkingPickler.loads(ForkingPickler.dumps(error))
        return copied
    except Exception:  # some errors cannot be made again from what they hold
        return RuntimeError(told)
