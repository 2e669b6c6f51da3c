"""Which rows of a table are equal, quickly for millions of them."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from kinematics.conventions import Floats, Ints

# Odd numbers with well mixed bits (fractions of pi), as factors of a hash.
_FACTORS: Final = np.array(
    [0x243F6A8885A308D3, 0x13198A2E03707345, 0xA4093822299F31D1], dtype=np.uint64
)


def equal_rows(rows: Floats | Ints) -> tuple[Ints, Ints]:
    """Give equal rows equal numbers.

    Parameters
    ----------
    rows : ndarray, shape (n, 3)
        Zero equals minus zero; not-a-number equals itself if all its bits do.

    Returns
    -------
    first : ndarray, shape (k,)
        Of every number, the first row that has it; ascending.
    number : ndarray, shape (n,)
        Of every row.
    """
    bits = np.ascontiguousarray(rows + rows.dtype.type(0)).view(np.uint64)
    # Sorting one number a row takes a third of the time that sorting whole rows would take.
    mixed = _hash(bits)
    order = np.argsort(mixed)
    starts = _starts(mixed[order, None])
    if not np.array_equal(starts, _starts(bits[order])):  # two rows share a hash
        order = np.lexsort(bits.T)
        starts = _starts(bits[order])
    first_of_group = np.minimum.reduceat(order, starts)
    by_first = np.argsort(first_of_group)
    number_of_group = np.empty(len(starts), dtype=np.int64)
    number_of_group[by_first] = np.arange(len(starts))
    number = np.empty(len(rows), dtype=np.int64)
    number[order] = np.repeat(number_of_group, np.diff(np.append(starts, len(rows))))
    return first_of_group[by_first], number


def _hash(bits: NDArray[np.uint64]) -> NDArray[np.uint64]:
    """Return one number for each row."""
    mixed = np.zeros(len(bits), dtype=np.uint64)
    for column, factor in zip(bits.T, _FACTORS, strict=True):
        mixed = (mixed ^ column) * factor
        mixed ^= mixed >> np.uint64(32)
    return mixed


def _starts(rows: NDArray[np.uint64]) -> Ints:
    """Return where in sorted rows a new value begins."""
    new = np.ones(len(rows), dtype=bool)
    new[1:] = (rows[1:] != rows[:-1]).any(axis=1)
    return np.flatnonzero(new)
