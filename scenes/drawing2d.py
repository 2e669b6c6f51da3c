"""Writer without OpenGL: draws the parts of a scene by the painter's method.

Farther triangles are painted first. Simplified: flat shading, no gums and bases, and triangles
that pass through each other may be painted in the wrong order.
"""

import io
from typing import Final

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.colors import to_rgb
from matplotlib.figure import Figure
from matplotlib.image import imread
from numpy.typing import NDArray

from kinematics.conventions import Floats
from scenes import colours
from scenes.scene import Part, Scene, View

#: Where the light stands: right, up and towards the viewer.
_LIGHT: Final = np.array([-0.45, 0.55, 0.7])
_MM_PER_INCH: Final = 25.4


def render(scene: Scene, pixels_per_mm: float) -> NDArray[np.uint8]:
    """Draw the parts of a scene on white.

    Returns
    -------
    ndarray, shape (height, width, 3)
        Red, green, blue.
    """
    view = scene.view
    size = (view.width_mm / _MM_PER_INCH, view.height_mm / _MM_PER_INCH)
    paper = Figure(figsize=size, dpi=_MM_PER_INCH * pixels_per_mm, facecolor=colours.PAPER)
    axes = paper.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(-0.5 * view.width_mm, 0.5 * view.width_mm)
    axes.set_ylim(-0.5 * view.height_mm, 0.5 * view.height_mm)
    teeth = [part for part in scene.parts if not part.around_teeth]
    outlines, shades, depths = zip(*(_triangles(part, view) for part in teeth), strict=True)
    order = np.argsort(-np.concatenate(depths), kind="stable")
    paint = np.concatenate(shades)[order]
    axes.add_collection(
        PolyCollection(
            list(np.concatenate(outlines)[order]),
            facecolors=paint,
            edgecolors=paint,
            linewidths=0.3,
        )
    )
    file = io.BytesIO()
    paper.savefig(file, format="png", dpi=_MM_PER_INCH * pixels_per_mm, metadata={"Software": None})
    file.seek(0)
    return (255.0 * imread(file, format="png")[:, :, :3]).round().astype(np.uint8)


def _triangles(part: Part, view: View) -> tuple[Floats, Floats, Floats]:
    """Return outlines (m, 3, 2), colours (m, 3) and depths (m,) of the triangles one can see."""
    corners = part.vertices[part.faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(normals, axis=1)
    seen = (normals @ view.towards < 0.0) & (size > 0.0)
    corners, normals = corners[seen], normals[seen] / size[seen, None]
    light = np.stack([view.right, view.up, -view.towards], axis=1) @ _LIGHT
    strength = 0.38 + 0.62 * np.clip(normals @ light / np.linalg.norm(_LIGHT), 0.0, 1.0)
    colour = np.array(to_rgb(colours.SURFACE[part.role]))
    if len(part.paint):
        colour = part.paint[part.faces[seen]].mean(axis=1)
    paint = np.clip(strength[:, None] * colour, 0.0, 1.0)
    outlines = view.project(corners.reshape(-1, 3)).reshape(-1, 3, 2)
    depths = view.depth(corners.reshape(-1, 3)).reshape(-1, 3).mean(axis=1)
    return outlines, paint, depths
