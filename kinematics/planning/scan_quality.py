"""What mounting, bite and meshes of scanned casts are worth for the findings, in a line each."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from kinematics.conventions import TOLD_IF_SET
from kinematics.geometry.meshes import Mesh
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.rim_contacts import RimShare
from kinematics.planning.stops import Stop, bare_sides
from kinematics.planning.wording import enumeration, length
from kinematics.scans.edges import edges_of
from kinematics.scans.scanned_casts import ScansRecord
from kinematics.scans.scanned_surfaces import ScannedSurfaces
from kinematics.scans.settings import MountingKind

#: Radii of curvature of cusps, mm, at which is told what a mesh leaves out. Chosen for this
#: program: tips, and the slopes beside them.
_RADII_MM: Final = (1.0, 2.0)
#: How the casts were mounted, what error that may make, and whether it limits what is found; the
#: sources stand in the section on scans.
_MOUNTINGS: Final[dict[MountingKind, tuple[str, str]]] = {
    "transform": (
        "given as a transform; its error is not known here",
        "limits the findings by as much as it is off",
    ),
    "hinge axis": (
        "by points of the hinge axis; an axis 5 mm off makes an error of about 0.27 mm at a second"
        " molar when a record 3 mm thick is closed",
        "limits findings that rest on less",
    ),
    "mean values": (
        "by mean values; one person in ten has an error of 0.44 mm or more at the second molar when"
        " a record 2 mm thick is closed",
        "limits the findings: no measurement of this patient",
    ),
}
_ALL_TOPS: Final = "every cusp has a top of its own"
_NO_LIMIT: Final = "does not limit the findings"
#: Three stops at least hold two casts steady on each other (geometry: a plane has three points).
_LEAST_STOPS: Final = 3


@dataclass(frozen=True)
class QualityLine:
    """One thing that findings rest on.

    Attributes
    ----------
    name : str
        What it is.
    text : str
        How it is, with figures and units.
    meaning : str
        Whether it limits the findings, in words.
    limits : bool
        The same.
    """

    name: str
    text: str
    meaning: str
    limits: bool


@dataclass(frozen=True)
class ScanQuality:
    """What findings on scanned casts rest on.

    Attributes
    ----------
    edge_mm : (float, float)
        Median length of the edges of the upper and of the lower crowns.
    roughness_mm : (float, float)
        By how much vertices usually differ from the surface around them, upper and lower.
    closing_contacts, on_rims : int
        Contacts that end the closure in the poses of all excursions, and those of them on a rim.
    stops, stops_on_rims : int
        Centric stops, and those of them on a rim.
    guessed_landmarks : int
        Cusps that could not be told and were put where such a cusp usually stands.
    lines : tuple of QualityLine
        What that means.
    first_step : str
        What to do before anything else, as the findings rest on it; empty where nothing is.
    """

    edge_mm: tuple[float, float]
    roughness_mm: tuple[float, float]
    closing_contacts: int
    on_rims: int
    stops: int
    stops_on_rims: int
    guessed_landmarks: int
    lines: tuple[QualityLine, ...]
    first_step: str = field(default="", metadata=TOLD_IF_SET)


def scan_quality(
    surfaces: ScannedSurfaces,
    record: ScansRecord,
    shares: tuple[RimShare, ...],
    stops: tuple[Stop, ...],
    codes: tuple[int, ...],
    tolerance_mm: float,
) -> ScanQuality:
    """Say what mounting, bite and meshes are worth.

    Parameters
    ----------
    surfaces : ScannedSurfaces
        Both casts as scanned.
    record : ScansRecord
        Where they came from, how they were mounted and seated.
    shares : tuple of RimShare
        How many closing contacts of each excursion lie on a rim.
    stops : tuple of Stop
        Centric stops in MI, with what is said of their surfaces.
    codes : tuple of int
        ISO 3950 numbers of the teeth of both casts.
    tolerance_mm : float
        Distance up to which surfaces count as touching.
    """
    edges = median_edge_mm(surfaces.upper.mesh), median_edge_mm(surfaces.lower.mesh)
    rough = surfaces.upper.roughness_mm, surfaces.lower.roughness_mm
    contacts = sum(share.poses for share in shares)
    on_rims = sum(share.at_scan_end + share.at_gum for share in shares)
    stops_on_rims = sum(bool(stop.surface) for stop in stops)
    guessed = sum(map(len, record.guessed.values()))
    how, meaning = _MOUNTINGS[record.mounting]
    apart = _hardly_meet(stops, codes)
    lines = (
        QualityLine("Mounting", how, meaning, True),
        _bite(record, apart, tolerance_mm),
        _mesh(edges, tolerance_mm),
        _roughness(rough, tolerance_mm),
        _rims(contacts, on_rims, len(stops), stops_on_rims),
        _landmarks(guessed, sorted(record.guessed)),
        *_seeded(record),
    )
    return ScanQuality(
        edges,
        rough,
        contacts,
        on_rims,
        len(stops),
        stops_on_rims,
        guessed,
        lines,
        _bite_step(record) if apart else "",
    )


def centric_line(mi: GuidanceCoordinates, recorded: bool) -> QualityLine:
    """Say what centric relation rests on.

    Parameters
    ----------
    mi : GuidanceCoordinates
        MI along the condylar paths.
    recorded : bool
        Whether it follows from a record of CR.
    """
    by = "by a record" if recorded else "assumed, as the case sets it, not recorded"
    return QualityLine(
        "Centric relation",
        f"{by}: in MI the condyles stand {length(mi.advance_right_mm)} (right) and"
        f" {length(mi.advance_left_mm)} (left) ahead of it",
        "limits what is said of it by the scatter of records"
        if recorded
        else "limits what is said of it: it is as good as these numbers",
        True,
    )


def median_edge_mm(mesh: Mesh) -> float:
    """Return the median length of the edges of a mesh, each counted once, mm."""
    ends = mesh.vertices[edges_of(mesh.faces).ends]
    return float(np.median(np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)))


def standing_off_mm(edge_mm: float, radius_mm: float) -> float:
    """Return how far the middle of an edge stands off the round surface its ends lie on, mm."""
    return edge_mm**2 / (8.0 * radius_mm)


def _line(name: str, text: str, limits: bool, meaning: str) -> QualityLine:
    return QualityLine(name, text, meaning if limits else _NO_LIMIT, limits)


def _hardly_meet(stops: tuple[Stop, ...], codes: tuple[int, ...]) -> str:
    """Say that casts hardly meet at the bite, and where not; empty where they meet."""
    bare = bare_sides(stops, codes)
    if len(stops) >= _LEAST_STOPS and not bare:
        return ""
    count = "1 centric stop" if len(stops) == 1 else f"{len(stops) or 'no'} centric stops"
    sides = "of either side" if len(bare) > 1 else f"on the {''.join(bare)}"
    none = f", no back tooth {sides} meets" if bare else ""
    return f"at this bite the casts hardly meet: {count} in all{none}"


def _bite_step(record: ScansRecord) -> str:
    """Say what to do about a bite at which the casts hardly meet."""
    if record.by_bite_record:
        return (
            "Check the bite first: compare the bite record with the mouth by shim strip and take"
            " it again where it is off; no finding counts before that."
        )
    return (
        "Check the bite first: compare the bite as scanned with the mouth by shim strip and scan"
        " it again, or add a bite record, where it is off; no finding counts before that."
    )


def _bite(record: ScansRecord, apart: str, tolerance_mm: float) -> QualityLine:
    line = _seated(record, tolerance_mm)
    if not apart:
        return line
    what = "the bite record" if record.by_bite_record else "the bite as scanned"
    meaning = f"limits the findings: suspect {what} first, then the teeth"
    return QualityLine(line.name, f"{apart}; {line.text}", meaning, True)


def _seated(record: ScansRecord, tolerance_mm: float) -> QualityLine:
    seating = record.seating
    if seating is None or seating.allowance_mm == 0.0:
        deepest = 0.0 if seating is None else seating.as_scanned_mm
        return _line(
            "Bite",
            f"no allowance; the casts overlap by {length(deepest)} at most as scanned",
            deepest > tolerance_mm,
            "limits the findings: the deepest overlap alone holds the jaw",
        )
    moved = (
        f"the lower was moved by {length(seating.moved_mm)} to seat it"
        if seating.moved_mm
        else "the lower needed no move to seat it"
    )
    return _line(
        "Bite",
        f"allowance {length(seating.allowance_mm)}; {length(seating.seated_mm)} were let in at"
        f" most, {moved}",
        seating.seated_mm > tolerance_mm,
        "limits the findings: more than the contact tolerance was let in",
    )


def _mesh(edges: tuple[float, float], tolerance_mm: float) -> QualityLine:
    longer = max(edges)
    off = [standing_off_mm(longer, radius) for radius in _RADII_MM]
    return _line(
        "Mesh",
        f"edges of {edges[0]:.2f} mm (upper) and {edges[1]:.2f} mm (lower); between points it is"
        f" off by {length(off[0])} on a surface of 1 mm radius, {length(off[1])} on one of 2 mm;"
        f" contact tolerance {length(tolerance_mm)}",
        off[0] > tolerance_mm,
        "limits the findings: on cusps it is off by more than the contact tolerance",
    )


def _roughness(rough: tuple[float, float], tolerance_mm: float) -> QualityLine:
    return _line(
        "Noise",
        f"points lie off their surface by {length(rough[0])} (upper) and {length(rough[1])}"
        " (lower), standard deviation",
        max(rough) > tolerance_mm,
        "limits the findings: more than the contact tolerance",
    )


def _rims(contacts: int, on_rims: int, stops: int, stops_on_rims: int) -> QualityLine:
    share = f" ({100.0 * on_rims / contacts:.0f} %)" if on_rims else ""
    return _line(
        "Rims",
        f"{on_rims} of {contacts} closing contacts{share} and {stops_on_rims} of {stops} centric"
        " stops lie on a rim",
        on_rims + stops_on_rims > 0,
        "limits the findings there",
    )


def _landmarks(guessed: int, teeth: Sequence[int]) -> QualityLine:
    cusps = "1 cusp is" if guessed == 1 else f"{guessed} cusps are"
    told = f"{cusps} guessed, on {enumeration(teeth)}" if guessed else _ALL_TOPS
    return _line(
        "Landmarks",
        told,
        guessed > 0,
        "limits what is said of places on these cusps",
    )


def _seeded(record: ScansRecord) -> Iterator[QualityLine]:
    """Yield how sure teeth are that were told by seeds."""
    casts = [of.labels for of in (record.upper, record.lower) if of.labels.doubtful is not None]
    if not casts:
        return
    doubts = [doubt for labels in casts for doubt in labels.doubts]
    told = "by seeds; no tooth is doubtful"
    if doubts:
        named = enumeration([doubt.code for doubt in doubts])
        told = f"by seeds; where {named} end is doubtful: look at the picture, and add seeds there"
    yield _line("Teeth", told, bool(doubts), "limits what is said of these teeth")
