"""Which columns a file of a jaw track has: the ways to give one, and faults of a header."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final, Literal

from kinematics.checks import InputError, nearest_word
from kinematics.scans.csv_rows import POINT_FOR_DECIMALS, Row, shown

Layout = Literal["quaternion", "transform", "points"]

TIME: Final = "time_s"
#: Columns of each way to give a track, in the order in which numbers are handed on.
LAYOUTS: Final[dict[Layout, tuple[str, ...]]] = {
    "quaternion": ("x_mm", "y_mm", "z_mm", "q_w", "q_x", "q_y", "q_z"),
    "transform": (
        *("r11", "r12", "r13", "x_mm"),
        *("r21", "r22", "r23", "y_mm"),
        *("r31", "r32", "r33", "z_mm"),
    ),
    "points": tuple(f"{point}_{axis}_mm" for point in "abc" for axis in "xyz"),
}
_WANTED: Final = "; ".join(f"{TIME},{','.join(columns)}" for columns in LAYOUTS.values())
#: Units that a column may have been written in, and what to do then.
_OTHER_UNITS: Final = {
    "_ms": ("_s", "divide its numbers by 1000"),
    "_min": ("_s", "multiply its numbers by 60"),
    "_cm": ("_mm", "multiply its numbers by 10"),
    "_m": ("_mm", "multiply its numbers by 1000"),
    "_um": ("_mm", "divide its numbers by 1000"),
    "_inch": ("_mm", "multiply its numbers by 25.4"),
}


def layout_of(header: Row, path: Path) -> Layout:
    """Return how a track is given.

    Parameters
    ----------
    header : Row
        First row of the file; its columns may stand in any order.
    path : Path
        What to call the file.

    Raises
    ------
    InputError
        Columns that are missing, unknown, named twice or in another unit.
    """
    columns = header.fields
    where = f"{path}: line {header.line}"
    if len(columns) < 2:
        found = ",".join(columns)
        parted = any(separator in found for separator in ";\t ")
        hint = f"; columns are parted by commas, and {POINT_FOR_DECIMALS}" if parted else ""
        raise InputError(f"{where} is {shown(found)}: wanted one of the headers {_WANTED}{hint}")
    twice = next((name for name in columns if columns.count(name) > 1), None)
    if twice is not None:
        raise InputError(f"{where}: column {shown(twice)} is named twice; keep one of the two")
    layout = max(LAYOUTS, key=lambda way: len(set(LAYOUTS[way]) & set(columns)))
    faults = list(_faults(columns, (TIME, *LAYOUTS[layout])))
    if faults:
        raise InputError(f"{where}: {'; '.join(faults)}. Accepted headers: {_WANTED}")
    return layout


def _faults(columns: Sequence[str], wanted: Sequence[str]) -> Iterator[str]:
    """Say which columns are missing or unknown."""
    missing = [name for name in wanted if name not in columns]
    for name in columns:
        if name in wanted:
            continue
        other = next((end for end in _OTHER_UNITS if name.endswith(end)), None)
        if other is not None and name.removesuffix(other) + _OTHER_UNITS[other][0] in missing:
            unit, what_to_do = _OTHER_UNITS[other]
            yield (
                f"column {shown(name)} is in another unit: {what_to_do} and call it"
                f" '{name.removesuffix(other)}{unit}'"
            )
            missing.remove(name.removesuffix(other) + unit)
        else:
            yield f"column {shown(name)} is not known{nearest_word(name, missing)}"
    if missing:
        yield f"missing: {', '.join(missing)}"
