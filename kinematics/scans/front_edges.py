"""The edge of a front tooth: the highest line of the crown from its mesial to its distal end."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.scans.slices import places_at, slice_of
from kinematics.scans.surface_tops import CAP_MM, surface_over

#: Slices across the edge; the edge between two of them is nearly straight. Chosen for this program.
EDGE_SLICES: Final = 9
#: Part of the width that slices cover: beyond, an edge turns down into the sides. That of a canine
#: is shorter than the widest place of the crown, which lies below the ends of its arms. Chosen for
#: this program.
INCISOR_PART: Final = 0.9
CANINE_PART: Final = 0.72
#: The width of an incisor is measured over this part of the crown below its edge, mm.
_EDGE_DEPTH_MM: Final = 1.2


def front_edge(seen: Floats, faces: Ints, is_canine: bool) -> Floats:
    """Return points along the edge of a front tooth.

    Parameters
    ----------
    seen : ndarray, shape (n, 3)
        Vertices along mesial, outward and up, mm.
    faces : ndarray, shape (m, 3)
        Triangles.
    is_canine : bool
        An incisor otherwise.

    Returns
    -------
    ndarray, shape (k, 3)
        From mesial to distal, in the same coordinates; at most `EDGE_SLICES`.
    """
    top = float(seen[:, 2].max())
    wide = seen if is_canine else seen[seen[:, 2] > top - _EDGE_DEPTH_MM]
    first, last = float(wide[:, 0].max()), float(wide[:, 0].min())
    spare = 0.5 * (1.0 - (CANINE_PART if is_canine else INCISOR_PART)) * (first - last)
    points = [
        _highest_across(seen, faces, float(ahead))
        for ahead in np.linspace(first - spare, last + spare, EDGE_SLICES)
    ]
    return np.array([point for point in points if point is not None]).reshape(-1, 3)


def _highest_across(seen: Floats, faces: Ints, ahead: float) -> Floats | None:
    """Return the highest point (3,) of a slice, the middle of it where it is level."""
    ends = slice_of(seen, faces, ahead)
    if not len(ends):
        return None
    level = float(ends[..., 1].max()) - CAP_MM
    aside = np.concatenate([ends[ends[..., 1] > level][:, 0], places_at(ends, level)])
    middle = 0.5 * float(aside.min() + aside.max())
    height = surface_over(seen, faces, np.array([ahead, middle]))
    return np.array([ahead, middle, level + CAP_MM if height is None else height])
