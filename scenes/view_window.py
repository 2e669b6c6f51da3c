"""The window of `cuspway view`: draws what it is given, and collects keys.

Open only where `display_probe.refuse_without_display` found a display: without one this ends the
process.
"""

from collections import deque
from dataclasses import dataclass, replace
from itertools import chain
from typing import Any, Final

import numpy as np
import pyvista
from numpy.typing import NDArray
from PIL import Image
from vtkmodules.vtkInteractionStyle import vtkInteractorStyleTrackballCamera
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkImageMapper

from kinematics.contact.gap_maps import DistanceMap
from kinematics.conventions import Floats
from scenes import colours, stage
from scenes.film_shot import shot_views
from scenes.gap_colours import unpainted
from scenes.scene import Part, Scene
from scenes.view_cut import LINES, clip, cut_of, outline
from scenes.view_keys import Key
from scenes.view_marks import ContactMarks
from scenes.view_numbers import ToothNumber, place_number, tooth_numbers
from scenes.view_shapes import MARK_MM, image_of, shapes
from scenes.view_sheet import ABOVE, BELOW, Sheet, above, below, keys
from scenes.view_state import ViewState
from scenes.view_words import Words

#: Rows of the window, from its top: words, casts, words.
_ROWS: Final = (ABOVE, 1.0 - ABOVE - BELOW, BELOW)
_CLEAR: Final = 0.28
#: Marks so near before a plane that cuts are left, mm.
_NEAR_MM: Final = 1.5
#: How much is seen of a mark behind a tooth.
_FAINT: Final = 0.3
#: How the names of keys end that are held with others.
_HELD: Final = ("_L", "_R", "_Lock")
#: Marks and outlines are drawn over the casts they lie on or in.
_IN_FRONT: Final = -60000.0


@dataclass(frozen=True)
class Shown:
    """What is drawn at one moment.

    Attributes
    ----------
    state : ViewState
        Look, casts, plane, numbers.
    move : ndarray, shape (4, 4)
        Moves the lower from MI.
    marks : ContactMarks
        Contacts.
    near : DistanceMap or None
        What teeth are coloured by; None: their own colours.
    limit_mm : float
        Where these colours end.
    words : Words
        What is written.
    """

    state: ViewState
    move: Floats
    marks: ContactMarks
    near: DistanceMap | None
    limit_mm: float
    words: Words


@dataclass(frozen=True)
class _Piece:
    """A part of a cast in the window."""

    part: Part
    actor: pyvista.Actor


class ViewWindow:
    """A window that stays open until it is closed.

    Parameters
    ----------
    size : (int, int)
        Width and height, pixels.
    name : str
        Stands above the window.
    """

    def __init__(self, size: tuple[int, int], name: str) -> None:
        self.closed = False
        self.keys: deque[Key] = deque()
        self._dirty = self._coarse = self._fresh = False
        self._scene: Scene | None = None
        self._shown: Shown | None = None
        self._sheet: Sheet | None = None
        self._looks, self._looked_towards = -1, np.zeros(3)
        self._cut_as: tuple[Any, ...] = ()
        self._pieces: list[_Piece] = []
        self._closed: set[str] = set()
        self._numbers: list[ToothNumber] = []
        self._plotter = pyvista.Plotter(
            window_size=list(size), lighting="none", shape=(3, 1), row_weights=list(_ROWS),
            border=False, title=name,
        )  # fmt: skip
        self._plotter.set_background(colours.PAPER, all_renderers=True)
        self._above, self._list, self._below = (self._picture(row) for row in range(3))
        self._plotter.subplot(1, 0)
        stage.light_from_the_eye(self._plotter)
        self._marks = {name: self._mark() for name in MARK_MM}
        self._lines = {cast: self._over(*style) for cast, style in LINES.items()}
        self._plotter.show(interactive=False, auto_close=False)
        self._listen()

    @property
    def size(self) -> tuple[int, int]:
        """Width and height as they are now, pixels."""
        width, height = self._plotter.render_window.GetSize()
        return width, height

    @property
    def turned(self) -> bool:
        """Whether the casts were turned by hand since they were looked at from somewhere."""
        return bool(np.abs(self._towards - self._looked_towards).max() > 1e-6)

    def listen(self) -> None:
        """Take what mouse, keys and the desktop did meanwhile, and draw what that changes."""
        self._interactor.ProcessEvents()
        if self.closed or self._shown is None:
            return
        if self._dirty or self._sheet_now() != self._sheet:
            self._cut(self._shown)
            self._draw(fine=False)
        elif self._coarse and not self._shown.state.heading:
            self._draw(fine=True)

    def put_in(self, scene: Scene) -> None:
        """Show other casts in place of those that are in the window."""
        if scene is self._scene:
            return
        self._plotter.subplot(1, 0)
        renderer = self._plotter.renderer
        for piece in self._pieces:
            renderer.RemoveActor(piece.actor)
        for number in self._numbers:
            renderer.RemoveActor(number.actor)
        self._scene, self._fresh = scene, True
        self._closed = stage.closed_casts(scene)
        self._pieces = [
            _Piece(
                part, stage.add_part(self._plotter, unpainted(part) if len(part.tooth) else part)
            )
            for part in scene.parts
        ]
        self._numbers = list(tooth_numbers(scene))
        for number in self._numbers:
            renderer.AddActor(number.actor)

    def show(self, shown: Shown) -> None:
        """Draw a moment."""
        before, self._shown = self._shown, shown
        state = shown.state
        if state.look and state.looks != self._looks:
            self._look(state.look)
        self._looks = state.looks
        repaint = before is None or shown.near is not before.near or self._fresh
        self._fresh = False
        for piece in self._pieces:
            self._stand(piece, shown, repaint)
        for name, actors in self._marks.items():
            marks = shapes(name, getattr(shown.marks, name))
            for actor in actors:
                actor.mapper.dataset = marks
                actor.prop.color = shown.marks.colour
        self._list.SetVisibility(state.help)
        self._cut(shown)
        self._draw(fine=not state.heading)

    def pixels(self) -> NDArray[np.uint8]:
        """Return what the window shows, shape (height, width, 3)."""
        self._smooth(fine=True)
        return stage.pixels_of(self._plotter)

    def close(self) -> None:
        """Give the window up."""
        self._plotter.close()

    def _listen(self) -> None:
        """Let keys be collected, and nothing else be done with them."""
        self._interactor = self._plotter.iren.interactor
        for event in ("KeyPressEvent", "CharEvent"):
            self._interactor.RemoveObservers(event)
        self._style = vtkInteractorStyleTrackballCamera()
        self._style.AddObserver("CharEvent", lambda *_: None)
        self._interactor.SetInteractorStyle(self._style)
        self._interactor.AddObserver("KeyPressEvent", self._key)
        self._interactor.AddObserver("ExitEvent", self._exit)
        # Moves of the mouse that came meanwhile are drawn at once, however long drawing takes.
        self._interactor.EnableRenderOff()
        self._interactor.AddObserver("RenderEvent", self._changed)

    def _key(self, *_: Any) -> None:
        name = self._interactor.GetKeySym() or ""
        if name.endswith(_HELD):
            return
        name = name.lower() if len(name) == 1 else name
        self.keys.append(Key(name, bool(self._interactor.GetShiftKey())))

    def _exit(self, *_: Any) -> None:
        self.closed = True

    def _changed(self, *_: Any) -> None:
        self._dirty = True

    @property
    def _towards(self) -> Floats:
        self._plotter.subplot(1, 0)
        return np.array(self._plotter.camera.direction)

    def _picture(self, row: int) -> vtkActor2D:
        """Return a place for pixels in one row of the window."""
        self._plotter.subplot(row, 0)
        mapper = vtkImageMapper()
        mapper.SetColorWindow(255.0)
        mapper.SetColorLevel(127.5)
        mapper.SetInputData(image_of(Image.new("RGB", (1, 1), colours.PAPER)))
        actor = vtkActor2D()
        actor.SetMapper(mapper)
        self._plotter.renderer.AddViewProp(actor)
        self._plotter.renderer.SetInteractive(row == 1)
        return actor

    def _mark(self) -> tuple[pyvista.Actor, pyvista.Actor]:
        """Return what draws marks: faint over what hides them, and plain where they are seen."""
        behind, plain = self._over("#000000"), self._over("#000000")
        behind.prop.opacity = _FAINT
        offset = plain.mapper.SetRelativeCoincidentTopologyPolygonOffsetParameters
        offset(0.0, 0.0)
        return behind, plain

    def _over(self, colour: str, breadth: float = 1.0) -> pyvista.Actor:
        """Return an actor without anything yet, that is drawn over the casts."""
        actor = self._plotter.add_mesh(
            pyvista.Sphere(), color=colour, line_width=breadth, lighting=False, render=False
        )
        actor.mapper.SetResolveCoincidentTopologyToPolygonOffset()
        actor.mapper.SetRelativeCoincidentTopologyPolygonOffsetParameters(0.0, _IN_FRONT)
        actor.mapper.SetRelativeCoincidentTopologyLineOffsetParameters(0.0, _IN_FRONT)
        actor.mapper.dataset = pyvista.PolyData()
        return actor

    def _look(self, look: str) -> None:
        """Look from somewhere, so that the casts fill the window."""
        assert self._scene is not None
        self._plotter.subplot(1, 0)
        (one,) = shot_views(self._scene, (look,), np.eye(4)[None])
        width, height = self.size
        higher = one.view.width_mm * height * _ROWS[1] / width
        view = replace(one.view, height_mm=max(one.view.height_mm, higher))
        stage.look(self._plotter, view)
        self._looked_towards = self._towards

    def _stand(self, piece: _Piece, shown: Shown, repaint: bool) -> None:
        """Put a part where it belongs, as solid and in the colours that are asked for."""
        part, actor = piece.part, piece.actor
        how = getattr(shown.state, part.cast)
        actor.SetVisibility(how != "away")
        actor.prop.opacity = _CLEAR if how == "clear" else 1.0
        whole = how == "solid" and not shown.state.plane and part.cast in self._closed
        stage.hide_far_side(actor, whole)
        if part.cast == "lower":
            actor.user_matrix = shown.move
        if repaint and len(part.tooth):
            near = np.full(int(part.vertex_of.max()) + 1, np.inf)
            if shown.near is not None:
                near = shown.near.upper_mm if part.cast == "upper" else shown.near.lower_mm
            stage.paint(actor, part, near, shown.limit_mm)

    def _cut(self, shown: Shown) -> None:
        """Cut the casts, on the side of the eye, and put numbers before what is left."""
        towards = self._towards
        cut = cut_of(shown.state, towards)
        for number in self._numbers:
            shown_too = shown.state.numbers and getattr(shown.state, number.cast) == "solid"
            number.actor.SetVisibility(shown_too)
            if shown_too:
                move = shown.move if number.cast == "lower" else np.eye(4)
                place_number(number, towards, move, self.size[1], cut)
        told = None if cut is None else (cut.place.tobytes(), cut.away.tobytes())
        key = told, shown.move.tobytes(), shown.state.upper, shown.state.lower, id(self._scene)
        if key == self._cut_as:
            return
        self._cut_as = key
        for piece in self._pieces:
            clip(piece.actor, cut)
        for mark in chain.from_iterable(self._marks.values()):
            clip(mark, cut and cut.nearer(_NEAR_MM))
        for cast, actor in self._lines.items():
            if cut is None or getattr(shown.state, cast) == "away":
                actor.mapper.dataset = pyvista.PolyData()
                continue
            move = shown.move if cast == "lower" else np.eye(4)
            own = [one.actor.mapper.dataset for one in self._pieces if one.part.cast == cast]
            actor.mapper.dataset = outline(own, cut, move)
            actor.user_matrix = move

    def _sheet_now(self) -> Sheet:
        """Return what is to stand around the casts as the window is now."""
        assert self._shown is not None
        self._plotter.subplot(1, 0)
        size = self.size
        per_mm = size[1] * _ROWS[1] / (2.0 * self._plotter.camera.parallel_scale)
        limit_mm = None if self._shown.near is None else self._shown.limit_mm
        return Sheet(self._shown.words, size, per_mm, limit_mm)

    def _draw(self, fine: bool) -> None:
        """Draw everything; what moves is drawn with rough edges, in less time."""
        sheet = self._sheet_now()
        if sheet != self._sheet:
            self._above.GetMapper().SetInputData(image_of(above(sheet)))
            self._below.GetMapper().SetInputData(image_of(below(sheet)))
            listed = keys(sheet.size)
            self._list.GetMapper().SetInputData(image_of(listed))
            middle = round(_ROWS[1] * sheet.size[1])
            self._list.SetPosition(
                (sheet.size[0] - listed.width) // 2, (middle - listed.height) // 2
            )
            self._sheet = sheet
        self._plotter.subplot(1, 0)
        self._plotter.renderer.ResetCameraClippingRange()
        self._smooth(fine)
        self._plotter.render_window.Render()
        self._dirty, self._coarse = False, not fine

    def _smooth(self, fine: bool) -> None:
        self._plotter.subplot(1, 0)
        self._plotter.renderer.SetUseFXAA(fine)
