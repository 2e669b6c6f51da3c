"""Teeth of the cases of a lesson, made once and mounted on whatever guidance is asked for."""

from collections.abc import Callable
from typing import Final

from kinematics.case import Case
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.mounting import (
    Teeth,
    changed,
    remounted,
    same_teeth,
    same_unchanged_teeth,
    teeth_for,
)

#: How many sets of teeth are kept.
_MOST: Final = 6


class KeptTeeth:
    """Mounts cases, and keeps the teeth it has made.

    Parameters
    ----------
    threads : int
        How many threads may compute; results do not depend on it.
    look : callable
        Is called amid long work; what it raises stops it.
    """

    def __init__(self, threads: int, look: Callable[..., None]) -> None:
        self._threads, self._look = threads, look
        self._kept: list[tuple[Case, Teeth]] = []

    def keep(self, case: Case, teeth: Teeth) -> None:
        """Keep teeth that were made elsewhere."""
        if not any(same_teeth(made_for, case) for made_for, _ in self._kept):
            self._kept = [(case, teeth), *self._kept][:_MOST]

    def mounted(self, case: Case) -> MountedCasts:
        """Return the teeth of a case mounted by it, made anew where none that are kept will do.

        Raises
        ------
        InputError
            Settings that cannot be used together.
        """
        workers = Workers(self._threads, progress=self._look)
        for made_for, teeth in self._kept:
            if same_teeth(made_for, case):
                return remounted(teeth, case, (), workers)
        near = [teeth for made_for, teeth in self._kept if same_unchanged_teeth(made_for, case)]
        if near:
            made = changed(near[0], case, self._threads)
        else:
            made = teeth_for(case, self._look, self._threads)
        self.keep(case, made)
        return remounted(made, case, (), workers)
