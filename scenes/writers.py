"""Which writer draws a picture on this machine, and pictures as files."""

import io
from base64 import b64encode
from dataclasses import dataclass
from typing import Final

import numpy as np
from matplotlib.image import imsave
from numpy.typing import NDArray

from scenes import drawing2d, sheet_writer, stage
from scenes.drawing_orders import DrawnPicture
from scenes.opengl_probe import probe
from scenes.scene import Part, Scene, View
from scenes.sheet import Sheet, Words

#: Enough for print at true size: about 300 dots an inch.
PIXELS_PER_MM: Final = 12.0
_JPEG_QUALITY: Final = 88


@dataclass(frozen=True)
class Picture:
    """A drawn scene without its annotation.

    Attributes
    ----------
    pixels : ndarray, shape (height, width, 3)
        Red, green, blue.
    simplified : str
        One line saying what is missing for a full picture; empty for a full one.
    """

    pixels: NDArray[np.uint8]
    simplified: str


def picture(scene: Scene, pixels_per_mm: float = PIXELS_PER_MM) -> Picture:
    """Draw a scene in three dimensions where this machine can, else simplified."""
    drawing = probe()
    if drawing.window is None:
        return Picture(drawing2d.render(scene, pixels_per_mm), drawing.missing)
    return Picture(stage.render(scene, pixels_per_mm), "")


def drawn(scene: Scene) -> DrawnPicture:
    """Draw a scene for a page."""
    found = picture(scene)
    return DrawnPicture(jpeg_address(found.pixels), found.simplified)


def drawn_simplified(scene: Scene, reason: str) -> DrawnPicture:
    """Draw a scene for a page by the painter's method."""
    return DrawnPicture(jpeg_address(drawing2d.render(scene, PIXELS_PER_MM)), reason)


def get_ready() -> None:
    """Ask what this machine can draw, and draw a word and a speck: that loads what is slow."""
    sheet_writer.svg(Sheet(1.0, 1.0, (Words("10 mm", (0.5, 0.5)),)), "ready")
    corners = np.array([[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    speck = Part("gum", corners, np.array([[0, 1, 2]]))
    towards, up = np.array([0.0, 0.0, -1.0]), np.array([0.0, 1.0, 0.0])
    drawn(Scene(View("speck", towards, up, np.zeros(3), 4.0, 4.0), (speck,)))


def jpeg_address(pixels: NDArray[np.uint8]) -> str:
    """Return a picture without letters as a data address for a page."""
    file = io.BytesIO()
    imsave(file, pixels, format="jpeg", pil_kwargs={"quality": _JPEG_QUALITY, "optimize": True})
    return "data:image/jpeg;base64," + b64encode(file.getvalue()).decode("ascii")
