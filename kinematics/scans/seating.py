"""Scanned casts let into each other at the bite: how far they overlap, and by how much they yield.

A scanned bite overlaps by some hundredths of a millimetre: teeth yield in their sockets when they
bite, and scans are off. Closed rigidly about the hinge, such casts meet at one or two of their
deepest overlaps and nowhere else. With an allowance the lower cast is first moved, in all six
freedoms and as little as possible, until no overlap is deeper than the allowance; then the surfaces
yield where they still overlap, so that all their stops touch.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.optimize import nnls

from kinematics.contact.gap_maps import gap_map
from kinematics.contact.pair import Pair
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh, face_areas_normals
from kinematics.geometry.poses import pose_of, rotation_about

#: Surfaces deeper in each other than this are no bite, mm. Chosen for this program: several times
#: the overlaps of scanned bites.
DEEPEST_MM: Final = 0.6
#: Vertices farther from the other arch than this do not bound a small motion, mm.
_NEAR_MM: Final = 0.3
#: Overlap beyond the allowance that is left, mm.
_SLACK_MM: Final = 5e-4
_ROUNDS: Final = 12
#: Longest motion of one round: farther, distances told beforehand no longer hold, mm.
_STEP_MM: Final = 0.15
#: Rotations are counted by how far they move what lies so far off, mm: about half an arch.
_ARM_MM: Final = 25.0
#: How many gaps are added to those that bind in a round.
_MOST_ADDED: Final = 200
#: A dual solved to less than this says that no motion opens all gaps as wanted.
_NO_SOLUTION: Final = 1e-9


@dataclass(frozen=True)
class Overlaps:
    """How far every vertex stands in the other arch, mm; 0 where it does not.

    Attributes
    ----------
    upper_mm : ndarray, shape (u,)
        Depth square to the other surface, of the vertices of the upper.
    lower_mm : ndarray, shape (v,)
        Of the vertices of the lower.
    """

    upper_mm: Floats
    lower_mm: Floats

    @property
    def deepest_mm(self) -> float:
        """The deepest of all."""
        return float(max(self.upper_mm.max(), self.lower_mm.max()))


@dataclass(frozen=True)
class Seating:
    """How the lower cast was seated.

    Attributes
    ----------
    as_scanned : Overlaps
        In the bite as scanned or recorded.
    seated : Overlaps
        After the motion; what is let in.
    move : ndarray, shape (4, 4)
        Motion of the lower in the hinge frame.
    """

    as_scanned: Overlaps
    seated: Overlaps
    move: Floats


def seat(
    upper: Mesh, lower: Mesh, pair: Pair, pose: Floats, allowance_mm: float, workers: Workers
) -> Seating:
    """Move the lower as little as possible until no overlap is deeper than the allowance.

    The least motion is that of least mean square over the vertices near the other arch. Each round
    solves for it with gaps that change along vertex normals, then measures anew.

    Parameters
    ----------
    upper : Mesh
        In the hinge frame.
    lower : Mesh
        In lower coordinates.
    pair : Pair
        Both, prepared.
    pose : ndarray, shape (4, 4)
        hinge_from_lower in the bite as scanned or recorded.
    allowance_mm : float
        Overlap that is let in.
    workers : Workers
        Threads.

    Returns
    -------
    Seating
        Where overlaps deeper than the allowance cannot be avoided, what is left is deeper.
    """
    move = np.eye(4)
    signed = _signed_gaps(pair, pose, workers)
    first = overlaps = _overlaps(signed)
    for _ in range(_ROUNDS):
        if overlaps.deepest_mm <= allowance_mm + _SLACK_MM:
            break
        freedoms = _freedoms(upper, lower, move @ pose, signed)
        motion = _least_motion(freedoms, -(freedoms.gaps_mm + allowance_mm))
        if motion is None:
            break
        move = _pose_of_motion(motion, freedoms.middle) @ move
        signed = _signed_gaps(pair, move @ pose, workers)
        overlaps = _overlaps(signed)
    return Seating(first, overlaps, move)


def _overlaps(signed: tuple[Floats, Floats]) -> Overlaps:
    return Overlaps(*(np.maximum(0.0, -gaps) for gaps in signed))


def _signed_gaps(pair: Pair, pose: Floats, workers: Workers) -> tuple[Floats, Floats]:
    """Return distances of all vertices, negative where the closing arc says they are past."""
    found = gap_map(pair, pose, DEEPEST_MM, workers)

    def signed(distance: Floats, arc: Floats) -> Floats:
        past = np.isfinite(arc) & (arc < 0.0)
        return np.where(past, -distance, distance)

    distance, arc = found.distance, found.arc_gap
    return signed(distance.upper_mm, arc.upper_mm), signed(distance.lower_mm, arc.lower_mm)


@dataclass(frozen=True)
class _Freedoms:
    """How gaps of n vertices grow with six small motions of the lower.

    Attributes
    ----------
    rows : ndarray, shape (n, 6)
        With three translations and three rotations about the middle, mm and rad times `_ARM_MM`.
    gaps_mm : ndarray, shape (n,)
        As they are.
    size : ndarray, shape (6, 6)
        Mean square of how far the vertices move, as a quadratic form of the motions.
    middle : ndarray, shape (3,)
        Of the vertices, hinge frame, mm.
    """

    rows: Floats
    gaps_mm: Floats
    size: Floats
    middle: Floats


def _freedoms(upper: Mesh, lower: Mesh, pose: Floats, signed: tuple[Floats, Floats]) -> _Freedoms:
    """Return how gaps grow with motions of the lower, of the vertices near the other arch."""
    near = [np.abs(gaps) < _NEAR_MM for gaps in signed]
    # The lower closes gaps along its own outward normals, and opens them along the upper's.
    own = -_vertex_normals(lower)[near[1]] @ pose[:3, :3].T
    opening = np.concatenate([_vertex_normals(upper)[near[0]], own])
    placed = lower.vertices[near[1]] @ pose[:3, :3].T + pose[:3, 3]
    places = np.concatenate([upper.vertices[near[0]], placed])
    middle = places.mean(axis=0)
    arms = (places - middle) / _ARM_MM
    size = np.eye(6)
    size[3:, 3:] = np.eye(3) * (arms**2).sum(axis=1).mean() - arms.T @ arms / len(arms)
    gaps = np.concatenate([signed[0][near[0]], signed[1][near[1]]])
    return _Freedoms(np.concatenate([opening, np.cross(arms, opening)], axis=1), gaps, size, middle)


def _vertex_normals(mesh: Mesh) -> Floats:
    """Return unit normals (n, 3) of vertices, means of their triangles' weighted by area."""
    areas, normals = face_areas_normals(mesh)
    weighted = (areas[:, None] * normals).astype(np.float64)
    total = np.stack(
        [
            sum(
                np.bincount(mesh.faces[:, corner], weighted[:, axis], len(mesh.vertices))
                for corner in range(3)
            )
            for axis in range(3)
        ],
        axis=1,
    )
    length = np.linalg.norm(total, axis=1, keepdims=True)
    return np.asarray(total / np.where(length > 0.0, length, 1.0))


def _least_motion(freedoms: _Freedoms, wanted_mm: Floats) -> Floats | None:
    """Return the smallest motion (6,) by which every gap grows as wanted; None if there is none.

    A least-distance problem, solved by its dual (Lawson & Hanson, Solving Least Squares Problems,
    1974, chapter 23), on the gaps that bind: those that a solution leaves too small are added.
    """
    root = np.linalg.cholesky(freedoms.size)
    rows = np.linalg.solve(root, freedoms.rows.T).T
    binding = np.argsort(-wanted_mm, kind="stable")[:_MOST_ADDED]
    for _ in range(_ROUNDS):
        dual = np.vstack([rows[binding].T, wanted_mm[binding]])
        shares, left = nnls(dual, np.append(np.zeros(6), 1.0))
        if left < _NO_SOLUTION:
            return None
        rest = dual @ shares - np.append(np.zeros(6), 1.0)
        motion = -rest[:6] / rest[6]
        short = wanted_mm - rows @ motion
        if short.max() <= 0.1 * _SLACK_MM:
            break
        worst = np.argsort(-short, kind="stable")[:_MOST_ADDED]
        binding = np.union1d(binding, worst[short[worst] > 0.0])
    found = np.linalg.solve(root.T, motion)
    longest = float(np.sqrt(found @ freedoms.size @ found))
    return np.asarray(found * min(1.0, _STEP_MM / max(longest, 1e-300)))


def _pose_of_motion(motion: Floats, middle: Floats) -> Floats:
    """Return the rigid motion (4, 4) of three translations and three rotations about a middle."""
    turn = motion[3:] / _ARM_MM
    angle = float(np.linalg.norm(turn))
    rotation = rotation_about(turn / angle, angle) if angle > 0.0 else np.eye(3)
    return pose_of(rotation, middle + motion[:3] - rotation @ middle)
