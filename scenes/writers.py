"""Which writer draws a picture on this machine, and pictures as files."""

import io
from base64 import b64encode
from dataclasses import dataclass
from typing import Final

import numpy as np
from matplotlib.image import imsave
from numpy.typing import NDArray

from scenes import drawing2d, stage
from scenes.opengl_probe import probe
from scenes.scene import Scene

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


def jpeg_address(pixels: NDArray[np.uint8]) -> str:
    """Return a picture without letters as a data address for a page."""
    file = io.BytesIO()
    imsave(file, pixels, format="jpeg", pil_kwargs={"quality": _JPEG_QUALITY, "optimize": True})
    return "data:image/jpeg;base64," + b64encode(file.getvalue()).decode("ascii")
