"""A scan brought onto a surface exactly: where it lies, how well, and how firmly it is held."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.geometry.poses import move_points, turn_vectors
from kinematics.scans.coarse_registration import small_motions
from kinematics.scans.registration_target import Nearest, Target, nearest_places

#: Points farther than this from the surface do not pull, mm, round by round; later ones not if they
#: lie farther off than all others. Chosen for this program.
_REACHES_MM: Final = (1.5, 1.2, 1.0, 0.8, 0.6, 0.5)
_LAST_REACH_MM: Final = 0.4
#: Normals that differ by more are not of the same place, as their cosine: 45 degrees.
_LEAST_COSINE: Final = 0.7
#: Residuals beyond this many standard deviations do not pull at all (Tukey's biweight: 4.685 keeps
#: 95 % of what least squares would make of normal errors; Holland & Welsch, Commun Stat A
#: 1977;6:813).
_BEYOND: Final = 4.685
#: Median of the size of normal errors, in standard deviations.
_MEDIAN: Final = 0.6745
_LEAST_SCATTER_MM: Final = 0.002
MOST_ROUNDS: Final = 60
#: A step that moves no tooth by more than this, mm, is the last; one that moves none by more than
#: the other is at rest but for single points that count in one round and not in the next.
_SETTLED_MM: Final = 1e-6
_AT_REST_MM: Final = 0.002
#: About the farthest that a tooth lies from the middle of its arch, mm.
_ARM_MM: Final = 40.0
#: A point lies beside the surface, mm, and on it, mm. Chosen for this program: scans of one arch
#: differ by some hundredths of a millimetre, those of two people by more than a tenth nearly
#: everywhere.
BESIDE_MM: Final = 1.0
ON_MM: Final = 0.1
#: Errors of a scan are alike over patches of this size, mm2, so that more points on one say no
#: more; and they are at least so large, mm, however smooth it looks. Chosen for this program.
_PATCH_MM2: Final = 4.0
_LEAST_ERROR_MM: Final = 0.02


@dataclass(frozen=True)
class FinePlace:
    """Where a scan lies on a surface.

    Attributes
    ----------
    pose : ndarray, shape (4, 4)
        From the coordinates of the scan to those of the surface.
    on : ndarray of bool, shape (n,)
        Which points lie on the surface.
    beside : ndarray of bool, shape (n,)
        Which lie so near to it that they should.
    residual_mm : float
        How far those on it lie off, root mean square.
    covariance : ndarray, shape (6, 6)
        Of the error of the pose: of turns about the middle of the surface, rad, and of shifts, mm;
        infinite where nothing holds it.
    settled : bool
        Whether the search came to rest, to some micrometres.
    """

    pose: Floats
    on: Bools
    beside: Bools
    residual_mm: float
    covariance: Floats
    settled: bool

    @property
    def share(self) -> float:
        """Of the points beside the surface, the share that lies on it."""
        return float(self.on.sum() / max(int(self.beside.sum()), 1))

    @property
    def turn_error_deg(self) -> float:
        """Standard error of the turn about the axis that is held least."""
        return float(np.degrees(np.sqrt(_largest(self.covariance[:3, :3]))))

    @property
    def shift_error_mm(self) -> float:
        """Standard error of the shift, of the middle, that is held least."""
        return float(np.sqrt(_largest(self.covariance[3:, 3:])))


def _largest(block: Floats) -> float:
    return float(np.linalg.eigvalsh(block)[-1]) if np.isfinite(block).all() else np.inf


def fine_place(
    target: Target,
    points: Floats,
    normals: Floats,
    pose: Floats,
    apart_mm: float,
    most_rounds: int = MOST_ROUNDS,
) -> FinePlace:
    """Bring points into the planes of the surface where they lie, whatever does not belong to it.

    Parameters
    ----------
    target : Target
        The surface.
    points, normals : ndarray, shape (n, 3)
        Of the scan; the side of the normals does not matter.
    pose : ndarray, shape (4, 4)
        To begin with, right to about a millimetre.
    apart_mm : float
        About how far points lie from each other.
    most_rounds : int
        After so many it ends, settled or not.
    """
    settled = False
    for number in range(most_rounds):
        last = number >= len(_REACHES_MM)
        near, off_mm, counts = _compared(target, points, normals, pose)
        counts &= near.distances_mm < (_LAST_REACH_MM if last else _REACHES_MM[number])
        moved = move_points(pose, points)
        square, pull, _ = _equations(moved - target.middle, near.normals, off_mm, counts)
        if not _solvable(square):
            break
        step = np.asarray(-np.linalg.solve(square, pull), dtype=np.float64)
        pose = small_motions(step[None], target.middle[None])[0] @ pose
        moved_mm = float(np.abs(step * ([_ARM_MM] * 3 + [1.0] * 3)).max())
        settled = last and moved_mm < _AT_REST_MM
        if last and moved_mm < _SETTLED_MM:
            break
    return _judged(target, points, normals, pose, apart_mm, settled)


def _compared(
    target: Target, points: Floats, normals: Floats, pose: Floats
) -> tuple[Nearest, Floats, Bools]:
    """Return what lies nearest, how far points lie off its plane, and whether both are alike."""
    moved = move_points(pose, points)
    near = nearest_places(target, moved, max(BESIDE_MM, _REACHES_MM[0]))
    off_mm = ((moved - near.places) * near.normals).sum(axis=1)
    along = (turn_vectors(pose, normals) * near.normals).sum(axis=1)
    return near, off_mm, near.inside & (np.abs(along) > _LEAST_COSINE)


def _equations(
    arms: Floats, across: Floats, off_mm: Floats, counts: Bools
) -> tuple[Floats, Floats, float]:
    """Return normal equations (6, 6) and (6,) of a small motion, and the scatter of residuals."""
    rows, off = np.concatenate([np.cross(arms, across), across], axis=1)[counts], off_mm[counts]
    if len(off) == 0:
        return np.zeros((6, 6)), np.zeros(6), np.inf
    scatter_mm = max(float(np.median(np.abs(off))) / _MEDIAN, _LEAST_SCATTER_MM)
    weight = np.clip(1.0 - (off / (_BEYOND * scatter_mm)) ** 2, 0.0, None) ** 2
    weighted = weight[:, None] * rows
    # Summed in one order: a product of matrices might depend on the number of threads.
    square = (weighted[:, :, None] * rows[:, None, :]).sum(axis=0)
    return square, (weighted * off[:, None]).sum(axis=0), scatter_mm


def _solvable(square: Floats) -> bool:
    """Tell whether all six freedoms are held at all."""
    size = np.sqrt(np.diagonal(square))
    if not (size > 0.0).all():
        return False
    return bool(np.linalg.eigvalsh(square / np.outer(size, size))[0] > 1e-9)


def _judged(
    target: Target,
    points: Floats,
    normals: Floats,
    pose: Floats,
    apart_mm: float,
    settled: bool,
) -> FinePlace:
    near, off_mm, alike = _compared(target, points, normals, pose)
    beside = alike & (near.distances_mm < BESIDE_MM)
    on = alike & (near.distances_mm < ON_MM)
    arms = move_points(pose, points) - target.middle
    square, _, scatter_mm = _equations(arms, near.normals, off_mm, on)
    covariance = np.full((6, 6), np.inf)
    if _solvable(square):
        alike_points = max(1.0, _PATCH_MM2 / apart_mm**2)
        error_mm = max(scatter_mm, _LEAST_ERROR_MM)
        covariance = error_mm**2 * alike_points * np.linalg.inv(square)
    residual_mm = float(np.sqrt(np.mean(off_mm[on] ** 2))) if on.any() else np.inf
    return FinePlace(pose, on, beside, residual_mm, covariance, settled)
