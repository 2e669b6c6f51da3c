"""Contacts of natural teeth that interfere, found by the table of rules."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.mounted import GUIDED_BY_TEETH
from kinematics.contact.sweep import Sweep
from kinematics.conventions import LEFT, RIGHT, Bools, Floats
from kinematics.planning.contact_runs import (
    carries,
    comes_first,
    contact_place,
    is_broken,
    judged,
    pair_gaps_of,
    pairs_within,
    reaching,
    upto_edge,
    upto_last_reading,
)
from kinematics.planning.farther_gaps import least_gaps_over
from kinematics.planning.findings import Severity
from kinematics.planning.grazing import grazes
from kinematics.planning.guidance_kinds import (
    Pair,
    is_posterior_pair,
    role,
    side_of,
    working_side,
)
from kinematics.planning.heights import Height, greatest, heights_mm
from kinematics.planning.interference_rules import (
    Against,
    Contact,
    Rule,
    movement_of,
    rules_for,
)
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.rocking import condyle_distraction_mm
from kinematics.planning.runner_up import runner_up_words


@dataclass(frozen=True)
class Interference:
    """One row of the table that fits one tooth pair (or none) in one excursion.

    Attributes
    ----------
    rule : Rule
        The row.
    pair : (int, int) or None
        Upper and lower tooth; None where the row says that a contact is missing.
    travel_from_mm, travel_to_mm : float
        First and last travel at which the pair touches (of a missing contact, is missing; where
        the row asks for lifting alone, lifts), in runs that reach into the judged travel.
    broken : bool
        True where it does not do so all the way between the two.
    interfering_mm : (float, float)
        First and last judged travel at which the row fits.
    place : tuple of float or None
        Place of the contact where it shows most, hinge frame, mm. This and all that follows is read
        in the judged part of the range.
    least_gap_mm : float
        Shortest distance of the pair; of the missing contact, its greatest.
    least_gap_at_mm : float
        Travel at which it was read.
    held_open_mm : float
        Greatest shortest distance of the nearest pair held open while this pair carries the jaw; 0
        where the row does not ask; inf beyond what the sweep measured.
    held_open_at_mm : float
        Travel at which it was read.
    near_start_mm : float
        Greatest height or distance held open within the near-MI length, which is not judged; 0
        where the pair does not touch there.
    heights : tuple of Height
        Height of each judged tooth.
    runner_up : str
        What would touch next there.
    grazes : bool
        True where the row would be serious but the contact holds open too little and too briefly.
    condyle_distraction_mm : float or None
        Of a nonworking contact: how far the nonworking condyle leaves its place when the jaw
        rocks about contact and working condyle until the canine touches.
    carried_by : (int, int) or None
        Of a contact that holds nothing open: the pair that carries the jaw instead.
    carried_at_mm : float
        Travel at which it does.
    """

    rule: Rule
    pair: Pair | None
    travel_from_mm: float
    travel_to_mm: float
    broken: bool
    interfering_mm: tuple[float, float]
    place: tuple[float, float, float] | None
    least_gap_mm: float
    least_gap_at_mm: float
    held_open_mm: float
    held_open_at_mm: float
    near_start_mm: float
    heights: tuple[Height, ...]
    runner_up: str
    grazes: bool = False
    condyle_distraction_mm: float | None = None
    carried_by: Pair | None = None
    carried_at_mm: float = 0.0

    @property
    def severity(self) -> Severity:
        """Severity of the row; what only grazes is never serious."""
        return "attention" if self.grazes else self.rule.severity

    @property
    def most_held_mm(self) -> float:
        """Greatest height or distance held open in the judged part, mm."""
        return max(self.held_open_mm, *(height.height_mm for height in self.heights), 0.0)


@dataclass(frozen=True)
class _Scene:
    """What the conditions need of one sweep, computed once."""

    occlusion: Occlusion
    sweep: Sweep
    side: int
    judged: Bools
    heights: dict[int, Floats]


def interferences(occlusion: Occlusion, sweep: Sweep) -> tuple[Interference, ...]:
    """Return what interferes in one excursion by the scheme of the natural teeth.

    Contacts of replacement teeth are left to the scheme of their base.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweep : Sweep
        One excursion.
    """
    settings = occlusion.settings
    mask = judged(sweep, settings)
    rules = rules_for(settings.scheme, movement_of(sweep.excursion))
    if not rules or not mask.any():
        return ()
    side = working_side(sweep.excursion)
    pairs = [
        pair
        for pair in pairs_within(sweep, mask, settings.tolerance_mm)
        if not occlusion.has_replacement(pair)
        and any(looks_at(rule.contact, pair, side) for rule in rules)
    ]
    teeth = sorted({tooth for pair in pairs for tooth in occlusion.judged_teeth(pair)})
    heights = {tooth: heights_mm(occlusion, sweep, frozenset({tooth})) for tooth in teeth}
    scene = _Scene(occlusion, sweep, side, mask, heights)
    found = [_first_fit(scene, pair, rules) for pair in pairs]
    found += [_missing(scene, rule) for rule in rules if rule.condition == "is missing"]
    return tuple(item for item in found if item is not None)


def _first_fit(scene: _Scene, pair: Pair, rules: tuple[Rule, ...]) -> Interference | None:
    for rule in rules:
        if rule.condition == "is missing" or not looks_at(rule.contact, pair, scene.side):
            continue
        held = _held_open(scene, rule.against, pair) if rule.condition == "holds open" else None
        fits = _fits(scene, rule, pair, held)
        if (fits & scene.judged).any():
            return _interference(scene, rule, pair, fits, held)
    return None


def looks_at(contact: Contact, pair: Pair, side: int) -> bool:
    """Tell whether a pair is one of those a row looks at."""
    match contact:
        case "any" | "first contact":
            return True
        case "working posterior":
            return role(pair, side) == "posterior"
        case "nonworking":
            return role(pair, side) == "nonworking"
        case "anterior":
            return not is_posterior_pair(pair)
        case "posterior":
            return is_posterior_pair(pair)
        case "right posterior":
            return is_posterior_pair(pair) and side_of(pair) == RIGHT
        case "left posterior":
            return is_posterior_pair(pair) and side_of(pair) == LEFT


def _fits(scene: _Scene, rule: Rule, pair: Pair, held: Floats | None) -> Bools:
    """Return the poses, shape (n,), in which a row's condition is true of a pair.

    `held` is what `_held_open` returned where the row asks for it.
    """
    sweep, settings = scene.sweep, scene.occlusion.settings
    shown = upto_edge(sweep, settings)
    height = np.max(list(_heights(scene, pair).values()), axis=0)
    if rule.condition == "lifts":
        return np.asarray(shown & (height > settings.balanced_tolerance_mm))
    touches: Bools = shown & (pair_gaps_of(sweep, *pair) <= settings.tolerance_mm)
    if rule.condition == "touches":
        return touches
    if held is None:
        return np.zeros(len(shown), dtype=np.bool_)
    # Several teeth that touch together hold the rest open though each alone has no height; and
    # a height along the arc may be above the tolerance where the shortest distance is not yet.
    holds = np.maximum(held, height) > settings.tolerance_mm
    holds &= sweep.guide == GUIDED_BY_TEETH
    return np.asarray(touches & holds)


def _heights(scene: _Scene, pair: Pair) -> dict[int, Floats]:
    """Return the height of each judged tooth, shape (n,), where this pair is the first contact."""
    first = comes_first(scene.sweep, pair)
    judged_teeth = scene.occlusion.judged_teeth(pair)
    return {tooth: np.where(first, scene.heights[tooth], 0.0) for tooth in judged_teeth}


def _held_open(scene: _Scene, against: Against, pair: Pair) -> Floats | None:
    """Return the gap of the nearest pair that a contact holds open; None: there is none to hold.

    It is 0 wherever another contact carries the jaw: that one holds open, not this.
    """
    sweep = scene.sweep
    wanted = {
        "": (),
        "the front teeth": ("incisor", "canine"),
        "the working side": ("canine", "posterior"),
        "the working side and the incisors": ("incisor", "canine", "posterior"),
    }[against]
    others = [
        (upper, lower)
        for upper in sweep.upper_codes
        for lower in sweep.lower_codes
        if role((upper, lower), scene.side) in wanted and upper != pair[0] and lower != pair[1]
    ]
    if not others:
        return None
    own = carries(sweep, pair, scene.occlusion.settings.stop_tolerance_mm)
    return np.where(own, least_gaps_over(scene.occlusion, sweep, others, own), 0.0)


def _interference(
    scene: _Scene, rule: Rule, pair: Pair, fits: Bools, held: Floats | None
) -> Interference:
    sweep, settings = scene.sweep, scene.occlusion.settings
    gaps, heights = pair_gaps_of(sweep, *pair), _heights(scene, pair)
    touches = upto_edge(sweep, settings) & (gaps <= settings.tolerance_mm)
    within = reaching(fits if rule.condition == "lifts" else touches, scene.judged)
    whole, poses = np.flatnonzero(within), np.flatnonzero(within & scene.judged)
    near, fitting = within & ~scene.judged, np.flatnonzero(fits & scene.judged)
    weight = np.max(list(heights.values()), axis=0)
    if held is not None:
        weight = np.maximum(weight, held)
    # Where the row fits, the weight is what made it fit: it shows most in one of those poses.
    pose = int(fitting[np.lexsort((gaps[fitting], -weight[fitting]))[0]])
    most = pose if held is None else int(poses[int(np.argmax(held[poses]))])
    least = int(poses[int(np.argmin(gaps[poses]))])
    carrier = _carrier(scene, pair, pose) if rule.condition == "touches" else None
    return Interference(
        rule=rule,
        pair=pair,
        travel_from_mm=float(sweep.travel_mm[whole[0]]),
        travel_to_mm=float(sweep.travel_mm[whole[-1]]),
        broken=is_broken(within),
        interfering_mm=(float(sweep.travel_mm[fitting[0]]), float(sweep.travel_mm[fitting[-1]])),
        place=contact_place(sweep, pose, pair),
        least_gap_mm=float(gaps[least]),
        least_gap_at_mm=float(sweep.travel_mm[least]),
        held_open_mm=0.0 if held is None else float(held[most]),
        held_open_at_mm=float(sweep.travel_mm[most]),
        near_start_mm=float(weight[near].max()) if near.any() else 0.0,
        heights=tuple(greatest(values, poses, sweep, tooth) for tooth, values in heights.items()),
        runner_up=runner_up_words(sweep, pose, pair),
        grazes=rule.severity == "serious"
        and grazes(sweep, weight, scene.judged & fits, settings.tolerance_mm),
        condyle_distraction_mm=condyle_distraction_mm(scene.occlusion, sweep, pose, pair)
        if rule.contact == "nonworking" and scene.occlusion.tells_rocking
        else None,
        carried_by=carrier,
        carried_at_mm=float(sweep.travel_mm[pose]),
    )


def _carrier(scene: _Scene, pair: Pair, pose: int) -> Pair | None:
    """Return the pair that carries the jaw in one pose; None where it is this one, or no teeth."""
    sweep, first = scene.sweep, scene.sweep.closures
    upper, lower = int(first.tooth_upper[pose]), int(first.tooth_lower[pose])
    own = carries(sweep, pair, scene.occlusion.settings.stop_tolerance_mm)[pose]
    by_teeth = sweep.guide[pose] == GUIDED_BY_TEETH and min(upper, lower) > 0
    return (upper, lower) if by_teeth and not own else None


def _missing(scene: _Scene, rule: Rule) -> Interference | None:
    """Return where no pair that a row looks at is within the balanced tolerance."""
    sweep, settings = scene.sweep, scene.occlusion.settings
    pairs = [
        (upper, lower)
        for upper in sweep.upper_codes
        for lower in sweep.lower_codes
        if looks_at(rule.contact, (upper, lower), scene.side)
    ]
    where = scene.judged & upto_last_reading(sweep, settings)
    gap = least_gaps_over(scene.occlusion, sweep, pairs, where)
    open_there = where & (gap > settings.balanced_tolerance_mm)
    if not open_there.any():
        return None
    poses = np.flatnonzero(open_there)
    pose = int(poses[int(np.argmax(gap[poses]))])
    return Interference(
        rule=rule,
        pair=None,
        travel_from_mm=float(sweep.travel_mm[poses[0]]),
        travel_to_mm=float(sweep.travel_mm[poses[-1]]),
        broken=is_broken(open_there),
        interfering_mm=(float(sweep.travel_mm[poses[0]]), float(sweep.travel_mm[poses[-1]])),
        place=None,
        least_gap_mm=float(gap[pose]),
        least_gap_at_mm=float(sweep.travel_mm[pose]),
        held_open_mm=0.0,
        held_open_at_mm=float(sweep.travel_mm[pose]),
        near_start_mm=0.0,
        heights=(),
        runner_up=runner_up_words(sweep, pose),
    )
