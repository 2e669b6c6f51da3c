"""Drawing in processes of their own, while this one computes.

A process that draws fetches the drawing libraries while this one is still busy with the teeth. It
gets its orders and gives its answers through a pipe of its own.
"""

from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from contextlib import contextmanager, suppress
from multiprocessing.connection import Connection
from queue import SimpleQueue
from typing import ParamSpec, TypeVar

from kinematics.engine.processes import signals_as_usual, started

P = ParamSpec("P")
T = TypeVar("T")


class DrawingProcessEndedError(RuntimeError):
    """The process that should have drawn is gone."""


class InLine(Executor):
    """Carries every order out at once, in this process."""

    def submit(self, fn: Callable[P, T], /, *args: P.args, **kwargs: P.kwargs) -> Future[T]:
        """Call a function, and return a future that holds its result already."""
        future: Future[T] = Future()
        future.set_result(fn(*args, **kwargs))
        return future


class _Processes(Executor):
    """Hands every order to a process that has none."""

    def __init__(self, connections: list[Connection]) -> None:
        self.threads = ThreadPoolExecutor(len(connections), "drawing")
        self._idle: SimpleQueue[Connection | None] = SimpleQueue()
        for connection in connections:
            self._idle.put(connection)

    def submit(self, fn: Callable[P, T], /, *args: P.args, **kwargs: P.kwargs) -> Future[T]:
        """Order a call of a top-level function.

        The future raises `DrawingProcessEndedError` where the process ended before the answer.
        """
        return self.threads.submit(self._ask, fn, args, kwargs)

    def _ask(self, fn: Callable[..., T], args: tuple[object, ...], kwargs: dict[str, object]) -> T:
        connection = self._idle.get()
        answer: T
        try:
            if connection is None:
                raise EOFError
            connection.send((fn, args, kwargs))
            answer, error = connection.recv()
        except (EOFError, OSError):
            self._idle.put(None)  # whoever comes next shall not wait either
            raise DrawingProcessEndedError("a drawing process ended unexpectedly") from None
        self._idle.put(connection)
        if error is not None:
            raise error
        return answer


@contextmanager
def drawing_processes(count: int) -> Iterator[Executor]:
    """Start processes that draw; they end with the block, whatever they are doing.

    Parameters
    ----------
    count : int
        How many, at least 1.

    Yields
    ------
    Executor
        Takes top-level functions and what they need; both must be importable and picklable.
    """
    with started(count, _carry_out_orders, {}) as processes:
        executor = _Processes([item.connection for item in processes])
        try:
            yield executor
        finally:
            executor.threads.shutdown(wait=False, cancel_futures=True)


def _carry_out_orders(connection: Connection) -> None:
    """Call what comes through the connection, until nobody orders any more."""
    signals_as_usual()
    with suppress(EOFError, ConnectionError):
        while True:
            fn, args, kwargs = connection.recv()
            answer, error = None, None
            try:
                answer = fn(*args, **kwargs)
            except Exception as raised:  # whoever ordered shall get it
                error = raised
            connection.send((answer, error))
