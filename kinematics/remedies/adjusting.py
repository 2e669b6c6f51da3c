"""What an adjustment by the swept envelope would take so that a flagged tooth clears."""

from typing import Final

import numpy as np

from kinematics.case_excursions import excursions_of
from kinematics.checks import InputError
from kinematics.guidance.excursions import RETRUSION, Excursion
from kinematics.planning.adjusting.adjusted_casts import adjusted_casts
from kinematics.planning.adjusting.planned import Planned, plan
from kinematics.planning.adjusting.settings import KEEPS_STOP, OPENS_FOSSA, Adjustment, Aim
from kinematics.planning.remedies.clearance import Judge
from kinematics.planning.remedies.found import Effect, Remedy
from kinematics.remedies.amounts import between
from kinematics.remedies.effects import effect_of, not_clear_words
from kinematics.remedies.subject import FlaggedTooth, tooth_mesh
from kinematics.tooth_codes import is_upper

#: A cut keeps its distance along the closing arc, which on a slope is more than the shortest; so
#: often the margin is raised by what is wanting.
_ROUNDS: Final = 4
#: As far as the margin of an adjustment goes, mm; see `Adjustment`.
_MOST_MARGIN_MM: Final = 0.5
#: Margins are set to so many mm.
STEP_MM: Final = 0.005


def adjust(flagged: FlaggedTooth) -> Remedy:
    """Return what would have to be cut so that the tooth keeps its stop and clears.

    Where it is too high in MI, what would bring it down to the height of the others.
    """
    subject, tooth, limit = flagged.subject, flagged.tooth, flagged.subject.case.remedies.most_mm

    def told(reason: str) -> Remedy:
        return Remedy("adjust", (), None, 0.0, "mm", STEP_MM, limit, reason=reason)

    aim: Aim = OPENS_FOSSA if flagged.judge.of(np.arange(1)).too_near(flagged.mesh) else KEEPS_STOP
    if aim == KEEPS_STOP and not _movements(flagged):
        return told("it is too near only in movements that begin in CR, which no adjustment is for")
    subject.progress(f"remedies for {tooth}: what would have to be cut")
    cuts = _Cuts(flagged, aim)
    try:
        planned = cuts.with_margin(cuts.fewest())
    except InputError as error:
        return told(str(error))
    subject.progress(f"remedies for {tooth}: running again with it cut")
    casts = adjusted_casts(subject.casts, planned.cuts, subject.workers.threads)
    effect = effect_of(flagged, subject.case, casts)
    if not effect.clears:
        return told(f"cut {planned.cuts[0].deepest_mm:.2f} mm deep, {not_clear_words(effect)}")
    return _made(flagged, planned, effect, limit)


class _Cuts:
    """Cuts for one tooth and aim, with margins of so many steps, each planned once."""

    def __init__(self, flagged: FlaggedTooth, aim: Aim) -> None:
        self._flagged, self._aim = flagged, aim
        self._planned: dict[int, Planned] = {}

    def fewest(self) -> int:
        """Return the least margin with which the tooth clears in excursions, in steps.

        Raises
        ------
        InputError
            Nothing would be cut, or something hinders a cut.
        """
        steps = round(max(one.most_mm for one in self._flagged.wanted) / STEP_MM)
        if self._aim != KEEPS_STOP:
            return steps
        fails, most = steps - 1, round(_MOST_MARGIN_MM / STEP_MM)
        for _ in range(_ROUNDS):
            lacks = self._lacks_mm(steps)
            if lacks <= 0.0:
                return between(lambda tries: self._lacks_mm(tries) <= 0.0, fails, steps)
            fails, steps = steps, min(steps + int(lacks / STEP_MM) + 1, most)
            if fails == most:
                break
        return fails

    def with_margin(self, steps: int) -> Planned:
        """Return what comes off with a margin of so many steps.

        Raises
        ------
        InputError
            Nothing would be cut, or something hinders the cut.
        """
        if steps not in self._planned:
            found = self._flagged.subject.found
            asked = self._asked(steps)
            planned = plan(self._flagged.subject.occlusion, found.sweeps, found.stops, asked)
            if not planned.cuts or planned.hinders:
                why = "; ".join(planned.hinders) or "nothing of it is in the way of its excursions"
                raise InputError(why)
            self._planned[steps] = planned
        return self._planned[steps]

    def _asked(self, steps: int) -> Adjustment:
        flagged = self._flagged
        teeth, deepest_mm = (flagged.tooth,), min(flagged.subject.case.remedies.most_mm, 2.0)
        if self._aim != KEEPS_STOP:
            return Adjustment(self._aim, teeth, deepest_mm=deepest_mm)
        names = _movements(flagged)
        judged = [one.name for one in excursions_of(flagged.subject.case) if _is_judged(one)]
        return Adjustment(
            self._aim,
            teeth,
            excursions=() if list(names) == judged else names,
            margin_mm=round(steps * STEP_MM, 4),
            deepest_mm=deepest_mm,
        )

    def _lacks_mm(self, steps: int) -> float:
        """Return how much the tooth lacks beyond MI on casts that are cut; 0: nothing."""
        flagged = self._flagged
        subject, tooth = flagged.subject, flagged.tooth
        cuts = self.with_margin(steps).cuts
        casts = adjusted_casts(subject.casts, cuts, subject.workers.threads)
        judge = Judge(casts, tooth, flagged.path, subject.workers)
        beyond = judge.of(np.flatnonzero(flagged.path.sweep >= 0))
        near = beyond.too_near(tooth_mesh(casts.upper if is_upper(tooth) else casts.lower, tooth))
        return 0.0 if near is None else near.lacks_mm


def _made(flagged: FlaggedTooth, planned: Planned, effect: Effect, limit: float) -> Remedy:
    occlusion = flagged.subject.occlusion
    artificial = occlusion.replacement_teeth | occlusion.pontics
    return Remedy(
        kind="adjust",
        changes=(),
        adjustment=planned.adjustment,
        amount=max(cut.deepest_mm for cut in planned.cuts),
        unit="mm",
        resolution=STEP_MM,
        limit=limit,
        cut_mm3=sum(cut.surface.volume_mm3 for cut in planned.cuts),
        natural_cut=tuple(cut.tooth for cut in planned.cuts if cut.tooth not in artificial),
        effect=effect,
    )


def _movements(flagged: FlaggedTooth) -> tuple[str, ...]:
    """Return the movements from MI in which something is wanted of the tooth."""
    sweeps = flagged.subject.found.sweeps
    excursions = [sweeps[one.excursion].excursion for one in flagged.wanted]
    return tuple(one.name for one in excursions if _is_judged(one))


def _is_judged(excursion: Excursion) -> bool:
    return excursion.start == "MI" and excursion.name != RETRUSION
