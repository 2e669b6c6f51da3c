"""Room for planned crowns: over every cusp in MI and on every path, and beside surveyed ones."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.pair import Pair
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, part_of
from kinematics.geometry.trees import tree_over
from kinematics.planning.crown_places import CrownFrame, crown_frame
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.rooms.opposing import FARTHEST_MM, Nearest, Opposing, Poses
from kinematics.planning.rooms.rest_rooms import CrownMap, crown_map
from kinematics.planning.rooms.rest_surfaces import Plane, cut, facing, placed_part
from kinematics.planning.rooms.settings import COVERS, CROWNS_KEY, PlannedCrown
from kinematics.planning.tooth_regions import CUSPS
from kinematics.tooth_codes import arch_place, is_posterior, is_upper

#: A cusp reaches so far below its tip, mm (chosen for this program).
CUSP_MM: Final = 2.5
#: What a front tooth has in place of cusps.
WHOLE: Final = "whole surface"


@dataclass(frozen=True)
class CuspRoom:
    """Room above one cusp.

    Attributes
    ----------
    cusp : str
        Its name; "whole surface" of a front tooth.
    functional : bool
        Whether it is a supporting cusp.
    wanted_mm : float
        How much room the material wants above it.
    in_mi, least : Nearest
        Shortest distance to the opposing arch in MI, and the least of all judged poses.
    """

    cusp: str
    functional: bool
    wanted_mm: float
    in_mi: Nearest
    least: Nearest

    @property
    def lacks_mm(self) -> float:
        """How much room it lacks: what has yet to come off the tooth there; 0 for none."""
        return max(self.wanted_mm - self.least.distance_mm, 0.0)


@dataclass(frozen=True)
class RoomBeside:
    """Room between the wall of a crown and the tooth beside it.

    Attributes
    ----------
    side : "mesial" or "distal"
        Of the crown.
    neighbour : int
        ISO 3950 number.
    distance_mm : float
        Shortest; inf beyond `opposing.FARTHEST_MM`.
    faces_base : bool
        Whether that is a replacement tooth: the crown has its guide plane there.
    """

    side: Literal["mesial", "distal"]
    neighbour: int
    distance_mm: float
    faces_base: bool


@dataclass(frozen=True)
class CrownRoom:
    """Room for one planned crown.

    Attributes
    ----------
    crown : PlannedCrown
        What is planned.
    cusps : tuple of CuspRoom
        Every cusp.
    beside : tuple of RoomBeside
        Of a surveyed crown: mesial, then distal, as far as there is a tooth.
    map : CrownMap
        For its picture.
    """

    crown: PlannedCrown
    cusps: tuple[CuspRoom, ...]
    beside: tuple[RoomBeside, ...]
    map: CrownMap

    @property
    def narrowest(self) -> CuspRoom:
        """The cusp that lacks most; where none does, the one with least to spare."""
        return min(self.cusps, key=lambda item: item.least.distance_mm - item.wanted_mm)


def crown_rooms(
    occlusion: Occlusion, planned: tuple[PlannedCrown, ...], poses: Poses
) -> tuple[CrownRoom, ...]:
    """Measure the room of every planned crown.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    planned : tuple of PlannedCrown
        What the case says.
    poses : Poses
        MI and every judged pose.

    Raises
    ------
    InputError
        A tooth that is not there.
    """
    return tuple(_room(occlusion, crown, poses) for crown in planned)


def _room(occlusion: Occlusion, planned: PlannedCrown, poses: Poses) -> CrownRoom:
    upper = is_upper(planned.tooth)
    arch = occlusion.casts.upper if upper else occlusion.casts.lower
    if planned.tooth not in arch.codes:
        known = ", ".join(map(str, arch.codes))
        side = "upper" if upper else "lower"
        raise InputError(
            f"{CROWNS_KEY}: tooth {planned.tooth} is not there; the {side} cast has {known}"
        )
    crown = crown_frame(arch, planned.tooth)
    opposing = Opposing(occlusion.casts, upper, poses, occlusion.workers)
    named = list(_cusps(crown))
    distances, codes = opposing.distances([mesh for _, _, mesh in named])
    cover = COVERS[planned.material]
    cusps = tuple(
        CuspRoom(
            name,
            functional,
            cover.functional_mm if functional else cover.other_mm,
            opposing.nearest(distances[:, k], codes, slice(0, 1)),
            opposing.nearest(distances[:, k], codes, slice(None)),
        )
        for k, (name, functional, _) in enumerate(named)
    )
    beside = tuple(_beside(occlusion, arch, crown)) if planned.surveyed else ()
    above = is_posterior(planned.tooth)
    shown = crown_map(crown, opposing, np.empty((0, 3)), above)
    return CrownRoom(planned, cusps, beside, shown)


def _cusps(crown: CrownFrame) -> Iterator[tuple[str, bool, Mesh]]:
    """Yield name, whether it is a supporting one, and surface of every cusp.

    A cusp is what faces the other arch and lies nearer to its tip than to any other, seen along the
    long axis, down to `CUSP_MM` below the tip.
    """
    tooth = crown.tooth
    axes = np.stack([crown.mesial, crown.facial, crown.up])
    tips = {
        name: (tip - tooth.centre) @ axes.T
        for name, tip in tooth.cusp_tips.items()
        if name in CUSPS
    }
    if not is_posterior(tooth.code) or not tips:
        yield WHOLE, False, crown.surface
        return
    for name, tip in tips.items():
        part = facing(crown, 2, 1.0)
        part = cut(*part, Plane((0.0, 0.0, 1.0), float(tip[2]) - CUSP_MM))
        for other, at in tips.items():
            if other != name:
                part = cut(*part, _nearer_to(tip, at))
        mesh = placed_part(crown, *part)
        if mesh is not None:
            yield f"{CUSPS[name]} cusp", name in tooth.supporting, mesh


def _nearer_to(tip: Floats, other: Floats) -> Plane:
    """Return the plane along the axis that parts two tips, the side of the first kept."""
    way = (tip - other)[:2]
    way = way / np.linalg.norm(way)
    return Plane((float(way[0]), float(way[1]), 0.0), float(way @ (tip + other)[:2]) / 2.0)


def _beside(occlusion: Occlusion, arch: Arch, crown: CrownFrame) -> Iterator[RoomBeside]:
    """Yield the room on either side of a crown that has a neighbour there."""
    here = arch_place(crown.tooth.code)
    towards_midline = 1 if here < 0 else -1
    sides: tuple[tuple[Literal["mesial", "distal"], float, int], ...] = (
        ("mesial", 1.0, towards_midline),
        ("distal", -1.0, -towards_midline),
    )
    for side, sign, way in sides:
        beyond = [code for code in arch.codes if (arch_place(code) - here) * way > 0]
        if not beyond:
            continue
        next_one = min(beyond, key=lambda code: abs(arch_place(code) - here))
        wall = placed_part(crown, *facing(crown, 0, sign))
        other, _ = part_of(arch.mesh, arch.tooth_of_face == next_one)
        distance = np.inf if wall is None else _apart_mm(wall, other)
        yield RoomBeside(side, next_one, distance, next_one in occlusion.replacement_teeth)


def _apart_mm(one: Mesh, other: Mesh) -> float:
    """Return the shortest distance of two surfaces that stand still; inf beyond the farthest."""
    labels: tuple[Ints, Ints] = np.ones(len(one.faces), int), np.ones(len(other.faces), int)
    pair = Pair(
        tree_over(one, labels[0], facing=-1.0, turns=False),
        tree_over(other, labels[1], facing=1.0, turns=True),
    )
    return float(pair_gaps(pair, np.eye(4)[None], FARTHEST_MM, (1,), (1,))[0, 0, 0])
