"""Cells of tables for a spreadsheet: numbers to a millionth of their unit, points, teeth."""

import csv
import io
import math
from collections.abc import Iterable

import numpy as np

from kinematics.conventions import Floats

Row = list[str]


def number(value: float) -> str:
    """Round to a millionth; empty where there is no number."""
    if not math.isfinite(value):
        return ""
    return f"{round(value, 6) + 0.0:.6f}"


def numbers(*values: float | Floats) -> Row:
    """Return the cells of numbers and of arrays of them, in their order."""
    return [number(float(item)) for value in values for item in np.atleast_1d(value)]


def yes_no(told: bool) -> str:
    """Return the cell of what is so or not."""
    return "yes" if told else "no"


def coordinates(is_upper: bool) -> str:
    """Return the name of the coordinates in which points of an arch are told."""
    return "hinge frame" if is_upper else "lower coordinates"


def xyz(name: str) -> Row:
    """Return the columns of a point, mm."""
    return [f"{name}_{axis}_mm" for axis in "xyz"]


def tooth_cell(code: int) -> str:
    """Return a tooth number; empty where there is none."""
    return str(code) if code > 0 else ""


def pairs_cell(pairs: Iterable[tuple[int, int]]) -> str:
    """Return the cell of tooth pairs, as "16/46 17/47"."""
    return " ".join(f"{upper}/{lower}" for upper, lower in pairs)


def table_text(columns: Row, rows: Iterable[Row]) -> str:
    """Return a comma-separated table, lines ended by a line feed on every system."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return text.getvalue()
