"""Results of many poses as tables: put together, and some of their rows picked."""

from collections.abc import Callable, Sequence
from dataclasses import fields, is_dataclass
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar, cast

import numpy as np

from kinematics.conventions import Bools, Ints

Table = TypeVar("Table")


def picked(table: Table, rows: Ints | Bools | slice) -> Table:
    """Return some rows of an array, or of a dataclass of arrays that all have a row a pose."""
    if isinstance(table, np.ndarray):
        return cast(Table, table[rows])
    kind: Any = type(table)
    made: Table = kind(
        *[
            each[rows] if isinstance(each, np.ndarray) else picked(each, rows)
            for each in _columns_of(kind)(table)
        ]
    )
    return made


def joined(tables: Sequence[Table]) -> Table:
    """Return dataclasses of arrays, all of one kind, with their rows one after the other."""
    if len(tables) == 1:
        return tables[0]
    if isinstance(tables[0], np.ndarray):
        return cast(Table, np.concatenate(cast("Sequence[np.ndarray]", tables)))
    kind: Any = type(tables[0])
    made: Table = kind(*map(joined, zip(*map(_columns_of(kind), tables), strict=True)))
    return made


@cache
def _columns_of(kind: Any) -> Callable[[Any], tuple[Any, ...]]:
    """Return what tells the columns of a table, in the order in which it is made of them."""
    if not is_dataclass(kind):
        raise TypeError(f"rows of {kind.__name__}: wanted arrays, or dataclasses of them")
    return attrgetter(*[item.name for item in fields(kind)])
