"""How many pictures of a film are made in a second, beside PyVista drawing the same casts."""

import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import Executor
from functools import partial
from pathlib import Path
from typing import Final

import numpy as np
import pyvista

from benchmarks.table import Figure, Run, seconds
from kinematics.case_filmed import filmed
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import right_lateral
from kinematics.mounting import mounted_casts
from scenes import stage
from scenes.builtin_cases import builtin_case
from scenes.drawing_orders import get_ready
from scenes.drawing_processes import InLine, drawing_processes
from scenes.film_drawing import drawn_pictures
from scenes.film_files import write_mp4
from scenes.film_moments import moments
from scenes.film_shot import Moment, Shot, shot_views
from scenes.gap_colours import still
from scenes.moving_casts import moving_casts
from scenes.scene import Frame, Gaps

_SIZE: Final = (1280, 720)
_A_SECOND: Final = 25.0
_TRAVEL_MM: Final = 3.0
#: Pictures drawn by the library alone.
_FEW: Final = 10


def rows(run: Run) -> Iterator[Figure]:
    """Yield pictures a second, by one process, by two, and by PyVista alone."""
    case = builtin_case("natural_dentition")
    casts = mounted_casts(case)
    travels = np.arange(0.0, _TRAVEL_MM, 2.0 / _A_SECOND)
    shown = filmed(case, casts, right_lateral(), travels, Workers(2))
    every = moments(casts, [shown], _A_SECOND)
    scene = moving_casts(casts, case.replacement_teeth)
    views = shot_views(scene, ("front", "lower"), np.array([one.move for one in every]))
    shot = Shot(scene, views, _SIZE, case.sweep.gap_limit_mm, case.title, "")
    counts = f"{len(every)} pictures of {_SIZE[0]} x {_SIZE[1]}, two views, written as MPEG-4"
    run.say("film, 1 process")
    alone = seconds(partial(_written, shot, every, InLine()))
    yield Figure("film: pictures a second, 1 process", "", f"{len(every) / alone:.1f}", counts)
    run.say("film, 2 processes")
    with drawing_processes(2) as drawing:
        for ready in [drawing.submit(get_ready) for _ in range(2)]:
            ready.result()
        both = seconds(partial(_written, shot, every, drawing))
    yield Figure("film: pictures a second, 2 processes", "12", f"{len(every) / both:.1f}", counts)
    run.say("the same casts by PyVista")
    library = seconds(partial(_by_library, shot, every[:_FEW])) / _FEW
    ratio = library * len(every) / both
    yield Figure(
        "the same by PyVista, a window anew, no words, not written", "",
        f"{1.0 / library:.1f} (ours {ratio:.1f} times)", f"{_FEW} of them, 1 process",
    )  # fmt: skip


def _written(shot: Shot, every: Sequence[Moment], drawing: Executor) -> None:
    with tempfile.TemporaryDirectory() as folder:
        pictures = drawn_pictures(shot, every, lambda _: None, drawing)
        write_mp4(Path(folder) / "film.mp4", pictures, shot.size, _A_SECOND)


def _by_library(shot: Shot, some: Sequence[Moment]) -> None:
    """Draw both views of some moments as one would with the library alone."""
    size = shot.size[0] // len(shot.views), shot.size[1]
    for moment in some:
        gaps = Gaps(moment.upper_mm, moment.lower_mm, shot.limit_mm)
        scene = still(shot.scene, Frame(moment.move, gaps))
        for one in shot.views:
            plotter = pyvista.Plotter(off_screen=True, window_size=[*size], lighting="none")
            for part in (part for part in scene.parts if part.cast in one.casts):
                stage.add_part(plotter, part)
            stage.light(plotter, one.view)
            stage.look(plotter, one.view)
            plotter.screenshot(return_img=True)
            plotter.close()
