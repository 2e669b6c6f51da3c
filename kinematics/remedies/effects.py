"""What a change does, by a full run: stops, findings, load of guides, and how the tooth clears."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.case_excursions import excursions_of, followed_excursions
from kinematics.case_judged import judged, occlusion_of
from kinematics.checkup_result import Checkup
from kinematics.comparing.matched_findings import matched_findings
from kinematics.contact.mounted import GUIDED_BY_TEETH, MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.examining import checkup_of
from kinematics.guidance.excursions import Excursion
from kinematics.planning.findings import Finding
from kinematics.planning.heights import heights_mm
from kinematics.planning.lateral_load import across_per_along
from kinematics.planning.matched_stops import fewer_stops, stopped_pairs
from kinematics.planning.occlusion import Occlusion, root_direction
from kinematics.planning.remedies.flagged import flags_of
from kinematics.planning.remedies.found import Effect, GapCurve, GuideLoad
from kinematics.planning.remedies.wanted import FREE, shares
from kinematics.planning.wording import enumeration, excursion_label, excursion_words
from kinematics.remedies.subject import FlaggedTooth, from_mi
from kinematics.tooth_codes import is_upper
from kinematics.tracks.from_tracks import placed_in

#: What MI itself may differ by, with the tooth and without: as much is left out of account, mm.
SLACK_MM: Final = 2e-3
_IN_MI: Final = "in MI"


def run_again(flagged: FlaggedTooth, case: Case, casts: MountedCasts) -> Checkup:
    """Take changed casts through all excursions and judge them, as `examined` does."""
    subject = flagged.subject
    sweeps = followed_excursions(case, casts, excursions_of(case), subject.workers)
    placed = placed_in(case.tracked)
    return checkup_of(case, casts, subject.borders, sweeps, subject.workers, placed)


def effect_of(
    flagged: FlaggedTooth, case: Case, casts: MountedCasts, guides: Sequence[int] = ()
) -> Effect:
    """Run a changed case and say what is different.

    Parameters
    ----------
    flagged : FlaggedTooth
        The tooth that is to be cleared.
    case, casts : Case, MountedCasts
        With the change.
    guides : sequence of int
        Upper teeth whose guiding surface was built up.
    """
    subject = flagged.subject
    after = run_again(flagged, case, casts)
    occlusion = occlusion_of(case, casts, subject.workers)
    matched = matched_findings(subject.found.findings, after.findings)
    was, now = (stopped_pairs(run.stops) for run in (subject.found, after))
    lacks_mm, where = lacking(occlusion, after.sweeps, flagged)
    return Effect(
        stops_kept=tuple(pair for pair in was if pair in now),
        stops_lost=tuple(pair for pair in was if pair not in now),
        stops_new=tuple(pair for pair in now if pair not in was),
        lacks_mm=lacks_mm,
        lacks_where=where,
        still=flags_of(after.findings, flagged.tooth),
        gone=tuple(filter(None, (_graver_alone(item.before, item.after) for item in matched))),
        new=tuple(filter(None, (_graver_alone(item.after, item.before) for item in matched))),
        changed=sum(item.state == "changed" for item in matched),
        loads=tuple(_guide_load(flagged, occlusion, after.sweeps, guide) for guide in guides),
        curve=_curve(flagged, after.sweeps),
        stops_fewer=tuple(fewer_stops(subject.found.stops, after.stops)),
    )


def excursions_with(flagged: FlaggedTooth, effect: Effect) -> tuple[Excursion, ...]:
    """Return the excursions that tell against a tooth by a full run, the first of the case first.

    All of them where it is not told which: a slide, or a distance that is wanting.
    """
    every = excursions_of(flagged.subject.case)
    told = {item.excursion for item in effect.still}
    if None in told or effect.lacks_mm > 0.0:
        return every
    return (every[0], *(one for one in every[1:] if excursion_label(one) in told))


def is_quiet_in(
    flagged: FlaggedTooth, case: Case, casts: MountedCasts, excursions: tuple[Excursion, ...]
) -> bool:
    """Tell whether nothing is said against a tooth, and it lacks nothing, in some excursions."""
    workers = flagged.subject.workers
    every = excursions_of(case)
    if excursions == every:
        return effect_of(flagged, case, casts).clears
    sweeps = followed_excursions(case, casts, excursions, workers)
    said = judged(case, casts, sweeps, workers)
    return not flags_of(said.findings, flagged.tooth)


def not_clear_words(effect: Effect) -> str:
    """Return why a tooth is not clear by a full run."""
    if effect.lacks_mm > 0.0 and effect.lacks_where == _IN_MI:
        return f"a full run finds it {effect.lacks_mm:.2f} mm too high in MI"
    if effect.lacks_mm > 0.0:
        return (
            f"it lacks {effect.lacks_mm:.2f} mm of the distance wanted by a full run"
            f" {effect.lacks_where}"
        )
    kinds = enumeration(dict.fromkeys(item.kind for item in effect.still))
    return f"a full run still tells of it: {kinds}"


def _graver_alone(one: Finding | None, other: Finding | None) -> Finding | None:
    """Return a finding that one run has and another has not, or only as a note."""
    if one is None or (other is not None and (other.severity != "note" or one.severity == "note")):
        return None
    return one


def lacking(
    occlusion: Occlusion, sweeps: Sequence[Sweep], flagged: FlaggedTooth
) -> tuple[float, str]:
    """Return how much a tooth lacks of what is wanted along some sweeps, mm, and where.

    Nothing where that is no more than MI itself differs by.
    """
    most, where, tooth = SLACK_MM, "", flagged.tooth
    in_mi = float(heights_mm(occlusion, from_mi(sweeps), frozenset({tooth}))[0])
    if in_mi - flagged.held_in_mi_mm > most:
        most, where = in_mi - flagged.held_in_mi_mm, _IN_MI
    for one in flagged.wanted:
        sweep = sweeps[one.excursion]
        asked, share = shares(occlusion, sweep)
        lacks = np.full(len(asked), -np.inf)
        for code, mm in one.distance_mm.items():
            if mm > 0.0:
                lacks = np.maximum(lacks, share * mm - gaps_of(sweep, tooth, (code,)))
        if min(one.distance_mm.values()) <= 0.0:
            held = heights_mm(occlusion, sweep, frozenset({tooth}))
            lacks = np.maximum(lacks, np.where(held > occlusion.settings.tolerance_mm, held, 0.0))
        lacks[~asked] = -np.inf
        row = int(np.argmax(lacks))
        if lacks[row] > most:
            most = float(lacks[row])
            where = f"in {excursion_words(sweep.excursion)} at {sweep.travel_mm[row]:.1f} mm"
    return (most if where else 0.0), where


def gaps_of(sweep: Sweep, tooth: int, others: Sequence[int]) -> Floats:
    """Return the shortest distance of a tooth from some opponents in every pose, (n,), mm."""
    uppers, lowers = ((tooth,), others) if is_upper(tooth) else (others, (tooth,))
    rows = np.isin(sweep.upper_codes, uppers)
    columns = np.isin(sweep.lower_codes, lowers)
    return np.asarray(sweep.pair_gap_mm[:, rows][:, :, columns].min(axis=(1, 2)))


def _curve(flagged: FlaggedTooth, after: Sequence[Sweep]) -> GapCurve:
    """Return the excursion in which the tooth lacks most as the case is."""
    before = flagged.subject.found.sweeps
    near = flagged.judge.too_near(flagged.mesh)
    number = flagged.wanted[0].excursion if near is None or near.sweep < 0 else near.sweep
    one = next(item for item in flagged.wanted if item.excursion == number)
    others = tuple(one.distance_mm)
    asked, share = shares(flagged.subject.occlusion, after[number])
    least = np.stack([after[number].travel_mm, share * max(one.most_mm, FREE)], axis=1)[asked]
    sides = [
        np.stack([run[number].travel_mm, gaps_of(run[number], flagged.tooth, others)], axis=1)
        for run in (before, after)
    ]
    return GapCurve(excursion_label(before[number].excursion), sides[0], sides[1], least)


def _guide_load(
    flagged: FlaggedTooth, occlusion: Occlusion, after: Sequence[Sweep], guide: int
) -> GuideLoad:
    before = flagged.subject
    return GuideLoad(
        guide,
        _most_across(before.occlusion, before.found.sweeps, guide),
        _most_across(occlusion, after, guide),
    )


def _most_across(occlusion: Occlusion, sweeps: Sequence[Sweep], guide: int) -> float | None:
    """Return the greatest N across per N along of an upper tooth while it carries the jaw."""
    most = None
    for sweep in sweeps:
        asked, _ = shares(occlusion, sweep)
        met = sweep.closures
        rows = asked & (met.tooth_upper == guide) & (sweep.guide == GUIDED_BY_TEETH)
        for row in np.flatnonzero(rows):
            root = root_direction(occlusion, guide, sweep.poses[row])
            across = across_per_along(met.normal[row], root)
            most = across if most is None else max(most, across)
    return most
