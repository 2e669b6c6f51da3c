"""Where an excursion passes edge-to-edge: the guiding lower tip reaches the upper edge."""

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Bools, Floats, Ints
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
    pairs = [(upper, lower) for upper, lower in guiding.tolist()]
    deciding = {pair for pair in set(pairs) if _decides(casts, *pair, working_side)}
    rows = np.array([n for n, pair in enumerate(pairs) if n and pair in deciding])
    if not len(rows):
        return left
    edges, own = _edges(casts.lower, guiding[rows, 1])
    others, _ = _edges(casts.upper, guiding[rows, 0])
    moved = move_points(poses[np.stack([np.zeros_like(rows), rows - 1, rows])], edges)[..., :2]
    ways = _ways(moved[1], moved[2], own)
    at_start, now = _ways_left(moved[[0, 2]], ways, others[..., :2])
    ahead = ~(at_start < 0.0)
    left[rows[ahead]] = now[ahead]
    return left


def _decides(casts: MountedCasts, upper: int, lower: int, working_side: int) -> bool:
    """Tell whether a pair guides, and the edge of its upper tooth lies across the way."""
    if upper <= 0 or lower <= 0 or upper not in casts.upper.codes:
        return False
    if working_side:
        return is_right(upper) == (working_side < 0)
    return not is_posterior(upper)


def _edges(arch: Arch, codes: Ints) -> tuple[Floats, Bools]:
    """Return the edges (n, m, 3) of n teeth, and which of their points (n, m) are their own.

    Shorter edges end with their last point again: that changes neither how far they reach nor
    what is interpolated on them.
    """
    teeth = sorted(set(codes.tolist()))
    edges = [arch.tooth(code).edge for code in teeth]
    counts = np.array([len(edge) for edge in edges])
    points = np.arange(counts.max())
    even = np.array([edge[np.minimum(points, len(edge) - 1)] for edge in edges])
    which = np.searchsorted(teeth, codes)
    return even[which], points < counts[which, None]


def _ways(before: Floats, here: Floats, own: Bools) -> Floats:
    """Return the horizontal directions (n, 2) in which edges (n, m, 2) go; 0 where they stay."""
    way = ((here - before) * own[..., None]).sum(axis=1) / own.sum(axis=1)[:, None]
    return np.asarray(way / np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-300)[:, None])


def _ways_left(edges: Floats, ways: Floats, others: Floats) -> Floats:
    """Return how far places of a lower edge still have to go to an upper one, shape (s, n), mm.

    Parameters
    ----------
    edges : ndarray, shape (s, n, m, 2)
        Points of the lower edge, horizontally.
    ways : ndarray, shape (n, 2)
        Where it goes; inf is left where it stays.
    others : ndarray, shape (n, k, 2)
        Points of the upper edge, held level beyond the tooth.
    """
    across = np.stack([-ways[:, 1], ways[:, 0]], axis=1)
    along_upper, across_upper = _along(others, ways), _along(others, across)
    order = np.argsort(across_upper, axis=1, kind="stable")
    row = np.arange(len(order))[:, None]
    along_upper, across_upper = along_upper[row, order], across_upper[row, order]
    reached = _interpolated(_along(edges, across), across_upper, along_upper)
    left = (reached - _along(edges, ways)).min(axis=-1)
    return np.where(ways.any(axis=1), left, np.inf)


def _along(points: Floats, directions: Floats) -> Floats:
    """Return how far points (..., n, m, 2) lie along n directions: (..., n, m)."""
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
