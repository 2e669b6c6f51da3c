"""Drawing in processes of their own, while this one computes.

A process that draws is spawned, not forked: it begins with nothing but the interpreter, and fetches
the drawing libraries while this one is still busy with the teeth. It gets its orders and gives its
answers through a pipe of its own, so that its end, however sudden, is noticed at once.
"""

import multiprocessing
import signal
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from contextlib import contextmanager, suppress
from multiprocessing import resource_tracker
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from queue import SimpleQueue
from typing import Final, ParamSpec, TypeVar

P = ParamSpec("P")
T = TypeVar("T")

_PATIENCE_S: Final = 2.0
_ENDING: Final = (signal.SIGINT, signal.SIGTERM)


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
    with _started(count) as connections:
        executor = _Processes(connections)
        try:
            yield executor
        finally:
            executor.threads.shutdown(wait=False, cancel_futures=True)


@contextmanager
def _started(count: int) -> Iterator[list[Connection]]:
    """Start processes that carry orders out, and end them with the block."""
    context = multiprocessing.get_context("spawn")
    processes: list[SpawnProcess] = []
    connections: list[Connection] = []
    try:
        with _signals_held_back():
            for _ in range(count):
                here, there = context.Pipe()
                process = context.Process(target=_carry_out_orders, args=(there,), daemon=True)
                process.start()
                there.close()
                processes.append(process)
                connections.append(here)
        yield connections
    finally:
        for process in processes:
            process.terminate()
        for process in processes:
            process.join(_PATIENCE_S)
            process.kill()


@contextmanager
def _signals_held_back() -> Iterator[None]:
    """Hold back what would end this process, here and in what it starts meanwhile.

    A terminal sends Ctrl-C to every process; this one ends the others in good order, and not while
    it is starting them.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    resource_tracker.ensure_running()  # when it starts later it lets signals through
    signal.pthread_sigmask(signal.SIG_BLOCK, _ENDING)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, _ENDING)


def _carry_out_orders(connection: Connection) -> None:
    """Call what comes through the connection, until nobody orders any more."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, _ENDING)
    with suppress(EOFError, ConnectionError):
        while True:
            fn, args, kwargs = connection.recv()
            answer, error = None, None
            try:
                answer = fn(*args, **kwargs)
            except Exception as raised:  # whoever ordered shall get it
                error = raised
            connection.send((answer, error))
