"""Which advances and shift bring the condyles nearest to given places."""

from collections.abc import Callable
from typing import Final

import numpy as np
from scipy.optimize import lsq_linear

from kinematics.conventions import RIGHT, Floats
from kinematics.guidance.condyles import lateral_step
from kinematics.guidance.guidance import Guidance, Side

#: Step of the numerical derivatives: large enough for their rounding, small beside any curvature.
_STEP_MM: Final = 1e-4
#: After a step below this the next one, at worst, would change nanometres by picometres.
_SETTLED_MM: Final = 1e-9
#: Nor does a round help that takes less than this share of the squares left.
_SETTLED_SHARE: Final = 1e-9
_ROUNDS: Final = 60
_HALVINGS: Final = 30

_Offsets = Callable[[Floats], Floats]


def nearest_advances(
    guidance: Guidance, condyle_right: Floats, condyle_left: Floats
) -> tuple[float, float, float]:
    """Return right advance, left advance and shift, mm, for condyle centres nearest to the given.

    Least sum of squared distances within the limits of the paths; both sides are tried as the
    nonworking one.

    Parameters
    ----------
    guidance : Guidance
        Prepared guidance.
    condyle_right, condyle_left : ndarray, shape (3,)
        Wanted condyle centres in the hinge frame, mm.
    """
    best = (0.0, 0.0, 0.0)
    least = np.inf
    for nonworking in (guidance.right, guidance.left):
        mine, other = (
            (condyle_right, condyle_left)
            if nonworking.sign == RIGHT
            else (condyle_left, condyle_right)
        )
        (common, excess, shift), squares = _fit(guidance, nonworking, mine, other)
        if squares < least:
            least = squares
            ahead = min(common + excess, nonworking.path.length_mm)
            right, left = (ahead, common) if nonworking.sign == RIGHT else (common, ahead)
            best = (right, left, -nonworking.sign * shift)
    return best


def _fit(
    guidance: Guidance, nonworking: Side, wanted_nonworking: Floats, wanted_working: Floats
) -> tuple[Floats, float]:
    """Return common advance, excess and size of shift (3,), and the sum of squares left, mm2."""
    working = guidance.left if nonworking.sign == RIGHT else guidance.right

    def offsets(values: Floats) -> Floats:
        common, excess, shift = np.ascontiguousarray(values.T)
        step = lateral_step(guidance, nonworking, common, excess, shift)
        return np.concatenate(
            [step.nonworking - wanted_nonworking, step.working - wanted_working], axis=1
        )

    reach = nonworking.path.length_mm
    top = np.array([min(reach, working.path.length_mm), reach, nonworking.shift_limit_mm])
    first = [wanted_working[0], wanted_nonworking[0] - wanted_working[0], 0.0]
    values = np.clip(first, 0.0, top)
    left = offsets(values[None])[0]
    for _ in range(_ROUNDS):
        step = _bounded_step(offsets, values, left, top)
        fraction = _useful_fraction(offsets, values, left, step)
        if fraction == 0.0:
            break
        before = left @ left
        values = np.clip(values + fraction * step, 0.0, top)
        left = offsets(values[None])[0]
        if np.abs(step).max() < _SETTLED_MM or left @ left > (1.0 - _SETTLED_SHARE) * before:
            break
    return values, float(left @ left)


def _bounded_step(offsets: _Offsets, values: Floats, left: Floats, top: Floats) -> Floats:
    """Return the Gauss-Newton step (3,) that stays between 0 and `top`."""
    free = np.flatnonzero(top > 0.0)
    above, below = (np.tile(values, (len(free), 1)) for _ in range(2))
    for row, column in enumerate(free):
        above[row, column] = min(values[column] + _STEP_MM, top[column])
        below[row, column] = max(values[column] - _STEP_MM, 0.0)
    change = offsets(above) - offsets(below)
    slopes = change / np.sum(above - below, axis=1)[:, None]
    bounds = (-values[free], top[free] - values[free])
    step = np.zeros(3)
    step[free] = lsq_linear(slopes.T, -left, bounds=bounds, method="bvls").x
    return step


def _useful_fraction(offsets: _Offsets, values: Floats, left: Floats, step: Floats) -> float:
    """Return the largest 2^-k of the step that brings the condyles nearer, 0 where none does."""
    fractions = 0.5 ** np.arange(_HALVINGS)
    tried = offsets(values + fractions[:, None] * step)
    nearer = np.sum(tried * tried, axis=1) < left @ left
    return float(fractions[np.argmax(nearer)]) if nearer.any() else 0.0
