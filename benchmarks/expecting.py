"""Where the next contact is expected, from the poses before: what every library starts from."""

import math
from typing import Final

import numpy as np

from kinematics.conventions import Floats

#: A point of the lower near its front teeth, mm; poses that carry it farther than this from where
#: it was begin a new path.
_FRONT: Final = np.array([80.0, 20.0, -30.0, 1.0])
_JUMP_MM: Final = 0.5


class Expected:
    """Follows the answers along a path.

    Parameters
    ----------
    by_line : bool
        Whether the line through the last two answers is followed, or the last one is kept.

    Attributes
    ----------
    opening_rad : float
        What is expected of the pose begun last.
    jumped : bool
        Whether that is a guess from another path, or 0 at the very first pose.
    """

    def __init__(self, by_line: bool) -> None:
        self._by_line = by_line
        self._answers: list[float] = []
        self._front = np.full(3, math.inf)
        self.opening_rad, self.jumped = 0.0, True

    def begin(self, pose: Floats) -> None:
        """Look at the next pose (4, 4)."""
        front = pose[:3] @ _FRONT
        self.jumped = bool(np.abs(front - self._front).max() > _JUMP_MM)
        self._front = front
        if self.jumped:
            self._answers = self._answers[-1:]
        if not self._answers:
            self.opening_rad = 0.0
        elif len(self._answers) == 1 or not self._by_line:
            self.opening_rad = self._answers[-1]
        else:
            self.opening_rad = 2.0 * self._answers[-1] - self._answers[-2]
        if self.jumped:
            self._answers = []

    def end(self, answer: float) -> None:
        """Take the answer of the pose begun last."""
        self._answers = [*self._answers[-1:], answer]
