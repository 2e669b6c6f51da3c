"""Where both condyles stand: the advance they share, then forward and inward, and outward."""

from dataclasses import dataclass

import numpy as np

from kinematics.conventions import RIGHT, Floats
from kinematics.geometry.curves import displacement, turned
from kinematics.guidance.guidance import Guidance, Side


@dataclass(frozen=True)
class LateralStep:
    """What happens after the advance that both condyles share, at n places with one working side.

    Attributes
    ----------
    nonworking, working : ndarray, shape (n, 3)
        Condyle centres in the hinge frame, mm.
    laterotrusion_mm : ndarray, shape (n,)
        Slide of the working condyle along its own outward direction; negative where it goes
        inward, then along the transverse axis.
    medial_mm, forward_mm : ndarray, shape (n,)
        Medial and forward displacement of the nonworking condyle.
    """

    nonworking: Floats
    working: Floats
    laterotrusion_mm: Floats
    medial_mm: Floats
    forward_mm: Floats


def lateral_step(
    guidance: Guidance, nonworking: Side, common_mm: Floats, excess_mm: Floats, shift_mm: Floats
) -> LateralStep:
    """Advance both condyles by the common part, then the nonworking one by its excess.

    Parameters
    ----------
    guidance, nonworking : Guidance, Side
        The jaw, and which of its sides goes farther.
    common_mm, excess_mm, shift_mm : ndarray, shape (n,)
        Advance of the working condyle; what the nonworking one has gone beyond it; size of the
        immediate side shift.
    """
    shared = common_part(guidance, common_mm)
    start, seat = shared[nonworking.sign], shared[-nonworking.sign]
    return step_beyond(guidance, nonworking, start, seat, common_mm + excess_mm, shift_mm)


def step_beyond(
    guidance: Guidance,
    nonworking: Side,
    start: Floats,
    seat: Floats,
    advance_mm: Floats,
    shift_mm: Floats,
) -> LateralStep:
    """Advance the nonworking condyle beyond what both share, and slide the working one.

    Parameters
    ----------
    guidance, nonworking : Guidance, Side
        The jaw, and which of its sides goes farther.
    start, seat : ndarray, shape (n, 3)
        Nonworking and working condyle after the advance they share; see `common_part`.
    advance_mm, shift_mm : ndarray, shape (n,)
        Advance of the nonworking condyle; size of the immediate side shift.
    """
    working = guidance.left if nonworking.sign == RIGHT else guidance.right
    gone = np.array([start[:, 0], -start[:, 2]]).T
    lateral = turned(displacement(nonworking.path, advance_mm) - gone, nonworking.fischer_rad)
    distance = 2.0 * guidance.half_distance_mm
    medial = shift_mm + lateral[:, 0] * np.tan(nonworking.progressive_rad)
    moved = start.copy()
    moved[:, 0] += lateral[:, 0]
    moved[:, 2] -= lateral[:, 1]
    if working.pure_rotation:
        ahead, below = moved[:, 0] - seat[:, 0], moved[:, 2] - seat[:, 2]
        moved[:, 1] = seat[:, 1] + nonworking.sign * np.sqrt(distance**2 - ahead**2 - below**2)
        medial = nonworking.sign * (start[:, 1] - moved[:, 1])
        return LateralStep(moved, seat, np.zeros_like(medial), medial, lateral[:, 0])
    moved[:, 1] -= nonworking.sign * medial
    straight_out = np.array([0.0, working.sign, 0.0])
    directions = np.array([working.outward, straight_out])[:, None]
    slide, inward = slide_to_distance(seat - moved, directions, distance)
    goes_in = inward < 0.0
    slide = np.where(goes_in, inward, slide)
    direction = np.where(goes_in[:, None], straight_out, working.outward)
    return LateralStep(moved, seat + slide[:, None] * direction, slide, medial, lateral[:, 0])


def slide_to_distance(apart: Floats, direction: Floats, distance_mm: float) -> Floats:
    """Return how far (n,) a point must slide to be at a given distance from another.

    Parameters
    ----------
    apart : ndarray, shape (n, 3)
        From the other point to the sliding one, mm.
    direction : ndarray, shape (3,) or (k, 1, 3)
        Unit direction of the slide, pointing away from the other point; of k the slides are (k, n).
    distance_mm : float
        Wanted distance.

    Notes
    -----
    Root near zero of t^2 + 2 t (apart . direction) + apart^2 - distance^2 = 0, written so that
    nothing cancels.
    """
    along = (apart * direction).sum(axis=-1)
    short = distance_mm**2 - (apart * apart).sum(axis=1)
    return np.asarray(short / (along + np.sqrt(along**2 + short)))


def common_part(guidance: Guidance, common_mm: Floats) -> dict[int, Floats]:
    """Return both condyles (n, 3), by the sign of their side, after the advance they share (n,).

    Unequal paths would change their distance by micrometres; equal moves along the transverse
    axis restore it.
    """
    sides = guidance.right, guidance.left
    paths = [displacement(side.path, common_mm) for side in sides]
    unlike = paths[0] - paths[1]
    half = 0.5 * np.sqrt((2.0 * guidance.half_distance_mm) ** 2 - (unlike**2).sum(axis=1))
    return {
        side.sign: np.stack([path[:, 0], side.sign * half, -path[:, 1]], axis=1)
        for path, side in zip(paths, sides, strict=True)
    }
