"""A drawing as plain data: lines, boxes and words on a sheet of paper, placed in millimetres.

Charts and annotations are laid out where the results are, and drawn wherever there is time for it
(see `drawing_orders`). So a sheet knows neither results nor the library that draws it.
"""

from dataclasses import dataclass
from typing import Final, Literal

from kinematics.conventions import Floats
from scenes import colours

MM_PER_INCH: Final = 25.4
MM_PER_POINT: Final = MM_PER_INCH / 72.0

#: Left, bottom, width and height, mm from the lower left corner of the sheet.
Box = tuple[float, float, float, float]
#: Across and upward, mm from the lower left corner of the sheet.
Place = tuple[float, float]


@dataclass(frozen=True)
class Line:
    """A line, marks along it, or both.

    Attributes
    ----------
    points : ndarray, shape (n, 2)
        Places on the sheet, mm; a row of NaN ends one piece and begins the next.
    colour : str
        Colour of the line and of the rims of its marks.
    width_pt : float
        Thickness; 0 draws the marks alone.
    dash : Line style
        Unbroken, or an offset with the lengths of strokes and gaps.
    mark : str
        Marker of matplotlib; empty: no marks.
    mark_pt, rim_pt : float
        Size of a mark, and thickness of its rim.
    mark_fill : str
        Colour inside a mark; empty: that of the line.
    marked : tuple of int or None
        Points that get a mark; None: all.
    level : float
        What has the greater level lies on top.
    within : Box or None
        What lies outside is not drawn.
    """

    points: Floats
    colour: str
    width_pt: float
    dash: colours.Line = "-"
    mark: str = ""
    mark_pt: float = 0.0
    rim_pt: float = 1.0
    mark_fill: str = ""
    marked: tuple[int, ...] | None = None
    level: float = 2.0
    within: Box | None = None


@dataclass(frozen=True)
class Boxes:
    """Filled rectangles of one look.

    Attributes
    ----------
    boxes : tuple of Box
        Where they are.
    fill : str
        Colour.
    opacity : float
        0 to 1.
    rim : str
        Colour of the rim, and of the strokes across where `hatched`; empty: no rim.
    hatched : bool
        Slanting strokes over the fill.
    level, within
        As for a line.
    """

    boxes: tuple[Box, ...]
    fill: str
    opacity: float = 1.0
    rim: str = ""
    hatched: bool = False
    level: float = 1.0
    within: Box | None = None


@dataclass(frozen=True)
class Ground:
    """What lies behind words: a colour, how far it reaches beyond them, and round corners."""

    fill: str
    pad_pt: float
    rounded: bool = False
    opacity: float = 1.0


@dataclass(frozen=True)
class Words:
    """A text of one or more lines.

    Attributes
    ----------
    text : str
        What stands there.
    place : Place
        Where, mm.
    across, upward : str
        Which part of the text stands at the place.
    size_pt : float
        Size of letters.
    turned : bool
        Read from below upward.
    """

    text: str
    place: Place
    across: Literal["left", "center", "right"] = "center"
    upward: Literal["top", "center", "baseline", "bottom"] = "center"
    size_pt: float = 7.0
    colour: str = colours.INK
    bold: bool = False
    turned: bool = False
    line_spacing: float = 1.2
    ground: Ground | None = None
    level: float = 3.0


@dataclass(frozen=True)
class Key:
    """Names of kinds of lines or marks, in columns at the bottom of a sheet.

    Attributes
    ----------
    entries : tuple of (Line, str)
        How a kind is drawn (its points do not count), and its name.
    columns : int
        How many stand side by side.
    sample, gap, between : float
        Length of a sample, room between it and its name, and between columns; in letters.
    below : float
        Room below, in letters.
    """

    entries: tuple[tuple[Line, str], ...]
    columns: int
    sample: float
    gap: float
    between: float
    below: float


Item = Line | Boxes | Words


@dataclass(frozen=True)
class Sheet:
    """A whole drawing.

    Attributes
    ----------
    width_mm, height_mm : float
        Its size on paper.
    items : tuple of Item
        What is drawn, first the lowest level, then in this order.
    key : Key or None
        What lines and marks mean.
    see_through : bool
        No white ground: it lies over a picture or in a line of text.
    """

    width_mm: float
    height_mm: float
    items: tuple[Item, ...]
    key: Key | None = None
    see_through: bool = False
