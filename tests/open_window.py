"""A display of its own, `cuspway view` on it, and a hand on mouse and keys."""

import os
import queue
import subprocess
import sys
import threading
import time
from contextlib import contextmanager

import numpy as np
from PIL import ImageGrab

from scenes.opengl_probe import WINDOW_VARIABLE
from tests.fresh_python import ROOT

SIZE = 1000, 700
_SCREEN = "1280x900x24"
_PATIENCE_S = 60.0


@contextmanager
def display():
    """Give the name of a new display, which ends with the block."""
    reads, writes = os.pipe()
    command = [
        "Xvfb",
        "-displayfd",
        str(writes),
        "-screen",
        "0",
        _SCREEN,
        "-nolisten",
        "tcp",
        "-noreset",
    ]
    with subprocess.Popen(command, pass_fds=[writes], stderr=subprocess.DEVNULL) as server:
        os.close(writes)
        with open(reads, encoding="ascii") as told:
            name = f":{told.readline().strip()}"
        try:
            yield name
        finally:
            server.terminate()


class OpenWindow:
    """A window that was opened by the command, on some display.

    Parameters
    ----------
    screen : str
        Name of the display.
    arguments : sequence of str
        Behind `cuspway view`.
    folder : Path
        Where the command runs.
    """

    def __init__(self, screen, arguments, folder):
        self._screen = screen
        self.environment = os.environ | {"DISPLAY": screen, "PYTHONPATH": str(ROOT)}
        self.environment.pop(WINDOW_VARIABLE, None)
        command = [sys.executable, "-m", "scenes.command_line", "view", *arguments]
        self.process = subprocess.Popen(
            command, cwd=folder, env=self.environment, text=True, encoding="utf-8",
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        self._lines = queue.Queue()
        threading.Thread(target=self._read, daemon=True).start()

    def _read(self):
        with self.process.stdout as lines:
            for line in lines:
                self._lines.put(line.rstrip("\n"))
        self._lines.put(None)

    def line(self):
        """Return the next line that the command prints; None at its end."""
        return self._lines.get(timeout=_PATIENCE_S)

    def line_when(self, wanted):
        """Read lines until one is as wanted."""
        while (line := self.line()) != wanted:
            assert line is not None, f"the command ended before it said: {wanted}"

    def hand(self, *words):
        """Move the mouse, press keys and buttons."""
        subprocess.run(["xdotool", *map(str, words)], env=self.environment, check=True)

    def press(self, *keys):
        """Press keys, with the mouse over the window."""
        self.hand("mousemove", 500, 350, "key", "--delay", 30, *keys)

    def picture(self):
        """Return what the window shows, shape (height, width, 3)."""
        grabbed = ImageGrab.grab((0, 0, *SIZE), xdisplay=self._screen)
        return np.asarray(grabbed.convert("RGB")).astype(int)

    def picture_when(self, holds):
        """Return the first picture for which something holds, and that stays as it is."""
        before = None

        def holds_still(now):
            nonlocal before
            last, before = before, now
            return last is not None and (now == last).all() and holds(now)

        return self.moving_picture_when(holds_still)

    def moving_picture_when(self, holds):
        """Return the first picture for which something holds, whether or not it stays."""
        end = time.monotonic() + _PATIENCE_S
        while time.monotonic() < end:
            now = self.picture()
            if holds(now):
                return now
            time.sleep(0.15)
        raise AssertionError("the window never showed what was waited for")

    def end(self):
        """Wait for the end of the command, and return its exit code."""
        return self.process.wait(timeout=_PATIENCE_S)
