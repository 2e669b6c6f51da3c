"""Run what is missing of a study, store it as it comes in, and tell how far it is."""

from collections.abc import Callable, Mapping
from typing import Final

from kinematics.checks import InputError
from kinematics.engine.hands import Hands
from kinematics.engine.plan import Plan
from kinematics.engine.progress import Pace, Progress
from kinematics.engine.store import Store
from kinematics.engine.work import Finished, Outcome

#: Rounds after which samples that cannot be kept are given up.
_ROUNDS: Final = 3
Tell = Callable[[Progress], None]


def run(plan: Plan, store: Store, hands: Hands, progress: Tell) -> None:
    """Run all samples of a plan that are not in the store.

    Whatever ends it, what was finished before is in the store, once, and the next call goes on
    from there; results are the same bits as if nothing had happened.

    Parameters
    ----------
    plan : Plan
        What is to be run.
    store : Store
        Where finished samples are kept. A job whose subject cannot be prepared is refused there
        with what was said, and the others go on.
    hands : Hands
        Who runs them.
    progress : callable
        Told at the beginning, whenever samples were stored, and when nothing came for a while.
        What it raises stops the work.

    Raises
    ------
    InputError
        The store holds another study or is in use, cannot be written, or hands cannot be had.
    HandLost
        A process that ran samples ended.
    KeyboardInterrupt
        Ctrl-C.
    """
    with store.writing(plan):
        telling = _Telling(plan, store, progress)
        for _ in range(_ROUNDS):
            # That a file is damaged may only be found when it is merged: look again at the end.
            missing = {index: store.missing(job) for index, job in enumerate(plan.jobs)}
            telling.begin(missing)
            if not any(missing.values()):
                return
            outcomes = hands.work(plan, missing)
            try:
                for outcome in outcomes:
                    _keep(plan, store, outcome)
                    telling.came(outcome)
            finally:
                outcomes.close()
        if any(store.missing(job) for job in plan.jobs):
            raise InputError(" ".join(["samples do not stay as they are written.", *store.notes]))


def _keep(plan: Plan, store: Store, outcome: Outcome) -> None:
    if isinstance(outcome, Finished):
        store.add(plan.jobs[outcome.job], outcome.numbers, outcome.rows)
    elif outcome is not None:
        store.refuse(plan.jobs[outcome.job], outcome.text)


class _Telling:
    """Keeps account of what is done, and tells it."""

    def __init__(self, plan: Plan, store: Store, progress: Tell) -> None:
        self._plan, self._store, self._progress = plan, store, progress
        self._pace = Pace()
        self._job = ""
        self._left: dict[int, int] = {}
        self._total = 0

    def begin(self, missing: Mapping[int, tuple[range, ...]]) -> None:
        """Take over what is missing, and tell."""
        self._left = {index: sum(map(len, runs)) for index, runs in missing.items()}
        self._total = sum(job.count for job in self._plan.jobs if not self._store.refused(job))
        self._tell()

    def came(self, outcome: Outcome) -> None:
        """Take over what came, and tell."""
        if isinstance(outcome, Finished):
            self._left[outcome.job] -= len(outcome.numbers)
            self._pace.came(len(outcome.numbers))
        elif outcome is not None and outcome.job in self._left:
            self._total -= self._plan.jobs[outcome.job].count
            del self._left[outcome.job]  # several processes may find the same
        if outcome is not None:
            self._job = self._plan.jobs[outcome.job].name
        self._tell()

    def _tell(self) -> None:
        left = sum(self._left.values())
        self._progress(
            Progress(
                done=self._total - left,
                total=self._total,
                job=self._job,
                spent_s=self._pace.spent_s,
                left_s=self._pace.left_s(left),
                notes=self._store.notes,
            )
        )
