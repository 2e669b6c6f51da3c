"""Room of the rests and crowns of a case: what was measured, and what it means."""

from dataclasses import dataclass, field

from kinematics.contact.sweep import Sweep
from kinematics.planning.findings import Finding
from kinematics.planning.framework import Framework, PlacedRest
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.rooms.crown_rooms import CrownRoom, crown_rooms
from kinematics.planning.rooms.opposing import judged_poses
from kinematics.planning.rooms.rest_rooms import RestRoom, rest_rooms
from kinematics.planning.rooms.room_findings import room_findings
from kinematics.planning.rooms.settings import PlannedCrown, RoomSettings


@dataclass(frozen=True)
class Rooms:
    """Room of the rests and crowns of a case.

    Attributes
    ----------
    rests, crowns : tuple of RestRoom, tuple of CrownRoom
        What was measured.
    untold : tuple of PlacedRest
        Rests below which the crown has a hole, so that nothing can be measured.
    findings : tuple of Finding
        What that means; they stand among those of the case too.
    settings : RoomSettings
        How much room is wanted.
    """

    rests: tuple[RestRoom, ...] = ()
    crowns: tuple[CrownRoom, ...] = ()
    untold: tuple[PlacedRest, ...] = ()
    findings: tuple[Finding, ...] = ()
    settings: RoomSettings = field(default_factory=RoomSettings)


def rooms_of(
    occlusion: Occlusion,
    frameworks: tuple[Framework, ...],
    sweeps: tuple[Sweep, ...],
    planned: tuple[PlannedCrown, ...],
    settings: RoomSettings,
) -> Rooms:
    """Measure the room of all rests and crowns, in MI and in every judged pose.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    frameworks : tuple of Framework
        With their rests.
    sweeps : tuple of Sweep
        All excursions.
    planned : tuple of PlannedCrown
        Crowns of the case.
    settings : RoomSettings
        How much room is wanted.

    Raises
    ------
    InputError
        A crown on a tooth that is not there.
    """
    if not planned and not any(item.rests for item in frameworks):
        return Rooms()
    poses = judged_poses(occlusion.casts, sweeps)
    rests = rest_rooms(occlusion, frameworks, poses, settings)
    crowns = crown_rooms(occlusion, planned, poses)
    told = [room.rest for room in rests]
    untold = tuple(rest for item in frameworks for rest in item.rests if rest not in told)
    return Rooms(rests, crowns, untold, room_findings(occlusion, rests, crowns, settings), settings)
