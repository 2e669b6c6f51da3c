"""What stands above and below the casts in the window, and the list of keys, as pixels."""

from dataclasses import dataclass
from typing import Final

from PIL import Image, ImageDraw

from scenes import colours
from scenes.fitted_text import write, write_wrapped
from scenes.gap_bar import gap_bar
from scenes.view_keys import HELP
from scenes.view_words import Words

#: Shares of the height of the window: what is above and below the casts.
ABOVE, BELOW = 0.165, 0.19
#: Share of the height of the window: letters.
_HEAD, _TEXT, _SMALL = 0.032, 0.0235, 0.02
_MARGIN: Final = 0.014
#: Share of the breadth: the name of the movement, and lines that have something beside them.
_HEAD_ROOM, _LINE_ROOM = 0.52, 0.66
_BAR: Final = (0.13, 0.02)
_SCALE_MM: Final = 10.0
#: Columns of the list of keys: how many groups of `HELP` stand in the first.
_FIRST_COLUMN: Final = 2
_TITLE_ROWS: Final = 1.4


@dataclass(frozen=True)
class Sheet:
    """What is drawn around the casts.

    Attributes
    ----------
    words : Words
        What is written.
    size : (int, int)
        Width and height of the window, pixels.
    per_mm : float
        Pixels to a millimetre of the casts.
    limit_mm : float or None
        Where the colours of gaps end; None where teeth have their own colours.
    """

    words: Words
    size: tuple[int, int]
    per_mm: float
    limit_mm: float | None


def above(sheet: Sheet) -> Image.Image:
    """Return what stands above the casts: title, movement, travel, what guides and touches."""
    image, draw, margin = _strip(sheet, ABOVE)
    words, (width, height) = sheet.words, sheet.size
    room = width - 2 * margin
    line = margin
    write(draw, (margin, line), words.title, _SMALL * height, colours.SOFT_INK, room=room)
    line += round(1.45 * _SMALL * height)
    write(
        draw, (margin, line), words.head, _HEAD * height, colours.INK, "la", True, _HEAD_ROOM * room
    )
    at = (width - margin, line)
    rest = (0.98 - _HEAD_ROOM) * room
    write(draw, at, words.travel, _HEAD * height, colours.INK, "ra", True, rest)
    line += round(1.5 * _HEAD * height)
    for text in (words.guides, words.touching):
        write(draw, (margin, line), text, _TEXT * height, colours.INK, room=room)
        line += round(1.4 * _TEXT * height)
    return image


def below(sheet: Sheet) -> Image.Image:
    """Return what stands below the casts: setting, what is seen, cut, message, scales."""
    image, draw, margin = _strip(sheet, BELOW)
    words, (width, height) = sheet.words, sheet.size
    room = width - 2 * margin
    line = margin
    write(draw, (margin, line), words.setting, _TEXT * height, colours.INK, "la", True, room)
    for text in (words.shown, words.cut):
        line += round(1.45 * _TEXT * height)
        write(draw, (margin, line), text, _TEXT * height, colours.INK, room=_LINE_ROOM * room)
    line += round(1.5 * _TEXT * height)
    write_wrapped(draw, (margin, line), words.message, _TEXT * height, colours.INK, room, 2)
    _scales(image, draw, sheet, margin + round(1.75 * _TEXT * height))
    return image


def _strip(sheet: Sheet, share: float) -> tuple[Image.Image, ImageDraw.ImageDraw, int]:
    """Return an empty strip as broad as the window, what draws in it, and its margin."""
    width, height = sheet.size
    image = Image.new("RGB", (width, round(share * height)), colours.PAPER)
    return image, ImageDraw.Draw(image), round(_MARGIN * height)


def _scales(image: Image.Image, draw: ImageDraw.ImageDraw, sheet: Sheet, top: int) -> None:
    """Draw how long 10 mm are and, where they are used, what the colours of gaps mean."""
    width, height = sheet.size
    letters = _SMALL * height
    right = width - round(_MARGIN * height)
    long = min(_SCALE_MM * sheet.per_mm, 0.3 * width)
    shown_mm = long / sheet.per_mm
    draw.line((right - long, top, right, top), fill=colours.INK, width=3)
    write(draw, (right, top + 5), f"{shown_mm:.3g} mm", letters, colours.INK, "ra")
    if sheet.limit_mm is not None:
        size = round(_BAR[0] * width), round(_BAR[1] * height)
        place = round(0.67 * width), top + round(1.3 * letters)
        gap_bar(image, place, size, 0.8 * letters, sheet.limit_mm)


def keys(size: tuple[int, int]) -> Image.Image:
    """Return the list of keys, for the middle of a window of some size."""
    width, height = round(0.94 * size[0]), round(0.9 * (1.0 - ABOVE - BELOW) * size[1])
    image = Image.new("RGB", (width, height), colours.PAPER)
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 0, width - 1, height - 1), outline=colours.INK, width=2)
    columns = HELP[:_FIRST_COLUMN], HELP[_FIRST_COLUMN:]
    rows = max(sum(_TITLE_ROWS + len(lines) for _, lines in column) for column in columns)
    row = height / (rows + 1.0)
    letters = min(0.62 * row, _TEXT * size[1])
    for number, column in enumerate(columns):
        left, line = (0.02 + 0.49 * number) * width, 0.5 * row
        for title, lines in column:
            write(draw, (left, line), title, letters, colours.INK, bold=True, room=0.46 * width)
            line += row
            for key, meaning in lines:
                write(draw, (left, line), key, letters, colours.INK, room=0.1 * width)
                at = left + 0.11 * width, line
                write(draw, at, meaning, letters, colours.INK, room=0.36 * width)
                line += row
            line += (_TITLE_ROWS - 1.0) * row
    return image
