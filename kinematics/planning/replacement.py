"""Replacement teeth that would touch in an excursion and carry lateral load."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from kinematics.contact.contacts import Patches, patches
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.planning.base_rules import breaches, place_in, rule_of, scheme_in, severity_of
from kinematics.planning.contact_runs import (
    Run,
    comes_first,
    judged,
    moved,
    pair_gaps_of,
    pairs_within,
    point_of,
    runs,
)
from kinematics.planning.findings import Severity
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.heights import heights_mm
from kinematics.planning.judging import DentureBase
from kinematics.planning.lateral_load import (
    across_per_along,
    angle_to_axis_deg,
    sliding_at,
    with_friction,
)
from kinematics.planning.occlusion import Occlusion, centre_of, root_direction
from kinematics.planning.runner_up import runner_up_words
from kinematics.planning.wording import excursion_label
from kinematics.tooth_codes import is_upper

Standing = Literal["against its scheme", "allowed by its scheme", "near MI only"]


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
        Range of travel.
    least_gap_mm : float
        Shortest distance in that range. This and all that follows is read in its judged part,
        beyond the near-MI length, where it has one.
    place : tuple of float
        Where the height is greatest or, where it holds nothing open, the gap is least; hinge
        frame, mm. The angle, the load and the lever are read there.
    height_mm : float
        How far the replacement tooth holds the others open (along the closing arc), 0 if it
        does not; inf where nothing else would meet.
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
    height_at_mm : float
        Travel at which the height is greatest.
    runner_up : str
        What would touch next there, in words.
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
    height_at_mm: float = 0.0
    runner_up: str = ""


@dataclass(frozen=True)
class _Found:
    """Where along a sweep a pair touches or comes near, and what that means."""

    poses: Ints
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
            within = judged(sweep, occlusion.settings)
            scheme = scheme_in(occlusion, sweep, base, within)
            for tooth in base.teeth:
                found += _of_tooth(occlusion, sweep, base, tooth, scheme, within)
    return tuple(found)


def _of_tooth(
    occlusion: Occlusion,
    sweep: Sweep,
    base: DentureBase,
    tooth: int,
    scheme: str,
    within: Bools,
) -> list[ReplacementContact]:
    settings = occlusion.settings
    shown = moved(sweep, settings)
    limit = max(settings.approach_margin_mm, settings.tolerance_mm)
    pairs = [pair for pair in pairs_within(sweep, shown, limit) if tooth in pair]
    if not pairs:
        return []
    height = heights_mm(occlusion, sweep, tooth)
    found = []
    for pair in pairs:
        own = np.where(comes_first(sweep, pair), height, 0.0)
        what = _what(occlusion, sweep, pair, scheme, own, (shown, within))
        if what is not None:
            found.append(_contact(occlusion, sweep, base, pair, scheme, own, what))
    return found


def _what(
    occlusion: Occlusion,
    sweep: Sweep,
    pair: Pair,
    scheme: str,
    height_mm: Floats,
    masks: tuple[Bools, Bools],
) -> _Found | None:
    """Return the gravest of what a pair does: breach, approach, allowed, near MI; None: nothing."""
    settings, (shown, within) = occlusion.settings, masks
    gap = pair_gaps_of(sweep, *pair)
    touches = shown & (gap <= settings.tolerance_mm)
    near = shown & ((gap < settings.approach_margin_mm) | touches)
    rule = rule_of(scheme, place_in(sweep, pair))
    breach = _reaching(breaches(rule, settings, touches, height_mm), within)
    if len(breach):
        return _Found(breach, True, "against its scheme")
    if rule.breach == "touches or comes near":
        staying = [run for run in runs(near) if _stays(run, gap, shown, within)]
        if staying:
            return _Found(_poses_of(staying), False, "against its scheme")
    allowed = _reaching(touches, within)
    if len(allowed):
        return _Found(allowed, True, "allowed by its scheme")
    listed = touches if touches.any() else near
    return (
        _Found(np.flatnonzero(listed), bool(touches.any()), "near MI only") if near.any() else None
    )


def _reaching(mask: Bools, within: Bools) -> Ints:
    """Return the poses of those runs of a mask that reach into the judged travel."""
    return _poses_of([run for run in runs(mask) if within[run.first : run.last + 1].any()])


def _poses_of(found: list[Run]) -> Ints:
    poses = [np.arange(run.first, run.last + 1) for run in found]
    return np.concatenate(poses) if poses else np.empty(0, dtype=np.int64)


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


def _contact(
    occlusion: Occlusion,
    sweep: Sweep,
    base: DentureBase,
    pair: Pair,
    scheme: str,
    height_mm: Floats,
    what: _Found,
) -> ReplacementContact:
    settings = occlusion.settings
    beyond = what.poses[judged(sweep, settings)[what.poses]]
    poses = beyond if len(beyond) else what.poses
    upper_base = is_upper(base.teeth[0])
    tooth, opponent = pair if upper_base else pair[::-1]
    gap = pair_gaps_of(sweep, *pair)
    pose = int(poses[np.lexsort((gap[poses], -height_mm[poses]))[0]])
    place, normal = _place_and_normal(occlusion, sweep, pose, pair)
    root = root_direction(occlusion, tooth, sweep.poses[pose])
    push = with_friction(normal, sliding_at(sweep, pose, place), settings.friction_coefficient)
    sign = 1.0 if upper_base else -1.0
    across = across_per_along(sign * push, root)
    abutment, lever = _lever(occlusion, base, sweep.poses[pose], place)
    height = float(height_mm[pose]) if what.touches else 0.0
    turning = across * lever if lever > 0.0 else 0.0
    against = what.standing == "against its scheme"
    return ReplacementContact(
        base=base.name,
        tooth=tooth,
        opponent=opponent,
        excursion=excursion_label(sweep.excursion),
        touches=what.touches,
        travel_from_mm=float(sweep.travel_mm[what.poses[0]]),
        travel_to_mm=float(sweep.travel_mm[what.poses[-1]]),
        least_gap_mm=float(gap[poses].min()),
        place=point_of(place),
        height_mm=height,
        normal_to_axis_deg=angle_to_axis_deg(sign * normal, root),
        across_per_along=across,
        lever_mm=lever,
        severity=severity_of(what.touches, against, height, turning, settings.tolerance_mm),
        standing=what.standing,
        scheme=scheme,
        abutment=abutment,
        height_at_mm=float(sweep.travel_mm[pose]),
        runner_up=runner_up_words(sweep, pose, pair),
    )


def _place_and_normal(
    occlusion: Occlusion, sweep: Sweep, pose: int, pair: Pair
) -> tuple[Floats, Floats]:
    """Return place and unit normal (lower pushes upper) where a pair is nearest in one pose.

    The mean normal of the contact patch is taken, since that of a single triangle or edge depends
    on the mesh. For an approach the patch is drawn with a tolerance just above the gap.
    """
    within = sweep.patches
    row = _nearest_row(within, pose, pair)
    if row is None:
        reach = float(pair_gaps_of(sweep, *pair)[pose]) + sweep.tolerance_mm
        within = patches(occlusion.casts.pair, sweep.poses[pose][None], reach)
        row = _nearest_row(within, 0, pair)
    if row is None:
        raise RuntimeError(
            f"{pair} at {sweep.travel_mm[pose]} mm: nearer than {reach} mm, no patch"
        )
    return within.centroid[row], within.normal[row]


def _nearest_row(within: Patches, pose: int, pair: Pair) -> int | None:
    rows = np.flatnonzero(
        (within.pose == pose) & (within.tooth_upper == pair[0]) & (within.tooth_lower == pair[1])
    )
    if len(rows) == 0:
        return None
    order = np.lexsort((-within.area_mm2[rows], within.least_gap_mm[rows]))
    return int(rows[order[0]])


def _lever(
    occlusion: Occlusion, base: DentureBase, pose: Floats, place: Floats
) -> tuple[int, float]:
    """Return the nearest abutment and the horizontal distance to its centre; (0, 0) for none."""
    apart = [
        (float(np.linalg.norm((centre_of(occlusion, code, pose) - place)[:2])), code)
        for code in base.abutments
    ]
    distance, code = min(apart, default=(0.0, 0))
    return code, distance
