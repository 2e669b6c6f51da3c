"""Time gap maps, envelopes and flags, and the map beside another library."""

import importlib
from collections.abc import Callable, Iterator
from statistics import median

import numpy as np

from benchmarks.scenes import smooth_paths
from benchmarks.table import Figure, duration, seconds, significant
from kinematics.contact.closure import close
from kinematics.contact.envelope import Measure, Side, envelope
from kinematics.contact.gap_maps import arc_map, distance_map
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.touching_faces import touching_faces
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.layouts import layout_of
from kinematics.geometry.poses import move_points, opening_rotation

LIMIT_MM = 1.0
TOUCH_MM = 0.05
POSES_A_PATH = 60
_REPEATS = 7
#: Vertices of the lower that the other library is asked for, among those within the limit.
_SAMPLE = 400


def rows(casts: MountedCasts) -> Iterator[Figure]:
    """Yield maps in MI, envelopes and flags of a movement at closure, all on two threads."""
    pair, workers = casts.pair, Workers(2)
    tree = pair.upper
    spent = min(seconds(lambda: layout_of(tree.arrays, tree.vertex_of)) for _ in range(3))
    vertices = len(casts.upper.mesh.vertices) + len(casts.lower.mesh.vertices)
    both = f"both arches, {vertices:,} vertices"
    yield Figure("vertices and tiles of an arch, once", "", duration(spent), "1 arch")

    pose, within = casts.mi_pose, f"within {LIMIT_MM:g} mm, 2 threads"
    spent = _median_s(lambda: distance_map(pair, pose, LIMIT_MM, workers))
    yield Figure(f"shortest distances in MI {within}", "25 ms", duration(spent), both)
    yield from _beside_trimesh(casts, spent)
    spent = _median_s(lambda: arc_map(pair, pose, LIMIT_MM, workers))
    yield Figure(f"arc gaps in MI {within}", "", duration(spent), both)

    poses = _at_closure(casts)
    count = f"lower arch, {len(poses)} poses"
    for measure, asked in ((Measure.DISTANCE, "1.5 s"), (Measure.ARC_GAP, "")):
        spent = _median_s(lambda m=measure: envelope(pair, poses, LIMIT_MM, Side.LOWER, m, workers))
        yield Figure(f"envelope of {measure.value}s {within}", asked, duration(spent), count)
    spent = _median_s(lambda: touching_faces(pair, poses, TOUCH_MM, workers))
    what = f"triangles that touch within {TOUCH_MM:g} mm, 2 threads"
    yield Figure(what, "", duration(spent), f"both arches, {len(poses)} poses")


def _median_s(work: Callable[[], object]) -> float:
    """Return the median time of some runs, seconds, after one that is not counted."""
    work()
    return median(seconds(work) for _ in range(_REPEATS))


def _at_closure(casts: MountedCasts) -> Floats:
    """Return protrusion and both lateral excursions, closed."""
    poses = smooth_paths(casts, POSES_A_PATH)
    opening = close(casts.pair, poses, workers=Workers(2)).opening_rad
    return np.asarray(poses @ opening_rotation(opening))


def _beside_trimesh(casts: MountedCasts, ours_s: float) -> Iterator[Figure]:
    """Yield the same distances by trimesh: of a sample of the vertices within, on one thread."""
    what = "the same by trimesh, extrapolated"
    try:
        importlib.import_module("rtree")  # which trimesh needs for this and does not bring
        trimesh = importlib.import_module("trimesh")
    except ModuleNotFoundError as error:
        yield Figure(what, "", "not measured", f"{error.name} is not installed")
        return
    ours = distance_map(casts.pair, casts.mi_pose, LIMIT_MM)
    near = np.flatnonzero(np.isfinite(ours.lower_mm))
    count = len(near) + np.count_nonzero(np.isfinite(ours.upper_mm))
    some = np.random.default_rng(0).choice(near, min(_SAMPLE, len(near)), replace=False)
    points = move_points(casts.mi_pose, casts.lower.mesh.vertices[some])
    mesh = trimesh.Trimesh(casts.upper.mesh.vertices, casts.upper.mesh.faces, process=False)
    closest_point = trimesh.proximity.closest_point
    closest_point(mesh, points[:1])  # builds its tree
    spent = seconds(lambda: closest_point(mesh, points)) / len(some) * count
    off = float(np.abs(closest_point(mesh, points)[1] - ours.lower_mm[some]).max()) * 1e3
    yield Figure(
        what, "", f"{duration(spent)} ({significant(spent / ours_s)} times)",
        f"{len(some)} of {count:,} vertices within; largest difference {off:.1g} um",
    )  # fmt: skip
