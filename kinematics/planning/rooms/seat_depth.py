"""How deep a seat is that has been cut for a rest: what lies below the surface bridging its rim."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.interpolate import RBFInterpolator

from kinematics.conventions import Bools, Floats
from kinematics.geometry.meshes import Mesh, face_areas_normals
from kinematics.planning.crown_places import CrownFrame
from kinematics.planning.rooms.rest_outlines import Outline
from kinematics.planning.rooms.rest_surfaces import RestSurfaces
from kinematics.planning.tooth_regions import RIDGE_SHARE

#: The surface around a seat is taken from so far outside its outline to so far, mm, and where it is
#: no steeper than this cosine (chosen for this program).
_RIM_MM: Final = (0.25, 1.5)
_LEVEL: Final = 0.55
#: The ridge is looked at on the inner part of its band, where it is not yet falling away.
_INNER: Final = 0.6
#: Fewer points than this around a seat tell no surface.
_LEAST_POINTS: Final = 12
#: So far natural ridges lie off what bridges them, and so far a seat may be told too deep or too
#: shallow, mm (found on built-in teeth).
UNCERTAIN_MM: Final = 0.35
#: A ridge lowered by less than this is taken as it grew (chosen for this program).
SEAT_FROM_MM: Final = 0.45


@dataclass(frozen=True)
class SeatDepth:
    """How deep a seat lies below the surface bridging its rim, mm, along the long axis.

    Attributes
    ----------
    ridge_mm : float
        In the middle of the marginal ridge.
    floor_mm : float
        Where it is deepest.
    """

    ridge_mm: float
    floor_mm: float

    @property
    def found(self) -> bool:
        """Whether there is a seat at all."""
        return self.ridge_mm >= SEAT_FROM_MM


def seat_depth(crown: CrownFrame, outline: Outline, surfaces: RestSurfaces) -> SeatDepth | None:
    """Measure a seat; None on a cingulum, or where too little of the crown around it is left.

    Parameters
    ----------
    crown : CrownFrame
        The crown.
    outline, surfaces : Outline, RestSurfaces
        Of the seat on it.
    """
    axes, outward = list(outline.axes), outline.outward
    rim = _rim(crown, outline)
    if outline.proximal == 0.0 or len(rim) < _LEAST_POINTS:
        return None
    # Taut, not bending: a bridge that goes on bending as steep cusps do misses natural ridges more.
    bridge = RBFInterpolator(rim[:, axes], outline.sign * rim[:, outward], kernel="linear")

    def below_mm(part: Mesh) -> tuple[Floats, Floats]:
        frame = np.stack([crown.mesial, crown.facial, crown.up])
        points = (part.vertices - crown.tooth.centre) @ frame.T
        return points, bridge(points[:, axes]) - outline.sign * points[:, outward]

    depths = [below_mm(part) for part in (surfaces.floor, surfaces.ridge) if part is not None]
    if not depths:
        return None
    points, below = depths[-1]
    crest = _crest(crown, outline, points)
    ridge = float(np.median(below[crest] if crest.any() else below))
    floor = max(float(found.max()) for _, found in depths)
    return SeatDepth(ridge, max(floor, ridge))


def _crest(crown: CrownFrame, outline: Outline, points: Floats) -> Bools:
    """Return which points (n, 3) lie on the ridge in the middle half of a seat's width."""
    middle = float(np.mean(outline.corners[:, 1]))
    end = float(np.max(outline.proximal * crown.seen[:, 0]))
    falls_mm = (1.0 - _INNER) * RIDGE_SHARE * float(np.ptp(crown.seen[:, 0]))
    central = np.abs(points[:, 1] - middle) <= 0.25 * outline.width_mm
    return np.asarray(central & (outline.proximal * points[:, 0] <= end - falls_mm))


def _rim(crown: CrownFrame, outline: Outline) -> Floats:
    """Return the vertices (n, 3) of a crown around a seat, in an order that is their own."""
    _, normals = face_areas_normals(crown.surface)
    way = (crown.mesial, crown.facial, crown.up)[outline.outward]
    level = crown.surface.faces[outline.sign * (normals @ way) > _LEVEL]
    points = crown.seen[np.unique(level)]
    outside = outside_mm(outline, points[:, list(outline.axes)])
    near = (outside >= _RIM_MM[0]) & (outside <= _RIM_MM[1])
    return np.unique(points[near], axis=0)


def outside_mm(outline: Outline, points: Floats) -> Floats:
    """Return how far points (n, 2) lie beyond the edges of an outline, negative inside."""
    along = np.roll(outline.corners, -1, axis=0) - outline.corners
    outward = np.stack([along[:, 1], -along[:, 0]], axis=1)
    outward /= np.linalg.norm(outward, axis=1, keepdims=True)
    least = np.sum(outward * outline.corners, axis=1)
    return np.asarray((points @ outward.T - least).max(axis=1))
