"""First touch: the greatest opening at which lower and upper meet, for many poses."""

from dataclasses import dataclass

import numpy as np

from kinematics.checks import InputError, rigid_poses
from kinematics.contact.pair import LeaveOut, Pair, masks
from kinematics.contact.pose_order import order_of_likeness
from kinematics.contact.workers import Watch, Workers, usable
from kinematics.conventions import Floats, Ints
from kinematics.geometry.kernels import features, first_contact
from kinematics.geometry.kernels.lanes import WIDTH

MEETS = 0
NOTHING_MEETS = 1


@dataclass(frozen=True)
class Closures:
    """First contacts of n poses, coming from wide open about each pose's own hinge axis.

    Where `status` is NOTHING_MEETS (no part of the lower passes any part of the upper), the angle
    is -inf, faces and teeth are -1, points and normals are 0.

    Attributes
    ----------
    opening_rad : ndarray, shape (n,)
        Opening at first contact.
    status : ndarray, shape (n,)
        MEETS or NOTHING_MEETS.
    kind : ndarray, shape (n,)
        0 lower vertex on upper face, 1 upper vertex on lower face, 2 edge on edge.
    point : ndarray, shape (n, 3)
        Contact point in the hinge frame, mm.
    normal : ndarray, shape (n, 3)
        Unit normal in the hinge frame, along which the lower pushes on the upper.
    face_upper, face_lower : ndarray, shape (n,)
        The touching triangles, numbered as in each arch's mesh.
    tooth_upper, tooth_lower : ndarray, shape (n,)
        ISO 3950 numbers of the touching teeth (0 where the triangle belongs to no tooth).
    radius_mm : ndarray, shape (n,)
        Distance of the contact point from the hinge axis: mm along the arc per radian.
    on_rim : ndarray, shape (n,)
        1 where a touching edge is an open boundary edge, or a touching vertex ends one: exact, but
        not a tooth surface.
    """

    opening_rad: Floats
    status: Ints
    kind: Ints
    point: Floats
    normal: Floats
    face_upper: Ints
    face_lower: Ints
    tooth_upper: Ints
    tooth_lower: Ints
    radius_mm: Floats
    on_rim: Ints


def close(
    pair: Pair,
    poses: Floats,
    leave_out: LeaveOut | None = None,
    workers: Workers | None = None,
    left_pairs: Ints | None = None,
) -> Closures:
    """Find the first contact of every pose, coming from wide open.

    Angles about the hinge axis are counted from behind it, where no arch is: surfaces that lie on
    either side of that half-plane never count as touching each other.

    Parameters
    ----------
    pair : Pair
        Both arches, prepared.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower at opening 0; the lower's hinge axis is its own y axis.
    leave_out : LeaveOut, optional
        Teeth and tooth pairs that take no part.
    workers : Workers, optional
        Threads; one if not given.
    left_pairs : ndarray, shape (n, 2), optional
        One more tooth pair (upper, lower) left out at each pose; -1 where there is none.

    Returns
    -------
    Closures
        The same bits for any number of threads, any order of poses and of triangles.

    Raises
    ------
    InputError
        Poses of another shape, not finite or not rigid; a tooth that an arch does not have.
    """
    poses = rigid_poses(poses, "poses", (None, 4, 4))
    left = _left_indices(pair, left_pairs, len(poses))
    found = _searched(pair, poses, leave_out, usable(workers), left, both=False)
    return _closures(pair, found[:, 0])


@dataclass(frozen=True)
class Touches:
    """The first contacts of n poses, and what comes next; see `close_and_next`."""

    first: Closures
    runner_up: Closures


def close_and_next(pair: Pair, poses: Floats, workers: Workers | None = None) -> Touches:
    """Find the first contact of every pose, and what would touch next without its tooth pair.

    The same as `close` and `runner_up`, found in one search.

    Parameters
    ----------
    pair, poses, workers
        See `close`.
    """
    poses = rigid_poses(poses, "poses", (None, 4, 4))
    nothing = _left_indices(pair, None, len(poses))
    hands = usable(workers)

    def find(some: Ints) -> Floats:
        return _searched(pair, poses[some], None, hands, nothing[some], both=True)

    found = hands.rows(pair, ("touches",), (poses,), find)
    return Touches(_closures(pair, found[:, 0]), _closures(pair, found[:, 1]))


def _searched(
    pair: Pair, poses: Floats, leave_out: LeaveOut | None, workers: Workers, left: Ints, both: bool
) -> Floats:
    """Return first contacts, and if asked for what comes next, as `_closures` reads them.

    Shape (n, 1, 13), or (n, 2, 13).

    left : ndarray, shape (n, 2)
        One more pair left out at each pose, as indices.
    """
    count, touches = len(poses), 2 if both else 1
    bits = masks(pair, leave_out)
    order = order_of_likeness(poses, pair.lower.far_corners)
    poses, left = np.ascontiguousarray(poses[order]), left[order]
    opening, radius = np.empty(touches * count), np.empty(touches * count)
    ids = np.empty((touches * count, 5), dtype=np.int64)
    points, normals = np.empty((touches * count, 3)), np.empty((touches * count, 3))

    def block(first: int, last: int, watch: Watch) -> None:
        with workers.closing_scratch(pair) as scratch:
            first_contact.close_poses(
                pair.upper.arrays, pair.lower.arrays, poses, first, last,
                bits.keep_upper, bits.keep_lower, bits.allow, left, both, scratch, watch,
                opening, ids, points, normals, radius, np.zeros(2, dtype=np.int64),
            )  # fmt: skip

    workers.run(count, block, shortest_part=WIDTH)
    every = np.column_stack([opening, radius, points, normals, ids])
    found = np.empty((count, touches, every.shape[1]))
    found[order] = every.reshape(touches, count, every.shape[1]).swapaxes(0, 1)
    return found


def _left_indices(pair: Pair, left_pairs: Ints | None, count: int) -> Ints:
    """Return the pairs left out a pose as tooth indices; -1 for none or unknown numbers."""
    left = np.full((count, 2), -1, dtype=np.int64)
    if left_pairs is not None:
        if left_pairs.shape != (count, 2):
            raise InputError(
                f"pairs left out: wanted 2 tooth numbers for each of {count} poses, found "
                f"{left_pairs.shape}"
            )
        for column, tree in enumerate((pair.upper, pair.lower)):
            for index, code in enumerate(tree.groups):
                left[left_pairs[:, column] == code, column] = index
    return left


def _closures(pair: Pair, found: Floats) -> Closures:
    """Translate the kernel's numbers into those of the arches.

    found : ndarray, shape (n, 13)
        Opening, radius, point, normal, then whole numbers: kind, upper and lower triangle, which of
        their features.
    """
    kind, upper, lower, feature_upper, feature_lower = found[:, 8:].T.astype(np.int64, order="C")
    meets = kind >= 0
    up, lo = pair.upper, pair.lower
    feature_upper, feature_lower = np.maximum(feature_upper, 0), np.maximum(feature_lower, 0)
    owned_upper, owned_lower = up.arrays.owned[upper], lo.arrays.owned[lower]
    edges = owned_upper >> (6 + feature_upper) | owned_lower >> (6 + feature_lower)
    vertex = np.where(
        kind == features.VERTEX_ON_UPPER,
        owned_lower >> (9 + feature_lower),
        owned_upper >> (9 + feature_upper),
    )
    on_rim = np.where(kind == features.EDGE_ON_EDGE, edges, vertex) & 1
    upper_codes, lower_codes = np.array(up.groups), np.array(lo.groups)
    return Closures(
        opening_rad=found[:, 0].copy(),
        status=np.where(meets, MEETS, NOTHING_MEETS),
        kind=kind,
        point=found[:, 2:5].copy(),
        normal=found[:, 5:8].copy(),
        face_upper=np.where(meets, up.face_of[upper], -1),
        face_lower=np.where(meets, lo.face_of[lower], -1),
        tooth_upper=np.where(meets, upper_codes[up.arrays.tooth[upper]], -1),
        tooth_lower=np.where(meets, lower_codes[lo.arrays.tooth[lower]], -1),
        radius_mm=found[:, 1].copy(),
        on_rim=np.where(meets, on_rim, 0),
    )


def runner_up(
    pair: Pair, poses: Floats, closures: Closures, workers: Workers | None = None
) -> tuple[Closures, Floats]:
    """Find what would touch next if the first tooth pair were left out.

    Parameters
    ----------
    pair, poses, workers
        See `close`.
    closures : Closures
        What `close` returned for them.

    Returns
    -------
    Closures
        The runner-up of every pose.
    ndarray, shape (n,)
        Its arc gap at its own contact, mm; inf where nothing else meets.
    """
    left = np.stack([closures.tooth_upper, closures.tooth_lower], axis=1)
    second = close(pair, poses, None, workers, left)
    return second, arc_gaps_mm(closures, second)


def arc_gaps_mm(first: Closures, second: Closures) -> Floats:
    """Return the arc gaps (n,) of runners-up at their own contacts; inf where one is wanting."""
    both = (first.status == MEETS) & (second.status == MEETS)
    gap = np.full(len(both), np.inf)
    gap[both] = (first.opening_rad[both] - second.opening_rad[both]) * second.radius_mm[both]
    return gap
