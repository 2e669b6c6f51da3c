"""What all plots share: sizes in millimetres, letters, and SVG that is the same on every run."""

import io
import re
from contextlib import AbstractContextManager
from typing import Any, Final

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from scenes import colours

MM_PER_INCH: Final = 25.4
#: Width of a figure over the whole width of a page, mm.
PAGE_WIDTH_MM: Final = 178.0

#: A thousandth of a point is far below what is seen; longer numbers only make the page larger.
_LONG_NUMBER: Final = re.compile(r"-?\d+\.\d{4,}")

_LOOK: Final[dict[Any, Any]] = {
    "font.family": "sans-serif",
    "font.sans-serif": ["DejaVu Sans"],
    "font.size": 7.0,
    "axes.titlesize": 7.5,
    "axes.titlelocation": "left",
    "axes.titleweight": "bold",
    "axes.labelsize": 7.0,
    "axes.edgecolor": colours.SOFT_INK,
    "axes.labelcolor": colours.INK,
    "axes.linewidth": 0.6,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "xtick.color": colours.SOFT_INK,
    "ytick.color": colours.SOFT_INK,
    "xtick.labelcolor": colours.INK,
    "ytick.labelcolor": colours.INK,
    "xtick.labelsize": 6.5,
    "ytick.labelsize": 6.5,
    "xtick.major.width": 0.6,
    "ytick.major.width": 0.6,
    "grid.color": colours.FAINT,
    "grid.linewidth": 0.4,
    "hatch.linewidth": 0.5,
    "legend.fontsize": 6.5,
    "legend.frameon": False,
    "axes.unicode_minus": True,
    "svg.fonttype": "path",
}


def look() -> AbstractContextManager[None]:
    """Return the context in which every figure is made and written."""
    return mpl.rc_context(_LOOK)


def new_figure(width_mm: float, height_mm: float) -> Figure:
    """Return an empty figure of a size on paper."""
    return Figure(figsize=(width_mm / MM_PER_INCH, height_mm / MM_PER_INCH))


def svg(figure: Figure, name: str) -> str:
    """Return a figure as an SVG element for a page: same bytes on every run, no outside address.

    It has no size of its own and fills what holds it, in the proportion of the figure.

    Parameters
    ----------
    figure : Figure
        What is written, made within `look`.
    name : str
        Unique in the page; the names of all elements begin with it.
    """
    file = io.StringIO()
    with mpl.rc_context({"svg.hashsalt": name}):
        figure.savefig(
            file,
            format="svg",
            metadata={"Date": None, "Creator": None, "Format": None, "Type": None},
        )
    text = file.getvalue()
    text = text[text.index("<svg") :]
    text = re.sub(r'(<svg[^>]*?) width="[^"]*"', r"\1", text, count=1)
    text = re.sub(r'(<svg[^>]*?) height="[^"]*"', r"\1", text, count=1)
    text = re.sub(r"\s*<metadata>.*?</metadata>", "", text, flags=re.DOTALL).strip()
    for before in ('id="', 'href="#', "url(#"):
        text = text.replace(before, f"{before}{name}-")
    return _LONG_NUMBER.sub(lambda found: f"{float(found.group()):.3f}", text)


def plain_axes(axes: Axes) -> None:
    """Give axes a light grid behind the drawing."""
    axes.grid(True)
    axes.set_axisbelow(True)


def place_axes(figure: Figure, box_mm: tuple[float, float, float, float]) -> Axes:
    """Add axes at (left, bottom, width, height), mm from the lower left corner of a figure."""
    width, height = (MM_PER_INCH * float(side) for side in figure.get_size_inches())
    left, bottom, wide, high = box_mm
    return figure.add_axes((left / width, bottom / height, wide / width, high / height))


def title(axes: Axes, text: str) -> None:
    """Write a title at a fixed height (looking for a free one takes most of the drawing time)."""
    axes.set_title(text, y=1.02, pad=1.5)
