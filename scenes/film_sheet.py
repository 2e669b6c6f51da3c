"""Pictures of a film: the panels of a moment with what is written above and below them."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from scenes import colours, drawing2d
from scenes.film_shot import Moment, Shot
from scenes.film_stage import FilmStage
from scenes.fitted_text import write
from scenes.gap_bar import gap_bar
from scenes.gap_colours import still
from scenes.opengl_probe import probe
from scenes.scene import Frame, Gaps

#: Parts of the height of a picture: letters, and what is above and below the panels.
_TITLE, _TEXT, _SMALL = 0.036, 0.028, 0.022
_ABOVE, _BELOW = 0.155, 0.115
_MARGIN: Final = 0.02
_SCALE_MM: Final = 10.0
#: Share of the breadth that the name of the movement may take; the rest is for the travel.
_HEAD: Final = 0.72
_BAR: Final = (0.24, 0.026)
_BAR_RISE: Final = 0.062


def pictures(shot: Shot, moments: Sequence[Moment]) -> list[bytes]:
    """Return moments of a film as red, green and blue, row by row.

    Top-level and without anything kept, so that a process of its own can be asked for it.
    """
    width, height = shot.size
    panel = width // len(shot.views), round(height * (1.0 - _ABOVE - _BELOW))
    ground = _ground(shot, panel)
    drawn = []
    stage = FilmStage(shot, panel) if probe().window is not None else None
    try:
        for moment in moments:
            pixels = _simplified(shot, moment, panel) if stage is None else stage.drawn(moment)
            image = ground.copy()
            image.paste(Image.fromarray(pixels), (0, round(_ABOVE * height)))
            _write(image, shot, moment, panel)
            drawn.append(image.tobytes())
    finally:
        if stage is not None:
            stage.close()
    return drawn


def _simplified(shot: Shot, moment: Moment, panel: tuple[int, int]) -> NDArray[np.uint8]:
    """Return the panels by the painter's method."""
    gaps = Gaps(moment.upper_mm, moment.lower_mm, shot.limit_mm)
    scene = still(shot.scene, Frame(moment.move, gaps))
    found = []
    for one in shot.views:
        parts = tuple(part for part in scene.parts if part.cast in one.casts)
        per_mm = min(panel[0] / one.view.width_mm, panel[1] / one.view.height_mm)
        drawing = Image.fromarray(drawing2d.render(type(scene)(one.view, parts), per_mm))
        sheet = Image.new("RGB", panel, colours.PAPER)
        sheet.paste(drawing, ((panel[0] - drawing.width) // 2, (panel[1] - drawing.height) // 2))
        found.append(np.asarray(sheet))
    return np.concatenate(found, axis=1)


def _ground(shot: Shot, panel: tuple[int, int]) -> Image.Image:
    """Return what is the same in every picture: title, names of views, scales, foot."""
    width, height = shot.size
    image = Image.new("RGB", shot.size, colours.PAPER)
    draw = ImageDraw.Draw(image)
    margin = round(_MARGIN * height)
    room = width - 2 * margin
    write(draw, (margin, margin), shot.title, _SMALL * height, colours.SOFT_INK, room=room)
    bottom = height - round(_BELOW * height)
    for column, one in enumerate(shot.views):
        middle = (column + 0.5) * panel[0]
        write(draw, (middle, bottom + 4), one.view.name, _SMALL * height, colours.INK, "ma")
    place = margin, height - round(_BAR_RISE * height)
    bar = round(_BAR[0] * width), round(_BAR[1] * height)
    gap_bar(image, place, bar, 0.8 * _SMALL * height, shot.limit_mm)
    write(draw, (width - margin, height - margin), shot.foot, 0.8 * _SMALL * height,
          colours.SOFT_INK, "rd")  # fmt: skip
    return image


def _write(image: Image.Image, shot: Shot, moment: Moment, panel: tuple[int, int]) -> None:
    """Write what belongs to one moment over its panels."""
    width, height = shot.size
    draw = ImageDraw.Draw(image)
    margin = round(_MARGIN * height)
    line = margin + round(1.7 * _SMALL * height)
    room = width - 2 * margin
    write(draw, (margin, line), moment.head, _TITLE * height, colours.INK, bold=True,
          room=_HEAD * room)  # fmt: skip
    write(draw, (width - margin, line), moment.travel, _TITLE * height, colours.INK, "ra", True,
          (1.0 - _HEAD) * room)  # fmt: skip
    below = line + round(1.45 * _TITLE * height)
    write(draw, (margin, below), moment.told, _TEXT * height, colours.INK, room=room)
    for column, one in enumerate(shot.views):
        per_mm = min(panel[0] / one.view.width_mm, panel[1] / one.view.height_mm)
        right = (column + 1) * panel[0] - margin
        top = round((1.0 - _BELOW) * height) - margin
        draw.line((right - _SCALE_MM * per_mm, top, right, top), fill=colours.INK, width=3)
        write(draw, (right, top - 4), f"{_SCALE_MM:g} mm", 0.8 * _SMALL * height, colours.INK, "rd")
