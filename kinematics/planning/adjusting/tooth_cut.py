"""One tooth cut until it clears teeth of the other arch in given poses.

Vertices are moved along the closing arc: the overlap is measured along it, so the cut takes off
what overlaps and no more; and since all vertices turn about one axis by amounts that change gently,
no triangle folds over another, which moves square to a cusped surface would bring about.
"""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, close
from kinematics.contact.envelope import Measure, Side, envelope
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, mesh_of, part_of
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from kinematics.teeth.moves_without_cliffs import without_cliffs
from kinematics.tooth_codes import is_upper

#: Rounds of moving vertices to the envelope, and of cutting what still stands in the way between
#: them.
VERTEX_ROUNDS: Final = 4
EDGE_ROUNDS: Final = 60
#: What may be left in the way, and by how much more than the overlap a cut between vertices takes,
#: mm.
LEFT_OVER_MM: Final = 5e-4
CUT_MORE_MM: Final = 2e-4
#: Poses in which the tooth stays so much farther away than wanted need not be looked at again, mm.
RECHECKED_MM: Final = 0.02


@dataclass(frozen=True)
class Wanted:
    """Poses in which a tooth is to stay clear.

    Attributes
    ----------
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower.
    margin_mm : float
        How far, along the closing arc.
    """

    poses: Floats
    margin_mm: float


@dataclass(frozen=True)
class CutSurface:
    """A tooth before and after a cut.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    vertices : ndarray, shape (k,)
        Numbers of its vertices in the mesh of its arch.
    before, after : Mesh
        The tooth alone, in the coordinates of its arch.
    arc_mm : ndarray, shape (k,)
        How much comes off every vertex, along the closing arc.
    left_mm : float
        By how much it still stands nearer than wanted, along the arc; 0 where the aim is reached.
    left_pose : int
        In which of the wanted poses; -1 where it is reached.
    """

    tooth: int
    vertices: Ints
    before: Mesh
    after: Mesh
    arc_mm: Floats
    left_mm: float
    left_pose: int

    @property
    def volume_mm3(self) -> float:
        """Volume that comes off; the same bits for any order of the triangles."""
        origin = self.before.vertices.mean(axis=0)
        both = [self._signed(mesh.corners - origin) for mesh in (self.before, self.after)]
        return abs(math.fsum([*both[0].tolist(), *(-both[1]).tolist()]))

    @staticmethod
    def _signed(corners: Floats) -> Floats:
        """Return volumes (m,) between triangles and the origin."""
        return np.asarray(np.linalg.det(corners) / 6.0)

    @property
    def area_mm2(self) -> float:
        """Area of the uncut surface of which more than a micrometre comes off, by vertex."""
        cross = np.cross(
            self.before.corners[:, 1] - self.before.corners[:, 0],
            self.before.corners[:, 2] - self.before.corners[:, 0],
        )
        share = (self.arc_mm > 1e-3)[self.before.faces].mean(axis=1)
        return math.fsum((0.5 * np.linalg.norm(cross, axis=1) * share).tolist())


def tooth_part(arch: Arch, code: int) -> tuple[Mesh, Ints, Bools]:
    """Return one tooth alone, its vertices' numbers, and which of them no other part shares."""
    own = arch.tooth_of_face == code
    mesh, used = part_of(arch.mesh, own)
    shared = np.zeros(len(arch.mesh.vertices), dtype=np.bool_)
    shared[arch.mesh.faces[~own].ravel()] = True
    return mesh, used, ~shared[used]


def cut_tooth(
    casts: MountedCasts,
    code: int,
    against: frozenset[int],
    wanted: Wanted,
    most_mm: Floats,
    least_mm: Floats,
    workers: Workers,
) -> CutSurface:
    """Cut a tooth until it stays clear of teeth of the other arch.

    Parameters
    ----------
    casts : MountedCasts
        Both arches.
    code : int
        Tooth that is cut, ISO 3950.
    against : frozenset of int
        Teeth of the other arch that it is to clear.
    wanted : Wanted
        In which poses, and by how much.
    most_mm : ndarray, shape (k,)
        How much may come off every vertex of the tooth; 0 protects it.
    least_mm : ndarray, shape (k,)
        How much comes off in any case.
    workers : Workers
        Threads; results do not depend on them.
    """
    arch, other = (casts.upper, casts.lower) if is_upper(code) else (casts.lower, casts.upper)
    mesh, used, own = tooth_part(arch, code)
    cut = _Cut(casts, code, mesh, _teeth(other, against), workers)
    most = np.where(own, most_mm, 0.0)
    depth = np.minimum(least_mm, most)
    for _ in range(VERTEX_ROUNDS):
        more = cut.too_near(depth, wanted)
        if not (more > CUT_MORE_MM).any():
            break
        gentle = -without_cliffs(mesh.faces, mesh.vertices, -(depth + more))
        deeper = np.maximum(depth, np.minimum(gentle, most))
        if np.array_equal(deeper, depth):
            break
        depth = deeper
    depth, left, pose = cut.between(depth, most, wanted)
    return CutSurface(code, used, mesh, cut.cut_mesh(depth), depth, left, pose)


def _teeth(arch: Arch, codes: frozenset[int]) -> Arch:
    """Return some teeth of an arch alone, without landmarks."""
    chosen = np.isin(arch.tooth_of_face, list(codes))
    mesh, _ = part_of(arch.mesh, chosen)
    return Arch(mesh, arch.tooth_of_face[chosen], ())


class _Cut:
    """One tooth against some of the other arch, cut by and by."""

    def __init__(
        self, casts: MountedCasts, code: int, mesh: Mesh, other: Arch, workers: Workers
    ) -> None:
        self._upper, self._mesh, self._workers = is_upper(code), mesh, workers
        self._pose = casts.mi_pose
        self._codes = np.full(len(mesh.faces), code)
        self._other = lower_tree(other) if self._upper else upper_tree(other)

    def cut_mesh(self, depth_mm: Floats) -> Mesh:
        """Return the tooth with so much (k,) taken off."""
        places = cut_vertices(self._pose, self._mesh.vertices, depth_mm, upper=self._upper)
        return mesh_of(places, self._mesh.faces)

    def _pair(self, depth_mm: Floats) -> Pair:
        own = Arch(self.cut_mesh(depth_mm), self._codes, ())
        if self._upper:
            return Pair(upper_tree(own), self._other)
        return Pair(self._other, lower_tree(own))

    def too_near(self, depth_mm: Floats, wanted: Wanted) -> Floats:
        """Return by how much every vertex (k,) comes nearer than wanted, up to 2 mm."""
        side, limit = (Side.UPPER if self._upper else Side.LOWER), 2.0 + wanted.margin_mm
        gaps = envelope(
            self._pair(depth_mm), wanted.poses, limit, side, Measure.ARC_GAP, self._workers
        ).least_mm
        return np.clip(wanted.margin_mm - gaps, 0.0, limit)

    def between(
        self, depth_mm: Floats, most_mm: Floats, wanted: Wanted
    ) -> tuple[Floats, float, int]:
        """Cut what edges and faces between the vertices leave in the way; return what stays."""
        depth, rows = depth_mm.copy(), np.arange(len(wanted.poses))
        left, pose = 0.0, -1
        for _ in range(EDGE_ROUNDS):
            pair = self._pair(depth)
            met = close(pair, wanted.poses[rows], None, self._workers)
            meets = met.status == MEETS
            way = np.where(meets, met.opening_rad, 0.0) * met.radius_mm
            near = np.where(meets, way + wanted.margin_mm, -np.inf)
            worst = int(np.argmax(near)) if len(near) else -1
            left = max(float(near[worst]), 0.0) if len(near) else 0.0
            pose = int(rows[worst]) if left > LEFT_OVER_MM else -1
            if pose < 0:
                return depth, 0.0, -1
            high = near > 0.5 * LEFT_OVER_MM
            face = (met.face_upper if self._upper else met.face_lower)[high]
            more = np.zeros(len(depth))
            corners = self._mesh.faces[face]
            np.maximum.at(more, corners.ravel(), np.repeat(near[high] + CUT_MORE_MM, 3))
            deeper = np.minimum(depth + more, np.maximum(most_mm, depth))
            if np.array_equal(deeper, depth):
                break
            depth, rows = deeper, rows[near > -RECHECKED_MM]
        return depth, left, pose


def cut_vertices(mi_pose: Floats, vertices: Floats, depth_mm: Floats, *, upper: bool) -> Floats:
    """Return vertices (k, 3) moved into their tooth along the closing arc in MI.

    Parameters
    ----------
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    vertices : ndarray, shape (k, 3)
        In the coordinates of their arch, mm.
    depth_mm : ndarray, shape (k,)
        How far.
    upper : bool
        Whether they are of the upper, which is cut as the jaw closes.
    """
    local = move_points(inverse(mi_pose), vertices) if upper else vertices
    radius = np.maximum(np.hypot(local[:, 0], local[:, 2]), 1.0)  # nothing moves at the axis
    turn = opening_rotation((-depth_mm if upper else depth_mm) / radius)[:, :3, :3]
    moved = np.einsum("nij,nj->ni", turn, local)
    back = move_points(mi_pose, moved) if upper else moved
    return np.where((depth_mm > 0.0)[:, None], back, vertices)
