"""The same first contact by coal: a narrowing bracket on collision, with its bound on distance."""

import coal
import numpy as np

from benchmarks.bracketing import DISTANCE_PLANS, PLANS, Test, close_by_bracket
from benchmarks.tuning import Way, reach_mm
from kinematics.casts.casts import Arch
from kinematics.conventions import Floats

#: Distances below which coal opens volumes to bound the distance better, mm. 1e-3 is its default.
_BREAKS_MM = (1e-3, 1e-2)


def collision_model(arch: Arch) -> coal.BVHModelOBBRSS:
    """Return an arch as a bounding-volume tree of coal."""
    model = coal.BVHModelOBBRSS()
    model.beginModel(len(arch.mesh.faces), len(arch.mesh.vertices))
    model.addVertices(np.array(arch.mesh.vertices))
    model.addTriangles(np.array(arch.mesh.faces))
    model.endModel()
    return model


def collision_test(
    upper: coal.BVHModelOBBRSS, lower: coal.BVHModelOBBRSS, break_mm: float, use_bound: bool
) -> Test:
    """Return the test by collision, with or without what it says of the distance."""
    request = coal.CollisionRequest()
    request.num_max_contacts = 1
    request.enable_contact = False
    request.break_distance = break_mm
    still = coal.Transform3s()

    def test(pose: Floats) -> tuple[bool, float]:
        result = coal.CollisionResult()
        moved = coal.Transform3s(pose[:, :3], pose[:, 3])
        touches = coal.collide(upper, still, lower, moved, request, result) > 0
        return touches, max(result.distance_lower_bound, 0.0) if use_bound else 0.0

    return test


def ways(upper: Arch, lower: Arch) -> list[Way]:
    """Return the ways to close two arches with coal."""
    up, lo, reach = collision_model(upper), collision_model(lower), reach_mm(lower)
    tests = [
        (f"collide with its bound on distance, break distance {break_mm:g} mm",
         collision_test(up, lo, break_mm, True), DISTANCE_PLANS)
        for break_mm in _BREAKS_MM
    ] + [("collide", collision_test(up, lo, 0.0, False), PLANS)]  # fmt: skip
    return [
        Way(f"{name}, {plan.words()}", lambda p, t=test, q=plan: close_by_bracket(t, p, reach, q))
        for name, test, plans in tests
        for plan in plans
    ]
