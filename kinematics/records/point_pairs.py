"""The rigid motion that brings picked points nearest to where the same points stand afterwards."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.spatial.transform import Rotation

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.poses import pose_of

#: Points must lie this far from the line that fits them best, mm, root mean square: nearer, 0.1 mm
#: of picking would turn the jaw by a degree. Chosen for this program.
LEAST_BESIDE_LINE_MM: Final = 5.0
#: Two points of a pair that stay farther apart than this, mm, are not the same place of the teeth.
#: Chosen for this program: many times the error of picking.
MOST_APART_MM: Final = 1.0


@dataclass(frozen=True)
class PairedMotion:
    """A rigid motion from pairs of points.

    Attributes
    ----------
    motion : ndarray, shape (4, 4)
        From the first places to the second.
    middle : ndarray, shape (3,)
        Middle of the second places, mm.
    apart_mm : tuple of float
        How far the points of each pair stay apart under the motion.
    """

    motion: Floats
    middle: Floats
    apart_mm: tuple[float, ...]

    @property
    def root_mean_square_mm(self) -> float:
        """Of all that stays apart."""
        return float(np.sqrt(np.mean(np.square(self.apart_mm))))


def paired_motion(before: Floats, after: Floats, where: str) -> PairedMotion:
    """Return the rigid motion of least squares.

    Parameters
    ----------
    before, after : ndarray, shape (n, 3)
        The same places of the teeth, n at least 3, mm.
    where : str
        What to call them in a message.

    Raises
    ------
    InputError
        Points on one line or nearly so, or pairs that are not of the same places.
    """
    for name, points in (("points_in_mi", before), ("points_in_record", after)):
        beside_mm = _beside_line_mm(points)
        if beside_mm < LEAST_BESIDE_LINE_MM:
            raise InputError(
                f"{where}.{name}: the points lie on one line but for {beside_mm:.1f} mm (root mean"
                f" square), so that the turn about it is not known; at least"
                f" {LEAST_BESIDE_LINE_MM:g} mm are needed: pick points on both sides of the arch"
                " and in front"
            )
    middles = before.mean(axis=0), after.mean(axis=0)
    turn = Rotation.align_vectors(after - middles[1], before - middles[0])[0].as_matrix()
    moved = (before - middles[0]) @ turn.T + middles[1]
    apart = np.linalg.norm(after - moved, axis=1)
    worst = int(np.argmax(apart))
    if apart[worst] > MOST_APART_MM:
        raise InputError(
            f"{where}: no rigid motion brings the points of all pairs together; pair {worst + 1}"
            f" stays {apart[worst]:.2f} mm apart, accepted are {MOST_APART_MM:g} mm. Are both lists"
            " of the same places, in the same order?"
        )
    motion = pose_of(turn[None], (middles[1] - turn @ middles[0])[None])[0]
    return PairedMotion(motion, middles[1], tuple(apart.tolist()))


def _beside_line_mm(points: Floats) -> float:
    """Return the distance of points (n, 3) from the line that fits them best, root mean square."""
    sizes = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    return float(np.hypot(*sizes[1:3]) / np.sqrt(len(points)))
