"""Time what a page waits for whose guidance setting is dragged, and the gaps beside a library."""

import importlib
from collections.abc import Iterator
from dataclasses import replace
from types import ModuleType
from typing import Final

import numpy as np

from benchmarks.table import Figure, Run, duration, seconds, significant
from kinematics.case import Case
from kinematics.casts.casts import Arch
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import left_lateral
from kinematics.live import Teeth, excursions_judged, pose_at_travel, remounted, teeth_for
from scenes.builtin_cases import builtin_case
from scenes.case_places import DEFAULT_CASE

#: Triangles an arch of the built-in case, and of scans.
SIZES: Final = (40_000, 200_000)
#: What is asked: three excursions with findings, and one pose with its map.
_ASKED: Final = {40_000: ("60 ms", ""), 200_000: ("400 ms", "60 ms")}
MAP_LIMIT_MM: Final = 1.0
#: Gaps are compared on every so many poses of a lateral excursion, up to this distance.
_STRIDE: Final = 6
_GAP_LIMIT_MM: Final = 3.0


def rows(run: Run) -> Iterator[Figure]:
    """Yield medians over runs, each with another inclination, on two threads."""
    for triangles in SIZES:
        case = _case(triangles)
        run.say(f"teeth of {triangles:,} triangles")
        teeth = teeth_for(case, _silent, 2)
        spent = run.median_s(lambda made=case: teeth_for(made, _silent, 2))
        counts = f"{triangles:,} triangles an arch, 2 threads"
        yield Figure("teeth after a changed dentition", "1 s", duration(spent), counts)
        run.say("changed guidance")
        turned = [_turned(case, 36.0 + number) for number in range(run.repeats + 1)]
        spans = np.array([_spans(teeth, item) for item in turned])[1:]
        mounted, pose, followed = np.median(spans, axis=0)
        asked, asked_of_pose = _ASKED[triangles]
        yield Figure("teeth mounted on changed guidance", "", duration(mounted), counts)
        yield Figure("one pose, its contacts and map", asked_of_pose, duration(pose), counts)
        yield Figure("three excursions with findings", asked, duration(followed), counts)
        if triangles == SIZES[0]:
            yield from _beside_fcl(run, case, remounted(teeth, case))


def _spans(teeth: Teeth, case: Case) -> tuple[float, float, float]:
    """Return the seconds of mounting, of one pose with its map, and of three excursions."""
    workers, casts = Workers(2), remounted(teeth, case)

    def pose() -> None:
        at = pose_at_travel(casts, left_lateral(), 1.7, case.judging.tolerance_mm, workers)
        distance_map(casts.pair, at.pose, MAP_LIMIT_MM, workers)

    return (
        seconds(lambda: remounted(teeth, case)),
        seconds(pose),
        seconds(lambda: excursions_judged(case, casts, workers)),
    )


def _silent(_step: str) -> None:
    """Tell nobody."""


def _case(triangles: int) -> Case:
    case = builtin_case(DEFAULT_CASE)
    return replace(case, dentition=replace(case.dentition, triangles_per_arch=triangles))


def _turned(case: Case, inclination_deg: float) -> Case:
    """Return the case with another condylar inclination on both sides."""
    sides = {
        name: replace(getattr(case.guidance, name), condylar_inclination_deg=inclination_deg)
        for name in ("right", "left")
    }
    return replace(case, guidance=replace(case.guidance, **sides))


def _beside_fcl(run: Run, case: Case, casts: MountedCasts) -> Iterator[Figure]:
    """Yield the gaps of all tooth pairs within the limit, ours and by python-fcl, one thread."""
    what = f"gaps of tooth pairs within {_GAP_LIMIT_MM:g} mm, 1 thread"
    sweep = excursions_judged(case, casts, Workers(2)).sweeps[2]
    poses = np.ascontiguousarray(sweep.poses[::_STRIDE])
    teeth = casts.upper.codes, casts.lower.codes
    workers = Workers()
    run.say(what)
    ours = pair_gaps(casts.pair, poses, _GAP_LIMIT_MM, *teeth, workers)
    spent = run.median_s(lambda: pair_gaps(casts.pair, poses, _GAP_LIMIT_MM, *teeth, workers))
    near = np.argwhere(np.isfinite(ours))
    counts = f"{len(near)} pairs in {len(poses)} poses"
    yield Figure(what, "", duration(spent), counts)
    try:
        fcl = importlib.import_module("fcl")
    except ModuleNotFoundError:
        yield Figure("the same by python-fcl", "", "not measured", "fcl is not installed")
        return
    uppers = [_model(fcl, casts.upper, code) for code in teeth[0]]
    lowers = [_model(fcl, casts.lower, code) for code in teeth[1]]
    found = np.empty(len(near))

    def measure() -> None:
        for i, (pose, row, column) in enumerate(near):
            place = fcl.Transform(poses[pose, :3, :3], poses[pose, :3, 3])
            lower = fcl.CollisionObject(lowers[column], place)
            found[i] = fcl.distance(fcl.CollisionObject(uppers[row]), lower)

    theirs = seconds(measure)
    # It gives -1 where surfaces pass through each other.
    off_um = np.abs(np.maximum(found, 0.0) - ours[tuple(near.T)]).max() * 1e3
    yield Figure(
        "the same by python-fcl, told which pairs", "",
        f"{duration(theirs)} ({significant(theirs / spent)} times)",
        f"largest difference {off_um:.1g} um",
    )  # fmt: skip


def _model(fcl: ModuleType, arch: Arch, code: int) -> object:
    """Return one tooth as the library wants it."""
    faces = arch.mesh.faces[arch.tooth_of_face == code]
    model = fcl.BVHModel()
    model.beginModel(len(arch.mesh.vertices), len(faces))
    model.addSubModel(arch.mesh.vertices, faces)
    model.endModel()
    return model
