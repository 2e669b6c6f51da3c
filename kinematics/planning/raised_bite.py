"""A raised bite: how the teeth stand when the incisal pin is lengthened, condyles seated in CR.

The pin opening is read at the lower incisal point, square to the reference plane: by so much the
point stands lower than in MI. It is a drop, not a length of arc: the vertical dimension is a
vertical distance. The raised jaw is turned about the hinge axis of CR, since only
there is closing a pure turn that can be found again; so MI is void, and the way back from MI to CR
counts too.
"""

import math
from dataclasses import dataclass

import numpy as np

from kinematics.casts.casts import NO_TOOTH, Arch, Tooth
from kinematics.checks import InputError
from kinematics.contact.closure import MEETS, Closures, close
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import LeaveOut
from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points
from kinematics.guidance.mandible import GuidanceCoordinates, JawPositions, opened, place_at
from kinematics.planning.contact_runs import point_of

#: Room is not measured beyond this, mm: twice what teeth lie apart at the greatest pin opening.
ROOM_LIMIT_MM = 20.0
_IN_CR = GuidanceCoordinates(0.0, 0.0, 0.0, 0.0)
Point = tuple[float, float, float]


@dataclass(frozen=True)
class RaisedTooth:
    """One lower tooth in the raised bite.

    Attributes
    ----------
    tooth_lower : int
        ISO 3950 number.
    nearest_upper : int or None
        Upper tooth with the least shortest distance; None where none is within `ROOM_LIMIT_MM`.
    opening_mm : float
        How far the middle of its edge or buccal cusps stands lower than in MI, square to the
        reference plane.
    room_mm : float
        Shortest distance from the tooth to the upper teeth, any direction; inf beyond the limit.
    arc_gap_mm : float
        How far the tooth is from its first touch along the closing arc in CR, at that touch; inf
        where nothing is in its way.
    place, place_in_mi : tuple of float
        Middle of its edge or buccal cusps, raised and in MI; hinge frame, mm.
    """

    tooth_lower: int
    nearest_upper: int | None
    opening_mm: float
    room_mm: float
    arc_gap_mm: float
    place: Point
    place_in_mi: Point


@dataclass(frozen=True)
class FrontTeeth:
    """Overlap of the central incisors, between the middles of their edges; reference plane.

    Attributes
    ----------
    overbite_mm : float
        How far the upper edge stands below the lower one; negative: an open bite.
    overjet_mm : float
        How far the upper edge stands ahead of the lower one.
    """

    overbite_mm: float
    overjet_mm: float


@dataclass(frozen=True)
class RaisedJaw:
    """Where the jaw stands that the pin holds open.

    Attributes
    ----------
    positions : JawPositions
        Both condyles in CR, n = 1.
    opening_rad : float
        How far it is opened there.
    pin_holds : bool
        False where teeth touch before the pin and hold the jaw.
    first : Closures
        First contact in CR, were there no pin.
    """

    positions: JawPositions
    opening_rad: float
    pin_holds: bool
    first: Closures

    @property
    def gap_mm(self) -> float:
        """Arc gap of that contact, at itself; 0 where teeth hold the jaw."""
        return _arc_gap_mm(self.first, self.opening_rad)


@dataclass(frozen=True)
class RaisedBite:
    """The jaw held open by the pin, condyles in CR.

    Attributes
    ----------
    pin_opening_mm : float
        What was asked for: drop of the lower incisal point from MI, square to the reference plane.
    pin_holds : bool
        False where teeth touch in CR before the pin: then they hold the jaw, farther open.
    raised_mm : float
        Drop of the lower incisal point as the jaw stands.
    back_mm : float
        How far the lower incisal point stands behind its place in MI.
    opening_deg : float
        Opening in CR, from opening 0.
    turned_deg : float
        Opening less that of MI: by so much the lower occlusal plane is steeper to the reference
        plane. The Balkwill angle stays: hinge axis and lower occlusal plane turn together.
    first_contact_upper, first_contact_lower : int
        Teeth that touch first when the jaw closes in CR (0: a part that is no tooth).
    first_arc_gap_mm : float
        How far they are apart along the closing arc, at their contact; 0 where they hold the jaw.
    incisal_point, incisal_point_in_mi : tuple of float
        Lower incisal point, raised and in MI; hinge frame, mm.
    front, front_in_mi : FrontTeeth or None
        Overlap raised and in MI; None where an arch has no central incisor.
    teeth : tuple of RaisedTooth
        Lower teeth from the patient's right to left.
    """

    pin_opening_mm: float
    pin_holds: bool
    raised_mm: float
    back_mm: float
    opening_deg: float
    turned_deg: float
    first_contact_upper: int
    first_contact_lower: int
    first_arc_gap_mm: float
    incisal_point: Point
    incisal_point_in_mi: Point
    front: FrontTeeth | None
    front_in_mi: FrontTeeth | None
    teeth: tuple[RaisedTooth, ...]


def opening_at_height(point: Floats, height_mm: float) -> float:
    """Return the opening, radians, at which a point that turns about the hinge has a height.

    A point at the distance r from the axis, seen at the angle b below the reference plane, stands
    at -r sin(b + t) when it has opened by t; so t = asin(-height / r) - b, while it is ahead of the
    axis.

    Parameters
    ----------
    point : ndarray, shape (3,)
        Place at opening 0 in CR, mm; ahead of the axis.
    height_mm : float
        Wanted z in the hinge frame.

    Raises
    ------
    InputError
        The point does not come so low, or so high.
    """
    radius = math.hypot(float(point[0]), float(point[2]))
    if abs(height_mm) > radius:
        raise InputError(
            f"pin_opening_mm: the lower incisal point turns {radius:.1f} mm from the hinge axis "
            f"and cannot stand {abs(height_mm):.1f} mm from its level; check where the casts are "
            "mounted, or raise the bite less"
        )
    return math.asin(-height_mm / radius) - math.atan2(-float(point[2]), float(point[0]))


def raised_jaw(casts: MountedCasts, pin_opening_mm: float) -> RaisedJaw:
    """Hold the jaw open by the pin with the condyles in CR; see `raised_bite`."""
    in_cr = place_at(casts.guidance, _IN_CR)
    first = close(casts.pair, in_cr.pose_at_zero)
    if first.status[0] != MEETS:
        raise InputError(
            "pin_opening_mm: no part of the lower cast meets the upper in centric relation; check "
            "how the casts are mounted"
        )
    wanted_mm = float(casts.incisal_point_in_mi[2]) - pin_opening_mm
    by_pin = opening_at_height(casts.incisal_point, wanted_mm)
    by_teeth = float(first.opening_rad[0])
    return RaisedJaw(in_cr, max(by_pin, by_teeth), by_pin >= by_teeth, first)


def raised_bite(casts: MountedCasts, pin_opening_mm: float) -> RaisedBite:
    """Hold the jaw open by the pin with the condyles in CR, and measure between the teeth.

    Teeth may touch before the pin does, where the way from CR to MI closes the jaw by more than
    the pin opens it; then they hold the jaw.

    Parameters
    ----------
    casts : MountedCasts
        Both arches in the frame of their guidance.
    pin_opening_mm : float
        Wanted drop of the lower incisal point from its height in MI, square to the reference plane.

    Raises
    ------
    InputError
        An opening that the lower incisal point cannot reach; casts that do not meet in CR.
    """
    jaw = raised_jaw(casts, pin_opening_mm)
    first, opening = jaw.first, jaw.opening_rad
    in_mi = casts.incisal_point_in_mi
    pose = opened(jaw.positions, opening)[0]
    moved = move_points(pose, casts.incisal_point[None])[0]
    return RaisedBite(
        pin_opening_mm=pin_opening_mm,
        pin_holds=jaw.pin_holds,
        raised_mm=float(in_mi[2] - moved[2]),
        back_mm=float(in_mi[0] - moved[0]),
        opening_deg=math.degrees(opening),
        turned_deg=math.degrees(opening - casts.mi.opening_rad),
        first_contact_upper=int(first.tooth_upper[0]),
        first_contact_lower=int(first.tooth_lower[0]),
        first_arc_gap_mm=jaw.gap_mm,
        incisal_point=point_of(moved),
        incisal_point_in_mi=point_of(in_mi),
        front=_front_teeth(casts, pose),
        front_in_mi=_front_teeth(casts, casts.mi_pose),
        teeth=_raised_teeth(casts, jaw.positions, opening),
    )


def _raised_teeth(
    casts: MountedCasts, in_cr: JawPositions, opening: float
) -> tuple[RaisedTooth, ...]:
    pose = opened(in_cr, opening)
    uppers, lowers = casts.upper.codes, casts.lower.codes
    rooms = pair_gaps(casts.pair, pose, ROOM_LIMIT_MM, uppers, lowers)[0]
    found = []
    for tooth, room in zip(casts.lower.teeth, rooms.T, strict=True):
        nearest = int(np.argmin(room))
        middle = _edge_middle(tooth)[None]
        raised, in_mi = move_points(pose[0], middle)[0], move_points(casts.mi_pose, middle)[0]
        found.append(
            RaisedTooth(
                tooth_lower=tooth.code,
                nearest_upper=uppers[nearest] if math.isfinite(room[nearest]) else None,
                opening_mm=float(in_mi[2] - raised[2]),
                room_mm=float(room[nearest]),
                arc_gap_mm=_arc_gap_mm(_alone(casts, in_cr, tooth.code), opening),
                place=point_of(raised),
                place_in_mi=point_of(in_mi),
            )
        )
    return tuple(found)


def _alone(casts: MountedCasts, in_cr: JawPositions, code: int) -> Closures:
    """Close one lower tooth alone on the upper teeth."""
    others = frozenset(casts.pair.lower.groups) - {code}
    gums = frozenset(casts.pair.upper.groups) & {NO_TOOTH}
    return close(casts.pair, in_cr.pose_at_zero, LeaveOut(upper=gums, lower=others))


def _arc_gap_mm(closures: Closures, opening: float) -> float:
    if closures.status[0] != MEETS:
        return math.inf
    return (opening - float(closures.opening_rad[0])) * float(closures.radius_mm[0])


def _front_teeth(casts: MountedCasts, pose: Floats) -> FrontTeeth | None:
    upper, lower = _incisal_middle(casts.upper, (11, 21)), _incisal_middle(casts.lower, (31, 41))
    if upper is None or lower is None:
        return None
    apart = move_points(pose, lower[None])[0] - upper
    return FrontTeeth(overbite_mm=float(apart[2]), overjet_mm=float(-apart[0]))


def _incisal_middle(arch: Arch, codes: tuple[int, ...]) -> Floats | None:
    edges = [_edge_middle(tooth) for tooth in arch.teeth if tooth.code in codes]
    return np.asarray(np.mean(edges, axis=0)) if edges else None


def _edge_middle(tooth: Tooth) -> Floats:
    return np.asarray(tooth.edge.mean(axis=0))
