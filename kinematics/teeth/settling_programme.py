"""One round of settling as a linear programme: how far every freedom moves.

What may change is a list of freedoms. The programme moves them as far towards the opponents as no
gap is closed; its solution is a vertex: as many gaps are exactly closed as there are freedoms.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.optimize import linprog

from kinematics.checks import NotConverged
from kinematics.conventions import Floats, Ints

#: What a freedom moves: a part of the table (its index, from 0) or the whole tooth.
LIFT: Final = -1
#: Rounds are remembered when they lie within about a step of where the teeth stand, the last few
#: only, or so near, mm, that they are still true to a fraction of a micrometre.
REMEMBERED: Final = 3
TRUE_WITHIN_MM: Final = 0.02
#: Costs per mm: a cusp short of its table height, above it (a gain), of a missed wish, of a pair of
#: teeth that should meet and does not, and of an overlap.
SHORT_COST: Final = 1.0
LONG_GAIN: Final = 0.2
GUARD_COST: Final = 5.0
OPEN_COST: Final = 20.0
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
class Measured:
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
    wanted : ndarray, shape (w,)
        Rows of the gaps that are to be closed.
    """

    amounts: Floats
    gaps: Floats
    slopes: Floats
    least: Floats
    wish: Floats
    wanted: Ints

    @property
    def shortfall_mm(self) -> float:
        """How much the worst gap is short of what must be kept."""
        return float((self.least - self.gaps).max(initial=0.0))


def programme(rounds: Sequence[Measured], freedoms: Sequence[Freedom], step_mm: float) -> Floats:
    """Return the best new amounts (n,), mm.

    Unknowns: how far each freedom is forth and how far back of its start, how much of each wish
    is missed, the overlap of each pair, and how far each wanted gap stays open. All rounds given
    must hold, the last one is where we stand: a region may touch in two places in turn, and one
    round sees only one of them.

    Raises
    ------
    NotConverged
        The programme has no solution.
    """
    here = rounds[-1]
    if not freedoms:
        return here.amounts
    slopes = np.concatenate([measured.slopes for measured in rounds])
    wish = np.concatenate([measured.wish for measured in rounds])
    n, m, w = len(freedoms), len(slopes), len(here.wanted)
    # gaps + slopes (forth - back - amounts) + missed + overlap >= least + wish
    right = np.concatenate([r.gaps - r.slopes @ r.amounts - r.least - r.wish for r in rounds])
    rows = np.hstack([-slopes, slopes, -np.eye(m), -np.eye(m), np.zeros((m, w))])
    # gaps + slopes (forth - back - amounts) - open <= least, where a gap is to be closed
    closing = here.slopes[here.wanted]
    shut = np.hstack([closing, -closing, np.zeros((w, 2 * m)), -np.eye(w)])
    beyond = (here.least - here.gaps)[here.wanted] + closing @ here.amounts
    step = np.hstack([np.eye(n), -np.eye(n), np.zeros((n, 2 * m + w))])
    solution = linprog(
        [
            *(freedom.cost_forth for freedom in freedoms),
            *(freedom.cost_back for freedom in freedoms),
            *np.full(m, GUARD_COST),
            *np.full(m, OVERLAP_COST),
            *np.full(w, OPEN_COST),
        ],
        A_ub=np.vstack([rows, step, -step, shut]),
        b_ub=np.concatenate([right, here.amounts + step_mm, step_mm - here.amounts, beyond]),
        bounds=[
            *((0.0, freedom.forth) for freedom in freedoms),
            *((0.0, freedom.back) for freedom in freedoms),
            *((0.0, most) for most in wish),
            *((0.0, None) for _ in range(m + w)),
        ],
        method="highs",
    )
    if solution.x is None:
        raise NotConverged(f"the linear programme of settling: {solution.message}", np.inf, 0)
    return np.asarray(solution.x[:n] - solution.x[n : 2 * n])


def rounds_near(rounds: Sequence[Measured], step_mm: float) -> list[Measured]:
    """Return the rounds that are still true where the teeth stand, the last one last.

    With a step of 0 only those are left that are true to a fraction of a micrometre.
    """
    here = rounds[-1].amounts
    near = []
    for back, measured in enumerate(reversed(rounds)):
        away = float(np.abs(measured.amounts - here).max(initial=0.0))
        within = 1.2 * step_mm if back < REMEMBERED else 0.0
        if away <= max(within, TRUE_WITHIN_MM):
            near.append(measured)
    return near[::-1]


def held(freedoms: Sequence[Freedom], amounts: Floats, closing: frozenset[str]) -> list[Freedom]:
    """Return the freedoms, those that gain little kept from going farther than they are.

    They only make the end of settling restless; a settled cusp still goes on to its stop, and so
    does a tooth that is to meet its opponent (`closing`, crown types).
    """
    return [
        freedom
        if freedom.cost_forth <= -LONG_GAIN or freedom.kind in closing
        else replace(freedom, forth=min(freedom.forth, max(0.0, float(amount))))
        for freedom, amount in zip(freedoms, amounts, strict=True)
    ]
