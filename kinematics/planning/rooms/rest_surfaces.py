"""The surface below a rest, cut out of a crown: floor, marginal ridge and embrasure."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals, mesh_of, moved_mesh
from kinematics.geometry.poses import pose_of
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
    crest_mm : float or None
        Height of the ridge in the middle of the seat, from the middle of the crown.
    """

    floor: Mesh | None
    ridge: Mesh | None
    embrasure: Mesh | None
    crest_mm: float | None

    @property
    def parts(self) -> tuple[tuple[PartName, Mesh], ...]:
        """Those that are there, with their names."""
        named: tuple[tuple[PartName, Mesh | None], ...] = (
            ("floor", self.floor),
            ("marginal ridge", self.ridge),
            ("embrasure", self.embrasure),
        )
        return tuple((name, mesh) for name, mesh in named if mesh is not None)


def rest_surfaces(crown: CrownFrame, outline: Outline) -> RestSurfaces:
    """Cut the surface below a rest out of its crown, exactly along the outline.

    Parameters
    ----------
    crown : CrownFrame
        The crown.
    outline : Outline
        Of the seat.
    """
    inside = facing(crown, outline.outward, outline.sign)
    for plane in _walls(outline):
        inside = cut(*inside, plane)
    if outline.proximal == 0.0:
        return RestSurfaces(placed_part(crown, *inside), None, None, None)
    outer = _outer(crown, outline)
    strip = cut(*inside, outer)
    if len(strip[1]) == 0:
        return RestSurfaces(placed_part(crown, *inside), None, None, None)
    crest = _crest(strip, outline)
    ridge = cut(*strip, Plane((0.0, 0.0, 1.0), crest - _TURNS_DOWN_MM))
    floor = cut(*inside, Plane((-outline.proximal, 0.0, 0.0), -outer.least))
    return RestSurfaces(
        placed_part(crown, *floor),
        placed_part(crown, *ridge),
        _embrasure(crown, outline, crest),
        crest,
    )


def lowered(
    crown: CrownFrame, outline: Outline, surfaces: RestSurfaces, deeper_mm: float
) -> RestSurfaces:
    """Return the surface below a rest whose seat is cut deeper along the long axis.

    What turns down into the embrasure then begins lower.

    Parameters
    ----------
    crown, outline : CrownFrame, Outline
        Of the seat.
    surfaces : RestSurfaces
        As it is.
    deeper_mm : float
        How much deeper.
    """
    floor, ridge = (
        part and moved_mesh(part, pose_of(np.eye(3), -deeper_mm * crown.up))
        for part in (surfaces.floor, surfaces.ridge)
    )
    if surfaces.crest_mm is None:
        return RestSurfaces(floor, ridge, None, None)
    crest = surfaces.crest_mm - deeper_mm
    return RestSurfaces(floor, ridge, _embrasure(crown, outline, crest), crest)


def _outer(crown: CrownFrame, outline: Outline) -> Plane:
    """Return the plane that keeps the marginal ridge and what lies beyond it."""
    end = float(np.max(outline.proximal * crown.seen[:, 0]))
    band = RIDGE_SHARE * float(np.ptp(crown.seen[:, 0]))
    return Plane((outline.proximal, 0.0, 0.0), end - band)


def _embrasure(crown: CrownFrame, outline: Outline, crest: float) -> Mesh | None:
    """Return where the metal turns down beyond a ridge of some height."""
    middle, half = float(np.mean(outline.corners[:, 1])), 0.5 * outline.width_mm
    part = facing(crown, 0, outline.proximal)
    for plane in (
        Plane((0.0, 0.0, -1.0), _TURNS_DOWN_MM - crest),
        Plane((0.0, 0.0, 1.0), crest - _DOWN_TO_MM),
        Plane((0.0, 1.0, 0.0), middle - half),
        Plane((0.0, -1.0, 0.0), -middle - half),
        _outer(crown, outline),
    ):
        part = cut(*part, plane)
    return placed_part(crown, *part)


def _crest(strip: tuple[Floats, Ints], outline: Outline) -> float:
    """Return how high the ridge is in the middle of the seat."""
    middle, quarter = float(np.mean(outline.corners[:, 1])), 0.25 * outline.width_mm
    central = cut(*strip, Plane((0.0, 1.0, 0.0), middle - quarter))
    central = cut(*central, Plane((0.0, -1.0, 0.0), -middle - quarter))
    points, faces = central if len(central[1]) else strip
    return float(points[faces][:, :, 2].max())


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

    normal = np.array(plane.normal)
    inside = ((points * normal).sum(axis=1) >= plane.least)[faces]
    whole = faces[inside.all(axis=1)]
    crossing = faces[inside.any(axis=1) & ~inside.all(axis=1)]
    if len(crossing) == 0:
        return points, whole
    found, triangles = slice_faces_plane(points, crossing, normal, plane.least * normal)[:2]
    both = np.concatenate([points, np.asarray(found, dtype=np.float64)])
    return both, np.concatenate([whole, np.asarray(triangles, np.int64) + len(points)])


def placed_part(crown: CrownFrame, points: Floats, faces: Ints) -> Mesh | None:
    """Return a part in the coordinates of its arch; None where nothing is left of it."""
    if len(faces) == 0:
        return None
    used, numbered = np.unique(faces, return_inverse=True)
    along, across, upward = points[used].T[:, :, None]
    placed = along * crown.mesial + across * crown.facial + upward * crown.up
    return mesh_of(placed + crown.tooth.centre, numbered.reshape(-1, 3))
