"""Our own figures: closures a second, patches, trees, growth with size, memory."""

import dataclasses
from collections.abc import Iterator

import numpy as np

from benchmarks.scenes import casts_of, conforming, smooth_paths, unrelated_poses
from benchmarks.table import Figure, Run, counted, duration, significant
from kinematics.contact.closure import close
from kinematics.contact.contacts import patches
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import Pair, prepare
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.poses import opening_rotation

POSES_A_PATH = 80
PATCH_MM = 0.05
SMALL, LARGE = 50_000, 400_000


def _each_s(run: Run, pair: Pair, poses: Floats, threads: int) -> float:
    """Return the seconds a closure takes, the median of all runs over their poses."""
    workers = Workers(threads)
    return run.median_s(lambda: close(pair, poses, workers=workers)) / len(poses)


def closure(run: Run) -> Iterator[Figure]:
    """Yield closures on smooth paths, of unrelated poses and near MI."""
    casts = casts_of(run.triangles)
    smooth, unrelated = smooth_paths(casts, POSES_A_PATH), unrelated_poses(casts, 480)
    for what, asked, poses, threads in (
        ("closures on smooth paths, 2 threads", "20,000 /s (aim 40,000)", smooth, 2),
        ("closures on smooth paths, 1 thread", "", smooth, 1),
        ("closures of unrelated poses, 2 threads", "6,000 /s", unrelated, 2),
    ):
        run.say(what)
        rate = 1.0 / _each_s(run, casts.pair, poses, threads)
        yield Figure(what, asked, f"{rate:,.0f} /s", f"{len(poses)} poses")
    near = smooth_paths(casts, 20, 0.0, 0.05)
    run.say("closures near MI")
    each = _each_s(run, casts.pair, near, 1)
    yield Figure(
        "closure within 0.05 mm of MI, 1 thread", "0.5 ms", f"{each * 1e3:.2f} ms",
        f"{len(near)} poses",
    )  # fmt: skip


def conforming_bodies(run: Run) -> Iterator[Figure]:
    """Yield closures of surfaces that touch everywhere at once, or all but."""
    scene = conforming(run.triangles)
    counts = f"2 x {len(scene.upper.mesh.faces):,} triangles"
    for what, poses in (
        ("closure of conforming surfaces, 1 thread", scene.poses[:1]),
        ("the same, disturbed by up to 4 micrometres", scene.poses[1:]),
    ):
        run.say(what)
        each = _each_s(run, scene.pair, poses, 1)
        yield Figure(what, "4 ms", duration(each), f"{counts}, {counted(len(poses), 'pose')}")


def contact_patches(run: Run) -> Iterator[Figure]:
    """Yield three excursions closed, with the patches of every pose."""
    casts = casts_of(run.triangles)
    poses, workers = smooth_paths(casts, POSES_A_PATH), Workers(2)
    found = 0

    def work() -> None:
        nonlocal found
        closed = poses @ opening_rotation(close(casts.pair, poses, workers=workers).opening_rad)
        found = len(patches(casts.pair, closed, PATCH_MM, workers).pose)

    what = f"3 paths closed, patches within {PATCH_MM} mm, 2 threads"
    run.say(what)
    spent = run.median_s(work)
    yield Figure(
        what, "60 ms (aim 40)", f"{spent * 1e3:.1f} ms", f"{len(poses)} poses, {found} patches"
    )


def trees(run: Run) -> Iterator[Figure]:
    """Yield the time from meshes in memory to their first closure."""
    casts = casts_of(run.triangles)
    pose = smooth_paths(casts, 1, 2.0, 2.0)[:1]
    run.say("trees and a first closure")
    spent = run.median_s(lambda: close(prepare(casts.upper, casts.lower, 2), pose))
    yield Figure(
        "from meshes in memory to a first closure", "0.8 s", f"{spent:.2f} s", "trees, 1 pose"
    )


def memory(run: Run) -> Iterator[Figure]:
    """Yield bytes a triangle of the prepared pair and of what each thread needs besides."""
    pair = casts_of(run.triangles).pair
    count = len(pair.upper.face_of) + len(pair.lower.face_of)
    counts = f"both arches, {count:,} triangles"
    workers = Workers()
    with workers.closing_scratch(pair) as scratch:
        pass
    for what, asked, held in (
        ("memory of a prepared pair, a triangle", "400 bytes", pair),
        ("memory of each thread besides, a triangle", "300 bytes", scratch),
    ):
        yield Figure(what, asked, f"{bytes_in(held) / count:.0f} bytes", counts)


def bytes_in(held: object) -> int:
    """Return how many bytes the arrays take that something holds.

    Raises
    ------
    TypeError
        Something of which it is not known what it holds.
    """
    if isinstance(held, np.ndarray):
        return held.nbytes
    if dataclasses.is_dataclass(held):
        return sum(bytes_in(getattr(held, part.name)) for part in dataclasses.fields(held))
    if isinstance(held, tuple):
        return sum(map(bytes_in, held))
    if isinstance(held, (int, float, str)):
        return 0
    raise TypeError(f"bytes of {type(held).__name__}: not known")


def growth(run: Run) -> Iterator[Figure]:
    """Yield how the cost of a closure grows from small arches to large ones, one thread."""
    small, large = (_closure_s(run, triangles) for triangles in (SMALL, LARGE))
    yield Figure(
        f"closure at {LARGE:,} triangles / at {SMALL:,}", "1.3", f"{large / small:.2f}",
        f"{significant(large * 1e6)} us / {significant(small * 1e6)} us, 1 thread",
    )  # fmt: skip


def _closure_s(run: Run, triangles: int) -> float:
    run.say(f"building arches of {triangles:,} triangles, and their closures")
    casts: MountedCasts = casts_of(triangles)
    return _each_s(run, casts.pair, smooth_paths(casts, POSES_A_PATH), 1)
