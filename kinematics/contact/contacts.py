"""Contact patches within a tolerance, and the shortest distance of every tooth pair."""

from dataclasses import dataclass

from kinematics.conventions import Floats, Ints


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
    """

    pose: Ints
    tooth_upper: Ints
    tooth_lower: Ints
    centroid: Floats
    normal: Floats
    area_mm2: Floats
    least_gap_mm: Floats
