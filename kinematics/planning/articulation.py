"""What guides an excursion: readings along it, and one verdict."""

from dataclasses import dataclass, field
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import TOLD_IF_SET, Bools
from kinematics.guidance.excursions import RETRUSION
from kinematics.guidance.readings import christensen_angles
from kinematics.planning.contact_runs import judged, moved
from kinematics.planning.guidance_kinds import NONWORKING_ONLY, Pair, kind_of, role, working_side
from kinematics.planning.guidance_rivals import Rival, nearest_rival, rival_text
from kinematics.planning.guidance_stretches import (
    Pairs,
    Stretch,
    longest_kind,
    stretches,
    touching_at,
)
from kinematics.planning.guidance_words import (
    guidance_text,
    nonworking_text,
    not_judged_text,
    table_text,
)
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.runner_up import runner_up_words
from kinematics.planning.wording import excursion_label, sentence

#: Kind of a reading at the very start, where MI or CR itself is read and nothing guides yet.
AT_START: Final = {"MI": "in MI", "CR": "in CR"}
#: Kind of an excursion without a pose beyond the near-MI length and up to edge-to-edge.
NOT_JUDGED: Final = "not judged"


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
    with_nonworking : bool
        True where nonworking contacts are among them beside what makes the kind.
    """

    travel_mm: float
    pose: int
    tolerance_mm: float
    kind: str
    touching: tuple[Pair, ...]
    crossover: bool = False
    with_nonworking: bool = False

    @property
    def label(self) -> str:
        """The kind, and that nonworking contacts touch as well."""
        return f"{self.kind} with nonworking contacts" if self.with_nonworking else self.kind


@dataclass(frozen=True)
class ChristensenReading:
    """By how much the rear of the lower has dropped against its front since the start.

    Attributes
    ----------
    travel_mm : float
        Travel at which it was read.
    angle_deg : float
        Turn in the sagittal plane; negative where the rear has risen.
    """

    travel_mm: float
    angle_deg: float


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
        False: within the scatter of the records it could also be another kind, or nothing is
        judged.
    readings : tuple of Reading
        Every reading position at every tolerance (8, 20, 40, 100 micrometres).
    text : str
        Plain sentences.
    stretches : tuple of Stretch
        How the kind changes over the judged travel.
    working_side : int
        RIGHT, LEFT, or 0 in a straight movement.
    christensen : tuple of ChristensenReading
        In protrusion, the Christensen angle at every judged reading position.
    rival : Rival or None
        The nearest other kind within the scatter of the records; None where there is none.
    """

    excursion: str
    kind: str
    determined: bool
    readings: tuple[Reading, ...]
    text: str
    stretches: tuple[Stretch, ...] = ()
    working_side: int = 0
    christensen: tuple[ChristensenReading, ...] = ()
    rival: Rival | None = field(default=None, metadata=TOLD_IF_SET)


def readings(sweep: Sweep, settings: JudgingSettings) -> tuple[Reading, ...]:
    """Read the contacts at every reading position that the sweep reaches, at every tolerance.

    Tolerances beyond what was measured are left out.
    """
    reached = _poses_at(sweep, settings.readings_mm)
    tolerances = [mm for mm in settings.reading_tolerances_mm if mm <= sweep.measured_mm]
    touching = [touching_at(sweep, list(reached.values()), tolerance) for tolerance in tolerances]
    return tuple(
        _reading(sweep, position, pose, tolerance, pairs[i])
        for i, (position, pose) in enumerate(reached.items())
        for tolerance, pairs in zip(tolerances, touching, strict=True)
    )


def _reading(
    sweep: Sweep, position_mm: float, pose: int, tolerance_mm: float, touching: Pairs
) -> Reading:
    excursion, kind, beside = sweep.excursion, AT_START[sweep.excursion.start], False
    if pose != 0 or position_mm != 0.0:
        kind, side = kind_of(touching, excursion, int(sweep.guide[pose])), working_side(excursion)
        beside = kind != NONWORKING_ONLY and any(
            role(pair, side) == "nonworking" for pair in touching
        )
    return Reading(
        travel_mm=position_mm,
        pose=pose,
        tolerance_mm=tolerance_mm,
        kind=kind,
        touching=touching,
        crossover=bool(sweep.crossover[pose]),
        with_nonworking=beside,
    )


def _poses_at(sweep: Sweep, positions_mm: tuple[float, ...]) -> dict[float, int]:
    """Return the poses nearest to those of some positions that the sweep reaches."""
    apart = np.abs(sweep.travel_mm - np.array(positions_mm)[:, None])
    near = apart.min(axis=1) <= 0.5 * sweep.usual_step_mm * (1.0 + 1e-9)
    poses = np.argmin(apart, axis=1).tolist()
    return {at: pose for at, pose, close in zip(positions_mm, poses, near, strict=True) if close}


def judged_poses(sweep: Sweep, settings: JudgingSettings) -> Bools:
    """Return the poses, shape (n,), over which it is told what guides; see `verdict`."""
    retrusive = sweep.excursion.name == RETRUSION
    return moved(sweep, settings) if retrusive else judged(sweep, settings)


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
    mask = judged_poses(sweep, settings)
    label, side = excursion_label(sweep.excursion), working_side(sweep.excursion)
    found = readings(sweep, settings)
    if not mask.any():
        return Verdict(label, NOT_JUDGED, False, found, not_judged_text(sweep, settings), (), side)
    parts = stretches(sweep, mask, settings.tolerance_mm)
    kind = longest_kind(parts)
    read = sorted({reading.pose for reading in found if mask[reading.pose]})
    poses = read or [int(np.flatnonzero(mask)[mask.sum() // 2])]
    rival = nearest_rival(sweep, poses, kind, settings)
    ahead = side == 0 and sweep.excursion.name != RETRUSION
    turned = _christensen_readings(sweep, poses) if ahead else ()
    text = " ".join(
        told
        for told in (
            guidance_text(kind, parts),
            rival_text(rival, settings.record_scatter_mm) if rival else "",
            table_text(sweep, mask),
            nonworking_text(sweep, mask, settings.tolerance_mm),
            _christensen_text(sweep, turned),
            _runner_up_text(sweep, poses[len(poses) // 2], bool(read)),
        )
        if told
    )
    return Verdict(label, kind, rival is None, found, text, parts, side, turned, rival)


def _runner_up_text(sweep: Sweep, pose: int, is_read: bool) -> str:
    text = runner_up_words(sweep, pose, is_read=is_read)
    return sentence(text) if text else ""


def _christensen_readings(sweep: Sweep, poses: list[int]) -> tuple[ChristensenReading, ...]:
    angles = np.degrees(christensen_angles(sweep.poses[poses], sweep.poses[0]))
    travel = sweep.travel_mm[poses]
    return tuple(
        ChristensenReading(float(at), float(angle))
        for at, angle in zip(travel, angles, strict=True)
    )


def _christensen_text(sweep: Sweep, readings: tuple[ChristensenReading, ...]) -> str:
    """Return the turn of the jaw at the last reading; empty where there is none."""
    if not readings:
        return ""
    last, start = readings[-1], sweep.excursion.start
    at, angle = f"At {last.travel_mm:.1f} mm", f"{abs(last.angle_deg):.2f}"
    if angle == "0.00":
        return f"{at} the jaw has not turned since {start}: no Christensen angle."
    way = (
        "more behind than in front (Christensen angle)"
        if last.angle_deg > 0.0
        else "more in front than behind (the reverse of a Christensen angle)"
    )
    return f"{at} the jaw has turned by {angle} degrees since {start}, opening {way}."
