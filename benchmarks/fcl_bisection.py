"""The same first contact by python-fcl: bisection on collision, the last answer as bracket."""

import fcl
import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.geometry.poses import opening_rotation


def collision_object(arch: Arch) -> fcl.CollisionObject:
    """Return an arch as a bounding-volume tree of python-fcl."""
    model = fcl.BVHModel()
    model.beginModel(len(arch.mesh.vertices), len(arch.mesh.faces))
    model.addSubModel(np.array(arch.mesh.vertices), np.array(arch.mesh.faces))
    model.endModel()
    return fcl.CollisionObject(model, fcl.Transform())


def close_by_bisection(
    upper: fcl.CollisionObject,
    lower: fcl.CollisionObject,
    poses: Floats,
    slack_rad: float,
    bracket_rad: float,
) -> tuple[Floats, int]:
    """Find the greatest opening with a collision to within `slack_rad`.

    Returns
    -------
    opening_rad : ndarray, shape (n,)
        Upper end of the last bracket.
    calls : int
        Collision tests made.
    """
    request, calls, guess = fcl.CollisionRequest(), 0, 0.0
    result = np.empty(len(poses))

    def touches(pose: Floats, opening: float) -> bool:
        nonlocal calls
        calls += 1
        placed = pose @ opening_rotation(opening)
        lower.setTransform(fcl.Transform(placed[:3, :3], placed[:3, 3]))
        return bool(fcl.collide(upper, lower, request, fcl.CollisionResult()) > 0)

    for n, pose in enumerate(poses):
        width = bracket_rad if n else 0.05
        low, high = guess - width, guess + width
        while touches(pose, high):
            low, high = high, high + 2.0 * width
        while not touches(pose, low):
            low, high = low - 2.0 * width, low
        while high - low > slack_rad:
            middle = 0.5 * (low + high)
            if touches(pose, middle):
                low = middle
            else:
                high = middle
        guess = result[n] = high
    return result, calls
