"""Which contacts of scanned casts lie on a rim: exact, but of what lies beyond nothing is known."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.contact.closure import MEETS
from kinematics.contact.mounted import GUIDED_BY_TEETH, MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.findings import Figure, Finding, first_of_severity
from kinematics.planning.stops import Stop
from kinematics.planning.wording import enumeration, excursion_label, pair_name, sentence
from kinematics.scans.rims import Rims
from kinematics.scans.scanned_surfaces import ScannedSurfaces

RIM_KIND: Final = "contact on the rim of a scan"
#: A contact so near to an open edge counts as lying on it, mm. Chosen for this program: less than
#: an edge of the triangles of scans.
RIM_NEAR_MM: Final = 0.1
RIM_SOURCE: Final = "chosen for this program: less than an edge of the triangles of scans"

_OFF, _AT_GUM, _AT_END = range(3)
#: How many pairs of place and edge are measured at once.
_AT_ONCE: Final = 500_000


@dataclass(frozen=True)
class RimShare:
    """How many closing contacts of one excursion lie on a rim.

    Attributes
    ----------
    excursion : str
        Label, as findings give it.
    poses : int
        Poses up to edge-to-edge in which teeth end the closure.
    at_scan_end, at_gum : int
        Those of them whose contact lies where a scan ends, and where a label ends at the gum.
    """

    excursion: str
    poses: int
    at_scan_end: int
    at_gum: int


@dataclass(frozen=True)
class RimContacts:
    """What is said about rims.

    Attributes
    ----------
    findings : tuple of Finding
        Those given, with a word about the surface where their contact lies on a rim; before all
        others of its severity one about MI and CR, if the contact that ends the closure there does.
    stops : tuple of Stop
        Those given, with the same word.
    shares : tuple of RimShare
        One an excursion.
    """

    findings: tuple[Finding, ...]
    stops: tuple[Stop, ...]
    shares: tuple[RimShare, ...]


def rim_contacts(
    casts: MountedCasts,
    surfaces: ScannedSurfaces,
    sweeps: tuple[Sweep, ...],
    stops: tuple[Stop, ...],
    findings: tuple[Finding, ...],
) -> RimContacts:
    """Tell which contacts of scanned casts lie on a rim of either.

    Parameters
    ----------
    casts : MountedCasts
        The casts that were moved.
    surfaces : ScannedSurfaces
        Their rims.
    sweeps : tuple of Sweep
        Their excursions; the first starts in MI.
    stops : tuple of Stop
        Centric stops in MI.
    findings : tuple of Finding
        What was found in these excursions.
    """
    found = [_SweepRims(casts, surfaces, sweep) for sweep in sweeps]
    named = tuple(replace(stop, surface=_stop_words(found[0], stop)) for stop in stops)
    told = [_with_surface(finding, found, named) for finding in findings]
    shares = tuple(item.share for item in found if len(item.sweep.travel_mm) > 1)
    return RimContacts(first_of_severity(told, _closure_finding(found)), named, shares)


class _SweepRims:
    """Where the contacts of one excursion lie: first contacts, then patches, by cast."""

    def __init__(self, casts: MountedCasts, surfaces: ScannedSurfaces, sweep: Sweep) -> None:
        self.sweep = sweep
        closures, patches = sweep.closures, sweep.patches
        meets = (closures.status == MEETS) & (sweep.guide == GUIDED_BY_TEETH)
        self.first = np.flatnonzero(meets)
        self.places = np.concatenate([closures.point[self.first], patches.centroid])
        poses = np.concatenate([sweep.poses[self.first], sweep.poses[patches.pose]])
        # A patch is taken as a circle of its area.
        wide = np.concatenate([np.zeros(len(self.first)), np.sqrt(patches.area_mm2 / np.pi)])
        below = move_points(inverse(poses), self.places[:, None])[:, 0]
        reach = RIM_NEAR_MM + wide
        self.upper = rim_at(self.places, reach, casts.upper.mesh, surfaces.upper.rims)
        self.lower = rim_at(below, reach, casts.lower.mesh, surfaces.lower.rims)

    @property
    def share(self) -> RimShare:
        """How many first contacts lie on a rim."""
        judged = ~self.sweep.crossover[self.first]
        at = np.maximum(self.upper, self.lower)[: len(self.first)][judged]
        return RimShare(
            excursion_label(self.sweep.excursion),
            int(judged.sum()),
            int((at == _AT_END).sum()),
            int((at == _AT_GUM).sum()),
        )

    def words_at(self, place: tuple[float, float, float], upper: int, lower: int) -> str:
        """Return what is said of the contact at one of the places; empty where it is on no rim."""
        rows = np.flatnonzero((self.places == place).all(axis=1))
        return self._words(int(rows[0]), upper, lower) if len(rows) else ""

    def first_words(self, pose: int) -> tuple[str, str]:
        """Return the teeth of the first contact in a pose, and what is said of it; both may be "".

        Empty where no teeth end the closure there.
        """
        (rows,) = np.nonzero(self.first == pose)
        if len(rows) == 0:
            return "", ""
        closures = self.sweep.closures
        upper, lower = int(closures.tooth_upper[pose]), int(closures.tooth_lower[pose])
        return pair_name(upper, lower), self._words(int(rows[0]), upper, lower)

    def _words(self, row: int, upper: int, lower: int) -> str:
        sides = (("upper", int(self.upper[row]), upper), ("lower", int(self.lower[row]), lower))
        ends = [side for side, at, _ in sides if at == _AT_END]
        gums = [code for _, at, code in sides if at == _AT_GUM]
        parts = []
        if ends:
            parts.append(
                f"lies on a rim of the {enumeration(ends)} scan: what lies beyond was not scanned"
            )
        if gums:
            whose = enumeration(gums)
            parts.append(
                f"lies where the label of {whose} ends at the gum: the surface beyond takes no part"
            )
        return "; it ".join(parts)


def rim_at(places: Floats, reach_mm: Floats, mesh: Mesh, rims: Rims) -> Ints:
    """Return for every place on which kind of rim it lies: 0 none, 1 at the gum, 2 end of a scan.

    Parameters
    ----------
    places : ndarray, shape (n, 3)
        In the coordinates of the mesh, mm.
    reach_mm : ndarray, shape (n,)
        Distance up to which each counts as lying on an edge.
    mesh : Mesh
        Crowns of one cast.
    rims : Rims
        Their open edges.
    """
    kind = np.full(len(places), _OFF)
    for at_gum, told in ((True, _AT_GUM), (False, _AT_END)):
        ends = rims.ends[rims.at_gum == at_gum]
        if len(ends):
            kind[_near_edges(places, reach_mm, mesh.vertices[ends])] = told
    return kind


def _near_edges(places: Floats, reach_mm: Floats, edges: Floats) -> Bools:
    """Return which places (n, 3) lie within their reach of some edges (k, 2, 3)."""
    near = np.zeros(len(places), dtype=bool)
    along = edges[:, 1] - edges[:, 0]
    squares = np.einsum("ij,ij->i", along, along)
    step = max(1, _AT_ONCE // len(edges))
    for first in range(0, len(places), step):
        some = slice(first, first + step)
        off = places[some, None] - edges[None, :, 0]
        share = np.clip(np.einsum("nkj,kj->nk", off, along) / squares, 0.0, 1.0)
        off -= share[..., None] * along
        distance = np.sqrt(np.einsum("nkj,nkj->nk", off, off).min(axis=1))
        near[some] = distance <= reach_mm[some]
    return near


def _stop_words(mi: _SweepRims, stop: Stop) -> str:
    return mi.words_at(stop.point, stop.tooth_upper, stop.tooth_lower)


def _with_surface(finding: Finding, found: list[_SweepRims], stops: tuple[Stop, ...]) -> Finding:
    """Return a finding with a word about the rim its contact lies on, if it does."""
    if finding.kind == "centric stops":
        on_rim = [pair_name(stop.tooth_upper, stop.tooth_lower) for stop in stops if stop.surface]
        if not on_rim:
            return finding
        each = "lies" if len(on_rim) == 1 else "lie"
        where = f"{len(on_rim)} of these stops {each} on a rim: {enumeration(on_rim)}"
        return replace(finding, surface=sentence(where))
    if finding.place is None:
        return finding
    upper, lower = finding.tooth_upper or 0, finding.tooth_lower or 0
    for item in found:
        own = excursion_label(item.sweep.excursion) == finding.excursion
        if own or finding.excursion is None:
            words = item.words_at(finding.place, upper, lower)
            if words:
                return replace(finding, surface=sentence(f"this contact {words}"))
    return finding


def _closure_finding(found: list[_SweepRims]) -> Iterator[Finding]:
    """Yield one finding if the contact that ends the closure in MI or in CR lies on a rim."""
    back = next(item for item in found if item.sweep.excursion.name == RETRUSION)
    at = [("MI", found[0], 0)]
    if len(back.sweep.travel_mm) > 1:
        at.append(("CR", back, len(back.sweep.travel_mm) - 1))
    said, where = [], None
    for name, item, pose in at:
        teeth, words = item.first_words(pose)
        if words:
            said.append(f"in {name} the contact that ends the closure, {teeth}, {words}")
            where = where or (item.sweep, pose)
    if where is None:
        return
    sweep, pose = where
    x, y, z = (float(value) for value in sweep.closures.point[pose])
    yield Finding(
        kind=RIM_KIND,
        severity="attention",
        text=sentence("; ".join(said))
        + " The jaw may close further, or stop sooner, in the mouth.",
        tooth_upper=int(sweep.closures.tooth_upper[pose]),
        tooth_lower=int(sweep.closures.tooth_lower[pose]),
        place=(x, y, z),
        threshold=Figure("distance from a rim that counts as on it", RIM_NEAR_MM, "mm"),
        threshold_source=RIM_SOURCE,
    )
