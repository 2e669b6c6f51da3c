"""Whether the centric stops of one tooth, together, can push it straight along its axis."""

from typing import Final

import numpy as np
from scipy.optimize import nnls

from kinematics.conventions import Floats
from kinematics.planning.stops import Stop
from kinematics.tooth_codes import is_upper

#: Stops together push along the axis when they can do so within this angle.
ALONG_AXIS_DEG: Final = 5.0
ALONG_AXIS_SOURCE: Final = "chosen for this program: what nobody can set or see by eye"


def angle_off_axis_deg(
    stops: tuple[Stop, ...], tooth: int, root_direction: Floats, centre: Floats
) -> float:
    """Return the least angle to the long axis at which stops can push a tooth.

    The forces, all pushes, are chosen as they suit best. Besides their sum, their moment about
    the long axis counts, divided by the distance of the farthest stop from it: a push of 1 N
    across the tooth at that stop weighs as much as 1 N across it as a whole. Stops on inclines
    that face each other balance; a single incline does not.

    Parameters
    ----------
    stops : tuple of Stop
        Stops in MI; those of other teeth are passed over.
    tooth : int
        ISO 3950 number.
    root_direction : ndarray, shape (3,)
        Unit vector along the long axis towards the root, hinge frame.
    centre : ndarray, shape (3,)
        A point of the long axis, hinge frame, mm.

    Returns
    -------
    float
        Degrees; 90 where no stop of this tooth pushes towards the root at all, or it has none.
    """
    upper = is_upper(tooth)
    own = [stop for stop in stops if (stop.tooth_upper if upper else stop.tooth_lower) == tooth]
    if not own:
        return 90.0
    pushes = np.array([stop.normal for stop in own]) * (1.0 if upper else -1.0)
    arms = np.array([stop.point for stop in own]) - centre
    across_arms = np.linalg.norm(arms - np.outer(arms @ root_direction, root_direction), axis=1)
    twist = np.cross(arms, pushes) @ root_direction / max(float(across_arms.max()), 1e-9)
    # The cone of all balances in (three force parts, twist); the residual of the nearest point
    # to one unit straight along the axis is the sine of the angle between the two.
    cone = np.vstack([pushes.T, twist])
    _, residual = nnls(cone, np.append(root_direction, 0.0))
    return float(np.degrees(np.arcsin(min(1.0, float(residual)))))
