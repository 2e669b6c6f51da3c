"""What a worker of a cluster is asked to do; these functions are found there by their names."""

from collections.abc import Callable

from kinematics.engine.bits import ground, processor
from kinematics.engine.work import Bench, Finished, Parcel, Refused

#: What this worker works at, for whoever is its client.
_BENCH = Bench()
#: Studies that were stopped: what is left of a task is not run any more.
_STOPPED: set[str] = set()


def unpacked(parcel: Parcel) -> Parcel:
    """Keep a job on a worker, so that its tasks need not bring it along."""
    return parcel


def run_task(study: str, job: int, parcel: Parcel, numbers: range) -> Finished | Refused:
    """Run samples of a job; see `Bench.run`."""
    return _BENCH.run((study, job), job, parcel, numbers, _stopped(study))


def leave_off(study: str) -> None:
    """Stop what is running of a study."""
    _STOPPED.add(study)


def about_worker() -> tuple[dict[str, str], str]:
    """Return what the bits of results depend on here, and the processor."""
    return ground(), processor()


def _stopped(study: str) -> Callable[[], bool]:
    return lambda: study in _STOPPED
