"""Incisal guide: at which opening a tip that turns with the jaw meets its table.

With the tip on the upper, the table rides on the lower, its flat part parallel to the lower's own
xy plane; d is then the displacement of the lower past the tip, seen in lower coordinates, so that
both ways guide a lower that moves without turning alike.
"""

import numpy as np

from kinematics.checks import InputError, finite_array
from kinematics.conventions import TOLERANCES, Bools, Floats
from kinematics.geometry.angles import angle_of
from kinematics.geometry.poses import inverse
from kinematics.guidance.guidance import Guidance
from kinematics.guidance.guide_table import Table
from kinematics.guidance.mandible import JawPositions


def table_opening(
    guidance: Guidance, positions: JawPositions, tip_lower: Floats, tip_in_mi: Floats
) -> Floats:
    """Return the greatest opening (n,), radians, at which the tip meets the table, from open.

    -inf where it never does, or where there is no table.

    Parameters
    ----------
    guidance : Guidance
        Prepared guidance; its `table` may be None.
    positions : JawPositions
        Where the condyles are.
    tip_lower, tip_in_mi : ndarray, shape (3,)
        The place of the tip in MI, in lower coordinates and in the hinge frame, mm.

    Raises
    ------
    InputError
        The tip cannot come to the table from below: it starts above one of its planes.

    Notes
    -----
    A point that turns by t about the hinge stands off a plane by A cos t + B sin t + C; it meets
    the plane, closing, at t = atan2(-B C + A S, -A C - B S) with S = sqrt(A^2 + B^2 - C^2).
    """
    table, pose_at_zero = guidance.table, positions.pose_at_zero
    if table is None:
        return np.full(len(pose_at_zero), -np.inf)
    tip, mi = finite_array(tip_lower, "tip_lower", (3,)), finite_array(tip_in_mi, "tip_in_mi", (3,))
    ahead, up, still = _turning_terms(table, pose_at_zero, tip, mi)
    cosines, sines, constants = (_along(table.normals, term) for term in (ahead, up, still))
    constants = constants - table.offsets_mm
    root = cosines**2 + sines**2 - constants**2
    meets = root >= 0.0
    away = np.sqrt(np.maximum(root, 0.0))
    opening = angle_of(cosines * away - sines * constants, -cosines * constants - sines * away)
    if table.corners_mm is None:
        _refuse_tip_above(cosines, sines, constants, np.where(meets, opening, -np.inf).max(axis=1))
    else:
        at = (
            ahead[:, None] * np.cos(opening)[..., None]
            + up[:, None] * np.sin(opening)[..., None]
            + still[:, None]
        )
        meets &= _inside(at[..., :2], table.corners_mm)
    return np.asarray(np.where(meets, opening, -np.inf).max(axis=1))


def _along(normals: Floats, vectors: Floats) -> Floats:
    """Return products (n, k) of vectors (n, 3) and normals (k, 3), one row as if it were alone."""
    return np.asarray(sum(vectors[:, None, i] * normals[:, i] for i in range(3)))


def _turning_terms(
    table: Table, pose_at_zero: Floats, tip: Floats, mi: Floats
) -> tuple[Floats, Floats, Floats]:
    """Return vectors (n, 3) a, b, c: the displacement at opening t is a cos t + b sin t + c."""
    if table.tip_on_lower:
        turn, centre = pose_at_zero[:, :3, :3], pose_at_zero[:, :3, 3]
        cos_part = turn @ np.array([tip[0], 0.0, tip[2]])
        sin_part = turn @ np.array([tip[2], 0.0, -tip[0]])
        return cos_part, sin_part, centre + turn[:, :, 1] * tip[1] - mi
    # The upper tip seen from the lower turns the other way, and the lower's own displacement is
    # the opposite of the tip's.
    back = inverse(pose_at_zero)
    seen = back[:, :3, :3] @ mi + back[:, :3, 3]
    zero = np.zeros(len(seen))
    cos_part = -np.stack([seen[:, 0], zero, seen[:, 2]], axis=1)
    sin_part = np.stack([seen[:, 2], zero, -seen[:, 0]], axis=1)
    return cos_part, sin_part, tip - np.stack([zero, seen[:, 1], zero], axis=1)


def _inside(points: Floats, corners: Floats) -> Bools:
    """Return which points (n, k, 2) lie in their triangle (k, 3, 2), its edges included."""
    first, along, across = (
        corners[:, 0],
        corners[:, 1] - corners[:, 0],
        corners[:, 2] - corners[:, 0],
    )
    twice_area = along[:, 0] * across[:, 1] - along[:, 1] * across[:, 0]
    offset = points - first
    u = (offset[..., 0] * across[:, 1] - offset[..., 1] * across[:, 0]) / twice_area
    v = (along[:, 0] * offset[..., 1] - along[:, 1] * offset[..., 0]) / twice_area
    slack = -TOLERANCES.inside
    return np.asarray((u >= slack) & (v >= slack) & (1.0 - u - v >= slack))


def _refuse_tip_above(cosines: Floats, sines: Floats, constants: Floats, opening: Floats) -> None:
    """Refuse a tip that is above a plane where it meets the first, coming from open."""
    at = np.where(np.isfinite(opening), opening, 0.0)[:, None]
    height = cosines * np.cos(at) + sines * np.sin(at) + constants
    above = (height > TOLERANCES.inside * np.hypot(cosines, sines)).any(axis=1)
    if above.any():
        where = int(np.argmax(above))
        raise InputError(
            f"incisal guide, position {where}: coming from open, the tip is above the table by "
            f"{height[where].max():.3g} mm; check the place of the tip and the angles of the table"
        )
