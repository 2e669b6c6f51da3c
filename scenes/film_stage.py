"""Both casts drawn in three dimensions moment by moment, in one window that is kept.

Call only where `opengl_probe.probe` found a window: without OpenGL this ends the process.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import pyvista
from numpy.typing import NDArray

from kinematics.conventions import Floats
from scenes import colours, stage
from scenes.film_shot import Moment, Shot, ShotView
from scenes.gap_colours import unpainted
from scenes.scene import Part

#: Farther from the middle of a view than this nothing is, whichever way one looks, mm.
_DEEP_MM: Final = 150.0


@dataclass(frozen=True)
class Drawn:
    """All panels at one moment.

    Attributes
    ----------
    pixels : ndarray, shape (height, width, 3)
        Red, green, blue.
    depth_mm : ndarray, shape (height, width)
        How far from the eye that is what is seen, which is `stage.EYE_MM` before the middle.
    """

    pixels: NDArray[np.uint8]
    depth_mm: Floats


class FilmStage:
    """A window with one panel a view, side by side.

    Parameters
    ----------
    shot : Shot
        What stays the same.
    panel : (int, int)
        Width and height of each panel, pixels.
    """

    def __init__(self, shot: Shot, panel: tuple[int, int]) -> None:
        self._limit_mm = shot.limit_mm
        self._lower: list[pyvista.Actor] = []
        self._painted: list[tuple[Part, pyvista.Actor]] = []
        count = len(shot.views)
        self._size = count * panel[0], panel[1]
        self._plotter = pyvista.Plotter(
            off_screen=True, window_size=[*self._size], lighting="none", shape=(1, count),
            border=False,
        )  # fmt: skip
        for column, one in enumerate(shot.views):
            self._plotter.subplot(0, column)
            self._fill(shot, one, panel)
        self._plotter.screenshot(return_img=True)  # before it the window has nothing to be read

    def drawn(self, moment: Moment) -> Drawn:
        """Return all panels at one moment."""
        for actor in self._lower:
            actor.user_matrix = moment.move
        for part, actor in self._painted:
            near = moment.upper_mm if part.cast == "upper" else moment.lower_mm
            stage.paint(actor, part, near, self._limit_mm)
        pixels = stage.pixels_of(self._plotter)
        share = stage.depth_shares_of(self._plotter)
        return Drawn(pixels, (stage.EYE_MM - _DEEP_MM) + 2.0 * _DEEP_MM * share)

    def close(self) -> None:
        """Give the window up."""
        self._plotter.close()

    def _fill(self, shot: Shot, one: ShotView, panel: tuple[int, int]) -> None:
        """Put what is seen into one panel."""
        closed = stage.closed_casts(shot.scene)
        for part in shot.scene.parts:
            if part.cast not in one.casts:
                continue
            is_tooth = len(part.vertex_of) > 0
            if is_tooth:
                actor = stage.add_part(self._plotter, unpainted(part))
                self._painted.append((part, actor))
            else:
                actor = stage.add_part(self._plotter, part)
            stage.hide_far_side(actor, part.cast in closed)
            if part.cast == "lower":
                self._lower.append(actor)
        self._plotter.set_background(colours.PAPER)
        stage.light(self._plotter, one.view)
        higher = one.view.width_mm * panel[1] / panel[0]
        stage.look(self._plotter, replace(one.view, height_mm=max(one.view.height_mm, higher)))
        # Of one depth however the lower moves: a picture must not depend on those before it.
        self._plotter.camera.clipping_range = stage.EYE_MM - _DEEP_MM, stage.EYE_MM + _DEEP_MM
