"""What is printed of a finished run, when its results are safe already."""

import os
import signal
import sys
from typing import Final

from scenes.command_arguments import BAD_INPUT

#: What ends a run.
SIGNALS: Final = (signal.SIGINT, signal.SIGTERM)


def results_stand(warning: str) -> None:
    """Let no signal end the run any more, and say why pictures are simplified."""
    for number in SIGNALS:
        signal.signal(number, signal.SIG_IGN)  # the results stand: too late to interrupt
    if warning:
        print(f"cuspway: {warning}", file=sys.stderr)


def show(text: str, written: str) -> None:
    """Print what was found; the results are safe, so whatever hinders it changes no exit code."""
    try:
        print(text, flush=True)
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if not isinstance(error, BrokenPipeError):  # else the reader left, as `head` does
            print(
                f"cuspway: nothing could be printed ({error.strerror}). {written}", file=sys.stderr
            )


def refused(error: Exception) -> int:
    """Print why nothing can be run; return the exit code."""
    print(f"cuspway: {error}", file=sys.stderr)
    return BAD_INPUT
