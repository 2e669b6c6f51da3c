"""Processes of our own, each with a pipe to this one, that end with what started them.

A process is spawned, not forked: it begins with nothing but the interpreter. Since each has a pipe
of its own, its end, however sudden, is noticed at once; and when this process ends, even killed,
every other finds its pipe closed and ends too.
"""

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import resource_tracker
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from typing import Final

_PATIENCE_S: Final = 2.0
_ENDING: Final = (signal.SIGINT, signal.SIGTERM)


@dataclass(frozen=True)
class Started:
    """A process, and this end of the pipe to it."""

    process: SpawnProcess
    connection: Connection


@contextmanager
def started(
    count: int, serve: Callable[[Connection], None], environment: Mapping[str, str]
) -> Iterator[list[Started]]:
    """Start processes; they end with the block, whatever they are doing.

    Parameters
    ----------
    count : int
        How many, at least 1.
    serve : callable
        A function of a module; each process calls it with its end of the pipe, and first of all
        it should call `signals_as_usual`.
    environment : mapping of str to str
        Changes to the environment of the processes.

    Yields
    ------
    list of Started
        In any order.
    """
    context = multiprocessing.get_context("spawn")
    all_started: list[Started] = []
    try:
        with _signals_held_back(), _environment(environment):
            for _ in range(count):
                here, there = context.Pipe()
                process = context.Process(target=serve, args=(there,), daemon=True)
                process.start()
                there.close()
                all_started.append(Started(process, here))
        yield all_started
    finally:
        for item in all_started:
            item.process.terminate()
        for item in all_started:
            item.process.join(_PATIENCE_S)
            item.process.kill()
            item.process.join()
            item.connection.close()


def signals_as_usual() -> None:
    """Let signals through in a process that was started here; Ctrl-C is for the one it serves."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, _ENDING)


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


@contextmanager
def _environment(changes: Mapping[str, str]) -> Iterator[None]:
    """Change the environment of what is started meanwhile: libraries read it as they are loaded."""
    before = {name: os.environ.get(name) for name in changes}
    os.environ.update(changes)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value
