"""How far the true hinge axis lies from the one that casts were mounted to: names, and the motion.

It stands in no case file: a case says where the axis was taken to be.
"""

from collections.abc import Mapping
from typing import Final

import numpy as np

from kinematics.conventions import Floats

#: How far the true axis lies ahead of and above the one of the mounting, mm, and by how many
#: degrees the front of the true reference plane is lower than that of the mounting.
AXIS_FORWARD: Final = "hinge_axis.forward_mm"
AXIS_UP: Final = "hinge_axis.up_mm"
AXIS_TILT: Final = "hinge_axis.tilt_deg"
AXIS: Final = (AXIS_FORWARD, AXIS_UP, AXIS_TILT)


def into_true_frame(changes: Mapping[str, float | str]) -> Floats:
    """Return the motion (4, 4) of mounted casts into the hinge frame of the true axis.

    Parameters
    ----------
    changes : mapping
        Values by the names of `AXIS`, 0 where there is none; others are passed over.
    """
    forward, up, tilt_deg = (float(changes.get(name, 0.0)) for name in AXIS)
    turn = np.radians(tilt_deg)
    motion = np.eye(4)
    # Seen from a plane whose front is lower, the front of the casts stands higher.
    motion[0, 0] = motion[2, 2] = np.cos(turn)
    motion[0, 2], motion[2, 0] = -np.sin(turn), np.sin(turn)
    back = np.eye(4)
    back[:3, 3] = -forward, 0.0, -up
    return np.asarray(motion @ back)
