"""Where a scan may lie on a surface, from many starts at once, to about a millimetre."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.geometry.poses import identity_poses, move_points, pose_of, turn_vectors
from kinematics.scans.registration_target import Target, about_nearest

#: Points farther than this from the surface do not pull, mm, round by round: at first all that may
#: belong to it, at last what lies on it but for the cells of its field. Chosen for this program.
_FAR_REACHES_MM: Final = (16.0, 12.0, 9.0, 7.0, 6.0, 5.0)
_NEAR_REACHES_MM: Final = (4.5, 4.0, 3.5, 3.0, 2.5, 2.0, 2.0, 1.5, 1.5, 1.5, 1.5)
#: So many of the first poses are followed to the end.
_KEPT: Final = 200
#: From this reach on points may slide along the surface.
_SLIDING_MM: Final = 3.0
#: Normals that differ by more are not of the same place, as their cosine: 60 degrees.
_LEAST_COSINE: Final = 0.5
#: A point this near to the surface counts as lying on it, mm; half a cell.
_ON_MM: Final = 0.5
#: Places nearer to each other than this, mm, at the points, are one.
SAME_PLACE_MM: Final = 1.5
#: What keeps a turn that nothing holds from running away, as a share of the largest.
_LEAST_HELD: Final = 1e-6
#: Poses at once.
_AT_ONCE: Final = 256


@dataclass(frozen=True)
class CoarsePlaces:
    """Where a scan may lie, the likeliest first.

    Attributes
    ----------
    poses : ndarray, shape (k, 4, 4)
        From the coordinates of the scan to those of the surface; no two are one place.
    shares : ndarray, shape (k,)
        Of the points that lie on the surface there.
    """

    poses: Floats
    shares: Floats


def coarse_places(
    target: Target, points: Floats, normals: Floats, starts: Floats, most: int, *, far: bool
) -> CoarsePlaces:
    """Bring some points onto a surface from each of many starts.

    Parameters
    ----------
    target : Target
        The surface.
    points, normals : ndarray, shape (n, 3)
        Of the scan, some hundred; the side of the normals does not matter.
    starts : ndarray, shape (s, 4, 4)
        Poses to begin with.
    most : int
        How many places are wanted.
    far : bool
        Whether the starts may be far from any place, else they are some millimetres near one.
    """
    scan = points, normals
    reaches_mm = _FAR_REACHES_MM if far else _FAR_REACHES_MM[-1:]
    poses, nearness = _all_nearer(target, scan, starts, reaches_mm)
    poses = poses[np.argsort(-nearness, kind="stable")[:_KEPT]]
    poses, _ = _all_nearer(target, scan, poses, _NEAR_REACHES_MM)
    return _distinct(poses, _share_on(target, points, normals, poses), points, most)


def _all_nearer(
    target: Target, scan: tuple[Floats, Floats], starts: Floats, reaches_mm: tuple[float, ...]
) -> tuple[Floats, Floats]:
    """Return poses after some rounds, and how near the scan then is to the surface."""
    ends, nearness = [], []
    for first in range(0, len(starts), _AT_ONCE):
        poses = starts[first : first + _AT_ONCE]
        for reach_mm in reaches_mm:
            poses = _nearer(target, *scan, poses, reach_mm)
        ends.append(poses)
        nearness.append(_nearness(target, *scan, poses))
    return np.concatenate(ends), np.concatenate(nearness)


def _nearness(target: Target, points: Floats, normals: Floats, poses: Floats) -> Floats:
    """Return how near points are to the surface in each pose, (s,): 1 where all lie on it."""
    moved = move_points(poses, points)
    near = about_nearest(target, moved)
    away_mm = np.sqrt(((target.surface.points[near] - moved) ** 2).sum(axis=2))
    alike = _alike(normals, poses, target.surface.normals[near])
    return np.asarray(
        (np.clip(1.0 - away_mm / _FAR_REACHES_MM[-1], 0.0, None) * alike).mean(axis=1)
    )


def _nearer(
    target: Target, points: Floats, normals: Floats, poses: Floats, reach_mm: float
) -> Floats:
    """Return poses after one round: what is in reach is brought onto the surface."""
    moved, near = move_points(poses, points), about_nearest(target, move_points(poses, points))
    places, across = target.surface.points[near], target.surface.normals[near]
    counts = (((places - moved) ** 2).sum(axis=2) < reach_mm**2) & _alike(normals, poses, across)
    if reach_mm > _SLIDING_MM:
        return _brought(moved, places, counts) @ poses
    return _slid(moved, places, across, counts) @ poses


def _alike(normals: Floats, poses: Floats, across: Floats) -> Bools:
    """Tell where normals of scan and surface are those of one place, whatever their sides."""
    along = (turn_vectors(poses, normals) * across).sum(axis=2)
    return np.asarray(np.abs(along) > _LEAST_COSINE)


def _brought(moved: Floats, places: Floats, counts: Bools) -> Floats:
    """Return motions (s, 4, 4) that bring points (s, n, 3) nearest to places, where they count."""
    weight = counts[..., None] / np.maximum(counts.sum(axis=1), 1)[:, None, None]
    middle, there = (weight * moved).sum(axis=1), (weight * places).sum(axis=1)
    spread = np.einsum("sni,snj->sij", weight * (moved - middle[:, None]), places - there[:, None])
    u, _, vt = np.linalg.svd(spread)
    sign = np.sign(np.linalg.det(u) * np.linalg.det(vt))
    vt[:, 2] *= np.where(sign == 0.0, 1.0, sign)[:, None]
    turn = np.einsum("sji,skj->sik", vt, u)
    found = pose_of(turn, there - np.einsum("sij,sj->si", turn, middle))
    found[counts.sum(axis=1) < 3] = np.eye(4)
    return found


def _slid(moved: Floats, places: Floats, across: Floats, counts: Bools) -> Floats:
    """Return small motions (s, 4, 4) that bring points into the planes of their places."""
    middle = moved.mean(axis=1)
    rows = np.concatenate([np.cross(moved - middle[:, None], across), across], axis=2)
    rows = np.where(counts[..., None], rows, 0.0)
    short = np.where(counts, ((places - moved) * across).sum(axis=2), 0.0)
    square = np.einsum("sni,snj->sij", rows, rows)
    held = np.einsum("sii->s", square)[:, None, None] * _LEAST_HELD + 1e-9
    step = np.linalg.solve(
        square + held * np.eye(6), np.einsum("sni,sn->si", rows, short)[..., None]
    )[..., 0]
    return small_motions(step, middle)


def small_motions(steps: Floats, about: Floats) -> Floats:
    """Return motions (s, 4, 4): turns about points (s, 3) by rotation vectors, then shifts.

    Parameters
    ----------
    steps : ndarray, shape (s, 6)
        Rotation vector, rad, and shift, mm.
    about : ndarray, shape (s, 3)
        Where the turns leave everything in place.
    """
    angle = np.sqrt((steps[:, :3] ** 2).sum(axis=1))
    axis = steps[:, :3] / np.where(angle == 0.0, 1.0, angle)[:, None]
    x, y, z = axis.T
    zero = np.zeros_like(x)
    cross = np.stack([zero, -z, y, z, zero, -x, -y, x, zero], axis=1).reshape(-1, 3, 3)
    sin, cos = np.sin(angle)[:, None, None], np.cos(angle)[:, None, None]
    turn = identity_poses(len(steps))[:, :3, :3] + sin * cross + (1.0 - cos) * (cross @ cross)
    return pose_of(turn, about + steps[:, 3:] - np.einsum("sij,sj->si", turn, about))


def _share_on(target: Target, points: Floats, normals: Floats, poses: Floats) -> Floats:
    """Return which share of the points lies on the surface, (s,)."""
    moved = move_points(poses, points)
    near = about_nearest(target, moved)
    away, across = moved - target.surface.points[near], target.surface.normals[near]
    beside = np.abs((away * across).sum(axis=2)) < _ON_MM
    close = (away**2).sum(axis=2) < (3.0 * _ON_MM) ** 2
    return np.asarray((beside & close & _alike(normals, poses, across)).mean(axis=1))


def _distinct(poses: Floats, shares: Floats, points: Floats, most: int) -> CoarsePlaces:
    """Keep the likeliest places, each once."""
    chosen: list[int] = []
    moved = move_points(poses, points)
    for row in np.argsort(-shares, kind="stable"):
        if len(chosen) == most:
            break
        ways = (np.linalg.norm(moved[row] - moved[other], axis=1).max() for other in chosen)
        if all(way > SAME_PLACE_MM for way in ways):
            chosen.append(int(row))
    return CoarsePlaces(poses[chosen], shares[chosen])
