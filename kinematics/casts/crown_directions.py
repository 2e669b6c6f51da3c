"""The directions of one crown: mesial along the arch, outward, and up its long axis."""

from dataclasses import dataclass

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.conventions import Floats
from kinematics.tooth_codes import is_right, is_upper


@dataclass(frozen=True)
class Crown:
    """One crown with its own directions, in the coordinates of its arch.

    Attributes
    ----------
    tooth : Tooth
        Its landmarks.
    mesial, outward, up : ndarray, shape (3,)
        Unit vectors at right angles: towards the midline along the arch, towards cheek or lip,
        and from the cervix to the edge or table.
    low, high : ndarray, shape (3,)
        Extents of its triangles along these three, mm.
    """

    tooth: Tooth
    mesial: Floats
    outward: Floats
    up: Floats
    low: Floats
    high: Floats

    def coordinates(self, points: Floats) -> Floats:
        """Return points (n, 3) along mesial, outward and up, mm."""
        return points @ np.stack([self.mesial, self.outward, self.up], axis=1)


def crown_of(arch: Arch, code: int) -> Crown:
    """Return the directions and extents of one crown.

    Raises
    ------
    InputError
        The arch has no such tooth.
    """
    tooth = arch.tooth(code)
    up = tooth.long_axis / np.linalg.norm(tooth.long_axis)
    mesial = _towards_midline(arch, code)
    mesial = mesial - (mesial @ up) * up
    mesial = mesial / np.linalg.norm(mesial)
    turns_right = is_upper(code) == is_right(code)
    outward = np.cross(up, mesial) if turns_right else np.cross(mesial, up)
    points = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == code]].reshape(-1, 3)
    seen = points @ np.stack([mesial, outward, up], axis=1)
    return Crown(tooth, mesial, outward, up, seen.min(axis=0), seen.max(axis=0))


def _towards_midline(arch: Arch, code: int) -> Floats:
    """Return the direction along the arch from a tooth to the midline; forward for a lone tooth."""
    if len(arch.teeth) < 2:
        return np.array([1.0, 0.0, 0.0])
    at = arch.codes.index(code)
    before, after = arch.teeth[max(at - 1, 0)], arch.teeth[min(at + 1, len(arch.teeth) - 1)]
    along = np.asarray(after.centre - before.centre)  # from the patient's right to left
    return along if is_right(code) else -along
