"""Rigid motions of three points that are followed over time, and how far they are from rigid."""

from pathlib import Path
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.geometry.poses import move_points, pose_of

#: Distances between points of a rigid jaw stay the same; by more than this, mm, they do not change
#: by noise. Chosen for this program, as for pairs of points of a record.
MOST_CHANGE_MM: Final = 1.0
#: A triangle of points must be this high, mm, over its longest side: flatter, 0.1 mm of noise would
#: turn the jaw by more than a degree. Chosen for this program.
LEAST_HEIGHT_MM: Final = 5.0
_PAIRS: Final = (("a", "b"), ("b", "c"), ("c", "a"))


def point_motions(points: Floats, first: Floats, lines: Ints, path: Path) -> tuple[Floats, float]:
    """Return the motions of least squares from the first places of points to all others.

    Parameters
    ----------
    points : ndarray, shape (n, 3, 3)
        Points a, b, c in every row, mm.
    first : ndarray, shape (3, 3)
        Where they begin.
    lines : ndarray, shape (n,)
        Line of each row, for messages.
    path : Path
        What to call the file.

    Returns
    -------
    motions : ndarray, shape (n, 4, 4)
        Rigid.
    off_mm : float
        How far points stay beside the places the motions bring them to, root mean square.

    Raises
    ------
    InputError
        Points on one line, or whose distances change.
    """
    _refuse_flat(first, path)
    _refuse_changing(points, first, lines, path)
    middle, middles = first.mean(axis=0), points.mean(axis=1)
    # Kabsch: singular vectors of the sums of products, mirrored back where they mirror.
    sums = np.swapaxes(points - middles[:, None], 1, 2) @ (first - middle)
    u, _, vt = np.linalg.svd(sums)
    signs = np.ones((len(points), 3))
    signs[:, 2] = np.sign(np.linalg.det(u) * np.linalg.det(vt))
    turns = (u * signs[:, None]) @ vt
    motions = pose_of(turns, middles - turns @ middle)
    off = move_points(motions, first) - points
    return motions, float(np.sqrt(np.mean(np.sum(off * off, axis=2))))


def _sides_mm(points: Floats) -> Floats:
    """Return the distances (n, 3) from a to b, b to c and c to a."""
    return np.asarray(np.linalg.norm(points[:, [1, 2, 0]] - points, axis=2))


def _refuse_flat(first: Floats, path: Path) -> None:
    twice_area = float(np.linalg.norm(np.cross(first[1] - first[0], first[2] - first[0])))
    longest = float(_sides_mm(first[None]).max())
    height = twice_area / longest if longest > 0.0 else 0.0
    if height < LEAST_HEIGHT_MM:
        raise InputError(
            f"{path}: points a, b and c lie on one line but for {height:.1f} mm; at least"
            f" {LEAST_HEIGHT_MM:g} mm are needed, else the turn about it is not known: follow"
            " points on both sides and in front"
        )


def _refuse_changing(points: Floats, first: Floats, lines: Ints, path: Path) -> None:
    change = _sides_mm(points) - _sides_mm(first[None])
    row, pair = np.unravel_index(int(np.argmax(np.abs(change))), change.shape)
    if abs(change[row, pair]) > MOST_CHANGE_MM:
        one, other = _PAIRS[pair]
        raise InputError(
            f"{path}: line {lines[row]}: the distance of points {one} and {other} has changed by"
            f" {change[row, pair]:+.2f} mm; a rigid jaw keeps it, accepted are"
            f" {MOST_CHANGE_MM:g} mm. Are all three fixed to the lower, and points_in_mi, if given,"
            " the same points in the same order?"
        )
