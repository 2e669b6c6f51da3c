"""Where scanned casts stand in each other at the bite, before anything is let in."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats, Ints

#: Less overlap than this is none, mm. Chosen for this program: less than anything a scan tells.
LEAST_OVERLAP_MM: Final = 0.001


@dataclass(frozen=True)
class DeepestPlace:
    """The vertex of a tooth that stands deepest in the other cast, and how deep, mm."""

    code: int
    vertex: int
    depth_mm: float


@dataclass(frozen=True)
class CastOverlap:
    """What of one cast stands in the other.

    Attributes
    ----------
    vertices : ndarray, shape (k,)
        Those that do, numbered as in the arch.
    depth_mm : ndarray, shape (k,)
        Of each, square to the other surface.
    deepest : tuple of DeepestPlace
        One a tooth, deepest first.
    """

    vertices: Ints
    depth_mm: Floats
    deepest: tuple[DeepestPlace, ...]

    def of_all(self, count: int) -> Floats:
        """Return the depth of all vertices of the arch (count,), mm; 0 where there is none."""
        depth_mm = np.zeros(count)
        depth_mm[self.vertices] = self.depth_mm
        return depth_mm


@dataclass(frozen=True)
class BiteOverlaps:
    """Both casts in the bite as scanned or recorded."""

    upper: CastOverlap
    lower: CastOverlap

    @property
    def deepest_mm(self) -> float:
        """The deepest of all; 0 where there is no overlap."""
        places = (*self.upper.deepest[:1], *self.lower.deepest[:1])
        return max((place.depth_mm for place in places), default=0.0)


def cast_overlap(arch: Arch, overlap_mm: Floats) -> CastOverlap:
    """Keep of all vertices those that overlap, and find the deepest of every tooth.

    Parameters
    ----------
    arch : Arch
        One cast.
    overlap_mm : ndarray, shape (n,)
        How far every vertex stands in the other; 0 where it does not.
    """
    vertices = np.flatnonzero(overlap_mm >= LEAST_OVERLAP_MM)
    deepest = []
    for code in arch.codes:
        own = np.unique(arch.mesh.faces[arch.tooth_of_face == code])
        vertex = int(own[int(np.argmax(overlap_mm[own]))])
        if overlap_mm[vertex] >= LEAST_OVERLAP_MM:
            deepest.append(DeepestPlace(code, vertex, float(overlap_mm[vertex])))
    deepest.sort(key=lambda place: -place.depth_mm)
    return CastOverlap(vertices, overlap_mm[vertices], tuple(deepest))
