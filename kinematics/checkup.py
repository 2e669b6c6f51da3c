"""From a case to its findings: the whole run."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from kinematics.case import Case
from kinematics.case_adjusted import Adjusted, adjusted
from kinematics.case_excursions import border_tracks, excursions_of, followed_excursions
from kinematics.case_judged import judged, occlusion_of
from kinematics.case_surveyed import surveyed_case
from kinematics.casts.casts import Arch
from kinematics.contact.border import BorderTrack
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.warm_up import Kernels, warm_up
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import RETRUSION
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.load.load_kernels import LOAD_KERNELS
from kinematics.mounting import Teeth, remounted, teeth_for
from kinematics.planning.articulation import Verdict
from kinematics.planning.base_loads import ExcursionLoads, excursion_loads
from kinematics.planning.bridge_frames import bridge_frames
from kinematics.planning.extent import Extent
from kinematics.planning.extent_loads import with_loads
from kinematics.planning.findings import Finding, first_of_severity
from kinematics.planning.framework import Framework, frameworks
from kinematics.planning.observed_marks import ComparedMarks
from kinematics.planning.plane.arch_plane import ArchPlane
from kinematics.planning.plane.plane_findings import planes_told
from kinematics.planning.raised_bite import RaisedBite, raised_bite
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.rooms.rooms import Rooms, rooms_of
from kinematics.planning.scan_doubts import ScanDoubts, scan_doubts
from kinematics.planning.scheme_advice import SchemeAdvice, scheme_advice
from kinematics.planning.slide import CentricSlide, centric_slide
from kinematics.planning.stops import Stop
from kinematics.planning.surveying.survey import Survey
from kinematics.planning.wax_up import WaxUp
from kinematics.planning.wording import excursion_words
from kinematics.records.condylar_paths import SidePaths, condylar_paths
from kinematics.records.found_settings import FromRecords
from kinematics.records.from_records import settings_from_records
from kinematics.scans.centric_records import CentricRecords, centric_records
from kinematics.scans.scanned_casts import ScansRecord
from kinematics.tracks.driven_casts import DrivenTrack, driven_tracks
from kinematics.tracks.found_tracks import FromTracks
from kinematics.tracks.from_tracks import found_in_tracks
from kinematics.tracks.placed_tracks import PlacedTrack


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
    scans : ScansRecord or None
        Where the casts came from; None for built-in teeth.
    centric : CentricRecords or None
        What records of CR say; None where there are none.
    marks : tuple of ComparedMarks
        Marks found in the mouth against those that the casts let expect.
    doubts : ScanDoubts or None
        How far what is found rests on what was scanned; None for built-in teeth.
    recorded, recorded_paths : FromRecords or None, tuple of SidePaths
        What interocclusal records say of guidance, and where they put both condyles; if any.
    tracked : FromTracks or None
        What measured tracks say of hinge axis and guidance; None where there are none.
    driven : tuple of DrivenTrack
        The casts moved along these tracks.
    frameworks, carrying : tuple of Framework
        What holds the denture bases; what loads are told of, in the order of `SweepLoads.frames`.
    loads : tuple of ExcursionLoads
        Who carries what in the excursions from MI; none without bases, bridges and splints.
    extents : tuple of Extent
        How far back the teeth of every base must go.
    advice : tuple of SchemeAdvice
        What schools want of replaced teeth, and what they do, base by base.
    set_up_notes : tuple of str
        What of a trial set-up could not be done as asked.
    planes : tuple of ArchPlane
        Occlusal plane and sphere of both arches, and how their teeth stand to them.
    rooms : Rooms
        Room for rests and planned crowns; none without loads.
    surveys : tuple of Survey
        Casts as surveyed along the path of insertion.
    extents, advice : tuple of Extent, tuple of SchemeAdvice
        How far back the teeth of bases must go; what schools want of them, and what they do.
    surveys, wax_ups : tuple of Survey, tuple of WaxUp
        Casts as surveyed along the path of insertion; wax-ups against their casts.
    adjusted : tuple of Adjusted
        What adjusting teeth would take and bring about, in the order of cutting.
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
    scans: ScansRecord | None = None
    centric: CentricRecords | None = None
    marks: tuple[ComparedMarks, ...] = ()
    doubts: ScanDoubts | None = None
    recorded: FromRecords | None = None
    recorded_paths: tuple[SidePaths, ...] = ()
    tracked: FromTracks | None = None
    driven: tuple[DrivenTrack, ...] = ()
    frameworks: tuple[Framework, ...] = ()
    loads: tuple[ExcursionLoads, ...] = ()
    carrying: tuple[Framework, ...] = ()
    extents: tuple[Extent, ...] = ()
    advice: tuple[SchemeAdvice, ...] = ()
    set_up_notes: tuple[str, ...] = ()
    planes: tuple[ArchPlane, ...] = ()
    rooms: Rooms = field(default_factory=Rooms)
    surveys: tuple[Survey, ...] = ()
    wax_ups: tuple[WaxUp, ...] = ()
    adjusted: tuple[Adjusted, ...] = ()


def _not_asked(*_: object) -> None:
    """Take an intermediate result that nobody asked for."""


def run(
    case: Case,
    progress: Callable[[str], None],
    threads: int = 1,
    built: Callable[[MountedCasts, tuple[BorderTrack, ...]], None] = _not_asked,
    followed: Callable[[Sweep], None] = _not_asked,
    loads: bool = True,
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
    loads : bool, optional
        Whether loads, what shorter set-ups bring upon a base, what schools want and what room
        there is are told as well; with denture bases they take more than half of the time.
        Whether who carries what, what shorter set-ups bring upon a base, and what schools want are
        told too: with bases more than half of the time, on which no finding rests.

    Raises
    ------
    InputError
        Settings that cannot be used together.
    NotConverged
        A dentition that does not settle.
    """
    placed = case.tracked.placed  # first of all, so that a faulty file is told at once
    warm_up(progress, scans=case.scans is not None, more=kernels_for(case) if loads else ())
    teeth = teeth_for(case, progress, threads)
    casts = remounted(teeth, case, threads=threads)
    frameworks(occlusion_of(case, casts, Workers()))  # so that a faulty crest is told at once
    borders = border_tracks(casts)
    built(casts, borders)
    workers = Workers(threads)
    found = examined(case, casts, borders, workers, progress, followed, placed)
    planes, out = planes_told(occlusion_of(case, casts, workers), case.occlusal_plane)
    found = replace(found, planes=planes, findings=first_of_severity(out, found.findings))
    found = replace(found, **surveyed_case(case, casts, found.findings, progress))
    if loads:
        found = _with_loads(case, casts, found, workers, progress)
    return replace(on_scans(found, teeth, casts), set_up_notes=teeth.change_notes)
    if case.adjustments:
        cuts = adjusted(case, casts, found.sweeps, found.stops, workers, progress)
        found = replace(found, adjusted=cuts)
    return on_scans(found, teeth, casts)


def kernels_for(case: Case) -> tuple[Kernels, ...]:
    """Return what is to be compiled for a case besides what every case needs."""
    return (LOAD_KERNELS,) if case.has_loads else ()


def on_scans(found: Checkup, teeth: Teeth, casts: MountedCasts) -> Checkup:
    """Say of what `examined` found on scanned casts how far it rests on what was scanned."""
    if teeth.surfaces is None or teeth.scans is None:
        return found
    told = scan_doubts(
        casts,
        teeth.surfaces,
        teeth.scans,
        found.sweeps,
        found.stops,
        found.findings,
        found.centric is not None,
    )
    return replace(
        found, findings=told.findings, stops=told.stops, scans=teeth.scans, doubts=told.doubts
    )


def examined(
    case: Case,
    casts: MountedCasts,
    borders: tuple[BorderTrack, ...],
    workers: Workers,
    progress: Callable[[str], None],
    followed: Callable[[Sweep], None] = _not_asked,
    placed: tuple[PlacedTrack, ...] = (),
) -> Checkup:
    """Take mounted casts through the excursions of a case and say what was found, but for loads.

    Loads, and what rests on them, are added by `run`; `weighed` gives those of single excursions.

    Parameters
    ----------
    case, casts : Case, MountedCasts
        Its guidance, and its teeth mounted by it.
    borders : tuple of BorderTrack
        What `border_tracks` returned for them.
    workers : Workers
        Threads; what their progress callback raises stops the work.
    progress, followed : callable
        See `run`.
    placed : tuple of PlacedTrack
        Its measured tracks, as `case.tracked.placed` reads them.

    Raises
    ------
    InputError
        Settings that cannot be used together.
    """
    done: list[Sweep] = []
    for excursion in excursions_of(case):
        progress(f"following {excursion_words(excursion)}")
        done += followed_excursions(case, casts, (excursion,), workers)
        followed(done[-1])
    progress("judging contacts")
    return _checkup_of(case, casts, borders, tuple(done), workers, placed)


def _checkup_of(
    case: Case,
    casts: MountedCasts,
    borders: tuple[BorderTrack, ...],
    sweeps: tuple[Sweep, ...],
    workers: Workers,
    placed: tuple[PlacedTrack, ...],
) -> Checkup:
    """Say what all the sweeps of a case mean, with the slide and the raised bite."""
    back = next(item for item in sweeps if item.excursion.name == RETRUSION)
    slide = centric_slide(back, case.judging.stop_tolerance_mm)
    raised = raised_bite(casts, case.pin_opening_mm) if case.pin_opening_mm > 0.0 else None
    centric = None
    if case.scans is not None and case.mi_is_recorded:
        centric = centric_records(case.scans, casts.guidance, casts.incisal_point)
    recorded = settings_from_records(case.recorded) if case.interocclusal_records else None
    tolerance_mm = case.judging.tolerance_mm
    tracked = found_in_tracks(case.tracked, placed) if placed else None
    said = judged(case, casts, sweeps, workers, slide, raised, centric, recorded, tracked)
    return Checkup(
        upper=casts.upper,
        lower=casts.lower,
        mi=casts.mi,
        mi_pose=casts.mi_pose,
        incisal_point=casts.incisal_point,
        sweeps=sweeps,
        borders=borders,
        verdicts=said.verdicts,
        stops=said.stops,
        slide=slide,
        replacement=said.replacement,
        findings=said.findings,
        raised=raised,
        centric=centric,
        marks=said.marks,
        recorded=recorded,
        recorded_paths=() if recorded is None else condylar_paths(case.recorded, recorded),
        tracked=tracked,
        driven=driven_tracks(
            placed, casts.pair, casts.mi_pose, case.tracked.fitting, tolerance_mm, workers
        ),
        frameworks=said.frameworks,
        extents=said.extents,
    )


def _with_loads(
    case: Case,
    casts: MountedCasts,
    found: Checkup,
    workers: Workers,
    progress: Callable[[str], None],
) -> Checkup:
    """Add loads, also of shorter set-ups, what schools want, and what room there is."""
    occlusion, sweeps = occlusion_of(case, casts, workers), found.sweeps
    extents, loads, carrying = found.extents, found.loads, found.carrying
    if extents:
        progress("weighing shorter set-ups")
        extents = with_loads(occlusion, case.load, found.frameworks, sweeps, extents)
    if case.has_loads:
        progress("weighing what replacement teeth carry")
        loads = tuple(weighed(case, casts, found.frameworks, weighed_sweeps(sweeps), workers))
        carrying = (*found.frameworks, *bridge_frames(occlusion.joined))
    advice = scheme_advice(occlusion, sweeps, found.stops)
    rooms = rooms_of(occlusion, found.frameworks, sweeps, case.crowns, case.rooms)
    told = first_of_severity(rooms.findings, found.findings)
    found = replace(found, extents=extents, loads=loads, carrying=carrying, advice=advice)
    return replace(found, rooms=rooms, findings=told)


def weighed_sweeps(sweeps: tuple[Sweep, ...]) -> tuple[Sweep, ...]:
    """Return those of the sweeps of a case along which loads are told: excursions from MI."""
    return tuple(
        sweep
        for sweep in sweeps
        if sweep.excursion.start == "MI" and sweep.excursion.name != RETRUSION
    )


def weighed(
    case: Case,
    casts: MountedCasts,
    held: tuple[Framework, ...],
    sweeps: tuple[Sweep, ...],
    workers: Workers,
) -> Iterator[ExcursionLoads]:
    """Yield who carries what along each of some sweeps.

    Parameters
    ----------
    case, casts, workers
        See `examined`.
    held, sweeps : tuple of Framework, tuple of Sweep
        What `examined` found of the denture bases, and some of the sweeps.
    """
    occlusion = occlusion_of(case, casts, workers)
    for sweep in sweeps:
        yield excursion_loads(occlusion, case.load, held, sweep)
