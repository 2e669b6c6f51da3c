"""What guides an excursion: readings along it, and one verdict."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from kinematics.contact.mounted import GUIDED_BY_NOTHING, GUIDED_BY_TABLE, GUIDED_BY_TEETH
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.contact_runs import judged, moved, runs
from kinematics.planning.guidance_kinds import (
    NONWORKING_ONLY,
    Pair,
    kind_of,
    role,
    working_side,
)
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.runner_up import runner_up_words
from kinematics.planning.wording import (
    enumeration,
    excursion_label,
    length,
    pair_list,
    pair_name,
    sentence,
    travel_range,
)

#: Kind of a reading at the very start, where MI or CR itself is read and nothing guides yet.
AT_START: Final = {"MI": "in MI", "CR": "in CR"}
#: Kind of an excursion that reaches edge-to-edge within the near-MI length.
NOT_JUDGED: Final = "not judged"
#: More stretches than this are told as shares of the travel.
_MOST_STRETCHES: Final = 3


@dataclass(frozen=True)
class Reading:
    """What touches at one reading position of an excursion, at one tolerance.

    Attributes
    ----------
    travel_mm : float
        Reading position (0, 0.5, 1, 2, 3 mm from the start).
    pose : int
        Index of the pose in its sweep.
    tolerance_mm : float
        Shortest distance up to which a pair counts as touching.
    kind : str
        Guidance kind at this position and tolerance; "in MI" or "in CR" at the start.
    touching : tuple of (int, int)
        Upper and lower tooth numbers of every touching pair.
    crossover : bool
        True beyond edge-to-edge: shown, not judged.
    """

    travel_mm: float
    pose: int
    tolerance_mm: float
    kind: str
    touching: tuple[Pair, ...]
    crossover: bool = False


@dataclass(frozen=True)
class Stretch:
    """Part of the judged travel over which the guidance kind stays the same.

    Attributes
    ----------
    from_mm, to_mm : float
        Travel of its first and last pose.
    kind : str
        Guidance kind.
    touching : tuple of (int, int)
        Pairs that touch somewhere in it.
    guiding : tuple of (int, int)
        Those of them that make the kind: nonworking contacts are left out unless they are alone.
    """

    from_mm: float
    to_mm: float
    kind: str
    touching: tuple[Pair, ...]
    guiding: tuple[Pair, ...]


@dataclass(frozen=True)
class Verdict:
    """What guides one excursion.

    Attributes
    ----------
    excursion : str
        Name of the excursion; " from CR" is added where it starts there.
    kind : str
        Guidance kind over most of the judged travel at the case's tolerance; "not judged" where
        edge-to-edge lies within the near-MI length.
    determined : bool
        False: not determined by these records.
    readings : tuple of Reading
        Every reading position at every tolerance (8, 20, 40, 100 micrometres).
    text : str
        Plain sentences.
    stretches : tuple of Stretch
        How the kind changes over the judged travel.
    working_side : int
        RIGHT, LEFT, or 0 in a straight movement.
    """

    excursion: str
    kind: str
    determined: bool
    readings: tuple[Reading, ...]
    text: str
    stretches: tuple[Stretch, ...] = ()
    working_side: int = 0


def touching_pairs(sweep: Sweep, pose: int, tolerance_mm: float) -> tuple[Pair, ...]:
    """Return the tooth pairs within a shortest distance in one pose, in the order of the arch."""
    within = np.argwhere(sweep.pair_gap_mm[pose] <= tolerance_mm)
    return tuple((sweep.upper_codes[row], sweep.lower_codes[column]) for row, column in within)


def kind_at(sweep: Sweep, pose: int, tolerance_mm: float) -> str:
    """Return the guidance kind in one pose at one tolerance."""
    touching = touching_pairs(sweep, pose, tolerance_mm)
    return kind_of(touching, sweep.excursion, int(sweep.guide[pose]))


def readings(sweep: Sweep, settings: JudgingSettings) -> tuple[Reading, ...]:
    """Read the contacts at every reading position that the sweep reaches, at every tolerance."""
    found = []
    for position in settings.readings_mm:
        pose = _pose_at(sweep, position)
        if pose is None:
            continue
        for tolerance_um in settings.reading_tolerances_um:
            tolerance_mm = 1e-3 * tolerance_um
            start = pose == 0 and position == 0.0
            found.append(
                Reading(
                    travel_mm=position,
                    pose=pose,
                    tolerance_mm=tolerance_mm,
                    kind=AT_START[sweep.excursion.start]
                    if start
                    else kind_at(sweep, pose, tolerance_mm),
                    touching=touching_pairs(sweep, pose, tolerance_mm),
                    crossover=bool(sweep.crossover[pose]),
                )
            )
    return tuple(found)


def _pose_at(sweep: Sweep, position_mm: float) -> int | None:
    """Return the pose nearest to a position; None where the sweep ends before it."""
    apart = np.abs(sweep.travel_mm - position_mm)
    pose = int(np.argmin(apart))
    steps = np.diff(sweep.travel_mm)
    widest = float(steps.max()) if len(steps) else 0.0
    return pose if apart[pose] <= 0.5 * widest * (1.0 + 1e-9) else None


def verdict(sweep: Sweep, settings: JudgingSettings) -> Verdict:
    """Say what guides an excursion.

    The kind is read in every judged pose (beyond the near-MI length, up to edge-to-edge or the
    last reading position; a retrusion is about as short as that length and judged from its
    start). The kind that holds over most of that travel is the verdict.

    Parameters
    ----------
    sweep : Sweep
        One excursion.
    settings : JudgingSettings
        Tolerances and limits.
    """
    retrusive = sweep.excursion.name == RETRUSION
    mask = moved(sweep, settings) if retrusive else judged(sweep, settings)
    label, side = excursion_label(sweep.excursion), working_side(sweep.excursion)
    found = readings(sweep, settings)
    if not mask.any():
        return Verdict(label, NOT_JUDGED, False, found, _not_judged_text(sweep, settings), (), side)
    stretches = _stretches(sweep, mask, settings.tolerance_mm)
    kind = _longest(stretches)
    poses = [reading.pose for reading in found if mask[reading.pose]]
    poses = sorted(set(poses)) or [int(np.flatnonzero(mask)[mask.sum() // 2])]
    doubt = _doubt(sweep, poses, settings)
    text = " ".join(
        part
        for part in (
            _told(kind, stretches),
            _table_text(sweep, mask),
            _nonworking_text(sweep, mask, settings.tolerance_mm),
            _runner_up_text(sweep, poses[len(poses) // 2]),
            doubt,
        )
        if part
    )
    return Verdict(label, kind, not doubt, found, text, stretches, side)


def _stretches(sweep: Sweep, mask: Bools, tolerance_mm: float) -> tuple[Stretch, ...]:
    poses, side = [int(pose) for pose in np.flatnonzero(mask)], working_side(sweep.excursion)
    kinds = [kind_at(sweep, pose, tolerance_mm) for pose in poses]
    cuts = [i for i in range(len(poses)) if i == 0 or kinds[i] != kinds[i - 1]] + [len(poses)]
    found = []
    for first, end in pairwise(cuts):
        within = poses[first:end]
        pairs = {pair for pose in within for pair in touching_pairs(sweep, pose, tolerance_mm)}
        ordered = sorted(
            pairs,
            key=lambda pair: (sweep.upper_codes.index(pair[0]), sweep.lower_codes.index(pair[1])),
        )
        guiding = [pair for pair in ordered if role(pair, side) != "nonworking"]
        found.append(
            Stretch(
                float(sweep.travel_mm[within[0]]),
                float(sweep.travel_mm[within[-1]]),
                kinds[first],
                tuple(ordered),
                tuple(guiding or ordered),
            )
        )
    return tuple(found)


def _shares(stretches: tuple[Stretch, ...]) -> dict[str, float]:
    """Return the travel of each kind, mm; between two stretches each takes half of the step."""
    ends = [stretches[0].from_mm]
    ends += [0.5 * (one.to_mm + two.from_mm) for one, two in pairwise(stretches)]
    ends.append(stretches[-1].to_mm)
    lengths: dict[str, list[float]] = {}
    for stretch, start, end in zip(stretches, ends[:-1], ends[1:], strict=True):
        lengths.setdefault(stretch.kind, []).append(end - start)
    return {kind: math.fsum(parts) for kind, parts in lengths.items()}


def _longest(stretches: tuple[Stretch, ...]) -> str:
    shares = _shares(stretches)
    return max(shares, key=lambda kind: shares[kind])


def _doubt(sweep: Sweep, poses: list[int], settings: JudgingSettings) -> str:
    """Return why the records cannot tell the kind, or an empty text."""
    scatter = settings.record_scatter_mm
    if scatter <= 0.0:
        return ""
    below = [1e-3 * um for um in settings.reading_tolerances_um if 1e-3 * um <= scatter]
    for pose in poses:
        at = f"at {sweep.travel_mm[pose]:.1f} mm"
        kinds = {kind_at(sweep, pose, tol) for tol in [settings.tolerance_mm, *below, scatter]}
        if len(kinds) > 1:
            return (
                f"Not determined by these records: {at} the kind changes within their scatter of"
                f" {length(scatter)}."
            )
        if sweep.runner_up_gap_mm[pose] < scatter and _runner_up_differs(sweep, pose):
            return (
                f"Not determined by these records: {at} the runner-up is"
                f" {length(float(sweep.runner_up_gap_mm[pose]))} away, less than their scatter of"
                f" {length(scatter)}, and would be another kind of guidance."
            )
    return ""


def _runner_up_differs(sweep: Sweep, pose: int) -> bool:
    """Tell whether the runner-up alone would be another kind than the first contact alone."""
    pairs = []
    for closures in (sweep.closures, sweep.runner_up):
        pair = (int(closures.tooth_upper[pose]), int(closures.tooth_lower[pose]))
        if min(pair) <= 0:
            return False
        pairs.append(pair)
    first, second = (kind_of((pair,), sweep.excursion, GUIDED_BY_TEETH) for pair in pairs)
    return first != second


def _told(kind: str, stretches: tuple[Stretch, ...]) -> str:
    return sentence(f"{_interrupted_text(kind, stretches)}{_guidance_text(stretches)}")


def _interrupted_text(kind: str, stretches: tuple[Stretch, ...]) -> str:
    """Return that nonworking contacts alone carry the jaw in between; empty where none does."""
    alone = [stretch for stretch in stretches if stretch.kind == NONWORKING_ONLY != kind]
    if not alone:
        return ""
    parts = []
    for pairs in dict.fromkeys(stretch.guiding for stretch in alone):
        ranges = [travel_range(s.from_mm, s.to_mm) for s in alone if s.guiding == pairs]
        contacts = "contact" if len(pairs) == 1 else "contacts"
        parts.append(f"the nonworking {contacts} {pair_list(pairs)} {enumeration(ranges)}")
    return f"{kind}, interrupted by {enumeration(parts)}: "


def _guidance_text(stretches: tuple[Stretch, ...]) -> str:
    if len(stretches) > _MOST_STRETCHES:
        shares = _shares(stretches)
        whole = math.fsum(shares.values())
        parts = [
            f"{kind} over {100.0 * share / whole:.0f} %"
            for kind, share in sorted(shares.items(), key=lambda item: -item[1])
        ]
        start, end = stretches[0].from_mm, stretches[-1].to_mm
        pairs = {pair: None for stretch in stretches for pair in stretch.guiding}
        text = f"{', '.join(parts)} of the way {travel_range(start, end)}"
        return f"{text} ({pair_list(pairs)})"
    parts = []
    for stretch in stretches:
        words = f"{stretch.kind} {travel_range(stretch.from_mm, stretch.to_mm)}"
        parts.append(f"{words} ({pair_list(stretch.guiding)})" if stretch.guiding else words)
    return ", then ".join(parts)


def _table_text(sweep: Sweep, mask: Bools) -> str:
    if (sweep.guide[mask] == GUIDED_BY_TABLE).all():
        return "The incisal guide table carries the jaw."
    if (sweep.guide[mask] == GUIDED_BY_NOTHING).any():
        return "In part of it nothing meets at all."
    return ""


def _nonworking_text(sweep: Sweep, mask: Bools, tolerance_mm: float) -> str:
    side = working_side(sweep.excursion)
    parts = []
    for row, column in np.argwhere((sweep.pair_gap_mm[mask] <= tolerance_mm).any(axis=0)):
        pair = sweep.upper_codes[row], sweep.lower_codes[column]
        if side == 0 or role(pair, side) != "nonworking":
            continue
        touches = mask & (sweep.pair_gap_mm[:, row, column] <= tolerance_mm)
        found = runs(touches)
        start, end = sweep.travel_mm[found[0].first], sweep.travel_mm[found[-1].last]
        parts.append(f"{pair_name(*pair)} {travel_range(float(start), float(end))}")
    return f"Nonworking contact: {', '.join(parts)}." if parts else ""


def _runner_up_text(sweep: Sweep, pose: int) -> str:
    text = runner_up_words(sweep, pose)
    return f"At {sweep.travel_mm[pose]:.1f} mm {text}." if text else ""


def _not_judged_text(sweep: Sweep, settings: JudgingSettings) -> str:
    last, end = float(sweep.travel_mm[-1]), "where the movement ends"
    if sweep.edge_to_edge_mm is not None:
        last, end = sweep.edge_to_edge_mm, "to edge-to-edge"
    return (
        f"Not judged: only {last:.1f} mm of travel {end}, within the"
        f" {settings.near_mi_mm:g} mm next to {sweep.excursion.start} in which contacts are notes"
        " only."
    )
