"""A few rows in five columns, however many their job has: a small file takes a sixth of the time.

Each row holds its whole numbers as one list, its numbers as another, and so on, in the order of the
columns of the job.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final, get_args

import pyarrow as pa

from kinematics.engine.plan import ColumnKind
from kinematics.engine.rows import NUMBER, TYPES, PackedRow

_KINDS: Final[tuple[ColumnKind, ...]] = get_args(ColumnKind)
SHORT_SCHEMA: Final = pa.schema(
    [(NUMBER, pa.int64()), *((kind, pa.list_(TYPES[kind])) for kind in _KINDS)]
)


def short_table(
    numbers: Iterable[int], rows: Sequence[PackedRow], columns: Mapping[str, ColumnKind]
) -> Any:
    """Return rows as an Arrow table of five columns."""
    kinds = list(columns.values())
    by_kind = (
        [[value for value, its in zip(row, kinds, strict=True) if its == kind] for row in rows]
        for kind in _KINDS
    )
    arrays = [
        pa.array(values, type=field.type, from_pandas=False)
        for values, field in zip((list(numbers), *by_kind), SHORT_SCHEMA, strict=True)
    ]
    return pa.Table.from_arrays(arrays, schema=SHORT_SCHEMA)


def rows_of(content: Any, columns: Mapping[str, ColumnKind]) -> list[PackedRow]:
    """Return the rows of an Arrow table of five columns.

    Raises
    ------
    ValueError
        It holds rows of a job with other columns.
    """
    found = []
    for values in zip(*(content.column(kind).to_pylist() for kind in _KINDS), strict=True):
        left = {kind: iter(items) for kind, items in zip(_KINDS, values, strict=True)}
        row = tuple(next(left[kind], None) for kind in columns.values())
        if None in row or any(next(rest, None) is not None for rest in left.values()):
            raise ValueError("rows of other columns")
        found.append(row)
    return found
