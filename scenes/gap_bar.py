"""A bar of the colours of gaps with what they mean, drawn into a picture of pixels."""

from typing import Final

import numpy as np
from PIL import Image, ImageDraw

from scenes import colours
from scenes.fitted_text import write
from scenes.gap_colours import shades

#: What the numbers on the bar are, and how far beside it that stands, pixels.
BAR_WORDS: Final = "mm to the other arch"
BESIDE: Final = 12


def gap_bar(
    image: Image.Image,
    place: tuple[int, int],
    size: tuple[int, int],
    letters: float,
    limit_mm: float,
) -> None:
    """Draw which colour means which distance.

    Parameters
    ----------
    image : Image
        Is drawn into.
    place, size : (int, int)
        Upper left corner of the bar, and its width and height, pixels.
    letters : float
        Height of letters, pixels.
    limit_mm : float
        Distance at which the colours end.
    """
    draw = ImageDraw.Draw(image)
    left, top = place
    share = np.linspace(0.0, 1.0, size[0])
    row = np.round(255.0 * shades(share, "lower tooth")).astype(np.uint8)
    image.paste(Image.fromarray(np.repeat(row[None], size[1], axis=0)), place)
    draw.rectangle((left, top, left + size[0], top + size[1]), outline=colours.SOFT_INK)
    for part in (0.0, 0.5, 1.0):
        at = left + part * size[0], top + size[1] + 2
        write(draw, at, f"{part * limit_mm:g}", letters, colours.INK, "ma")
    beside = left + size[0] + BESIDE, top + 0.5 * size[1]
    write(draw, beside, BAR_WORDS, letters, colours.INK, "lm")
