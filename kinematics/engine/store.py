"""What a store of samples offers, and the one that lives in memory."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Protocol

from kinematics.engine.plan import Job, Plan
from kinematics.engine.rows import PackedRow, Table, arrow_table, table_of
from kinematics.engine.same_study import refuse_another_study, study_of


class Store(Protocol):
    """Keeps the samples of one study; each is there at most once."""

    @property
    def notes(self) -> tuple[str, ...]:
        """Sentences on what was found damaged, and what became of it."""

    @contextmanager
    def writing(self, plan: Plan) -> Iterator[None]:
        """Take samples of this plan as long as the block lasts; nobody else may meanwhile.

        Raises
        ------
        InputError
            Another study is kept here, or another process writes.
        """
        yield

    def missing(self, job: Job) -> tuple[range, ...]:
        """Return the samples that are not there yet; none of a refused job."""

    def add(self, job: Job, numbers: range, rows: Sequence[PackedRow]) -> None:
        """Keep samples."""

    def refuse(self, job: Job, text: str) -> None:
        """Remember why a job cannot be run."""

    def table(self, job: Job) -> Table:
        """Return all samples of a job that are there."""

    def refused(self, job: Job) -> str:
        """Return why a job cannot be run; empty where it can, or nobody tried."""


class MemoryStore:
    """Keeps samples as long as the process lives."""

    def __init__(self) -> None:
        self._study: Mapping[str, object] | None = None
        self._rows: dict[str, dict[int, PackedRow]] = {}
        self._refused: dict[str, str] = {}

    @property
    def notes(self) -> tuple[str, ...]:
        """Nothing is ever damaged."""
        return ()

    @contextmanager
    def writing(self, plan: Plan) -> Iterator[None]:
        """Take samples of this plan; see `Store`."""
        study = study_of(plan)
        refuse_another_study("this study", self._study or study, study)
        self._study = study
        yield

    def missing(self, job: Job) -> tuple[range, ...]:
        """Return the samples that are not there yet; none of a refused job."""
        if self.refused(job):
            return ()
        return gaps((range(n, n + 1) for n in sorted(self._rows.get(job.name, ()))), job.count)

    def add(self, job: Job, numbers: range, rows: Sequence[PackedRow]) -> None:
        """Keep samples."""
        self._rows.setdefault(job.name, {}).update(zip(numbers, rows, strict=True))

    def refuse(self, job: Job, text: str) -> None:
        """Remember why a job cannot be run."""
        self._refused[job.name] = text

    def table(self, job: Job) -> Table:
        """Return all samples of a job that are there."""
        rows = self._rows.get(job.name, {})
        numbers = sorted(rows)
        content = arrow_table(numbers, [rows[number] for number in numbers], job.columns)
        return table_of(content, job.columns)

    def refused(self, job: Job) -> str:
        """Return why a job cannot be run; empty where it can, or nobody tried."""
        return self._refused.get(job.name, "")


def gaps(present: Iterator[range], count: int) -> tuple[range, ...]:
    """Return what of range(count) is in no range of some that are sorted and do not overlap."""
    found, reached = [], 0
    for item in present:
        if item.start > reached:
            found.append(range(reached, item.start))
        reached = item.stop
    if reached < count:
        found.append(range(reached, count))
    return tuple(found)
