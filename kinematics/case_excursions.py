"""The excursions of a case, followed as finely and as far as it asks for."""

from kinematics.borders.tracks import BorderTrack, border_track
from kinematics.case import Case
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.sweep import sweeps as follow
from kinematics.contact.sweep_gaps import Brisk
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import (
    Excursion,
    lateroprotrusion,
    left_lateral,
    protrusion,
    retrusion,
    right_lateral,
)


def border_tracks(casts: MountedCasts) -> tuple[BorderTrack, ...]:
    """Follow protrusion, right and left lateral from CR without teeth."""
    return tuple(
        border_track(casts, excursion)
        for excursion in (protrusion("CR"), right_lateral("CR"), left_lateral("CR"))
    )


def followed_excursions(
    case: Case,
    casts: MountedCasts,
    excursions: tuple[Excursion, ...],
    workers: Workers,
    brisk: Brisk | None = None,
) -> tuple[Sweep, ...]:
    """Follow some excursions as finely and as far as a case asks for; see `sweeps`."""
    tolerance_mm, readings_mm = case.judging.tolerance_mm, case.judging.readings_mm
    return follow(casts, excursions, case.sweep, tolerance_mm, readings_mm, workers, brisk)


def excursions_of(case: Case) -> tuple[Excursion, ...]:
    """Return the excursions of a case: from MI, and where that differs also from CR."""
    from_mi = [protrusion(), right_lateral(), left_lateral()]
    from_mi += [lateroprotrusion(azimuth) for azimuth in case.lateroprotrusion_azimuths_deg]
    if case.mi.in_cr:
        return (*from_mi, retrusion())
    from_cr = (protrusion("CR"), right_lateral("CR"), left_lateral("CR"))
    return (*from_mi, retrusion(), *from_cr)
