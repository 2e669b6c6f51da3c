"""Arguments that several commands have."""

import argparse
import os
from collections.abc import Callable
from pathlib import Path
from typing import Final

#: The argument that names a case file to be written.
WRITE: Final = "--write"
#: The argument that names a film.
OUT_FILE: Final = "--out"
#: The argument that names the folder of a new case.
FOLDER: Final = "DIR"


def add_out(command: argparse.ArgumentParser) -> None:
    """Add the folder of results."""
    command.add_argument(
        "--out",
        required=True,
        type=Path,
        metavar="DIR",
        help="folder for the results: new, empty, or written by an earlier run, which is replaced",
    )


def add_threads_and_traceback(command: argparse.ArgumentParser) -> None:
    """Add how many threads compute, and where errors arose."""
    command.add_argument(
        "--threads",
        type=whole(1, 256),
        default=min(os.cpu_count() or 1, 256),
        metavar="N",
        help="how many threads compute (default: one a processor); results do not depend on it",
    )
    add_traceback(command)


def add_traceback(command: argparse.ArgumentParser) -> None:
    """Add whether it is shown where errors arose."""
    command.add_argument(
        "--traceback", action="store_true", help="show where in the program an internal error arose"
    )


def whole(first: int, last: int) -> Callable[[str], int]:
    """Return what reads a whole number from one to another."""

    def read(text: str) -> int:
        if text.isdecimal() and first <= int(text) <= last:
            return int(text)
        wanted = f"must be a whole number from {first} to {last}"
        raise argparse.ArgumentTypeError(f"'{text}': {wanted}")

    return read
