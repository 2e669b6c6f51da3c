"""Replacement teeth that would touch in an excursion and carry lateral load."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.planning.base_rules import (
    breaches,
    hold_limit_mm,
    place_in,
    rule_of,
    scheme_in,
    severity_of,
)
from kinematics.planning.contact_runs import (
    Run,
    comes_first,
    covered,
    is_broken,
    judged,
    lasts,
    moved,
    pair_gaps_of,
    pairs_within,
    reaching,
    runs,
)
from kinematics.planning.findings import Severity
from kinematics.planning.grazing import GRAZING_TRAVEL_MM, grazes
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.heights import heights_mm
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replacement_load import push_on
from kinematics.planning.runner_up import runner_up_words
from kinematics.planning.wording import excursion_label
from kinematics.tooth_codes import is_upper

Standing = Literal["against its scheme", "allowed by its scheme", "near MI only"]


@dataclass(frozen=True)
class Holding:
    """Where, in the judged travel, the teeth of a base hold all others open by more than a limit.

    Attributes
    ----------
    more_than_mm : float
        The limit: what the scheme of the base allows, else the contact tolerance.
    from_mm, to_mm : float
        First and last travel.
    broken : bool
        True where they do not do so all the way between the two.
    """

    more_than_mm: float
    from_mm: float
    to_mm: float
    broken: bool


@dataclass(frozen=True)
class ReplacementContact:
    """Touch or near approach of one replacement tooth with one opponent in one excursion.

    Attributes
    ----------
    base : str
        Name of the denture base.
    tooth, opponent : int
        ISO 3950 numbers.
    excursion : str
        Name of the excursion; " from CR" is added where it starts there.
    touches : bool
        True: within the tolerance; False: an approach nearer than the margin.
    travel_from_mm, travel_to_mm : float
        First and last travel at which it touches (of an approach, is near), in runs that reach
        into the judged travel.
    least_gap_mm : float
        Shortest distance in that range. This and all that follows is read in its judged part,
        beyond the near-MI length, where it has one.
    place : tuple of float
        Where the height is greatest or, where nothing is held open, the gap is least; hinge frame,
        mm.
    height_mm : float
        How far the teeth of its base hold all others open there (along the closing arc), 0 if they
        do not; inf where nothing else would meet.
    normal_to_axis_deg : float
        Angle between the contact normal and the tooth's long axis.
    across_per_along : float
        N across the axis for every N along it (tangent of that angle, friction added if asked);
        inf where the force has no part along it.
    lever_mm : float
        Horizontal distance to the centre of the nearest abutment; 0 where the base has none.
    severity : str
        By the rule written in the report.
    standing : str
        "against its scheme", "allowed by its scheme" or "near MI only".
    scheme : str
        Scheme by which it was judged in this excursion.
    abutment : int
        The abutment the lever is measured to, 0 for none.
    read_at_mm : float
        Travel at which place, height, angle, load and lever are read.
    runner_up : str
        What would touch next there, in words.
    broken : bool
        True where it does not touch (or is not near) all the way between the two ends.
    holding : Holding or None
        Where its base holds the other teeth open while it touches; None where it does not by more
        than the limit.
    height_alone_mm : float
        How far this tooth alone, all others of its base included, holds them open there.
    """

    base: str
    tooth: int
    opponent: int
    excursion: str
    touches: bool
    travel_from_mm: float
    travel_to_mm: float
    least_gap_mm: float
    place: tuple[float, float, float]
    height_mm: float
    normal_to_axis_deg: float
    across_per_along: float
    lever_mm: float
    severity: Severity
    standing: Standing = "against its scheme"
    scheme: str = ""
    abutment: int = 0
    read_at_mm: float = 0.0
    runner_up: str = ""
    broken: bool = False
    holding: Holding | None = None
    height_alone_mm: float = 0.0


@dataclass(frozen=True)
class _Scene:
    """One base in one excursion.

    `moved` and `judged` are the poses that are listed and judged; `held_mm` is how far the teeth
    of the base hold all others open; all of shape (n,).
    """

    occlusion: Occlusion
    sweep: Sweep
    base: DentureBase
    scheme: str
    moved: Bools
    judged: Bools
    held_mm: Floats


@dataclass(frozen=True)
class _Found:
    """Where along a sweep, in a mask (n,), a pair touches or comes near, and what that means."""

    where: Bools
    touches: bool
    standing: Standing


def replacement_contacts(
    occlusion: Occlusion, sweeps: tuple[Sweep, ...]
) -> tuple[ReplacementContact, ...]:
    """Return what every replacement tooth does in every excursion.

    Each contact and each approach nearer than the margin is listed, judged by the scheme of its
    base. Within the near-MI length they are listed only; an approach from there counts as
    leaving, and is listed only, if it opens beyond the margin without coming nearer than it was.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, their bases, and how they are judged.
    sweeps : tuple of Sweep
        The excursions.
    """
    found = []
    for base in occlusion.bases:
        for sweep in sweeps:
            scene = _scene(occlusion, sweep, base)
            for tooth in base.teeth:
                found += _of_tooth(scene, tooth)
    return tuple(found)


def _scene(occlusion: Occlusion, sweep: Sweep, base: DentureBase) -> _Scene:
    settings = occlusion.settings
    within = judged(sweep, settings)
    scheme = scheme_in(occlusion, sweep, base, within)
    held = heights_mm(occlusion, sweep, frozenset(base.teeth))
    return _Scene(occlusion, sweep, base, scheme, moved(sweep, settings), within, held)


def _of_tooth(scene: _Scene, tooth: int) -> list[ReplacementContact]:
    sweep, settings = scene.sweep, scene.occlusion.settings
    limit = max(settings.approach_margin_mm, settings.tolerance_mm)
    found = []
    for pair in pairs_within(sweep, scene.moved, limit):
        what = _what(scene, pair) if tooth in pair else None
        if what is not None:
            found.append(_contact(scene, pair, what))
    return found


def _what(scene: _Scene, pair: Pair) -> _Found | None:
    """Return the gravest of what a pair does: breach, approach, allowed, near MI; None: nothing."""
    sweep, settings, within = scene.sweep, scene.occlusion.settings, scene.judged
    gap = pair_gaps_of(sweep, *pair)
    touches = scene.moved & (gap <= settings.tolerance_mm)
    near = scene.moved & ((gap < settings.approach_margin_mm) | touches)
    touching = reaching(touches, within)
    rule = rule_of(scene.scheme, place_in(sweep, pair))
    if (breaches(rule, settings, touches, scene.held_mm) & within).any():
        return _Found(touching, True, "against its scheme")
    if rule.breach == "touches or comes near":
        staying = [run for run in runs(near) if _stays(run, gap, scene.moved, within)]
        if staying:
            return _Found(covered(staying, len(gap)), False, "against its scheme")
    if touching.any():
        return _Found(touching, True, "allowed by its scheme")
    if not near.any():
        return None
    return _Found(touches if touches.any() else near, bool(touches.any()), "near MI only")


def _stays(run: Run, gap_mm: Floats, shown: Bools, within: Bools) -> bool:
    """Tell whether an approach stays or deepens beyond the near-MI length.

    One that begins beyond it always counts. One that comes out of MI counts unless it leaves: it
    opens beyond the margin within the judged travel and is never nearer than at the near-MI end.
    """
    poses = np.arange(run.first, run.last + 1)
    beyond = within[poses]
    if not beyond.any():
        return False
    if beyond[0]:
        return True
    leaves = run.last < int(np.flatnonzero(shown)[-1])
    at_near_end = gap_mm[poses[~beyond][-1]]
    return not leaves or bool(gap_mm[poses[beyond]].min() <= at_near_end)


def _contact(scene: _Scene, pair: Pair, what: _Found) -> ReplacementContact:
    occlusion, sweep, base = scene.occlusion, scene.sweep, scene.base
    settings = occlusion.settings
    tooth, opponent = pair if is_upper(base.teeth[0]) else pair[::-1]
    beyond = what.where & scene.judged
    read = beyond if beyond.any() else what.where
    whole, poses = np.flatnonzero(what.where), np.flatnonzero(read)
    gap = pair_gaps_of(sweep, *pair)
    held = np.where(read & (gap <= settings.tolerance_mm), scene.held_mm, 0.0)
    alone = _height_alone(scene, pair, tooth, read)
    pose = int(poses[np.lexsort((gap[poses], -alone[poses], -held[poses]))[0]])
    push = push_on(occlusion, sweep, base, pose, pair)
    rule = rule_of(scene.scheme, place_in(sweep, pair))
    return ReplacementContact(
        base=base.name,
        tooth=tooth,
        opponent=opponent,
        excursion=excursion_label(sweep.excursion),
        touches=what.touches,
        travel_from_mm=float(sweep.travel_mm[whole[0]]),
        travel_to_mm=float(sweep.travel_mm[whole[-1]]),
        least_gap_mm=float(gap[poses].min()),
        place=push.place,
        height_mm=float(held[pose]),
        normal_to_axis_deg=push.normal_to_axis_deg,
        across_per_along=push.across_per_along,
        lever_mm=push.lever_mm,
        severity=severity_of(
            touches=what.touches,
            against=what.standing == "against its scheme",
            guides=not grazes(sweep, held, read, settings.tolerance_mm),
            carries=lasts(sweep, held > 0.0, GRAZING_TRAVEL_MM),
            turning_mm=push.turning_mm,
        ),
        standing=what.standing,
        scheme=scene.scheme,
        abutment=push.abutment,
        read_at_mm=float(sweep.travel_mm[pose]),
        runner_up=runner_up_words(sweep, pose, pair),
        broken=is_broken(what.where),
        holding=_holding(sweep, held, hold_limit_mm(rule, settings)) if beyond.any() else None,
        height_alone_mm=float(alone[pose]),
    )


def _height_alone(scene: _Scene, pair: Pair, tooth: int, read: Bools) -> Floats:
    """Return how far one tooth holds all others open, mm, where it is first in a pose read."""
    first = read & comes_first(scene.sweep, pair)
    if not first.any():
        return np.zeros(len(first))
    return np.where(first, heights_mm(scene.occlusion, scene.sweep, frozenset({tooth})), 0.0)


def _holding(sweep: Sweep, held_mm: Floats, limit_mm: float) -> Holding | None:
    """Return where a contact holds open by more than a limit; None where it does not."""
    holds = held_mm > limit_mm
    if not holds.any():
        return None
    travel = sweep.travel_mm[holds]
    return Holding(limit_mm, float(travel[0]), float(travel[-1]), is_broken(holds))
