"""Points that a case gives, the jaw in MI, in the coordinates of their arch."""

from collections.abc import Sequence

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.occlusion import Occlusion


def in_arch(
    occlusion: Occlusion, points: Sequence[tuple[float, float, float]], upper: bool
) -> Floats:
    """Return points as they lie in one arch.

    Parameters
    ----------
    occlusion : Occlusion
        The arches; it says in which coordinates a case gives points.
    points : sequence of points
        As the case gives them, mm.
    upper : bool
        Which arch they belong to.

    Returns
    -------
    ndarray, shape (n, 3)
        Upper: in the hinge frame; lower: in lower coordinates, mm.
    """
    placed = np.array(points, dtype=np.float64).reshape(-1, 3)
    if occlusion.hinge_from_points is not None:
        placed = move_points(occlusion.hinge_from_points, placed)
    return placed if upper else move_points(inverse(occlusion.casts.mi_pose), placed)
