"""Where the lower stands in a record that was scanned: the scan brought onto both casts."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh, joined, moved_mesh
from kinematics.geometry.poses import inverse, move_points
from kinematics.records.settings import ScanShows
from kinematics.scans.fine_registration import FinePlace
from kinematics.scans.registration_target import Target, target_of
from kinematics.scans.scan_search import (
    LEAST_SHARE,
    CastTarget,
    Found,
    SoughtScan,
    find_on,
    likely_places,
    sought_scan,
)

#: A record that moves no tooth farther than this from MI, mm, is the bite itself. Chosen for this
#: program: it says nothing of any path.
LEAST_MOVE_MM: Final = 0.5
#: A record held less firmly than this, standard errors at the teeth, is refused. Chosen for this
#: program: 0.3 degrees put a condyle off by about half a millimetre, more than records of centric
#: relation differ by (see `RecordFitting`).
MOST_TURN_ERROR_DEG: Final = 0.3
MOST_SHIFT_ERROR_MM: Final = 0.1


@dataclass(frozen=True)
class BittenCasts:
    """Both casts as they bite, on which records are sought.

    Attributes
    ----------
    upper : CastTarget
        In the coordinates of the upper scan.
    lower : CastTarget
        In its own.
    both : Target
        Both in MI, in the coordinates of the upper.
    bite : ndarray, shape (4, 4)
        Where the lower scan stands in MI.
    """

    upper: CastTarget
    lower: CastTarget
    both: Target
    bite: Floats


@dataclass(frozen=True)
class ScannedRecord:
    """What a scan says of where the lower stands.

    Attributes
    ----------
    from_lower : ndarray, shape (4, 4)
        The transform that moves the lower scan there in the coordinates of the upper.
    upper : FinePlace or None
        Where the scan lies on the upper cast; None where it shows the lower arch alone.
    lower : FinePlace
        The same of the lower.
    """

    from_lower: Floats
    upper: FinePlace | None
    lower: FinePlace

    @property
    def places(self) -> tuple[FinePlace, ...]:
        """Upper, if there is one, and lower."""
        return (self.lower,) if self.upper is None else (self.upper, self.lower)

    @property
    def residual_mm(self) -> float:
        """How far what lies on the casts lies off, root mean square of both."""
        counts = np.array([place.on.sum() for place in self.places], dtype=np.float64)
        squares = np.array([place.residual_mm**2 for place in self.places])
        return float(np.sqrt((counts * squares).sum() / counts.sum()))

    @property
    def turn_error_deg(self) -> float:
        """Standard error of how the lower is turned, about the axis that is held least."""
        return float(np.hypot.reduce([place.turn_error_deg for place in self.places]))

    @property
    def shift_error_mm(self) -> float:
        """Standard error of where the lower stands, at its teeth, the way that is held least."""
        return float(np.hypot.reduce([place.shift_error_mm for place in self.places]))


def bitten_casts(upper: tuple[Mesh, Mesh], lower: tuple[Mesh, Mesh], bite: Floats) -> BittenCasts:
    """Prepare both casts, each whole and its teeth alone, mm, in coordinates of their own scans."""
    both = target_of(joined([upper[0], moved_mesh(lower[0], bite)]))
    targets = [CastTarget(target_of(whole), target_of(teeth)) for whole, teeth in (upper, lower)]
    return BittenCasts(targets[0], targets[1], both, bite)


def scanned_record(
    casts: BittenCasts, mesh: Mesh, shows: ScanShows, where: str, progress: Callable[[str], None]
) -> ScannedRecord:
    """Find where the lower stands in a scanned record.

    Parameters
    ----------
    casts : BittenCasts
        Both casts.
    mesh : Mesh
        The record, cleaned, mm: of both arches in any coordinates, or of the lower arch in those
        of the upper scan.
    shows : "both arches" or "lower arch"
        Which of both.
    where : str
        What to call the record in a message.
    progress : callable
        Gets the name of every step when it begins.

    Raises
    ------
    InputError
        The scan does not lie on the casts, in more than one way, or not firmly; or it shows MI.
    """
    scan = sought_scan(mesh)
    if shows == "lower arch":
        progress("finding the lower arch in it")
        lower = _lower(casts, scan, np.eye(4))
        if not lower.lies_on:
            raise InputError(
                f"{where}: does not lie on the lower cast within {_REACH}: {share_words(lower)}."
                " Does it show the lower arch of this patient, in the coordinates of the upper"
                " scan?"
            )
        return _checked(casts, None, lower, where)
    upper, lower = _both_arches(casts, scan, progress)
    if not upper.lies_on or not lower.lies_on:
        raise InputError(f"{where}: {_what_it_is(casts, mesh, scan, upper, lower)}")
    return _checked(casts, upper, lower, where)


def _both_arches(
    casts: BittenCasts, scan: SoughtScan, progress: Callable[[str], None]
) -> tuple[Found, Found]:
    """Find a scan on both casts: on one wherever it is, then on the other near its bite.

    First as it lies, in the coordinates of the upper scan; then wherever the whole lies on both
    casts in MI, or a part of it on one of them.
    """
    progress("finding both arches in it")
    upper = _upper(casts, scan, np.eye(4)[None])
    if not upper.lies_on:
        progress("finding both arches in it, whatever its coordinates")
        upper = _upper(casts, scan, likely_places(casts.both, scan))
    if not upper.lies_on:
        upper = _upper(casts, scan, likely_places(casts.upper.whole, scan))
    if upper.lies_on:
        assert upper.best is not None
        return upper, _lower(casts, scan.without(upper.best.on), upper.best.pose)
    progress("finding the lower arch in it, whatever its coordinates")
    lower = _lower_anywhere(casts, scan)
    if not lower.lies_on:
        return upper, lower
    assert lower.best is not None
    near = (casts.bite @ lower.best.pose)[None]
    return find_on(casts.upper, scan.without(lower.best.on), near, turned=True), lower


_REACH: Final = "8 mm of its bite"


def _upper(casts: BittenCasts, scan: SoughtScan, likely: Floats) -> Found:
    return find_on(casts.upper, scan, likely)


def _lower_anywhere(casts: BittenCasts, scan: SoughtScan) -> Found:
    return find_on(casts.lower, scan, likely_places(casts.lower.whole, scan))


def _lower(casts: BittenCasts, scan: SoughtScan, upper_from_scan: Floats) -> Found:
    in_mi = inverse(casts.bite) @ upper_from_scan
    return find_on(casts.lower, scan, in_mi[None], turned=True)


def _what_it_is(
    casts: BittenCasts, mesh: Mesh, scan: SoughtScan, upper: Found, lower: Found
) -> str:
    """Say of a scan that does not lie on both casts what it is, as far as that can be told."""
    if lower.lies_on:
        return (
            "shows the lower arch alone, so that nothing tells where it stands to the upper one."
            " Scan both in the record; or, if this scan lies in the coordinates of the upper scan,"
            ' say so with scan_shows = "lower arch"'
        )
    if upper.lies_on:
        return (
            f"lies on the upper cast, but nothing of it on the lower one near its bite:"
            f" {share_words(lower)}. Does it show both arches?"
        )
    turned = sought_scan(Mesh(mesh.vertices * np.array([1.0, 1.0, -1.0]), mesh.faces))
    if _upper(casts, turned, likely_places(casts.both, turned)).lies_on:
        return "is mirrored: turned inside out it lies on the upper cast. Export it again"
    return (
        f"lies on neither cast: of the upper one, {share_words(upper)}. Is it a scan of this"
        " patient, with teeth of both arches, in the unit of scans.units? Of a few teeth alone the"
        " place is found only in the coordinates of the upper scan"
    )


def share_words(found: Found) -> str:
    """Return how little of a scan lies on a cast."""
    share = 0.0 if found.best is None else found.best.share
    return (
        f"in the best place found {100.0 * share:.0f} % of what lies beside its teeth lies on them,"
        f" {100.0 * LEAST_SHARE:.0f} % are needed"
    )


def _checked(casts: BittenCasts, upper: Found | None, lower: Found, where: str) -> ScannedRecord:
    record = firmly_found(upper, lower, where)
    _refuse_bite(casts, record, where)
    return record


def firmly_found(upper: Found | None, lower: Found, where: str) -> ScannedRecord:
    """Return where the lower stands by a scan that lies on the casts, in one way and firmly.

    Parameters
    ----------
    upper, lower : Found or None, Found
        Where it lies on each cast; no upper one if it stands in the coordinates of that.
    where : str
        What to call it in a message.

    Raises
    ------
    InputError
        It lies there in several ways, or loosely.
    """
    for arch, found in (("upper", upper), ("lower", lower)):
        if found is not None and found.as_good_mm > 0.0:
            raise InputError(
                f"{where}: lies on the {arch} cast in two places equally well,"
                f" {found.as_good_mm:.1f} mm apart. Scan more of the teeth, on both sides"
            )
    assert lower.best is not None
    above = None if upper is None else upper.best
    to_upper = np.eye(4) if above is None else above.pose
    record = ScannedRecord(to_upper @ inverse(lower.best.pose), above, lower.best)
    if not all(place.settled for place in record.places):
        raise InputError(f"{where}: came to no rest on the casts. Scan more of the teeth")
    _refuse_loose(record, where)
    return record


def _refuse_loose(record: ScannedRecord, where: str) -> None:
    turn_deg, shift_mm = record.turn_error_deg, record.shift_error_mm
    if turn_deg > MOST_TURN_ERROR_DEG or shift_mm > MOST_SHIFT_ERROR_MM:
        raise InputError(
            f"{where}: too little of the teeth lies on the casts to hold it: standard errors of"
            f" {turn_deg:.2g} degrees and {shift_mm:.2g} mm; accepted are"
            f" {MOST_TURN_ERROR_DEG:g} degrees and {MOST_SHIFT_ERROR_MM:g} mm. Scan teeth on both"
            " sides and in front"
        )


def _refuse_bite(casts: BittenCasts, record: ScannedRecord, where: str) -> None:
    teeth = casts.lower.teeth.surface.points
    moved = move_points(record.from_lower, teeth) - move_points(casts.bite, teeth)
    most_mm = float(np.linalg.norm(moved, axis=1).max())
    if most_mm < LEAST_MOVE_MM:
        raise InputError(
            f"{where}: shows the casts in maximal intercuspation: no lower tooth stands farther"
            f" than {most_mm:.2f} mm from its place there, at least {LEAST_MOVE_MM:g} mm are"
            " needed. Give the scan of the record, not that of the bite"
        )
