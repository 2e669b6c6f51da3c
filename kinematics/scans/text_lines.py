"""Lines of a text file in blocks, and the numbers in them, none misread and none passed over."""

import re
from collections.abc import Iterator
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.scans.limits import LONGEST_LINE

#: How a number is written. Nothing is tried twice, so that no text takes long to be refused.
NUMBER: Final = rb"[-+]?(?:\d++(?:\.\d*+)?|\.\d++)(?:[eE][-+]?\d++)?"

_ROWS: Final = re.compile(rb"\s*+(?:" + NUMBER + rb"(?:\s++|$))*+")
_BLOCK_BYTES: Final = 1_000_000


def line_blocks(content: bytes, start: int, path: str) -> Iterator[tuple[int, list[bytes]]]:
    """Yield lines from byte `start` on, some thousands at a time, so that memory stays small.

    Yields
    ------
    number : int
        Of the first of the lines, counted from 1 at the start of the file.
    lines : list of bytes
        Without their ends.

    Raises
    ------
    InputError
        A line is too long.
    """
    number = 1 + content.count(b"\n", 0, start)
    while start < len(content):
        end = content.find(b"\n", start + _BLOCK_BYTES) + 1 or len(content)
        lines = content[start:end].splitlines()
        for place, line in enumerate(lines):
            if len(line) > LONGEST_LINE:
                raise InputError(
                    f"{path}: line {number + place} is {len(line)} bytes long; at most "
                    f"{LONGEST_LINE} are accepted: is it a text file with one statement a line?"
                )
        yield number, lines
        number += len(lines)
        start = end


def excerpt(line: bytes) -> str:
    """Return the beginning of a line as it can be shown in a message."""
    shown = line.strip()[:60].decode("ascii", "backslashreplace")
    return repr(shown + ("..." if len(line.strip()) > 60 else ""))


def words_in_lines(text: bytes, lines: int) -> Ints:
    """Return how many words each of the lines of a text has."""
    characters = np.frombuffer(text, np.uint8)
    blank = characters <= ord(" ")
    begins = ~blank
    begins[1:] &= blank[:-1]
    return np.bincount(np.cumsum(characters == ord("\n"))[begins], minlength=lines)


def numbers_of(lines: list[bytes], numbers: Ints, path: str) -> tuple[Floats, Ints]:
    """Return all numbers of some lines.

    Parameters
    ----------
    lines : list of bytes
        Nothing but numbers with blanks between them.
    numbers : ndarray, shape (n,)
        Line number of each, for messages.
    path : str
        What to call the file.

    Returns
    -------
    values : ndarray, shape (k,)
        In order.
    counts : ndarray, shape (n,)
        How many each line has.

    Raises
    ------
    InputError
        Something that is no number, or one that is too large; the message names the line.
    """
    text = b"\n".join(lines)
    if not _ROWS.fullmatch(text):
        place = next(n for n, line in enumerate(lines) if not _ROWS.fullmatch(line))
        raise InputError(
            f"{path}: line {numbers[place]} is {excerpt(lines[place])}: wanted finite numbers, "
            "with a point for decimals and blanks between them"
        )
    # All of it has been checked: what is no number would end the reading without a word.
    values = np.fromstring(text, dtype=np.float64, sep=" ")
    counts = words_in_lines(text, len(lines))
    if not np.isfinite(values).all():
        first = int(np.flatnonzero(~np.isfinite(values))[0])
        place = int(np.searchsorted(np.cumsum(counts), first, side="right"))
        raise InputError(
            f"{path}: line {numbers[place]} is {excerpt(lines[place])}: a number is too large"
        )
    return values, counts
