"""The path of insertion of a framework, and a cast as seen along it."""

import math
from dataclasses import dataclass

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.planning.extent_ridge import occlusal_normal


@dataclass(frozen=True)
class PathFrame:
    """Directions of a tilted cast, in the coordinates of its arch; all unit, at right angles.

    Attributes
    ----------
    up : ndarray, shape (3,)
        Along the vertical rod of the surveyor, out of the cast: against the path of insertion.
    forward, left : ndarray, shape (3,)
        Level: towards the front of the cast, and the patient's left.
    """

    up: Floats
    forward: Floats
    left: Floats

    def plan(self, points: Floats) -> Floats:
        """Return places (..., 2) as seen along the path: forward and left, mm."""
        return np.asarray(points @ np.stack([self.forward, self.left], axis=1))

    def height(self, points: Floats) -> Floats:
        """Return heights (...) along the rod, mm."""
        return np.asarray(points @ self.up)

    def level(self, direction: Floats) -> Floats:
        """Return the unit direction (2,) in plan of a direction (3,) that is not vertical."""
        flat = self.plan(direction)
        return np.asarray(flat / np.linalg.norm(flat))

    def points(self, plan: Floats, height: Floats) -> Floats:
        """Return points (n, 3) from places in plan (n, 2) and heights (n,)."""
        return np.asarray(
            plan @ np.stack([self.forward, self.left]) + np.asarray(height)[..., None] * self.up
        )


def occlusal_up(arch: Arch, upper: bool) -> Floats:
    """Return the unit normal of the occlusal plane of an arch, out of the cast."""
    normal = occlusal_normal(arch.teeth)
    return -normal if upper else normal


def path_frame(occlusal: Floats, forward_deg: float, left_deg: float) -> PathFrame:
    """Return the directions of a cast that is tilted from its occlusal plane.

    A cast whose front is lowered has its rod, seen on the cast, lean backward; one whose left is
    lowered, to the right.

    Parameters
    ----------
    occlusal : ndarray, shape (3,)
        Unit normal of the occlusal plane, out of the cast.
    forward_deg, left_deg : float
        How far the front, and the patient's left, are lowered, as seen from the side and the front.
    """
    ahead = _square(np.array([1.0, 0.0, 0.0]), occlusal)
    aside = _square(_square(np.array([0.0, 1.0, 0.0]), occlusal), ahead)
    leaning = (
        occlusal
        - math.tan(math.radians(forward_deg)) * ahead
        - math.tan(math.radians(left_deg)) * aside
    )
    up = leaning / np.linalg.norm(leaning)
    forward = _square(ahead, up)
    left = np.cross(up, forward)
    if left @ aside < 0.0:
        left = -left
    return PathFrame(up, forward, left)


def tilt_of(occlusal: Floats, up: Floats) -> float:
    """Return the angle between a path and the normal of the occlusal plane, degrees."""
    return math.degrees(math.atan2(float(np.linalg.norm(np.cross(occlusal, up))), occlusal @ up))


def _square(vector: Floats, to: Floats) -> Floats:
    """Return the unit vector of the part of a vector square to a unit direction."""
    flat = vector - (vector @ to) * to
    return np.asarray(flat / np.linalg.norm(flat))
