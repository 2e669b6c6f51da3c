"""Which triangles of either arch lie within a tolerance of the other arch."""

from dataclasses import dataclass

import numpy as np

from kinematics.checks import in_range, rigid_poses
from kinematics.contact.pair import Pair
from kinematics.contact.workers import Watch, Workers, usable
from kinematics.conventions import Bools, Floats
from kinematics.geometry.kernels import face_touches
from kinematics.geometry.kernels.lanes import WIDTH


@dataclass(frozen=True)
class TouchingFaces:
    """A flag for every triangle of both arches, numbered as in the meshes given.

    Attributes
    ----------
    upper : ndarray, shape (n, m)
        True where a triangle of the upper lies within the tolerance of the lower, by its exact
        shortest distance.
    lower : ndarray, shape (n, k)
        The same for the triangles of the lower.
    """

    upper: Bools
    lower: Bools


def touching_faces(
    pair: Pair, poses: Floats, tolerance_mm: float, workers: Workers | None = None
) -> TouchingFaces:
    """Flag the triangles that touch in every pose.

    Parameters
    ----------
    pair : Pair
        Both arches, prepared.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower as the lower stands (opening included).
    tolerance_mm : float
        Shortest distance up to which surfaces count as touching, 0 to 1 mm.
    workers : Workers, optional
        Threads; one if not given.

    Returns
    -------
    TouchingFaces
        The same for any number of threads and any order of poses and triangles.

    Raises
    ------
    InputError
        Tolerance out of range; poses of another shape, not finite or not rigid.
    """
    poses = rigid_poses(poses, "poses", (None, 4, 4))
    tolerance_mm = in_range(tolerance_mm, "tolerance_mm", 0.0, 1.0, "mm")
    workers = usable(workers)
    up, lo = pair.upper, pair.lower
    upper = np.zeros((len(poses), len(up.face_of)), dtype=bool)
    lower = np.zeros((len(poses), len(lo.face_of)), dtype=bool)

    def block(first: int, last: int, watch: Watch) -> None:
        with workers.closing_scratch(pair) as scratch:
            face_touches.touching_faces(
                up.arrays, lo.arrays, poses, first, last, tolerance_mm, lo.behind_axis, scratch,
                watch, up.face_of, lo.face_of, upper, lower,
            )  # fmt: skip

    workers.run(len(poses), block, shortest_part=WIDTH)
    return TouchingFaces(upper, lower)
