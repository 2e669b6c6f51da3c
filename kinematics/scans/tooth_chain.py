"""A row of sixteen places for teeth along a crest, each taken or empty: the likeliest of all."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats, Ints
from kinematics.scans.crest_line import STEP_MM, CrestLine
from kinematics.scans.crown_sizes import crown_size
from kinematics.tooth_codes import place

#: What follows was chosen for this program, by trials on made casts, against what a boundary across
#: as much surface as usual costs: a tooth e times as wide as usual, a midline a millimetre beside
#: that of the arch, a millimetre of crown where none should be or none where one should be, a place
#: that is empty, and one that has closed.
_WIDTH_COST: Final = 0.1 / 0.10**2
_MIDLINE_COST: Final = 0.01
_WRONG_COST: Final = 0.4
_EMPTY_COST: Final = 1.0
_SCALES: Final = (0.88, 0.92, 0.96, 1.0, 1.04, 1.08, 1.12)
_CLOSED_COST: Final = 0.8
_NARROWEST: Final = 0.7
_WIDEST: Final = 1.35
_WIDEST_EMPTY: Final = 1.5
_LAST_ON_THE_RIGHT: Final = 7
_THIRD_MOLAR: Final = 8


@dataclass(frozen=True)
class ToothPlace:
    """One place of the row.

    Attributes
    ----------
    code : int
        ISO 3950 number.
    begins, ends : int
        Stations of the crest.
    taken : bool
        Whether a tooth stands there.
    """

    code: int
    begins: int
    ends: int
    taken: bool


def tooth_chain(crest: CrestLine, upper: bool) -> tuple[ToothPlace, ...]:
    """Return the sixteen places of an arch from the patient's right to left.

    Boundaries lie where little of the surface leads across; crowns are about as wide as usual, all
    of one arch in the same proportion, and stand where the crest is high; places between them that
    nobody takes are where it is low.

    Parameters
    ----------
    crest : CrestLine
        Of one arch.
    upper : bool
        Whether it is the upper one.
    """
    right, left = (10, 20) if upper else (40, 30)
    codes = [right + n for n in range(8, 0, -1)] + [left + n for n in range(1, 9)]
    tried = [_cheapest(crest, codes, scale) for scale in _SCALES]
    return min(tried, key=lambda one: one[0])[1]


def _cheapest(
    crest: CrestLine, codes: list[int], scale: float
) -> tuple[float, tuple[ToothPlace, ...]]:
    """Return what the cheapest row costs if teeth are that large, and the row (Viterbi)."""
    count = len(crest.high)
    high_mm = STEP_MM * np.cumsum(crest.high).astype(np.float64)
    off_mm = STEP_MM * (np.arange(count) - crest.middle)
    costs = _WRONG_COST * high_mm + crest.across
    came: list[tuple[Bools, Ints]] = []
    for index, code in enumerate(codes):
        width = scale * crown_size(code).mesiodistal_mm / STEP_MM
        taken, from_taken = _taken(costs, high_mm, width)
        empty, from_empty = _empty(costs, high_mm, width, code)
        costs = np.minimum(taken, empty) + crest.across
        if index == _LAST_ON_THE_RIGHT:
            costs = costs + _MIDLINE_COST * off_mm**2
        came.append((taken <= empty, np.where(taken <= empty, from_taken, from_empty)))
    costs = costs + _WRONG_COST * (high_mm[-1] - high_mm)
    at = int(np.argmin(costs))
    least, row = float(costs[at]), []
    for code, (is_taken, begins) in zip(reversed(codes), reversed(came), strict=True):
        row.append(ToothPlace(code, int(begins[at]), at, bool(is_taken[at])))
        at = row[-1].begins
    return least, tuple(reversed(row))


def _taken(costs: Floats, high_mm: Floats, width: float) -> tuple[Floats, Ints]:
    """Return what a tooth costs that ends at each station, and where it then begins."""
    reach = np.arange(int(_NARROWEST * width), int(_WIDEST * width) + 1)
    begins, known = _begins(len(costs), reach)
    low_mm = STEP_MM * reach - (high_mm[:, None] - high_mm[begins])
    steps = _WIDTH_COST * (reach / width - 1.0) ** 2 + _WRONG_COST * low_mm
    return _least(costs, begins, known, steps)


def _empty(costs: Floats, high_mm: Floats, width: float, code: int) -> tuple[Floats, Ints]:
    """Return the same of a place that no tooth takes; third molars are often lacking."""
    reach = np.arange(int(_WIDEST_EMPTY * width) + 1)
    begins, known = _begins(len(costs), reach)
    empty, closed = (0.0, 0.0) if place(code) == _THIRD_MOLAR else (_EMPTY_COST, _CLOSED_COST)
    high = high_mm[:, None] - high_mm[begins]
    steps = empty + closed * abs(reach / width - 1.0) + _WRONG_COST * high
    return _least(costs, begins, known, steps)


def _begins(count: int, reach: Ints) -> tuple[Ints, Bools]:
    begins = np.arange(count)[:, None] - reach
    return np.maximum(begins, 0), begins >= 0


def _least(costs: Floats, begins: Ints, known: Bools, steps: Floats) -> tuple[Floats, Ints]:
    every = np.where(known, costs[begins] + steps, np.inf)
    rows, best = np.arange(len(costs)), np.argmin(every, axis=1)
    return every[rows, best], begins[rows, best]
