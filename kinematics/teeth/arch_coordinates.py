"""Places along, across and above an arch: a half circle in front, straight on behind it.

Seen from occlusal, rays run from a point on the midline to the front teeth, and straight sideways
from the midline to the back teeth. A place is the way along the arch (station, right negative),
the distance from the midline or its point (radius), and the height towards the other arch.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats

#: Radius of the half circle over the width of the arch.
_RADIUS_SHARE: Final = 0.37


@dataclass(frozen=True)
class ArchCoordinates:
    """The map between an arch and its stations, radii and heights.

    Attributes
    ----------
    centre_x : float
        Where the rays to the front teeth begin on the midline (y = 0), mm.
    bend_mm : float
        Radius of the half circle along which stations are counted.
    facing : float
        1 for a lower arch, -1 for an upper one, whose heights point down.
    """

    centre_x: float
    bend_mm: float
    facing: float

    @property
    def turn_mm(self) -> float:
        """Station on the left where the half circle ends."""
        return 0.5 * np.pi * self.bend_mm

    def seen(self, points: Floats) -> Floats:
        """Return station, radius and height (n, 3) of points (n, 3), mm."""
        ahead, y = points[:, 0] - self.centre_x, points[:, 1]
        side = np.where(y < 0.0, -1.0, 1.0)
        straight = side * (self.turn_mm - ahead)
        in_front = ahead > 0.0
        station = np.where(in_front, self.bend_mm * np.arctan2(y, np.abs(ahead)), straight)
        radius = np.where(in_front, np.hypot(ahead, y), np.abs(y))
        return np.stack([station, radius, self.facing * points[:, 2]], axis=1)

    def outward(self, points: Floats) -> Floats:
        """Return the directions (n, 3) of the rays at points (n, 3), unit."""
        rays = points * np.array([1.0, 1.0, 0.0])
        rays[:, 0] = np.maximum(rays[:, 0] - self.centre_x, 0.0)
        return np.asarray(rays / np.linalg.norm(rays, axis=1, keepdims=True))

    def points(self, station: Floats, radius: Floats, height: Floats) -> Floats:
        """Return points (..., 3) in the coordinates of the arch; arguments broadcast."""
        angle = np.clip(station / self.bend_mm, -0.5 * np.pi, 0.5 * np.pi)
        behind = np.maximum(np.abs(station) - self.turn_mm, 0.0)
        in_front = behind == 0.0
        x = self.centre_x + np.where(in_front, radius * np.cos(angle), -behind)
        y = radius * np.where(in_front, np.sin(angle), np.sign(station))
        return np.stack(np.broadcast_arrays(x, y, self.facing * height), axis=-1)


def coordinates_of(crowns: Floats, upper: bool) -> ArchCoordinates:
    """Return the coordinates that fit an arch with crown vertices (n, 3)."""
    bend = _RADIUS_SHARE * 2.0 * float(np.abs(crowns[:, 1]).max())
    return ArchCoordinates(float(crowns[:, 0].max()) - bend, bend, -1.0 if upper else 1.0)
