"""Supporting cusps settled onto their opponents, and teeth moved rigidly, by the exact closure.

What may change is a list of freedoms: the height of a cusp, or a rigid movement of a tooth. Every
round measures the arc gap of all neighbouring cusp regions, and a linear programme moves the
freedoms as far towards the opponents as no gap is closed, so every settled cusp ends on a stop of
its own. Near the end this is Newton's method, which needs three or four rounds.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checks import NotConverged
from kinematics.conventions import Floats, Ints
from kinematics.teeth.meeting import (
    Footing,
    KindPair,
    Meeting,
    Regions,
    Teeth,
    meetings,
    near_faces,
    pair_name,
    regions_of,
)
from kinematics.teeth.settling_programme import (
    LIFT,
    LONG_GAIN,
    SHORT_COST,
    Freedom,
    Measured,
    held,
    programme,
    rounds_near,
)
from kinematics.teeth.standing_tooth import StandingTooth

#: Regions of which neither is a settled cusp keep this arc gap, where they can, mm.
GUARD_MM: Final = 0.03
#: Cost and gain per mm of a tooth that rises between two others.
BETWEEN_COST: Final = 0.3
#: Triangles farther than this from the other arch take no part in a round, mm.
NEAR_MM: Final = 1.0
#: Gaps up to this are looked at in the first rounds, and once little moves, mm.
REACH_MM: Final = 0.3
NEAR_REACH_MM: Final = 0.12
#: Greatest change in one round, mm, first and later.
FIRST_STEP_MM: Final = 0.2
LATER_STEP_MM: Final = 0.05
#: Which triangles are near is looked at again when something has moved so far, mm.
MOVED_MM: Final = 0.3
#: Settled when no freedom would move farther, mm.
SETTLED_MM: Final = 2e-4
LATER_ROUNDS: Final = 14
#: Then steps are halved, so that what goes to and fro between two places comes to rest.
HALVED_ROUNDS: Final = 9
#: Greatest correction by the nearest rounds alone, mm.
CORRECTION_MM: Final = 0.01
#: Gaps of teeth that are to be brought together are looked at up to this, mm, and those that some
#: freedom closes by at least so much per mm.
WANTED_REACH_MM: Final = 0.9
LEAST_CLOSING: Final = 0.3


@dataclass(frozen=True)
class Settled:
    """Teeth in MI.

    Attributes
    ----------
    teeth : mapping of str to StandingTooth
        By crown type.
    meetings : tuple of Meeting
        All pairs of regions within `NEAR_REACH_MM` of each other.
    rounds : int
        Rounds taken.
    """

    teeth: Teeth
    meetings: tuple[Meeting, ...]
    rounds: int


def natural_freedoms(teeth: Teeth, box_mm: float) -> list[Freedom]:
    """Return the freedoms of a natural dentition.

    Settled cusps may grow and shrink by `box_mm`, other cusps only give way, upper front teeth and
    lower lateral incisors move up and down until they just meet their opponents.
    """
    freedoms = []
    for kind, tooth in teeth.items():
        if tooth.crown is None:
            if tooth.is_upper:
                freedoms.append(Freedom(kind, LIFT, 0.15, 0.15, SHORT_COST, -SHORT_COST))
            elif tooth.number == 2:
                # Upper lateral incisors come to rest on the lower canines, central ones on the
                # lower central ones: what stands between rises to meet them.
                freedoms.append(Freedom(kind, LIFT, 0.1, 0.15, BETWEEN_COST, -BETWEEN_COST))
            continue
        settled = tooth.crown.form.settled
        for k, name in enumerate(tooth.cusp_names):
            if name in settled:
                freedoms.append(Freedom(kind, k, box_mm, box_mm, SHORT_COST, -LONG_GAIN))
            else:
                freedoms.append(Freedom(kind, k, box_mm, 0.0, 3.0 * SHORT_COST, 0.0))
    return freedoms


def _moved(teeth: Teeth, freedoms: Sequence[Freedom], amounts: Floats) -> dict[str, StandingTooth]:
    """Return the starting teeth with every freedom moved by its amount (n,), mm."""
    moved = dict(teeth)
    for freedom, amount in zip(freedoms, amounts, strict=True):
        tooth = moved[freedom.kind]
        if freedom.what == LIFT:
            tooth = tooth.lifted(float(amount))
        else:
            heights = tooth.heights.copy()
            heights[freedom.what] += amount
            tooth = tooth.with_heights(heights)
        moved[freedom.kind] = tooth
    return moved


def _velocity(teeth: Teeth, rises: Mapping[str, Floats], freedom: Freedom, at: Footing) -> Floats:
    """Return how the surface at a footing moves (3,) per mm of a freedom of its tooth."""
    tooth = teeth[freedom.kind]
    if freedom.what == LIFT:
        return np.array([0.0, 0.0, -1.0 if tooth.is_upper else 1.0])
    rise = float(rises[freedom.kind][freedom.what][at.corners] @ at.shares)
    return np.asarray(rise * tooth.place.axes[:, 2])


def _slopes(teeth: Teeth, freedoms: Sequence[Freedom], found: Sequence[Meeting]) -> Floats:
    """Return the change of every gap (m, n) per mm of every freedom."""
    rises = {
        kind: tooth.crown.rises(tooth.heights)
        for kind, tooth in teeth.items()
        if tooth.crown is not None
    }
    slopes = np.zeros((len(found), len(freedoms)))
    still = np.zeros(3)
    for row, meeting in enumerate(found):
        for column, freedom in enumerate(freedoms):
            if freedom.kind == meeting.upper.kind:
                moved = _velocity(teeth, rises, freedom, meeting.upper)
                slopes[row, column] = meeting.gap_per_move(moved, still)
            elif freedom.kind == meeting.lower.kind:
                moved = _velocity(teeth, rises, freedom, meeting.lower)
                slopes[row, column] = meeting.gap_per_move(still, moved)
    return slopes


def is_settled_cusp(teeth: Teeth, at: Footing) -> bool:
    """Tell whether a footing lies on a cusp that is settled onto its opponent."""
    crown = teeth[at.kind].crown
    return crown is not None and crown.form.cusp_names[at.cusp] in crown.form.settled


def _kept(teeth: Teeth, found: Sequence[Meeting]) -> tuple[Floats, Floats]:
    """Return the least gap of every meeting (m,), mm, and what is wished for on top (m,), mm."""
    least, wish = np.zeros(len(found)), np.zeros(len(found))
    for row, meeting in enumerate(found):
        front = [teeth[at.kind].crown is None for at in (meeting.upper, meeting.lower)]
        if all(front):
            least[row] = teeth[meeting.upper.kind].front_gap_mm
        elif any(front) or not (
            is_settled_cusp(teeth, meeting.upper) or is_settled_cusp(teeth, meeting.lower)
        ):
            wish[row] = GUARD_MM
    return least, wish


def _nearest(found: Sequence[Meeting], slopes: Floats, wanted: frozenset[KindPair]) -> Ints:
    """Return the rows of the nearest meeting of every wanted pair that the freedoms can close."""
    rows: dict[KindPair, int] = {}
    closed = slopes.min(axis=1, initial=0.0) < -LEAST_CLOSING
    for row, meeting in enumerate(found):
        if meeting.kinds in wanted and closed[row]:
            rows.setdefault(meeting.kinds, row)
    return np.array(sorted(rows.values()), dtype=np.int64)


def _step(rounds: Sequence[Measured], step_mm: float, wide_rounds: int) -> float:
    """Return the next step, mm: half as far after a round that made things worse."""
    late = len(rounds) - wide_rounds
    if late > 0:
        return float(LATER_STEP_MM * 0.5 ** max(0, late - LATER_ROUNDS))
    worse = len(rounds) > 1 and rounds[-1].shortfall_mm > max(rounds[-2].shortfall_mm, SETTLED_MM)
    return max(LATER_STEP_MM, 0.5 * step_mm) if worse else step_mm


def _unmoved(
    teeth: Teeth, freedoms: Sequence[Freedom], faces: Mapping[str, Ints], mi_pose: Floats
) -> dict[str, Regions | None]:
    """Return the regions of an arch in which nothing moves, which every round may share."""
    moving = {freedom.kind[0] for freedom in freedoms}
    return {a: regions_of(teeth, faces, a, mi_pose) for a in "UL" if a not in moving}


def _moves(
    rounds: Sequence[Measured], reached_mm: float, freedoms: Sequence[Freedom], step_mm: float
) -> tuple[Floats, float]:
    """Return the new amounts (n,) by the rounds within reach, and the greatest change, mm."""
    new = programme(rounds_near(rounds, reached_mm), freedoms, step_mm)
    return new, float(np.abs(new - rounds[-1].amounts).max(initial=0.0))


def met_again(teeth: Teeth, mi_pose: Floats, changed: frozenset[str]) -> tuple[Meeting, ...]:
    """Return the meetings in MI of teeth that changed after they had settled.

    Parameters
    ----------
    teeth : mapping of str to StandingTooth
        All teeth of the left side.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    changed : frozenset of str
        Crown types; only pairs with one of them are looked at.
    """
    if not changed & set(teeth):
        return ()
    faces = near_faces(teeth, NEAR_MM, changed)
    return tuple(meetings(teeth, faces, mi_pose, NEAR_REACH_MM, changed))


def settle(
    teeth: Teeth,
    freedoms: Sequence[Freedom],
    mi_pose: Floats,
    wide_rounds: int = 4,
    among: frozenset[str] | None = None,
    wanted: frozenset[KindPair] = frozenset(),
) -> Settled:
    """Settle the left side's teeth in MI.

    Parameters
    ----------
    teeth : mapping of str to StandingTooth
        In the hinge frame as they stand in MI.
    freedoms : sequence of Freedom
        What may change.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    wide_rounds : int
        Rounds in which freedoms may move by `FIRST_STEP_MM`.
    among : frozenset of str, optional
        Only pairs with one of these crown types are looked at; all others stay as they are.
    wanted : frozenset of (str, str), optional
        Pairs of crown types that are brought together as far as their freedoms allow.

    Raises
    ------
    NotConverged
        Something still overlaps or is still moving after the last round; the message names the
        teeth.
    """
    amounts = np.zeros(len(freedoms))
    now = dict(teeth)
    faces, faces_at = near_faces(now, NEAR_MM, among), amounts
    known = _unmoved(now, freedoms, faces, mi_pose)
    closing = frozenset(kind for pair in wanted for kind in pair)
    left, reach_mm, step_mm, exact = np.inf, REACH_MM, FIRST_STEP_MM, False
    rounds: list[Measured] = []
    found: list[Meeting] = []
    most_rounds = wide_rounds + LATER_ROUNDS + HALVED_ROUNDS
    for number in range(1, most_rounds + 1):
        reach_mm = WANTED_REACH_MM if wanted else reach_mm
        found = meetings(now, faces, mi_pose, reach_mm, among, known)
        gaps = np.array([meeting.gap_mm for meeting in found])
        slopes = _slopes(now, freedoms, found)
        nearest = _nearest(found, slopes, wanted)
        rounds.append(Measured(amounts, gaps, slopes, *_kept(now, found), nearest))
        step_mm = _step(rounds, step_mm, wide_rounds)
        allowed = held(freedoms, amounts, closing) if number > wide_rounds else freedoms
        reached_mm = 0.0 if exact else max(step_mm, LATER_STEP_MM)
        new, move = _moves(rounds, reached_mm, allowed, step_mm)
        if max(rounds[-1].shortfall_mm, move) <= SETTLED_MM and not exact:
            # What rounds farther away tell may be wrong by micrometres: once more without them,
            # unless they tell of a wall that only they have met.
            finer, little = _moves(rounds, 0.0, allowed, step_mm)
            exact = SETTLED_MM < little <= CORRECTION_MM
            new, move = (finer, little) if exact else (new, move)
        left = max(rounds[-1].shortfall_mm, move)
        if left <= SETTLED_MM:
            return Settled(now, tuple(found), number)
        amounts, reach_mm = new, REACH_MM if move > LATER_STEP_MM else NEAR_REACH_MM
        now = _moved(teeth, freedoms, amounts)
        if np.abs(amounts - faces_at).max() > MOVED_MM:
            faces, faces_at = near_faces(now, NEAR_MM, among), amounts
            known = _unmoved(now, freedoms, faces, mi_pose)
    worst = sorted({pair_name(m.kinds) for m in found if m.gap_mm < -SETTLED_MM})
    raise NotConverged(
        "settling the teeth into maximal intercuspation, mm"
        + (f"; still overlapping, counted from the midline: {', '.join(worst)}" if worst else ""),
        left,
        most_rounds,
    )
