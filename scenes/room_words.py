"""Room of rests and crowns as the report tells it: tables and sentences."""

import math
from dataclasses import dataclass
from typing import Final

from kinematics.planning.rooms.crown_rooms import CrownRoom, CuspRoom
from kinematics.planning.rooms.opposing import FARTHEST_MM, Nearest
from kinematics.planning.rooms.rest_rooms import Gain, PartRoom, RestRoom
from kinematics.planning.rooms.room_rules import ENAMEL_CAUTION, ROOM_RULES
from kinematics.planning.rooms.room_words import movement_words, near_words
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.rooms.seat_depth import UNCERTAIN_MM
from kinematics.planning.wording import enumeration
from scenes import colours
from scenes.phrases import length
from scenes.report_tables import Table

_NONE: Final = "–"


@dataclass(frozen=True)
class RoomWords:
    """What is said of one rest or crown: heading, lead, table and further lines."""

    title: str
    lead: str
    table: Table
    lines: tuple[str, ...]


@dataclass(frozen=True)
class RoomSection:
    """The section about room.

    Attributes
    ----------
    rests, crowns : tuple of RoomWords
        One a rest, one a planned crown.
    least, wanted : str
        Room that a rest wants.
    rules : Table
        How severe what is.
    untold : str
        Rests of which nothing can be told; empty where there are none.
    caution : str
        What is known of enamel below seats; empty where nothing is to be cut for a rest.
    """

    rests: tuple[RoomWords, ...]
    crowns: tuple[RoomWords, ...]
    least: str
    wanted: str
    rules: Table
    untold: str
    caution: str


def room_section(rooms: Rooms) -> RoomSection | None:
    """Return the section; None in a case without rests and planned crowns."""
    if not (rooms.rests or rooms.untold or rooms.crowns):
        return None
    return RoomSection(
        rests=tuple(_rest(room) for room in rooms.rests),
        crowns=tuple(_crown(room) for room in rooms.crowns),
        least=length(rooms.settings.rest_least_mm),
        wanted=length(rooms.settings.rest_wanted_mm),
        rules=_rules(),
        untold=enumeration(f"{rest.tooth} {rest.place}" for rest in rooms.untold),
        caution=ENAMEL_CAUTION if any(room.gains for room in rooms.rests) else "",
    )


def _rest(room: RestRoom) -> RoomWords:
    rest = room.rest
    assumed = ", assumed" if rest.assumed else ""
    lines = [_outline(room), _depth(room), *(_gain(gain) for gain in room.gains)]
    return RoomWords(
        title=f"{rest.tooth}, {rest.place} rest{assumed}",
        lead=f"Least room: {_told(room.least)}, at its {room.narrowest.part}.",
        table=_parts(room.parts),
        lines=tuple(lines),
    )


def _outline(room: RestRoom) -> str:
    return (
        f"Outline drawn: {length(room.length_mm)} long, {length(room.width_mm)} wide; outlines in"
        " the mouth scatter widely."
    )


def _depth(room: RestRoom) -> str:
    depth = room.depth
    if depth is None:
        return "How deep its seat is cannot be told from this surface."
    if not depth.found:
        return (
            "No seat found: the ridge lies no deeper than natural ridges do below what bridges its"
            " rim."
        )
    return (
        f"Seat found: {length(depth.ridge_mm)} deep at the ridge, {length(depth.floor_mm)} at its"
        f" deepest, below what bridges its rim (± {length(UNCERTAIN_MM)})."
    )


def _gain(gain: Gain) -> str:
    deeper = (
        f"a seat {length(gain.deeper_mm)} deeper"
        if math.isfinite(gain.deeper_mm)
        else "no depth of the seat alone"
    )
    both = ""
    if gain.shared_off_mm > 0.0 and gain.shared_deeper_mm > 0.0:
        both = (
            f"; or {length(gain.shared_deeper_mm)} deeper and {length(gain.shared_off_mm)} off the"
            " opponent"
        )
    return (
        f"For {length(gain.wanted_mm)} of room: {deeper}; or {length(gain.off_opponent_mm)} off the"
        f" opponent{both}."
    )


def _told(nearest: Nearest) -> str:
    """Return a least distance with where it is."""
    if math.isinf(nearest.distance_mm):
        return near_words(nearest)
    to = f"to {nearest.opponent}" if nearest.opponent else "to what is no tooth"
    return f"{near_words(nearest)} {to}, {movement_words(nearest)}"


def _along(value_mm: float) -> str:
    return f"nothing within {FARTHEST_MM:g} mm" if math.isinf(value_mm) else length(value_mm)


def _parts(parts: tuple[PartRoom, ...]) -> Table:
    head = (
        "part",
        "shortest distance in MI",
        "least over all paths",
        "along the long axis in MI",
        "least along the axis",
    )
    rows = tuple(
        (
            part.part,
            _in_mi(part.in_mi),
            _told(part.least),
            _along(part.along_axis_in_mi_mm),
            _along(part.along_axis_mm),
        )
        for part in parts
    )
    return Table(head, rows)


def _in_mi(nearest: Nearest) -> str:
    if math.isinf(nearest.distance_mm) or not nearest.opponent:
        return near_words(nearest)
    return f"{near_words(nearest)} to {nearest.opponent}"


def _crown(room: CrownRoom) -> RoomWords:
    planned = room.crown
    state = "prepared" if planned.prepared else "not prepared yet"
    surveyed = ", surveyed" if planned.surveyed else ""
    lacking = [item for item in room.cusps if item.lacks_mm > 0.0]
    lead = "Every cusp has the room that its material wants."
    if lacking:
        lead = (
            "The tooth has to be reduced further where room is lacking."
            if planned.prepared
            else "The last column would have to come off the tooth; the clinician decides."
        )
    return RoomWords(
        title=f"{planned.tooth}, {planned.material} crown{surveyed}, {state}",
        lead=lead,
        table=_cusps(room.cusps),
        lines=tuple(_beside(room)),
    )


def _cusps(cusps: tuple[CuspRoom, ...]) -> Table:
    head = (
        "cusp",
        "room wanted",
        "shortest distance in MI",
        "least over all paths",
        "room lacking, to come off",
    )
    rows = tuple(
        (
            f"{item.cusp}{' (functional)' if item.functional else ''}",
            length(item.wanted_mm),
            _in_mi(item.in_mi),
            _told(item.least),
            length(item.lacks_mm) if item.lacks_mm > 0.0 else _NONE,
        )
        for item in cusps
    )
    return Table(head, rows)


def _beside(room: CrownRoom) -> list[str]:
    lines = []
    for side in room.beside:
        what = f"replacement tooth {side.neighbour}" if side.faces_base else str(side.neighbour)
        plane = "; the guide plane lies on this side" if side.faces_base else ""
        lines.append(
            f"Room beside it, {side.side}: {_along(side.distance_mm)} between its wall and"
            f" {what}{plane}."
        )
    if room.beside:
        lines.append(
            "How thick a surveyed crown may be towards cheek and tongue is told by the contour"
            " wanted, which is not known here."
        )
    return lines


def _rules() -> Table:
    signs = colours.SEVERITY_SIGN
    rows = tuple(
        (f"{signs[rule.severity]} {rule.severity}", rule.kind, rule.text, rule.source)
        for rule in ROOM_RULES
    )
    return Table(("severity", "what is found", "when", "source"), rows)
