"""Contact patches within a tolerance, and the shortest distance of every tooth pair."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from kinematics.checks import finite_array, in_range, rigid_poses
from kinematics.contact.pair import Pair, tooth_index
from kinematics.contact.pose_order import order_of_likeness
from kinematics.contact.workers import Watch, Workers, usable
from kinematics.conventions import Floats, Ints
from kinematics.geometry.kernels import patching, tooth_gaps
from kinematics.geometry.kernels.lanes import WIDTH
from kinematics.geometry.trees import MOST_GROUPS


@dataclass(frozen=True)
class Patches:
    """Contact patches, one row each, of any number of poses.

    Attributes
    ----------
    pose : ndarray, shape (k,)
        Index of the pose the patch belongs to; rows are ordered by it.
    tooth_upper, tooth_lower : ndarray, shape (k,)
        ISO 3950 numbers.
    centroid : ndarray, shape (k, 3)
        Area-weighted centre in the hinge frame, mm.
    normal : ndarray, shape (k, 3)
        Area-weighted unit normal of the lower surface in the hinge frame (lower pushes upper).
    area_mm2 : ndarray, shape (k,)
        Area of upper surface that lies within the tolerance of the lower.
    least_gap_mm : ndarray, shape (k,)
        Exact shortest distance within the patch.
    arc_gap_mm : ndarray, shape (k,)
        Gap along the closing arc, at the patch's own first touch; inf where no arc meets.
    """

    pose: Ints
    tooth_upper: Ints
    tooth_lower: Ints
    centroid: Floats
    normal: Floats
    area_mm2: Floats
    least_gap_mm: Floats
    arc_gap_mm: Floats


def patches(
    pair: Pair,
    poses: Floats,
    tolerance_mm: float,
    workers: Workers | None = None,
    teeth: tuple[int, int] | None = None,
) -> Patches:
    """Find the contact patches of every pose.

    A patch joins upper triangles of one tooth pair that lie within the tolerance of the lower and
    share a vertex. Its area is cut to the tolerance, measured square to the lower surface.

    Parameters
    ----------
    pair : Pair
        Both arches, prepared.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower as the lower stands (opening included).
    tolerance_mm : float
        Shortest distance up to which surfaces count as touching, 0 to 1 mm. At 0 rounding decides
        about casts closed just to their first contact, which are some 1e-13 mm apart or through
        each other.
    workers : Workers, optional
        Threads; one if not given.
    teeth : (int, int), optional
        Upper and lower tooth, ISO 3950, that alone are wanted.

    Raises
    ------
    InputError
        A tooth the arch does not have, a tolerance out of range, poses of another shape, not
        finite or not rigid.
    """
    poses = rigid_poses(poses, "poses", (None, 4, 4))
    tolerance_mm = in_range(tolerance_mm, "tolerance_mm", 0.0, 1.0, "mm")
    hands = usable(workers)
    roots = (0, 0) if teeth is None else _roots(pair, *teeth)

    def find(some: Ints) -> NDArray[np.object_]:
        return _rows_of_poses(pair, poses[some], tolerance_mm, hands, roots)

    asked = poses, np.full(len(poses), tolerance_mm)
    found = hands.rows(pair, ("patches", roots), asked, find)
    rows = np.concatenate([np.empty((0, patching.ROW)), *found])
    whole = rows[:, 1:3].astype(np.int64)
    return Patches(
        pose=np.repeat(np.arange(len(poses)), [len(each) for each in found]),
        tooth_upper=np.array(pair.upper.groups)[whole[:, 0]],
        tooth_lower=np.array(pair.lower.groups)[whole[:, 1]],
        centroid=np.ascontiguousarray(rows[:, 3:6]),
        normal=np.ascontiguousarray(rows[:, 6:9]),
        area_mm2=rows[:, 9].copy(),
        least_gap_mm=rows[:, 10].copy(),
        arc_gap_mm=rows[:, 11].copy(),
    )


def _rows_of_poses(
    pair: Pair, poses: Floats, tolerance_mm: float, workers: Workers, roots: tuple[int, int]
) -> NDArray[np.object_]:
    """Return for each pose the rows (k, `patching.ROW`) of its patches."""
    parts: dict[int, Floats] = {0: np.empty((0, patching.ROW))}
    order = order_of_likeness(poses, pair.lower.far_corners)
    poses = np.ascontiguousarray(poses[order])

    def block(first: int, last: int, watch: Watch) -> None:
        with workers.closing_scratch(pair) as scratch:
            parts[first] = patching.contact_patches(
                pair.upper.arrays, pair.lower.arrays, roots, poses, first, last, tolerance_mm,
                pair.lower.behind_axis, scratch, watch,
            )  # fmt: skip

    workers.run(len(poses), block, shortest_part=WIDTH)
    rows = np.concatenate([parts[first] for first in sorted(parts)])
    ends = np.searchsorted(rows[:, 0], np.arange(len(poses) + 1))
    of_poses = np.empty(len(poses), dtype=object)
    for pose, (first, end) in zip(order, pairwise(ends), strict=True):
        of_poses[pose] = rows[first:end]
    return of_poses


def _roots(pair: Pair, upper: int, lower: int) -> tuple[int, int]:
    """Return the nodes that hold an upper and a lower tooth."""
    row = tooth_index(pair.upper.groups, upper, "upper")
    column = tooth_index(pair.lower.groups, lower, "lower")
    return (
        int(pair.upper.arrays.tooth_root[row]),
        int(pair.lower.arrays.tooth_root[column]),
    )


def pair_gaps(
    pair: Pair,
    poses: Floats,
    limit_mm: float | Floats,
    upper_codes: tuple[int, ...],
    lower_codes: tuple[int, ...],
    workers: Workers | None = None,
    within: Patches | None = None,
) -> Floats:
    """Measure the shortest distance of every tooth pair.

    Parameters
    ----------
    pair : Pair
        Both arches, prepared.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower as the lower stands (opening included).
    limit_mm : float, or ndarray of shape (n,)
        Distance beyond which gaps are not measured, above 0; of each pose, where several are given,
        and 0 where nothing is to be measured.
    upper_codes, lower_codes : tuple of int
        Teeth wanted, ISO 3950.
    workers : Workers, optional
        Threads; one if not given.
    within : Patches, optional
        Contact patches of the same poses: teeth that have some need not be measured again.

    Returns
    -------
    ndarray, shape (n, uppers, lowers)
        mm; 0 where teeth intersect, inf beyond the limit.

    Raises
    ------
    InputError
        A tooth the arch does not have, a limit out of range, poses of another shape, not finite
        or not rigid.
    """
    poses = rigid_poses(poses, "poses", (None, 4, 4))
    limits = _limits(limit_mm, len(poses))
    hands = usable(workers)
    numbers, wanted = _numbered(pair.upper.groups, pair.lower.groups, upper_codes, lower_codes)
    gaps = np.full((len(poses), *wanted.shape), np.inf)
    if within is not None:
        _put_known(gaps, within, upper_codes, lower_codes, limits)
    by_pair = gaps.reshape(len(poses), wanted.size)
    # Side by side, so that each eight of them are measured at once.
    looked_at = np.flatnonzero(limits > 0.0)
    where, reach, known = asked = poses[looked_at], limits[looked_at], by_pair[looked_at]

    def find(some: Ints) -> Floats:
        return _measured(pair, where[some], reach[some], known[some], numbers, hands)

    by_pair[looked_at] = hands.rows(pair, ("gaps", upper_codes, lower_codes), asked, find)
    return by_pair[:, wanted]  # also of a tooth that is named twice


@lru_cache(maxsize=256)
def _numbered(
    uppers: tuple[int, ...],
    lowers: tuple[int, ...],
    upper_codes: tuple[int, ...],
    lower_codes: tuple[int, ...],
) -> tuple[Ints, Ints]:
    """Return the number of each tooth pair by its indices, -1 if unwanted; and of those wanted.

    Shapes (64, 64) and (uppers wanted, lowers wanted).
    """
    rows = np.array([tooth_index(uppers, code, "upper") for code in upper_codes], np.int64)
    columns = np.array([tooth_index(lowers, code, "lower") for code in lower_codes], np.int64)
    numbers = np.full((MOST_GROUPS, MOST_GROUPS), -1, dtype=np.int64)
    count = len(rows), len(columns)
    numbers[np.ix_(rows, columns)] = np.arange(count[0] * count[1]).reshape(count)
    wanted = numbers[np.ix_(rows, columns)]
    for array in (numbers, wanted):
        array.setflags(write=False)
    return numbers, wanted


def _measured(
    pair: Pair, poses: Floats, limits: Floats, known: Floats, numbers: Ints, workers: Workers
) -> Floats:
    """Return the gaps (n, p) of numbered tooth pairs, those that are known as they are."""
    order = order_of_likeness(poses, pair.lower.far_corners)
    where, reach, gaps = poses[order], limits[order], known[order]

    def block(first: int, last: int, watch: Watch) -> None:
        with workers.closing_scratch(pair) as scratch:
            tooth_gaps.tooth_gaps(
                pair.upper.arrays, pair.lower.arrays, where, numbers, first, last, reach,
                pair.lower.behind_axis, scratch, watch, gaps,
            )  # fmt: skip

    workers.run(len(poses), block, shortest_part=WIDTH)
    back = np.argsort(order)
    return np.asarray(gaps[back])


def _limits(limit_mm: float | Floats, count: int) -> Floats:
    """Return the limit of each of some poses."""
    if not isinstance(limit_mm, np.ndarray):
        return np.full(count, in_range(limit_mm, "limit_mm", 1e-6, 1e3, "mm"))
    limits = finite_array(limit_mm, "limit_mm", (count,))
    for extreme in (limits.min(initial=0.0), limits.max(initial=0.0)):
        in_range(float(extreme), "limit_mm", 0.0, 1e3, "mm")
    return limits


def _put_known(
    gaps: Floats,
    within: Patches,
    upper_codes: tuple[int, ...],
    lower_codes: tuple[int, ...],
    limits: Floats,
) -> None:
    """Write what patches tell into gaps (n, uppers, lowers), up to limits (n,) but those of 0."""
    wanted = np.isin(within.tooth_upper, upper_codes) & np.isin(within.tooth_lower, lower_codes)
    limit = limits[within.pose]
    wanted &= (limit == 0.0) | (within.least_gap_mm <= limit)
    upper_order, lower_order = np.argsort(upper_codes), np.argsort(lower_codes)
    rows = upper_order[np.searchsorted(upper_codes, within.tooth_upper[wanted], sorter=upper_order)]
    columns = lower_order[
        np.searchsorted(lower_codes, within.tooth_lower[wanted], sorter=lower_order)
    ]
    np.minimum.at(gaps, (within.pose[wanted], rows, columns), within.least_gap_mm[wanted])
