"""What the window asks to be computed: teeth on some guidance, and where the jaw stands."""

from collections.abc import Callable, Mapping
from typing import Final

from kinematics.case import Case
from kinematics.case_changes import Changed, changed_case
from kinematics.case_record_scans import with_scans_registered
from kinematics.contact.gap_maps import DistanceMap, distance_map
from kinematics.contact.warm_up import warm_up
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import Excursion
from kinematics.live import PoseAt, pose_asked_for
from kinematics.mounting import remounted, same_teeth, teeth_for
from scenes.moving_casts import moving_casts
from scenes.page_answers import MAP_LIMIT_MM

#: Distance up to which gaps are shown on the teeth.
LIMIT_MM: Final = MAP_LIMIT_MM


class ViewDesk:
    """Keeps the casts that stand, and moves them.

    Parameters
    ----------
    given : Case
        As the user named it.
    progress : callable
        Gets the name of every step; what it raises stops the work.
    threads : int
        How many threads may compute; what is shown does not depend on it.

    Raises
    ------
    InputError, NotConverged
        A case that cannot be used.
    """

    def __init__(self, given: Case, progress: Callable[..., None], threads: int) -> None:
        self._progress, self._threads = progress, threads
        self.given = self.case = with_scans_registered(given, progress)
        warm_up(progress, maps=True, scans=given.scans is not None)
        self._teeth = teeth_for(self.given, progress, threads)
        self.casts = remounted(self._teeth, self.given, (), Workers(threads))
        self.scene = moving_casts(self.casts, self.given.replacement_teeth)

    def take_up(self, changes: Mapping[str, Changed]) -> None:
        """Mount the casts on changed settings; what is refused leaves all as it is.

        Raises
        ------
        InputError, NotConverged
            Settings that do not go together.
        """
        case = changed_case(self.given, changes)
        if same_teeth(self.case, case):
            casts = remounted(self._teeth, case, (self.casts,), Workers(self._threads))
            self.case, self.casts = case, casts
            return
        teeth = teeth_for(case, self._progress, self._threads)
        casts = remounted(teeth, case, (), Workers(self._threads))
        self._teeth, self.case, self.casts = teeth, case, casts
        self.scene = moving_casts(casts, case.replacement_teeth)

    def forms_teeth(self, changes: Mapping[str, Changed]) -> bool:
        """Tell whether settings take other teeth, which takes some seconds.

        Raises
        ------
        InputError
            Settings that do not go together.
        """
        return not same_teeth(self.case, changed_case(self.given, changes))

    def pose(self, excursion: Excursion, travel_mm: float) -> PoseAt:
        """Return where the jaw stands at some travel, closed.

        Raises
        ------
        InputError
            Nothing guides at the start.
        """
        return pose_asked_for(self.case, self.casts, excursion, travel_mm, Workers(self._threads))

    def near(self, at: PoseAt) -> DistanceMap:
        """Return how far every vertex is from the other arch."""
        return distance_map(self.casts.pair, at.pose, LIMIT_MM, Workers(self._threads))
