"""Marks of contacts in pictures of a film: what they mean is told by form, not by colour alone."""

from collections.abc import Iterator, Sequence
from functools import cache
from typing import Final

import numpy as np
from matplotlib.markers import MarkerStyle
from PIL import Image, ImageDraw

from kinematics.conventions import Bools, Floats
from scenes import colours
from scenes.colours import Style
from scenes.film_shot import MarkLook, MomentMarks

#: Half the breadth of a mark, of the height of a picture.
MARK: Final = 0.0085
#: How the point looks whose way is drawn.
BORDER_POINT: Final = Style(colours.INK, "o", "-")
#: Breadth of its way and of the rim around that, of the height of a picture.
_WAY, _WAY_RIM = 0.0028, 0.0065
#: Nearer behind a surface than this a mark lies on it, mm.
_OWN_SURFACE_MM: Final = 0.6
#: Shapes made of strokes alone, and what is drawn for them.
_BODIES: Final = {"x": "X"}
#: Marks are drawn so much larger and then made small, for smooth outlines.
_FINE: Final = 8
_SMOOTH: Final = 4
#: Parts of half a breadth: rims, the ring of a hollow mark, the outline of a hidden one, strokes.
_PAPER_RIM, _INK_RIM, _RING, _HALO, _THIN = 0.85, 0.5, 0.42, 0.6, 0.26
_STROKE_FROM, _STROKE_TO, _STROKE = 1.9, 2.9, 0.4
_DASHES, _DASH_POINTS = 9, 5
#: Strokes are that much smaller beside the words that explain them.
_SMALLER: Final = 0.6


def draw_marks(image: Image.Image, marks: MomentMarks, places: Floats, behind: Bools) -> None:
    """Draw the marks of one panel.

    Parameters
    ----------
    image : Image
        The picture.
    marks : MomentMarks
        What is marked.
    places : ndarray, shape (k, 2)
        Where in the picture the marks stand, pixels; the last one is the first contact, if any.
    behind : ndarray, shape (k,)
        Whether something lies before them.
    """
    half = MARK * image.height
    looks: list[MarkLook] = ["hollow" if away else "filled" for away in marks.nonworking]
    order = np.argsort(~behind[: len(looks)], kind="stable")  # what is hidden lies below
    for i in order:
        _put(image, marks.style, "hidden" if behind[i] else looks[i], half, places[i])
    if marks.first is not None:
        _put(image, marks.style, "strokes", half, places[-1])


def all_places(marks: MomentMarks) -> Floats:
    """Return the places of all marks (k, 3), the first contact last."""
    if marks.first is None:
        return marks.places
    return np.concatenate([marks.places, marks.first[None]])


def behind_others(depth_mm: Floats, place_mm: Floats, pixels: Floats) -> Bools:
    """Return which places lie behind what is seen.

    Parameters
    ----------
    depth_mm : ndarray, shape (height, width)
        Of what is seen.
    place_mm : ndarray, shape (k,)
        Of the places.
    pixels : ndarray, shape (k, 2)
        Where they are, to the right and down.
    """
    height, width = depth_mm.shape
    column = np.clip(np.round(pixels[:, 0]).astype(int), 0, width - 1)
    row = np.clip(np.round(pixels[:, 1]).astype(int), 0, height - 1)
    return np.asarray(depth_mm[row, column] < place_mm - _OWN_SURFACE_MM)


def draw_sign(image: Image.Image, style: Style, look: MarkLook, at: tuple[float, float]) -> None:
    """Draw one mark beside the words that explain it."""
    half = MARK * image.height * (_SMALLER if look == "strokes" else 1.0)
    _put(image, style, look, half, np.array(at))


def drawn_lines(size: tuple[int, int], lines: Sequence[Floats]) -> Image.Image:
    """Return lines (k, 2), in pixels, on nothing, dark with a light rim."""
    if not lines:
        return Image.new("RGBA", size, (0, 0, 0, 0))
    large = Image.new("RGBA", (size[0] * _SMOOTH, size[1] * _SMOOTH), (0, 0, 0, 0))
    draw = ImageDraw.Draw(large)
    for colour, wide in ((colours.PAPER, _WAY_RIM), (colours.INK, _WAY)):
        for line in lines:
            corners = [(float(x), float(y)) for x, y in line * _SMOOTH]
            draw.line(corners, fill=colour, width=round(wide * size[1] * _SMOOTH), joint="curve")
    return large.resize(size, Image.Resampling.BOX)


def _put(image: Image.Image, style: Style, look: MarkLook, half: float, at: Floats) -> None:
    sign = _sign(style, look, half)
    left, top = np.round(at - 0.5 * sign.width).astype(int)
    image.paste(sign, (int(left), int(top)), sign)


@cache
def _sign(style: Style, look: MarkLook, half: float) -> Image.Image:
    """Return a mark on nothing, its middle in the middle."""
    unit = half * _FINE
    side = 2 * (round(half * (_STROKE_TO + 1.0)) + 1)
    large = Image.new("RGBA", (side * _FINE, side * _FINE), (0, 0, 0, 0))
    draw = ImageDraw.Draw(large)
    if look == "track":
        middle, ends = 0.5 * side * _FINE, (0.22 * side * _FINE, 0.78 * side * _FINE)
        draw.line((ends[0], middle, ends[1], middle), fill=colours.INK, width=round(0.35 * unit))
    elif look == "strokes":
        _strokes(draw, 0.5 * side * _FINE, unit)
    else:
        corners = _corners(style) * unit + 0.5 * side * _FINE
        _shape(draw, corners, style, look, unit)
    return large.resize((side, side), Image.Resampling.BOX)


def _corners(style: Style) -> Floats:
    """Return the corners of a shape (k, 2), half a breadth long, down in the picture."""
    marker = MarkerStyle(_BODIES.get(style.marker, style.marker))
    path = marker.get_path().transformed(marker.get_transform())
    corners = np.asarray(path.to_polygons(closed_only=True)[0])
    return np.asarray(corners / np.abs(corners).max() * (1.0, -1.0))


def _shape(
    draw: ImageDraw.ImageDraw, corners: Floats, style: Style, look: MarkLook, unit: float
) -> None:
    outline = [(float(x), float(y)) for x, y in corners]
    closed = [*outline, *outline[:2]]
    if look == "hidden":  # its outline alone: what lies before it is seen through
        draw.line(closed, fill=colours.PAPER, width=round(_HALO * unit), joint="curve")
        for dash in _dashes(corners):
            draw.line(dash, fill=style.colour, width=round(_THIN * unit), joint="curve")
        return
    for colour, wide in ((colours.PAPER, _PAPER_RIM), (colours.INK, _INK_RIM)):
        draw.line(closed, fill=colour, width=round(wide * unit), joint="curve")
    draw.polygon(outline, fill=style.colour if look == "filled" else colours.PAPER)
    if look == "hollow":
        draw.line(closed, fill=style.colour, width=round(_RING * unit), joint="curve")


def _dashes(corners: Floats) -> Iterator[list[tuple[float, float]]]:
    """Yield pieces of an outline with as much left out between them."""
    ring = np.concatenate([corners, corners[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(ring, axis=0), axis=1))])
    for begin in np.arange(_DASHES) / _DASHES:
        at = along[-1] * np.linspace(begin, begin + 0.55 / _DASHES, _DASH_POINTS)
        places = (np.interp(at, along, column) for column in ring.T)
        yield [(float(x), float(y)) for x, y in zip(*places, strict=True)]


def _strokes(draw: ImageDraw.ImageDraw, middle: float, unit: float) -> None:
    """Draw four short strokes around a place."""
    for colour, wide in ((colours.PAPER, 2.0 * _STROKE), (colours.INK, _STROKE)):
        for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            ends = [
                (middle + x * unit * far, middle + y * unit * far)
                for far in (_STROKE_FROM, _STROKE_TO)
            ]
            draw.line(ends, fill=colour, width=round(wide * unit))
