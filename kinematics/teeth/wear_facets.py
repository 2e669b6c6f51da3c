"""Cusps worn down: a flat facet across the crown's axis with a rounded rim on every worn cusp.

What the crown loses is all that stands over a cap: near each cusp the cap lies level at the height
the cusp is worn down to, between cusps it passes smoothly from one to the other.
"""

from typing import Final

import numpy as np

from kinematics.conventions import Floats

#: Height over which the rim of a facet is rounded, mm (less where less is lost).
RIM_MM: Final = 0.12
#: The cap stands this much over a cusp that is not worn, mm.
CLEAR_MM: Final = 0.6
#: How level the cap is near a cusp: its height counts with this power of one over the distance.
POWER: Final = 6.0
#: No place counts as nearer to a tip than this, mm.
NEAREST_MM: Final = 0.05


def soft_excess(value: Floats, rounding: float) -> Floats:
    """Return max(value, 0), rounded within `rounding` of 0 and exact outside (rounding over 0)."""
    within = np.maximum(rounding - np.abs(value), 0.0) / rounding
    return np.asarray(np.maximum(value, 0.0) + 0.25 * rounding * within**2)


def worn_down(points: Floats, tips: Floats, wear_mm: Floats) -> Floats:
    """Return points (n, 3) of a crown with some cusps worn, in the crown's own frame, mm.

    Parameters
    ----------
    points : ndarray, shape (n, 3)
        Of the crown before wear; they move along its axis only.
    tips : ndarray, shape (cusps, 3)
        Of all cusps before wear.
    wear_mm : ndarray, shape (cusps,)
        Loss of height of each cusp, mm; 0 for a cusp that keeps its shape.
    """
    if not wear_mm.any():
        return points
    away = np.linalg.norm(points[:, None, :2] - tips[None, :, :2], axis=2)
    near = np.maximum(away, NEAREST_MM) ** -POWER
    heights = tips[:, 2] + np.where(wear_mm > 0.0, -wear_mm, CLEAR_MM)
    # Summed cusp by cusp, so that no other order of a matrix product changes the bits.
    cap = sum(near[:, k] * heights[k] for k in range(len(heights))) / near.sum(axis=1)
    rim = min(RIM_MM, float(wear_mm[wear_mm > 0.0].min()))
    worn = points.copy()
    worn[:, 2] -= soft_excess(points[:, 2] - cap, rim)
    return worn
