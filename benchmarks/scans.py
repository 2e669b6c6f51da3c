"""Time scanned casts from their files to their findings, and their reading beside a library."""

import json
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from statistics import median
from typing import Final

import numpy as np
import trimesh
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import dijkstra
from scipy.spatial import cKDTree

from benchmarks.table import Figure, Run, duration, significant
from kinematics.casts.casts import carried
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.mounting import mounted_casts
from kinematics.scans.cleaning import cleaned
from kinematics.scans.labels import face_labels
from kinematics.scans.scan_files import read_scan
from kinematics.scans.seeded_teeth import teeth_from_seeds
from scenes.builtin_cases import builtin_case
from scenes.case_places import DEFAULT_CASE
from tests.scanner_like import Scanned, moved, scanned, write_obj, write_ply
from tests.seeded_casts import fused_cast

#: Built-in teeth from which scans of about 200,000 triangles with their gums come.
_TEETH: Final = 208_000
_NOISE_UM: Final = 4.0
#: Size of voxels that gives about as many of a fused cast.
_VOXEL_MM: Final = 0.23
#: A place as a scanner might choose it.
_PLACE: Final = np.array(
    [[0.0, -1.0, 0.0, 55.0], [0.8, 0.0, 0.6, -20.0], [-0.6, 0.0, 0.8, 110.0], [0.0, 0.0, 0.0, 1.0]]
)


def rows(run: Run) -> Iterator[Figure]:
    """Yield the seconds and the memory of a whole run, and those of reading one file."""
    run.say("making scans of about 200,000 triangles")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        upper, lower = _scans(folder)
        counts = f"{len(upper.faces):,} and {len(lower.faces):,} triangles, OBJ and PLY, 2 threads"
        run.say("scans from files to findings")
        told = [_whole(folder) for _ in range(run.repeats)]
        warm = median(one["warm_s"] for one in told)
        yield Figure("two scans, from files to findings, warm", "15 s", duration(warm), counts)
        peak = max(one["peak_bytes"] for one in told) / 1e9
        yield Figure("memory of that process at most", "2 GB", f"{peak:.2f} GB", counts)
        yield from _reading(run, folder, upper)
    yield from _parting(run)


def _scans(folder: Path) -> tuple[Scanned, Scanned]:
    """Write two scans, and a case for them, mounted by the transform back."""
    case = builtin_case(DEFAULT_CASE)
    case = replace(case, dentition=replace(case.dentition, triangles_per_arch=_TEETH))
    casts = mounted_casts(case, 2)
    arches = (casts.upper, -1.0), (carried(casts.lower, casts.mi_pose), 1.0)
    upper, lower = (
        moved(scanned(arch, towards, seed, _NOISE_UM, _NOISE_UM), _PLACE)
        for seed, (arch, towards) in enumerate(arches)
    )
    write_obj(folder / "upper.obj", upper)
    write_ply(folder / "lower.ply", lower)
    back = json.dumps(np.linalg.inv(_PLACE).tolist())
    (folder / "case.toml").write_text(
        '[scans]\nupper = "upper.obj"\nlower = "lower.ply"\nupper_labels = "upper.json"\n'
        f"[scans.mounting]\nhinge_from_scan = {back}\n[judging]\nstop_tolerance_mm = 0.02\n"
    )
    return upper, lower


def _whole(folder: Path) -> dict[str, float]:
    """Return what one run in a process of its own tells of itself."""
    done = subprocess.run(
        [sys.executable, "-m", "benchmarks.scan_run", str(folder / "case.toml")],
        check=True,
        capture_output=True,
        text=True,
    )
    told: dict[str, float] = json.loads(done.stdout)
    return told


def _reading(run: Run, folder: Path, scan: Scanned) -> Iterator[Figure]:
    """Yield the seconds of reading and cleaning each kind of file, ours and by trimesh."""
    bare = trimesh.Trimesh(scan.vertices, scan.faces, process=False)
    # A binary STL has three corners a triangle: both libraries join those that are equal.
    kinds = ("stl", "binary STL", True), ("ply", "binary PLY", False), ("obj", "OBJ", False)
    for ending, written, join in kinds:
        path = folder / f"one.{ending}"
        bare.export(path)
        run.say(f"reading {written}")
        read = run.median_s(lambda path=path: read_scan(path))
        theirs = run.median_s(lambda path=path, join=join: trimesh.load(path, process=join))
        yield Figure(
            f"reading a scan, {written}, checked", "",
            f"{duration(read)} (trimesh {duration(theirs)}, {significant(theirs / read)} times)",
            f"{len(scan.faces):,} triangles",
        )  # fmt: skip
    one = read_scan(path)
    run.say("cleaning")
    ours = run.median_s(lambda: cleaned(one, one.vertices))
    theirs = run.median_s(
        lambda: trimesh.Trimesh(one.vertices, one.faces, process=True, validate=True)
    )
    yield Figure(
        "cleaning a scan, with a report", "",
        f"{duration(ours)} (trimesh, processed and validated, {duration(theirs)}, "
        f"{significant(theirs / ours)} times)",
        f"{len(scan.faces):,} triangles",
    )  # fmt: skip


def _parting(run: Run) -> Iterator[Figure]:
    """Yield the seconds of parting a fused cast by one seed a tooth, ours and by ways over it.

    The other way gives every vertex to the seed that is nearest over the same edges (scipy's
    dijkstra from all seeds): it sees no fold, no arch and no gum.
    """
    run.say("fusing a cast of about 200,000 triangles")
    cast = fused_cast("plain", "upper", _VOXEL_MM)
    mesh, seeds = cast.scan.mesh, cast.seeds(0)
    run.say("parting teeth by seeds")
    ours = run.median_s(lambda: teeth_from_seeds(mesh, seeds))
    theirs = run.median_s(lambda: _nearest(mesh, seeds))
    right, others = (
        cast.share(face_labels(teeth, mesh.faces) == cast.scan.tooth_of_face, cast.occlusal)
        for teeth in (teeth_from_seeds(mesh, seeds).tooth_of_vertex, _nearest(mesh, seeds))
    )
    yield Figure(
        "teeth of a scan by one seed each", "10 s",
        f"{duration(ours)} (scipy, nearest over the surface, {duration(theirs)}, "
        f"{significant(theirs / ours)} times)",
        f"{len(mesh.faces):,} triangles; occlusal area right {right:.1%}, scipy {others:.1%}",
    )  # fmt: skip


def _nearest(mesh: Mesh, seeds: dict[int, Floats]) -> Ints:
    """Return the tooth (n,) whose seed is nearest to every vertex over the edges."""
    starts = cKDTree(mesh.vertices).query(np.concatenate(list(seeds.values())))[1]
    both = np.sort(mesh.faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2))
    first, second = np.unique(both, axis=0).T
    long_mm = np.linalg.norm(mesh.vertices[first] - mesh.vertices[second], axis=1)
    size = len(mesh.vertices)
    net = coo_matrix((long_mm, (first, second)), (size, size)).tocsr()
    nearest = dijkstra(net, directed=False, indices=starts).argmin(axis=0)
    return np.array(list(seeds))[nearest]
