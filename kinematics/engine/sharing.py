"""Which samples come next for whom: jobs stay together while there are enough of them for all.

To prepare a job takes longer than a sample. So each worker has a job of its own as long as there
are any left, and only then do several share one.
"""

from collections import deque
from collections.abc import Hashable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Task:
    """Samples of a job, by its place in the plan, that are run one after another."""

    job: int
    numbers: range


class Sharing:
    """Gives every missing sample out once.

    Parameters
    ----------
    missing : mapping of int to tuple of range
        Samples to run of every job, by its place in the plan; jobs are begun in this order.
    longest : int
        Most samples of a task.
    """

    def __init__(self, missing: Mapping[int, tuple[range, ...]], longest: int) -> None:
        self._longest = longest
        self._not_begun = deque((job, deque(runs)) for job, runs in missing.items() if runs)
        self._begun: dict[int, deque[range]] = {}
        self._job_of: dict[Hashable, int] = {}

    def next_for(self, worker: Hashable) -> Task | None:
        """Return the next task for a worker, of the job that it had last if that has any left."""
        job = self._job_of.get(worker)
        if job not in self._begun:
            job = self._another()
        if job is None:
            return None
        self._job_of[worker] = job
        return Task(job, self._cut(job))

    @property
    def is_done(self) -> bool:
        """Whether everything has been given out."""
        return not self._not_begun and not self._begun

    def drop(self, job: int) -> None:
        """Give out no more of a job."""
        self._begun.pop(job, None)

    def _another(self) -> int | None:
        """Begin the next job; where there is none, return the one of which most is left."""
        if self._not_begun:
            job, runs = self._not_begun.popleft()
            self._begun[job] = runs
            return job
        left = {job: sum(map(len, runs)) for job, runs in self._begun.items()}
        return max(left, key=lambda job: left[job], default=None)

    def _cut(self, job: int) -> range:
        """Take some samples off a job that has been begun."""
        runs = self._begun[job]
        run = runs.popleft()
        if run[self._longest :]:
            runs.appendleft(run[self._longest :])
        if not runs:
            del self._begun[job]
        return run[: self._longest]
