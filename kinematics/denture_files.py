"""What result files tell of denture frameworks: entries of findings.json, and a table."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

import numpy as np

from kinematics.planning.framework import Framework, FulcrumLine, GuidePlane, PlacedRest
from kinematics.planning.ridge_lines import RidgeLine
from kinematics.table_cells import Row, coordinates, number, numbers, xyz, yes_no

SUPPORTS_FILE: Final = "supports.csv"
SUPPORT_COLUMNS: Final = [
    "framework", "base", "kind", "tooth", "place", "assumed", "coordinates",
    *xyz("point"), "press_x", "press_y", "press_z", "indirect_retainer_distance_mm",
]  # fmt: skip


def framework_entries(frameworks: Iterable[Framework]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of frameworks; points are named with their unit."""
    return [
        {
            "name": item.name,
            "arch": "upper" if item.is_upper else "lower",
            "coordinates": coordinates(item.is_upper),
            "bases": [base.name for base in item.bases],
            "connector": item.connector,
            "held_by": item.held_by,
            "kennedy": item.kennedy and item.kennedy.text,
            "distal_extensions": item.extension_sides,
            "rests": item.rests,
            "guide_planes": item.guide_planes,
            "fulcrum_line": item.fulcrum and _fulcrum(item.fulcrum),
            "indirect_retainers": [
                {
                    "tooth": retainer.rest.tooth,
                    "place": retainer.rest.place,
                    "distance_mm": retainer.distance_mm,
                }
                for retainer in item.indirect
            ],
            "ridges": [_ridge(line) for line in item.ridges],
        }
        for item in frameworks
    ]


def _fulcrum(line: FulcrumLine) -> Mapping[str, Any]:
    return {"right_mm": line.right, "left_mm": line.left, "teeth": line.teeth}


def _ridge(line: RidgeLine) -> Mapping[str, Any]:
    return {
        "base": line.base,
        "worked_out": line.assumed,
        "crest_mm": line.crest,
        "outward": line.outward,
        "facial": line.facial,
    }


def support_rows(frameworks: Iterable[Framework]) -> Iterator[Row]:
    """Yield one row for every rest and every guide plane; columns `SUPPORT_COLUMNS`."""
    for item in frameworks:
        for rest in item.rests:
            what = ["rest", str(rest.tooth), rest.place, yes_no(rest.assumed)]
            yield _row(item, rest, what)
        for plane in item.guide_planes:
            yield _row(item, plane, ["guide plane", str(plane.tooth), "", "no"])


def _row(item: Framework, support: PlacedRest | GuidePlane, what: Row) -> Row:
    retainer = _retainer_cell(item, support) if isinstance(support, PlacedRest) else ""
    return [
        item.name,
        support.base,
        *what,
        coordinates(item.is_upper),
        *numbers(np.array(support.point), np.array(support.press)),
        retainer,
    ]


def _retainer_cell(item: Framework, rest: PlacedRest) -> str:
    """Return how far a rest lies beyond the fulcrum line; empty where it is none such."""
    found = (retainer for retainer in item.indirect if retainer.rest == rest)
    return next((number(retainer.distance_mm) for retainer in found), "")
