"""Files of samples of one job: their names, and how they are written, checked, read and joined.

A file is named by its first and its last sample, and holds all from the one to the other. What lies
within another file only repeats it: it was about to be removed when the program was ended.
"""

import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any, Final

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from kinematics.checks import InputError
from kinematics.engine.plan import Job
from kinematics.engine.rows import NUMBER, Table, arrow_schema, arrow_table, table_of
from kinematics.engine.whole_files import write_whole

_NAME: Final = re.compile(r"(\d{8,})-(\d{8,})\.parquet")
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


def write_samples(folder: Path, numbers: range, content: Any, merged: bool) -> None:
    """Write a file, whole.

    Parameters
    ----------
    folder : Path
        Of the job.
    numbers : range
        Which samples.
    content : pyarrow.Table
        As `rows.arrow_table` makes it.
    merged : bool
        Whether other files are removed in favour of this one. It is then small, and lies on the
        disk before this returns; a file of few samples is rather written quickly.
    """
    text = [field.name for field in content.schema if field.type not in (pa.int64(), pa.float64())]
    write_whole(
        path_of(folder, numbers),
        lambda path: pq.write_table(
            content,
            path,
            compression="zstd" if merged else "none",
            use_dictionary=text if merged else False,  # of floats it would unite what is NaN
            write_statistics=False,
            write_page_checksum=True,
        ),
        at_rest=merged,
    )


def is_sound(folder: Path, numbers: range, job: Job) -> bool:
    """Tell whether the end of a file, which is written last, says what it should."""
    try:
        with pq.ParquetFile(path_of(folder, numbers)) as file:
            rows, schema = file.metadata.num_rows, file.schema_arrow
    except DAMAGES:
        return False
    return (
        rows == len(numbers)
        and numbers.stop <= job.count
        and bool(schema.equals(arrow_schema(job.columns)))
    )


def read_samples(folder: Path, numbers: range, job: Job) -> Any:
    """Return what a file holds, as an Arrow table; whatever is wrong with it raises `DAMAGES`."""
    path = path_of(folder, numbers)
    with pq.ParquetFile(path, page_checksum_verification=True) as file:
        content = file.read(use_threads=False)
    if not content.schema.equals(arrow_schema(job.columns)):
        raise ValueError("other columns")
    if not np.array_equal(content.column(NUMBER), numbers):
        raise ValueError("other samples")
    return content


def joined(files: Sequence[range], contents: Sequence[Any]) -> Any:
    """Return the content of sorted files as one, every sample once."""
    parts, reached = [], 0
    for numbers, content in zip(files, contents, strict=True):
        parts.append(content.slice(max(0, reached - numbers.start)))
        reached = numbers.stop
    return pa.concat_tables(parts).combine_chunks()


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
            return table_of(joined(files, contents), job.columns)
    raise InputError(f"{folder}: files vanish while they are read; run the command again")
