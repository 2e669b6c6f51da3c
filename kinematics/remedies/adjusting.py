"""What an adjustment by the swept envelope would take so that a flagged tooth clears."""

from typing import Final

from kinematics.case_excursions import excursions_of
from kinematics.contact.mounted import MountedCasts
from kinematics.guidance.excursions import RETRUSION, Excursion
from kinematics.planning.adjusting.adjusted_casts import adjusted_casts
from kinematics.planning.adjusting.planned import Planned, plan
from kinematics.planning.adjusting.settings import KEEPS_STOP, Adjustment
from kinematics.planning.remedies.clearance import Judge
from kinematics.planning.remedies.found import Effect, Remedy
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
    """Return what would have to be cut so that the tooth keeps its stop and clears."""
    subject, tooth = flagged.subject, flagged.tooth
    settings = subject.case.remedies
    limit = settings.most_mm

    def told(reason: str) -> Remedy:
        return Remedy("adjust", (), None, 0.0, "mm", STEP_MM, limit, reason=reason)

    names = _movements(flagged)
    every = tuple(one.name for one in excursions_of(subject.case) if _is_judged(one))
    if not names:
        return told("it is too near only in movements that begin in CR, which no adjustment is for")
    margin_mm = max(one.most_mm for one in flagged.wanted)
    planned, casts, why = None, subject.casts, ""
    for _ in range(_ROUNDS):
        subject.progress(f"remedies for {tooth}: what would have to be cut")
        asked = Adjustment(
            KEEPS_STOP,
            (tooth,),
            excursions=() if names == every else names,
            margin_mm=round(margin_mm, 4),
            deepest_mm=min(limit, 2.0),
        )
        planned = plan(subject.occlusion, subject.found.sweeps, subject.found.stops, asked)
        if not planned.cuts or planned.hinders:
            why = "; ".join(planned.hinders) or "nothing of it is in the way of its excursions"
            return told(why)
        casts = adjusted_casts(subject.casts, planned.cuts, subject.workers.threads)
        lacks = _lacks_mm(flagged, casts)
        if lacks <= 0.0 or margin_mm >= _MOST_MARGIN_MM:
            break
        margin_mm = min(_whole_steps(margin_mm + lacks), _MOST_MARGIN_MM)
    assert planned is not None
    subject.progress(f"remedies for {tooth}: running again with it cut")
    effect = effect_of(flagged, subject.case, casts)
    if not effect.clears:
        return told(f"cut {planned.cuts[0].deepest_mm:.2f} mm deep, {not_clear_words(effect)}")
    return _made(flagged, planned, effect, limit)


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


def _lacks_mm(flagged: FlaggedTooth, casts: MountedCasts) -> float:
    """Return how much the tooth lacks on cut casts; 0: nothing."""
    judge = Judge(casts, flagged.tooth, flagged.path, flagged.subject.workers)
    arch = casts.upper if is_upper(flagged.tooth) else casts.lower
    near = judge.too_near(tooth_mesh(arch, flagged.tooth))
    return 0.0 if near is None else near.lacks_mm


def _whole_steps(value_mm: float) -> float:
    return STEP_MM * (int(value_mm / STEP_MM) + 1)
