"""What `cuspway page` does: a server on this machine, and a browser that shows its page."""

import signal
import socket
import threading
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import uvicorn

from kinematics.case import Case
from kinematics.case_record_scans import with_scans_registered
from kinematics.checks import InputError
from scenes.case_marks import marked
from scenes.case_places import DEFAULT_CASE, is_builtin
from scenes.lesson_places import builtin_lessons, own_lessons
from scenes.page_desk import Desk
from scenes.page_downloads import Downloads
from scenes.page_guard import Guard
from scenes.page_messages import GIVEN_CASE, first_show
from scenes.page_server import Desks, listen, make_app, make_server, served_files

#: Tried one after the other when none is asked for; after them whatever is free.
_PORTS: Final = (*range(8000, 8020), 0)


@dataclass(frozen=True)
class PageOptions:
    """How the page is to be served.

    Attributes
    ----------
    host : str
        Address to listen on.
    port : int or None
        Port to listen on; None: one that is free.
    threads : int
        How many threads may compute for one page; the results do not depend on it.
    open_browser : bool
        Open a browser on the page.
    lessons : Path or None
        A teacher's own lessons: a file, or a folder of them.
    """

    host: str
    port: int | None
    threads: int
    open_browser: bool
    lessons: Path | None = None


def page(
    read: Case,
    given: str | None,
    options: PageOptions,
    say: Callable[[str], None],
    warn: Callable[[str], None],
    complain: Callable[[Exception], None],
) -> None:
    """Serve the page until a signal ends it.

    Parameters
    ----------
    read : Case
        Case to begin with.
    given : str or None
        As the user named it: a case file, or the name of a built-in case; None: the default.
    options : PageOptions
        How it is served.
    say, warn : callable
        Get lines for the terminal.
    complain : callable
        Gets every error that the program is to blame for; may be called in any thread.

    Raises
    ------
    InputError
        The case, a lesson or the address cannot be used.
    """
    case = with_scans_registered(read, say)
    name, own = _named(given, case)
    served = served_files()
    lessons = {**builtin_lessons(), **(own_lessons(options.lessons) if options.lessons else {})}
    with _listening(options) as listener, Downloads() as downloads:
        guard = Guard(options.host, listener.getsockname()[1])
        # One's own casts are first looked at as they bite: in maximal intercuspation.
        first = first_show(name) if own is None else first_show(name, travel_mm=0.0)
        desks = Desks(lambda: Desk(options.threads, own, lessons), first, downloads, complain)
        server = make_server(make_app(desks, guard, served))
        if not guard.is_private:
            warn(
                f"listening on {options.host}: anybody on that network who has the address can use "
                "this page and see its case"
            )
        say(f"The page is at {guard.address()}\nCtrl-C ends it.")
        if options.open_browser:
            # Some browsers run in the terminal and keep their caller waiting.
            opened = threading.Thread(target=webbrowser.open, args=[guard.address()], daemon=True)
            opened.start()
        with _ended_by_signals(server):
            server.run([listener])


def _named(given: str | None, case: Case) -> tuple[str, Case | None]:
    """Return the name of a case on the page, and the case itself if it is not a built-in one."""
    if given is None:
        return DEFAULT_CASE, None
    if is_builtin(given):
        return given, None
    return marked(GIVEN_CASE, case), case


@contextmanager
def _ended_by_signals(server: uvicorn.Server) -> Iterator[None]:
    """Let a signal end the server, a second one at once; it is no error."""
    numbers = (signal.SIGINT, signal.SIGTERM)
    before = {number: signal.signal(number, server.handle_exit) for number in numbers}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _listening(options: PageOptions) -> socket.socket:
    """Return a socket that listens where it was asked for, or on the first port that is free."""
    if options.port is not None:
        return listen(options.host, options.port)
    *some, last = _PORTS
    for port in some:
        with suppress(InputError):
            return listen(options.host, port)
    return listen(options.host, last)
