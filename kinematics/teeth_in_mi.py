"""The teeth of a case as they stand in MI: built, or read from scans and seated at the bite."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from kinematics.case import Case
from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.poses import move_points
from kinematics.scans.let_in import let_in
from kinematics.scans.rims import Rims
from kinematics.scans.scanned_casts import ScannedCasts, ScansRecord, scanned_casts
from kinematics.scans.scanned_surfaces import ScannedSurface, ScannedSurfaces
from kinematics.scans.single_points import roughness_mm
from kinematics.teeth.cast_body import with_body
from kinematics.teeth.dentition import build
from kinematics.tooth_codes import is_upper


@dataclass(frozen=True)
class InMI:
    """Both arches in the hinge frame, as they stand in MI.

    Attributes
    ----------
    upper, lower : Arch
        Without their bodies, unless they were scanned.
    incisal_point : ndarray, shape (3,)
        Lower incisal point, mm.
    with_body : callable
        Gives one of the arches its body.
    scans : ScansRecord or None
        Where the arches came from; None for built-in teeth.
    surfaces : ScannedSurfaces or None
        Their crowns as scanned; None for built-in teeth.
    """

    upper: Arch
    lower: Arch
    incisal_point: Floats
    with_body: Callable[[Arch], Arch]
    scans: ScansRecord | None = None
    surfaces: ScannedSurfaces | None = None


def built(case: Case, pose: Floats, progress: Callable[[str], None]) -> InMI:
    """Build the built-in teeth of a case, settled into MI."""
    path = ", forming them by the generated path" if case.generated_path else ""
    progress(f"building the teeth and settling them into maximal intercuspation{path}")
    made, replaced = build(case.dentition_with_replacements(), pose), case.replacement_teeth
    return InMI(made.upper, made.lower, made.incisal_point, lambda arch: with_body(arch, replaced))


def scanned(case: Case, pose: Floats, progress: Callable[[str], None], workers: Workers) -> InMI:
    """Read the scans of a case and seat them at the bite; gums are their bodies."""
    assert case.scans is not None
    casts = scanned_casts(case.scans, case.guidance.reference_plane, progress)
    _refuse_absent(case, casts)
    progress("seating the casts at the bite")
    allowance_mm = 1e-3 * case.scans.allowance_um
    upper, lower, seating, overlaps = let_in(casts.upper, casts.lower, pose, allowance_mm, workers)
    record = replace(casts.record, seating=seating)
    incisal_point = move_points(seating.move, casts.incisal_point[None])[0]
    surfaces = ScannedSurfaces(
        _as_scanned(casts.upper.mesh, casts.rims["upper"], overlaps.upper_mm),
        _as_scanned(casts.lower.mesh, casts.rims["lower"], overlaps.lower_mm),
    )
    return InMI(upper, lower, incisal_point, lambda arch: arch, record, surfaces)


def _refuse_absent(case: Case, casts: ScannedCasts) -> None:
    """Refuse teeth that the casts do not have, all at once, each with what names it."""
    absent = []
    for name, code in dict.fromkeys(case.named_teeth):
        try:
            (casts.upper if is_upper(code) else casts.lower).tooth(code)
        except InputError as error:
            absent.append(f"{name}: {error}")
    if absent:
        raise InputError("\n".join(absent))


def _as_scanned(mesh: Mesh, rims: Rims, overlap_mm: Floats) -> ScannedSurface:
    return ScannedSurface(mesh, rims, overlap_mm, roughness_mm(mesh))
