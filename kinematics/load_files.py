"""What result files tell of loads: entries of findings.json, and tables."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

import numpy as np

from kinematics.planning.base_loads import ExcursionLoads, SweepLoads
from kinematics.planning.closing_shares import overloads
from kinematics.planning.frame_forces import QUANTITIES, FrameForces
from kinematics.planning.load_readings import (
    AbutmentLoad,
    Range,
    ToothLoad,
    across_abutments,
    base_load,
    largest_load,
)
from kinematics.table_cells import Row, number, numbers, xyz, yes_no

LOADS_FILE: Final = "loads.csv"
TOOTH_LOADS_FILE: Final = "tooth_loads.csv"
CONTACT_LOADS_FILE: Final = "contact_loads.csv"

FORCE: Final = ["force_x_n", "force_y_n", "force_z_n"]
_WHICH: Final = ["excursion", "guidance_on_replacement_teeth", "travel_mm"]
LOAD_COLUMNS: Final = [
    *_WHICH, "framework", "balanced", "only_one_balance",
    *(f"{name}{end}" for name in QUANTITIES for end in ("", "_least", "_greatest")),
]  # fmt: skip
TOOTH_LOAD_COLUMNS: Final = [
    *_WHICH, "framework", "tooth", "pushed_by", *FORCE, "along_n", "across_n",
    "across_n_least", "across_n_greatest", "along_n_least", "along_n_greatest",
    "across_in_all_n", "across_in_all_n_least", "across_in_all_n_greatest", "lever_mm",
]  # fmt: skip
CONTACT_LOAD_COLUMNS: Final = [
    *_WHICH, "tooth_upper", "tooth_lower", *xyz("place"), *FORCE,
]  # fmt: skip


def load_entries(loads: tuple[ExcursionLoads, ...]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of loads: the largest of every framework and excursion."""
    entries: list[Mapping[str, Any]] = []
    for excursion in loads:
        as_is = excursion.as_is
        entries.append(
            {
                "excursion": as_is.excursion,
                "poses": len(as_is.travel_mm),
                "poses_without_equilibrium": [
                    {"travel_mm": travel, "gives_way": words}
                    for travel, words in zip(as_is.travel_mm, as_is.escape, strict=True)
                    if words
                ],
                "largest_residual": as_is.left.max(initial=0.0),
                "largest": [largest_load(excursion, number) for number in range(len(as_is.frames))],
                "poses_to_doubt": [
                    {"travel_mm": as_is.travel_mm[pose], "overloads": found}
                    for pose in range(len(as_is.travel_mm))
                    if (found := overloads(as_is, pose))
                ],
            }
        )
    return entries


def load_tables(loads: tuple[ExcursionLoads, ...]) -> dict[str, tuple[list[str], Iterator[Row]]]:
    """Return columns and rows of every table of loads by its file; none where nothing is loaded."""
    if not loads:
        return {}
    return {
        LOADS_FILE: (LOAD_COLUMNS, load_rows(loads)),
        TOOTH_LOADS_FILE: (TOOTH_LOAD_COLUMNS, tooth_load_rows(loads)),
        CONTACT_LOADS_FILE: (CONTACT_LOAD_COLUMNS, contact_load_rows(loads)),
    }


def load_rows(loads: tuple[ExcursionLoads, ...]) -> Iterator[Row]:
    """Yield one row for every framework in every pose; columns `LOAD_COLUMNS`."""
    for told, one in _both(loads):
        for frame in one.frames:
            for i in range(len(one.travel_mm)):
                yield [
                    *_which(one, told, i),
                    frame.framework,
                    yes_no(frame.balanced[0, i]),
                    "yes" if one.unique[i] else "not claimed",
                    *_figures(frame, i),
                ]


def tooth_load_rows(loads: tuple[ExcursionLoads, ...]) -> Iterator[Row]:
    """Yield one row for every tooth of a framework that is pushed in a pose, then its abutments.

    Columns `TOOTH_LOAD_COLUMNS`: a replacement tooth is pushed by opponents, an abutment by the
    framework.
    """
    for told, one in _both(loads):
        for frame in one.frames:
            for i in np.flatnonzero(frame.balanced[0]):
                load, which = base_load(one, frame, int(i)), _which(one, told, int(i))
                for tooth in load.teeth:
                    cells = _pushed(frame, tooth, "opponents")
                    lever = "" if frame.kind == "splint" else number(tooth.lever_mm)
                    yield [*which, *cells, *[""] * 7, lever]
                whole, whole_ranges = across_abutments(frame, int(i))
                ranged = len(frame.balanced) > 1
                for abutment, (_, in_all), ends in zip(
                    load.abutments, whole, whole_ranges, strict=True
                ):
                    yield [
                        *which,
                        *_pushed(frame, abutment, "framework"),
                        *_ends(abutment.across_range_n, ranged),
                        *_ends(abutment.along_range_n, ranged),
                        number(in_all),
                        *_ends(ends, ranged),
                        "",
                    ]


def _ends(ends: Range, ranged: bool) -> Row:
    """Return the cells of a range; empty where none was asked."""
    return numbers(*ends) if ranged else ["", ""]


def _pushed(frame: FrameForces, tooth: ToothLoad | AbutmentLoad, by: str) -> Row:
    """Return the cells of a tooth and the force on it."""
    forces = numbers(np.array(tooth.force_n), tooth.along_n, tooth.across_n)
    return [frame.framework, str(tooth.tooth), by, *forces]


def contact_load_rows(loads: tuple[ExcursionLoads, ...]) -> Iterator[Row]:
    """Yield one row for every contact that carries something; columns `CONTACT_LOAD_COLUMNS`."""
    for told, one in _both(loads):
        contacts = one.contacts
        for k, pose in enumerate(contacts.pose):
            yield [
                *_which(one, told, int(pose)),
                str(contacts.tooth_upper[k]),
                str(contacts.tooth_lower[k]),
                *numbers(contacts.place[k], contacts.force_n[k]),
            ]


def _both(loads: tuple[ExcursionLoads, ...]) -> Iterator[tuple[str, SweepLoads]]:
    for excursion in loads:
        yield "as set up", excursion.as_is
        if excursion.taken_off is not None:
            yield "taken off", excursion.taken_off


def _which(one: SweepLoads, told: str, pose: int) -> Row:
    """Return the cells under `_WHICH`."""
    return [one.excursion, told, number(float(one.travel_mm[pose]))]


def _figures(frame: FrameForces, pose: int) -> Row:
    """Return each figure with its range; empty what is not known, not asked, or not there."""
    held = frame.balanced[:, pose]
    if not held[0]:
        return [""] * (3 * len(QUANTITIES))
    values = frame.figures[held, pose]
    cells: Row = []
    for name, column in zip(QUANTITIES, values.T, strict=True):
        if not _applies(frame, name):
            cells += ["", "", ""]
        elif len(held) == 1:
            cells += [number(float(column[0])), "", ""]
        else:
            cells += numbers(column[0], column.min(), column.max())
    return cells


def _applies(frame: FrameForces, quantity: str) -> bool:
    """Return whether a framework has what a figure is about: a fulcrum line, or a ridge."""
    if quantity == "about_fulcrum_nmm":
        return frame.has_fulcrum
    return frame.has_ridge or quantity not in ("about_crest_nmm", "mucosa_n", "sinking_mm")
