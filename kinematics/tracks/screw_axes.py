"""The one axis about which many small motions turn, by least squares, and its scatter."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.spatial.transform import RigidTransform

from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.poses import inverse

_FORWARD_UP: Final = [0, 2]


@dataclass(frozen=True)
class Turns:
    """Motions that may be turns about one axis.

    A point c of the axis stays where it is, but for a slide along it: turn c + shift is parallel to
    the axis.

    Attributes
    ----------
    turn : ndarray, shape (m, 3, 3)
        Of finite motions R - 1; of velocities the cross product with the angular velocity.
    shift : ndarray, shape (m, 3)
        Of finite motions the translation, of velocities that of the origin; mm, mm/s.
    members : ndarray, shape (m, k)
        Which rows of the track each was found from.
    """

    turn: Floats
    shift: Floats
    members: Ints


def finite_turns(poses: Floats, rows: Ints, least_rad: float) -> Turns:
    """Return the motions between all pairs of some rows of poses that turn by at least an angle."""
    first, second = np.triu_indices(len(rows), 1)
    chosen = poses[rows]
    motions = chosen[second] @ inverse(chosen[first])
    # |R - 1| = 2 sqrt(2) sin(angle / 2)
    turn = motions[:, :3, :3] - np.eye(3)
    large = np.linalg.norm(turn, axis=(1, 2)) >= np.sqrt(8.0) * np.sin(0.5 * least_rad)
    members = np.stack([rows[first], rows[second]], axis=1)
    return Turns(turn[large], motions[large, :3, 3], members[large])


def instantaneous_turns(
    poses: Floats, time_s: Floats, rows: Ints, half: int, least_rad_a_s: float
) -> Turns:
    """Return velocities at some rows, where the jaw turns at least so fast.

    By the motion from `half` rows before to as many after, along its own screw.
    """
    rows = rows[(rows >= half) & (rows + half < len(poses))]
    motions = poses[rows + half] @ inverse(poses[rows - half])
    span_s = time_s[rows + half] - time_s[rows - half]
    speeds = RigidTransform.from_matrix(motions).as_exp_coords() / span_s[:, None]
    fast = np.linalg.norm(speeds[:, :3], axis=1) >= least_rad_a_s
    x, y, z = speeds[fast, :3].T
    turn = np.zeros((len(x), 3, 3))
    turn[:, 0, 1], turn[:, 0, 2], turn[:, 1, 2] = -z, y, -x
    turn[:, 1, 0], turn[:, 2, 0], turn[:, 2, 1] = z, -y, x
    return Turns(turn, speeds[fast, 3:], rows[fast, None])


def crossings_of(turns: Turns, half_distance_mm: float) -> Floats:
    """Return where the axis of least squares crosses the planes of the condyles, (2, 2).

    Right and left; forward and up, mm, in the hinge frame.
    """
    found: Floats = _crossings(turns, np.ones((1, len(turns.turn))), half_distance_mm)[0]
    return found


def jackknife(turns: Turns, half_distance_mm: float) -> Floats:
    """Return the covariance (4, 4) of the crossings, from leaving out one row after the other.

    Rows must be independent. It holds what rows scatter, whatever makes them (Efron, The Jackknife,
    the Bootstrap and Other Resampling Plans, SIAM 1982, chapter 3, from memory).
    """
    rows = np.unique(turns.members)
    left_in: Bools = ~(turns.members[None] == rows[:, None, None]).any(axis=2)
    found = _crossings(turns, left_in.astype(float), half_distance_mm).reshape(len(rows), 4)
    off = found - found.mean(axis=0)
    return np.asarray((len(rows) - 1) / len(rows) * off.T @ off)


def directions_of(turns: Turns, weights: Floats) -> Floats:
    """Return the directions (n, 3), to the left, that motions with weights (n, m) turn least."""
    squares = np.swapaxes(turns.turn, 1, 2) @ turns.turn
    sums = np.tensordot(weights, squares, axes=1)
    along = np.linalg.eigh(sums)[1][:, :, 0]
    return np.asarray(along * np.where(along[:, 1:2] < 0.0, -1.0, 1.0))


def _crossings(turns: Turns, weights: Floats, half_distance_mm: float) -> Floats:
    """Return crossings (n, 2, 2) with weights (n, m)."""
    along = directions_of(turns, weights)
    across = np.eye(3) - along[:, :, None] * along[:, None, :]
    products = np.einsum("mai,mbj->maibj", turns.turn, turns.turn)
    sums = np.tensordot(weights, products, axes=1)
    shifts = np.tensordot(weights, np.einsum("mai,mb->maib", turns.turn, turns.shift), axes=1)
    squares = np.einsum("nab,naibj->nij", across, sums)
    wanted = -np.einsum("nab,naib->ni", across, shifts)
    # Along the axis nothing is known, nor needed: the point with no part along it is taken.
    squares += along[:, :, None] * along[:, None, :] * np.trace(squares, 0, 1, 2)[:, None, None]
    point = np.linalg.solve(squares, wanted[:, :, None])[:, :, 0]
    planes = half_distance_mm * np.array([-1.0, 1.0])
    far = (planes - point[:, 1:2]) / along[:, 1:2]
    crossing = point[:, None] + far[:, :, None] * along[:, None]
    return np.asarray(crossing[:, :, _FORWARD_UP])
