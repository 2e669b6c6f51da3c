"""What result files tell of the room of rests and crowns: entries of findings.json, and tables."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

import numpy as np

from kinematics.planning.rooms.crown_rooms import CrownRoom
from kinematics.planning.rooms.opposing import Nearest
from kinematics.planning.rooms.rest_rooms import RestRoom
from kinematics.planning.rooms.rooms import Rooms
from kinematics.table_cells import Row, coordinates, numbers, tooth_cell, xyz, yes_no
from kinematics.tooth_codes import is_upper

RESTS_FILE: Final = "rests.csv"
CROWNS_FILE: Final = "crowns.csv"

_NEAREST: Final = ["mm", "to", "in", "at_travel_mm"]
_BOTH: Final = [f"{when}_{name}" for when in ("in_mi", "least") for name in _NEAREST]
REST_COLUMNS: Final = [
    "framework", "tooth", "place", "assumed", "coordinates", *xyz("point"), "length_mm", "width_mm",
    "seat_found", "seat_depth_at_ridge_mm", "seat_depth_at_floor_mm", "part", *_BOTH,
    "along_axis_in_mi_mm", "along_axis_least_mm",
]  # fmt: skip
CROWN_COLUMNS: Final = [
    "tooth", "material", "prepared", "surveyed", "where", "functional", "wanted_mm", *_BOTH,
    "lacks_mm", "neighbour", "beside_mm", "neighbour_is_replacement",
]  # fmt: skip


def room_entries(rooms: Rooms) -> Mapping[str, Any]:
    """Return what findings.json tells of room, by name; nothing where nothing was measured."""
    told = {
        "rest_rooms": [_rest_entry(room) for room in rooms.rests],
        "rests_without_surface": list(rooms.untold),
        "crown_rooms": [_crown_entry(room) for room in rooms.crowns],
    }
    return {name: entries for name, entries in told.items() if entries}


def _rest_entry(room: RestRoom) -> Mapping[str, Any]:
    return {
        "framework": room.framework,
        "rest": room.rest,
        "length_mm": room.length_mm,
        "width_mm": room.width_mm,
        "seat_found": _found(room),
        "seat_depth": room.depth,
        "parts": room.parts,
        "least": room.least,
        "what_gives_room": room.gains,
    }


def _found(room: RestRoom) -> bool | None:
    return None if room.depth is None else room.depth.found


def _crown_entry(room: CrownRoom) -> Mapping[str, Any]:
    cusps = [
        {
            "cusp": item.cusp,
            "functional": item.functional,
            "wanted_mm": item.wanted_mm,
            "in_mi": item.in_mi,
            "least": item.least,
            "lacks_mm": item.lacks_mm,
        }
        for item in room.cusps
    ]
    return {"crown": room.crown, "cusps": cusps, "beside": room.beside}


def room_tables(rooms: Rooms) -> dict[str, tuple[list[str], Iterator[Row]]]:
    """Return columns and rows of every table of room by its file; none where nothing is told."""
    told: dict[str, tuple[list[str], Iterator[Row]]] = {}
    if rooms.rests:
        told[RESTS_FILE] = (REST_COLUMNS, _rest_rows(rooms.rests))
    if rooms.crowns:
        told[CROWNS_FILE] = (CROWN_COLUMNS, _crown_rows(rooms.crowns))
    return told


def _rest_rows(rests: tuple[RestRoom, ...]) -> Iterator[Row]:
    """Yield one row for every part of every rest."""
    for room in rests:
        rest, depth = room.rest, room.depth
        found = _found(room)
        for part in room.parts:
            yield [
                room.framework,
                str(rest.tooth),
                rest.place,
                yes_no(rest.assumed),
                coordinates(is_upper(rest.tooth)),
                *numbers(np.array(rest.point), room.length_mm, room.width_mm),
                "" if found is None else yes_no(found),
                *(["", ""] if depth is None else numbers(depth.ridge_mm, depth.floor_mm)),
                part.part,
                *_nearest(part.in_mi),
                *_nearest(part.least),
                *numbers(part.along_axis_in_mi_mm, part.along_axis_mm),
            ]


def _crown_rows(crowns: tuple[CrownRoom, ...]) -> Iterator[Row]:
    """Yield one row for every cusp of every crown, then for what stands beside it."""
    for room in crowns:
        planned = room.crown
        own = [
            str(planned.tooth),
            planned.material,
            yes_no(planned.prepared),
            yes_no(planned.surveyed),
        ]
        for item in room.cusps:
            yield [
                *own,
                item.cusp,
                yes_no(item.functional),
                *numbers(item.wanted_mm),
                *_nearest(item.in_mi),
                *_nearest(item.least),
                *numbers(item.lacks_mm),
                *[""] * 3,
            ]
        for side in room.beside:
            yield [
                *own,
                f"beside, {side.side}",
                *[""] * (3 + len(_BOTH)),
                str(side.neighbour),
                *numbers(side.distance_mm),
                yes_no(side.faces_base),
            ]


def _nearest(nearest: Nearest) -> Row:
    """Return the cells of a least distance; empty but for where nothing is near."""
    if not np.isfinite(nearest.distance_mm):
        return [""] * len(_NEAREST)
    return [
        *numbers(nearest.distance_mm),
        tooth_cell(nearest.opponent),
        nearest.excursion or "MI",
        *numbers(nearest.travel_mm),
    ]
