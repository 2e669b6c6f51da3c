"""Files of picked points: CSV with one row a point, written, and read with every fault named."""

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kinematics.checks import InputError, nearest_word
from kinematics.scans.limits import ordinary_content
from kinematics.scans.picked_points import OF_TEETH, POINT_NAMES, SEAT, PickedPoint, Place
from kinematics.tooth_codes import PERMANENT

HEADER: Final = ("point", "tooth", "x_mm", "y_mm", "z_mm")
#: Room for hundreds of points; more was meant to be something else. Chosen for this program.
LARGEST_BYTES: Final = 200_000
#: So many faults are told at once.
MOST_TOLD: Final = 20
#: A scan may lie anywhere, but not so far off that its digits are lost; as in settings.
FARTHEST_MM: Final = 10_000.0

_NUMBER: Final = re.compile(r"[-+]?(?:\d++(?:\.\d*+)?|\.\d++)(?:[eE][-+]?\d{1,3})?", re.ASCII)
_DECIMAL_COMMA: Final = re.compile(r"[-+]?\d+,\d+", re.ASCII)
_POINT: Final = "decimals are written with a point: 35.5"


@dataclass(frozen=True)
class _Row:
    """One row of a file."""

    line: int
    fields: list[str]


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
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path}: byte {error.start + 1} is not UTF-8 text; save it as CSV in UTF-8"
        ) from error
    rows = _rows(text, path)
    first = next(rows, _Row(1, []))
    _check_header(first, path)
    points: list[PickedPoint] = []
    lines: dict[tuple[object, ...], int] = {}
    faults: list[str] = []
    for row in rows:
        point, wrong = _point_of(row)
        if point is not None:
            key = (point.point, point.tooth, *(point.place if point.point == SEAT else ()))
            if key in lines:
                wrong = [f"line {row.line}: {point.called} stands in line {lines[key]} already; "
                         "keep one of the two"]  # fmt: skip
            else:
                lines[key] = row.line
                points.append(point)
        faults += wrong
    if faults:
        more = [f"  and {len(faults) - MOST_TOLD} more"] if len(faults) > MOST_TOLD else []
        count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
        told = [f"  {fault}" for fault in faults[:MOST_TOLD]]
        raise InputError("\n".join([f"{path}: {count}", *told, *more]))
    if not points:
        raise InputError(f"{path}: holds no point; wanted one row a point below the header")
    return tuple(points)


def _rows(text: str, path: Path) -> Iterator[_Row]:
    """Yield the rows that are not empty."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    while True:
        line = reader.line_num + 1
        try:
            fields = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise InputError(f"{path}: line {line} is no row of CSV ({error})") from error
        if any(field.strip() for field in fields):
            yield _Row(line, [field.strip() for field in fields])


def _check_header(row: _Row, path: Path) -> None:
    if tuple(row.fields) == HEADER:
        return
    found = _shown(",".join(row.fields))
    hint = "; columns are parted by commas, and " + _POINT if ";" in found else ""
    raise InputError(
        f"{path}: line {row.line} is {found}: wanted the header {','.join(HEADER)!r}{hint}"
    )


def _point_of(row: _Row) -> tuple[PickedPoint | None, list[str]]:
    """Return the point of a row, and what keeps it from being one."""
    if len(row.fields) != len(HEADER):
        hint = f"; {_POINT}" if len(row.fields) > len(HEADER) else ""
        return None, [f"line {row.line}: has {len(row.fields)} columns; wanted {len(HEADER)}{hint}"]
    name, number, *coordinates = row.fields
    faults = [f"line {row.line}, column point: {said}" for said in _name_faults(name)]
    tooth = None
    if not faults:
        said = _tooth_fault(name, number)
        faults += [f"line {row.line}, column tooth: {said}"] if said else []
        tooth = int(number) if name in OF_TEETH and not said else None
    values = [_coordinate(text) for text in coordinates]
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
        yield f"found {_shown(name)}{hint} accepted are {', '.join(POINT_NAMES)}"


def _tooth_fault(name: str, number: str) -> str:
    """Say what is wrong with a tooth number; empty where nothing is."""
    if name not in OF_TEETH:
        return f"found {_shown(number)}; must be empty, {name} is of no tooth" if number else ""
    accepted = "accepted are 11-18, 21-28, 31-38 and 41-48 (ISO 3950)"
    if not number:
        return f"is empty, but {name} is of a tooth; {accepted}"
    known = number.isascii() and number.isdecimal() and len(number) == 2
    return "" if known and int(number) in PERMANENT else f"found {_shown(number)}; {accepted}"


def _coordinate(text: str) -> float | str:
    """Return a coordinate, or what is wrong with it."""
    if text == "":
        return "is empty; wanted a number in mm"
    if not _NUMBER.fullmatch(text):
        hint = f"; {_POINT}" if _DECIMAL_COMMA.fullmatch(text) else ""
        return f"found {_shown(text)}; wanted a finite number in mm{hint}"
    value = float(text)
    if not abs(value) <= FARTHEST_MM:
        return f"found {_shown(text)}; accepted are {-FARTHEST_MM:g} to {FARTHEST_MM:g} mm"
    return value


def _shown(text: str) -> str:
    return repr(text if len(text) <= 60 else text[:57] + "...")
