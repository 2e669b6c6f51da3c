"""Results of many poses as tables: put together, and some of their rows picked."""

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar, cast

import numpy as np

from kinematics.conventions import Bools, Ints

Table = TypeVar("Table")


def picked(table: Table, rows: Ints | Bools | slice) -> Table:
    """Return some rows of a dataclass of arrays, all of which have a row a pose."""
    if isinstance(table, np.ndarray):
        return cast(Table, table[rows])
    if isinstance(table, type) or not is_dataclass(table):
        raise TypeError(f"rows of {type(table).__name__}: wanted arrays, or dataclasses of them")
    values = {item.name: picked(getattr(table, item.name), rows) for item in fields(table)}
    return cast(Table, replace(cast(Any, table), **values))


def joined(tables: Sequence[Table]) -> Table:
    """Return dataclasses of arrays, all of one kind, with their rows one after the other."""
    first = tables[0]
    if isinstance(first, np.ndarray):
        return cast(Table, np.concatenate(cast("Sequence[np.ndarray]", tables)))
    if isinstance(first, type) or not is_dataclass(first):
        raise TypeError(f"rows of {type(first).__name__}: wanted arrays, or dataclasses of them")
    values = {
        item.name: joined([getattr(table, item.name) for table in tables]) for item in fields(first)
    }
    return cast(Table, replace(cast(Any, first), **values))
