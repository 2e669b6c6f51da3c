"""What one process does for a study: it prepares a job once, then runs samples of it."""

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from threading import Lock
from typing import Any

from kinematics.checks import InputError, NotConverged
from kinematics.engine.plan import ColumnKind, Plan, Row
from kinematics.engine.rows import PackedRow, packed


@dataclass(frozen=True)
class Parcel:
    """All that another process needs to run samples of one job; attributes as of job and plan."""

    prepare: Callable[[Any], Any]
    sample: Callable[[Any, int], Row]
    subject: Any
    columns: Mapping[str, ColumnKind]


def parcel(plan: Plan, index: int) -> Parcel:
    """Return what is needed for samples of a job, by its place in the plan."""
    job = plan.jobs[index]
    return Parcel(plan.prepare, plan.sample, job.subject, job.columns)


@dataclass(frozen=True)
class Refused:
    """A job whose subject cannot be prepared, and why."""

    job: int
    text: str


@dataclass(frozen=True)
class Finished:
    """Samples of one job that are done.

    Attributes
    ----------
    job : int
        Place of the job in the plan.
    numbers : range
        Which samples.
    rows : sequence of PackedRow
        In that order.
    """

    job: int
    numbers: range
    rows: Sequence[PackedRow]


#: What comes back from hands; None where nothing did for a while.
Outcome = Finished | Refused | None


class Bench:
    """Holds what was prepared last, so that a job is prepared once however many samples follow.

    Threads of one process may share it: one prepares, the others wait.
    """

    def __init__(self) -> None:
        self._key: Hashable = None
        self._prepared: Any = None
        self._refusal: str | None = None
        self._lock = Lock()

    def run(
        self,
        key: Hashable,
        job: int,
        wanted: Parcel,
        numbers: range,
        is_stopped: Callable[[], bool] = lambda: False,
    ) -> Finished | Refused:
        """Run samples of a job.

        Parameters
        ----------
        key : hashable
            Names the job among all that this process may ever get.
        job : int
            Its place in the plan.
        wanted : Parcel
            What it consists of.
        numbers : range
            Which samples.
        is_stopped : callable
            Asked before each of them; once it says so, the rest is left off.
        """
        prepared, refusal = self._held(key, wanted)
        if refusal is not None:
            return Refused(job, refusal)
        rows: list[PackedRow] = []
        for number in numbers:
            if is_stopped():
                break
            rows.append(packed(wanted.sample(prepared, number), wanted.columns))
        return Finished(job, numbers[: len(rows)], rows)

    def _held(self, key: Hashable, wanted: Parcel) -> tuple[Any, str | None]:
        with self._lock:
            if key != self._key:
                # Gone before the next is made: two at once may not fit into memory.
                self._key = self._prepared = self._refusal = None
                try:
                    self._prepared = wanted.prepare(wanted.subject)
                except (InputError, NotConverged) as error:
                    self._refusal = str(error)
                self._key = key
            return self._prepared, self._refusal
