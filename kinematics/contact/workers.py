"""Who does the work: threads, the scratch memory of each, and how it is watched and stopped."""

import math
import operator
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_EXCEPTION, Future, ThreadPoolExecutor, wait
from contextlib import contextmanager
from threading import Event
from typing import Final, TypeVar

import numpy as np
from numpy.typing import NDArray

from kinematics.checks import InputError
from kinematics.contact.kept_poses import KeptPoses, Rows
from kinematics.contact.pair import Pair
from kinematics.conventions import Floats, Ints
from kinematics.geometry.kernels.moved_nodes import MOVED
from kinematics.geometry.kernels.watching import STOP

PARTS_A_THREAD: Final = 4
#: Moved nodes kept at a time; more are moved anew when they are needed again.
MOVED_NODES: Final = 8192
#: A single pose is not worth a thread of its own, which lets Ctrl-C through at once.
AT_ONCE: Final = 1
LOOK_S: Final = 0.01

#: What one thread knows of the upper's nodes; the kernels that read it say more.
ClosingScratch = tuple[NDArray[np.int32], Ints, NDArray[np.float32]]
#: What a kernel reads and writes while it runs; see `kernels.watching`.
Watch = tuple[Ints, int]
Block = Callable[[int, int, Watch], None]
Progress = Callable[[int, int], None]
_Result = TypeVar("_Result")


class _LeftOff(Exception):
    """Work that is no longer wanted, since other work beside it failed or was stopped."""


class Workers:
    """A number of threads that share prepared pairs but no scratch.

    Results do not depend on the number of threads: each pose is computed by one of them, and what
    one pose leaves behind only speeds up the next.

    Parameters
    ----------
    threads : int
        1 to 256.
    progress : callable, optional
        Gets how many steps are done and of how many, a hundred times a second, in the thread that
        asked for the work. What it raises stops the work.
    in_place : bool
        Whether the thread that asks does the work itself, of one thread without progress. Short
        work is done sooner so, but Ctrl-C waits for each part of it.
    """

    def __init__(
        self,
        threads: int = 1,
        progress: Progress | None = None,
        in_place: bool = False,
        keeps_poses: bool = False,
    ) -> None:
        try:
            number = operator.index(threads)
        except TypeError as error:
            raise InputError(f"threads = {threads!r}: must be a whole number, 1 to 256") from error
        if not 1 <= number <= 256:
            raise InputError(f"threads = {number}: must be 1 to 256")
        self.threads = number
        self.progress = progress
        self._longest_in_place = math.inf if in_place and number == 1 else AT_ONCE
        self._kept = KeptPoses() if keeps_poses else None
        self._spare: list[ClosingScratch] = []
        self._pool: ThreadPoolExecutor | None = None

    def rows(
        self,
        pair: Pair,
        question: tuple[object, ...],
        asked: Sequence[Floats],
        find: Callable[[Ints], Rows],
    ) -> Rows:
        """Return what `find` finds in some poses, a row each; see `KeptPoses.rows`."""
        if self._kept is None:
            return find(np.arange(len(asked[0])))
        return self._kept.rows(pair, question, asked, find)

    @contextmanager
    def closing_scratch(self, pair: Pair) -> Iterator[ClosingScratch]:
        """Lend one thread memory for closures; it is kept for the next that asks."""
        nodes = len(pair.upper.arrays.links)
        scratch = self._spare.pop() if self._spare else None
        if scratch is None or len(scratch[0]) != nodes:
            scratch = (
                np.zeros(nodes, dtype=np.int32),
                np.array([1, 0, -1, -1, -1, -1]),
                np.empty((MOVED_NODES, MOVED), dtype=np.float32),
            )
        yield scratch
        self._spare.append(scratch)

    def run(self, count: int, block: Block, shortest_part: int, steps_each: int = 1) -> None:
        """Call `block(first, last, watch)` on contiguous parts of range(count).

        Several parts a thread, since poses near MI take many times as long as others; not too
        short ones, since each pose makes the next one quicker. A block counts its steps in
        `watch`, `steps_each` for each of the `count`, and leaves off when told to.

        Raises
        ------
        KeyboardInterrupt
            Ctrl-C; every thread has then left off within one step.
        """
        total = count * steps_each
        units = -(-count // shortest_part)
        parts = max(1, min(PARTS_A_THREAD * self.threads, units)) if self.threads > 1 else 1
        state = np.zeros(1 + parts, dtype=np.int64)
        if self.progress is None and total <= self._longest_in_place:
            if count:
                block(0, count, (state, 1))
            return
        cuts = [min(count, units * i // parts * shortest_part) for i in range(parts + 1)]
        if self._pool is None:
            self._pool = ThreadPoolExecutor(self.threads)
        # Parts run as soon as they are ordered, so an interrupt may come between two orders.
        try:
            orders = [
                self._pool.submit(block, cuts[i], cuts[i + 1], (state, 1 + i)) for i in range(parts)
            ]
            self._watch(orders, state, total)
        except BaseException:
            state[STOP] = 1
            self._pool.shutdown(cancel_futures=True)
            self._pool = None
            raise

    def side_by_side(self, tasks: Sequence[Callable[["Workers"], _Result]]) -> list[_Result]:
        """Return what some tasks give, in their order; none of them needs another.

        Each gets workers to use: of several threads every task has one, which suits tasks that
        each do much in turn. Progress is told in tasks.

        Raises
        ------
        KeyboardInterrupt
            Ctrl-C, or whatever a task raised; what still runs leaves off at its next step.
        """
        if self.threads == 1:
            return [task(self) for task in tasks]
        unwanted = Event()

        def leave_off(done: int, total: int) -> None:
            if unwanted.is_set():
                raise _LeftOff

        with ThreadPoolExecutor(self.threads) as pool:
            orders = [pool.submit(task, Workers(1, leave_off)) for task in tasks]
            try:
                pending = set(orders)
                while pending:
                    done, pending = wait(pending, LOOK_S, FIRST_EXCEPTION)
                    for order in done:
                        order.result()
                    if self.progress is not None:
                        self.progress(len(orders) - len(pending), len(orders))
            except BaseException:
                unwanted.set()
                pool.shutdown(wait=False, cancel_futures=True)
                raise
        return [order.result() for order in orders]

    def _watch(self, orders: list[Future[None]], state: Ints, total: int) -> None:
        """Wait until all is done, telling how far it is; raise what a block raised."""
        pending = set(orders)
        while pending:
            done, pending = wait(pending, LOOK_S, FIRST_EXCEPTION)
            for order in done:
                order.result()
            if self.progress is not None:
                self.progress(int(state[STOP + 1 :].sum()), total)


def usable(workers: object) -> Workers:
    """Return the workers given, or a single one where there are none.

    Raises
    ------
    InputError
        Something else was given.
    """
    if workers is None:
        return Workers()
    if not isinstance(workers, Workers):
        raise InputError(f"workers = {workers!r}: give Workers(n), n threads, or nothing")
    return workers
