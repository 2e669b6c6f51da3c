"""Records of centric relation: where they put maximal intercuspation, and how well they agree."""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from kinematics.checks import InputError, rigid_poses
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.guidance import Guidance
from kinematics.guidance.mandible import (
    GuidanceCoordinates,
    coordinates_of,
    place_at,
    pose_on_condyles,
)
from kinematics.scans.bites import bite_pose
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.scans.settings import ScanSettings

Vector = tuple[float, float, float]

KEY: Final = "scans.centric_records"
#: A condyle may stand this far beside its path in MI, mm. Chosen for this program: three times the
#: usual scatter of a record; farther, record, hinge axis and guidance do not belong together.
MOST_BESIDE_MM: Final = 1.0
#: What `maximal_intercuspation` accepts, mm.
MOST_ADVANCE_MM: Final = 5.0
MOST_SHIFT_MM: Final = 3.0
#: How far a record may hold the jaw open, degrees: beyond, the jaw no longer turns about the hinge
#: alone; closed farther than MI, teeth would stand in each other. Chosen for this program.
HELD_OPEN_DEG: Final = (-2.0, 15.0)
#: Below this, two records of one jaw do not differ: 12 digits of a matrix in a file, mm.
_DECIMALS: Final = 9

_DIRECTIONS: Final = (("forward", "backward"), ("to the left", "to the right"), ("up", "down"))


@dataclass(frozen=True)
class PlaceByRecord:
    """Where MI lies, from the place of the lower in a record of CR.

    Attributes
    ----------
    mi : GuidanceCoordinates
        MI along the paths, at opening 0, with what does not fit them.
    beside_right_mm, beside_left_mm : tuple of float
        From the place that the paths allow to where the record puts the condyle centre, hinge
        frame.
    held_open_deg : float
        Opening about the hinge axis in the record, from that of MI.
    """

    mi: GuidanceCoordinates
    beside_right_mm: Vector
    beside_left_mm: Vector
    held_open_deg: float


@dataclass(frozen=True)
class RecordScatter:
    """How a further record differs from the first, hinge frame.

    Attributes
    ----------
    number : int
        Which record, counted from 1.
    condyle_right_mm, condyle_left_mm : tuple of float
        From the condyle centre in the first record to that in this one.
    incisal_mm : tuple of float
        The same of the lower incisal point, both closed to the opening of MI about their axes.
    """

    number: int
    condyle_right_mm: Vector
    condyle_left_mm: Vector
    incisal_mm: Vector

    @property
    def largest_mm(self) -> float:
        """The longest of the three."""
        places = self.condyle_right_mm, self.condyle_left_mm, self.incisal_mm
        return max(math.hypot(*place) for place in places)


@dataclass(frozen=True)
class CentricRecords:
    """What the records of CR say of a case.

    Attributes
    ----------
    place : PlaceByRecord
        MI by the first record.
    held_open_mm : float
        How far that record held the jaw open, straight at the lower incisal point.
    others : tuple of RecordScatter
        The further records against the first.
    """

    place: PlaceByRecord
    held_open_mm: float
    others: tuple[RecordScatter, ...]

    @cached_property
    def scatter_mm(self) -> float:
        """The largest difference between the first record and another; 0 for a single one."""
        return max((other.largest_mm for other in self.others), default=0.0)


def centric_records(
    scans: ScanSettings, guidance: Guidance, incisal_point: Floats
) -> CentricRecords:
    """Read all records of CR of a case.

    Parameters
    ----------
    scans : ScanSettings
        With at least one record.
    guidance : Guidance
        Prepared guidance.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in lower coordinates, mm.

    Raises
    ------
    InputError
        See `place_by_record`.
    """
    place = place_by_record(scans, guidance)
    radius_mm = math.hypot(incisal_point[0], incisal_point[2])
    chord_mm = 2.0 * radius_mm * math.sin(0.5 * math.radians(place.held_open_deg))
    hinge = mounted_hinge(scans, guidance.reference_plane)
    first, *others = record_poses(scans)
    moves = [hinge @ other @ inverse(first) @ inverse(hinge) for other in others]
    return CentricRecords(
        place,
        chord_mm,
        tuple(
            _scatter(number, move, guidance, incisal_point)
            for number, move in enumerate(moves, start=2)
        ),
    )


def place_by_record(scans: ScanSettings, guidance: Guidance) -> PlaceByRecord:
    """Return where MI lies by the first record of CR.

    In the record the condyles are seated: their centres are those of the hinge frame. The motion
    of the lower from there to MI carries them to their places in MI.

    Parameters
    ----------
    scans : ScanSettings
        Mounting, bite and at least one record.
    guidance : Guidance
        Prepared guidance.

    Raises
    ------
    InputError
        Transforms that are not rigid; a place of MI that is none along these paths.
    """
    to_mi = _from_record_to_mi(scans, mounted_hinge(scans, guidance.reference_plane))
    found = coordinates_of(guidance, to_mi)
    # Rounded, so that a record in MI itself says "no advance" and not some rounding error.
    mi = GuidanceCoordinates(
        _rounded(found.advance_right_mm),
        _rounded(found.advance_left_mm),
        _rounded(found.shift_mm),
        0.0,
        found.residual_mm,
        found.residual_rad,
    )
    placed = place_at(guidance, found)
    wanted = move_points(to_mi, _centres(guidance.half_distance_mm))
    beside = wanted - np.stack([placed.condyle_right[0], placed.condyle_left[0]])
    place = PlaceByRecord(
        mi, _vector(beside[0]), _vector(beside[1]), -math.degrees(found.opening_rad)
    )
    _refuse_impossible(place)
    return place


def pose_by_record(scans: ScanSettings, reference_plane: str, half_distance_mm: float) -> Floats:
    """Return hinge_from_lower (4, 4) in MI, at opening 0, by the first record of CR alone.

    No condylar path is asked, so that it stays where it is when their settings change.

    Parameters
    ----------
    scans : ScanSettings
        Mounting, bite and at least one record.
    reference_plane : str
        Plane of the hinge frame.
    half_distance_mm : float
        Of each condyle centre from the midline.

    Raises
    ------
    InputError
        Transforms that are not rigid.
    """
    to_mi = _from_record_to_mi(scans, mounted_hinge(scans, reference_plane))
    right, left = move_points(to_mi, _centres(half_distance_mm))
    return np.asarray(pose_on_condyles(right[None], left[None])[0])


def direction_words(vector: Vector) -> tuple[tuple[float, str], ...]:
    """Return the parts of a vector of the hinge frame as sizes, mm, with the way they point."""
    return tuple(
        (abs(value), ahead if value >= 0.0 else back)
        for value, (ahead, back) in zip(vector, _DIRECTIONS, strict=True)
    )


def mounted_hinge(scans: ScanSettings, reference_plane: str) -> Floats:
    """Return hinge_from_scan (4, 4) of the mounting."""
    return nearest_rigid(hinge_from_scan(scans.mounting, reference_plane))


def _from_record_to_mi(scans: ScanSettings, hinge: Floats) -> Floats:
    """Return the motion (4, 4) of the lower from the first record to MI, in the hinge frame."""
    bite = nearest_rigid(bite_pose(scans.scan_from_lower))
    return nearest_rigid(hinge @ bite @ inverse(record_poses(scans)[0]) @ inverse(hinge))


def record_poses(scans: ScanSettings) -> Floats:
    """Return all records (n, 4, 4): lower scan to the coordinates of the upper."""
    return nearest_rigid(rigid_poses(np.array(scans.centric_records), KEY, (None, 4, 4)))


def nearest_rigid(pose: Floats) -> Floats:
    """Return the rigid motions (..., 4, 4) nearest to matrices that are so to some digits."""
    u, _, vt = np.linalg.svd(pose[..., :3, :3])
    rigid = pose.copy()
    rigid[..., :3, :3] = u @ vt
    return rigid


def _centres(half_distance_mm: float) -> Floats:
    """Return right and left condyle centre in CR, (2, 3)."""
    return np.array([[0.0, -half_distance_mm, 0.0], [0.0, half_distance_mm, 0.0]])


def _scatter(number: int, move: Floats, guidance: Guidance, incisal_point: Floats) -> RecordScatter:
    """Compare a record with the first: `move` (4, 4) leads the lower from that to this one."""
    seated = _centres(guidance.half_distance_mm)
    there = move_points(move, seated)
    closed = pose_on_condyles(there[:1], there[1:])[0]
    aside = move_points(closed, incisal_point[None])[0] - incisal_point
    right, left = there - seated
    return RecordScatter(number, _vector(right), _vector(left), _vector(aside))


def _vector(values: Floats) -> Vector:
    x, y, z = map(_rounded, values.tolist())
    return x, y, z


def _rounded(value: float) -> float:
    return round(value, _DECIMALS) + 0.0


def _refuse_impossible(place: PlaceByRecord) -> None:
    """Refuse a place of MI that no case can have.

    Raises
    ------
    InputError
        With what to look at.
    """
    mi, where = place.mi, f"{KEY}[0]"
    least, most = HELD_OPEN_DEG
    if not least <= place.held_open_deg <= most:
        way = "open" if place.held_open_deg > 0.0 else "closed beyond maximal intercuspation"
        raise InputError(
            f"{where}: holds the jaw {abs(place.held_open_deg):.1f} degrees {way}; accepted are "
            f"{least:g} to {most:g}. Does it move the lower scan, in the coordinates of the upper, "
            "as scan_from_lower does, and is scan_from_lower right?"
        )
    for side, advance_mm in (("right", mi.advance_right_mm), ("left", mi.advance_left_mm)):
        if advance_mm > MOST_ADVANCE_MM:
            raise InputError(
                f"{where}: puts the {side} condyle {advance_mm:.2f} mm ahead of centric relation "
                f"in maximal intercuspation; accepted are 0 to {MOST_ADVANCE_MM:g} mm. Is it a "
                "record of centric relation, not a protrusive one?"
            )
    if abs(mi.shift_mm) > MOST_SHIFT_MM:
        raise InputError(
            f"{where}: puts the jaw {abs(mi.shift_mm):.2f} mm to the side in maximal "
            f"intercuspation; accepted are 0 to {MOST_SHIFT_MM:g} mm. Check the record"
        )
    if mi.residual_mm > MOST_BESIDE_MM:
        sides = (("right", place.beside_right_mm), ("left", place.beside_left_mm))
        told = "; ".join(
            f"the {side} one by {math.hypot(*vector):.2f} mm ("
            + ", ".join(f"{size:.2f} {way}" for size, way in direction_words(vector))
            + ")"
            for side, vector in sides
        )
        raise InputError(
            f"{where}: from this record the condyles stand beside their paths in maximal "
            f"intercuspation: {told}; accepted are {MOST_BESIDE_MM:g} mm. Check the record, "
            "scan_from_lower and the mounting; backward means that the condyles were not seated in "
            "the record; for movement to the side guidance.right or guidance.left needs an "
            "immediate_shift_mm"
        )
