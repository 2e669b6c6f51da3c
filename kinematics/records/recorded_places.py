"""Where interocclusal records put the condyles, whichever way the records are given."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.spatial.transform import Rotation

from kinematics.checks import InputError, rigid_poses
from kinematics.conventions import LEFT, RIGHT, Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.guidance import Guidance
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.records.guided_condyles import condyles_in_mi
from kinematics.records.point_pairs import PairedMotion, paired_motion
from kinematics.records.settings import (
    KEY,
    InterocclusalRecord,
    RecordFitting,
    RecordKind,
    ScanRegistration,
)
from kinematics.scans.bites import bite_pose
from kinematics.scans.centric_records import mounted_hinge, nearest_rigid, record_poses
from kinematics.scans.settings import ScanSettings

#: The side whose condyle goes ahead alone: nonworking; none in protrusion.
NONWORKING: Final[dict[RecordKind, int]] = {
    "protrusive": 0,
    "right lateral": LEFT,
    "left lateral": RIGHT,
}
#: No condyle goes farther than the longest path that can be set, mm.
_MOST_MM: Final = 25.0
#: A condyle may stand this far behind CR, mm: by the error of a record where it advances; where it
#: works by retrusion too, up to 1.5 mm (Guichet; common practice). Chosen for this program.
_MOST_BEHIND_MM: Final = {"advancing": 1.0, "working": 3.0}
#: A record turns the jaw by less than this, degrees: the hinge opening ends at about 12 (common
#: practice). Chosen for this program.
_MOST_TURN_DEG: Final = 30.0
_SIDES: Final = (("right", RIGHT), ("left", LEFT))


@dataclass(frozen=True)
class RecordedPlace:
    """Where one record puts the lower.

    Attributes
    ----------
    number : int
        Which record, counted from 1.
    kind : RecordKind
        Which way the jaw went.
    motion : ndarray, shape (4, 4)
        Of the lower in the hinge frame, to its place in the record.
    from_mi : bool
        That motion begins in MI; else in CR.
    about : ndarray, shape (3,)
        Where its teeth are, hinge frame, mm.
    pairs : PairedMotion or None
        What the motion was found from; None where a transform was given.
    registration : ScanRegistration or None
        How that transform was found, if from a scan.
    """

    number: int
    kind: RecordKind
    motion: Floats
    from_mi: bool
    about: Floats
    pairs: PairedMotion | None = None
    registration: ScanRegistration | None = None

    def fitting(self, usual: RecordFitting) -> RecordFitting:
        """Return how this record scatters: as usual, or as loosely as its scan is held."""
        held = self.registration
        if held is None:
            return usual
        return replace(
            usual,
            translation_scatter_mm=max(usual.translation_scatter_mm, held.translation_error_mm),
            rotation_scatter_deg=max(usual.rotation_scatter_deg, held.rotation_error_deg),
        )

    @property
    def nonworking(self) -> int:
        """RIGHT, LEFT, or 0 in protrusion."""
        return NONWORKING[self.kind]


def recorded_places(
    records: Sequence[InterocclusalRecord],
    fitting: RecordFitting,
    scans: ScanSettings | None,
    reference_plane: str,
) -> tuple[RecordedPlace, ...]:
    """Return where every record puts the lower, in the hinge frame.

    Records whose scan was not yet brought onto the casts are left out.

    Parameters
    ----------
    records, fitting : sequence of InterocclusalRecord, RecordFitting
        Of the case.
    scans : ScanSettings or None
        Mounting, bite and records of CR; None for built-in teeth.
    reference_plane : str
        Plane of the hinge frame.

    Raises
    ------
    InputError
        Transforms that are not rigid, pairs of points that give no motion, or a scan without
        scanned casts.
    """
    for number, record in enumerate(records):
        if record.awaits_scan and scans is None:
            raise InputError(
                f"{KEY}[{number}].scan: built-in teeth were not scanned, so that no scan of a"
                " record fits them; give a transform or pairs of points"
            )
    return tuple(
        _built_in(number, record, fitting)
        if scans is None
        else _scanned(number, record, fitting, scans, mounted_hinge(scans, reference_plane))
        for number, record in enumerate(records, start=1)
        if not record.awaits_scan
    )


def centres_in_records(
    places: Sequence[RecordedPlace], guidance: Guidance, mi: GuidanceCoordinates, jaws: int = 1
) -> Floats:
    """Return where records put the condyle centres, right and left, (k, n, 2, 3), hinge frame.

    Parameters
    ----------
    places : sequence of RecordedPlace
        The n records.
    guidance : Guidance
        Says where the condyles stand in MI, for records that begin there.
    mi : GuidanceCoordinates
        MI along the paths.
    jaws : int
        k, if guidance is that of several jaws.
    """
    half_mm = guidance.half_distance_mm
    in_cr = np.array([[0.0, -half_mm, 0.0], [0.0, half_mm, 0.0]])
    begins_in_mi = any(place.from_mi for place in places)
    in_mi = condyles_in_mi(guidance, mi, jaws) if begins_in_mi else in_cr[None]
    begins = [in_mi if place.from_mi else in_cr[None] for place in places]
    moved = [move_points(place.motion, at) for place, at in zip(places, begins, strict=True)]
    return np.stack([np.broadcast_to(at, (jaws, 2, 3)) for at in moved], axis=1)


def refuse_impossible(places: Sequence[RecordedPlace], centres: Floats) -> None:
    """Refuse records that no jaw can have left.

    Parameters
    ----------
    places : sequence of RecordedPlace
        The records.
    centres : ndarray, shape (n, 2, 3)
        Where they put the condyle centres.

    Raises
    ------
    InputError
        With what to look at.
    """
    for place, moved in zip(places, centres, strict=True):
        half_mm = 0.5 * float(np.linalg.norm(moved[1] - moved[0]))
        moves = moved - np.array([[0.0, -half_mm, 0.0], [0.0, half_mm, 0.0]])
        where = f"{KEY}[{place.number - 1}] ({place.kind})"
        turn_deg = float(np.degrees(Rotation.from_matrix(place.motion[:3, :3]).magnitude()))
        if turn_deg > _MOST_TURN_DEG:
            raise InputError(
                f"{where}: turns the jaw by {turn_deg:.0f} degrees; accepted are up to"
                f" {_MOST_TURN_DEG:g}. Does it move the lower, in the right coordinates?"
            )
        for (side, sign), move in zip(_SIDES, moves, strict=True):
            _refuse_move(where, side, move, works=place.nonworking == -sign)
        if place.nonworking:
            ahead = moves[:, 0] if place.nonworking == LEFT else moves[::-1, 0]
            if ahead[0] >= ahead[1]:
                raise InputError(
                    f"{where}: the condyle of the working side goes as far forward as the other"
                    f" ({ahead[0]:.2f} and {ahead[1]:.2f} mm); is its kind right?"
                )


def _refuse_move(where: str, side: str, move: Floats, works: bool) -> None:
    far_mm, behind_mm = float(np.linalg.norm(move)), -float(move[0])
    most_behind_mm = _MOST_BEHIND_MM["working" if works else "advancing"]
    if far_mm > _MOST_MM:
        raise InputError(
            f"{where}: moves the {side} condyle {far_mm:.1f} mm from centric relation; accepted are"
            f" up to {_MOST_MM:g} mm. Does it move the lower, in the right coordinates?"
        )
    if behind_mm > most_behind_mm:
        raise InputError(
            f"{where}: puts the {side} condyle {behind_mm:.1f} mm behind centric relation; accepted"
            f" are up to {most_behind_mm:g} mm. Check the record, its kind, and the mounting"
        )


def _built_in(number: int, record: InterocclusalRecord, fitting: RecordFitting) -> RecordedPlace:
    """Read a record of built-in teeth, whose coordinates are those of the hinge frame."""
    if record.transform is not None:
        motion = _given_motion(number, record)
        return RecordedPlace(number, record.kind, motion, False, np.array(fitting.scatter_about_mm))
    pairs = _paired(number, record)
    return RecordedPlace(number, record.kind, pairs.motion, True, pairs.middle, pairs)


def _scanned(
    number: int,
    record: InterocclusalRecord,
    fitting: RecordFitting,
    scans: ScanSettings,
    hinge: Floats,
) -> RecordedPlace:
    """Read a record of scanned casts: from CR where that is recorded, else from MI."""
    bite = nearest_rigid(bite_pose(scans.scan_from_lower))
    pairs = None
    about = np.array(fitting.scatter_about_mm)
    if record.transform is None:
        pairs = _paired(number, record)
        there = pairs.motion @ bite
        about = move_points(hinge, pairs.middle[None])[0]
    else:
        there = _given_motion(number, record)
    from_mi = not scans.centric_records
    start = bite if from_mi else record_poses(scans)[0]
    motion = nearest_rigid(hinge @ there @ inverse(start) @ inverse(hinge))
    return RecordedPlace(number, record.kind, motion, from_mi, about, pairs, record.registration)


def _given_motion(number: int, record: InterocclusalRecord) -> Floats:
    given = np.array(record.transform)
    return nearest_rigid(rigid_poses(given, f"{KEY}[{number - 1}].transform", (4, 4)))


def _paired(number: int, record: InterocclusalRecord) -> PairedMotion:
    before, after = np.array(record.points_in_mi), np.array(record.points_in_record)
    return paired_motion(before, after, f"{KEY}[{number - 1}]")
