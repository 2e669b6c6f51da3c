"""Words drawn into a picture of pixels: in smaller letters where they have little room."""

from functools import cache
from pathlib import Path
from typing import Final

import matplotlib
import numpy as np
from PIL import ImageDraw, ImageFont

#: Letters in which words are never parted, pixels.
_SMALLEST: Final = 6.0


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
    fitting = round(size)
    while (wide := text_width(draw, text, fitting, bold)) > room and fitting > 1:
        fitting = max(1, min(int(fitting * room / wide), fitting - 1))
    draw.text(place, text, fill=colour, font=_font(fitting, bold), anchor=anchor)


def text_width(draw: ImageDraw.ImageDraw, text: str, size: float, bold: bool = False) -> float:
    """Return how wide words are in letters of some height, pixels."""
    return draw.textlength(text, _font(round(size), bold))


def write_wrapped(
    draw: ImageDraw.ImageDraw,
    place: tuple[float, float],
    text: str,
    size: float,
    colour: str,
    room: float,
    lines: int,
) -> None:
    """Write words on some lines at most; in smaller letters where they take more."""
    words, letters = text.split(), size
    while len(rows := _rows(draw, words, letters, room)) > lines:
        letters -= 1.0
    for number, row in enumerate(rows):
        at = place[0], place[1] + 1.3 * letters * number
        write(draw, at, row, letters, colour, room=room)


def _rows(draw: ImageDraw.ImageDraw, words: list[str], size: float, room: float) -> list[str]:
    """Return words in rows that have room, or, in the smallest letters, in one."""
    rows: list[str] = []
    for word in words:
        longer = f"{rows[-1]} {word}" if rows else word
        fits = text_width(draw, longer, size) <= room
        rows[-1:] = [longer] if fits or size <= _SMALLEST or not rows else [rows[-1], word]
    return rows


@cache
def _font(size: int, bold: bool) -> ImageFont.FreeTypeFont:
    """Return letters in some size, pixels; they come with the library that draws charts."""
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return ImageFont.truetype(str(Path(matplotlib.get_data_path()) / "fonts" / "ttf" / name), size)
