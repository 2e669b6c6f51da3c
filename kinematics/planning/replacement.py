"""Replacement teeth that would touch in an excursion and carry lateral load."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.planning.base_rules import Decider, hold_limit_mm, place_in, rule_of, severity_of
from kinematics.planning.contact_runs import is_broken, lasts, pair_gaps_of, pairs_within, runs
from kinematics.planning.findings import Severity
from kinematics.planning.grazing import GRAZING_TRAVEL_MM, grazes
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replacement_balance import Unbalanced, unbalanced
from kinematics.planning.replacement_load import push_on
from kinematics.planning.replacement_scene import (
    Found,
    Scene,
    Standing,
    height_alone,
    held_by,
    scene_of,
    seen_from,
    what_is_found,
)
from kinematics.planning.runner_up import runner_up_words
from kinematics.planning.wording import excursion_label


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
        do not. Where without these nothing else would meet, or the base carries its whole arch,
        that of this tooth alone; inf where nothing at all would meet without it.
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
    decided_by : str
        What made the severity, a word of `SeverityRow`.
    on_end_mm : float
        Longest travel on end over which the others are held open by more than the limit of
        `holding`.
    unbalanced : Unbalanced or None
        Where it is not balanced, on a balanced base without which nothing else would meet.
    least_gap_at_mm : float
        Travel at which the shortest distance was read.
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
    decided_by: Decider = "touches"
    on_end_mm: float = 0.0
    unbalanced: Unbalanced | None = None
    least_gap_at_mm: float = 0.0


def replacement_contacts(
    occlusion: Occlusion, sweeps: tuple[Sweep, ...]
) -> tuple[ReplacementContact, ...]:
    """Return what every replacement tooth does in every excursion.

    Each contact and each approach nearer than the margin is listed, judged by the scheme of its
    base. Within the near-MI length they are listed only; an approach from there counts as
    leaving, and is listed only, if it is clear of the margin within `LEAVING_TRAVEL_MM` beyond it
    without coming nearer than it was. Where nothing but a base meets, what it holds open cannot be
    told by leaving it out: its teeth are then judged singly and, if the base is balanced, by
    whether teeth of the other side balance them.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, their bases, and how they are judged.
    sweeps : tuple of Sweep
        The excursions.
    """
    found = (contacts_of_base(occlusion, sweeps, base) for base in occlusion.bases)
    return tuple(contact for contacts in found for contact in contacts)


def contacts_of_base(
    occlusion: Occlusion, sweeps: Sequence[Sweep], base: DentureBase
) -> tuple[ReplacementContact, ...]:
    """Return what the teeth of one base of `replacement_contacts` do."""
    settings = occlusion.settings
    limit = max(settings.approach_margin_mm, settings.tolerance_mm)
    found = []
    for sweep in sweeps:
        scene = scene_of(occlusion, sweep, base)
        near = pairs_within(sweep, scene.moved, limit)
        for tooth in base.teeth:
            found += _of_tooth(scene, [pair for pair in near if tooth in pair])
    return tuple(found)


def _of_tooth(scene: Scene, pairs: list[Pair]) -> list[ReplacementContact]:
    """Return what a replacement tooth does in its pairs that come near."""
    does = ((pair, what_is_found(scene, pair)) for pair in pairs)
    return [_contact(scene, pair, what) for pair, what in does if what is not None]


def _contact(scene: Scene, pair: Pair, what: Found) -> ReplacementContact:
    occlusion, sweep, base = scene.occlusion, scene.sweep, scene.base
    settings = occlusion.settings
    tooth, opponent = seen_from(base, pair)
    beyond = what.where & scene.judged
    read = beyond if beyond.any() else what.where
    whole, poses = np.flatnonzero(what.where), np.flatnonzero(read)
    gap = pair_gaps_of(sweep, *pair)
    least = int(poses[np.argmin(gap[poses])])
    touches = read & (gap <= settings.tolerance_mm)
    held = np.where(touches, held_by(scene, pair, touches), 0.0)
    alone = height_alone(scene, pair, read)
    pose = int(poses[np.lexsort((gap[poses], -alone[poses], -held[poses]))[0]])
    push = push_on(occlusion, sweep, base, pose, pair)
    limit_mm = hold_limit_mm(rule_of(scene.scheme, place_in(sweep, pair)), settings)
    row = severity_of(
        touches=what.touches,
        against=what.standing == "against its scheme",
        guides=not grazes(sweep, held, read, limit_mm),
        carries=lasts(sweep, touches & (scene.held_mm > 0.0), GRAZING_TRAVEL_MM),
        turning_mm=push.turning_mm,
    )
    return ReplacementContact(
        base=base.name,
        tooth=tooth,
        opponent=opponent,
        excursion=excursion_label(sweep.excursion),
        touches=what.touches,
        travel_from_mm=float(sweep.travel_mm[whole[0]]),
        travel_to_mm=float(sweep.travel_mm[whole[-1]]),
        least_gap_mm=float(gap[least]),
        place=push.place,
        height_mm=float(held[pose]),
        normal_to_axis_deg=push.normal_to_axis_deg,
        across_per_along=push.across_per_along,
        lever_mm=push.lever_mm,
        severity=row.severity,
        standing=what.standing,
        scheme=scene.scheme,
        abutment=push.abutment,
        read_at_mm=float(sweep.travel_mm[pose]),
        runner_up=runner_up_words(sweep, pose, pair),
        broken=is_broken(what.where),
        holding=_holding(sweep, held, limit_mm) if beyond.any() else None,
        height_alone_mm=float(alone[pose]),
        decided_by=row.decides,
        on_end_mm=_on_end_mm(sweep, held > limit_mm),
        unbalanced=unbalanced(occlusion, sweep, pair, what.lone),
        least_gap_at_mm=float(sweep.travel_mm[least]),
    )


def _on_end_mm(sweep: Sweep, mask: Bools) -> float:
    """Return the longest travel of a run of poses in a mask, shape (n,)."""
    travel = sweep.travel_mm
    return max((float(travel[run.last] - travel[run.first]) for run in runs(mask)), default=0.0)


def _holding(sweep: Sweep, held_mm: Floats, limit_mm: float) -> Holding | None:
    """Return where a contact holds open by more than a limit; None where it does not."""
    holds = held_mm > limit_mm
    if not holds.any():
        return None
    travel = sweep.travel_mm[holds]
    return Holding(limit_mm, float(travel[0]), float(travel[-1]), is_broken(holds))
