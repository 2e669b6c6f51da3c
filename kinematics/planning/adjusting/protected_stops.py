"""What may come off a tooth so that its wanted stops in MI stay: nothing on them, more around."""

from typing import Final

import numpy as np

from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.stops import Stop
from kinematics.teeth.moves_without_cliffs import CUT_SLOPE
from kinematics.tooth_codes import is_upper

#: Of a stop at least this share of its width stays, and this much around it, mm (chosen for this
#: program): teeth are cut up to a stop, not away from it.
STAYS: Final = 0.5
AROUND_STOP_MM: Final = 0.05


def may_come_off(
    casts: MountedCasts, code: int, vertices: Floats, stops: tuple[Stop, ...]
) -> Floats:
    """Return how much may come off every vertex (k,) of a tooth, mm; inf where nothing hinders.

    A stop is taken as a circle of its area; around it a cut gets deeper no more steeply than cuts
    do anywhere, so that no ledge is left.

    Parameters
    ----------
    casts : MountedCasts
        Both arches, in MI.
    code : int
        The tooth.
    vertices : ndarray, shape (k, 3)
        Its vertices, in the coordinates of its arch.
    stops : tuple of Stop
        Wanted stops of any teeth.
    """
    most = np.full(len(vertices), np.inf)
    for stop in stops:
        if code not in (stop.tooth_upper, stop.tooth_lower):
            continue
        point = np.array(stop.point)
        if not is_upper(code):
            point = move_points(inverse(casts.mi_pose), point[None])[0]
        radius = STAYS * float(np.sqrt(stop.area_mm2 / np.pi)) + AROUND_STOP_MM
        away = np.linalg.norm(vertices - point, axis=1) - radius
        most = np.minimum(most, CUT_SLOPE * np.maximum(away, 0.0))
    return most
