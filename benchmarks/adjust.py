"""How long a map of what would have to come off an arch takes, beside distances by VTK."""

import importlib
from collections.abc import Iterator
from typing import Final

import numpy as np

from benchmarks.scenes import casts_of
from benchmarks.table import Figure, Run, duration, seconds, significant
from kinematics.casts.casts import Arch
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import sweeps
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.excursions import left_lateral, protrusion, right_lateral
from kinematics.planning.adjusting.planned import Planned, plan
from kinematics.planning.adjusting.settings import ONLY_GUIDE, Adjustment
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.stops import centric_stops
from kinematics.tooth_codes import is_posterior

POSES_A_PATH: Final = 60
#: So much room makes nearly all back teeth of the upper arch give way.
_MARGIN_MM: Final = 0.5
#: Vertices that the other library is asked for, each in all poses.
_SAMPLE: Final = 200


def rows(run: Run) -> Iterator[Figure]:
    """Yield how long the map of the upper arch takes on two threads, and distances by VTK."""
    casts, workers, settings = casts_of(run.triangles), Workers(2), JudgingSettings()
    run.say("following excursions to be cleared")
    step = 3.0 / POSES_A_PATH
    followed = sweeps(
        casts,
        (protrusion(), right_lateral(), left_lateral()),
        SweepSettings(step_mm=step, travel_mm=3.0 + settings.near_mi_mm, gap_limit_mm=0.5),
        settings.tolerance_mm,
        (0.0, 3.0 + settings.near_mi_mm),
        workers,
    )
    occlusion = Occlusion(casts, settings, workers=workers)
    stops = centric_stops(followed[0].patches, settings)
    front = tuple(code for code in casts.upper.codes if not is_posterior(code))
    asked = Adjustment(
        ONLY_GUIDE, front, cut="upper", margin_mm=_MARGIN_MM, deepest_mm=2.0 * _MARGIN_MM
    )
    run.say("mapping what would have to come off")
    found: list[Planned] = []
    spent = run.median_s(lambda: found.append(plan(occlusion, followed, stops, asked)))
    cuts = found[-1].cuts
    counts = f"{len(cuts)} upper teeth, {3 * POSES_A_PATH} poses and more of 3 excursions"
    yield Figure("adjustment map of an arch, 2 threads", "10 s", duration(spent), counts)
    poses = np.concatenate([one.poses for one in followed])
    yield from _beside_vtk(casts, poses, sum(len(cut.surface.vertices) for cut in cuts), spent)


def _beside_vtk(
    casts: MountedCasts, poses: np.ndarray, vertices: int, ours_s: float
) -> Iterator[Figure]:
    """Yield how long VTK takes for distances alone, of as many vertices in as many poses."""
    what = "shortest distances of their vertices by VTK, extrapolated"
    try:
        model = importlib.import_module("vtkmodules.vtkCommonDataModel")
        core = importlib.import_module("vtkmodules.vtkCommonCore")
    except ModuleNotFoundError as error:
        yield Figure(what, "", "not measured", f"{error.name} is not installed")
        return
    locator = model.vtkStaticCellLocator()
    locator.SetDataSet(_surface(casts.lower))
    locator.BuildLocator()
    sample = np.random.default_rng(0).choice(len(casts.upper.mesh.vertices), _SAMPLE, replace=False)
    points = move_points(inverse(poses), casts.upper.mesh.vertices[sample]).reshape(-1, 3)
    cell, number, place = model.vtkGenericCell(), core.reference(0), [0.0, 0.0, 0.0]
    part, squared = core.reference(0), core.reference(0.0)

    def ask() -> None:
        for point in points.tolist():
            locator.FindClosestPoint(point, place, cell, number, part, squared)

    spent = seconds(ask) / _SAMPLE * vertices
    yield Figure(
        what, "", f"{duration(spent)} ({significant(spent / ours_s)} times)",
        f"{_SAMPLE} of {vertices:,} vertices in {len(poses)} poses, once, 1 thread",
    )  # fmt: skip


def _surface(arch: Arch) -> object:
    """Return the triangles of an arch as VTK has them."""
    pyvista = importlib.import_module("pyvista")
    faces = arch.mesh.faces
    return pyvista.PolyData(arch.mesh.vertices, np.column_stack([np.full(len(faces), 3), faces]))
