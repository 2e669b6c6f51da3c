"""Where a lower scan stands at the bite, and whether casts as they lie could be in one at all."""

from typing import Final

import numpy as np
from scipy.spatial import cKDTree

from kinematics.checks import rigid_poses
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from kinematics.scans.settings import Matrix

#: Casts whose points all lie farther than this from those of the other are in no bite. Chosen for
#: this program: many times the size of triangles.
FARTHEST_MM: Final = 3.0
#: So many points of a cast tell how far it is from the other; more would tell no more.
_POINTS: Final = 50_000


def bite_pose(scan_from_lower: Matrix | None) -> Floats:
    """Return the motion (4, 4) that brings the lower scan into MI; none where it lies there.

    Raises
    ------
    InputError
        A bite record that is no rigid motion.
    """
    if scan_from_lower is None:
        return np.eye(4)
    return rigid_poses(np.array(scan_from_lower), "scans.scan_from_lower", (4, 4))


def apart_mm(upper: Mesh, lower: Mesh) -> float:
    """Return about how far two casts lie apart where they are nearest, from point to point, mm.

    Casts that stand in each other are not told from casts that touch.
    """
    above, below = (mesh.vertices[:: 1 + len(mesh.vertices) // _POINTS] for mesh in (upper, lower))
    return float(np.min(cKDTree(above).query(below)[0]))


def bite_doubt(apart: float, *, by_record: bool) -> str:
    """Return why casts can be in no bite; empty if they can.

    Parameters
    ----------
    apart : float
        How far they lie apart, mm.
    by_record : bool
        Whether a bite record has moved the lower one.
    """
    if apart <= FARTHEST_MM:
        return ""
    far = f"where they are nearest they are some {apart:.0f} mm apart"
    if by_record:
        return (
            f"with the bite record given the casts do not bite: {far}. Is it of these scans, are "
            "they not in their bite as they lie, and does it move the lower scan to the upper one "
            "and not the other way round?"
        )
    return (
        f"as they lie, the casts do not bite: {far}. Give the bite record too: the transform that "
        "moves the lower scan into maximal intercuspation in the coordinates of the upper one."
    )
