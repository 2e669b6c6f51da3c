"""Files of picked points: CSV with one row a point, written, and read with every fault named."""

import csv
import io
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from kinematics.checks import InputError, nearest_word
from kinematics.scans.csv_rows import (
    POINT_FOR_DECIMALS,
    Row,
    csv_rows,
    csv_text,
    number_in,
    refuse_faults,
    shown,
)
from kinematics.scans.limits import ordinary_content
from kinematics.scans.picked_points import OF_TEETH, POINT_NAMES, PickedPoint, Place
from kinematics.tooth_codes import PERMANENT

HEADER: Final = ("point", "tooth", "x_mm", "y_mm", "z_mm")
#: Room for hundreds of points; more was meant to be something else. Chosen for this program.
LARGEST_BYTES: Final = 200_000
#: A scan may lie anywhere, but not so far off that its digits are lost; as in settings.
FARTHEST_MM: Final = 10_000.0


def points_text(points: tuple[PickedPoint, ...]) -> str:
    """Return points as the text of a file; `read_points` gives the same points."""
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow(HEADER)
    for p in points:
        writer.writerow((p.point, "" if p.tooth is None else p.tooth, *map(repr, p.place)))
    return written.getvalue()


def read_points(path: Path) -> tuple[PickedPoint, ...]:
    """Read a file of points.

    Parameters
    ----------
    path : Path
        CSV in UTF-8 with the columns of `HEADER`, at most `LARGEST_BYTES`: points in the
        coordinates of the upper scan, the jaw in MI, mm.

    Raises
    ------
    InputError
        The file cannot be read, or rows cannot be used; all faults with line and column.
    """
    content = ordinary_content(
        path,
        LARGEST_BYTES,
        "give a CSV file of points in it",
        "a file of points has one short row a point, was another file meant?",
    )
    rows = csv_rows(csv_text(content, path), path)
    first = next(rows, Row(1, []))
    _check_header(first, path)
    points: list[PickedPoint] = []
    lines: dict[tuple[object, ...], int] = {}
    faults: list[str] = []
    for row in rows:
        point, wrong = _point_of(row)
        if point is not None:
            key = (point.point, point.tooth, *(point.place if point.point in OF_TEETH else ()))
            if key in lines:
                wrong = [f"line {row.line}: {point.called} stands in line {lines[key]} already; "
                         "keep one of the two"]  # fmt: skip
            else:
                lines[key] = row.line
                points.append(point)
        faults += wrong
    refuse_faults(faults, path)
    if not points:
        raise InputError(f"{path}: holds no point; wanted one row a point below the header")
    return tuple(points)


def _check_header(row: Row, path: Path) -> None:
    if tuple(row.fields) == HEADER:
        return
    found = shown(",".join(row.fields))
    hint = "; columns are parted by commas, and " + POINT_FOR_DECIMALS if ";" in found else ""
    raise InputError(
        f"{path}: line {row.line} is {found}: wanted the header {','.join(HEADER)!r}{hint}"
    )


def _point_of(row: Row) -> tuple[PickedPoint | None, list[str]]:
    """Return the point of a row, and what keeps it from being one."""
    if len(row.fields) != len(HEADER):
        hint = f"; {POINT_FOR_DECIMALS}" if len(row.fields) > len(HEADER) else ""
        return None, [f"line {row.line}: has {len(row.fields)} columns; wanted {len(HEADER)}{hint}"]
    name, number, *coordinates = row.fields
    faults = [f"line {row.line}, column point: {said}" for said in _name_faults(name)]
    tooth = None
    if not faults:
        said = _tooth_fault(name, number)
        faults += [f"line {row.line}, column tooth: {said}"] if said else []
        tooth = int(number) if name in OF_TEETH and not said else None
    values = [number_in(text, "mm", FARTHEST_MM) for text in coordinates]
    for column, value in zip(HEADER[2:], values, strict=True):
        if isinstance(value, str):
            faults.append(f"line {row.line}, column {column}: {value}")
    if faults:
        return None, faults
    x, y, z = (float(value) for value in values)
    place: Place = (x, y, z)
    return PickedPoint(name, place, tooth), []


def _name_faults(name: str) -> Iterator[str]:
    if name not in POINT_NAMES:
        hint = nearest_word(name, POINT_NAMES) or ";"
        yield f"found {shown(name)}{hint} accepted are {', '.join(POINT_NAMES)}"


def _tooth_fault(name: str, number: str) -> str:
    """Say what is wrong with a tooth number; empty where nothing is."""
    if name not in OF_TEETH:
        return f"found {shown(number)}; must be empty, {name} is of no tooth" if number else ""
    accepted = "accepted are 11-18, 21-28, 31-38 and 41-48 (ISO 3950)"
    if not number:
        return f"is empty, but {name} is of a tooth; {accepted}"
    known = number.isascii() and number.isdecimal() and len(number) == 2
    return "" if known and int(number) in PERMANENT else f"found {shown(number)}; {accepted}"
