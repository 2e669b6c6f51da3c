"""A hump made a flat stop: a plane square to the closing arc, at the height at which it carries."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.adjusting.high_contacts import HighContact
from kinematics.planning.adjusting.tooth_cut import CutSurface
from kinematics.tooth_codes import is_upper

#: What a cut may be deeper than the plane and still be flat, mm.
FLAT_MM: Final = 0.002


def flat_depth(code: int, vertices: Floats, contact: HighContact, width_mm: float) -> Floats:
    """Return how far every vertex (k,) of a tooth stands above the plane of a flat stop, mm.

    The plane lies where the opposing surface stands once the jaw has closed as wanted, square to
    the closing arc there, so that biting pushes along it. Beyond the width nothing is asked.

    Parameters
    ----------
    code : int
        The tooth with the hump.
    vertices : ndarray, shape (k, 3)
        In the coordinates of its arch, mm.
    contact : HighContact
        Its highest contact in MI.
    width_mm : float
        Width of the stop.
    """
    pose = contact.path.poses[0]
    # In the wanted pose the surface that stays is the lower's, moved on, or the upper's as it is.
    middle = contact.point if is_upper(code) else contact.upper_point
    seen = vertices if is_upper(code) else move_points(pose, vertices)
    local = move_points(inverse(pose), middle[None])[0]
    closing = pose[:3, :3] @ (np.array([-local[2], 0.0, local[0]]) / np.hypot(local[0], local[2]))
    along = (seen - middle) @ closing
    aside = np.linalg.norm(seen - middle - along[:, None] * closing, axis=1)
    above = -along if is_upper(code) else along
    return np.where(aside <= 0.5 * width_mm, np.maximum(above, 0.0), 0.0)


def flat_width_mm(surface: CutSurface, asked_mm: Floats) -> float:
    """Return the width of the flat part of a cut: that of a circle of its area, mm.

    Parameters
    ----------
    surface : CutSurface
        The cut.
    asked_mm : ndarray, shape (k,)
        What `flat_depth` asked of every vertex.
    """
    flat = (asked_mm > 0.0) & (surface.arc_mm <= asked_mm + FLAT_MM)
    faces = flat[surface.after.faces].all(axis=1)
    corners = surface.after.corners[faces]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    area = 0.5 * float(np.linalg.norm(cross, axis=1).sum())
    return 2.0 * float(np.sqrt(area / np.pi))
