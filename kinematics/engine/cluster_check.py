"""Would workers of a cluster give the same bits as this machine? Those that would not are named."""

from collections.abc import Mapping
from typing import Any

from kinematics.checks import InputError
from kinematics.engine.bits import differences, ground, processor
from kinematics.engine.cluster_work import about_worker, run_task
from kinematics.engine.hands import Missing
from kinematics.engine.plan import Plan
from kinematics.engine.work import Bench, Finished, Outcome, parcel


class SameBits:
    """Checks every worker once: its versions, and on another processor one sample, bit by bit.

    Parameters
    ----------
    client : distributed.Client
        Of the cluster.
    address : str
        Of the cluster, for messages.
    plan, missing
        What is to be run; a sample of the first job that lacks any is tried.
    study : str
        Names the study among all that workers may ever get.
    """

    def __init__(self, client: Any, address: str, plan: Plan, missing: Missing, study: str) -> None:
        self._client, self._address, self._plan, self._study = client, address, plan, study
        self._job, runs = next((job, runs) for job, runs in missing.items() if runs)
        self._numbers = runs[0][:1]
        self._ground = ground()
        self._processors = {processor()}
        self._checked: set[str] = set()
        self._here: Outcome = None

    def usable(self, workers: Mapping[str, int]) -> dict[str, int]:
        """Return those workers, of some by address, that are there and were checked.

        Raises
        ------
        InputError
            One of them gives other bits.
        """
        new = [worker for worker in workers if worker not in self._checked]
        found = self._client.run(about_worker, workers=new, on_error="return") if new else {}
        for worker, told in found.items():
            if isinstance(told, OSError):
                continue  # has left meanwhile
            if isinstance(told, BaseException):
                raise InputError(
                    f"cluster {self._address}: worker {worker} cannot run studies ({told}); "
                    "install the same version of cuspway there"
                )
            self._compare(worker, *told)
            self._checked.add(worker)
        return {worker: workers[worker] for worker in workers if worker in self._checked}

    def _compare(self, worker: str, its_ground: Mapping[str, str], its_processor: str) -> None:
        if differ := differences(self._ground, its_ground):
            raise InputError(
                f"cluster {self._address}: results of worker {worker} might differ in bits, since "
                f"it has other versions ({differ}); install the same ones there and here"
            )
        if its_processor in self._processors:
            return
        if differ := self._tried(worker):
            raise InputError(
                f"cluster {self._address}: worker {worker} has another processor "
                f"({its_processor}, here {processor()}) and gives other bits ({differ}); use "
                "workers with the processor of this machine, or run the study on one of theirs"
            )
        self._processors.add(its_processor)

    def _tried(self, worker: str) -> str:
        """Run one sample here and there; return what differs, empty if nothing does."""
        wanted = parcel(self._plan, self._job)
        if self._here is None:
            self._here = Bench().run(self._study, self._job, wanted, self._numbers)
        arguments = (self._study, self._job, wanted, self._numbers)
        there = self._client.submit(run_task, *arguments, workers=[worker], pure=False).result()
        if repr(there) == repr(self._here):  # not ==: to that, NaN differs and -0.0 does not
            return ""
        if isinstance(there, Finished) and isinstance(self._here, Finished):
            pairs = zip(wanted.columns, self._here.rows[0], there.rows[0], strict=True)
            name, ours, theirs = next(item for item in pairs if repr(item[1]) != repr(item[2]))
            return f"{name}: {ours!r} here, {theirs!r} there"
        return "one of them cannot prepare it"
