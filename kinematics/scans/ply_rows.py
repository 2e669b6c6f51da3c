"""The rows of an element of a PLY file: its numbers by name, and the corners of faces."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.scans.limits import ScanFile
from kinematics.scans.ply_header import Element
from kinematics.scans.text_lines import excerpt, numbers_of

#: Rows taken over at once where that takes many times their room.
_AT_ONCE: Final = 50_000

#: A line that is not blank, with its number.
Lines = Iterator[tuple[int, bytes]]


@dataclass(frozen=True)
class Rows:
    """All rows of one element.

    Attributes
    ----------
    scalars : dict of str to ndarray, shape (n,)
        By the names of its properties that are no lists.
    corners : ndarray, shape (k,)
        The lists, one after another; empty without a list.
    counts : ndarray, shape (n,)
        Lengths of the lists.
    """

    scalars: dict[str, NDArray[Any]]
    corners: Ints
    counts: Ints


def binary_rows(file: ScanFile, element: Element, order: str, start: int) -> tuple[Rows, int]:
    """Read rows of a binary file from byte `start` on; return them and where they end.

    Raises
    ------
    InputError
        The file ends before them.
    """
    length = -1
    if element.list_place >= 0 and element.count:
        length = _list_length(file, element, order, start)
    kind = _row_type(element, order, length)
    end = start + element.count * kind.itemsize
    if end <= len(file.content):
        table = np.frombuffer(file.content, kind, element.count, start)
        if length < 0 or (table["length"] == length).all():
            return _joined(element, [table], np.full(element.count, length)), end
    elif length < 0:
        there = (len(file.content) - start) // kind.itemsize
        raise _broken_off(file, element, max(there, 0))
    return _rows_of_many_lengths(file, element, order, start)


def _row_type(element: Element, order: str, length: int) -> np.dtype[Any]:
    """Return what a row is in memory, if its list has `length` entries.

    Its fields are numbered: names of a file need not be names that numpy accepts.
    """
    fields: list[Any] = []
    for place, one in enumerate(element.properties):
        if one.count_kind:
            fields.append(("length", order + one.count_kind))
            fields.append(("corners", order + one.kind, (max(length, 0),)))
        else:
            fields.append((str(place), order + one.kind))
    return np.dtype(fields)


def _list_length(file: ScanFile, element: Element, order: str, start: int) -> int:
    """Return the length of the list of the row at `start`."""
    before = element.properties[: element.list_place]
    kind = np.dtype(order + element.properties[element.list_place].count_kind)
    at = start + sum(int(one.kind[1]) for one in before)
    if at + kind.itemsize > len(file.content):
        raise _broken_off(file, element, 0)
    return max(int(np.frombuffer(file.content, kind, 1, at)[0]), 0)


def _rows_of_many_lengths(
    file: ScanFile, element: Element, order: str, start: int
) -> tuple[Rows, int]:
    """Walk from row to row, then take over all rows of one length together."""
    starts, lengths = _walk(file, element, order, start)
    content = np.frombuffer(file.content, np.uint8)
    tables = []
    places = []
    for length in np.unique(lengths):
        kind = _row_type(element, order, int(length))
        which = np.flatnonzero(lengths == length)
        for first in range(0, len(which), _AT_ONCE):
            some = which[first : first + _AT_ONCE]
            rows = content[starts[some, None] + np.arange(kind.itemsize)]
            tables.append(rows.view(kind)[:, 0])
            places.append(some)
    return _joined(element, tables, lengths, np.concatenate(places)), int(starts[-1])


def _walk(file: ScanFile, element: Element, order: str, start: int) -> tuple[Ints, Ints]:
    """Return where every row begins, with the end as the last entry, and the list lengths."""
    a_list = element.properties[element.list_place]
    sizes = [int((one.count_kind or one.kind)[1]) for one in element.properties]
    before, all_but_entries = sum(sizes[: element.list_place]), sum(sizes)
    entry, width = int(a_list.kind[1]), int(a_list.count_kind[1])
    endian = "big" if order == ">" else "little"
    signed = a_list.count_kind[0] == "i"
    starts = [start]
    lengths = []
    for row in range(element.count):
        at = start + before
        length = int.from_bytes(file.content[at : at + width], endian, signed=signed)  # type: ignore[arg-type]
        start += all_but_entries + max(length, 0) * entry
        if start > len(file.content):
            raise _broken_off(file, element, row)
        lengths.append(max(length, 0))
        starts.append(start)
    return np.array(starts), np.array(lengths)


def _joined(
    element: Element,
    tables: list[NDArray[Any]],
    lengths: Ints,
    places: Ints | None = None,
) -> Rows:
    """Put tables of rows together; `places` says which rows they are, where not in order."""
    scalars = {}
    for place, one in enumerate(element.properties):
        if not one.count_kind:
            column = np.empty(element.count, dtype=one.kind)
            column[slice(None) if places is None else places] = np.concatenate(
                [table[str(place)] for table in tables]
            )
            scalars[one.name] = column
    if element.list_place < 0:
        nothing = np.empty(0, dtype=np.int64)
        return Rows(scalars, nothing, nothing)
    corners = np.concatenate([table["corners"].astype(np.int64).ravel() for table in tables])
    if places is not None:
        begins = (np.cumsum(lengths) - lengths)[places]
        counts = lengths[places]
        target = np.repeat(begins - np.cumsum(counts) + counts, counts) + np.arange(len(corners))
        corners[target] = corners.copy()
    return Rows(scalars, corners, lengths)


def ascii_rows(file: ScanFile, element: Element, lines: Lines) -> Rows:
    """Read rows of a text file from its next lines.

    Raises
    ------
    InputError
        The text ends before them, or a line has the wrong numbers.
    """
    blocks = []
    for first in range(0, element.count, _AT_ONCE):
        wanted = min(_AT_ONCE, element.count - first)
        some = list(islice(lines, wanted))
        if len(some) < wanted:
            raise _broken_off(file, element, first + len(some))
        blocks.append(_ascii_block(file, element, some))
    nothing = np.empty(0, dtype=np.int64)
    return Rows(
        {
            one.name: np.concatenate(
                [np.empty(0, one.kind), *(b.scalars[one.name] for b in blocks)]
            )
            for one in element.properties
            if not one.count_kind
        },
        np.concatenate([nothing, *(block.corners for block in blocks)]),
        np.concatenate([nothing, *(block.counts for block in blocks)]),
    )


def _ascii_block(file: ScanFile, element: Element, some: list[tuple[int, bytes]]) -> Rows:
    numbers = np.array([number for number, _ in some])
    values, columns = numbers_of([line for _, line in some], numbers, file.path)
    begins = np.cumsum(columns) - columns
    a_list = element.list_place
    lengths = np.zeros(len(some), dtype=np.int64)
    wanted = np.full(len(some), len(element.properties))
    if a_list >= 0:
        long_enough = columns > a_list
        told = values[np.where(long_enough, begins + a_list, 0)]
        # A length that is no whole number, or of more entries than there are, fits no line.
        lengths = np.where(long_enough & (told >= 0) & (told <= columns), told, -1).astype(np.int64)
        lengths[lengths != told] = -1
        wanted = wanted + lengths
    wrong = np.flatnonzero((columns != wanted) | (lengths < 0))
    if len(wrong):
        number, line = some[int(wrong[0])]
        names = " ".join(one.name for one in element.properties)
        raise InputError(
            f"{file.path}: line {number} is {excerpt(line)}; wanted the numbers of one "
            f"{element.name}: {names}{', a list with its length before it' if a_list >= 0 else ''}"
        )
    scalars = {}
    for place, one in enumerate(element.properties):
        if not one.count_kind:
            at = begins + place + (lengths if a_list >= 0 and place > a_list else 0)
            scalars[one.name] = _of_kind(values[at], one.kind, file, numbers)
    steps = np.arange(lengths.sum()) - np.repeat(np.cumsum(lengths) - lengths, lengths)
    entries = values[np.repeat(begins + a_list + 1, lengths) + steps] if a_list >= 0 else values[:0]
    kind = element.properties[a_list].kind
    corners = _of_kind(entries, kind, file, np.repeat(numbers, lengths)).astype(np.int64)
    return Rows(scalars, corners, lengths)


def _of_kind(values: Floats, kind: str, file: ScanFile, numbers: Ints) -> NDArray[Any]:
    """Return numbers of a text as the header says they are."""
    limits = np.finfo(kind) if kind[0] == "f" else np.iinfo(kind)
    least, greatest = float(limits.min), float(limits.max)
    wrong = (values < least) | (values > greatest)
    if kind[0] != "f":
        wrong |= values != np.floor(values)
    if wrong.any():
        place = int(np.flatnonzero(wrong)[0])
        what = "a number" if kind[0] == "f" else "a whole number"
        raise InputError(
            f"{file.path}: line {numbers[place]} has {values[place]:g}; its header says {what} "
            f"from {least:.10g} to {greatest:.10g}: the file is damaged, export it again"
        )
    return values.astype(kind)


def _broken_off(file: ScanFile, element: Element, there: int) -> InputError:
    return InputError(
        f"{file.path}: announces {element.count} rows of {element.name!r}, but ends after {there}: "
        "the file is broken off or its header is wrong, export or copy it again"
    )
