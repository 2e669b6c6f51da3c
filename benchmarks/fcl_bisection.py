"""The same first contact by python-fcl: a narrowing bracket on its collision test."""

import fcl
import numpy as np

from benchmarks.bracketing import DISTANCE_PLANS, PLANS, Test, close_by_bracket
from benchmarks.tuning import Way, reach_mm
from kinematics.casts.casts import Arch
from kinematics.conventions import Floats


def collision_object(arch: Arch) -> fcl.CollisionObject:
    """Return an arch as a bounding-volume tree of python-fcl."""
    model = fcl.BVHModel()
    model.beginModel(len(arch.mesh.vertices), len(arch.mesh.faces))
    model.addSubModel(np.array(arch.mesh.vertices), np.array(arch.mesh.faces))
    model.endModel()
    return fcl.CollisionObject(model, fcl.Transform())


def collision_test(upper: fcl.CollisionObject, lower: fcl.CollisionObject) -> Test:
    """Return the test by collision alone; its first contact ends it."""
    request = fcl.CollisionRequest(num_max_contacts=1, enable_contact=False)

    def test(pose: Floats) -> tuple[bool, float]:
        lower.setTransform(fcl.Transform(pose[:, :3], pose[:, 3]))
        return fcl.collide(upper, lower, request, fcl.CollisionResult()) > 0, 0.0

    return test


def distance_test(upper: fcl.CollisionObject, lower: fcl.CollisionObject) -> Test:
    """Return the test by distance, dearer than that by collision but told more."""
    request = fcl.DistanceRequest(enable_nearest_points=False)

    def test(pose: Floats) -> tuple[bool, float]:
        lower.setTransform(fcl.Transform(pose[:, :3], pose[:, 3]))
        apart_mm = fcl.distance(upper, lower, request, fcl.DistanceResult())
        return apart_mm <= 0.0, max(float(apart_mm), 0.0)

    return test


def ways(upper: Arch, lower: Arch) -> list[Way]:
    """Return the ways to close two arches with python-fcl."""
    up, lo, reach = collision_object(upper), collision_object(lower), reach_mm(lower)
    by_collision, by_distance = collision_test(up, lo), distance_test(up, lo)
    return [
        Way(f"{name}, {plan.words()}", lambda p, t=test, q=plan: close_by_bracket(t, p, reach, q))
        for name, test, plans in (
            ("collide", by_collision, PLANS),
            ("distance", by_distance, DISTANCE_PLANS),
        )
        for plan in plans
    ]
