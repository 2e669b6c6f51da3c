"""From a case to its findings: the whole run."""

from collections.abc import Callable
from dataclasses import dataclass

from kinematics.case import Case
from kinematics.casts.casts import Arch, carried
from kinematics.contact.border import BorderTrack, border_track
from kinematics.contact.mounted import MountedCasts, mount
from kinematics.contact.pair import prepare
from kinematics.contact.sweep import Sweep, sweep
from kinematics.contact.warm_up import warm_up
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.excursions import (
    RETRUSION,
    Excursion,
    lateroprotrusion,
    left_lateral,
    protrusion,
    retrusion,
    right_lateral,
)
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import GuidanceCoordinates, pose_at
from kinematics.planning.all_findings import all_findings
from kinematics.planning.articulation import Verdict, verdict
from kinematics.planning.findings import Finding
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.raised_bite import RaisedBite, raised_bite
from kinematics.planning.replacement import ReplacementContact, replacement_contacts
from kinematics.planning.slide import CentricSlide, centric_slide
from kinematics.planning.stops import Stop, centric_stops
from kinematics.planning.wording import excursion_words
from kinematics.teeth.cast_body import with_body
from kinematics.teeth.dentition import build
from kinematics.teeth.generated_path import formed


@dataclass(frozen=True)
class Checkup:
    """Everything that was computed for one case.

    Attributes
    ----------
    upper, lower : Arch
        Casts; the lower in lower coordinates.
    mi : GuidanceCoordinates
        Maximal intercuspation.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in lower coordinates, mm.
    sweeps : tuple of Sweep
        Judged excursions from MI: protrusion, right lateral, left lateral, lateroprotrusions,
        retrusion; then, where MI and CR differ, the same from CR.
    borders : tuple of BorderTrack
        Protrusion, right and left lateral from CR without teeth.
    verdicts : tuple of Verdict
        What guides each excursion.
    stops : tuple of Stop
        Centric stops in MI.
    slide : CentricSlide
        From first contact in CR to MI.
    replacement : tuple of ReplacementContact
        Replacement teeth that touch or come near in an excursion.
    findings : tuple of Finding
        Gravest first.
    raised : RaisedBite or None
        The bite as the incisal pin raises it; None where it does not.
    """

    upper: Arch
    lower: Arch
    mi: GuidanceCoordinates
    mi_pose: Floats
    incisal_point: Floats
    sweeps: tuple[Sweep, ...]
    borders: tuple[BorderTrack, ...]
    verdicts: tuple[Verdict, ...]
    stops: tuple[Stop, ...]
    slide: CentricSlide
    replacement: tuple[ReplacementContact, ...]
    findings: tuple[Finding, ...]
    raised: RaisedBite | None = None


def _not_asked(*_: object) -> None:
    """Take an intermediate result that nobody asked for."""


def run(
    case: Case,
    progress: Callable[[str], None],
    threads: int = 1,
    built: Callable[[MountedCasts, tuple[BorderTrack, ...]], None] = _not_asked,
    followed: Callable[[Sweep], None] = _not_asked,
) -> Checkup:
    """Take a case through its excursions and say what was found.

    Parameters
    ----------
    case : Case
        What the case file says.
    progress : callable
        Gets the name of every step when it begins.
    threads : int
        How many threads may compute; results do not depend on it.
    built, followed : callable, optional
        Get the teeth with the border tracks as soon as they stand, and every sweep as soon as it
        is finished.

    Raises
    ------
    InputError
        Settings that cannot be used together.
    NotConverged
        A dentition that does not settle.
    """
    warm_up(progress)
    workers = Workers(threads)
    path = ", forming them by the generated path" if case.generated_path else ""
    progress(f"building the teeth and settling them into maximal intercuspation{path}")
    casts = mounted_casts(case, threads)
    borders = tuple(
        border_track(casts, excursion)
        for excursion in (protrusion("CR"), right_lateral("CR"), left_lateral("CR"))
    )
    built(casts, borders)
    sweeps = []
    for excursion in excursions_of(case):
        progress(f"following {excursion_words(excursion)}")
        sweeps.append(
            sweep(
                casts,
                excursion,
                case.sweep,
                case.judging.tolerance_mm,
                case.judging.readings_mm,
                workers,
            )
        )
        followed(sweeps[-1])
    progress("judging contacts")
    return _judged(case, casts, borders, tuple(sweeps))


def mounted_casts(case: Case, threads: int = 1) -> MountedCasts:
    """Build the teeth of a case and mount them on its guidance, closed in MI; see `run`."""
    guidance = prepare_guidance(case.guidance)
    at = case.maximal_intercuspation
    mi = GuidanceCoordinates(at.advance_right_mm, at.advance_left_mm, at.shift_mm, 0.0)
    pose = pose_at(guidance, mi)
    dentition = build(case.dentition_with_replacements(), pose)
    upper = with_body(dentition.upper, case.replacement_teeth)
    lower = carried(with_body(dentition.lower, case.replacement_teeth), inverse(pose))
    incisal_point = move_points(inverse(pose), dentition.incisal_point[None])[0]
    pair = prepare(upper, lower, threads)
    casts = mount(upper, lower, pair, guidance, mi, incisal_point)
    if case.generated_path is None:
        return casts
    return formed(casts, case.generated_path, Workers(threads))


def excursions_of(case: Case) -> tuple[Excursion, ...]:
    """Return the excursions of a case: from MI, and where that differs also from CR."""
    from_mi = [protrusion(), right_lateral(), left_lateral()]
    from_mi += [lateroprotrusion(azimuth) for azimuth in case.lateroprotrusion_azimuths_deg]
    at = case.maximal_intercuspation
    if (at.advance_right_mm, at.advance_left_mm, at.shift_mm) == (0.0, 0.0, 0.0):
        return (*from_mi, retrusion())
    from_cr = (protrusion("CR"), right_lateral("CR"), left_lateral("CR"))
    return (*from_mi, retrusion(), *from_cr)


def _judged(
    case: Case,
    casts: MountedCasts,
    borders: tuple[BorderTrack, ...],
    sweeps: tuple[Sweep, ...],
) -> Checkup:
    """Say what the sweeps mean."""
    occlusion = Occlusion(
        casts,
        case.judging,
        case.denture_bases,
        frozenset(case.dentition.over_erupted_mm),
        (*case.splints, *case.bridges),
    )
    back = next(item for item in sweeps if item.excursion.name == RETRUSION)
    stops = centric_stops(sweeps[0].patches, case.judging)
    slide = centric_slide(back, case.judging.stop_tolerance_mm)
    contacts = replacement_contacts(occlusion, sweeps)
    raised = raised_bite(casts, case.pin_opening_mm) if case.pin_opening_mm > 0.0 else None
    return Checkup(
        upper=casts.upper,
        lower=casts.lower,
        mi=casts.mi,
        mi_pose=casts.mi_pose,
        incisal_point=casts.incisal_point,
        sweeps=sweeps,
        borders=borders,
        verdicts=tuple(verdict(item, case.judging) for item in sweeps if item is not back),
        stops=stops,
        slide=slide,
        replacement=contacts,
        findings=all_findings(occlusion, sweeps, stops, slide, contacts, raised),
        raised=raised,
    )
