"""How far the edge of a lower tooth still has to go, seen from above, to that of an upper one."""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel


@inner_kernel
def _placed(pose, point):
    """Return where a pose brings a point, seen from above."""
    return (
        pose[0, 0] * point[0] + pose[0, 1] * point[1] + pose[0, 2] * point[2] + pose[0, 3],
        pose[1, 0] * point[0] + pose[1, 1] * point[1] + pose[1, 2] * point[2] + pose[1, 3],
    )


@inner_kernel
def _level(knots, values, count, at):
    """Return the value at a place between ascending knots; beyond them it stays level."""
    right = 0
    while right < count and knots[right] <= at:
        right += 1
    if right == 0:
        return values[0]
    if right == count:
        return values[count - 1]
    share = (at - knots[right - 1]) / (knots[right] - knots[right - 1])
    return values[right - 1] + share * (values[right] - values[right - 1])


@kernel
def ways_left(poses, rows, lower, of_lower, upper, of_upper, left):
    """Write how far edges still have to go at some poses, up to the first that has arrived.

    rows: (r,) ascending poses, above 0. lower, upper: (t, m, 3) edges that end with their last
    point again and again, first how many points are their own: (t,), then the points. of_lower,
    of_upper: (r,) which of them. left: (n,) gets mm; inf where an edge stays; is left as it is
    where an edge is beyond the other at pose 0 already.
    """
    counts_lower, points_lower = lower
    counts_upper, points_upper = upper
    knots, values = np.empty(points_upper.shape[1]), np.empty(points_upper.shape[1])
    for i in range(rows.shape[0]):
        n, low, high = rows[i], of_lower[i], of_upper[i]
        count = counts_lower[low]
        ahead, aside = 0.0, 0.0
        for k in range(count):
            before = _placed(poses[n - 1], points_lower[low, k])
            here = _placed(poses[n], points_lower[low, k])
            ahead += here[0] - before[0]
            aside += here[1] - before[1]
        length = math.sqrt(ahead * ahead + aside * aside)
        if length == 0.0:
            left[n] = np.inf
            continue
        ahead, aside = ahead / length, aside / length
        others = counts_upper[high]
        for k in range(others):
            x, y = points_upper[high, k, 0], points_upper[high, k, 1]
            across, along = ahead * y - aside * x, ahead * x + aside * y
            place = k
            while place > 0 and knots[place - 1] > across:
                knots[place], values[place] = knots[place - 1], values[place - 1]
                place -= 1
            knots[place], values[place] = across, along
        at_start, now = np.inf, np.inf
        for k in range(count):
            x, y = _placed(poses[0], points_lower[low, k])
            reached = _level(knots, values, others, ahead * y - aside * x)
            at_start = min(at_start, reached - (ahead * x + aside * y))
            x, y = _placed(poses[n], points_lower[low, k])
            reached = _level(knots, values, others, ahead * y - aside * x)
            now = min(now, reached - (ahead * x + aside * y))
        if at_start < 0.0:
            continue
        left[n] = now
        if now <= 0.0:
            return
