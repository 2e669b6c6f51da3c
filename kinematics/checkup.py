"""From a case to its findings: the whole run."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from kinematics.borders.movements import border_movements
from kinematics.borders.tracks import BorderTrack
from kinematics.case import Case
from kinematics.case_adjusted import adjusted
from kinematics.case_excursions import border_tracks
from kinematics.case_judged import occlusion_of
from kinematics.case_sequence import order_of_work
from kinematics.case_surveyed import surveyed_case
from kinematics.casts.casts import Arch
from kinematics.checkup_result import Checkup
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.warm_up import Kernels, warm_up
from kinematics.contact.workers import Workers
from kinematics.examining import examined, not_asked
from kinematics.guidance.excursions import RETRUSION
from kinematics.load.load_kernels import LOAD_KERNELS
from kinematics.mounting import Teeth, remounted, teeth_for
from kinematics.planning.adjusting.cut_kernels import CUT_KERNELS
from kinematics.planning.base_loads import ExcursionLoads, excursion_loads
from kinematics.planning.bridge_frames import bridge_frames
from kinematics.planning.extent_loads import with_loads
from kinematics.planning.findings import first_of_severity
from kinematics.planning.framework import Framework, frameworks
from kinematics.planning.plane.plane_findings import planes_told
from kinematics.planning.rooms.rooms import rooms_of
from kinematics.planning.scan_doubts import scan_doubts
from kinematics.planning.scheme_advice import scheme_advice
from kinematics.remedies.search import remedies_for
from kinematics.remedies.subject import Subject
from kinematics.tracks.from_tracks import placed_in


def run(
    case: Case,
    progress: Callable[[str], None],
    threads: int = 1,
    built: Callable[[MountedCasts, tuple[BorderTrack, ...]], None] = not_asked,
    followed: Callable[[Sweep], None] = not_asked,
    planning: bool = True,
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
    planning : bool, optional
        Whether what a plan rests on is told as well: border movements, occlusal plane, survey,
        loads, shorter set-ups, what schools want, room for rests and crowns, adjustments, remedies.
        They take more than half of the time where teeth are replaced.

    Raises
    ------
    InputError
        Settings that cannot be used together.
    NotConverged
        A dentition that does not settle.
    """
    placed = placed_in(case.tracked)  # first of all, so that a faulty file is told at once
    warm_up(progress, scans=case.scans is not None, more=kernels_for(case) if planning else ())
    teeth = teeth_for(case, progress, threads)
    casts = remounted(teeth, case, (), Workers(threads))
    frameworks(occlusion_of(case, casts, Workers()))  # so that a faulty crest is told at once
    borders = border_tracks(casts)
    built(casts, borders)
    workers = Workers(threads)
    outlines = None
    if planning:
        progress("following border movements")
        outlines = border_movements(casts, case.border_limits, workers)
    found = examined(case, casts, borders, workers, progress, followed, placed)
    if planning:
        subject = Subject(case, teeth, casts, borders, found, workers, progress)
        found = _planned(case, teeth, casts, found, workers, progress)
        found = replace(found, remedies=remedies_for(subject, case.remedies.teeth))
    found = on_scans(found, teeth, casts)
    found = replace(found, set_up_notes=teeth.change_notes, outlines=outlines)
    return replace(found, sequence=order_of_work(case, found)) if planning else found


def _planned(
    case: Case,
    teeth: Teeth,
    casts: MountedCasts,
    found: Checkup,
    workers: Workers,
    progress: Callable[[str], None],
) -> Checkup:
    """Add all that a plan rests on to what `examined` found."""
    planes, out = planes_told(occlusion_of(case, casts, workers), case.occlusal_plane)
    found = replace(found, planes=planes, findings=first_of_severity(out, found.findings))
    found = replace(
        found, **surveyed_case(case, casts, found.findings, progress, _changed_arches(teeth))
    )
    found = _with_loads(case, casts, found, workers, progress)
    if case.adjustments:
        cuts = adjusted(case, casts, found.sweeps, found.stops, workers, progress)
        found = replace(found, adjusted=cuts)
    return found


def _changed_arches(teeth: Teeth) -> tuple[tuple[Arch, Arch], ...]:
    """Return both arches before and after the changes of a trial set-up; none without changes."""
    before = teeth.unchanged
    if before is None:
        return ()
    both = ((before.upper, teeth.upper), (before.lower, teeth.lower))
    return tuple((old, new) for old, new in both if old is not new)


def kernels_for(case: Case) -> tuple[Kernels, ...]:
    """Return what is to be compiled for a case besides what every case needs."""
    loads = (LOAD_KERNELS,) if case.has_loads else ()
    return (*loads, CUT_KERNELS) if case.adjustments or case.remedies.teeth else loads


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
    progress("measuring room for rests and crowns")
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
