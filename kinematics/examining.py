"""From mounted casts to what their excursions say: a whole run but for what a plan rests on."""

from collections.abc import Callable

from kinematics.borders.tracks import BorderTrack
from kinematics.case import Case
from kinematics.case_excursions import excursions_of, followed_excursions
from kinematics.case_judged import judged
from kinematics.checkup_result import Checkup
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.raised_bite import raised_bite
from kinematics.planning.slide import centric_slide
from kinematics.planning.wording import excursion_words
from kinematics.records.condylar_paths import condylar_paths
from kinematics.records.from_records import settings_from_records
from kinematics.scans.centric_records import centric_records
from kinematics.tracks.driven_casts import driven_tracks
from kinematics.tracks.from_tracks import found_in_tracks
from kinematics.tracks.placed_tracks import PlacedTrack


def not_asked(*_: object) -> None:
    """Take an intermediate result that nobody asked for."""


def examined(
    case: Case,
    casts: MountedCasts,
    borders: tuple[BorderTrack, ...],
    workers: Workers,
    progress: Callable[[str], None],
    followed: Callable[[Sweep], None] = not_asked,
    placed: tuple[PlacedTrack, ...] = (),
) -> Checkup:
    """Take mounted casts through the excursions of a case and say what was found, but for loads.

    Loads, and what rests on them, are added by a whole run.

    Parameters
    ----------
    case, casts : Case, MountedCasts
        Its guidance, and its teeth mounted by it.
    borders : tuple of BorderTrack
        What `border_tracks` returned for them.
    workers : Workers
        Threads; what their progress callback raises stops the work.
    progress, followed : callable
        Get the name of every step when it begins, and every sweep as soon as it is finished.
    placed : tuple of PlacedTrack
        Its measured tracks, as `placed_in` reads them.

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
    return checkup_of(case, casts, borders, tuple(done), workers, placed)


def checkup_of(
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
