"""What result files tell of loads: entries of findings.json, and two tables."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

import numpy as np

from kinematics.planning.base_loads import ExcursionLoads, SweepLoads
from kinematics.planning.frame_forces import QUANTITIES, FrameForces
from kinematics.planning.load_readings import largest_load
from kinematics.table_cells import Row, number, numbers, xyz

LOADS_FILE: Final = "loads.csv"
CONTACT_LOADS_FILE: Final = "contact_loads.csv"

_WHICH: Final = ["excursion", "guidance_on_replacement_teeth", "travel_mm"]
LOAD_COLUMNS: Final = [
    *_WHICH, "framework", "balanced", "only_one_balance",
    *(f"{name}{end}" for name in QUANTITIES for end in ("", "_least", "_greatest")),
]  # fmt: skip
CONTACT_LOAD_COLUMNS: Final = [
    *_WHICH, "tooth_upper", "tooth_lower", *xyz("place"), "force_x_n", "force_y_n", "force_z_n",
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
            }
        )
    return entries


def load_rows(loads: tuple[ExcursionLoads, ...]) -> Iterator[Row]:
    """Yield one row for every framework in every pose; columns `LOAD_COLUMNS`."""
    for told, one in _both(loads):
        for frame in one.frames:
            for i in range(len(one.travel_mm)):
                yield [
                    *_which(one, told, i),
                    frame.framework,
                    "yes" if frame.balanced[0, i] else "no",
                    "yes" if one.unique[i] else "not claimed",
                    *_figures(frame, i),
                ]


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
    """Return each figure with its least and greatest; empty where nothing balances the force."""
    held = frame.balanced[:, pose]
    if not held[0]:
        return [""] * (3 * len(QUANTITIES))
    values = frame.figures[held, pose]
    table = np.stack([values[0], values.min(axis=0), values.max(axis=0)], axis=1)
    return numbers(table.ravel())
