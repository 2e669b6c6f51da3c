"""What result files tell of wax-ups: entries of findings.json, and a table."""

import dataclasses
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from kinematics.planning.wax_up import LEAST_CHANGE_MM, WaxedTooth, WaxUp
from kinematics.table_cells import Row, numbers, tooth_cell, xyz

WAX_UP_FILE: Final = "wax_up.csv"
WAX_UP_COLUMNS: Final = [
    "arch", "wax_up", "where", "tooth", "added_mm3", "removed_mm3", "most_added_mm",
    "most_removed_mm", "added_mm2", "removed_mm2", *xyz("most_added_at"),
]  # fmt: skip


def wax_up_entries(wax_ups: Iterable[WaxUp]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of wax-ups; points are named with their unit."""
    return [
        {
            "arch": item.side,
            "wax_up": item.name,
            "coordinates": "hinge frame, the jaw in MI as scanned",
            "least_change_mm": LEAST_CHANGE_MM,
            "same_share": item.same_share,
            "teeth": [_entry(tooth) for tooth in item.teeth],
            "on_gums_and_ridge": item.relief and _entry(item.relief),
        }
        for item in wax_ups
    ]


def _entry(tooth: WaxedTooth) -> Mapping[str, Any]:
    told = dataclasses.asdict(tooth)
    return {"most_added_at_mm" if key == "most_added_at" else key: told[key] for key in told}


def wax_up_rows(wax_ups: Iterable[WaxUp]) -> Iterator[Row]:
    """Yield one row a tooth that changed, and one for gums and ridge; `WAX_UP_COLUMNS`."""
    for item in wax_ups:
        for tooth in (*item.teeth, *filter(None, [item.relief])):
            yield [
                item.side,
                item.name,
                "tooth" if tooth.tooth else "gums and ridge",
                tooth_cell(tooth.tooth),
                *numbers(
                    tooth.added_mm3,
                    tooth.removed_mm3,
                    tooth.most_added_mm,
                    tooth.most_removed_mm,
                    tooth.added_mm2,
                    tooth.removed_mm2,
                ),
                *(numbers(*tooth.most_added_at) if tooth.most_added_at else ["", "", ""]),
            ]
