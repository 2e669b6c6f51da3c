"""CSV files as rows of texts with their line numbers, and how numbers are written in them."""

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kinematics.checks import InputError

#: How a number is written. Nothing is tried twice, so that no text takes long to be refused.
NUMBER: Final = re.compile(r"[-+]?(?:\d++(?:\.\d*+)?|\.\d++)(?:[eE][-+]?\d{1,3})?", re.ASCII)
POINT_FOR_DECIMALS: Final = "decimals are written with a point: 35.5"
#: So many faults are told at once.
MOST_TOLD: Final = 20

_DECIMAL_COMMA: Final = re.compile(r"[-+]?\d+,\d+", re.ASCII)


@dataclass(frozen=True)
class Row:
    """One row of a file: the number of its line, counted from 1, and its fields."""

    line: int
    fields: list[str]


def csv_text(content: bytes, path: Path) -> str:
    """Return the text of a file in UTF-8, with or without a byte-order mark."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path}: byte {error.start + 1} is not UTF-8 text; save it as CSV in UTF-8"
        ) from error


def csv_rows(text: str, path: Path) -> Iterator[Row]:
    """Yield the rows that are not empty, their fields without blanks around them."""
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
            yield Row(line, [field.strip() for field in fields])


def number_in(text: str, unit: str, farthest: float) -> float | str:
    """Return the number in a field, or what is wrong with it.

    Parameters
    ----------
    text : str
        The field.
    unit : str
        Of the number; empty where it has none.
    farthest : float
        Greatest size that is accepted.
    """
    of_unit = f" in {unit}" if unit else ""
    if text == "":
        return f"is empty; wanted a number{of_unit}"
    if not NUMBER.fullmatch(text):
        hint = f"; {POINT_FOR_DECIMALS}" if _DECIMAL_COMMA.fullmatch(text) else ""
        return f"found {shown(text)}; wanted a finite number{of_unit}{hint}"
    value = float(text)
    if not abs(value) <= farthest:
        with_unit = f" {unit}" if unit else ""
        return f"found {shown(text)}; accepted are {-farthest:g} to {farthest:g}{with_unit}"
    return value


def refuse_faults(faults: list[str], path: Path) -> None:
    """Raise an InputError with the first faults of a file, if there are any."""
    if not faults:
        return
    more = [f"  and {len(faults) - MOST_TOLD} more"] if len(faults) > MOST_TOLD else []
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    told = [f"  {fault}" for fault in faults[:MOST_TOLD]]
    raise InputError("\n".join([f"{path}: {count}", *told, *more]))


def shown(text: str) -> str:
    """Return a text as it can be shown in a message."""
    return repr(text if len(text) <= 60 else text[:57] + "...")
