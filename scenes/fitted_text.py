"""Words drawn into a picture of pixels: in smaller letters where they have little room."""

from functools import cache
from pathlib import Path

import matplotlib
import numpy as np
from PIL import ImageDraw, ImageFont


def write(
    draw: ImageDraw.ImageDraw,
    place: tuple[float, float],
    text: str,
    size: float,
    colour: str,
    anchor: str = "la",
    bold: bool = False,
    room: float = np.inf,
) -> None:
    """Write words; where they are wider than the room they have, in smaller letters."""
    wide = draw.textlength(text, _font(round(size), bold))
    fitting = int(size * room / wide) if wide > room else round(size)
    draw.text(place, text, fill=colour, font=_font(fitting, bold), anchor=anchor)


@cache
def _font(size: int, bold: bool) -> ImageFont.FreeTypeFont:
    """Return letters in some size, pixels; they come with the library that draws charts."""
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return ImageFont.truetype(str(Path(matplotlib.get_data_path()) / "fonts" / "ttf" / name), size)
