"""Writer of sheets: draws lines, boxes and words as SVG, the same bytes on every run, or as PNG.

Nothing of the library's own axes is used: they take more time than all that stands in them.
"""

import io
import re
from contextlib import AbstractContextManager
from typing import Any, Final

import matplotlib as mpl
import numpy as np
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Affine2D, Bbox, Transform, TransformedBbox
from numpy.typing import NDArray

from scenes.sheet import MM_PER_INCH, Box, Boxes, Ground, Item, Key, Line, Sheet, Words

#: A thousandth of a point is far below what is seen; longer numbers only make the page larger.
#: The scale of letters keeps its digits: there a thousandth is some hundredths of their size.
_LONG_NUMBER: Final = re.compile(r"(?<!scale\()(\d\.\d{3})\d+")
_LOOK: Final[dict[Any, Any]] = {
    "font.family": "sans-serif",
    "font.sans-serif": ["DejaVu Sans"],
    "font.size": 7.0,
    "hatch.linewidth": 0.5,
    "svg.fonttype": "path",
}
_KEY_LETTERS_PT: Final = 7.0
_RIM_PT: Final = 0.5


def svg(sheet: Sheet, name: str) -> str:
    """Return a sheet as an SVG element for a page, with no address outside itself.

    It has no size of its own and fills what holds it, in the proportion of the sheet.

    Parameters
    ----------
    sheet : Sheet
        What is drawn.
    name : str
        Unique in the page; the names of all elements begin with it.
    """
    file = io.StringIO()
    with _look(name):
        _figure(sheet).savefig(file, format="svg")
    text = file.getvalue()
    text = text[text.index("<svg") :]
    text = re.sub(r'(<svg[^>]*?) width="[^"]*"', r"\1", text, count=1)
    text = re.sub(r'(<svg[^>]*?) height="[^"]*"', r"\1", text, count=1)
    # The date of drawing and the addresses of its vocabulary stand there.
    text = re.sub(r"\s*<metadata>.*?</metadata>", "", text, flags=re.DOTALL).strip()
    for before in ('id="', 'href="#', "url(#"):
        text = text.replace(before, f"{before}{name}-")
    return _LONG_NUMBER.sub(r"\1", text)


def png(sheet: Sheet, pixels: NDArray[np.uint8], dots_per_mm: float) -> bytes:
    """Return a sheet over a picture as PNG.

    Parameters
    ----------
    sheet : Sheet
        What lies over the picture.
    pixels : ndarray, shape (height, width, 3)
        Red, green, blue; the picture fills the sheet.
    dots_per_mm : float
        Fineness.
    """
    file = io.BytesIO()
    with _look("picture"):
        figure = _figure(sheet)
        axes = figure.add_axes((0.0, 0.0, 1.0, 1.0), zorder=-1.0)
        axes.set_axis_off()
        axes.imshow(pixels, aspect="auto")
        figure.savefig(
            file, format="png", dpi=dots_per_mm * MM_PER_INCH, metadata={"Software": None}
        )
    return file.getvalue()


def _look(name: str) -> AbstractContextManager[None]:
    """Return the context in which a figure is made and written; the name makes its ids repeat."""
    return mpl.rc_context({**_LOOK, "svg.hashsalt": name})


def _figure(sheet: Sheet) -> Figure:
    figure = Figure(figsize=(sheet.width_mm / MM_PER_INCH, sheet.height_mm / MM_PER_INCH))
    figure.patch.set_visible(not sheet.see_through)
    place = Affine2D().scale(1.0 / MM_PER_INCH) + figure.dpi_scale_trans
    for item in sheet.items:
        figure.add_artist(_artist(item, place))
    if sheet.key is not None and sheet.key.entries:
        _add_key(figure, sheet.key)
    return figure


def _artist(item: Item, place: Transform) -> Line2D | PathPatch | Text:
    match item:
        case Line():
            return _line(item, place)
        case Boxes():
            return _boxes(item, place)
        case Words():
            return _words(item, place)


def _line(line: Line, place: Transform) -> Line2D:
    return Line2D(
        line.points[:, 0],
        line.points[:, 1],
        color=line.colour,
        linewidth=line.width_pt,
        linestyle=line.dash if line.width_pt else "none",
        solid_capstyle="butt",
        marker=line.mark or "none",
        markersize=line.mark_pt,
        markeredgewidth=line.rim_pt,
        markerfacecolor=line.mark_fill or line.colour,
        markevery=None if line.marked is None else list(line.marked),
        zorder=line.level,
        transform=place,
        clip_box=_clip(line.within, place),
    )


def _boxes(boxes: Boxes, place: Transform) -> PathPatch:
    return PathPatch(
        Path.make_compound_path(*(_outline(box) for box in boxes.boxes)),
        facecolor=boxes.fill,
        edgecolor=boxes.rim or "none",
        linewidth=_RIM_PT if boxes.rim else 0.0,
        hatch="/////" if boxes.hatched else None,
        alpha=boxes.opacity,
        zorder=boxes.level,
        transform=place,
        clip_box=_clip(boxes.within, place),
    )


def _outline(box: Box) -> Path:
    left, bottom, width, height = box
    right, top = left + width, bottom + height
    corners = [(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)]
    return Path(corners, closed=True)


def _words(words: Words, place: Transform) -> Text:
    return Text(
        *words.place,
        words.text,
        color=words.colour,
        fontsize=words.size_pt,
        fontweight="bold" if words.bold else "normal",
        ha=words.across,
        va=words.upward,
        rotation=90.0 if words.turned else 0.0,
        linespacing=words.line_spacing,
        bbox=_ground(words.ground, words.size_pt) if words.ground else None,
        zorder=words.level,
        transform=place,
    )


def _ground(ground: Ground, size_pt: float) -> dict[str, Any]:
    shape = "round" if ground.rounded else "square"
    return {
        "boxstyle": f"{shape},pad={ground.pad_pt / size_pt}",
        "facecolor": ground.fill,
        "linewidth": 0.0,
        "alpha": ground.opacity,
    }


def _clip(box: Box | None, place: Transform) -> TransformedBbox | None:
    return None if box is None else TransformedBbox(Bbox.from_bounds(*box), place)


def _add_key(figure: Figure, key: Key) -> None:
    nowhere = Affine2D()
    figure.legend(
        handles=[_line(line, nowhere) for line, _ in key.entries],
        labels=[name for _, name in key.entries],
        loc="lower center",
        ncols=key.columns,
        fontsize=_KEY_LETTERS_PT,
        frameon=False,
        handlelength=key.sample,
        handletextpad=key.gap,
        columnspacing=key.between,
        borderaxespad=key.below,
    )
