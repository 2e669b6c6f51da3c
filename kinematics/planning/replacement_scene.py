"""What a pair with a replacement tooth does in one excursion, and what it holds open."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.planning.base_rules import (
    LEAVING_TRAVEL_MM,
    breaches,
    place_in,
    rule_of,
    scheme_in,
)
from kinematics.planning.contact_runs import (
    Run,
    comes_first,
    covered,
    judged,
    lasts,
    moved,
    pair_gaps_of,
    reaching,
    runs,
)
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.heights import heights_mm
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replacement_balance import balance_gap_mm
from kinematics.tooth_codes import is_upper

Standing = Literal["against its scheme", "allowed by its scheme", "near MI only"]

#: Two teeth that tie hold each other open by the rounding of a closure: by nothing.
_ROUNDING_MM: Final = 1e-9


@dataclass(frozen=True)
class Scene:
    """One base in one excursion.

    `moved` and `judged` are the poses that are listed and judged; `held_mm` is how far the teeth
    of the base hold all others open, `alone_mm` how far each alone does where it touches first;
    `all_there_is` are the poses in which leaving these out does not tell what they hold open, as
    nothing else would meet; all of shape (n,).
    """

    occlusion: Occlusion
    sweep: Sweep
    base: DentureBase
    scheme: str
    moved: Bools
    judged: Bools
    held_mm: Floats
    alone_mm: Mapping[int, Floats]
    all_there_is: Bools


@dataclass(frozen=True)
class Found:
    """Where along a sweep, in a mask (n,), a pair touches or comes near, and what that means.

    `lone` are the judged poses, shape (n,), in which it wants a balance that is not there.
    """

    where: Bools
    lone: Bools
    touches: bool
    standing: Standing


def scene_of(occlusion: Occlusion, sweep: Sweep, base: DentureBase) -> Scene:
    """Return one base in one excursion, with what its teeth together hold open."""
    settings = occlusion.settings
    within = judged(sweep, settings)
    scheme = scheme_in(occlusion, sweep, base, within)
    held = heights_mm(occlusion, sweep, frozenset(base.teeth))
    arch = occlusion.casts.upper if is_upper(base.teeth[0]) else occlusion.casts.lower
    whole = set(arch.codes) <= set(base.teeth)
    all_there_is = (held > 0.0) if whole else np.isinf(held)
    shown = moved(sweep, settings)
    touching = {*sweep.closures.tooth_upper.tolist(), *sweep.closures.tooth_lower.tolist()}
    alone = {
        tooth: heights_mm(occlusion, sweep, frozenset({tooth}))
        for tooth in base.teeth
        if tooth in touching
    }
    return Scene(occlusion, sweep, base, scheme, shown, within, held, alone, all_there_is)


def what_is_found(scene: Scene, pair: Pair) -> Found | None:
    """Return the gravest of what a pair does: breach, approach, allowed, near MI; None: nothing."""
    sweep, settings, within = scene.sweep, scene.occlusion.settings, scene.judged
    gap = pair_gaps_of(sweep, *pair)
    touches = scene.moved & (gap <= settings.tolerance_mm)
    near = scene.moved & ((gap < settings.approach_margin_mm) | touches)
    touching = reaching(touches, within)
    rule = rule_of(scene.scheme, place_in(sweep, pair))
    lone = touches & within & _lone(scene, pair)
    held = held_by(scene, pair, touches)
    if (breaches(rule, settings, touches, held) & within).any() or lone.any():
        return Found(touching, lone, True, "against its scheme")
    if rule.breach == "touches or comes near":
        staying = [run for run in runs(near) if _stays(run, gap, scene)]
        if staying:
            return Found(covered(staying, len(gap)), lone, False, "against its scheme")
    if touching.any():
        return Found(touching, lone, True, "allowed by its scheme")
    if not near.any():
        return None
    return Found(touches if touches.any() else near, lone, bool(touches.any()), "near MI only")


def _lone(scene: Scene, pair: Pair) -> Bools:
    """Return where, shape (n,), a base that is all there is should balance a pair and does not."""
    if scene.scheme != "balanced" or not scene.all_there_is.any():
        return np.zeros(len(scene.judged), dtype=np.bool_)
    tolerance = scene.occlusion.settings.balanced_tolerance_mm
    asked = scene.all_there_is & scene.judged
    return asked & (balance_gap_mm(scene.occlusion, scene.sweep, pair, asked) > tolerance)


def held_by(scene: Scene, pair: Pair, touches: Bools) -> Floats:
    """Return how far, shape (n,), the base, or where it is all there is this tooth, holds open."""
    singly = touches & scene.all_there_is
    if not singly.any():
        return scene.held_mm
    return np.where(scene.all_there_is, height_alone(scene, pair, singly), scene.held_mm)


def _stays(run: Run, gap_mm: Floats, scene: Scene) -> bool:
    """Tell whether an approach stays or deepens beyond the near-MI length.

    One that begins beyond it always counts. One that comes out of MI counts unless it leaves: it
    is clear of the margin within `LEAVING_TRAVEL_MM` of judged travel beyond the near-MI end, and
    never nearer than there.
    """
    sweep, shown, within = scene.sweep, scene.moved, scene.judged
    poses = np.arange(run.first, run.last + 1)
    beyond = within[poses]
    if not beyond.any():
        return False
    if beyond[0]:
        return True
    near_end = int(poses[~beyond][-1])
    still_near = covered([Run(near_end, run.last)], len(gap_mm))
    if run.last == int(np.flatnonzero(shown)[-1]) or lasts(sweep, still_near, LEAVING_TRAVEL_MM):
        return True
    return bool(gap_mm[poses[beyond]].min() <= gap_mm[near_end])


def height_alone(scene: Scene, pair: Pair, read: Bools) -> Floats:
    """Return how far one tooth holds all others open, mm, where it is first in a pose read."""
    first = read & comes_first(scene.sweep, pair)
    if not first.any():
        return np.zeros(len(first))
    tooth, _ = seen_from(scene.base, pair)
    heights = scene.alone_mm[tooth]
    return np.where(first & (heights > _ROUNDING_MM), heights, 0.0)


def seen_from(base: DentureBase, pair: Pair) -> Pair:
    """Return the tooth of the base in a pair, then its opponent."""
    return pair if is_upper(base.teeth[0]) else pair[::-1]
