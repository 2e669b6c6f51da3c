"""Rows of samples: checked where they are made, as Arrow tables in files, and read as columns."""

import operator
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import pyarrow as pa

from kinematics.conventions import Floats, Ints
from kinematics.engine.plan import ColumnKind, Row

#: One row, its values in the order of the columns of its job.
PackedRow = tuple[Any, ...]
Column = Ints | Floats | tuple[str, ...] | tuple[tuple[str, ...], ...]

#: Stands before the columns of the job.
NUMBER: Final = "number"
#: What files hold for each kind of column.
TYPES: Final[Mapping[ColumnKind, Any]] = {
    "int": pa.int64(),
    "float": pa.float64(),
    "text": pa.string(),
    "texts": pa.list_(pa.string()),
}


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(f"wanted a text, found {value!r}")
    return value


def _texts(value: Any) -> tuple[str, ...]:
    if isinstance(value, str):
        raise TypeError(f"wanted several texts, found {value!r}")
    return tuple(_text(item) for item in value)


_AS: Final[Mapping[ColumnKind, Callable[[Any], Any]]] = {
    "int": operator.index,
    "float": float,
    "text": _text,
    "texts": _texts,
}


@dataclass(frozen=True)
class Table:
    """Samples of one job, sorted by number.

    Attributes
    ----------
    numbers : (n,) int array
        Which samples these are.
    columns : mapping of str to column
        An array for numbers, a tuple for texts; one entry a sample.
    """

    numbers: Ints
    columns: Mapping[str, Column]

    def ints(self, name: str) -> Ints:
        """Return a column of whole numbers, (n,)."""
        column: Any = self.columns[name]
        whole: Ints = column
        return whole

    def floats(self, name: str) -> Floats:
        """Return a column of numbers, (n,)."""
        column: Any = self.columns[name]
        numbers: Floats = column
        return numbers

    def texts(self, name: str) -> tuple[str, ...]:
        """Return a column of one text a sample."""
        column: Any = self.columns[name]
        texts: tuple[str, ...] = column
        return texts

    def text_lists(self, name: str) -> tuple[tuple[str, ...], ...]:
        """Return a column of any number of texts a sample."""
        column: Any = self.columns[name]
        texts: tuple[tuple[str, ...], ...] = column
        return texts

    def row(self, place: int) -> Row:
        """Return one sample, by its place in the table."""
        return {
            name: column[place].item() if isinstance(column, np.ndarray) else column[place]
            for name, column in self.columns.items()
        }


def packed(row: Row, columns: Mapping[str, ColumnKind]) -> PackedRow:
    """Return the values of a row in the order of the columns.

    Raises
    ------
    TypeError
        The row has other columns than its job says, or one holds something else: a fault of the
        function that made it.
    """
    if row.keys() != columns.keys():
        missing, unknown = sorted(columns.keys() - row.keys()), sorted(row.keys() - columns.keys())
        raise TypeError(f"columns of a sample: missing {missing}, not of its job {unknown}")
    try:
        return tuple(_AS[kind](row[name]) for name, kind in columns.items())
    except TypeError as error:
        raise TypeError(f"columns of a sample: {error}") from error


def arrow_schema(columns: Mapping[str, ColumnKind]) -> Any:
    """Return the schema of files that hold rows with these columns."""
    fields = [(NUMBER, pa.int64()), *((name, TYPES[kind]) for name, kind in columns.items())]
    return pa.schema(fields)


def arrow_table(
    numbers: Iterable[int], rows: Sequence[PackedRow], columns: Mapping[str, ColumnKind]
) -> Any:
    """Return rows as an Arrow table, their numbers first."""
    schema = arrow_schema(columns)
    by_column = zip(*rows, strict=True) if rows else ((),) * len(columns)
    values = (list(numbers), *by_column)
    # A float that is missing is NaN, not null: those are other bits.
    arrays = [
        pa.array(value, type=field.type, from_pandas=False)
        for value, field in zip(values, schema, strict=True)
    ]
    return pa.Table.from_arrays(arrays, schema=schema)


def table_of(content: Any, columns: Mapping[str, ColumnKind]) -> Table:
    """Return what an Arrow table holds, which is sorted by number already."""
    numbers: Ints = np.array(content.column(NUMBER), dtype=np.int64)
    return Table(
        numbers, {name: _column(content.column(name), kind) for name, kind in columns.items()}
    )


def _column(content: Any, kind: ColumnKind) -> Column:
    if kind == "int":
        return np.array(content, dtype=np.int64)
    if kind == "float":
        return np.array(content, dtype=np.float64)
    values = content.to_pylist()
    return tuple(map(tuple, values)) if kind == "texts" else tuple(values)
