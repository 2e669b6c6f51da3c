"""A schedule of many workers played through, event by event, with times that were measured.

Workers take tasks as the engine gives them out; one client hands them out and stores what comes
back, one after another, so that workers may have to wait for it.
"""

import heapq
from collections import deque
from dataclasses import dataclass

from kinematics.engine.cluster_hands import AHEAD
from kinematics.engine.sharing import Sharing, Task


@dataclass(frozen=True)
class Load:
    """What is to be done, and how long each part of it takes.

    Attributes
    ----------
    jobs, samples : int
        Jobs, and samples of each.
    prepare_s, sample_s : float
        Seconds of one worker to prepare a job and to run a sample.
    samples_a_task : int
        Samples of a task.
    task_s : float
        Seconds of the client for a task: handed out, received, stored.
    """

    jobs: int
    samples: int
    prepare_s: float
    sample_s: float
    samples_a_task: int
    task_s: float


@dataclass(frozen=True)
class Played:
    """How it went.

    Attributes
    ----------
    time_s : float
        From the beginning until everything is stored.
    sampling, preparing, waiting, ending : float
        Shares of the time of all workers: running samples, preparing jobs, without a task although
        there are some, and without one since there are no more.
    client : float
        Share of the time that the client is busy.
    """

    time_s: float
    sampling: float
    preparing: float
    waiting: float
    ending: float
    client: float


class _Worker:
    """A worker: the job it has prepared, tasks that have reached it, and since when it is idle."""

    def __init__(self) -> None:
        self.job = -1
        self.tasks: deque[tuple[float, Task]] = deque()
        self.idle_since_s: float | None = 0.0


class _Play:
    def __init__(self, load: Load, workers: int) -> None:
        self._load = load
        every = (range(load.samples),)
        self._sharing = Sharing(dict.fromkeys(range(load.jobs), every), load.samples_a_task)
        self._workers = [_Worker() for _ in range(workers)]
        self._done: list[tuple[float, int]] = []
        self._client_s = self._busy_s = 0.0
        self._prepared = 0
        self._waited_s = 0.0

    def run(self) -> Played:
        """Play it through."""
        load, count = self._load, len(self._workers)
        for _ in range(AHEAD):
            for number in range(count):
                self._hand_out(number, 0.0, load.task_s / 2.0)
        while self._done:
            now_s, number = heapq.heappop(self._done)
            worker = self._workers[number]
            worker.idle_since_s = now_s
            if worker.tasks:
                self._begin(number)
            self._hand_out(number, now_s, load.task_s)
        whole_s = self._client_s * count
        sampling = load.jobs * load.samples * load.sample_s / whole_s
        preparing = self._prepared * load.prepare_s / whole_s
        waiting = self._waited_s / whole_s
        return Played(
            self._client_s, sampling, preparing, waiting,
            ending=max(0.0, 1.0 - sampling - preparing - waiting),
            client=self._busy_s / self._client_s,
        )  # fmt: skip

    def _hand_out(self, number: int, now_s: float, takes_s: float) -> None:
        """Let the client receive what a worker has, if anything, and give it a task."""
        self._client_s = max(self._client_s, now_s) + takes_s
        self._busy_s += takes_s
        task = self._sharing.next_for(number)
        if task is not None:
            worker = self._workers[number]
            worker.tasks.append((self._client_s, task))
            if worker.idle_since_s is not None:
                self._begin(number)

    def _begin(self, number: int) -> None:
        """Let an idle worker take up the next task that has reached it, or will."""
        worker, load = self._workers[number], self._load
        reached_s, task = worker.tasks.popleft()
        idle_s = worker.idle_since_s or 0.0
        begin_s = max(idle_s, reached_s)
        self._waited_s += begin_s - idle_s
        worker.idle_since_s = None
        takes_s = len(task.numbers) * load.sample_s
        if task.job != worker.job:
            worker.job = task.job
            self._prepared += 1
            takes_s += load.prepare_s
        heapq.heappush(self._done, (begin_s + takes_s, number))


def play(load: Load, workers: int) -> Played:
    """Return how a load is borne by some workers."""
    return _Play(load, workers).run()
