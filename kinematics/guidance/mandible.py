"""Where the lower stands: pose from condylar advances, side shift and opening."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kinematics.checks import InputError, finite_array, rigid_poses
from kinematics.conventions import LEFT, RIGHT, Bools, Floats, Ints
from kinematics.geometry.poses import (
    move_points,
    opening_rotation,
    pose_of,
    rotation_about,
    smallest_rotation,
)
from kinematics.guidance.condyles import common_part, step_beyond
from kinematics.guidance.guidance import Guidance
from kinematics.guidance.nearest_place import nearest_advances

#: Advances and shifts nearer than this to a limit, or to a change of side, are taken as on it.
_SLACK_MM: Final = 1e-9


@dataclass(frozen=True)
class JawPositions:
    """The lower at n places of its condyles, before any closing.

    Attributes
    ----------
    advance_right_mm, advance_left_mm : ndarray, shape (n,)
        Arc length each condyle has travelled along its path from CR.
    shift_mm : ndarray, shape (n,)
        Immediate side shift used; positive to the patient's left.
    condyle_right, condyle_left : ndarray, shape (n, 3)
        Condyle centres in the hinge frame, mm.
    pose_at_zero : ndarray, shape (n, 4, 4)
        hinge_from_lower at opening 0.
    working_side : ndarray, shape (n,)
        RIGHT (-1), LEFT (1), or 0 where neither condyle works.
    laterotrusion_mm : ndarray, shape (n,)
        Slide of the working condyle along its own outward direction; negative inward.
    medial_mm : ndarray, shape (n,)
        Medial displacement of the nonworking condyle.
    forward_mm : ndarray, shape (n,)
        Forward displacement of the nonworking condyle beyond the advance both condyles share.
    """

    advance_right_mm: Floats
    advance_left_mm: Floats
    shift_mm: Floats
    condyle_right: Floats
    condyle_left: Floats
    pose_at_zero: Floats
    working_side: Ints
    laterotrusion_mm: Floats
    medial_mm: Floats
    forward_mm: Floats


@dataclass(frozen=True)
class GuidanceCoordinates:
    """One jaw position in guidance coordinates, and what of a given pose does not fit the paths.

    Attributes
    ----------
    advance_right_mm, advance_left_mm, shift_mm : float
        See `JawPositions`.
    opening_rad : float
        Rotation about the line of the condyle centres.
    residual_mm : float
        Largest distance of a condyle centre of the given pose from the one the paths allow.
    residual_rad : float
        Rotation left between the given pose and the one rebuilt from these coordinates.
    """

    advance_right_mm: float
    advance_left_mm: float
    shift_mm: float
    opening_rad: float
    residual_mm: float = 0.0
    residual_rad: float = 0.0

    @property
    def in_cr(self) -> bool:
        """Whether both condyles are seated, whatever the opening."""
        return (self.advance_right_mm, self.advance_left_mm, self.shift_mm) == (0.0, 0.0, 0.0)


#: Both condyles seated, no shift, opening 0.
CENTRIC_RELATION: Final = GuidanceCoordinates(0.0, 0.0, 0.0, 0.0)


def place(
    guidance: Guidance,
    advance_right_mm: ArrayLike,
    advance_left_mm: ArrayLike,
    shift_mm: ArrayLike = 0.0,
) -> JawPositions:
    """Place the condyles of n jaw positions, at opening 0.

    Parameters
    ----------
    guidance : Guidance
        Prepared guidance.
    advance_right_mm, advance_left_mm, shift_mm : array_like, shape (n,) or numbers
        Advance of each condyle from CR; immediate side shift used, positive to the left.

    Raises
    ------
    InputError
        An advance off its path, a shift beyond its setting, or a shift that opposes the advances:
        the condyle that is farther forward is the nonworking one and shifts inward.
    """
    right, left, shift = checked_coordinates(guidance, advance_right_mm, advance_left_mm, shift_mm)
    # The farther condyle is the nonworking one; where none is farther, the shift names it.
    right_is_farther = np.where(shift == 0.0, right > left, shift > 0.0)
    apart = right_is_farther | (shift != 0.0) | (left > right)
    n = len(right)
    shared = common_part(guidance, np.minimum(right, left))
    condyles = {RIGHT: np.empty((n, 3)), LEFT: np.empty((n, 3))}
    slide, medial, forward = np.zeros(n), np.zeros(n), np.zeros(n)
    size, farther_mm = np.abs(shift), np.maximum(right, left)
    for nonworking, rows in (
        (guidance.right, right_is_farther),
        (guidance.left, ~right_is_farther),
    ):
        if not rows.any():
            continue
        start, seat = shared[nonworking.sign][rows], shared[-nonworking.sign][rows]
        step = step_beyond(guidance, nonworking, start, seat, farther_mm[rows], size[rows])
        condyles[nonworking.sign][rows] = step.nonworking
        condyles[-nonworking.sign][rows] = step.working
        slide[rows], medial[rows] = step.laterotrusion_mm, step.medial_mm
        forward[rows] = step.forward_mm
    side = np.where(apart, np.where(right_is_farther, LEFT, RIGHT), 0).astype(np.int64)
    return JawPositions(
        right,
        left,
        shift,
        condyles[RIGHT],
        condyles[LEFT],
        pose_on_condyles(condyles[RIGHT], condyles[LEFT]),
        side,
        np.where(apart, slide, 0.0),
        medial,
        forward,
    )


def place_at(guidance: Guidance, coordinates: GuidanceCoordinates) -> JawPositions:
    """Place one jaw position (n = 1) given in guidance coordinates; see `place`."""
    return place(
        guidance,
        coordinates.advance_right_mm,
        coordinates.advance_left_mm,
        coordinates.shift_mm,
    )


def opened(positions: JawPositions, opening_rad: ArrayLike) -> Floats:
    """Return the poses (n, 4, 4) with each lower opened by its angle (n,) about its condyles.

    Raises
    ------
    InputError
        An opening that is not finite: there the jaw is not guided and has no pose.
    """
    opening = finite_array(np.atleast_1d(opening_rad), "opening_rad", (None,))
    return np.asarray(positions.pose_at_zero @ opening_rotation(opening))


def pose_at(guidance: Guidance, coordinates: GuidanceCoordinates) -> Floats:
    """Return the pose (4, 4) of one jaw position given in guidance coordinates; see `place`."""
    return np.asarray(opened(place_at(guidance, coordinates), coordinates.opening_rad)[0])


def pose_on_condyles(condyle_right: Floats, condyle_left: Floats) -> Floats:
    """Return hinge_from_lower (n, 4, 4) at opening 0 from condyle centres (n, 3), mm.

    The smallest rotation that brings the axis of the lower onto their line.
    """
    line = condyle_left - condyle_right
    line /= np.linalg.norm(line, axis=1, keepdims=True)
    turn = smallest_rotation(np.array([0.0, 1.0, 0.0]), line)
    return pose_of(turn, 0.5 * (condyle_right + condyle_left))


def checked_coordinates(
    guidance: Guidance, right: ArrayLike, left: ArrayLike, shift: ArrayLike
) -> tuple[Floats, Floats, Floats]:
    """Return advances and shift (n,) as arrays of one length, rounding slack removed.

    Parameters and errors are those of `place`.
    """
    given = {"advance_right_mm": right, "advance_left_mm": left, "shift_mm": shift}
    try:
        arrays = np.broadcast_arrays(*(np.atleast_1d(value) for value in given.values()))
    except ValueError as error:
        raise InputError(
            "advance_right_mm, advance_left_mm and shift_mm: wanted numbers or arrays of one "
            f"length, found shapes {', '.join(str(np.shape(v)) for v in given.values())}"
        ) from error
    advances = []
    for side, array in zip((guidance.right, guidance.left), arrays[:2], strict=True):
        name = f"advance_{side.name}_mm"
        advance = finite_array(array, name, (None,))
        _refuse(
            (advance < -_SLACK_MM) | (advance > side.path.length_mm + _SLACK_MM),
            advance,
            name,
            f"must be 0 to {side.path.length_mm:g} mm, the length of the {side.name} condylar path",
        )
        advances.append(advance.clip(0.0, side.path.length_mm))
    return advances[0], advances[1], _checked_shift(guidance, advances, arrays[2])


def _checked_shift(guidance: Guidance, advances: list[Floats], given: ArrayLike) -> Floats:
    shift = np.array(finite_array(given, "shift_mm", (None,)))
    if not shift.any():
        return shift
    ahead = advances[0] - advances[1]
    opposes = shift * ahead < 0.0
    shift[opposes & (np.abs(shift) <= _SLACK_MM)] = 0.0
    _refuse(
        opposes & (np.abs(shift) > _SLACK_MM) & (np.abs(ahead) > _SLACK_MM),
        shift,
        "shift_mm",
        "must be positive (to the left) where the right condyle is farther forward and negative "
        "where the left one is",
    )
    for side in (guidance.right, guidance.left):
        inward = -side.sign * shift
        _refuse(
            inward > side.shift_limit_mm + _SLACK_MM,
            shift,
            "shift_mm",
            f"the immediate_shift_mm of the {side.name} side allows a size of 0 to "
            f"{side.shift_limit_mm:g} mm"
            + ("" if side.shift_limit_mm > 0.0 else ", so only a shift of 0"),
        )
        shift = np.where(inward > side.shift_limit_mm, -side.sign * side.shift_limit_mm, shift)
    return shift


def _refuse(bad: Bools, values: Floats, name: str, accepted: str) -> None:
    if bad.any():
        where = int(np.argmax(bad))
        raise InputError(f"{name}[{where}] = {values[where]:g} mm: {accepted}")


def coordinates_of(guidance: Guidance, pose: ArrayLike) -> GuidanceCoordinates:
    """Turn a pose of the lower into guidance coordinates and what does not fit the paths.

    Parameters
    ----------
    guidance : Guidance
        Prepared guidance.
    pose : array_like, shape (4, 4)
        hinge_from_lower.

    Returns
    -------
    GuidanceCoordinates
        Advances, shift and opening whose condyle centres lie nearest to those of the pose (least
        sum of squares), with what is left.

    Raises
    ------
    InputError
        A matrix that is not a rigid motion.
    """
    given = rigid_poses(pose, "pose", (4, 4))
    half = guidance.half_distance_mm
    centres = move_points(given, np.array([[0.0, -half, 0.0], [0.0, half, 0.0]]))
    seated = place(guidance, *nearest_advances(guidance, centres[0], centres[1]))
    left_over = seated.pose_at_zero[0, :3, :3].T @ given[:3, :3]
    opening = math.atan2(left_over[0, 2] - left_over[2, 0], left_over[0, 0] + left_over[2, 2])
    rest = rotation_about(np.array([0.0, 1.0, 0.0]), -opening) @ left_over - np.eye(3)
    apart = np.stack([seated.condyle_right[0], seated.condyle_left[0]]) - centres
    return GuidanceCoordinates(
        float(seated.advance_right_mm[0]),
        float(seated.advance_left_mm[0]),
        float(seated.shift_mm[0]),
        opening,
        float(np.linalg.norm(apart, axis=1).max()),
        # |R - 1| = 2 sqrt(2) sin(angle / 2), exact for small angles too.
        2.0 * math.asin(min(1.0, float(np.linalg.norm(rest)) / math.sqrt(8.0))),
    )
