"""First contact by rays of Embree: vertices of each arch cast along the closing arc at the other.

A ray follows the tangent of the arc, so the cast is repeated where the arch nearly touches until
nothing moves by more than a tenth of the error bound. Rays start from vertices: a contact of edge
on edge is missed, and so is what it holds open. Embree computes in single precision, which is some
thousandths of a micrometre here.
"""

import math
from dataclasses import dataclass
from typing import Final

import embreex.mesh_construction
import embreex.rtcore_scene
import numpy as np

from benchmarks.bracketing import SLACK_RAD
from benchmarks.expecting import Expected
from benchmarks.tuning import Way
from kinematics.casts.casts import Arch
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import face_areas_normals
from kinematics.geometry.poses import inverse, move_points, opening_rotation, turn_vectors

#: Rays start so far behind their vertex, mm, so that one that has just gone through still hits.
_BACK_MM: Final = 0.3
#: Rays start somewhat more open than is expected, so that they start outside; much so at a jump.
_OPEN_RAD: Final = 1e-4
_JUMP_OPEN_RAD: Final = 0.06
#: Vertices within this of the nearest one are cast again, mm, more where the step was long.
_AGAIN_MM: Final = 0.01
_MOST_CASTS: Final = 12
#: Triangles turned away by more than this (sine) touch nothing first; their vertices are left out.
_AWAY: Final = 0.2
#: What Embree tells of a ray that hits nothing is far beyond this.
_FAR_MM: Final = 1e6


@dataclass(frozen=True)
class _Side:
    """One arch: what its vertices are cast at is the other one.

    Attributes
    ----------
    scene : EmbreeScene
        The arch, about `middle`.
    middle : ndarray, shape (3,)
        Near its triangles, so that single precision is fine.
    vertices : ndarray, shape (m, 3)
        Vertices that can touch first: those with a triangle that faces the other arch, or a rim.
    """

    scene: embreex.rtcore_scene.EmbreeScene
    middle: Floats
    vertices: Floats


def _side(arch: Arch, closing: float) -> _Side:
    """Return an arch ready to be cast at and from; it closes along `closing` times up."""
    vertices, faces = arch.mesh.vertices, arch.mesh.faces
    middle = vertices.mean(axis=0)
    scene = embreex.rtcore_scene.EmbreeScene()
    about = (vertices - middle).astype(np.float32)
    embreex.mesh_construction.TriangleMesh(scene, about, faces.astype(np.int32))
    ahead, _ = _tangents(arch.mesh.corners.mean(axis=1))
    facing = closing * np.sum(face_areas_normals(arch.mesh)[1] * ahead, axis=1) > -_AWAY
    return _Side(scene, middle, vertices[np.unique(faces[facing])])


def _tangents(points: Floats) -> tuple[Floats, Floats]:
    """Return unit tangents (n, 3) of the closing arc in the lower's frame, and radii (n,), mm."""
    radius = np.hypot(points[:, 0], points[:, 2])
    tangents = np.zeros_like(points)
    np.divide(points[:, 2], -radius, out=tangents[:, 0])
    np.divide(points[:, 0], radius, out=tangents[:, 2])
    return tangents, radius


def _gaps(target: _Side, origins: Floats, directions: Floats, radius: Floats) -> Floats:
    """Return the angles (n,) that rays (n, 3), which start behind, go before they hit."""
    hits = target.scene.run(
        (origins - target.middle).astype(np.float32),
        directions.astype(np.float32),
        query="DISTANCE",
    )
    return np.where(hits < _FAR_MM, (hits - _BACK_MM) / radius, np.inf)


class _Closing:
    """Casts for one pose, all openings relative to the pose at opening 0."""

    def __init__(self, upper: _Side, lower: _Side, pose: Floats) -> None:
        self._upper, self._lower, self._pose = upper, lower, pose
        self._back = inverse(pose)

    def from_lower(self, rows: Ints, opening: float) -> Floats:
        """Return the angles (n,) by which lower vertices are open at an opening."""
        moved = self._pose @ opening_rotation(opening)
        points = self._lower.vertices[rows]
        tangents, radius = _tangents(points)
        origins = move_points(moved, points - _BACK_MM * tangents)
        return _gaps(self._upper, origins, turn_vectors(moved, tangents), radius)

    def from_upper(self, rows: Ints, opening: float) -> Floats:
        """Return the angles (n,) by which upper vertices are open, seen from the lower."""
        points = move_points(opening_rotation(-opening) @ self._back, self._upper.vertices[rows])
        tangents, radius = _tangents(points)
        return _gaps(self._lower, points + _BACK_MM * tangents, -tangents, radius)


def _nearest(
    closing: _Closing, rows: tuple[Ints, Ints], opening: float
) -> tuple[float, int, tuple[Floats, Floats]]:
    """Cast until nothing moves; return the opening, the casts, and all angles of the first cast."""
    first = closing.from_lower(rows[0], opening), closing.from_upper(rows[1], opening)
    gaps, chosen, casts = first, rows, 1
    while casts < _MOST_CASTS:
        least = min(side.min(initial=np.inf) for side in gaps)
        if not math.isfinite(least):
            raise ValueError("no ray hits: the meshes do not meet, or lie in each other too deeply")
        opening -= least
        if abs(least) < 0.1 * SLACK_RAD:
            break
        limit = least + _AGAIN_MM / 100.0 + 0.2 * abs(least)
        near = [np.flatnonzero(side <= limit) for side in gaps]
        chosen = chosen[0][near[0]], chosen[1][near[1]]
        gaps = closing.from_lower(chosen[0], opening), closing.from_upper(chosen[1], opening)
        casts += 1
    return opening, casts, first


@dataclass(frozen=True)
class _Followed:
    """Which vertices are cast: all, or those that were near a few poses ago.

    Attributes
    ----------
    near_mm : float
        Vertices farther from touching than this are left out; inf for none.
    moved_mm : float
        They are chosen anew when the lower has moved so far.
    """

    near_mm: float
    moved_mm: float

    def words(self) -> str:
        """Return it for the table."""
        if math.isinf(self.near_mm):
            return "all vertices that face the other arch"
        return f"vertices within {self.near_mm:g} mm, chosen anew every {self.moved_mm:g} mm"


_ALL: Final = _Followed(math.inf, -1.0)


def _close(upper: _Side, lower: _Side, poses: Floats, followed: _Followed) -> tuple[Floats, float]:
    """Return the openings (n,) and how many casts a pose took."""
    result, casts = np.empty(len(poses)), 0
    ends = np.stack([lower.vertices.min(axis=0), lower.vertices.max(axis=0)])
    expected = Expected(by_line=True)
    all_rows = np.arange(len(lower.vertices)), np.arange(len(upper.vertices))
    rows, chosen_at = all_rows, np.full((2, 3), np.inf)
    for n, pose in enumerate(poses):
        expected.begin(pose)
        stands = move_points(pose, ends)
        anew = not np.abs(stands - chosen_at).max() <= followed.moved_mm
        opening, some, first = _nearest(
            _Closing(upper, lower, pose),
            all_rows if anew else rows,
            expected.opening_rad + (_JUMP_OPEN_RAD if expected.jumped else _OPEN_RAD),
        )
        if anew and math.isfinite(followed.near_mm):
            limit = min(side.min(initial=np.inf) for side in first) + followed.near_mm / 80.0
            rows = np.flatnonzero(first[0] <= limit), np.flatnonzero(first[1] <= limit)
            chosen_at = stands
        result[n], casts = opening, casts + some
        expected.end(opening)
    return result, casts / len(poses)


def ways(upper: Arch, lower: Arch) -> list[Way]:
    """Return the ways to close two arches with rays, the most careful first."""
    up, lo = _side(upper, -1.0), _side(lower, 1.0)
    return [
        Way(f"rays, {followed.words()}", lambda p, f=followed: _close(up, lo, p, f))
        for followed in (_ALL, *(_Followed(near, near / 8.0) for near in (0.8, 1.6, 3.2)))
    ]
