"""Closed surfaces as stacks of rings: which triangles join one ring of points to the next.

Every ring goes once round the crown, counter-clockwise seen from the first ring's side, with its
points at equal steps of a parameter of their own. Two neighbouring rings may have different
numbers of points, so the size of the triangles can follow the surface.
"""

from functools import cache

import numpy as np

from kinematics.conventions import Ints


def joined_rings(upper: int, lower: int) -> Ints:
    """Return the triangles (upper + lower, 3) of the band between two rings.

    Points 0 to upper-1 are the first ring, the next `lower` the second. A ring of one point is a
    pole and gives a fan. Triangles are counter-clockwise seen from outside if the first ring is
    above and both run counter-clockwise seen from above.
    """
    high = np.arange(upper)
    low = np.arange(lower)
    # Each step along one ring makes a triangle with the point the other ring has reached by then.
    reached_low = ((2 * high + 1) * lower + upper - 1) // (2 * upper)
    reached_high = ((2 * low + 1) * upper + lower) // (2 * lower)
    from_high = np.stack([high, upper + reached_low % lower, (high + 1) % upper], axis=1)
    from_low = np.stack([reached_high % upper, upper + low, upper + (low + 1) % lower], axis=1)
    if upper == 1:
        return from_low
    if lower == 1:
        return from_high
    return np.concatenate([from_high, from_low])


@cache
def stacked_rings(counts: tuple[int, ...]) -> Ints:
    """Return all triangles (m, 3) of a stack of rings; the first and last count must be 1 (poles).

    Points are numbered ring by ring.
    """
    starts = np.cumsum((0, *counts[:-1]))
    bands = [joined_rings(counts[k], counts[k + 1]) + starts[k] for k in range(len(counts) - 1)]
    faces = np.concatenate(bands).astype(np.int64)
    faces.setflags(write=False)
    return faces


def triangle_count(counts: tuple[int, ...]) -> int:
    """Return how many triangles `stacked_rings` makes."""
    return 2 * (sum(counts) - 2)
