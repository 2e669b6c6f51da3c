"""How much of a crown stands out over a surface: what a reduction down to it would take."""

import math

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.plane.curved_surface import CurvedSurface


def volume_above_mm3(
    corners: Floats, surface: CurvedSurface, over_mm: float, outward: float
) -> float:
    """Return the volume of a crown that stands out farther than a distance over a surface.

    Every triangle is cut where it passes that distance, and what stands over each piece is reckoned
    as a prism square to the surface; the surface is taken as flat across one triangle.

    Parameters
    ----------
    corners : ndarray, shape (m, 3, 3)
        Triangles of the crown, counter-clockwise seen from outside, mm.
    surface : CurvedSurface
        Where.
    over_mm : float
        From which distance on it counts, in the direction in which teeth stand out.
    outward : float
        -1 for an upper, whose teeth stand out downward, 1 for a lower.

    Returns
    -------
    float
        mm3; in any order of the triangles the same.
    """
    if len(corners) == 0:
        return 0.0
    heights = outward * surface.heights(corners.reshape(-1, 3)).reshape(-1, 3) - over_mm
    out = heights.max(axis=1) > 0.0
    pieces = [_over_piece(corners[i], heights[i], surface, outward) for i in np.flatnonzero(out)]
    return max(0.0, math.fsum(pieces))


def _over_piece(corners: Floats, heights: Floats, surface: CurvedSurface, outward: float) -> float:
    """Return the signed volume between the outer part of one triangle and the surface, mm3."""
    points, over = [], []
    for i in range(3):
        a, b = heights[i], heights[(i + 1) % 3]
        if a >= 0.0:
            points.append(corners[i])
            over.append(a)
        if (a > 0.0) != (b > 0.0) and a != 0.0 and b != 0.0:
            share = a / (a - b)
            points.append(corners[i] + share * (corners[(i + 1) % 3] - corners[i]))
            over.append(0.0)
    volumes = []
    for k in range(1, len(points) - 1):
        piece = np.array([points[0], points[k], points[k + 1]])
        across = 0.5 * np.cross(piece[1] - piece[0], piece[2] - piece[0])
        up = outward * surface.upward(piece.mean(axis=0)[None])[0]
        volumes.append(float(across @ up) * (over[0] + over[k] + over[k + 1]) / 3.0)
    return math.fsum(volumes)
