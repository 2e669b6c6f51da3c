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
    left = _left_mm(casts, poses, guiding, working_side)
    arrived = np.flatnonzero(left <= 0.0)
    if not len(arrived):
        return None
    n = int(arrived[0])
    if not np.isfinite(left[n - 1]) or (guiding[n - 1] != guiding[n]).any():
        return float(travel_mm[n])
    share = float(left[n - 1]) / (float(left[n - 1]) - float(left[n]))
    return float(travel_mm[n - 1] + share * (travel_mm[n] - travel_mm[n - 1]))


def _left_mm(casts: MountedCasts, poses: Floats, guiding: Ints, working_side: int) -> Floats:
    """Return how far, shape (n,), the guiding lower edge still has to go; nan: does not decide."""
    left = np.full(len(poses), np.nan)
    for upper, lower in set(map(tuple, guiding[1:].tolist())):
        if upper <= 0 or lower <= 0 or upper not in casts.upper.codes:
            continue
        if not _decides(upper, working_side):
            continue
        rows = 1 + np.flatnonzero((guiding[1:] == (upper, lower)).all(axis=1))
        edge = move_points(poses, casts.lower.tooth(lower).edge)[..., :2]
        here = edge[rows]
        start = np.broadcast_to(edge[0], here.shape)
        other = casts.upper.tooth(upper).edge[:, :2]
        at_start, now = _ways_left(np.stack([start, here]), _ways(edge[rows - 1], here), other)
        ahead = ~(at_start < 0.0)
        left[rows[ahead]] = now[ahead]
    return left


def _decides(upper: int, working_side: int) -> bool:
    """Tell whether the edge of an upper tooth lies across the way."""
    if working_side:
        return is_right(upper) == (working_side < 0)
    return not is_posterior(upper)


def _ways(before: Floats, here: Floats) -> Floats:
    """Return the horizontal directions (n, 2) in which edges (n, m, 2) go; 0 where they stay."""
    way = (here - before).mean(axis=1)
    return np.asarray(way / np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-300)[:, None])


def _ways_left(edges: Floats, ways: Floats, other: Floats) -> Floats:
    """Return how far places of a lower edge still have to go to an upper one, shape (s, n), mm.

    Parameters
    ----------
    edges : ndarray, shape (s, n, m, 2)
        Points of the lower edge, horizontally.
    ways : ndarray, shape (n, 2)
        Where it goes; inf is left where it stays.
    other : ndarray, shape (k, 2)
        Points of the upper edge, held level beyond the tooth.
    """
    across = np.stack([-ways[:, 1], ways[:, 0]], axis=1)
    along_upper, across_upper = _along(other, ways), _along(other, across)
    order = np.argsort(across_upper, axis=1, kind="stable")
    row = np.arange(len(order))[:, None]
    along_upper, across_upper = along_upper[row, order], across_upper[row, order]
    reached = _interpolated(_along(edges, across), across_upper, along_upper)
    left = (reached - _along(edges, ways)).min(axis=-1)
    return np.where(ways.any(axis=1), left, np.inf)


def _along(points: Floats, directions: Floats) -> Floats:
    """Return how far points (m, 2), or (..., n, m, 2), lie along n directions: (..., n, m)."""
    return np.asarray((points @ directions[..., None])[..., 0])


def _interpolated(at: Floats, knots: Floats, values: Floats) -> Floats:
    """Return values (n, k) at ascending knots (n, k), row by row at places (..., n, m) between."""
    below = (knots[:, None] <= at[..., None]).sum(axis=-1) - 1
    last = knots.shape[1] - 1
    row = np.arange(len(knots))[:, None]
    one, two = np.maximum(below, 0), np.minimum(below + 1, last)
    start, begin = knots[row, one], values[row, one]
    width, rise = knots[row, two] - start, values[row, two] - begin
    slope = np.divide(rise, width, out=np.zeros_like(at), where=width > 0.0)
    return np.asarray(slope * (at - start) + begin)
