"""`cuspway page` in processes of their own that start at once: one imports for all of them.

Its desk computes nothing, and its browser says what it would show. To import takes seconds, which
nobody needs to wait for who asks how the command begins and ends: what is started is the copy of a
process that has imported, and done nothing else. Where processes cannot be copied, each imports
for itself.
"""

import gc
import json
import os
import signal
import socket
import subprocess
import sys
import time
import warnings
import webbrowser
from contextlib import contextmanager

import scenes.page_command
from scenes.command_line import main
from tests.fresh_python import ROOT
from tests.running_page import FILES
from tests.stand_in_desk import StandInDesk

PATIENCE_S = 20.0
#: How long somebody may import on a slow machine.
_LONG_PATIENCE_S = 120.0
_PROGRAM = "import sys; from tests import ready_command as command; sys.exit(command.{}())"
CAN_COPY = hasattr(os, "fork")


def run():
    """Do what the arguments of this process say."""
    return _run(sys.argv[1:])


def wait_for_orders():
    """Start a copy of this process for each order that comes; tell its number and how it ended."""
    orders = socket.socket(fileno=int(sys.argv[1]))
    gc.freeze()  # or every copy would clear away, in the end, all that was imported
    while order := orders.recv(65_536):
        pid = _copy()
        if pid == 0:
            orders.close()
            return _obey(**json.loads(order))
        orders.sendall(str(pid).encode())
        _, status = os.waitpid(pid, 0)
        orders.sendall(str(os.waitstatus_to_exitcode(status)).encode())
    return 0


def _run(arguments):
    """Run the command with what stands in for desk, browser and files."""
    scenes.page_command.Desk = lambda *_: StandInDesk()
    scenes.page_command.served_files = lambda: FILES
    webbrowser.open = _say_address
    return main(["page", *arguments])


def _say_address(address):
    sys.stdout.write(f"browser {address}\n")
    sys.stdout.flush()


def _copy():
    with warnings.catch_warnings():  # threads of numerical libraries, which have nothing to do
        warnings.simplefilter("ignore", DeprecationWarning)
        return os.fork()


def _obey(arguments, out, err):
    """Become the command, whose words go into files."""
    os.setsid()
    for number, path in enumerate((os.devnull, out, err)):
        handle = os.open(path, os.O_RDWR | os.O_CREAT)
        os.dup2(handle, number)
        os.close(handle)
    return _run(arguments)


class Started:
    """A command that runs.

    Parameters
    ----------
    pid : int
        Number of its process.
    wait : callable
        Takes seconds, waits for its end, and returns its exit code.
    out, err : Path
        What it says, and what it warns of.
    """

    def __init__(self, pid, wait, out, err):
        self.pid, self._wait, self._out, self._err = pid, wait, out, err
        self._read = 0
        self.code = None

    def line(self):
        """Wait for the next line; return what there is of it where the process has ended."""
        patience = time.monotonic() + _LONG_PATIENCE_S
        while "\n" not in self._rest() and not self._has_ended():
            assert time.monotonic() < patience, "nothing is said"
            time.sleep(0.01)
        line = self._rest().partition("\n")
        self._read += len("".join(line[:2]))
        return "".join(line[:2])

    def send_signal(self, number):
        """Send a signal."""
        os.kill(self.pid, number)

    def end(self):
        """Return exit code, what else was said, and all warnings, when the process has ended."""
        if self.code is None:
            self.code = self._wait(PATIENCE_S)
        return self.code, self._rest(), self._err.read_text("utf-8")

    def kill(self):
        """End it at once."""
        if self.code is None:
            self.send_signal(getattr(signal, "SIGKILL", signal.SIGTERM))
            self.end()

    def _rest(self):
        return self._out.read_text("utf-8")[self._read :]

    def _has_ended(self):
        if self.code is None:
            try:
                self.code = self._wait(0.001)
            except (TimeoutError, subprocess.TimeoutExpired):
                return False
        return True


def started_anew(folder, arguments):
    """Start the command in a Python of its own, whose words go into files of a folder."""
    out, err = folder / "out.txt", folder / "err.txt"
    with out.open("wb") as said, err.open("wb") as warned:
        process = subprocess.Popen(
            [sys.executable, "-W", "error", "-c", _PROGRAM.format("run"), *arguments],
            cwd=ROOT,
            stdin=subprocess.DEVNULL,
            stdout=said,
            stderr=warned,
            start_new_session=True,
        )
    return Started(process.pid, process.wait, out, err)


@contextmanager
def ready_command():
    """Give what starts the command, as `started_anew` does, but at once."""
    if not CAN_COPY:
        yield started_anew
        return
    own, other = socket.socketpair()
    with own, other:
        process = subprocess.Popen(
            [
                *(sys.executable, "-W", "error", "-c", _PROGRAM.format("wait_for_orders")),
                str(other.fileno()),
            ],
            cwd=ROOT,
            pass_fds=[other.fileno()],
        )
        other.close()
        try:
            yield lambda folder, arguments: _ordered(own, folder, arguments)
        finally:
            own.close()
            process.wait(PATIENCE_S)


def _ordered(orders, folder, arguments):
    out, err = folder / "out.txt", folder / "err.txt"
    out.touch()
    orders.sendall(json.dumps({"arguments": arguments, "out": str(out), "err": str(err)}).encode())
    return Started(int(_told(orders, _LONG_PATIENCE_S)), lambda s: int(_told(orders, s)), out, err)


def _told(orders, patience_s):
    orders.settimeout(patience_s)
    return orders.recv(64)
