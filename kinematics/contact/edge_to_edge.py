"""Where an excursion passes edge-to-edge: the guiding lower tip reaches the upper edge."""

import numpy as np

from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Floats, Ints
from kinematics.geometry.poses import move_points
from kinematics.tooth_codes import is_posterior, is_right


def edge_to_edge_travel(
    casts: MountedCasts,
    poses: Floats,
    travel_mm: Floats,
    guiding: Ints,
    working_side: int,
) -> float | None:
    """Return the travel at the first pose at which the guiding lower edge reaches the upper one.

    Parameters
    ----------
    casts : MountedCasts
        Its teeth name their edges and tips.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower at closure.
    travel_mm : ndarray, shape (n,)
        Horizontal travel of the incisal point.
    guiding : ndarray, shape (n, 2)
        Upper and lower tooth that guide each pose; negative or 0 where none does.
    working_side : int
        RIGHT or LEFT in a lateral excursion: pairs of the other side do not decide. 0 where the
        jaw moves forward: only front teeth decide, since back teeth travel along their edges. A
        pair whose lower edge has passed the upper one before the jaw leaves (a crossbite) never
        decides.

    Returns
    -------
    float or None
        mm, interpolated between poses; None where it is not reached or no tooth has landmarks.
    """
    before: tuple[int, int, float] | None = None
    for n in range(1, len(poses)):
        upper, lower = int(guiding[n, 0]), int(guiding[n, 1])
        if upper <= 0 or lower <= 0 or upper not in casts.upper.codes:
            before = None
            continue
        way = _way(casts, poses[n - 1], poses[n], lower)
        if not _decides(upper, working_side) or _way_left(casts, poses[0], way, upper, lower) < 0.0:
            before = None
            continue
        left = _way_left(casts, poses[n], way, upper, lower)
        if left <= 0.0:
            if before is not None and before[:2] == (upper, lower):
                share = before[2] / (before[2] - left)
                return float(travel_mm[n - 1] + share * (travel_mm[n] - travel_mm[n - 1]))
            return float(travel_mm[n])
        before = (upper, lower, left)
    return None


def _decides(upper: int, working_side: int) -> bool:
    """Tell whether the edge of an upper tooth lies across the way."""
    if working_side:
        return is_right(upper) == (working_side < 0)
    return not is_posterior(upper)


def _way(casts: MountedCasts, pose_before: Floats, pose: Floats, lower: int) -> Floats:
    """Return the horizontal direction (2,) in which a lower edge goes; 0 where it stays."""
    edge = casts.lower.tooth(lower).edge
    way = (move_points(pose, edge) - move_points(pose_before, edge))[:, :2].mean(axis=0)
    return np.asarray(way / max(float(np.hypot(way[0], way[1])), 1e-300))


def _way_left(casts: MountedCasts, pose: Floats, way: Floats, upper: int, lower: int) -> float:
    """Return how far the lower edge still has to go, along its way, to the upper edge, mm."""
    if not way.any():
        return np.inf
    here = move_points(pose, casts.lower.tooth(lower).edge)[:, :2]
    across = np.array([-way[1], way[0]])
    other = casts.upper.tooth(upper).edge[:, :2]
    along_upper, across_upper = other @ way, other @ across
    along_lower, across_lower = here @ way, here @ across
    order = np.argsort(across_upper, kind="stable")
    # The upper edge as seen along the way; np.interp holds its ends level beyond the tooth.
    ahead = np.interp(across_lower, across_upper[order], along_upper[order]) - along_lower
    return float(ahead.min())
