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
from kinematics.contact.closure import MEETS, Closures, close
from kinematics.contact.envelope import Measure, Side, envelope
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.contact.pose_rows import picked
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals, mesh_of, part_of
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from kinematics.teeth.moves_without_cliffs import without_cliffs
from kinematics.tooth_codes import is_upper

#: Overlaps and gaps are measured up to this, mm.
LIMIT_MM: Final = 3.0
#: Rounds of bringing vertices to the envelope, and of cutting what still stands in the way between
#: them.
VERTEX_ROUNDS: Final = 10
EDGE_ROUNDS: Final = 60
#: How exactly vertices are brought there, mm.
SETTLED_MM: Final = 1e-4
#: What may be left in the way, and by how much more than the overlap a cut between vertices takes,
#: mm.
LEFT_OVER_MM: Final = 5e-4
CUT_MORE_MM: Final = 2e-4
#: Where something may not come off, it is left when in so many rounds no more than this share goes.
PATIENCE: Final = 6
BETTER: Final = 0.9
#: A corner with less share than this in a point has none.
LEAST_SHARE: Final = 1e-3
#: Poses in which the tooth stays so much farther away than wanted need not be looked at again, mm.
RECHECKED_MM: Final = 0.02


@dataclass(frozen=True)
class _Left:
    """What is left in the way after a cut: by how much, in which pose, whether it may not go."""

    near_mm: float
    pose: int
    is_held: bool


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
    is_held : bool
        Whether it is what may come off that keeps it there, not how coarse its triangles are.
    """

    tooth: int
    vertices: Ints
    before: Mesh
    after: Mesh
    arc_mm: Floats
    left_mm: float
    left_pose: int
    is_held: bool

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
        areas, _ = face_areas_normals(self.before)
        return math.fsum((areas * (self.arc_mm > 1e-3)[self.before.faces].mean(axis=1)).tolist())


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
    poses: Floats,
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
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower as the jaw is to close, any margin included.
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
    needed = np.maximum(cut.to_envelope(poses), least_mm)
    gentle = -without_cliffs(mesh.faces, mesh.vertices, -needed)
    depth, left = cut.between(np.minimum(gentle, most), most, poses)
    return CutSurface(
        code, used, mesh, cut.cut_mesh(depth), depth, left.near_mm, left.pose, left.is_held
    )


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

    def to_envelope(self, poses: Floats) -> Floats:
        """Return how much must come off every vertex (k,) so that it stays clear, mm.

        Overlap is measured along the arcs of each pose, cuts are made along that of MI. On steep
        surfaces they differ, so what a round takes too much the next gives back, where it is sure.
        """
        depth = np.zeros(len(self._mesh.vertices))
        for number in range(VERTEX_ROUNDS):
            near = self._too_near(depth, poses)
            last = number == VERTEX_ROUNDS - 1
            change = np.maximum(near, 0.0 if last else -0.5 * depth)
            depth = depth + change
            if not (np.abs(change) > SETTLED_MM).any():
                break
        return depth

    def _too_near(self, depth_mm: Floats, poses: Floats) -> Floats:
        """Return by how much every vertex (k,) overlaps at most; negative: stays away."""
        side, pair = (Side.UPPER if self._upper else Side.LOWER), self._pair(depth_mm)
        found = envelope(pair, poses, LIMIT_MM, side, Measure.ARC_GAP, self._workers)
        return np.clip(-found.least_mm, -LIMIT_MM, LIMIT_MM)

    def between(self, depth_mm: Floats, most_mm: Floats, poses: Floats) -> tuple[Floats, _Left]:
        """Cut what edges and faces between the vertices leave in the way; return what stays."""
        depth, rows = depth_mm.copy(), np.arange(len(poses))
        left, least = _Left(0.0, -1, False), list[float]()
        for _ in range(EDGE_ROUNDS):
            met = close(self._pair(depth), poses[rows], None, self._workers)
            near = _overlap(met)
            worst = int(np.argmax(near))
            if near[worst] <= LEFT_OVER_MM:
                return depth, _Left(0.0, -1, False)
            face = self._mesh.faces[(met.face_upper if self._upper else met.face_lower)[worst]]
            held = bool((depth[face] >= most_mm[face] - SETTLED_MM).any())
            left = _Left(float(near[worst]), int(rows[worst]), held)
            least = [*least, left.near_mm]
            if (
                held
                and len(least) > PATIENCE
                and min(least[-PATIENCE:]) > BETTER * least[-PATIENCE]
            ):
                break
            high = near > 0.5 * LEFT_OVER_MM
            wanted = self._at_corners(depth, picked(met, high), poses[rows[high]], near[high])
            deeper = np.minimum(wanted, np.maximum(most_mm, depth))
            if np.array_equal(deeper, depth):
                break
            depth, rows = deeper, rows[near > -RECHECKED_MM]
        return depth, left

    def _at_corners(
        self, depth_mm: Floats, met: Closures, poses: Floats, near_mm: Floats
    ) -> Floats:
        """Return the depth of vertices (k,) at which the tooth clears some contacts (c,).

        The shallowest corners of a touching triangle are brought to one level, just so deep that
        the contact point clears. No corner gets deeper than is needed there.
        """
        points = met.point
        if not self._upper:
            at_touch = inverse(poses @ opening_rotation(met.opening_rad))
            points = move_points(at_touch, points[:, None])[:, 0]
        faces = self._mesh.faces[met.face_upper if self._upper else met.face_lower]
        places = cut_vertices(self._pose, self._mesh.vertices, depth_mm, upper=self._upper)
        share, now = _shares(places[faces], points), depth_mm[faces]
        needed = np.sum(share * now, axis=1) + near_mm + CUT_MORE_MM
        deeper = depth_mm.copy()
        levels = np.minimum(_levels(share, now, needed), needed)
        touched = np.where(share > LEAST_SHARE, levels[:, None], 0.0)
        np.maximum.at(deeper, faces.ravel(), touched.ravel())
        return deeper


def _levels(share: Floats, now_mm: Floats, needed_mm: Floats) -> Floats:
    """Return to which depth (c,) shallower corners must go so that their points are deep enough."""
    order = np.argsort(now_mm, axis=1, kind="stable")
    share, now_mm = (np.take_along_axis(values, order, 1) for values in (share, now_mm))
    carried = np.cumsum(share, axis=1)
    rest = (share * now_mm).sum(axis=1)[:, None] - np.cumsum(share * now_mm, axis=1)
    level = (needed_mm[:, None] - rest) / np.maximum(carried, 1e-12)
    return np.asarray(np.where(carried > LEAST_SHARE, level, np.inf).min(axis=1))


def _overlap(met: Closures) -> Floats:
    """Return by how much (n,) a tooth holds the jaw open in some poses, along the closing arc."""
    meets = met.status == MEETS
    return np.where(meets, np.where(meets, met.opening_rad, 0.0) * met.radius_mm, -LIMIT_MM)


def _shares(corners: Floats, points: Floats) -> Floats:
    """Return the barycentric shares (c, 3) of corners (c, 3, 3) in points (c, 3) of triangles."""
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    way = points - corners[:, 0]
    products = [
        np.sum(a * b, axis=1) for a, b in ((first, first), (first, second), (second, second))
    ]
    along = np.sum(way * first, axis=1), np.sum(way * second, axis=1)
    whole = np.maximum(products[0] * products[2] - products[1] ** 2, 1e-30)
    b = (products[2] * along[0] - products[1] * along[1]) / whole
    c = (products[0] * along[1] - products[1] * along[0]) / whole
    share = np.clip(np.stack([1.0 - b - c, b, c], axis=1), 0.0, 1.0)
    return np.asarray(share / share.sum(axis=1)[:, None])


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
