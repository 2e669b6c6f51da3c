"""Writer in three dimensions: draws the parts of a scene off-screen with PyVista.

Call only where `opengl_probe.probe` found a window: without OpenGL this ends the process.
"""

from collections.abc import Callable
from typing import Any, Final, NamedTuple

import numpy as np
import pyvista
from numpy.typing import NDArray
from vtkmodules.vtkRenderingCore import vtkWindowToImageFilter

from kinematics.conventions import Floats
from scenes import colours
from scenes.gap_colours import paint_of
from scenes.scene import Part, Scene, View

# Software rendering takes 2.5 to 3 times as long with the default of 8 samples.
pyvista.global_theme.multi_samples = 1

#: Name of the colours of vertices in a surface.
PAINT: Final = "paint"
#: Light that turns with the view: right, up and towards the viewer, and its strength.
_LIGHTS: Final = (((-0.9, 0.1, 0.8), 0.82), ((0.9, -0.3, 0.7), 0.31), ((0.0, -0.9, 0.5), 0.21))


class _Shine(NamedTuple):
    """How a surface answers to light: from everywhere, from the lights, as a mirror."""

    ambient: float
    diffuse: float
    specular: float


_TEETH: Final = _Shine(0.2, 0.95, 0.18)
#: Gums and bases stay pale in the shade, so that teeth and marks stand out and print saves toner.
_AROUND_TEETH: Final = _Shine(0.45, 0.62, 0.05)
#: Distance of the eye; only the clipping depends on it in a parallel projection.
EYE_MM: Final = 400.0


def render(scene: Scene, pixels_per_mm: float) -> NDArray[np.uint8]:
    """Draw the parts of a scene on white.

    Returns
    -------
    ndarray, shape (height, width, 3)
        Red, green, blue.
    """
    view = scene.view
    size = [2 * round(side * pixels_per_mm) for side in (view.width_mm, view.height_mm)]
    plotter = pyvista.Plotter(off_screen=True, window_size=size, lighting="none")
    plotter.set_background(colours.PAPER)
    for part in scene.parts:
        add_part(plotter, part)
    light(plotter, view)
    look(plotter, view)
    picture = np.array(plotter.screenshot(return_img=True), dtype=np.uint8)[:, :, :3]
    plotter.close()
    return _halved(picture)


def _halved(pixels: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return the means of two by two pixels: smooth outlines.

    Takes two thirds of the time of the library's own way, which draws sixteen pixels for one.
    """
    rows = pixels[0::2].astype(np.uint16) + pixels[1::2]
    return ((rows[:, 0::2] + rows[:, 1::2] + 2) // 4).astype(np.uint8)


def add_part(plotter: pyvista.Plotter, part: Part) -> pyvista.Actor:
    """Put a part into a window, in its colours; paint lies in the point data of that name."""
    shine = _AROUND_TEETH if part.around_teeth else _TEETH
    surface = pyvista.PolyData.from_regular_faces(part.vertices, part.faces)
    if len(part.paint):
        surface.point_data[PAINT] = part.paint
    return plotter.add_mesh(
        surface,
        color=colours.SURFACE[part.role],
        scalars=PAINT if len(part.paint) else None,
        rgb=bool(len(part.paint)),
        smooth_shading=True,
        ambient=shine.ambient,
        diffuse=shine.diffuse,
        specular=shine.specular,
        specular_power=25.0,
    )


def closed_casts(scene: Scene) -> set[str]:
    """Return which casts have no open edge to look into: those with a base of stone."""
    return {part.cast for part in scene.parts if part.role == "stone"}


def hide_far_side(actor: pyvista.Actor, hidden: bool) -> None:
    """Leave out what is seen from behind; software drawing takes half as long again with it."""
    actor.prop.culling = "back" if hidden else "none"


def paint(actor: pyvista.Actor, part: Part, near_mm: Floats, limit_mm: float) -> None:
    """Colour a part that was put in with paint by its distances; see `paint_of`."""
    actor.mapper.dataset.point_data[PAINT][:] = paint_of(part, near_mm, limit_mm)


def light(plotter: pyvista.Plotter, view: View) -> None:
    """Light the panel of a window that is at hand from where its view has the lights."""
    for (right, up, near), intensity in _LIGHTS:
        place = view.centre + EYE_MM * (right * view.right + up * view.up - near * view.towards)
        light = pyvista.Light(
            position=tuple(place), focal_point=tuple(view.centre), intensity=intensity
        )
        light.positional = False
        plotter.renderer.add_light(light)  # of this panel; the plotter would light them all


def light_from_the_eye(plotter: pyvista.Plotter) -> None:
    """Light the panel of a window that is at hand from the same side however it is turned."""
    for place, intensity in _LIGHTS:
        light = pyvista.Light(position=place, intensity=intensity, light_type="camera light")
        light.positional = False
        plotter.renderer.add_light(light)


def look(plotter: pyvista.Plotter, view: View) -> None:
    """Look at what is in a window; the height of the view is that of the window."""
    camera = plotter.camera
    camera.position = tuple(view.centre - EYE_MM * view.towards)
    camera.focal_point = tuple(view.centre)
    camera.up = tuple(view.up)
    camera.parallel_projection = True
    camera.parallel_scale = 0.5 * view.height_mm
    plotter.renderer.ResetCameraClippingRange()


def pixels_of(plotter: pyvista.Plotter) -> NDArray[np.uint8]:
    """Draw a window anew and return it: red, green, blue, shape (height, width, 3)."""
    # Draws as it reads; to ask the plotter for both would draw everything twice.
    return _read(plotter, vtkWindowToImageFilter.SetInputBufferTypeToRGB, redraw=True)


def depth_shares_of(plotter: pyvista.Plotter) -> Floats:
    """Return how deep what was drawn last lies, shape (height, width).

    From 0 at the near to 1 at the far end of what is drawn.
    """
    kind = vtkWindowToImageFilter.SetInputBufferTypeToZBuffer
    return np.asarray(_read(plotter, kind, redraw=False)[..., 0], dtype=np.float64)


def _read(
    plotter: pyvista.Plotter, kind: Callable[[vtkWindowToImageFilter], None], redraw: bool
) -> NDArray[Any]:
    """Return what a window holds, from top to bottom."""
    reading = vtkWindowToImageFilter()
    reading.SetInput(plotter.render_window)
    kind(reading)
    reading.SetShouldRerender(redraw)
    reading.ReadFrontBufferOff()
    reading.Update()
    image = pyvista.wrap(reading.GetOutput())
    width, height, _ = image.dimensions
    return np.array(image.active_scalars).reshape(height, width, -1)[::-1].copy()
