"""What result files tell of border movements: an entry of findings.json, and a table."""

import math
from collections.abc import Iterator
from dataclasses import asdict
from typing import Any, Final

from kinematics.borders.extents import border_extents
from kinematics.borders.movements import BorderMovements
from kinematics.table_cells import Row, numbers, xyz, yes_no

OUTLINES_FILE: Final = "border_movements.csv"
OUTLINE_COLUMNS: Final = [
    "line", "seen_from", "on_teeth", "place",
    "advance_right_mm", "advance_left_mm", "shift_mm", "opening_deg",
    *xyz("incisal_point"), *xyz("condyle_right"), *xyz("condyle_left"),
]  # fmt: skip


def outline_entry(found: BorderMovements | None) -> dict[str, Any]:
    """Return how far border movements reach, and which limits they do not."""
    if found is None:
        return {}
    return asdict(border_extents(found)) | {"limits_not_reached": found.cut_short}


def outline_rows(found: BorderMovements) -> Iterator[Row]:
    """Yield one row for every place of every line; columns `OUTLINE_COLUMNS`."""
    for line in found.lines:
        at = line.positions
        for i, opening_rad in enumerate(line.opening_rad):
            yield [
                line.name,
                line.seen,
                yes_no(line.on_teeth),
                str(i),
                *numbers(at.advance_right_mm[i], at.advance_left_mm[i], at.shift_mm[i]),
                *numbers(math.degrees(opening_rad)),
                *numbers(line.incisal_point[i], at.condyle_right[i], at.condyle_left[i]),
            ]
