"""Supporting cusps settled onto their opponents, and teeth moved rigidly, by the exact closure.

What may change is a list of freedoms: the height of a cusp, or a rigid movement of a tooth. Every
round measures the arc gap of all neighbouring cusp regions, and a linear programme moves the
freedoms as far towards the opponents as no gap is closed. Its solution is a vertex: as many gaps
are exactly closed as there are freedoms, so every settled cusp ends on a stop of its own. Near the
end this is Newton's method, which needs three or four rounds.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.optimize import linprog

from kinematics.checks import NotConverged
from kinematics.conventions import Floats
from kinematics.teeth.meeting import Footing, Meeting, Teeth, meetings, near_faces
from kinematics.teeth.set_up import FRONT_GAP_MM
from kinematics.teeth.standing_tooth import StandingTooth

#: What a freedom moves: a part of the table (its index, from 0) or the whole tooth.
LIFT: Final = -1
#: Regions of which neither is a settled cusp keep this arc gap, where they can, mm.
GUARD_MM: Final = 0.03
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
#: The last rounds are remembered when they lie within about a step of where the teeth stand, any
#: round when it lies so near, mm, that it is still true to a fraction of a micrometre.
REMEMBERED: Final = 3
TRUE_WITHIN_MM: Final = 0.02
#: Settled when no freedom would move farther, mm.
SETTLED_MM: Final = 2e-4
LATER_ROUNDS: Final = 14
#: Costs per mm: a cusp short of its table height, above it (a gain), and of an overlap.
SHORT_COST: Final = 1.0
LONG_GAIN: Final = 0.2
GUARD_COST: Final = 5.0
OVERLAP_COST: Final = 1e3


@dataclass(frozen=True)
class Freedom:
    """Something that may change, counted positive towards the other arch from where it starts.

    Attributes
    ----------
    kind : str
        Crown type.
    what : int
        Index of a cusp or ridge whose height changes (see `PosteriorForm.heights`), or `LIFT`: the
        tooth moves straight up or down.
    back, forth : float
        How far it may go away from and towards the other arch, mm.
    cost_back, cost_forth : float
        Cost per mm; negative for a gain.
    """

    kind: str
    what: int
    back: float
    forth: float
    cost_back: float
    cost_forth: float


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

    Settled cusps may grow and shrink by `box_mm`, other cusps only give way, upper front teeth
    move up and down until they just meet the lower ones.
    """
    freedoms = []
    for kind, tooth in teeth.items():
        if tooth.crown is None:
            if tooth.is_upper:
                freedoms.append(Freedom(kind, LIFT, 0.15, 0.15, SHORT_COST, -SHORT_COST))
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


def _wanted(teeth: Teeth, found: Sequence[Meeting]) -> tuple[Floats, Floats]:
    """Return the least gap of every meeting (m,), mm, and how much of it is only wished for."""
    least, wish = np.zeros(len(found)), np.zeros(len(found))
    for row, meeting in enumerate(found):
        front = [teeth[at.kind].crown is None for at in (meeting.upper, meeting.lower)]
        if all(front):
            least[row] = FRONT_GAP_MM
        elif any(front) or not (
            is_settled_cusp(teeth, meeting.upper) or is_settled_cusp(teeth, meeting.lower)
        ):
            wish[row] = GUARD_MM
    return least, wish


@dataclass(frozen=True)
class _Measured:
    """One round: where the freedoms stood, and what was found there.

    Attributes
    ----------
    amounts : ndarray, shape (n,)
        Of the freedoms, mm.
    gaps : ndarray, shape (m,)
        Arc gaps, mm.
    slopes : ndarray, shape (m, n)
        Change of each gap per mm of each freedom.
    least, wish : ndarray, shape (m,)
        Gap that must be kept, and what is wished for on top, mm.
    """

    amounts: Floats
    gaps: Floats
    slopes: Floats
    least: Floats
    wish: Floats

    @property
    def shortfall(self) -> float:
        """How much the worst gap is short of what must be kept, mm."""
        return float((self.least - self.gaps).max(initial=0.0))


def _programme(
    rounds: Sequence[_Measured], freedoms: Sequence[Freedom], step_mm: float
) -> tuple[Floats, float]:
    """Return the best new amounts (n,) and the overlap that no movement can avoid, mm.

    Unknowns: how far each freedom is forth and how far back of its start, how much of each wish
    is missed, and the overlap of each pair. All rounds given must hold, the last one is where we
    stand: a region may touch in two places in turn, and one round sees only one of them.
    """
    amounts = rounds[-1].amounts
    if not freedoms:
        return amounts, rounds[-1].shortfall
    slopes = np.concatenate([measured.slopes for measured in rounds])
    wish = np.concatenate([measured.wish for measured in rounds])
    n, m = len(freedoms), len(slopes)
    # gaps + slopes (forth - back - amounts) + missed + overlap >= least + wish
    right = np.concatenate([r.gaps - r.slopes @ r.amounts - r.least - r.wish for r in rounds])
    rows = np.hstack([-slopes, slopes, -np.eye(m), -np.eye(m)])
    step = np.hstack([np.eye(n), -np.eye(n), np.zeros((n, 2 * m))])
    solution = linprog(
        [
            *(freedom.cost_forth for freedom in freedoms),
            *(freedom.cost_back for freedom in freedoms),
            *np.full(m, GUARD_COST),
            *np.full(m, OVERLAP_COST),
        ],
        A_ub=np.vstack([rows, step, -step]),
        b_ub=np.concatenate([right, amounts + step_mm, step_mm - amounts]),
        bounds=[
            *((0.0, freedom.forth) for freedom in freedoms),
            *((0.0, freedom.back) for freedom in freedoms),
            *((0.0, most) for most in wish),
            *((0.0, None) for _ in range(m)),
        ],
        method="highs",
    )
    if solution.x is None:
        raise NotConverged(f"the linear programme of settling: {solution.message}", np.inf, 0)
    overlap = float(solution.x[2 * n + m :].max(initial=0.0))
    return solution.x[:n] - solution.x[n : 2 * n], overlap


def _near_rounds(rounds: Sequence[_Measured], step_mm: float) -> list[_Measured]:
    """Return the rounds that are still true where the teeth stand, the last one last."""
    here = rounds[-1].amounts
    near = []
    for back, measured in enumerate(reversed(rounds)):
        away = float(np.abs(measured.amounts - here).max(initial=0.0))
        if away <= (1.2 * step_mm if back < REMEMBERED else TRUE_WITHIN_MM):
            near.append(measured)
    return near[::-1]


def _held(freedoms: Sequence[Freedom], amounts: Floats) -> list[Freedom]:
    """Return the freedoms, those that gain little kept from going farther than they are.

    They only make the end of settling restless; a settled cusp still goes on to its stop.
    """
    return [
        freedom
        if freedom.cost_forth <= -LONG_GAIN
        else replace(freedom, forth=min(freedom.forth, max(0.0, float(amount))))
        for freedom, amount in zip(freedoms, amounts, strict=True)
    ]


def _step(rounds: Sequence[_Measured], step_mm: float) -> float:
    """Return the next step, mm: half as far after a round that made things worse."""
    worse = len(rounds) > 1 and rounds[-1].shortfall > max(rounds[-2].shortfall, SETTLED_MM)
    return max(LATER_STEP_MM, 0.5 * step_mm) if worse else step_mm


def settle(
    teeth: Teeth,
    freedoms: Sequence[Freedom],
    mi_pose: Floats,
    wide_rounds: int = 4,
    among: frozenset[str] | None = None,
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

    Raises
    ------
    NotConverged
        Something still overlaps or is still moving after the last round; the message names the
        teeth.
    """
    amounts = np.zeros(len(freedoms))
    now = dict(teeth)
    faces, faces_at = near_faces(now, NEAR_MM, among), amounts
    left, reach_mm, step_mm = np.inf, REACH_MM, FIRST_STEP_MM
    rounds: list[_Measured] = []
    found: list[Meeting] = []
    most_rounds = wide_rounds + LATER_ROUNDS
    for number in range(1, most_rounds + 1):
        found = meetings(now, faces, mi_pose, reach_mm, among)
        gaps = np.array([meeting.gap_mm for meeting in found])
        rounds.append(_Measured(amounts, gaps, _slopes(now, freedoms, found), *_wanted(now, found)))
        later = number > wide_rounds
        step_mm = LATER_STEP_MM if later else _step(rounds, step_mm)
        allowed = _held(freedoms, amounts) if later else freedoms
        new, overlap = _programme(_near_rounds(rounds, step_mm), allowed, step_mm)
        move = float(np.abs(new - amounts).max(initial=0.0))
        left = max(rounds[-1].shortfall, move, overlap)
        if left <= SETTLED_MM:
            return Settled(now, tuple(found), number)
        amounts, reach_mm = new, REACH_MM if move > LATER_STEP_MM else NEAR_REACH_MM
        now = _moved(teeth, freedoms, amounts)
        if np.abs(amounts - faces_at).max() > MOVED_MM:
            faces, faces_at = near_faces(now, NEAR_MM, among), amounts
    worst = sorted({f"{m.upper.kind}-{m.lower.kind}" for m in found if m.gap_mm < -SETTLED_MM})
    raise NotConverged(
        "settling the teeth into maximal intercuspation, mm"
        + (f"; still overlapping: {', '.join(worst)}" if worst else ""),
        left,
        most_rounds,
    )
