"""How near parts of one arch come to the other arch in MI and on every path, and where.

Shortest distances are exact, from triangle to triangle. Along a direction they are exact from every
vertex of either surface to the other surface that it meets there.
"""

from dataclasses import dataclass, replace
from itertools import product
from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import Pair
from kinematics.contact.sweep import Sweep
from kinematics.contact.vertex_search import Measure, Side, least_gaps
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, joined
from kinematics.geometry.poses import inverse, move_points
from kinematics.geometry.trees import Tree, tree_over
from kinematics.planning.wording import excursion_label

#: Farther than this nothing is looked for, mm (chosen for this program).
FARTHEST_MM: Final = 4.0
#: At most so many parts are measured at once.
_PARTS_AT_ONCE: Final = 60
#: A vertex that lies past the opposing surface by no more than this has no room there, mm; beyond
#: it, what is met is another surface.
_PAST_MM: Final = 0.5


@dataclass(frozen=True)
class Poses:
    """The judged poses of all excursions, one after another; the first is MI.

    Attributes
    ----------
    hinge_from_lower : ndarray, shape (n, 4, 4)
        The lower at closure.
    excursion : tuple of str, n
        Label of the excursion of each; empty in MI.
    travel_mm : ndarray, shape (n,)
        From its start.
    """

    hinge_from_lower: Floats
    excursion: tuple[str, ...]
    travel_mm: Floats


@dataclass(frozen=True)
class Nearest:
    """Where something comes nearest.

    Attributes
    ----------
    distance_mm : float
        inf where it is farther than `FARTHEST_MM`.
    opponent : int
        ISO 3950 number of the tooth opposite; 0 where it is none or where nothing is near.
    excursion : str
        Label; empty in MI.
    travel_mm : float
        From the start of the excursion.
    """

    distance_mm: float
    opponent: int
    excursion: str
    travel_mm: float


def judged_poses(casts: MountedCasts, sweeps: tuple[Sweep, ...]) -> Poses:
    """Return MI, then every pose of every excursion that is not beyond edge-to-edge."""
    poses, labels, travel = [casts.mi_pose[None]], [""], [np.zeros(1)]
    for sweep in sweeps:
        judged = ~sweep.crossover
        poses.append(sweep.poses[judged])
        travel.append(sweep.travel_mm[judged])
        labels += [excursion_label(sweep.excursion)] * int(judged.sum())
    return Poses(np.concatenate(poses), tuple(labels), np.concatenate(travel))


@dataclass(frozen=True)
class Opposing:
    """One arch, measured against parts of the other in many poses.

    Attributes
    ----------
    casts : MountedCasts
        Both arches.
    of_upper : bool
        Whether the parts are those of the upper arch.
    poses : Poses
        In which it is measured.
    workers : Workers
        Threads.
    """

    casts: MountedCasts
    of_upper: bool
    poses: Poses
    workers: Workers

    def only(self, wanted: Bools) -> "Opposing":
        """Return the same in some of the poses (n,) alone."""
        rows = np.flatnonzero(wanted)
        labels = tuple(self.poses.excursion[row] for row in rows)
        some = Poses(self.poses.hinge_from_lower[rows], labels, self.poses.travel_mm[rows])
        return replace(self, poses=some)

    def distances(
        self, parts: list[Mesh], farthest_mm: float = FARTHEST_MM
    ) -> tuple[Floats, tuple[int, ...]]:
        """Measure the shortest distance of some parts from every tooth opposite, in every pose.

        Parameters
        ----------
        parts : list of Mesh
            In the coordinates of their arch.
        farthest_mm : float, optional
            Distance up to which is measured.

        Returns
        -------
        distances_mm : ndarray, shape (n, parts, teeth)
            0 where they intersect, inf beyond the farthest.
        teeth : tuple of int
            Their ISO 3950 numbers, 0 for what is no tooth.
        """
        codes = tuple(sorted(self._other.groups))
        found = [
            self._of_some(parts[first : first + _PARTS_AT_ONCE], codes, farthest_mm)
            for first in range(0, len(parts), _PARTS_AT_ONCE)
        ]
        return np.concatenate(found, axis=1), codes

    def _of_some(self, parts: list[Mesh], codes: tuple[int, ...], farthest_mm: float) -> Floats:
        numbers = tuple(range(1, len(parts) + 1))
        pair = self._pair(_tree(parts, self.of_upper))
        own = (numbers, codes) if self.of_upper else (codes, numbers)
        gaps = pair_gaps(pair, self.poses.hinge_from_lower, farthest_mm, *own, self.workers)
        return gaps if self.of_upper else gaps.transpose(0, 2, 1)

    def nearest(self, distances_mm: Floats, codes: tuple[int, ...], poses: slice) -> Nearest:
        """Return the least of some poses, of one part (n, teeth); of equals the first."""
        some = distances_mm[poses]
        pose, tooth = np.unravel_index(int(np.argmin(some)), some.shape)
        return self._told(
            float(some[pose, tooth]), codes[tooth], range(len(distances_mm))[poses][pose]
        )

    def _told(self, distance_mm: float, code: int, pose: int) -> Nearest:
        if not np.isfinite(distance_mm):
            return Nearest(np.inf, NO_TOOTH, "", 0.0)
        travel = float(self.poses.travel_mm[pose])
        return Nearest(distance_mm, code, self.poses.excursion[pose], travel)

    def map_mm(self, surface: Mesh) -> Floats:
        """Return how near every vertex (v,) of a surface comes to the other arch in all poses."""
        pair = self._pair(_tree([surface], self.of_upper))
        side = Side.UPPER if self.of_upper else Side.LOWER
        wanted = ((side, Measure.DISTANCE),)
        poses = self.poses.hinge_from_lower
        (found,) = least_gaps(pair, poses, 1, FARTHEST_MM, wanted, False, self.workers)
        return np.asarray(found.gap_mm[0])

    def along_mm(self, part: Mesh, way: Floats, shortest_mm: Floats) -> tuple[float, float]:
        """Return the room of a part in a direction: in MI, and the least of all poses.

        Told from every vertex of either surface to the other.

        Parameters
        ----------
        part : Mesh
            In the coordinates of its arch.
        way : ndarray, shape (3,)
            Unit vector, same coordinates.
        shortest_mm : ndarray, shape (n,)
            Its shortest distance in every pose: there is at least as much room in any direction,
            so poses in which that is more than was found need not be looked at.

        Returns
        -------
        (float, float)
            mm; inf where it meets nothing within `FARTHEST_MM`.
        """
        arch = self.casts.lower if self.of_upper else self.casts.upper
        corners = arch.mesh.vertices[_near_faces(arch.mesh, self._spans(part))].reshape(-1, 3)
        frame, poses = _frame_along(way), self._own_from_other()
        points = part.vertices @ frame.T

        faces = points[part.faces]

        def room_mm(pose: Floats) -> float:
            seen = _within(points, (move_points(pose, corners) @ frame.T).reshape(-1, 3, 3))
            ahead = _least_along(points, seen, 1.0), _least_along(seen.reshape(-1, 3), faces, -1.0)
            return min(ahead) if min(ahead) <= FARTHEST_MM else np.inf

        in_mi = least = room_mm(poses[0])
        for row in np.argsort(shortest_mm, kind="stable"):
            if shortest_mm[row] >= least or np.isinf(shortest_mm[row]):
                break
            least = min(least, room_mm(poses[row]))
        return in_mi, least

    def _own_from_other(self) -> Floats:
        """Return poses (n, 4, 4) that bring the other arch into the coordinates of the parts."""
        poses = self.poses.hinge_from_lower
        return poses if self.of_upper else inverse(poses)

    def _spans(self, part: Mesh) -> tuple[Floats, Floats]:
        """Return a box of the other arch (3,), (3,) outside of which a part meets nothing."""
        low, high = part.vertices.min(axis=0) - FARTHEST_MM, part.vertices.max(axis=0) + FARTHEST_MM
        corners = np.array(list(product(*zip(low, high, strict=True))))
        moved = move_points(inverse(self._own_from_other()), corners).reshape(-1, 3)
        return moved.min(axis=0), moved.max(axis=0)

    @property
    def _other(self) -> Tree:
        return self.casts.pair.lower if self.of_upper else self.casts.pair.upper

    def _pair(self, own: Tree) -> Pair:
        return Pair(own, self._other) if self.of_upper else Pair(self._other, own)


def _tree(parts: list[Mesh], of_upper: bool) -> Tree:
    """Return a tree over some parts, numbered from 1."""
    labels: Ints = np.repeat(np.arange(1, len(parts) + 1), [len(part.faces) for part in parts])
    facing = -1.0 if of_upper else 1.0
    return tree_over(joined(parts), labels, facing=facing, turns=not of_upper)


def _near_faces(mesh: Mesh, box: tuple[Floats, Floats]) -> Ints:
    """Return the faces (k, 3) of a mesh that reach into a box."""
    corners = mesh.corners
    reaches = (corners.max(axis=1) >= box[0]).all(axis=1) & (corners.min(axis=1) <= box[1]).all(
        axis=1
    )
    return np.asarray(mesh.faces[reaches])


def _frame_along(way: Floats) -> Floats:
    """Return three unit vectors (3, 3) at right angles, the last one a direction."""
    aside = np.eye(3)[int(np.argmin(np.abs(way)))]
    across = np.cross(way, aside)
    across /= np.linalg.norm(across)
    return np.stack([across, np.cross(way, across), way])


def _within(points: Floats, corners: Floats) -> Floats:
    """Return those of some triangles (m, 3, 3) that points (n, 3) can meet along the third axis."""
    low, high = points.min(axis=0), points.max(axis=0)
    near = (
        (corners[:, :, :2].max(axis=1) >= low[:2]).all(axis=1)
        & (corners[:, :, :2].min(axis=1) <= high[:2]).all(axis=1)
        & (corners[:, :, 2].max(axis=1) >= low[2] - _PAST_MM)
        & (corners[:, :, 2].min(axis=1) <= high[2] + FARTHEST_MM)
    )
    return np.asarray(corners[near])


def _least_along(points: Floats, corners: Floats, way: float) -> float:
    """Return the least way from points (n, 3) to triangles (m, 3, 3) along the third axis.

    `way` is 1.0 along it and -1.0 against it; only triangles that face the points count, not their
    far sides.
    """
    flat = corners[:, None, :, :2] - points[None, :, None, :2]
    one, two, three = flat[:, :, 0], flat[:, :, 1], flat[:, :, 2]
    shares = np.stack([_turn(two, three), _turn(three, one), _turn(one, two)], axis=2)
    total = shares.sum(axis=2)
    hit = (way * total < 0.0) & (way * shares <= 0.0).all(axis=2)
    face, point = np.nonzero(hit)
    height = (shares[face, point] * corners[face, :, 2]).sum(axis=1) / total[face, point]
    ahead = way * (height - points[point, 2])
    return max(float(ahead[ahead >= -_PAST_MM].min(initial=np.inf)), 0.0)


def _turn(one: Floats, other: Floats) -> Floats:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])
