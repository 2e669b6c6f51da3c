"""Two casts with what is known about their teeth: the subject of every judgement."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from kinematics.casts.casts import Tooth
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import LeaveOut
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points, turn_vectors
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.joined_teeth import Bridge, Joined
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.tooth_codes import is_upper


@dataclass(frozen=True)
class Occlusion:
    """What is judged, and by what.

    Attributes
    ----------
    casts : MountedCasts
        Both arches in the frame of their guidance.
    settings : JudgingSettings
        Scheme of the natural teeth, tolerances, limits.
    bases : tuple of DentureBase
        Denture bases with their replacement teeth.
    over_erupted : frozenset of int
        Teeth named as over-erupted.
    joined : tuple of Splint or Bridge
        What joins teeth to each other.
    workers : Workers
        Threads that measure what judging needs to know besides; one if not given.
    bite_as_scanned : bool
        Whether MI is the bite in which casts were scanned, without a record between them.
    conditions : tuple of ToothCondition
        How natural teeth stand of which something is known.
    hinge_from_points : ndarray, shape (4, 4), optional
        Brings points that a case gives, the jaw in MI, into the hinge frame: those of scans lie in
        the coordinates of the upper scan. Left out: they lie in the hinge frame.
    rest_seats : mapping of int to points
        Places for rests that were picked on scans, by tooth.
    tells_rocking : bool
        Whether it is told how far the jaw must rock on a nonworking contact until the canine
        touches: no judgement depends on it.
    """

    casts: MountedCasts
    settings: JudgingSettings
    bases: tuple[DentureBase, ...] = ()
    over_erupted: frozenset[int] = field(default_factory=frozenset)
    joined: tuple[Joined, ...] = ()
    workers: Workers = field(default_factory=Workers)
    bite_as_scanned: bool = False
    conditions: tuple[ToothCondition, ...] = ()
    hinge_from_points: Floats | None = None
    rest_seats: Mapping[int, Sequence[tuple[float, float, float]]] = field(default_factory=dict)
    tells_rocking: bool = True

    def __post_init__(self) -> None:
        """Refuse teeth that the casts do not have.

        Raises
        ------
        InputError
            A replacement tooth, an abutment, a tooth with a rest or of which a condition is told,
            or an over-erupted tooth that is not there.
        """
        named = [
            (f"denture base '{base.name}'", code)
            for base in self.bases
            for code in (*base.teeth, *base.held_by)
        ]
        named += [("over-erupted teeth", code) for code in sorted(self.over_erupted)]
        named += [(unit.called, code) for unit in self.joined for code in unit.joined]
        named += [("tooth_conditions", condition.tooth) for condition in self.conditions]
        for where, code in named:
            arch, side = (
                (self.casts.upper, "upper") if is_upper(code) else (self.casts.lower, "lower")
            )
            if code not in arch.codes:
                known = ", ".join(map(str, arch.codes))
                raise InputError(f"{where}: tooth {code} is not there; the {side} cast has {known}")

    @property
    def mi_scatter_mm(self) -> float:
        """Scatter of the records that MI rests on, mm.

        Of a bite as scanned it is none: how far two records of centric relation differ says nothing
        of it. How far the casts overlap there, and what was let in, is told with the scans.
        """
        return 0.0 if self.bite_as_scanned else self.settings.record_scatter_mm

    @cached_property
    def replacement_teeth(self) -> frozenset[int]:
        """Numbers of all replacement teeth."""
        return frozenset(code for base in self.bases for code in base.teeth)

    @cached_property
    def alone(self) -> Workers:
        """For single poses of two teeth: handing one to a thread takes longer than measuring it."""
        handed = self.workers.threads > 1 or self.workers.progress is not None
        return Workers() if handed else self.workers

    @cached_property
    def pontics(self) -> frozenset[int]:
        """Numbers of all pontics."""
        bridges = (unit for unit in self.joined if isinstance(unit, Bridge))
        return frozenset(code for bridge in bridges for code in bridge.pontics)

    def has_replacement(self, pair: tuple[int, int]) -> bool:
        """Tell whether one tooth of a pair is a replacement tooth."""
        return not self.replacement_teeth.isdisjoint(pair)

    def judged_teeth(self, pair: tuple[int, int]) -> tuple[int, ...]:
        """Return the teeth whose height is told for a contact of a pair.

        The replacement tooth, else the over-erupted one, else both in turn.
        """
        for blamed in (self.replacement_teeth, self.over_erupted):
            found = tuple(code for code in pair if code in blamed)
            if found:
                return found
        return pair

    def tooth(self, code: int) -> Tooth:
        """Return the landmarks of a tooth of either arch, in the coordinates of its arch."""
        return (self.casts.upper if is_upper(code) else self.casts.lower).tooth(code)

    def name_of(self, code: int) -> str:
        """Return how a tooth is called in a sentence."""
        if code <= 0:
            return "a part of the cast that is no tooth"
        if code in self.replacement_teeth:
            return f"replacement tooth {code}"
        if code in self.pontics:
            return f"pontic {code}"
        return f"over-erupted {code}" if code in self.over_erupted else str(code)


def without(codes: frozenset[int]) -> LeaveOut:
    """Return what leaves out some teeth of either arch."""
    return LeaveOut(
        upper=frozenset(code for code in codes if is_upper(code)),
        lower=frozenset(code for code in codes if not is_upper(code)),
    )


def root_direction(occlusion: Occlusion, code: int, pose: Floats) -> Floats:
    """Return the unit vector along a tooth's long axis towards its root, hinge frame.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    code : int
        ISO 3950 number.
    pose : ndarray, shape (4, 4)
        hinge_from_lower.
    """
    axis = np.asarray(occlusion.tooth(code).long_axis, dtype=np.float64)
    return -axis if is_upper(code) else -turn_vectors(pose, axis[None])[0]


def centre_of(occlusion: Occlusion, code: int, pose: Floats) -> Floats:
    """Return the middle of a crown in the hinge frame, mm."""
    centre = np.asarray(occlusion.tooth(code).centre, dtype=np.float64)
    return centre if is_upper(code) else move_points(pose, centre[None])[0]
