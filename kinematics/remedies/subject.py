"""What the search works on: a case with its teeth and what was found, and one of its teeth."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from kinematics.borders.tracks import BorderTrack
from kinematics.case import Case
from kinematics.case_excursions import excursions_of, followed_excursions
from kinematics.case_judged import occlusion_of
from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.checkup_result import Checkup
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.sweep_gaps import Brisk
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import Mesh, mesh_of, part_of
from kinematics.geometry.poses import move_points
from kinematics.mounting import Teeth, changed, lower_moved, remounted
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.remedies.clearance import (
    Judge,
    Path,
    casts_without,
    may_hold_mi_mm,
    path_of,
)
from kinematics.planning.remedies.flagged import DEFLECTIVE, flags_of
from kinematics.planning.remedies.wanted import Wanted, wanted_of
from kinematics.teeth.natural_side import edges_mm
from kinematics.tooth_codes import is_upper
from kinematics.trial.changed_teeth import changed_teeth
from kinematics.trial.settings import BUILT_IN, Change

#: Sweeps without the tooth are followed for their poses alone: gaps beyond this do not matter, mm.
_GAPS_MM = 0.02


@dataclass(frozen=True)
class Subject:
    """A case as it is.

    Attributes
    ----------
    case : Case
        What the case file says.
    teeth : Teeth
        Its teeth.
    casts : MountedCasts
        The same, mounted.
    borders : tuple of BorderTrack
        Border movements without teeth.
    found : Checkup
        What `examined` found.
    workers : Workers
        Threads; what their progress callback raises stops the work.
    progress : callable
        Gets the name of every step when it begins.
    """

    case: Case
    teeth: Teeth
    casts: MountedCasts
    borders: tuple[BorderTrack, ...]
    found: Checkup
    workers: Workers
    progress: Callable[[str], None]

    @cached_property
    def occlusion(self) -> Occlusion:
        """The casts as judged."""
        return occlusion_of(self.case, self.casts, self.workers)

    def with_changes(self, changes: Sequence[Change]) -> tuple[Case, Teeth, MountedCasts]:
        """Return case, teeth and casts with further changes.

        Raises
        ------
        InputError
            A change that cannot be made.
        """
        case = replace(self.case, change=(*self.case.change, *changes))
        teeth = changed(self.teeth, case, self.workers.threads)
        return case, teeth, remounted(teeth, case, (), Workers(self.workers.threads))

    def changed_mesh(self, change: Change) -> Mesh:
        """Return one tooth alone after a change, in the coordinates of the casts.

        Raises
        ------
        InputError
            It cannot be made.
        """
        before = self.teeth.unchanged or self.teeth
        own = [one for one in self.case.change if one.tooth == change.tooth]
        if any(one.kind in BUILT_IN for one in own):  # set up against others as these stand
            own = list(self.case.change)
        edges = edges_mm(self.case.dentition.triangles_per_arch)
        arches = before.upper, before.lower, before.pair, before.pose
        edge_mm = {True: edges["U"], False: edges["L"]}
        try:
            after = changed_teeth(*arches, (*own, change), edge_mm)
        except InputError as error:  # the number of the change is none of the case file
            raise InputError(str(error.__cause__ or error)) from error
        upper = is_upper(change.tooth)
        arch = after.upper if upper else after.lower
        assert arch is not None
        mesh = tooth_mesh(arch.arch, change.tooth)
        if upper:
            return mesh
        move = lower_moved(self.teeth, self.casts)
        return mesh_of(move_points(move, mesh.vertices), mesh.faces)

    def followed(self, casts: MountedCasts) -> tuple[Sweep, ...]:
        """Follow all excursions of some casts for the poses alone."""
        brisk = Brisk(_GAPS_MM, slack_steps=0.0)
        return followed_excursions(self.case, casts, excursions_of(self.case), self.workers, brisk)


@dataclass(frozen=True)
class FlaggedTooth:
    """One tooth that is to be cleared.

    Attributes
    ----------
    subject : Subject
        The case.
    tooth : int
        ISO 3950 number.
    wanted : tuple of Wanted
        What is wanted of it.
    rest : MountedCasts
        The casts without it.
    path : Path
        Where it is judged.
    judge : Judge
        What judges it there.
    held_in_mi_mm : float
        By how much it may hold the jaw open in MI.
    lost : str
        Where nothing else meets; empty where something does.
    """

    subject: Subject
    tooth: int
    wanted: tuple[Wanted, ...]
    rest: MountedCasts
    path: Path
    judge: Judge
    held_in_mi_mm: float
    lost: str

    @cached_property
    def mesh(self) -> Mesh:
        """The tooth as it is."""
        casts = self.subject.casts
        return tooth_mesh(casts.upper if is_upper(self.tooth) else casts.lower, self.tooth)

    @property
    def is_replacement(self) -> bool:
        """Whether it is no natural tooth."""
        occlusion = self.subject.occlusion
        return self.tooth in occlusion.replacement_teeth | occlusion.pontics


def tooth_mesh(arch: Arch, tooth: int) -> Mesh:
    """Return one tooth of an arch alone."""
    return part_of(arch.mesh, np.asarray(arch.tooth_of_face == tooth))[0]


def wanted_in(subject: Subject, tooth: int) -> tuple[Wanted, ...]:
    """Return what is wanted of one tooth of a case."""
    margin_mm = subject.case.remedies.margin_mm
    deflects = any(item.kind == DEFLECTIVE for item in flags_of(subject.found.findings, tooth))
    return wanted_of(subject.occlusion, subject.found.sweeps, tooth, margin_mm, deflects)


def flagged_tooth(subject: Subject, tooth: int, wanted: tuple[Wanted, ...]) -> FlaggedTooth:
    """Prepare one tooth for the search.

    Raises
    ------
    InputError
        Without it nothing meets in MI.
    """
    rest = casts_without(subject.casts, tooth)
    held_mm = may_hold_mi_mm(subject.occlusion, from_mi(subject.found.sweeps), tooth)
    path, lost = path_of(subject.occlusion, subject.followed(rest), tooth, wanted, held_mm)
    judge = Judge(subject.casts, tooth, path, subject.workers)
    return FlaggedTooth(subject, tooth, wanted, rest, path, judge, held_mm, lost)


def from_mi(sweeps: Sequence[Sweep]) -> Sweep:
    """Return the first excursion from MI."""
    return next(sweep for sweep in sweeps if sweep.excursion.start == "MI")
