"""Which samples come next for whom: jobs stay together while there are enough of them for all.

To prepare a job takes longer than a sample. So each worker has a job of its own as long as there
are any left, and only then do several share one. Samples that follow each other have much in
common, so workers that share a job go on from places far from each other.
"""

from collections import deque
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Task:
    """Samples of a job, by its place in the plan, that are run one after another."""

    job: int
    numbers: range


@dataclass
class _Begun:
    """What is left of a job: samples nobody has come to yet, and those to which each comes next."""

    waiting: deque[range]
    ahead_of: dict[Hashable, range] = field(default_factory=dict)

    @property
    def left(self) -> int:
        """Number of samples."""
        return sum(map(len, self.waiting)) + sum(map(len, self.ahead_of.values()))

    def cut(self, worker: Hashable, longest: int) -> range:
        """Take some samples off for a worker."""
        run = self.ahead_of.pop(worker, None) or self._another(longest)
        if run[longest:]:
            self.ahead_of[worker] = run[longest:]
        return run[:longest]

    def _another(self, longest: int) -> range:
        """Return a run nobody has come to, or else the latter half of what most is ahead of."""
        if self.waiting:
            return self.waiting.popleft()
        other = max(self.ahead_of, key=lambda worker: len(self.ahead_of[worker]))
        run = self.ahead_of.pop(other)
        middle = len(run) // 2 if len(run) > longest else 0
        if middle:
            self.ahead_of[other] = run[:middle]
        return run[middle:]


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
        self._begun: dict[int, _Begun] = {}
        self._job_of: dict[Hashable, int] = {}

    def next_for(self, worker: Hashable) -> Task | None:
        """Return the next task for a worker, of the job that it had last if that has any left."""
        job = self._job_of.get(worker)
        if job not in self._begun:
            job = self._another()
        if job is None:
            return None
        self._job_of[worker] = job
        begun = self._begun[job]
        numbers = begun.cut(worker, self._longest)
        if not begun.left:
            del self._begun[job]
        return Task(job, numbers)

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
            self._begun[job] = _Begun(runs)
            return job
        left = {job: begun.left for job, begun in self._begun.items()}
        return max(left, key=lambda job: left[job], default=None)
