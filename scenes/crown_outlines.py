"""Outlines of crowns seen from one direction: what lies within all straight lines around them."""

import numpy as np
from scipy.spatial import ConvexHull

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats


def crown_outlines(arch: Arch, across: Floats, upward: Floats) -> dict[int, Floats]:
    """Return a closed outline (k, 2), mm, of every crown, by ISO 3950 number.

    Parameters
    ----------
    arch : Arch
        The arch.
    across, upward : ndarray, shape (3,)
        Unit vectors that point to the right and upward in the picture.
    """
    frame = np.stack([across, upward], axis=1)
    found = {}
    for code in arch.codes:
        corners = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == code])] @ frame
        hull = corners[ConvexHull(corners).vertices]
        found[code] = np.concatenate([hull, hull[:1]])
    return found
