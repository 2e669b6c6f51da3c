"""Two casts, their guidance and MI: everything a movement needs, prepared once."""

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.closure import MEETS, Closures, close
from kinematics.contact.pair import LeaveOut, Pair
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats, Ints
from kinematics.geometry.poses import move_points
from kinematics.guidance.guidance import Guidance
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import (
    GuidanceCoordinates,
    JawPositions,
    opened,
    place_at,
    pose_at,
)

GUIDED_BY_TEETH = 0
GUIDED_BY_TABLE = 1
GUIDED_BY_NOTHING = 2
#: Of a raised bite alone.
GUIDED_BY_PIN = 3


@dataclass(frozen=True)
class MountedCasts:
    """Casts in the frame of their guidance.

    Attributes
    ----------
    upper, lower : Arch
        The upper in the hinge frame, the lower in lower coordinates.
    pair : Pair
        Both, prepared.
    guidance : Guidance
        Prepared guidance.
    mi : GuidanceCoordinates
        Maximal intercuspation; its opening is that of the first contact there.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in lower coordinates, mm; also the tip on the guide table.
    """

    upper: Arch
    lower: Arch
    pair: Pair
    guidance: Guidance
    mi: GuidanceCoordinates
    incisal_point: Floats

    @cached_property
    def mi_pose(self) -> Floats:
        """hinge_from_lower in MI, shape (4, 4)."""
        return pose_at(self.guidance, self.mi)

    @cached_property
    def mi_pose_at_zero(self) -> Floats:
        """hinge_from_lower with the condyles as in MI at opening 0, shape (4, 4)."""
        return pose_at(self.guidance, replace(self.mi, opening_rad=0.0))

    def opening_rad(self, distance_mm: float) -> float:
        """Return the turn about the hinge axis that moves the lower incisal point so far.

        Parameters
        ----------
        distance_mm : float
            Straight distance between its places before and after, mm; not more than twice its
            distance from the axis.
        """
        radius_mm = math.hypot(self.incisal_point[0], self.incisal_point[2])
        return 2.0 * math.asin(distance_mm / (2.0 * radius_mm))

    @cached_property
    def incisal_point_in_mi(self) -> Floats:
        """Lower incisal point in MI, hinge frame, shape (3,), mm."""
        return np.asarray(move_points(self.mi_pose, self.incisal_point[None])[0])


def mount(
    upper: Arch,
    lower: Arch,
    pair: Pair,
    guidance: Guidance,
    mi: GuidanceCoordinates,
    incisal_point: Floats,
    workers: Workers | None = None,
) -> MountedCasts:
    """Close the casts in MI and keep the opening found there.

    Raises
    ------
    InputError
        The casts do not meet in MI.
    """
    closure = close(pair, place_at(guidance, mi).pose_at_zero, None, workers)
    if closure.status[0] != MEETS:
        raise InputError(
            "maximal intercuspation: no part of the lower cast passes any part of the upper when "
            "the jaw closes; check the mounting of both casts"
        )
    closed = GuidanceCoordinates(
        mi.advance_right_mm,
        mi.advance_left_mm,
        mi.shift_mm,
        float(closure.opening_rad[0]),
        mi.residual_mm,
        mi.residual_rad,
    )
    return MountedCasts(upper, lower, pair, guidance, closed, incisal_point)


@dataclass(frozen=True)
class GuidedClosure:
    """Closure of n jaw positions on teeth or table, whichever comes first.

    Attributes
    ----------
    opening_rad : ndarray, shape (n,)
        The greater of both; -inf where nothing meets.
    guide : ndarray, shape (n,)
        GUIDED_BY_TEETH, GUIDED_BY_TABLE or GUIDED_BY_NOTHING.
    teeth : Closures
        First touch of the teeth, whether or not it comes first.
    """

    opening_rad: Floats
    guide: Ints
    teeth: Closures


def guided_closure(
    casts: MountedCasts,
    positions: JawPositions,
    workers: Workers,
    leave_out: LeaveOut | None = None,
) -> GuidedClosure:
    """Close the jaw at every position, on teeth or guide table."""
    teeth = close(casts.pair, positions.pose_at_zero, leave_out, workers)
    return on_teeth_or_table(casts, positions, teeth)


def on_teeth_or_table(
    casts: MountedCasts, positions: JawPositions, teeth: Closures
) -> GuidedClosure:
    """Tell for every position whether its first touch of teeth or the guide table comes first."""
    table = table_opening(casts.guidance, positions, casts.incisal_point, casts.incisal_point_in_mi)
    guide = np.where(table > teeth.opening_rad, GUIDED_BY_TABLE, GUIDED_BY_TEETH)
    opening = np.maximum(table, teeth.opening_rad)
    guide[opening == -np.inf] = GUIDED_BY_NOTHING
    return GuidedClosure(opening, guide, teeth)


def incisal_points(casts: MountedCasts, positions: JawPositions, opening_rad: Floats) -> Floats:
    """Return the lower incisal point (n, 3) in the hinge frame, mm."""
    poses = opened(positions, opening_rad)
    return np.asarray(move_points(poses, casts.incisal_point[None])[:, 0])
