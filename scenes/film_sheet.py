"""Pictures of a film: the panels of a moment with what is written above and below them."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from PIL import Image, ImageDraw

from kinematics.conventions import Floats
from scenes import colours, drawing2d
from scenes.film_marks import (
    BORDER_POINT,
    MARK,
    all_places,
    behind_others,
    draw_marks,
    draw_sign,
    drawn_lines,
)
from scenes.film_shot import Moment, MomentMarks, Shot, ShotView
from scenes.film_stage import Drawn, FilmStage
from scenes.fitted_text import text_width, write
from scenes.gap_bar import BAR_WORDS, BESIDE, gap_bar
from scenes.gap_colours import still
from scenes.opengl_probe import probe
from scenes.scene import Frame, Gaps
from scenes.stage import EYE_MM

#: Parts of the height of a picture: letters, and what is above and below the panels.
_TITLE, _TEXT, _SMALL = 0.036, 0.028, 0.022
_ABOVE, _BELOW = 0.155, 0.115
_MARGIN: Final = 0.02
_SCALE_MM: Final = 10.0
#: Share of the breadth that the name of the movement may take; the rest is for the travel.
_HEAD: Final = 0.72
_BAR: Final = (0.24, 0.026)
_BAR_RISE: Final = 0.062
#: How high what marks mean stands.
_KEYS_UP: Final = 0.06


def pictures(shot: Shot, moments: Sequence[Moment]) -> list[bytes]:
    """Return moments of a film as red, green and blue, row by row.

    Top-level and without anything kept, so that a process of its own can be asked for it.
    """
    width, height = shot.size
    panel = width // len(shot.views), round(height * (1.0 - _ABOVE - _BELOW))
    ground, tracks = _ground(shot, panel), _tracks(shot, panel)
    made = []
    stage = FilmStage(shot, panel) if probe().window is not None else None
    try:
        for moment in moments:
            drawn = _simplified(shot, moment, panel) if stage is None else stage.drawn(moment)
            image = ground.copy()
            image.paste(Image.fromarray(drawn.pixels), (0, round(_ABOVE * height)))
            if moment.point is not None:
                image.paste(tracks, (0, 0), tracks)
                _point(image, shot, moment.point, panel)
            _mark(image, shot, moment.marks, drawn.depth_mm, panel)
            _write(image, shot, moment, panel)
            _explain(image, shot, moment.marks)
            made.append(image.tobytes())
    finally:
        if stage is not None:
            stage.close()
    return made


def _simplified(shot: Shot, moment: Moment, panel: tuple[int, int]) -> Drawn:
    """Return the panels by the painter's method, which knows of no depth: nothing is behind."""
    gaps = Gaps(moment.upper_mm, moment.lower_mm, shot.limit_mm)
    scene = still(shot.scene, Frame(moment.move, gaps))
    found = []
    for one in shot.views:
        parts = tuple(part for part in scene.parts if part.cast in one.casts)
        per_mm = _per_mm(one, panel)
        drawing = Image.fromarray(drawing2d.render(type(scene)(one.view, parts), per_mm))
        sheet = Image.new("RGB", panel, colours.PAPER)
        sheet.paste(drawing, ((panel[0] - drawing.width) // 2, (panel[1] - drawing.height) // 2))
        found.append(np.asarray(sheet))
    pixels = np.concatenate(found, axis=1)
    return Drawn(pixels, np.full(pixels.shape[:2], np.inf))


def _mark(
    image: Image.Image, shot: Shot, marks: MomentMarks, depth_mm: Floats, panel: tuple[int, int]
) -> None:
    """Draw where teeth touch, in every panel."""
    places = all_places(marks)
    for column, one in enumerate(shot.views):
        own = slice(column * panel[0], (column + 1) * panel[0])
        at = _in_panel(one, panel, places)
        behind = behind_others(depth_mm[:, own], EYE_MM + one.view.depth(places), at)
        draw_marks(image, marks, _corner(shot, column, panel) + at, behind)


def _tracks(shot: Shot, panel: tuple[int, int]) -> Image.Image:
    """Return the tracks as all panels of both casts show them, on nothing."""
    lines = [
        _corner(shot, column, panel) + _in_panel(one, panel, line)
        for column, one in enumerate(shot.views)
        if len(one.casts) > 1
        for line in shot.tracks
    ]
    return drawn_lines(shot.size, lines)


def _point(image: Image.Image, shot: Shot, point: Floats, panel: tuple[int, int]) -> None:
    """Draw where the point of the tracks is."""
    for column, one in enumerate(shot.views):
        if len(one.casts) > 1:
            at = _corner(shot, column, panel) + _in_panel(one, panel, point[None])[0]
            draw_sign(image, BORDER_POINT, "filled", (float(at[0]), float(at[1])))


def _corner(shot: Shot, column: int, panel: tuple[int, int]) -> Floats:
    """Return where the left upper corner of a panel stands in the picture."""
    return np.array([column * panel[0], round(_ABOVE * shot.size[1])], dtype=np.float64)


def _in_panel(one: ShotView, panel: tuple[int, int], places: Floats) -> Floats:
    """Return where places (k, 3) are seen, pixels to the right and down in their panel."""
    seen = one.view.project(places) * (1.0, -1.0) * _per_mm(one, panel)
    return np.asarray(seen + 0.5 * np.array(panel))


def _per_mm(one: ShotView, panel: tuple[int, int]) -> float:
    """Return how many pixels a millimetre has in a panel."""
    return min(panel[0] / one.view.width_mm, panel[1] / one.view.height_mm)


def _explain(image: Image.Image, shot: Shot, marks: MomentMarks) -> None:
    """Say what the marks mean, beside the colours."""
    width, height = shot.size
    size, line = 0.85 * _SMALL * height, height - round(_KEYS_UP * height)
    draw = ImageDraw.Draw(image)
    words = [text for _, text in marks.keys]
    gap, sign = 1.1 * size, 5.0 * MARK * height
    wide = sum(text_width(draw, text, size) + sign + gap for text in words)
    beside = BESIDE + text_width(draw, BAR_WORDS, 0.8 * _SMALL * height)
    left = _MARGIN * height + _BAR[0] * width + beside + gap
    right = width - _MARGIN * height
    shrunk = min(1.0, (right - left) / wide) if words else 1.0
    at = right - wide * shrunk
    for look, text in marks.keys:
        draw_sign(image, marks.style, look, (at + 0.5 * sign * shrunk, line))
        at += sign * shrunk
        write(draw, (at, line), text, size * shrunk, colours.INK, "lm")
        at += text_width(draw, text, size * shrunk) + gap * shrunk


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
        per_mm = _per_mm(one, panel)
        right = (column + 1) * panel[0] - margin
        top = round((1.0 - _BELOW) * height) - margin
        draw.line((right - _SCALE_MM * per_mm, top, right, top), fill=colours.INK, width=3)
        write(draw, (right, top - 4), f"{_SCALE_MM:g} mm", 0.8 * _SMALL * height, colours.INK, "rd")
