"""Room for the metal of every rest, in MI and on every path."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.optimize import brentq

from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from kinematics.planning.crown_places import CrownFrame, crown_frame
from kinematics.planning.framework import Framework, PlacedRest
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.rooms.opposing import Nearest, Opposing, Poses
from kinematics.planning.rooms.rest_outlines import Outline, outline_of
from kinematics.planning.rooms.rest_surfaces import PartName, RestSurfaces, lowered, rest_surfaces
from kinematics.planning.rooms.seat_depth import SeatDepth, seat_depth
from kinematics.planning.rooms.settings import RoomSettings
from kinematics.tooth_codes import is_upper

#: Depths that give room are found to this, mm.
_NEAR_ENOUGH_MM: Final = 1e-3
#: How much more room than wanted there is is told up to this, mm: what is farther takes longer.
_TOLD_BEYOND_MM: Final = 0.3
#: A seat is not cut deeper than this, mm (chosen for this program).
DEEPEST_MM: Final = 3.0
#: Premolar seats deeper than this reach dentine more often than not: at most 0.625 mm of enamel was
#: left below distal floors and 0.500 mm below mesial ones, n = 29.
ENAMEL_DEPTH_MM: Final = 1.0
ENAMEL_SOURCE: Final = (
    "29 premolars with rest seats: at most 0.625 mm of enamel left below the floor distally, 0.500"
    " mm mesially, dentine reached in more than half; 1.0 mm was possible on unworn teeth, 1.5 mm"
    " mostly not (Revista Odonto Ciencia, article 11792)"
)


@dataclass(frozen=True)
class PartRoom:
    """Room above one part of a rest.

    Attributes
    ----------
    part : "floor", "marginal ridge" or "embrasure"
        Which.
    in_mi, least : Nearest
        Shortest distance to the opposing arch in MI, and the least of all judged poses.
    along_axis_in_mi_mm, along_axis_mm : float
        Room along the long axis, in MI and the least of all; inf where nothing is met.
    """

    part: PartName
    in_mi: Nearest
    least: Nearest
    along_axis_in_mi_mm: float
    along_axis_mm: float


@dataclass(frozen=True)
class Gain:
    """What gives a rest some room.

    Attributes
    ----------
    wanted_mm : float
        That room.
    deeper_mm : float
        How much deeper the seat would have to be, the opposing tooth left as it is; inf where depth
        does not give it.
    off_opponent_mm : float
        How much would have to come off the opposing tooth at most, the seat left as it is.
    shared_deeper_mm, shared_off_mm : float
        Both together: the seat no deeper than `ENAMEL_DEPTH_MM` in all, the rest off the opponent.
    """

    wanted_mm: float
    deeper_mm: float
    off_opponent_mm: float
    shared_deeper_mm: float
    shared_off_mm: float


@dataclass(frozen=True)
class CrownMap:
    """A crown with how near the opposing arch comes to it over all judged poses.

    Attributes
    ----------
    surface : Mesh
        Its triangles, in the coordinates of its arch.
    least_mm : ndarray, shape (v,)
        Of every vertex; inf beyond `opposing.FARTHEST_MM`.
    across, upward, towards : ndarray, shape (3,)
        How it is looked at: to the right, upward, and in which direction.
    from_above : bool
        Whether along its long axis, the facial side up; else from the tongue, its edge up.
    mesial_is_right : bool
        Whether its mesial side lies to the right.
    outline : ndarray, shape (k, 3)
        Of what is drawn on it.
    """

    surface: Mesh
    least_mm: Floats
    across: Floats
    upward: Floats
    towards: Floats
    from_above: bool
    mesial_is_right: bool
    outline: Floats


@dataclass(frozen=True)
class RestRoom:
    """Room for the metal of one rest.

    Attributes
    ----------
    rest : PlacedRest
        Which.
    framework : str
        Whose it is.
    length_mm, width_mm : float
        Of its outline.
    depth : SeatDepth or None
        How deep its seat is; None where that cannot be told.
    parts : tuple of PartRoom
        Floor, marginal ridge and embrasure, as far as the crown has them.
    gains : tuple of Gain
        What would give the least room and the wanted room, those it lacks.
    map : CrownMap
        For its picture.
    """

    rest: PlacedRest
    framework: str
    length_mm: float
    width_mm: float
    depth: SeatDepth | None
    parts: tuple[PartRoom, ...]
    gains: tuple[Gain, ...]
    map: CrownMap

    @property
    def least(self) -> Nearest:
        """The least room of all its parts."""
        return min((part.least for part in self.parts), key=lambda item: item.distance_mm)

    @property
    def in_mi(self) -> Nearest:
        """The least room of all its parts in MI."""
        return min((part.in_mi for part in self.parts), key=lambda item: item.distance_mm)

    @property
    def narrowest(self) -> PartRoom:
        """The part with the least room."""
        return min(self.parts, key=lambda part: part.least.distance_mm)

    @property
    def depth_mm(self) -> float:
        """How deep its seat is; 0 where no seat is found or nothing tells."""
        return self.depth.ridge_mm if self.depth is not None and self.depth.found else 0.0


@dataclass(frozen=True)
class _Cut:
    """A rest, its crown, and the surface below it."""

    framework: str
    rest: PlacedRest
    crown: CrownFrame
    outline: Outline
    surfaces: RestSurfaces


def rest_rooms(
    occlusion: Occlusion,
    frameworks: tuple[Framework, ...],
    poses: Poses,
    settings: RoomSettings,
) -> tuple[RestRoom, ...]:
    """Measure the room of every rest of every framework.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    frameworks : tuple of Framework
        With their rests where they lie.
    poses : Poses
        MI and every judged pose.
    settings : RoomSettings
        How much room is wanted.

    Returns
    -------
    tuple of RestRoom
        In the order of frameworks and their rests; none of a rest below which the crown has a hole.
    """
    every = (_cut(occlusion, item.name, rest) for item in frameworks for rest in item.rests)
    cuts = [cut for cut in every if cut.surfaces.parts]
    found: dict[int, RestRoom] = {}
    for upper in (True, False):
        own = [k for k, cut in enumerate(cuts) if is_upper(cut.rest.tooth) == upper]
        if own:
            opposing = Opposing(occlusion.casts, upper, poses, occlusion.workers)
            rooms = _rooms([cuts[k] for k in own], opposing, settings)
            found |= dict(zip(own, rooms, strict=True))
    return tuple(found[k] for k in sorted(found))


def _cut(occlusion: Occlusion, framework: str, rest: PlacedRest) -> _Cut:
    arch = occlusion.casts.upper if is_upper(rest.tooth) else occlusion.casts.lower
    crown = crown_frame(arch, rest.tooth)
    outline = outline_of(crown, rest)
    return _Cut(framework, rest, crown, outline, rest_surfaces(crown, outline))


def _rooms(cuts: list[_Cut], opposing: Opposing, settings: RoomSettings) -> list[RestRoom]:
    parts = [mesh for cut in cuts for _, mesh in cut.surfaces.parts]
    distances, codes = opposing.distances(parts)
    gains = _gains(cuts, opposing, settings, distances)
    rooms, first = [], 0
    for cut, gained in zip(cuts, gains, strict=True):
        told = []
        for name, mesh in cut.surfaces.parts:
            own = distances[:, first]
            along = opposing.along_mm(mesh, -np.array(cut.rest.press), own.min(axis=1))
            told.append(
                PartRoom(
                    name,
                    opposing.nearest(own, codes, slice(0, 1)),
                    opposing.nearest(own, codes, slice(None)),
                    *along,
                )
            )
            first += 1
        rooms.append(_room(cut, tuple(told), gained, opposing))
    return rooms


def _room(
    cut: _Cut, parts: tuple[PartRoom, ...], gains: tuple[Gain, ...], opposing: Opposing
) -> RestRoom:
    crown, outline = cut.crown, cut.outline
    return RestRoom(
        rest=cut.rest,
        framework=cut.framework,
        length_mm=outline.length_mm,
        width_mm=outline.width_mm,
        depth=seat_depth(crown, outline, cut.surfaces),
        parts=parts,
        gains=gains,
        map=crown_map(crown, opposing, outline.placed(crown), outline.outward == 2),
    )


def crown_map(crown: CrownFrame, opposing: Opposing, outline: Floats, from_above: bool) -> CrownMap:
    """Return a crown as its map shows it, along its axis or from the tongue."""
    least = opposing.map_mm(crown.surface)
    if from_above:
        towards, upward = -crown.up, crown.facial
    else:
        towards, upward = crown.facial, crown.up
    across = np.cross(towards, upward)
    mesial = bool(across @ crown.mesial > 0.0)
    return CrownMap(crown.surface, least, across, upward, towards, from_above, mesial, outline)


def _gains(
    cuts: list[_Cut], opposing: Opposing, settings: RoomSettings, distances: Floats
) -> list[tuple[Gain, ...]]:
    """Return what would give each rest the room that it lacks."""
    limits = tuple(dict.fromkeys((settings.rest_least_mm, settings.rest_wanted_mm)))
    gains: list[tuple[Gain, ...]] = []
    first = 0
    for cut in cuts:
        parts = cut.surfaces.parts
        own = distances[:, first : first + len(parts)].min(axis=2)
        first += len(parts)
        gains.append(
            tuple(_gain(cut, opposing, own, limit) for limit in limits if own.min() < limit)
        )
    return gains


def _gain(cut: _Cut, opposing: Opposing, own: Floats, limit: float) -> Gain:
    """Return what would give a rest a room, of the distances (n, parts) of its parts."""
    lacking = opposing.only(own.min(axis=1) < limit)
    depth = seat_depth(cut.crown, cut.outline, cut.surfaces)
    already = depth.ridge_mm if depth is not None and depth.found else 0.0
    deeper = _deeper(cut, lacking, limit)
    shared = min(deeper, max(ENAMEL_DEPTH_MM - already, 0.0))
    left = -_spare_mm(cut, lacking, shared, limit)
    return Gain(limit, deeper, float(limit - own.min()), shared, max(left, 0.0))


def _deeper(cut: _Cut, opposing: Opposing, limit: float) -> float:
    """Return how much deeper a seat has to be for a room; inf where depth does not give it."""

    def spare_mm(deeper_mm: float) -> float:
        return _spare_mm(cut, opposing, deeper_mm, limit)

    if spare_mm(DEEPEST_MM) < 0.0:
        return math.inf
    if spare_mm(0.0) >= 0.0:
        return 0.0  # it lacks no more than rounding
    found = float(brentq(spare_mm, 0.0, DEEPEST_MM, xtol=_NEAR_ENOUGH_MM))
    while spare_mm(found) < 0.0:
        found += _NEAR_ENOUGH_MM
    return found


def _spare_mm(cut: _Cut, opposing: Opposing, deeper_mm: float, limit: float) -> float:
    """Return how much room beyond a limit a lowered seat has, as far as that matters; else less."""
    parts = lowered(cut.crown, cut.outline, cut.surfaces, deeper_mm).parts
    enough = limit + _TOLD_BEYOND_MM
    least = float(opposing.distances([mesh for _, mesh in parts], enough)[0].min())
    return min(least, enough) - limit
