"""Samples run by the workers of a Dask cluster that is already there, several samples a task.

A worker gets the subject of a job once, with its first task of it, and the next task while it still
runs the one before. A worker that is lost is the cluster's matter: its tasks are run by others.
"""

import gc
import importlib
import uuid
from collections.abc import Generator, Iterator, Sequence
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from math import inf
from queue import Empty, SimpleQueue
from threading import Thread
from time import monotonic
from typing import Any, Final, TypeAlias

from kinematics.checks import InputError
from kinematics.engine.cluster_check import SameBits
from kinematics.engine.cluster_work import leave_off, run_task, unpacked
from kinematics.engine.hands import LOOK_S, HandLost, Missing
from kinematics.engine.plan import Plan
from kinematics.engine.sharing import Sharing, Task
from kinematics.engine.work import Outcome, Refused, parcel

# Classes of `distributed`, which need not be installed.
Client: TypeAlias = Any
Future: TypeAlias = Any

#: Tasks that a thread of a worker has, with the one that it runs.
AHEAD: Final = 2
#: So long, seconds, an address is tried, a first worker is waited for, and workers that were lost.
_ANSWER_S: Final = 5.0
_FIRST_WORKER_S: Final = 30.0
_WORKERS_BACK_S: Final = 60.0
#: So long, seconds, a cluster may take to answer that it has stopped.
_CLEARED_S: Final = 10.0


@dataclass(frozen=True)
class ClusterHands:
    """Runs samples on a Dask cluster.

    Attributes
    ----------
    address : str
        Of its scheduler, as "tcp://192.0.2.7:8786".
    samples_a_task : int
        Samples that a worker runs before it tells of them, at least 1; what is not told is lost
        when the study is killed.
    """

    address: str
    samples_a_task: int

    def work(self, plan: Plan, missing: Missing) -> Generator[Outcome, None, None]:
        """Yield what is done as it comes in; see `Hands`.

        Raises
        ------
        InputError
            `distributed` is not installed, nobody answers at the address, there are no workers,
            or they would give other bits.
        """
        with (
            _client(self.address) as client,
            closing(_Order(client, self, plan, missing)) as order,
        ):
            yield from order.outcomes()


@contextmanager
def _client(address: str) -> Iterator[Client]:
    """Connect to a cluster for as long as the block lasts."""
    try:
        library = importlib.import_module("distributed")
    except ModuleNotFoundError as error:
        raise InputError(
            "a cluster is reached by the library 'distributed', which is not installed; install it "
            'by: pip install "cuspway[cluster]"'
        ) from error
    client = _connected(library, address)
    if client is None:
        raise InputError(
            f"cluster {address}: no scheduler answers there within {_ANSWER_S:g} s; give the "
            "address that `dask scheduler` shows, such as tcp://192.0.2.7:8786"
        )
    try:
        yield client
    finally:
        with suppress(OSError, TimeoutError):
            client.close(timeout=_ANSWER_S)


def _connected(library: Any, address: str) -> Client | None:
    """Return a client, or None where no scheduler answers.

    A client that came to nothing closes itself when garbage is collected, and waits for ever if
    that happens while another one starts: so it is collected here, where none does.
    """
    for last in (False, True):
        try:
            return library.Client(address, timeout=_ANSWER_S, set_as_default=False)
        except AssertionError:  # its own thread did not start within 10 s: a very busy machine
            if last:
                raise
        except (OSError, ValueError, TypeError):
            break
    gc.collect()
    return None


class _Order:
    """What one client has ordered of a cluster for a study."""

    def __init__(self, client: Client, hands: ClusterHands, plan: Plan, missing: Missing) -> None:
        self._client, self._address, self._plan = client, hands.address, plan
        self._sharing = Sharing(missing, hands.samples_a_task)
        self._study = uuid.uuid4().hex
        self._check = SameBits(client, hands.address, plan, missing, self._study)
        self._parcels: dict[int, Future] = {}
        self._running: dict[Future, tuple[str, Task]] = {}
        self._came: SimpleQueue[Future] = SimpleQueue()
        self._usable: dict[str, int] = {}
        self._looked_s = -inf
        self._last_seen_s = monotonic()

    def outcomes(self) -> Generator[Outcome, None, None]:
        """Yield what comes in until all is done."""
        self._feed()
        while self._running or not self._sharing.is_done:
            came = self._wait()
            if not came:
                yield None
            for outcome in self._gathered(came):
                if isinstance(outcome, Refused):
                    self._sharing.drop(outcome.job)
                yield outcome
            self._feed()

    def close(self) -> None:
        """Take back whatever is ordered, also what is running."""
        unfinished, futures = bool(self._running), [*self._running, *self._parcels.values()]
        self._running.clear()
        self._parcels.clear()
        clearing = Thread(target=self._clear, args=(futures, unfinished), daemon=True)
        clearing.start()
        clearing.join(_CLEARED_S)

    def _clear(self, futures: list[Future], unfinished: bool) -> None:
        """Tell the cluster that nothing is wanted any more; it may be gone, and never answer."""
        with suppress(Exception):
            self._client.cancel(futures)
            if unfinished:
                self._client.run(leave_off, self._study, on_error="ignore")

    def _feed(self) -> None:
        """Give every worker as many tasks as it may have."""
        workers = self._workers()
        busy = {worker: 0 for worker in workers}
        for worker, _ in self._running.values():
            busy[worker] = busy.get(worker, 0) + 1
        # Round by round, so that a few tasks are not all one worker's.
        for level in range(AHEAD * max(workers.values(), default=0)):
            for worker, threads in workers.items():
                if busy[worker] <= level < AHEAD * threads:
                    task = self._sharing.next_for(worker)
                    if task is None:
                        return
                    self._submit(worker, task)
                    busy[worker] += 1

    def _submit(self, worker: str, task: Task) -> None:
        """Order a task of a worker; should that be lost, of any other."""
        where: dict[str, Any] = {"workers": [worker], "allow_other_workers": True, "pure": False}
        if task.job not in self._parcels:
            wanted = parcel(self._plan, task.job)
            self._parcels[task.job] = self._client.submit(unpacked, wanted, **where)
        future = self._client.submit(
            run_task, self._study, task.job, self._parcels[task.job], task.numbers, **where
        )
        self._running[future] = worker, task
        future.add_done_callback(self._came.put)

    def _workers(self) -> dict[str, int]:
        """Return the workers there are, each with its number of threads; new ones are checked.

        Raises
        ------
        InputError
            One of them would give other bits; or there have never been any.
        HandLost
            The cluster is gone, or has had no workers for a while.
        """
        if monotonic() - self._looked_s < LOOK_S:
            return self._usable
        self._looked_s = monotonic()
        try:
            workers = self._check.usable(dict(self._client.nthreads()))
        except (OSError, TimeoutError) as error:
            raise self._gone() from error
        if workers:
            self._last_seen_s = monotonic()
        elif self._running and monotonic() - self._last_seen_s > _WORKERS_BACK_S:
            raise self._gone()
        elif not self._running and monotonic() - self._last_seen_s > _FIRST_WORKER_S:
            raise InputError(
                f"cluster {self._address}: it has no workers; start some, one a core, by: "
                f"dask worker {self._address} --nworkers auto --nthreads 1"
            )
        self._usable = workers
        return workers

    def _wait(self) -> list[Future]:
        """Return what was done, all of it; nothing where nothing is for a while."""
        came = []
        with suppress(Empty):
            came.append(self._came.get(timeout=LOOK_S))
            while True:
                came.append(self._came.get_nowait())
        return came

    def _gathered(self, came: list[Future]) -> Sequence[Outcome]:
        """Return what tasks gave; raise what a sample raised."""
        for future in came:
            if future.status == "error":
                error = future.exception()
                raise self._gone() if type(error).__name__ == "KilledWorker" else error
            if future.status == "cancelled":
                raise self._gone()
        # What was lost with its worker meanwhile is run again: that is waited for.
        outcomes: Sequence[Outcome] = self._client.gather(came)
        for future in came:
            del self._running[future]
        open_jobs = {task.job for _, task in self._running.values()}
        for outcome in outcomes:
            # Its subject is let go as soon as nothing of it runs.
            if outcome is not None and outcome.job not in open_jobs:
                self._parcels.pop(outcome.job, None)
        return outcomes

    def _gone(self) -> HandLost:
        return HandLost(
            f"cluster {self._address}: its scheduler or its workers are gone, or workers ended "
            "again and again as they ran the same samples, most often for want of memory. What was "
            "finished is kept: see to the cluster and run the same study again, and it goes on "
            "from there"
        )
