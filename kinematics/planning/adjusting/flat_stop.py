"""A hump made a flat stop: a plane square to the tooth, at the height at which it carries."""

import math
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.meshes import face_areas_normals
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.adjusting.high_contacts import HighContact
from kinematics.planning.adjusting.tooth_cut import CutSurface
from kinematics.planning.occlusion import Occlusion, root_direction
from kinematics.tooth_codes import is_upper

#: What a cut may be deeper than the plane and still be flat, mm.
FLAT_MM: Final = 0.002
#: Teeth lie no flatter to the closing arc than this cosine.
LEAST_STEEPNESS: Final = 0.2


def flat_depth(
    occlusion: Occlusion, code: int, vertices: Floats, contact: HighContact, width_mm: float
) -> Floats:
    """Return how much must come off vertices (k,) of a tooth for a flat stop, along the arc, mm.

    Its plane lies where the opposing surface stands once the jaw has closed as wanted, square to
    the long axis of the tooth, so that it is pushed along it. Beyond the width nothing is asked.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
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
    outward = -root_direction(occlusion, code, pose)
    above = (seen - middle) @ outward
    aside = np.linalg.norm(seen - middle - above[:, None] * outward, axis=1)
    steepness = max(abs(float(closing @ outward)), LEAST_STEEPNESS)
    return np.where(aside <= 0.5 * width_mm, np.maximum(above, 0.0) / steepness, 0.0)


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
    areas, _ = face_areas_normals(surface.after)
    area = math.fsum((areas * flat[surface.after.faces].mean(axis=1)).tolist())
    return 2.0 * math.sqrt(area / math.pi)
