"""An order of poses in which each eight are alike: they are searched at once, and share much."""

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.geometry.kernels.lanes import WIDTH
from kinematics.geometry.kernels.packing import pack
from kinematics.geometry.poses import move_points


def order_of_likeness(poses: Floats, corners: Floats) -> Ints:
    """Return an order (n,) of poses (n, 4, 4) in which each eight in turn are alike.

    Alike are poses that bring two far corners (2, 3) of what they move to near places.
    """
    order = np.arange(len(poses))
    if len(poses) > WIDTH:
        pack(np.ascontiguousarray(move_points(poses, corners).reshape(len(poses), 6).T), order)
    return order
