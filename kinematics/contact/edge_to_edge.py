"""Where an excursion passes edge-to-edge: the guiding lower tip reaches the upper edge."""

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Floats, Ints
from kinematics.geometry.kernels import edge_ways
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
    """Return how far, shape (n,), the guiding lower edge still has to go.

    Up to the first pose in which it has arrived; nan beyond, and where it does not decide.
    """
    left = np.full(len(poses), np.nan)
    pairs = [(upper, lower) for upper, lower in guiding.tolist()]
    deciding = {pair for pair in set(pairs) if _decides(casts, *pair, working_side)}
    rows = np.array([n for n, pair in enumerate(pairs) if n and pair in deciding])
    if len(rows):
        lower, of_lower = _edges(casts.lower, guiding[rows, 1])
        upper, of_upper = _edges(casts.upper, guiding[rows, 0])
        edge_ways.ways_left(poses, rows, lower, of_lower, upper, of_upper, left)
    return left


def _decides(casts: MountedCasts, upper: int, lower: int, working_side: int) -> bool:
    """Tell whether a pair guides, and the edge of its upper tooth lies across the way."""
    if upper <= 0 or lower <= 0 or upper not in casts.upper.codes:
        return False
    if working_side:
        return is_right(upper) == (working_side < 0)
    return not is_posterior(upper)


def _edges(arch: Arch, codes: Ints) -> tuple[tuple[Ints, Floats], Ints]:
    """Return the edges of t teeth, and which of them those of some codes (n,) are.

    Edges are how many points each has, (t,), and the points (t, m, 3): a shorter one ends with its
    last point again.
    """
    teeth = sorted(set(codes.tolist()))
    edges = [arch.tooth(code).edge for code in teeth]
    counts = np.array([len(edge) for edge in edges])
    points = np.arange(counts.max())
    even = np.array([edge[np.minimum(points, len(edge) - 1)] for edge in edges])
    return (counts, even), np.searchsorted(teeth, codes)
