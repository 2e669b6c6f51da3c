"""Closures of scanned casts that a single vertex decides, and what they would be without it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.casts.crown_directions import crown_of
from kinematics.contact.closure import MEETS, close
from kinematics.contact.mounted import GUIDED_BY_TEETH, MountedCasts
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.tooth_regions import region_words
from kinematics.planning.wording import enumeration, excursion_words, length, sentence
from kinematics.scans.scanned_surfaces import ScannedSurface, ScannedSurfaces
from kinematics.scans.single_points import (
    LEAST_HEIGHT_MM,
    SINGLE_POINT_SOURCE,
    standing_out,
)

OUTLIER_KIND: Final = "single point of a scan"
#: A vertex decides a closure if the jaw closes further without it than this, mm at the incisal
#: point. Chosen for this program: less than anything that is told matters.
LEAST_CHANGE_MM: Final = 0.002
#: How many vertices that overlap too deeply at the bite are looked at, the deepest of each cast.
_MOST_DEEP: Final = 50

_Side = Literal["upper", "lower"]


@dataclass(frozen=True)
class _Cast:
    """One cast: as it moves, and as it was scanned."""

    side: _Side
    arch: Arch
    surface: ScannedSurface


@dataclass(frozen=True)
class _Moment:
    """A pose in which teeth end the closure: the row of its sweep, and how it is called."""

    sweep: Sweep
    row: int
    called: str


def outlier_findings(
    casts: MountedCasts,
    surfaces: ScannedSurfaces,
    sweeps: tuple[Sweep, ...],
    allowance_mm: float,
) -> tuple[Finding, ...]:
    """Return the single vertices that decide a closure, or how the casts were seated.

    Parameters
    ----------
    casts : MountedCasts
        The casts that were moved.
    surfaces : ScannedSurfaces
        The same, as scanned.
    sweeps : tuple of Sweep
        Their excursions; the first starts in MI.
    allowance_mm : float
        Overlap that was let in at the bite.

    Returns
    -------
    tuple of Finding
        Those that change MI or CR first, then by how much.
    """
    both = (
        _Cast("upper", casts.upper, surfaces.upper),
        _Cast("lower", casts.lower, surfaces.lower),
    )
    moments = list(_moments(sweeps))
    found: list[tuple[bool, float, Finding]] = []
    for cast in both:
        for vertex, height_mm, own in _deciding(cast, moments):
            changes = _changes_mm(casts, cast, vertex, own)
            told = [
                (item, change)
                for item, change in zip(own, changes, strict=True)
                if change > LEAST_CHANGE_MM
            ]
            if told:
                found.append(_of_closures(casts, cast, vertex, height_mm, told))
    found.sort(key=lambda item: (not item[0], -item[1]))
    return (*_of_seating(both, allowance_mm), *(item[2] for item in found))


def _moments(sweeps: tuple[Sweep, ...]) -> Iterator[_Moment]:
    """Yield MI, CR, and all judged poses of the excursions."""
    for number, sweep in enumerate(sweeps):
        by_teeth = (sweep.guide == GUIDED_BY_TEETH) & (sweep.closures.status == MEETS)
        last = len(sweep.travel_mm) - 1
        for row in np.flatnonzero(by_teeth & ~sweep.crossover).tolist():
            called = excursion_words(sweep.excursion)
            if row == 0 and sweep.excursion.start == "MI":
                called = "MI"
            elif row == last and sweep.excursion.name == RETRUSION:
                called = "CR"
            if called != "MI" or number == 0:
                yield _Moment(sweep, row, called)


def _deciding(
    cast: _Cast, moments: Sequence[_Moment]
) -> Iterator[tuple[int, float, list[_Moment]]]:
    """Yield vertices of touching triangles that stand out, how far, mm, and where they touch."""
    corners: dict[int, list[_Moment]] = {}
    for item in moments:
        closures = item.sweep.closures
        faces = closures.face_upper if cast.side == "upper" else closures.face_lower
        for vertex in cast.arch.mesh.faces[faces[item.row]].tolist():
            corners.setdefault(vertex, []).append(item)
    vertices = np.array(sorted(corners), dtype=np.int64)
    found = standing_out(cast.surface.mesh, vertices, cast.surface.roughness_mm)
    for row in np.flatnonzero(found.stands_out).tolist():
        yield int(vertices[row]), float(found.height_mm[row]), corners[int(vertices[row])]


def _changes_mm(
    casts: MountedCasts, cast: _Cast, vertex: int, moments: Sequence[_Moment]
) -> Floats:
    """Return by how much more the jaw closes without the triangles at a vertex, (n,) mm.

    At the incisal point; inf where nothing else meets.
    """
    bare = _without(cast.arch, vertex)
    pair = (
        Pair(upper_tree(bare), casts.pair.lower)
        if cast.side == "upper"
        else Pair(casts.pair.upper, lower_tree(bare))
    )
    poses = np.stack([item.sweep.positions.pose_at_zero[item.row] for item in moments])
    before = np.array([item.sweep.closures.opening_rad[item.row] for item in moments])
    radius_mm = float(np.hypot(casts.incisal_point[0], casts.incisal_point[2]))
    return np.asarray((before - close(pair, poses).opening_rad) * radius_mm)


def _without(arch: Arch, vertex: int) -> Arch:
    """Return an arch without the triangles at a vertex."""
    kept = (arch.mesh.faces != vertex).all(axis=1)
    mesh = Mesh(arch.mesh.vertices, np.ascontiguousarray(arch.mesh.faces[kept]))
    return replace(arch, mesh=mesh, tooth_of_face=arch.tooth_of_face[kept])


def _of_closures(
    casts: MountedCasts,
    cast: _Cast,
    vertex: int,
    height_mm: float,
    told: Sequence[tuple[_Moment, float]],
) -> tuple[bool, float, Finding]:
    """Return whether MI or CR is changed, by how much at most, and the finding."""
    in_bite = [item for item in told if item[0].called in ("MI", "CR")]
    item, change = max(in_bite or told, key=lambda pair: pair[1])
    names = list(dict.fromkeys(moment.called for moment, _ in told))
    closures = item.sweep.closures
    upper, lower = int(closures.tooth_upper[item.row]), int(closures.tooth_lower[item.row])
    x, y, z = (float(value) for value in closures.point[item.row])
    at = "" if item.called in names[:1] and len(names) == 1 else f" in {item.called}"
    without = (
        f"without it nothing else would meet{at}"
        if np.isinf(change)
        else f"without it the jaw would close {length(change)} further{at}, at the incisal point"
    )
    figures = [Figure("height over the surface around it", height_mm, "mm"), *_usual(cast)]
    if np.isfinite(change):
        figures.append(Figure("closure without it, at the incisal point", change, "mm"))
    text = (
        f"{_stands(cast, vertex, height_mm)}, and the contact that ends the closure in"
        f" {_named(names)} lies on it; {without}. {_LOOK}"
    )
    return bool(in_bite), change, _finding(text, upper, lower, (x, y, z), figures)


def _named(names: Sequence[str]) -> str:
    """Return where closures end; of more than two excursions how many they are."""
    bite = [name for name in ("MI", "CR") if name in names]
    others = [name for name in names if name not in bite]
    return enumeration([*bite, *(others if len(others) < 3 else [f"{len(others)} excursions"])])


def _of_seating(both: tuple[_Cast, _Cast], allowance_mm: float) -> Iterator[Finding]:
    """Yield the vertices that overlap by more than the allowance at the bite and stand out."""
    if allowance_mm == 0.0:
        return
    for cast in both:
        overlap = cast.surface.overlap_mm
        deep = np.flatnonzero(overlap > allowance_mm)
        deep = np.sort(deep[np.argsort(-overlap[deep], kind="stable")[:_MOST_DEEP]])
        found = standing_out(cast.surface.mesh, deep, cast.surface.roughness_mm)
        for row in np.flatnonzero(found.stands_out).tolist():
            vertex, height_mm = int(deep[row]), float(found.height_mm[row])
            rest_mm = _deepest_elsewhere_mm(both, cast, vertex)
            depth_mm = float(overlap[vertex])
            if depth_mm <= rest_mm:
                continue
            code = _tooth_of(cast, vertex)
            x, y, z = (float(value) for value in cast.surface.mesh.vertices[vertex])
            text = (
                f"{_stands(cast, vertex, height_mm)}, and stands deepest in the other cast at the"
                f" bite, by {length(depth_mm)}: more than the allowance, so that it decides how the"
                f" casts were seated; without it they would overlap by {length(rest_mm)} at most."
                f" {_LOOK}"
            )
            figures = (
                Figure("height over the surface around it", height_mm, "mm"),
                *_usual(cast),
                Figure("overlap at the bite", depth_mm, "mm"),
                Figure("deepest overlap elsewhere", rest_mm, "mm"),
            )
            upper, lower = (code, 0) if cast.side == "upper" else (0, code)
            yield _finding(text, upper, lower, (x, y, z), figures)


def _deepest_elsewhere_mm(both: tuple[_Cast, _Cast], cast: _Cast, vertex: int) -> float:
    """Return the deepest overlap of either cast beyond the triangles at a vertex, mm."""
    mesh = cast.surface.mesh
    around = np.unique(mesh.faces[(mesh.faces == vertex).any(axis=1)])
    place = mesh.vertices[vertex]
    reach = np.linalg.norm(mesh.vertices[around] - place, axis=1).max()
    deepest = 0.0
    for other in both:
        far = _far(other.surface.mesh, place, float(reach))
        deepest = max(deepest, float(other.surface.overlap_mm[far].max(initial=0.0)))
    return deepest


def _far(mesh: Mesh, place: Floats, reach_mm: float) -> Bools:
    return np.asarray(np.linalg.norm(mesh.vertices - place, axis=1) > reach_mm)


_LOOK: Final = (
    "Look at the cast there: it may be a nodule, a bubble or an error of the scan. Nothing was"
    " removed."
)


def _usual(cast: _Cast) -> tuple[Figure, ...]:
    return (Figure(f"usual on the {cast.side} cast", cast.surface.roughness_mm, "mm"),)


def _stands(cast: _Cast, vertex: int, height_mm: float) -> str:
    """Return where a vertex is, and how far it stands out."""
    code = _tooth_of(cast, vertex)
    where = region_words(crown_of(cast.arch, code), cast.arch.mesh.vertices[vertex])
    return (
        f"on {code} ({where}) a single point of the {cast.side} scan stands {length(height_mm)} out"
        " of the surface around it"
    )


def _tooth_of(cast: _Cast, vertex: int) -> int:
    faces: Ints = np.flatnonzero((cast.arch.mesh.faces == vertex).any(axis=1))
    return int(cast.arch.tooth_of_face[faces[0]])


def _finding(
    text: str,
    upper: int,
    lower: int,
    place: tuple[float, float, float],
    figures: Sequence[Figure],
) -> Finding:
    return Finding(
        kind=OUTLIER_KIND,
        severity="attention",
        text=sentence(text),
        tooth_upper=upper or None,
        tooth_lower=lower or None,
        place=place,
        figures=tuple(figures),
        threshold=Figure("height that stands out at least", LEAST_HEIGHT_MM, "mm"),
        threshold_source=SINGLE_POINT_SOURCE,
    )
