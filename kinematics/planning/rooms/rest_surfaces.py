"""The surface below a rest, cut out of a crown: floor, marginal ridge and embrasure."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals, mesh_of
from kinematics.planning.crown_places import CrownFrame
from kinematics.planning.rooms.rest_outlines import Outline
from kinematics.planning.tooth_regions import RIDGE_SHARE

PartName = Literal["floor", "marginal ridge", "embrasure"]

#: The metal turns down into the embrasure so far below the crest of the ridge, and is looked at
#: down to so far below it, mm (chosen for this program).
_TURNS_DOWN_MM: Final = 0.5
_DOWN_TO_MM: Final = 2.0


@dataclass(frozen=True)
class Plane:
    """A plane of which one side is kept: where normal @ x is at least `least`."""

    normal: tuple[float, float, float]
    least: float


@dataclass(frozen=True)
class RestSurfaces:
    """What a rest covers of a crown, in the coordinates of its arch.

    Attributes
    ----------
    floor, ridge, embrasure : Mesh or None
        None where the crown has nothing there, as a cingulum has no ridge.
    """

    floor: Mesh | None
    ridge: Mesh | None
    embrasure: Mesh | None

    @property
    def parts(self) -> tuple[tuple[PartName, Mesh], ...]:
        """Those that are there, with their names."""
        named: tuple[tuple[PartName, Mesh | None], ...] = (
            ("floor", self.floor),
            ("marginal ridge", self.ridge),
            ("embrasure", self.embrasure),
        )
        return tuple((name, mesh) for name, mesh in named if mesh is not None)


def rest_surfaces(crown: CrownFrame, outline: Outline, deeper_mm: float = 0.0) -> RestSurfaces:
    """Cut the surface below a rest out of its crown, exactly along the outline.

    Parameters
    ----------
    crown : CrownFrame
        The crown.
    outline : Outline
        Of the seat.
    deeper_mm : float, optional
        By how much floor and ridge are lowered; what turns down into the embrasure then begins
        lower.
    """
    inside = seen_from_outside(crown, outline)
    for plane in _walls(outline):
        inside = cut(*inside, plane)
    if outline.proximal == 0.0:
        return RestSurfaces(placed_part(crown, *inside, deeper_mm * crown.facial), None, None)
    down = -deeper_mm * crown.up
    way = outline.proximal
    end = float(np.max(way * crown.seen[:, 0]))
    band = RIDGE_SHARE * float(np.ptp(crown.seen[:, 0]))
    outer = Plane((way, 0.0, 0.0), end - band)
    strip = cut(*inside, outer)
    if len(strip[1]) == 0:
        return RestSurfaces(placed_part(crown, *inside, down), None, None)
    middle = float(np.mean(outline.corners[:, 1]))
    crest = _crest(strip, middle, outline.width_mm)
    ridge = cut(*strip, Plane((0.0, 0.0, 1.0), crest - _TURNS_DOWN_MM))
    floor = cut(*inside, Plane((-way, 0.0, 0.0), band - end))
    embrasure, lowered = facing(crown, 0, way), crest - deeper_mm
    half = 0.5 * outline.width_mm
    for plane in (
        Plane((0.0, 0.0, -1.0), _TURNS_DOWN_MM - lowered),
        Plane((0.0, 0.0, 1.0), lowered - _DOWN_TO_MM),
        Plane((0.0, 1.0, 0.0), middle - half),
        Plane((0.0, -1.0, 0.0), -middle - half),
        outer,
    ):
        embrasure = cut(*embrasure, plane)
    return RestSurfaces(
        placed_part(crown, *floor, down),
        placed_part(crown, *ridge, down),
        placed_part(crown, *embrasure),
    )


def _crest(strip: tuple[Floats, Ints], middle: float, width_mm: float) -> float:
    """Return how high the ridge is in the middle of the seat."""
    central = strip
    for plane in (
        Plane((0.0, 1.0, 0.0), middle - 0.25 * width_mm),
        Plane((0.0, -1.0, 0.0), -middle - 0.25 * width_mm),
    ):
        central = cut(*central, plane)
    points, faces = central if len(central[1]) else strip
    return float(points[faces][:, :, 2].max())


def seen_from_outside(crown: CrownFrame, outline: Outline) -> tuple[Floats, Ints]:
    """Return points and faces, as `CrownFrame.seen`, that are seen as the outline is."""
    return facing(crown, outline.outward, outline.sign)


def facing(crown: CrownFrame, axis: int, sign: float) -> tuple[Floats, Ints]:
    """Return points and faces, as `CrownFrame.seen`, whose outside faces along a direction."""
    _, normals = face_areas_normals(crown.surface)
    way = (crown.mesial, crown.facial, crown.up)[axis]
    return crown.seen, np.asarray(crown.surface.faces[sign * (normals @ way) > 0.0])


def _walls(outline: Outline) -> tuple[Plane, ...]:
    """Return the planes that keep what lies within an outline."""
    corners = outline.corners
    along = np.roll(corners, -1, axis=0) - corners
    inward = np.stack([-along[:, 1], along[:, 0]], axis=1)
    planes = []
    for corner, way in zip(corners, inward, strict=True):
        normal = np.zeros(3)
        normal[list(outline.axes)] = way / np.linalg.norm(way)
        least = float(normal[list(outline.axes)] @ corner)
        planes.append(Plane((float(normal[0]), float(normal[1]), float(normal[2])), least))
    return tuple(planes)


def cut(points: Floats, faces: Ints, plane: Plane) -> tuple[Floats, Ints]:
    """Return the part of a surface on one side of a plane, triangles cut along it."""
    from trimesh.intersections import slice_faces_plane  # a moment to load, and seldom needed

    if len(faces) == 0:
        return points, faces
    normal = np.array(plane.normal)
    found, triangles = slice_faces_plane(points, faces, normal, plane.least * normal)[:2]
    return np.asarray(found, dtype=np.float64), np.asarray(triangles, dtype=np.int64)


def placed_part(
    crown: CrownFrame, points: Floats, faces: Ints, moved_by: Floats | float = 0.0
) -> Mesh | None:
    """Return a part, moved, in the coordinates of its arch; None where nothing is left of it."""
    if len(faces) == 0:
        return None
    used, numbered = np.unique(faces, return_inverse=True)
    axes = np.stack([crown.mesial, crown.facial, crown.up])
    placed = points[used] @ axes + crown.tooth.centre + moved_by
    return mesh_of(placed, numbered.reshape(-1, 3))
