"""Files of samples of one job: their names, and how they are written, checked, read and joined.

A file is named by its first and its last sample, and holds all from the one to the other. What lies
within another file only repeats it: it was about to be removed when the program was ended.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from pathlib import Path
from typing import Any, Final

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from kinematics.checks import InputError
from kinematics.engine.plan import ColumnKind, Job
from kinematics.engine.rows import (
    NUMBER,
    PackedRow,
    Table,
    arrow_schema,
    arrow_table,
    table_of,
)
from kinematics.engine.short_rows import SHORT_SCHEMA, rows_of, short_table
from kinematics.engine.whole_files import write_whole

_NAME: Final = re.compile(r"(\d{8,})-(\d{8,})\.parquet")
#: Fewer samples than this are written in short.
SMALL: Final = 16
#: What reading a file raises that was cut off, or holds something else.
DAMAGES: Final = (pa.ArrowException, OSError, ValueError, KeyError)
#: So often a folder is listed anew if files are merged, by another process, while they are read.
_TRIES: Final = 10


def path_of(folder: Path, numbers: range) -> Path:
    """Return where samples lie that were written, or merged, together."""
    return folder / f"{numbers.start:08d}-{numbers.stop - 1:08d}.parquet"


def numbers_in(folder: Path) -> list[range]:
    """Return which samples files hold by their names, sorted; of equal first ones, larger first."""
    names = (_NAME.fullmatch(path.name) for path in folder.glob("*.parquet"))
    found = (range(int(name[1]), int(name[2]) + 1) for name in names if name)
    return sorted(filter(None, found), key=lambda item: (item.start, -item.stop))


def without_repeated(files: Iterable[range]) -> list[range]:
    """Return, of sorted files, those that do not lie within another."""
    kept, reached = [], 0
    for item in files:
        if item.stop > reached:
            kept.append(item)
            reached = item.stop
    return kept


def write_samples(
    folder: Path, numbers: range, rows: Sequence[PackedRow], columns: Mapping[str, ColumnKind]
) -> None:
    """Write a file of samples that have just been run, whole and quickly."""
    if len(numbers) < SMALL:
        content = short_table(numbers, rows, columns)
    else:
        content = arrow_table(numbers, rows, columns)
    _write(folder, numbers, content, at_rest=False, compression="none")


def write_merged(folder: Path, numbers: range, content: Any, last: bool) -> None:
    """Write a file, whole and small, in favour of which others are removed.

    Parameters
    ----------
    folder : Path
        Of the job.
    numbers : range
        Which samples.
    content : pyarrow.Table
        As `rows.arrow_table` makes it.
    last : bool
        Whether nothing will be merged with it any more. It then lies on the disk before this
        returns, so that it survives a power cut as well.
    """
    _write(folder, numbers, content, at_rest=last, compression="zstd")


def _write(folder: Path, numbers: range, content: Any, at_rest: bool, compression: str) -> None:
    write_whole(
        path_of(folder, numbers),
        lambda path: pq.write_table(
            content,
            path,
            compression=compression,
            use_dictionary=False,  # of floats it would unite all that are NaN
            write_statistics=False,
            write_page_checksum=True,
        ),
        at_rest,
    )


def is_sound(folder: Path, numbers: range, job: Job) -> bool:
    """Tell whether the end of a file, which is written last, says what it should."""
    try:
        with pq.ParquetFile(path_of(folder, numbers)) as file:
            rows, schema = file.metadata.num_rows, file.schema_arrow
    except DAMAGES:
        return False
    known = (SHORT_SCHEMA, arrow_schema(job.columns))
    return rows == len(numbers) and numbers.stop <= job.count and schema in known


def read_samples(folder: Path, numbers: range, job: Job) -> Any:
    """Return what a file holds, as an Arrow table; whatever is wrong with it raises `DAMAGES`."""
    path = path_of(folder, numbers)
    with pq.ParquetFile(path, page_checksum_verification=True) as file:
        content = file.read(use_threads=False)
    if content.schema not in (SHORT_SCHEMA, arrow_schema(job.columns)):
        raise ValueError("other columns")
    if not np.array_equal(content.column(NUMBER), numbers):
        raise ValueError("other samples")
    return content


def joined(files: Sequence[range], contents: Sequence[Any], job: Job) -> Any:
    """Return the content of sorted files as one, every sample once, with the columns of the job."""
    parts, reached = [], 0
    for numbers, content in zip(files, contents, strict=True):
        parts.append(content.slice(max(0, reached - numbers.start)))
        reached = numbers.stop
    alike = (pa.concat_tables(group) for _, group in groupby(parts, lambda part: part.schema))
    return pa.concat_tables([_widened(part, job) for part in alike]).combine_chunks()


def _widened(content: Any, job: Job) -> Any:
    if content.schema != SHORT_SCHEMA:
        return content
    numbers = content.column(NUMBER).to_pylist()
    return arrow_table(numbers, rows_of(content, job.columns), job.columns)


def read_table(folder: Path, job: Job) -> Table:
    """Return all samples of a job that are there, also while another process merges its files.

    Raises
    ------
    InputError
        A file is damaged.
    """
    for _ in range(_TRIES):
        files = without_repeated(numbers_in(folder))
        if not files:
            return table_of(arrow_table((), (), job.columns), job.columns)
        contents = []
        for numbers in files:
            try:
                contents.append(read_samples(folder, numbers, job))
            except FileNotFoundError:
                break
            except DAMAGES as error:
                raise InputError(
                    f"{path_of(folder, numbers)}: damaged ({error}); delete this file and run the "
                    f"same study again: its {len(numbers)} samples are then run anew"
                ) from error
        else:
            return table_of(joined(files, contents, job), job.columns)
    raise InputError(f"{folder}: files vanish while they are read; run the command again")
