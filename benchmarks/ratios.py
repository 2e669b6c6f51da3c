"""Ours beside other libraries: one run, the same poses, one thread each, the same error bound."""

import importlib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from statistics import median
from types import ModuleType
from typing import Final

import numpy as np

from benchmarks.bracketing import SLACK_RAD
from benchmarks.scenes import Scene, casts_of, conforming, loose, near_mi, tight
from benchmarks.table import NotMeasured, Ratio, Run, counted, seconds
from benchmarks.tuning import Way, quickest
from kinematics.contact.closure import Closures, close
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.kernels.features import EDGE_ON_EDGE

#: Poses of all paths on which ways to use a library are compared.
_SAMPLE: Final = 30
#: Ours are short, and would be more at the mercy of what else the machine does.
_OURS_A_TURN: Final = 5
#: Fewer runs are made where they would take longer than this together.
_PATIENCE_S: Final = 30.0
#: Beyond the error of their way: rounding, and Embree's single precision.
_BESIDES_UM: Final = 0.03


@dataclass(frozen=True)
class Library:
    """Another library.

    Attributes
    ----------
    name : str
        As it is installed.
    module : str
        The module here that uses it.
    misses_edges : bool
        Whether its way sees no contact of edge on edge.
    poses : dict of str to int
        How many poses it gets of each scene; 0 where one would take many minutes.
    """

    name: str
    module: str
    misses_edges: bool
    poses: dict[str, int]


LIBRARIES: Final = {
    "fcl": Library(
        "python-fcl", "benchmarks.fcl_bisection", False,
        {"loose": 240, "tight": 240, "near MI": 60, "conforming": 4},
    ),
    "coal": Library(
        "coal", "benchmarks.coal_bisection", False,
        {"loose": 240, "tight": 240, "near MI": 60, "conforming": 4},
    ),
    "embree": Library(
        "embreex", "benchmarks.embree_rays", True,
        {"loose": 60, "tight": 60, "near MI": 60, "conforming": 6},
    ),
    "vtk": Library(
        "vtk", "benchmarks.vtk_bisection", False,
        {"loose": 6, "tight": 6, "near MI": 2, "conforming": 0},
    ),
}  # fmt: skip


@lru_cache(maxsize=1)
def _scenes(triangles: int) -> tuple[Scene, ...]:
    casts = casts_of(triangles)
    return loose(casts), tight(casts), near_mi(casts), conforming(triangles)


def rows(key: str, run: Run) -> Iterator[Ratio | NotMeasured]:
    """Yield a row a scene for one library."""
    library = LIBRARIES[key]
    try:
        module = importlib.import_module(library.module)
    except ImportError as error:
        why = f"not installed ({error.name})"
        yield from (NotMeasured(s.name, library.name, why) for s in _scenes(run.triangles))
        return
    ways, made_for = [], None
    for scene in _scenes(run.triangles):
        count = library.poses[scene.name]
        if count == 0:
            yield NotMeasured(scene.name, library.name, "many minutes a pose")
            continue
        if scene.pair is not made_for:
            run.say(f"{library.name} made ready")
            ways, made_for = _ways(module, scene), scene.pair
        run.say(f"{library.name}, {scene.name}")
        yield _row(library, ways, scene.shortened(count), run)


def _ways(module: ModuleType, scene: Scene) -> list[Way]:
    found: list[Way] = module.ways(scene.upper, scene.lower)
    return found


def _row(library: Library, ways: list[Way], scene: Scene, run: Run) -> Ratio:
    """Tune the library, then take turns, so that both meet the same disturbances."""
    poses = scene.poses
    sample = scene.shortened(min(_SAMPLE, len(poses))).poses
    way, spent_s = quickest(ways, sample, 2.0 * SLACK_RAD)
    expected_s = spent_s / len(sample) * len(poses)
    runs = max(1, min(run.repeats, int(_PATIENCE_S / expected_s)))
    ours, theirs = close(scene.pair, poses), (np.empty(0), 0.0)
    workers, ours_s, theirs_s = Workers(1), [], []

    def other() -> None:
        nonlocal theirs
        theirs = way.close(poses)

    for _ in range(runs):
        ours_s += [
            seconds(lambda: close(scene.pair, poses, workers=workers)) for _ in range(_OURS_A_TURN)
        ]
        theirs_s.append(seconds(other))
    openings, effort = theirs
    largest_um, agrees = compared(ours, openings, library.misses_edges)
    settings = f"{way.words}; {effort:.1f} a pose"
    if library.misses_edges:
        share = float((ours.kind == EDGE_ON_EDGE).mean())
        settings += f"; {share:.0%} of the contacts are edge on edge, which rays miss"
    return Ratio(
        scene.name, library.name, median(ours_s) / len(poses), median(theirs_s) / len(poses),
        largest_um, agrees, f"{counted(len(poses), 'pose')}, {counted(runs, 'run')}", settings,
    )  # fmt: skip


def compared(ours: Closures, openings: Floats, misses_edges: bool) -> tuple[float, bool]:
    """Return the largest difference, micrometres at the contact, and whether that is in order.

    A way that misses contacts of edge on edge may find a smaller opening there, never a greater.
    """
    allowed_um = SLACK_RAD * ours.radius_mm * 1e3 + _BESIDES_UM
    higher_um = (openings - ours.opening_rad) * ours.radius_mm * 1e3
    below = (-higher_um <= allowed_um) | (misses_edges & (ours.kind == EDGE_ON_EDGE))
    return float(np.abs(higher_um).max()), bool(np.all((higher_um <= allowed_um) & below))
