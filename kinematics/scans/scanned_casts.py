"""From two scan files to two arches in the hinge frame, the jaw in MI, and how that was done."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np

from kinematics.casts.cast_bodies import GUM, CastBody
from kinematics.casts.casts import NO_TOOTH, Arch
from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals, moved_mesh, part_of
from kinematics.geometry.poses import move_points
from kinematics.scans.bites import apart_mm, bite_doubt, bite_pose
from kinematics.scans.cast_seeds import CastSeeds, seeds_by_cast
from kinematics.scans.cleaning import Cleaned, cleaned
from kinematics.scans.cleaning_report import CleaningReport
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.scans.let_in import SeatingRecord
from kinematics.scans.lower_landmarks import FARTHEST_MM, check_landmarks, lower_landmarks
from kinematics.scans.mean_values import MeanValue, mean_values
from kinematics.scans.picked_points import PickedPoint, points_of
from kinematics.scans.point_places import check_on_casts
from kinematics.scans.rims import Rims, rims_of
from kinematics.scans.scan import Scan
from kinematics.scans.scan_files import read_scan
from kinematics.scans.scan_labels import LabelRecord, refuse_untold, tooth_of_face
from kinematics.scans.settings import SIDES, MountingKind, ScanFiles, ScanSettings, Side
from kinematics.scans.standing import check_standing, tooth_middles
from kinematics.scans.tooth_landmarks import landmarks_of_teeth
from kinematics.scans.units import in_millimetres

#: Which way crowns point in the hinge frame.
_TOWARDS_OTHER: Final[dict[Side, float]] = {"upper": -1.0, "lower": 1.0}


@dataclass(frozen=True)
class ScanRecord:
    """Where one arch came from.

    Attributes
    ----------
    file, kind, sha256 : str
        Name of the file, what it was read as, and its fingerprint.
    triangles : int
        How many it holds.
    cleaning : CleaningReport
        What was done to them.
    labels : LabelRecord
        Where the tooth numbers came from, and what was mended about them.
    guessed : dict of tooth number to tuple of str
        Cusps that could not be told and were put at the highest place of their part of the crown.
    """

    file: str
    kind: str
    sha256: str
    triangles: int
    cleaning: CleaningReport
    labels: LabelRecord
    guessed: dict[int, tuple[str, ...]]


@dataclass(frozen=True)
class ScansRecord:
    """Where both arches came from, and how they were mounted.

    Attributes
    ----------
    upper, lower : ScanRecord
        The two files.
    mounting : "transform", "hinge axis" or "mean values"
        How the hinge frame was found.
    hinge_from_scan : ndarray, shape (4, 4)
        Pose that brought the coordinates of the upper scan into it.
    by_bite_record : bool
        Whether the lower cast was moved into MI by a bite record; else MI is as scanned.
    seating : SeatingRecord or None
        How they were seated there; None before that.
    rest_mm : float
        By how much the casts, closed about the hinge, then meet before that bite, at the incisal
        point; negative where they close beyond it.
    mean_values : tuple of MeanValue
        What people may differ from; none unless mounted by mean values.
    points : tuple of PickedPoint
        What was picked on the casts, in the coordinates of the upper scan.
    """

    upper: ScanRecord
    lower: ScanRecord
    mounting: MountingKind
    hinge_from_scan: Floats
    by_bite_record: bool
    seating: SeatingRecord | None = None
    rest_mm: float = 0.0
    mean_values: tuple[MeanValue, ...] = ()
    points: tuple[PickedPoint, ...] = ()

    @property
    def guessed(self) -> dict[int, tuple[str, ...]]:
        """Cusps of both casts that could not be told, by tooth number."""
        return {**self.upper.guessed, **self.lower.guessed}


@dataclass(frozen=True)
class ScannedCasts:
    """Both casts, mounted.

    Attributes
    ----------
    upper, lower : Arch
        In the hinge frame, the jaw in MI as scanned or recorded. Gums are bodies, and take no part
        in contacts.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in the hinge frame, mm.
    record : ScansRecord
        Where they came from.
    rims : dict of "upper" and "lower" to Rims
        Open edges of their crowns.
    """

    upper: Arch
    lower: Arch
    incisal_point: Floats
    record: ScansRecord
    rims: dict[Side, Rims]


def scanned_casts(
    scans: ScanSettings, reference_plane: str, progress: Callable[[str], None]
) -> ScannedCasts:
    """Read, clean, label and mount both scans.

    Parameters
    ----------
    scans : ScanSettings
        Files and mounting; relative names are taken from the current folder.
    reference_plane : str
        Plane of the hinge frame.
    progress : callable
        Gets the name of the step when it begins.

    Raises
    ------
    InputError
        Files that cannot be read, or do not hold two labelled arches that stand as in a mouth.
    """
    hinge = hinge_from_scan(scans.mounting, reference_plane)
    bite = bite_pose(scans.scan_from_lower)
    poses = {"upper": hinge, "lower": hinge @ bite}
    casts = {side: read_cast(scans, side, progress) for side in SIDES}
    placed = {side: moved_mesh(casts[side].cleaned.mesh, poses[side]) for side in SIDES}
    points = points_of(scans)
    _check_bite(placed, scans.scan_from_lower is not None)
    check_on_casts(points, placed, hinge, {})
    read = labelled_casts(casts, scans, progress, seeds_by_cast(points, bite))
    check_on_casts(points, placed, hinge, {side: read[side].codes for side in SIDES})
    middles = [tooth_middles(placed[side], read[side].codes) for side in SIDES]
    check_standing(*middles)
    found = {side: _arch_of(read[side], placed[side], side, progress) for side in SIDES}
    (upper, upper_record), (lower, lower_record) = found["upper"], found["lower"]
    record = ScansRecord(
        upper_record,
        lower_record,
        scans.mounting.kind,
        hinge,
        scans.scan_from_lower is not None,
        mean_values=mean_values(scans.mounting),
        points=points,
    )
    rims = {side: rims_of(cast.mesh.faces, cast.codes != NO_TOOTH) for side, cast in read.items()}
    return ScannedCasts(upper, lower, _incisal_point(scans, lower, hinge), record, rims)


def _check_bite(placed: Mapping[Side, Mesh], by_record: bool) -> None:
    """Demand that casts are near enough to bite on each other."""
    doubt = bite_doubt(apart_mm(placed["upper"], placed["lower"]), by_record=by_record)
    if doubt:
        raise InputError(f"scans.scan_from_lower: {doubt}")


@dataclass(frozen=True)
class CleanCast:
    """One scan as read and cleaned, in its own coordinates.

    Attributes
    ----------
    scan : Scan
        The file.
    cleaned : Cleaned
        What cleaning left of it, mm.
    """

    scan: Scan
    cleaned: Cleaned


@dataclass(frozen=True)
class LabelledCast:
    """One cleaned scan whose teeth are known, in its own coordinates.

    Attributes
    ----------
    scan : Scan
        The file.
    cleaned : Cleaned
        Its triangles, mm.
    codes : ndarray, shape (m,)
        Tooth number of every triangle, 0 for none.
    labels : LabelRecord
        Where they came from.
    """

    scan: Scan
    cleaned: Cleaned
    codes: Ints
    labels: LabelRecord

    @property
    def mesh(self) -> Mesh:
        """The cleaned triangles."""
        return self.cleaned.mesh


def read_cast(files: ScanFiles, side: Side, progress: Callable[[str], None]) -> CleanCast:
    """Read and clean one scan.

    Raises
    ------
    InputError
        A file that cannot be used.
    """
    path = Path(getattr(files, side))
    progress(f"reading {path.name}, the {side} cast")
    scan = read_scan(path)
    return CleanCast(scan, cleaned(scan, in_millimetres(scan.vertices, files.units, scan.name)))


def labelled_casts(
    casts: Mapping[Side, CleanCast],
    files: ScanFiles,
    progress: Callable[[str], None],
    seeds: Mapping[Side, CastSeeds],
) -> dict[Side, LabelledCast]:
    """Tell the teeth of both casts.

    Parameters
    ----------
    casts : mapping of side to CleanCast
        As read and cleaned.
    files : ScanFiles
        What says where labels are.
    progress : callable
        Gets the name of the step when it begins.
    seeds : mapping of side to CastSeeds
        Of the casts that have any; they tell the teeth where nothing else does.

    Raises
    ------
    NoLabels
        Nothing says of one or both which triangle belongs to which tooth.
    InputError
        What says it cannot be used.
    """
    refuse_untold({side: cast.scan for side, cast in casts.items()}, files, tuple(seeds))
    told = {}
    for side, cast in casts.items():
        progress(f"telling the {side} teeth")
        codes, labels = tooth_of_face(cast.scan, cast.cleaned, files, side, seeds.get(side))
        told[side] = LabelledCast(cast.scan, cast.cleaned, codes, labels)
    return told


def _arch_of(
    cast: LabelledCast, mesh: Mesh, side: Side, progress: Callable[[str], None]
) -> tuple[Arch, ScanRecord]:
    """Make a cast, placed in the hinge frame, into an arch."""
    progress(f"finding the landmarks of the {side} teeth")
    crowns, codes, gums = parted(mesh, cast.codes, side)
    scan = cast.scan
    found = landmarks_of_teeth(crowns, codes, side, scan.name)
    record = ScanRecord(
        scan.name,
        scan.kind,
        scan.sha256,
        len(scan.faces),
        cast.cleaned.report,
        cast.labels,
        found.guessed,
    )
    return Arch(crowns, codes, found.teeth, gums), record


def parted(mesh: Mesh, codes: Ints, side: Side) -> tuple[Mesh, Ints, CastBody | None]:
    """Return the crowns of a placed cast, facing the other arch, their numbers, and the gums.

    Parameters
    ----------
    mesh : Mesh
        One cast, z superior.
    codes : ndarray, shape (m,)
        Tooth number of every triangle, 0 for none.
    side : "upper" or "lower"
        Which arch it is.
    """
    mesh = facing_out(mesh, codes, side)
    gum = codes == NO_TOOTH
    gums = _gums(part_of(mesh, gum)[0]) if gum.any() else None
    return part_of(mesh, ~gum)[0], codes[~gum], gums


def _gums(mesh: Mesh) -> CastBody:
    return CastBody(mesh, np.full(len(mesh.faces), GUM, dtype=np.int64))


def facing_out(mesh: Mesh, codes: Ints | None, side: Side) -> Mesh:
    """Return a placed cast wound so that its crowns, or all of it, face the other arch."""
    areas, normals = face_areas_normals(mesh)
    crowns = slice(None) if codes is None else codes != NO_TOOTH
    if _TOWARDS_OTHER[side] * float((areas * normals[:, 2])[crowns].sum()) >= 0.0:
        return mesh
    return Mesh(mesh.vertices, np.ascontiguousarray(mesh.faces[:, ::-1]))


def _incisal_point(scans: ScanSettings, lower: Arch, hinge: Floats) -> Floats:
    """Return the lower incisal point in the hinge frame: as given, or between 31 and 41.

    Raises
    ------
    InputError
        It is not given and neither tooth is there; landmarks are given that lie elsewhere.
    """
    named = (p for p in points_of(scans) if p.point in FARTHEST_MM)
    given = {p.point: np.asarray(move_points(hinge, np.array([p.place]))[0]) for p in named}
    found = lower_landmarks(lower.teeth)
    check_landmarks(given, found)
    point = given.get("lower_incisal_point", given.get("incisal_point", found.incisal_point))
    if point is None:
        raise InputError(
            "scans.lower_incisal_point: missing; the lower cast has neither 31 nor 41, so give the "
            "point between them, in the coordinates of the scans, mm"
        )
    return point
