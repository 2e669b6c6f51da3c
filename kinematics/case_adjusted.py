"""The adjustments a case asks for: worked out one after the other, applied, and moved again."""

from collections.abc import Callable
from dataclasses import dataclass

from kinematics.case import Case
from kinematics.case_excursions import excursions_of, followed_excursions
from kinematics.case_judged import occlusion_of
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.planning.adjusting.adjusted_casts import adjusted_casts
from kinematics.planning.adjusting.outcome import Moved, Outcome, outcome
from kinematics.planning.adjusting.planned import Planned, in_order, plan
from kinematics.planning.stops import Stop, centric_stops
from kinematics.planning.wording import enumeration


@dataclass(frozen=True)
class Adjusted:
    """One adjustment, planned, applied and moved again.

    Attributes
    ----------
    planned : Planned
        What comes off, and what keeps it from its aim.
    outcome : Outcome
        What it brings about.
    """

    planned: Planned
    outcome: Outcome


def adjusted(
    case: Case,
    casts: MountedCasts,
    sweeps: tuple[Sweep, ...],
    stops: tuple[Stop, ...],
    workers: Workers,
    progress: Callable[[str], None],
) -> tuple[Adjusted, ...]:
    """Work out the adjustments of a case, each on the casts that the one before left.

    Parameters
    ----------
    case : Case
        What it asks for.
    casts : MountedCasts
        Its teeth, mounted.
    sweeps : tuple of Sweep
        Its excursions.
    stops : tuple of Stop
        Its centric stops.
    workers : Workers
        Threads; what their progress callback raises stops the work.
    progress : callable
        Gets the name of every step when it begins.
    """
    found: list[Adjusted] = []
    before = Moved(occlusion_of(case, casts, workers), sweeps, stops)
    for item in in_order(case.adjustments):
        progress(f"adjusting teeth: '{item.so_that}', {enumeration(item.teeth)}")
        planned = plan(before.occlusion, before.sweeps, before.stops, item)
        after = before
        if planned.cuts:
            progress("following all excursions again on the adjusted teeth")
            casts = adjusted_casts(casts, planned.cuts, workers.threads)
            after = moved(case, casts, workers)
        found.append(Adjusted(planned, outcome(before, after, item)))
        before = after
    return tuple(found)


def moved(case: Case, casts: MountedCasts, workers: Workers) -> Moved:
    """Take casts through all excursions of a case, and find their stops."""
    sweeps = followed_excursions(case, casts, excursions_of(case), workers)
    stops = centric_stops(sweeps[0].patches, case.judging)
    return Moved(occlusion_of(case, casts, workers), sweeps, stops)
