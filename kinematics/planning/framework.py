"""Frameworks of removable partial dentures: what holds them, and about which line they turn."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.planning.arch_order import side_towards
from kinematics.planning.crown_places import CrownFrame, crown_frame
from kinematics.planning.denture_parts import Rest, RestPlace
from kinematics.planning.free_ends import counting_teeth, extends, held_teeth
from kinematics.planning.given_points import in_arch
from kinematics.planning.judging import DentureBase
from kinematics.planning.kennedy import Kennedy, kennedy
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.ridge_lines import RidgeLine, ridge_lines
from kinematics.tooth_codes import arch_place, is_posterior, is_right, is_upper

Point = tuple[float, float, float]
CarrierKind = Literal["base", "bridge", "splint"]

#: A rest nearer to the fulcrum line than this, mm, holds nothing against turning about it (chosen
#: for this program).
LEAST_INDIRECT_MM: Final = 2.0


@dataclass(frozen=True)
class PlacedRest:
    """A rest where it lies on its tooth.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    place : "mesial", "distal" or "cingulum"
        Where on it.
    point : tuple of float
        On the surface; upper: hinge frame, lower: lower coordinates, mm.
    press : tuple of float
        Unit vector in which it presses on the tooth: along the long axis towards the root.
    base : str
        Name of the base that has it.
    assumed : bool
        Whether it is the usual one, not given.
    """

    tooth: int
    place: RestPlace
    point: Point
    press: Point
    base: str
    assumed: bool


@dataclass(frozen=True)
class GuidePlane:
    """A guide plane on a proximal surface.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    point : tuple of float
        At the height of contour; coordinates as of rests.
    press : tuple of float
        Unit vector from the base into the tooth.
    base : str
        Name of the base that it faces.
    """

    tooth: int
    point: Point
    press: Point
    base: str


@dataclass(frozen=True)
class FulcrumLine:
    """The line about which a framework turns: through the most distal rests, of class IV mesial.

    Attributes
    ----------
    right, left : tuple of float
        Those rests; coordinates as of rests.
    teeth : (int, int)
        Their teeth, the right one first.
    """

    right: Point
    left: Point
    teeth: tuple[int, int]


@dataclass(frozen=True)
class IndirectRetainer:
    """A rest beyond the fulcrum line that keeps the base from lifting; its distance in plan."""

    rest: PlacedRest
    distance_mm: float


@dataclass(frozen=True)
class Framework:
    """One or more bases that are one rigid body.

    Attributes
    ----------
    name : str
        What to call it.
    is_upper : bool
        Which arch it lies in.
    bases : tuple of DentureBase
        What it joins, as given.
    rests, guide_planes : tuple of PlacedRest, tuple of GuidePlane
        Where it meets teeth.
    ridges : tuple of RidgeLine
        The ridge below its bases.
    kennedy : Kennedy or None
        Class of the arch; None without a tooth or a space.
    fulcrum : FulcrumLine or None
        None where it does not turn, or rests on one side alone.
    indirect : tuple of IndirectRetainer
        Farthest first.
    extension_sides : tuple of str
        Names of the bases behind which no tooth stands.
    kind : "base", "bridge" or "splint"
        What it is: a bridge and a splint are told of beside denture bases where loads are, see
        `bridge_frames`.
    """

    name: str
    is_upper: bool
    bases: tuple[DentureBase, ...]
    rests: tuple[PlacedRest, ...]
    guide_planes: tuple[GuidePlane, ...]
    ridges: tuple[RidgeLine, ...]
    kennedy: Kennedy | None
    fulcrum: FulcrumLine | None
    indirect: tuple[IndirectRetainer, ...]
    extension_sides: tuple[str, ...]
    kind: CarrierKind = "base"

    @property
    def connector(self) -> str:
        """What joins its bases; empty where it is one base without a connector."""
        return self.bases[0].connector

    @property
    def held_by(self) -> tuple[int, ...]:
        """ISO 3950 numbers of all teeth that hold it, from the patient's right to left."""
        codes = {code for base in self.bases for code in base.held_by}
        return tuple(sorted(codes, key=arch_place))


def frameworks(occlusion: Occlusion) -> tuple[Framework, ...]:
    """Return the frameworks of both arches, in the order of their first bases.

    Raises
    ------
    InputError
        A crest that is given lies far from the teeth of its base.
    """
    bodies: dict[object, list[DentureBase]] = {}
    for base in occlusion.bases:
        key = (is_upper(base.teeth[0]), base.connector) if base.connector else base.name
        bodies.setdefault(key, []).append(base)
    return tuple(_framework(occlusion, tuple(bases)) for bases in bodies.values())


def _framework(occlusion: Occlusion, bases: tuple[DentureBase, ...]) -> Framework:
    upper = is_upper(bases[0].teeth[0])
    arch = occlusion.casts.upper if upper else occlusion.casts.lower
    natural = tuple(code for code in arch.codes if code not in occlusion.replacement_teeth)
    used = held_teeth(occlusion)
    counting = counting_teeth(occlusion, upper)
    free = tuple(base.name for base in bases if extends(base, counting))
    rests = _placed_rests(occlusion, arch, bases, counting)
    planes = tuple(_guide_plane(arch, base, code) for base in bases for code in base.guide_planes)
    found = kennedy(
        {arch_place(code) for code in natural},
        {arch_place(code) for code in occlusion.replacement_teeth if is_upper(code) == upper},
        {arch_place(code) for code in used if is_upper(code) == upper},
    )
    fulcrum = _fulcrum(rests, bool(free), found)
    in_front = not free and found is not None and found.kind == "IV"
    carried = [base for base in bases if in_front or base.name in free]
    return Framework(
        name=bases[0].name if len(bases) == 1 else _called(bases, upper),
        is_upper=upper,
        bases=bases,
        rests=rests,
        guide_planes=planes,
        ridges=tuple(line for base in bases for line in ridge_lines(occlusion, base, counting)),
        kennedy=found,
        fulcrum=fulcrum,
        indirect=_indirect(arch, rests, fulcrum, carried),
        extension_sides=free,
    )


def _called(bases: tuple[DentureBase, ...], upper: bool) -> str:
    return f"{'upper' if upper else 'lower'} framework with {bases[0].connector}"


def usual_rests(base: DentureBase, natural: tuple[int, ...]) -> tuple[Rest, ...]:
    """Return the rests that a base usually has where none are given (common practice).

    A base that ends free has one on the abutment next to it, on the side away from it; a
    tooth-bounded one has one next to it on the abutment on either side; on a front tooth it is the
    cingulum.

    Parameters
    ----------
    base : DentureBase
        With its abutments; without any it has no rests.
    natural : tuple of int
        ISO 3950 numbers of the teeth of its arch that no base carries.
    """
    away = extends(base, natural)
    places = [arch_place(code) for code in base.teeth]
    before = [code for code in base.abutments if arch_place(code) < min(places)]
    after = [code for code in base.abutments if arch_place(code) > max(places)]
    between = [code for code in base.abutments if code not in (*before, *after)]
    chosen = [
        *([max(before, key=arch_place)] if before else []),
        *sorted(between, key=arch_place),
        *([min(after, key=arch_place)] if after else []),
    ]
    return tuple(Rest(code, _usual_place(code, base, away)) for code in chosen)


def _usual_place(code: int, base: DentureBase, away: bool) -> RestPlace:
    if not is_posterior(code):
        return "cingulum"
    facing = side_towards(code, _nearest_of(base, code))
    return "mesial" if (facing == "mesial") != away else "distal"


def _nearest_of(base: DentureBase, code: int) -> int:
    """Return the replacement tooth of a base nearest to a tooth along the arch."""
    here = arch_place(code)
    return min(base.teeth, key=lambda tooth: (abs(arch_place(tooth) - here), tooth))


def _placed_rests(
    occlusion: Occlusion, arch: Arch, bases: tuple[DentureBase, ...], natural: tuple[int, ...]
) -> tuple[PlacedRest, ...]:
    """Return the rests of all bases; one that several of them name is one."""
    named: dict[tuple[int, str], PlacedRest] = {}
    for base in bases:
        for rest in base.rests or usual_rests(base, natural):
            if (rest.tooth, rest.place) not in named:
                found = _placed_rest(occlusion, arch, base, rest)
                named[rest.tooth, rest.place] = found
    return tuple(named.values())


def _placed_rest(occlusion: Occlusion, arch: Arch, base: DentureBase, rest: Rest) -> PlacedRest:
    """Return a rest on its usual place of the crown, or on a seat that was picked there."""
    crown = crown_frame(arch, rest.tooth)
    picked = occlusion.rest_seats.get(rest.tooth, ())
    seats = in_arch(occlusion, picked, is_upper(rest.tooth))
    point = crown.rest_at(rest.place, seats)
    return PlacedRest(
        rest.tooth, rest.place, _point(point), _point(-crown.up), base.name, not base.rests
    )


def _guide_plane(arch: Arch, base: DentureBase, code: int) -> GuidePlane:
    crown: CrownFrame = crown_frame(arch, code)
    mesial = side_towards(code, _nearest_of(base, code)) == "mesial"
    into = -crown.mesial if mesial else crown.mesial
    return GuidePlane(code, _point(crown.guide_plane(mesial)), _point(into), base.name)


def _fulcrum(
    rests: tuple[PlacedRest, ...], free: bool, found: Kennedy | None
) -> FulcrumLine | None:
    """Return the line about which a framework turns (common practice); None where it does not.

    With a base that ends free, through the most distal rest on either side; with one in front
    alone (class IV), through the rests next to it, the most mesial ones.
    """
    in_front = found is not None and found.kind == "IV"
    if not free and not in_front:
        return None
    sides = [
        sorted((rest for rest in rests if is_right(rest.tooth) == right), key=_how_distal)
        for right in (True, False)
    ]
    if not all(sides):
        return None
    right, left = (side[-1] if free else side[0] for side in sides)
    return FulcrumLine(right.point, left.point, (right.tooth, left.tooth))


def _how_distal(rest: PlacedRest) -> tuple[int, bool]:
    return abs(arch_place(rest.tooth)), rest.place == "distal"


def _indirect(
    arch: Arch,
    rests: tuple[PlacedRest, ...],
    fulcrum: FulcrumLine | None,
    carried: list[DentureBase],
) -> tuple[IndirectRetainer, ...]:
    """Return the rests on the other side of the fulcrum line from the bases that turn about it."""
    if fulcrum is None:
        return ()
    start, end = np.array(fulcrum.right), np.array(fulcrum.left)
    # In plan: what keeps a base from lifting is how far ahead it lies, not how low.
    along = (end - start) / np.linalg.norm((end - start)[:2])

    def ahead_mm(point: Floats) -> float:
        """Return how far ahead of the line a point lies, seen along z."""
        return float(np.cross(point - start, along)[2])

    middles = [arch.tooth(code).centre for base in carried for code in base.teeth]
    side = np.sign(np.mean([ahead_mm(np.asarray(middle)) for middle in middles]))
    found = []
    for rest in rests:
        point = np.array(rest.point)
        ahead = side * ahead_mm(point)
        distance, beyond = abs(float(ahead)), ahead < 0.0
        if beyond and distance >= LEAST_INDIRECT_MM and rest.tooth not in fulcrum.teeth:
            found.append(IndirectRetainer(rest, distance))
    return tuple(sorted(found, key=lambda item: (-item.distance_mm, item.rest.tooth)))


def _point(values: Floats) -> Point:
    x, y, z = (float(value) for value in values)
    return x, y, z
