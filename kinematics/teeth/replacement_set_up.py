"""Over-erupted teeth, and replacement teeth set up against them so that MI keeps its stops."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from kinematics.checks import InputError, NotConverged
from kinematics.conventions import Floats
from kinematics.teeth.making_room import beside_neighbours
from kinematics.teeth.meeting import KindPair, Teeth, meetings, near_faces
from kinematics.teeth.posterior_pairs import with_every_pair
from kinematics.teeth.settling import NEAR_MM, SETTLED_MM, Settled, settle
from kinematics.teeth.settling_programme import LIFT, LONG_GAIN, SHORT_COST, Freedom
from kinematics.teeth.side_settings import SideSettings
from kinematics.teeth.standing_tooth import StandingTooth

#: A replacement tooth that overlaps by more than this is moved and reshaped, mm.
HINDERED_MM: Final = 0.05
#: How often teeth are slid beside their neighbours and settled again.
MOST_SLIDES: Final = 4
#: Rounds with large steps: over-eruption is up to a few millimetres.
WIDE_ROUNDS: Final = 12
LATER_WIDE_ROUNDS: Final = 4


def opponent_of(kind: str) -> str:
    """Return the crown type of the same number in the other arch."""
    return ("U" if kind[0] == "L" else "L") + kind[1]


def erupted_side(
    teeth: Teeth, over_erupted: Mapping[str, float], replacements: frozenset[str]
) -> dict[str, StandingTooth]:
    """Return the teeth with some moved along their axes, their replacement opponents with them.

    A replacement tooth opposite an over-erupted one keeps its relation to it; that is where its
    set-up begins.
    """
    moved = dict(teeth)
    for kind, distance in over_erupted.items():
        before = moved[kind].place.origin
        moved[kind] = moved[kind].erupted(distance)
        opponent = opponent_of(kind)
        if opponent in replacements and opponent not in over_erupted:
            tooth = moved[opponent]
            step = moved[kind].place.origin - before
            moved[opponent] = tooth.at(tooth.place.moved(step))
    return moved


def _hindered(
    teeth: Teeth, replacements: frozenset[str], mi_pose: Floats, among: frozenset[str]
) -> tuple[frozenset[str], list[KindPair]]:
    """Return replacement teeth that overlap something much, and natural pairs that overlap."""
    faces = near_faces(teeth, NEAR_MM, among)
    overlapping = meetings(teeth, faces, mi_pose, -SETTLED_MM, among)
    natural = {m.kinds for m in overlapping if not set(m.kinds) & replacements}
    much = [m.kinds for m in overlapping if m.gap_mm <= -HINDERED_MM]
    return frozenset(k for kinds in much for k in kinds if k in replacements), sorted(natural)


def _freedoms(
    teeth: Teeth, replacements: frozenset[str], hindered: frozenset[str]
) -> list[Freedom]:
    """Return what may change on replacement teeth.

    All settle their supporting cusps, bring the others to the opponent where little is missing
    and give way where something is too high. The ridges of a
    hindered tooth are also built up to a stop, since it is moved away from its other opponents.
    """
    freedoms = []
    for kind in sorted(replacements & set(teeth)):
        tooth = teeth[kind]
        if tooth.crown is None:
            continue
        free = kind in hindered
        freedoms.append(Freedom(kind, LIFT, 3.0, 0.6, 1.0, 1.0))
        names, settled = tooth.cusp_names, tooth.crown.form.settled
        for part in range(len(tooth.heights)):
            if part >= len(names):
                forth, gain = (1.1, -LONG_GAIN) if free else (0.0, 0.0)
                freedoms.append(Freedom(kind, part, 0.8, forth, 0.1, gain))
            elif names[part] in settled:
                freedoms.append(Freedom(kind, part, 0.6, 0.6, SHORT_COST, -LONG_GAIN))
            else:
                freedoms.append(Freedom(kind, part, 1.2, 0.2, 0.6, -0.05))
    return freedoms


def set_up_replacements(natural_teeth: Settled, given: SideSettings, mi_pose: Floats) -> Settled:
    """Move over-erupted teeth of one side and set up replacement teeth against them.

    Parameters
    ----------
    natural_teeth : Settled
        All teeth as natural ones in MI.
    given : SideSettings
        Which teeth have over-erupted, which are replacement teeth, and which are missing and hinder
        nothing.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.

    Raises
    ------
    InputError
        An over-erupted tooth runs into natural teeth, or replacement teeth find no room.
    """
    replacements, absent = given.replacements, given.missing
    present = {kind: tooth for kind, tooth in natural_teeth.teeth.items() if kind not in absent}
    moved = erupted_side(present, given.over_erupted, replacements)
    among = replacements | frozenset(given.over_erupted)
    hindered, natural = _hindered(moved, replacements, mi_pose, among)
    erupted = ", ".join(
        f"{given.code(kind)} by {given.scale * mm:g} mm" for kind, mm in given.over_erupted.items()
    )
    if natural:
        pairs = ", ".join(f"{given.code(u)} on {given.code(low)}" for u, low in natural)
        raise InputError(
            f"over_erupted {erupted}: runs into natural teeth ({pairs}); make what stands in the "
            "way missing or a replacement tooth, or give less"
        )

    def freedoms(standing: Teeth) -> list[Freedom]:
        return _freedoms(standing, replacements, hindered)

    def settled_again(standing: Teeth, wide_rounds: int) -> Settled:
        settled = settle(standing, freedoms(standing), mi_pose, wide_rounds, among)
        return with_every_pair(settled, freedoms, mi_pose, replacements, among)

    try:
        settled = settled_again(moved, WIDE_ROUNDS)
        for _ in range(MOST_SLIDES):
            apart = beside_neighbours(settled.teeth, among, given.left)
            if apart is None:
                break
            # A tooth that was slid along the arch meets its opponents a little elsewhere.
            settled = settled_again(apart, LATER_WIDE_ROUNDS)
    except NotConverged as error:
        codes = ", ".join(str(given.code(kind)) for kind in sorted(replacements))
        raise InputError(
            f"replacements {codes} find no room with over_erupted {erupted or 'none'} ({error}); "
            "give less over-eruption or more replacement teeth"
        ) from error
    kept = tuple(
        meeting
        for meeting in natural_teeth.meetings
        if not {meeting.upper.kind, meeting.lower.kind} & (among | absent)
    )
    return replace(settled, meetings=kept + settled.meetings)
