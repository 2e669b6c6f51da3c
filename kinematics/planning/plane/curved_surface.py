"""A plane or a sphere through points: a nearly flat one is found as well as a deep one.

A point at q from the origin lies where f = n.q - k q.q / 2 + d is its height, with n.n = 1 - 2 k d:
a sphere of curvature k, which is a plane for k = 0.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats

#: Rounds, and when a step counts as none: shares of what the points span.
_ROUNDS: Final = 60
_STILL: Final = 1e-10
#: Points tell nothing of a direction in which they spread less than this share of another's.
_LEAST_SPREAD: Final = 1e-6
#: Numbers that say where a surface lies: two tilts, height, curvature.
TILT_AHEAD, TILT_LEFT, HEIGHT, CURVATURE = range(4)


@dataclass(frozen=True)
class CurvedSurface:
    """A sphere, or a plane where its curvature is 0.

    Attributes
    ----------
    origin : ndarray, shape (3,)
        Point near it, from which the rest is counted, mm.
    normal : ndarray, shape (3,)
        Upward; of length 1 but for what its distance from the origin makes of it.
    offset_mm : float
        Height of the origin over it, nearly.
    curvature_per_mm : float
        One over the radius; positive where the centre lies above.
    """

    origin: Floats
    normal: Floats
    offset_mm: float
    curvature_per_mm: float

    @property
    def radius_mm(self) -> float:
        """Radius; negative where the centre lies below, infinite for a plane."""
        return 1.0 / self.curvature_per_mm if self.curvature_per_mm else float("inf")

    @property
    def centre(self) -> Floats | None:
        """Centre (3,), mm; None for a plane."""
        if not self.curvature_per_mm:
            return None
        return np.asarray(self.origin + self.normal / self.curvature_per_mm)

    def heights(self, points: Floats) -> Floats:
        """Return the signed shortest distances (n,) of points (n, 3), positive above, mm."""
        from_origin = points - self.origin
        squares = np.einsum("ni,ni->n", from_origin, from_origin)
        f = from_origin @ self.normal - 0.5 * self.curvature_per_mm * squares + self.offset_mm
        return np.asarray(2.0 * f / (1.0 + self._slope(f)))

    def upward(self, points: Floats) -> Floats:
        """Return the unit vectors (n, 3) square to the surface at points (n, 3), upward."""
        vectors = self.normal - self.curvature_per_mm * (points - self.origin)
        return np.asarray(vectors / np.linalg.norm(vectors, axis=1, keepdims=True))

    def _slope(self, f: Floats) -> Floats:
        return np.sqrt(np.maximum(1.0 - 2.0 * self.curvature_per_mm * f, 0.0))

    def changes(self, points: Floats, heights: Floats) -> Floats:
        """Return how the heights (n,) of points change with the four numbers, (n, 4)."""
        k, (nx, ny, nz) = self.curvature_per_mm, self.normal
        x, y, z = (points - self.origin).T
        slope = 1.0 - k * heights
        by_curvature = -0.5 * (x * x + y * y + z * z) - z * self.offset_mm / nz
        rows = [x - z * nx / nz, y - z * ny / nz, 1.0 - z * k / nz, by_curvature]
        changes = np.stack(rows, axis=1) / slope[:, None]
        changes[:, CURVATURE] += 0.5 * heights**2 / slope
        return changes


def fitted_surface(
    points: Floats,
    weights: Floats,
    free: Bools,
    curvature_per_mm: float = 0.0,
    held_by: float = 0.0,
) -> CurvedSurface | None:
    """Return the surface with the least weighted sum of squared distances from points.

    Parameters
    ----------
    points : ndarray, shape (n, 3)
        Where it should pass, mm; nearly level, that is along x and y.
    weights : ndarray, shape (n,)
        Of each square.
    free : ndarray, shape (4,)
        Which numbers are sought: tilt ahead, tilt to the left, height, curvature.
    curvature_per_mm : float
        Curvature to start from, or to keep where it is not free.
    held_by : float
        What the square of a departure from that curvature costs, mm4; 0 lets it go freely.

    Returns
    -------
    CurvedSurface or None
        None where the points do not tell it.
    """
    if len(points) < np.count_nonzero(free):
        return None
    origin = points.mean(axis=0)
    values = np.array([0.0, 0.0, 0.0, curvature_per_mm])
    roots = np.sqrt(weights)
    for _ in range(_ROUNDS):
        surface = _surface(origin, values)
        if surface is None:
            return None
        heights = surface.heights(points)
        changes = roots[:, None] * surface.changes(points, heights)
        missing = -roots * heights
        if held_by:
            root = np.sqrt(held_by)
            changes = np.vstack([changes, [0.0, 0.0, 0.0, root]])
            missing = np.append(missing, root * (curvature_per_mm - surface.curvature_per_mm))
        changes = changes[:, free]
        spread = np.linalg.norm(changes, axis=0)
        if spread.min() == 0.0:
            return None
        step, _, _, shares = np.linalg.lstsq(changes / spread, missing, rcond=None)
        if shares[-1] < _LEAST_SPREAD * shares[0]:
            return None
        values[free] += step / spread
        if np.abs(step).max() <= _STILL * max(1.0, float(np.abs(values[free] * spread).max())):
            return _surface(origin, values)
    return None


def _surface(origin: Floats, values: Floats) -> CurvedSurface | None:
    ahead, left, offset, curvature = (float(value) for value in values)
    upright = 1.0 - ahead**2 - left**2 - 2.0 * curvature * offset
    if upright <= 0.0:
        return None
    normal = np.array([ahead, left, np.sqrt(upright)])
    return CurvedSurface(origin, normal, offset, curvature)
