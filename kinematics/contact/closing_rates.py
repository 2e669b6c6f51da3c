"""How fast the closed jaw moves along an excursion: from where it touches, and which way."""

import numpy as np

from kinematics.contact.mounted import GUIDED_BY_TABLE, GuidedClosure, MountedCasts
from kinematics.conventions import Floats
from kinematics.geometry.poses import opening_rotation
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import JawPositions


def travel_rates(
    casts: MountedCasts,
    positions: JawPositions,
    moved: JawPositions,
    steps: Floats,
    closure: GuidedClosure,
) -> Floats:
    """Return how the incisal point moves with progress while what touches goes on touching.

    The lower point that touches may move along the surface it touches only: with the velocity v
    that the condyles give it and w that opening gives it, n v + t' n w = 0 along the normal n tells
    the rate t' of the opening. It is exact as long as the same two features touch.

    Parameters
    ----------
    casts : MountedCasts
        Casts, guidance and MI.
    positions, moved : JawPositions
        n places, and the same after a small step of progress.
    steps : ndarray, shape (n,)
        That step, mm; 0 where there is none.
    closure : GuidedClosure
        At the first places.

    Returns
    -------
    ndarray, shape (n, 3)
        mm per mm of progress; nan where nothing guides, or there is no step.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        per_mm = (moved.pose_at_zero - positions.pose_at_zero) / steps[:, None, None]
        opening = np.where(np.isfinite(closure.opening_rad), closure.opening_rad, np.nan)
        at_zero = positions.pose_at_zero
        turn, shift = at_zero[:, :3, :3], at_zero[:, :3, 3]
        # The touching point in lower coordinates, opened as it is.
        touch = np.einsum("nji,nj->ni", turn, closure.teeth.point - shift)
        normal = closure.teeth.normal
        by_condyles = np.einsum("ni,ni->n", normal, _carried(per_mm, touch))
        by_opening = np.einsum("ni,nij,nj->n", normal, turn, _turning(touch))
        rate = -by_condyles / by_opening
        if casts.guidance.table is not None:
            tip, in_mi = casts.incisal_point, casts.incisal_point_in_mi
            later = table_opening(casts.guidance, moved, tip, in_mi)
            by_table = (later - closure.opening_rad) / steps
            rate = np.where(closure.guide == GUIDED_BY_TABLE, by_table, rate)
        tip_now = np.einsum("nij,j->ni", opening_rotation(opening)[:, :3, :3], casts.incisal_point)
        turned = np.einsum("nij,nj->ni", turn, _turning(tip_now))
        return np.asarray(_carried(per_mm, tip_now) + rate[:, None] * turned)


def _carried(per_mm: Floats, points: Floats) -> Floats:
    """Return the velocities (n, 3) that changing poses (n, 4, 4) give to points (n, 3)."""
    return np.asarray(np.einsum("nij,nj->ni", per_mm[:, :3, :3], points) + per_mm[:, :3, 3])


def _turning(points: Floats) -> Floats:
    """Return the velocities (n, 3) that opening by a radian gives to points of the lower (n, 3)."""
    return np.stack([points[:, 2], np.zeros(len(points)), -points[:, 0]], axis=1)
