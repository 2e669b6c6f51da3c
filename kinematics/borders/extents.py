"""How far border movements reach, how much of the opening is rotation, and about which centre."""

import math
from dataclasses import dataclass

import numpy as np

from kinematics.borders.lines import (
    HINGE_OPENING,
    ON_TEETH,
    OPENING,
    PROTRUSION,
    WITH_TRANSLATION,
    sideways_mm,
)
from kinematics.borders.movements import BorderMovements
from kinematics.contact.places import horizontal_mm
from kinematics.conventions import LEFT, RIGHT, Floats
from kinematics.geometry.poses import inverse, move_points


@dataclass(frozen=True)
class BorderExtents:
    """What is read off border movements; ways are those of the lower incisal point.

    Attributes
    ----------
    opening_mm, hinge_opening_mm : float
        Straight ways from MI to the greatest opening, and from CR to the limit of hinge opening.
    drop_mm : float
        How far below MI the greatest opening lies, square to the reference plane.
    protrusion_mm : float
        Horizontal way from MI, on the teeth.
    lateral_right_mm, lateral_left_mm : float
        Ways to either side from MI, on the teeth.
    breadth_mm : float
        Breadth of the outline seen from the front.
    hinge_turn_deg, opening_turn_deg : float
        Turn of the lower, seen from the side, on the hinge opening and from MI to the greatest one.
    rotation_share : float
        Of the greatest opening: how far the turn alone moves the point, as a part of that and of
        how far the condyles move.
    condylar_way_mm : float
        Straight way of the middle between the condyles from MI to the greatest opening.
    centre_below_mm, centre_behind_mm : float
        Finite centre of rotation of that movement, seen from the side: how far below and behind the
        hinge axis in MI it lies.
    """

    opening_mm: float
    hinge_opening_mm: float
    drop_mm: float
    protrusion_mm: float
    lateral_right_mm: float
    lateral_left_mm: float
    breadth_mm: float
    hinge_turn_deg: float
    opening_turn_deg: float
    rotation_share: float
    condylar_way_mm: float
    centre_below_mm: float
    centre_behind_mm: float


def border_extents(found: BorderMovements) -> BorderExtents:
    """Read how far border movements reach."""
    in_mi = found.line(PROTRUSION)
    widest = found.line(WITH_TRANSLATION)
    pose_in_mi, pose_wide = in_mi.poses[0], widest.poses[-1]
    hinge = found.line(HINGE_OPENING)
    move = pose_wide @ inverse(pose_in_mi)
    turn = _turn_rad(move)
    axis = np.array([pose_in_mi[0, 3], pose_in_mi[2, 3]])
    centre = _finite_centre(move, turn)
    way = float(np.linalg.norm(pose_wide[:3, 3] - pose_in_mi[:3, 3]))
    point = move_points(inverse(pose_in_mi), found.incisal_point_in_mi[None])[0]
    radius = math.hypot(point[0], point[2])
    turned = 2.0 * radius * math.sin(0.5 * turn)
    aside = np.concatenate(
        [found.line(name).incisal_point[:, 1] for of in (ON_TEETH, OPENING) for name in of.values()]
    )
    return BorderExtents(
        opening_mm=_way(widest.incisal_point[-1], found.incisal_point_in_mi),
        hinge_opening_mm=_way(hinge.incisal_point[-1], found.incisal_point_in_cr),
        drop_mm=float(found.incisal_point_in_mi[2] - widest.incisal_point[-1, 2]),
        protrusion_mm=float(horizontal_mm(in_mi.incisal_point[[-1]] - in_mi.incisal_point[0])[0]),
        lateral_right_mm=_aside(found, RIGHT),
        lateral_left_mm=_aside(found, LEFT),
        breadth_mm=float(np.ptp(aside)),
        hinge_turn_deg=math.degrees(hinge.opening_rad[-1] - hinge.opening_rad[0]),
        opening_turn_deg=math.degrees(turn),
        rotation_share=turned / (turned + way),
        condylar_way_mm=way,
        centre_below_mm=float(axis[1] - centre[1]),
        centre_behind_mm=float(axis[0] - centre[0]),
    )


def _way(one: Floats, other: Floats) -> float:
    return float(np.linalg.norm(one - other))


def _aside(found: BorderMovements, side: int) -> float:
    return float(sideways_mm(found.line(ON_TEETH[side]).incisal_point)[-1])


def _turn_rad(move: Floats) -> float:
    """Return by how much a motion (4, 4) opens the lower, seen from the side."""
    return math.atan2(move[0, 2] - move[2, 0], move[0, 0] + move[2, 2])


def _finite_centre(move: Floats, turn_rad: float) -> Floats:
    """Return the point (forward, up) that a motion (4, 4) leaves in place, seen from the side."""
    cos, sin = math.cos(turn_rad), math.sin(turn_rad)
    turn = np.array([[cos, sin], [-sin, cos]])
    return np.asarray(np.linalg.solve(np.eye(2) - turn, move[[0, 2], 3]))
