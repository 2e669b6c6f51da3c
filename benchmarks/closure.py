"""Time closures beside python-fcl bisection, on the same poses and error bound."""

import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median

import numpy as np

from benchmarks.fcl_bisection import close_by_bisection, collision_object
from kinematics.contact.closure import close
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import prepare
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import along, left_lateral, protrusion, right_lateral
from kinematics.guidance.mandible import place

#: A tenth of a micrometre at 100 mm from the hinge axis.
SLACK_RAD = 1e-6
REPEATS = 5


@dataclass(frozen=True)
class Row:
    """One line of the table: what was done, how long ours and theirs took, microseconds each."""

    name: str
    ours_us: float
    theirs_us: float | None
    largest_difference_um: float | None
    note: str


def smooth_paths(casts: MountedCasts, poses_each: int) -> Floats:
    """Return poses (3 k, 4, 4) at opening 0 along protrusion and both lateral excursions."""
    parts = []
    for excursion in (protrusion(), left_lateral(), right_lateral()):
        progress = np.linspace(0.0, 4.0, poses_each)
        advances = along(casts.guidance, excursion, casts.mi, progress)
        parts.append(place(casts.guidance, *advances).pose_at_zero)
    return np.concatenate(parts)


def timed(work: Callable[[], object]) -> float:
    """Return the median time of some repeats, seconds, after one run that is not counted."""
    work()
    times = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return median(times)


def rows(casts: MountedCasts) -> list[Row]:
    """Time trees, closures on one and two threads, and python-fcl on one."""
    poses = smooth_paths(casts, 80)
    count = len(poses)
    pair = casts.pair
    build = timed(lambda: prepare(casts.upper, casts.lower))
    one = timed(lambda: close(pair, poses, workers=Workers(1)))
    two = timed(lambda: close(pair, poses, workers=Workers(2)))
    upper, lower = collision_object(casts.upper), collision_object(casts.lower)
    start = time.perf_counter()
    theirs, calls = close_by_bisection(upper, lower, poses, SLACK_RAD, 2e-3)
    other = time.perf_counter() - start
    ours = close(pair, poses)
    difference = np.abs(ours.opening_rad - theirs) * ours.radius_mm
    return [
        Row("trees of both arches", build * 1e6, None, None, "once a case"),
        Row(
            "closure, one thread",
            one / count * 1e6,
            other / count * 1e6,
            float(difference.max() * 1e3),
            f"python-fcl: bisection to 0.1 um, last answer as bracket, {calls / count:.1f} tests",
        ),
        Row("closure, two threads", two / count * 1e6, None, None, ""),
    ]
