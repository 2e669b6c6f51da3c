"""The line of supporting cusps seen along the bite, and how far each tooth stands beside it.

Both sides share one curve, y = +- (a + b x + c x x), about a midline y = d + e x of their own.
"""

from itertools import combinations
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.planning.plane.standing_points import Points
from kinematics.tooth_codes import is_right

#: Numbers that say where the line runs, fewest teeth, and most that are left out of it.
_COUNT: Final = 5
_FEWEST: Final = 6
_MOST_LEFT_OUT: Final = 2


def beside_line_mm(points: Points, leave_out_mm: float) -> dict[int, float]:
    """Return how far the supporting cusps of each tooth stand beside the line of those in line.

    Parameters
    ----------
    points : Points
        Supporting cusp tips, hinge frame.
    leave_out_mm : float
        Mean distance beyond which a tooth is rather left out of the line, as for a sphere.

    Returns
    -------
    dict of int to float
        By tooth, mm, positive to the cheek; empty where the teeth are too few.
    """
    count = len(points.codes)
    sides = np.array([is_right(code) for code in points.codes])
    if count < _FEWEST or min(sides.sum(), (~sides).sum()) < 2:
        return {}
    outward = np.where(sides, -1.0, 1.0)[points.owners]
    x = points.points[:, 0] - points.points[:, 0].mean()
    rows = np.stack([np.ones(len(x)), x, outward, outward * x, outward * x * x], axis=1)
    best, least_cost = np.ones(count, dtype=bool), np.inf
    for left_out in range(min(_MOST_LEFT_OUT, count - _COUNT - 1) + 1):
        if left_out * leave_out_mm**2 >= least_cost:
            break
        for chosen in combinations(range(count), left_out):
            teeth = np.ones(count, dtype=bool)
            teeth[list(chosen)] = False
            off = points.means(_beside(points, rows, teeth))[teeth]
            cost = float((off**2).sum()) + left_out * leave_out_mm**2
            if cost < least_cost:
                best, least_cost = teeth, cost
    off = points.means(outward * _beside(points, rows, best))
    return {code: float(off[number]) for number, code in enumerate(points.codes)}


def _beside(points: Points, rows: Floats, teeth: Bools) -> Floats:
    """Return how far left (n,) of the line through some teeth every point stands, square to it."""
    y, chosen = points.points[:, 1], points.of(teeth)
    roots = np.sqrt(points.weights[chosen])
    values, *_ = np.linalg.lstsq(roots[:, None] * rows[chosen], roots * y[chosen], rcond=None)
    x, outward = rows[:, 1], rows[:, 2]
    slope = values[1] + outward * values[3] + 2.0 * outward * x * values[4]
    return np.asarray((y - rows @ values) / np.sqrt(1.0 + slope**2))
