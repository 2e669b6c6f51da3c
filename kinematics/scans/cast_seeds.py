"""Seeds of teeth by the cast that they lie on, and what is doubtful about teeth told by them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals
from kinematics.geometry.poses import inverse, move_points
from kinematics.scans.crown_sizes import crown_size
from kinematics.scans.labels import face_labels
from kinematics.scans.picked_points import GUM_SEED, SEED, PickedPoint
from kinematics.scans.seeded_teeth import teeth_from_seeds
from kinematics.scans.settings import SIDES, Side
from kinematics.tooth_codes import is_upper

#: Teeth with a larger share of doubtful surface, or that take so much more or less of the arch than
#: usual, are to be looked at. Chosen for this program: twice what well parted crowns have, and
#: three times the published spread of widths (about 0.5 in 7 mm).
MOST_DOUBTFUL: Final = 0.10
_MOST_OFF: Final = 0.25


@dataclass(frozen=True)
class CastSeeds:
    """Seeds on one cast, in its own coordinates, mm.

    Attributes
    ----------
    teeth : dict of tooth number to ndarray, shape (k, 3)
    gum : ndarray, shape (g, 3)
    """

    teeth: dict[int, Floats]
    gum: Floats


@dataclass(frozen=True)
class ToldBySeeds:
    """Teeth of one cast by its seeds.

    Attributes
    ----------
    tooth_of_face : ndarray, shape (m,)
        ISO 3950 number, 0 for none.
    doubtful : ndarray, shape (m,)
        Triangles of which another tooth, or gum, is nearly as likely.
    tooth_of_vertex : ndarray, shape (n,)
        As `tooth_of_face`.
    doubts : tuple of ToothDoubt
        Teeth to be looked at.
    """

    tooth_of_face: Ints
    doubtful: Bools
    tooth_of_vertex: Ints
    doubts: tuple["ToothDoubt", ...]


@dataclass(frozen=True)
class ToothDoubt:
    """A tooth whose limits are not sure.

    Attributes
    ----------
    code : int
        ISO 3950 number.
    doubtful_share : float
        Of its surface.
    width_mm, usual_mm : float
        How much of the arch it takes, and what such crowns take on the whole.
    """

    code: int
    doubtful_share: float
    width_mm: float
    usual_mm: float

    @property
    def off(self) -> bool:
        """Whether it is much wider or narrower than usual."""
        return abs(self.width_mm / self.usual_mm - 1.0) > _MOST_OFF


def seeds_by_cast(points: Iterable[PickedPoint], bite: Floats) -> dict[Side, CastSeeds]:
    """Return the seeds of the casts that have any on teeth, each in its own coordinates.

    Parameters
    ----------
    points : iterable of PickedPoint
        In the coordinates of the upper scan, the jaw in MI.
    bite : ndarray, shape (4, 4)
        Motion of the lower scan into MI.
    """
    given = tuple(points)
    poses = {"upper": np.eye(4), "lower": inverse(bite)}
    found: dict[Side, CastSeeds] = {}
    for side in SIDES:
        teeth: dict[int, list[Floats]] = {}
        gum: list[Floats] = []
        for point in given:
            if point.tooth is None or is_upper(point.tooth) != (side == "upper"):
                continue
            at = move_points(poses[side], np.array([point.place]))[0]
            if point.point == SEED:
                teeth.setdefault(point.tooth, []).append(at)
            elif point.point == GUM_SEED:
                gum.append(at)
        if teeth:
            places = {code: np.array(at) for code, at in teeth.items()}
            found[side] = CastSeeds(places, np.array(gum).reshape(-1, 3))
    return found


def told_by_seeds(mesh: Mesh, seeds: CastSeeds) -> ToldBySeeds:
    """Part a cast among its teeth, and say what is doubtful.

    Raises
    ------
    InputError
        Seeds of too few teeth.
    """
    told = teeth_from_seeds(mesh, seeds.teeth, seeds.gum)
    faces = face_labels(told.tooth_of_vertex, mesh.faces)
    doubtful = np.asarray(told.doubtful[mesh.faces].any(axis=1))
    areas, _ = face_areas_normals(mesh)
    doubts = _doubts(faces, doubtful, areas, told.widths_mm)
    return ToldBySeeds(faces, doubtful, told.tooth_of_vertex, doubts)


def _doubts(
    teeth: Ints, doubtful: Bools, areas: Floats, widths_mm: Mapping[int, float]
) -> tuple[ToothDoubt, ...]:
    usual = {code: crown_size(code).mesiodistal_mm for code in widths_mm}
    scale = float(np.median([widths_mm[code] / usual[code] for code in usual]))
    found = []
    for code, width_mm in sorted(widths_mm.items()):
        own = teeth == code
        share = float(areas[own & doubtful].sum() / max(areas[own].sum(), 1e-12))
        doubt = ToothDoubt(code, share, width_mm, scale * usual[code])
        if share > MOST_DOUBTFUL or doubt.off or not own.any():
            found.append(doubt)
    return tuple(found)


def labels_of_scan(places: Floats, kept: Ints, told: Ints) -> Ints:
    """Return the tooth number of every vertex of a scan file from those of its cleaned mesh.

    Parameters
    ----------
    places : ndarray, shape (n, 3)
        Vertices of the file; those at one place are one.
    kept : ndarray, shape (k,)
        Of every vertex of the mesh its number in the file.
    told : ndarray, shape (k,)
        Of every vertex of the mesh its tooth number.
    """
    number = np.unique(places, axis=0, return_inverse=True)[1].reshape(-1)
    of_place = np.full(number.max() + 1, NO_TOOTH, dtype=np.int64)
    of_place[number[kept]] = told
    return np.asarray(of_place[number])
