"""The search alone, without the rest of a whole run: what would clear flagged teeth of a case."""

from collections.abc import Callable, Sequence

from kinematics.case import Case
from kinematics.case_excursions import border_tracks
from kinematics.contact.warm_up import warm_up
from kinematics.contact.workers import Workers
from kinematics.examining import examined
from kinematics.mounting import remounted, teeth_for
from kinematics.planning.adjusting.cut_kernels import CUT_KERNELS
from kinematics.planning.remedies.flagged import flagged_teeth
from kinematics.planning.remedies.found import ToothRemedies
from kinematics.remedies.search import remedies_for
from kinematics.remedies.subject import Subject
from kinematics.tracks.from_tracks import placed_in


def advised(
    case: Case, teeth: Sequence[int], progress: Callable[[str], None], threads: int = 1
) -> tuple[ToothRemedies, ...]:
    """Search for the smallest changes that clear teeth of a case.

    Parameters
    ----------
    case : Case
        What the case file says.
    teeth : sequence of int
        ISO 3950 numbers; none: all that are flagged.
    progress : callable
        Gets the name of every step when it begins.
    threads : int
        How many threads may compute; results do not depend on it.

    Raises
    ------
    InputError
        Settings that cannot be used together, or a tooth that is not there.
    NotConverged
        A dentition that does not settle.
    """
    placed = placed_in(case.tracked)
    warm_up(progress, scans=case.scans is not None, more=(CUT_KERNELS,))
    built = teeth_for(case, progress, threads)
    casts = remounted(built, case, (), Workers(threads))
    borders, workers = border_tracks(casts), Workers(threads)
    found = examined(case, casts, borders, workers, progress, placed=placed)
    subject = Subject(case, built, casts, borders, found, workers, progress)
    for tooth in teeth:
        subject.occlusion.tooth(tooth)  # refuses one that is not there before any is searched for
    return remedies_for(subject, teeth or flagged_teeth(subject.occlusion, found.findings))
