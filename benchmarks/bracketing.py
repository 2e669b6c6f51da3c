"""First contact by a library that only tells whether two meshes collide: a narrowing bracket.

The bracket lies about the opening that the poses before let expect. Where the library also says
how far the meshes are apart at least, that is used to guess the contact and to narrow the bracket.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from benchmarks.expecting import Expected
from kinematics.conventions import Floats

#: A tenth of a micrometre at 100 mm from the hinge axis.
SLACK_RAD: Final = 1e-6
#: The first pose of a path has nothing to go by.
_FIRST_WIDTH_RAD: Final = 0.01
#: No longer steps are made, or a collision of thin sheets is stepped over.
_LONGEST_STEP_RAD: Final = 0.01
_MOST_TESTS: Final = 500
#: Trials at the guessed contact before the bracket is halved.
_GUESSES: Final = 6

#: Takes the pose (3, 4) of the opened lower; tells whether the meshes collide, and how far they
#: are apart at least, mm (0 where that is not known).
Test = Callable[[Floats], tuple[bool, float]]


@dataclass(frozen=True)
class Plan:
    """How a bracket is laid.

    Attributes
    ----------
    width_rad : float
        Half of the first bracket.
    by_line : bool
        Whether it lies about the line through the last two answers, or about the last one.
    """

    width_rad: float
    by_line: bool

    def words(self) -> str:
        """Return the plan for the table."""
        about = "the line through the last two answers" if self.by_line else "the last answer"
        return f"bracket +-{self.width_rad:.0e} rad about {about}"


#: Plans for tests that only say yes or no, and for those that tell a distance, which need fewer.
PLANS: Final = tuple(
    Plan(width, by_line)
    for width, by_line in (
        (1e-6, True), (3e-6, True), (1e-5, True), (3e-5, True), (1e-4, True),
        (1e-5, False), (1e-4, False), (1e-3, False),
    )
)  # fmt: skip
DISTANCE_PLANS: Final = tuple(
    Plan(width, by_line) for width, by_line in ((3e-6, True), (1e-5, True), (1e-4, False))
)


def opened_rows(pose: Floats, opening_rad: float) -> Floats:
    """Return the first three rows of a pose with the lower opened."""
    c, s = math.cos(opening_rad), math.sin(opening_rad)
    rows = pose[:3].copy()
    rows[:, 0] = c * pose[:3, 0] - s * pose[:3, 2]
    rows[:, 2] = s * pose[:3, 0] + c * pose[:3, 2]
    return rows


class Bracket:
    """The search of one pose.

    Parameters
    ----------
    test : Test
        What the library tells.
    pose : ndarray, shape (4, 4)
        hinge_from_lower at opening 0.
    reach_mm : float
        Greatest distance of the lower from the hinge axis: no point moves farther a radian.
    slope_mm : float
        How far the meshes part a radian near contact, as the pose before had it.
    """

    def __init__(self, test: Test, pose: Floats, reach_mm: float, slope_mm: float) -> None:
        self._test, self._pose, self._reach_mm = test, pose, reach_mm
        self.slope_mm = slope_mm
        self.low, self.high = -math.inf, math.inf
        self.tests = 0
        self._guess = math.nan
        self._apart: list[tuple[float, float]] = []

    def try_at(self, opening: float) -> bool:
        """Test an opening and narrow the bracket; tell whether the meshes collide there."""
        self.tests += 1
        touches, apart_mm = self._test(opened_rows(self._pose, opening))
        if touches:
            self.low = opening
            if opening >= self._guess:
                self._guess = math.nan
        else:
            self.high = opening
            if apart_mm > 0.0:
                self._guess = opening - apart_mm / self.slope_mm
                self._apart.append((opening, apart_mm))
                self.high = opening - apart_mm / self._reach_mm
        return touches

    def enclose(self, expected: float, width: float) -> None:
        """Find an opening without and one with a collision, coming from above."""
        step, trial = width, expected + width
        while self.try_at(trial):
            step = min(4.0 * step, _LONGEST_STEP_RAD)
            trial += step
            self._refuse_far()
        step, trial = width, min(expected, self.high) - width
        while not math.isfinite(self.low):
            if math.isfinite(self._guess) and self.tests < _GUESSES:
                self.try_at(min(self._guess, self.high) - SLACK_RAD)
                continue
            self.try_at(min(trial, self.high - SLACK_RAD))
            step = min(4.0 * step, _LONGEST_STEP_RAD)
            trial -= step
            self._refuse_far()

    def _refuse_far(self) -> None:
        if self.tests > _MOST_TESTS:
            raise ValueError("the meshes do not meet near the pose before")

    def narrow(self) -> float:
        """Return the middle of the bracket when its ends are within the slack of it."""
        guesses = 0
        while self.high - self.low > 2.0 * SLACK_RAD:
            step = 0.9 * SLACK_RAD
            above = self.high > self._guess + 2.0 * step
            trial = self._guess + step if above else self._guess - step
            if guesses < _GUESSES and self.low < trial < self.high:
                guesses += 1
            else:
                trial = 0.5 * (self.low + self.high)
            self.try_at(trial)
        answer = 0.5 * (self.low + self.high)
        for opening, apart_mm in self._apart:  # the last that is far enough to tell a slope
            if opening - answer > 5.0 * SLACK_RAD:
                self.slope_mm = min(apart_mm / (opening - answer), self._reach_mm)
        return answer


def close_by_bracket(
    test: Test, poses: Floats, reach_mm: float, plan: Plan
) -> tuple[Floats, float]:
    """Find the greatest opening with a collision, to within `SLACK_RAD`.

    Returns
    -------
    opening_rad : ndarray, shape (n,)
        Middles of the last brackets.
    tests : float
        Tests a pose, on average.
    """
    result, tests, slope = np.empty(len(poses)), 0, reach_mm
    expected = Expected(plan.by_line)
    for n, pose in enumerate(poses):
        expected.begin(pose)
        bracket = Bracket(test, pose, reach_mm, slope)
        bracket.enclose(
            expected.opening_rad, _FIRST_WIDTH_RAD if expected.jumped else plan.width_rad
        )
        result[n] = bracket.narrow()
        expected.end(float(result[n]))
        tests, slope = tests + bracket.tests, bracket.slope_mm
    return result, tests / len(poses)
