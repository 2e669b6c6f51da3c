"""Room of rests and crowns, as findings."""

import math
from collections.abc import Iterable, Iterator

import numpy as np

from kinematics.geometry.poses import move_points
from kinematics.planning.contact_runs import point_of
from kinematics.planning.findings import Figure, Finding, margin_to, told_apart
from kinematics.planning.framework import PlacedRest
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.rooms.crown_rooms import CrownRoom
from kinematics.planning.rooms.opposing import FARTHEST_MM
from kinematics.planning.rooms.rest_rooms import ENAMEL_DEPTH_MM, Gain, RestRoom
from kinematics.planning.rooms.room_rules import (
    ASSUMED,
    LITTLE_ROOM,
    NO_CROWN_ROOM,
    NO_ROOM,
    REDUCTION,
    ROOM_RULES,
    TO_BE_CUT,
    RoomKind,
)
from kinematics.planning.rooms.room_words import gain_words, near_words, where_words
from kinematics.planning.rooms.settings import RoomSettings
from kinematics.planning.tooth_findings import rule_for, tooth_finding
from kinematics.planning.wording import length
from kinematics.tooth_codes import is_upper, place

#: Places of premolars from the midline.
_PREMOLARS = (4, 5)


def room_findings(
    occlusion: Occlusion,
    rests: Iterable[RestRoom],
    crowns: Iterable[CrownRoom],
    settings: RoomSettings,
) -> tuple[Finding, ...]:
    """Return what the room of rests and crowns means.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    rests, crowns : iterable of RestRoom, of CrownRoom
        What was measured.
    settings : RoomSettings
        How much room is wanted.
    """
    return (*_of_rests(occlusion, rests, settings), *_of_crowns(occlusion, crowns))


def _of_rests(
    occlusion: Occlusion, rests: Iterable[RestRoom], settings: RoomSettings
) -> Iterator[Finding]:
    for room in rests:
        if not room.gains:
            continue
        gain = room.gains[0]
        lacks = gain.wanted_mm == settings.rest_least_mm
        name = "least room of a rest" if lacks else "room wanted for a rest"
        yield _finding(
            occlusion,
            _kind(room, lacks),
            _rest_text(room, gain),
            room.rest.tooth,
            room.least.opponent,
            tuple(_rest_figures(room, gain)),
            Figure(name, gain.wanted_mm, "mm"),
            room.least.distance_mm,
            _in_mi(occlusion, room.rest),
        )


def _kind(room: RestRoom, lacks: bool) -> RoomKind:
    if not lacks:
        return LITTLE_ROOM
    if room.rest.assumed:
        return ASSUMED
    return NO_ROOM if room.depth_mm > 0.0 else TO_BE_CUT


def _rest_text(room: RestRoom, gain: Gain) -> str:
    rest = room.rest
    seat = (
        f"its seat is {length(room.depth_mm)} deep at the ridge"
        if room.depth_mm > 0.0
        else "no seat is found"
    )
    if room.depth is None:
        seat = "how deep its seat is cannot be told"
    assumed = " (assumed)" if rest.assumed else ""
    text = (
        f"the {rest.place} rest{assumed} on {rest.tooth} has {near_words(room.least)} at its"
        f" {room.narrowest.part}, {where_words(room.least)}, of {length(gain.wanted_mm)} for its"
        f" metal; {seat}; {gain_words(gain)}"
    )
    needed = room.depth_mm + gain.deeper_mm
    if place(rest.tooth) in _PREMOLARS and needed > ENAMEL_DEPTH_MM:
        text += (
            f"; a premolar seat deeper than {length(ENAMEL_DEPTH_MM)} reached dentine more often"
            " than not (of populations, not of this tooth; the clinician decides)"
        )
    return text


def _rest_figures(room: RestRoom, gain: Gain) -> Iterator[Figure]:
    yield Figure("least distance over all poses", room.least.distance_mm, "mm")
    yield Figure("distance in MI", min(room.in_mi.distance_mm, FARTHEST_MM), "mm")
    along = min(part.along_axis_mm for part in room.parts)
    if math.isfinite(along):
        yield Figure("least room along the long axis", along, "mm")
    if room.depth is not None:
        yield Figure("depth of the seat at the ridge", room.depth_mm, "mm")
    if math.isfinite(gain.deeper_mm):
        yield Figure("deeper, the opponent left as it is", gain.deeper_mm, "mm")
    yield Figure("off the opponent, the seat left as it is", gain.off_opponent_mm, "mm")


def _of_crowns(occlusion: Occlusion, crowns: Iterable[CrownRoom]) -> Iterator[Finding]:
    for room in crowns:
        worst, planned = room.narrowest, room.crown
        if worst.lacks_mm == 0.0:
            continue
        kind = NO_CROWN_ROOM if planned.prepared else REDUCTION
        lacking = [item for item in room.cusps if item.lacks_mm > 0.0]
        told = ", ".join(f"{item.cusp} {length(item.lacks_mm)}" for item in lacking)
        tooth = "prepared" if planned.prepared else "not prepared yet"
        text = (
            f"the {planned.material} crown planned on {planned.tooth} ({tooth}) has"
            f" {near_words(worst.least)} over its {worst.cusp}, {where_words(worst.least)}, of"
            f" {length(worst.wanted_mm)} that its material wants; to come off the tooth yet: {told}"
        )
        yield _finding(
            occlusion,
            kind,
            text,
            planned.tooth,
            worst.least.opponent,
            (
                Figure("least distance over all poses", worst.least.distance_mm, "mm"),
                Figure("distance in MI", min(worst.in_mi.distance_mm, FARTHEST_MM), "mm"),
            ),
            Figure(f"{planned.material} over that cusp", worst.wanted_mm, "mm"),
            worst.least.distance_mm,
        )


def _finding(
    occlusion: Occlusion,
    kind: RoomKind,
    text: str,
    tooth: int,
    opponent: int,
    figures: tuple[Figure, ...],
    threshold: Figure,
    decides_mm: float,
    place: tuple[float, float, float] | None = None,
) -> Finding:
    margin = margin_to(decides_mm, threshold)
    return tooth_finding(
        occlusion,
        rule_for(ROOM_RULES, kind),
        text,
        tooth=tooth,
        opponent=opponent,
        place=place,
        figures=figures,
        threshold=threshold,
        margin=margin,
        determined=told_apart(occlusion.mi_scatter_mm, margin.value),
    )


def _in_mi(occlusion: Occlusion, rest: PlacedRest) -> tuple[float, float, float]:
    """Return where a rest lies in MI, in the hinge frame, mm."""
    if is_upper(rest.tooth):
        return rest.point
    return point_of(move_points(occlusion.casts.mi_pose, np.array([rest.point]))[0])
