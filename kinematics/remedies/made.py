"""From an amount that was found to a remedy: verified by a full run; or why there is none."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Final

from kinematics.case import Case
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion
from kinematics.planning.remedies.clearance import TooNear
from kinematics.planning.remedies.found import Effect, Remedy, RemedyKind
from kinematics.planning.wording import excursion_words
from kinematics.remedies.amounts import Smallest, between
from kinematics.remedies.effects import effect_of, excursions_with, is_quiet_in, not_clear_words
from kinematics.remedies.subject import FlaggedTooth, tooth_mesh
from kinematics.remedies.volumes import facing, swept_mm3, thickest_mm, volumes_mm3
from kinematics.tooth_codes import is_upper
from kinematics.trial.settings import Change
from kinematics.trial.wording import change_words

#: Where a full run still finds something, so many steps more are tried.
_MORE: Final = (1, 2, 4, 8, 16, 32)


@dataclass(frozen=True)
class Kind:
    """One kind of change.

    Attributes
    ----------
    name : str
        Of `RemedyKind`.
    unit : str
        Of its amount.
    step, limit : float
        How finely and how far it is sought.
    changes : callable
        Gives the changes of a number of steps.
    """

    name: RemedyKind
    unit: str
    step: float
    limit: float
    changes: Callable[[int], tuple[Change, ...]]

    def none(self, reason: str, effect: Effect | None = None) -> Remedy:
        """Return that none was found."""
        return Remedy(
            self.name, (), None, 0.0, self.unit, self.step, self.limit, reason=reason, effect=effect
        )


def made_remedy(
    flagged: FlaggedTooth, kind: Kind, found: Smallest, poses: Floats | None = None
) -> Remedy:
    """Verify what was found by a full run.

    Parameters
    ----------
    flagged : FlaggedTooth
        The tooth.
    kind : Kind
        The kind of change.
    found : Smallest
        How many steps the quick judgement wants.
    poses : ndarray, shape (n, 4, 4), optional
        Poses of its path in which the tooth as it is would be judged with the most that was tried;
        left out, the tooth itself is changed.
    """
    if found.steps is None:
        return kind.none(_why_none(flagged, kind, found, poses))
    run = _FullRuns(flagged, kind)
    steps = run.fewest(found.steps, round(kind.limit / kind.step))
    if steps is None:
        last = max(run.effects)
        why = not_clear_words(run.effects[last])
        return kind.none(f"with {last * kind.step:g} {_unit_words(kind)} {why}")
    return _weighed(flagged, kind, steps, run.effects[steps])


class _FullRuns:
    """Full runs with one kind of change, each made once."""

    def __init__(self, flagged: FlaggedTooth, kind: Kind) -> None:
        self._flagged, self._kind = flagged, kind
        self.effects: dict[int, Effect] = {}

    def fewest(self, steps: int, most: int) -> int | None:
        """Return the fewest steps that do, at least so many; None: none near to them."""
        if self._clears(steps):
            return steps
        hinders = excursions_with(self._flagged, self.effects[steps])
        fails = steps
        for more in _MORE:
            tries = min(steps + more, most)
            if tries == fails:
                break
            try:
                if self._is_quiet(hinders, tries):
                    least = between(partial(self._is_quiet, hinders), fails, tries)
                    return least if self._clears(least) else None
            except InputError:
                break
            fails = tries
        return None

    def _clears(self, steps: int) -> bool:
        """Tell whether the tooth is clear with so many steps, by a full run."""
        case, casts = self._changed(steps)
        guides = [one.tooth for one in self._kind.changes(steps)]
        effect = effect_of(
            self._flagged, case, casts, guides if self._kind.name == "steepen" else ()
        )
        self.effects[steps] = effect
        return effect.clears

    def _is_quiet(self, excursions: tuple[Excursion, ...], steps: int) -> bool:
        """Tell whether nothing is said against the tooth with so many steps in some excursions."""
        case, casts = self._changed(steps)
        return is_quiet_in(self._flagged, case, casts, excursions)

    def _changed(self, steps: int) -> tuple[Case, MountedCasts]:
        subject, changes = self._flagged.subject, self._kind.changes(steps)
        told = ", ".join(map(change_words, changes))
        subject.progress(f"remedies for {self._flagged.tooth}: running again with {told}")
        case, _, casts = subject.with_changes(changes)
        return case, casts


def _unit_words(kind: Kind) -> str:
    return "mm" if kind.unit == "mm" else "degrees"


def _weighed(flagged: FlaggedTooth, kind: Kind, steps: int, effect: Effect) -> Remedy:
    """Return a remedy with the volumes that it takes."""
    subject, changes = flagged.subject, kind.changes(steps)
    cut = added = thickest = 0.0
    for change in changes:
        upper = is_upper(change.tooth)
        before = tooth_mesh(subject.casts.upper if upper else subject.casts.lower, change.tooth)
        after = subject.changed_mesh(change)
        if kind.name in ("lower", "tilt"):
            own = swept_mm3(before, after, facing(subject.casts, change.tooth))
        else:
            own = volumes_mm3(before, after)
        cut, added = cut + own[0], added + own[1]
        if kind.name == "steepen":
            thickest = max(thickest, thickest_mm(before, after))
    natural = kind.name in ("lower", "flatten") and not flagged.is_replacement
    return Remedy(
        kind=kind.name,
        changes=changes,
        adjustment=None,
        amount=round(steps * kind.step, 4),
        unit=kind.unit,
        resolution=kind.step,
        limit=kind.limit,
        cut_mm3=cut,
        added_mm3=added,
        thickest_mm=thickest,
        natural_cut=(flagged.tooth,) if natural else (),
        effect=effect,
    )


def _why_none(flagged: FlaggedTooth, kind: Kind, found: Smallest, poses: Floats | None) -> str:
    """Return what is still in the way with the most that could be done, and what hinders more."""
    if found.tried == 0:
        return found.refused
    changes = kind.changes(found.tried)
    try:
        if poses is None:
            near = flagged.judge.too_near(flagged.subject.changed_mesh(changes[0]))
        else:
            near = flagged.judge.at(poses).too_near(flagged.mesh)
    except InputError as error:
        return str(error)
    much = f"{found.tried * kind.step:g} {_unit_words(kind)}"
    still = "" if near is None else f"with {much} {too_near_words(flagged, near)}"
    return "; ".join(part for part in (still, found.refused) if part)


def too_near_words(flagged: FlaggedTooth, near: TooNear) -> str:
    """Return where a tooth is still too near, and by how much."""
    if near.sweep < 0:
        return f"it is {near.lacks_mm:.2f} mm too high in MI, against {near.other}"
    excursion = flagged.subject.found.sweeps[near.sweep].excursion
    where = f"in {excursion_words(excursion)} at {near.travel_mm:.1f} mm of travel"
    return f"it lacks {near.lacks_mm:.2f} mm of the distance wanted from {near.other} {where}"
