"""Lines on the terminal beside results: steps with their times, warnings, internal errors."""

import sys
import time
import traceback
from typing import Final

_TRACEBACK_HINT: Final = "; repeat with --traceback to see where"


class Steps:
    """Prints each step with the seconds since the start, to stderr."""

    def __init__(self) -> None:
        self._start = time.monotonic()

    def __call__(self, step: str) -> None:
        """Print a step that begins."""
        print(f"{time.monotonic() - self._start:6.1f} s  {step}", file=sys.stderr, flush=True)


def warn(text: str) -> None:
    """Print a line to stderr."""
    print(f"cuspway: {text}", file=sys.stderr, flush=True)


class Complaints:
    """Prints internal errors, each once: what fails once fails with every movement of a hand."""

    def __init__(self, *, traceback_too: bool) -> None:
        self._traceback_too, self._told = traceback_too, set[str]()

    def __call__(self, error: Exception) -> None:
        """Print an error, unless it was told before."""
        text = f"internal error: {type(error).__name__}: {error}"
        if text in self._told:
            return
        self._told.add(text)
        warn(text if self._traceback_too else f"{text}{_TRACEBACK_HINT}")
        if self._traceback_too:
            traceback.print_exception(error)
