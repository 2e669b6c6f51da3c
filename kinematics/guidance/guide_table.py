"""Guide table: settings of the incisal guide made ready for computing.

A table is a set of planes n . d <= k on the displacement d of the lower's tip from its place in
MI (x forward, y left, z up).
"""

import math
from dataclasses import dataclass

import numpy as np
from scipy.spatial import Delaunay, QhullError

from kinematics.checks import InputError, finite_array
from kinematics.conventions import Floats
from kinematics.guidance.settings import IncisalTable


@dataclass(frozen=True)
class Table:
    """Planes of a guide table.

    Attributes
    ----------
    normals : ndarray, shape (k, 3)
        Upward normals of the planes; they need not have unit length.
    offsets_mm : ndarray, shape (k,)
        The tip may be where normals . d <= offsets.
    corners_mm : ndarray, shape (k, 3, 2), or None
        Forward and left of the corners of the facets of a measured table; None where the planes
        have no end.
    tip_on_lower : bool
        True where the lower carries the tip.
    """

    normals: Floats
    offsets_mm: Floats
    corners_mm: Floats | None
    tip_on_lower: bool


def prepare_table(given: IncisalTable) -> Table:
    """Turn the settings of a table into planes.

    Raises
    ------
    InputError
        Measured points that do not spread over a surface.
    """
    if given.measured_points:
        return _measured_table(np.array(given.measured_points), given.tip_on == "lower")
    slope = math.radians(given.sagittal_deg)
    wings = [-math.tan(math.radians(given.wing_right_deg))]
    wings.append(math.tan(math.radians(given.wing_left_deg)))
    flat = [[0.0, wing, 1.0] for wing in wings]
    inclined = [[math.sin(slope), wing, math.cos(slope)] for wing in wings]
    end_of_flat = given.freedom_mm * math.sin(slope)
    return Table(
        np.array(flat + inclined),
        np.array([0.0, 0.0, end_of_flat, end_of_flat]),
        None,
        given.tip_on == "lower",
    )


def _measured_table(points: Floats, tip_on_lower: bool) -> Table:
    points = finite_array(points, "guidance incisal_table measured_points", (None, 3))
    try:
        facets = Delaunay(points[:, :2]).simplices
    except QhullError as error:
        raise InputError(
            f"guidance incisal_table measured_points: the {len(points)} points lie on one line "
            "seen from above; a table needs points beside each other too"
        ) from error
    corners = points[facets]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= normals[:, 2:]
    offsets = np.sum(normals * corners[:, 0], axis=1)
    return Table(normals, offsets, corners[:, :, :2].copy(), tip_on_lower)
