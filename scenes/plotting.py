"""What all plots share: sizes in millimetres, letters, and SVG that is the same on every run."""

import io
import math
import re
from contextlib import AbstractContextManager
from typing import Any, Final

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from scenes import colours
from scenes.phrases import number

MM_PER_INCH: Final = 25.4
#: Width of a figure over the whole width of a page, mm.
PAGE_WIDTH_MM: Final = 178.0

#: A thousandth of a point is far below what is seen; longer numbers only make the page larger.
_LONG_NUMBER: Final = re.compile(r"-?\d+\.\d{4,}")

_LOOK: Final[dict[Any, Any]] = {
    "font.family": "sans-serif",
    "font.sans-serif": ["DejaVu Sans"],
    "font.size": 7.0,
    "hatch.linewidth": 0.5,
    "legend.fontsize": 6.5,
    "legend.frameon": False,
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
        figure.savefig(file, format="svg")
    text = file.getvalue()
    text = text[text.index("<svg") :]
    text = re.sub(r'(<svg[^>]*?) width="[^"]*"', r"\1", text, count=1)
    text = re.sub(r'(<svg[^>]*?) height="[^"]*"', r"\1", text, count=1)
    # The date of drawing and the addresses of its vocabulary stand there.
    text = re.sub(r"\s*<metadata>.*?</metadata>", "", text, flags=re.DOTALL).strip()
    for before in ('id="', 'href="#', "url(#"):
        text = text.replace(before, f"{before}{name}-")
    return _LONG_NUMBER.sub(lambda found: f"{float(found.group()):.3f}", text)


def step_for(span: float, count: int = 5) -> float:
    """Return a round step (1, 2 or 5 times a power of ten) that divides a span into about `count`.

    Parameters
    ----------
    span : float
        Length of an axis, greater than 0.
    count : int
        Wanted number of steps.
    """
    rough = span / count
    power = 10.0 ** math.floor(math.log10(rough))
    return power * next(size for size in (1.0, 2.0, 5.0, 10.0) if rough <= size * power * 1.0001)


def ticks(low: float, high: float, step: float) -> list[tuple[float, str]]:
    """Return the multiples of a step from `low` to `high`, with their texts, all digits exact."""
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    first, last = math.ceil(low / step - 1e-6), math.floor(high / step + 1e-6)
    return [(k * step, number(k * step, decimals)) for k in range(first, last + 1)]


def scales(
    axes: Axes,
    x_label: str,
    y_label: str,
    x_step: float | None = None,
    y_step: float | None = None,
    rows: bool = False,
) -> None:
    """Draw both scales and a light grid of axes whose limits are set.

    The library's own ticks take most of the time of a small plot; these are plain lines and
    letters.

    Parameters
    ----------
    axes : Axes
        With final limits.
    x_label, y_label : str
        What is measured, with its unit.
    x_step, y_step : float or None
        Distance of two numbers; None: a round one.
    rows : bool
        The vertical axis holds rows and has no numbers.
    """
    axes.set_axis_off()
    (left, right), (low, high) = axes.get_xlim(), axes.get_ylim()
    below = {"xycoords": ("data", "axes fraction"), "ha": "center", "va": "top"}
    across = ticks(left, right, x_step or step_for(right - left))
    for at, text in across:
        _small(axes, text, (at, 0.0), (0.0, -3.5), below)
    middle = {"xycoords": "axes fraction", "ha": "center", "va": "top"}
    _small(axes, x_label, (0.5, 0.0), (0.0, -11.5), middle, 7.0)
    axes.hlines(low, left, right, color=colours.SOFT_INK, linewidth=0.7, clip_on=False)
    if rows:
        return
    axes.vlines(left, low, high, color=colours.SOFT_INK, linewidth=0.7, clip_on=False)
    axes.vlines([at for at, _ in across], low, high, color=colours.FAINT, linewidth=0.4, zorder=0.4)
    upward = ticks(low, high, y_step or step_for(high - low))
    axes.hlines(
        [at for at, _ in upward], left, right, color=colours.FAINT, linewidth=0.4, zorder=0.4
    )
    beside = {"xycoords": ("axes fraction", "data"), "ha": "right", "va": "center"}
    for at, text in upward:
        _small(axes, text, (0.0, at), (-3.0, 0.0), beside)
    turned = {"xycoords": "axes fraction", "ha": "center", "va": "center", "rotation": 90.0}
    _small(axes, y_label, (0.0, 0.5), (-23.0, 0.0), turned, 7.0)


def _small(
    axes: Axes,
    text: str,
    place: tuple[float, float],
    offset: tuple[float, float],
    how: dict[str, Any],
    size: float = 6.5,
) -> None:
    """Write a text at a place and an offset in points."""
    axes.annotate(
        text,
        place,
        xytext=offset,
        textcoords="offset points",
        fontsize=size,
        color=colours.INK,
        annotation_clip=False,
        **how,
    )


def place_axes(figure: Figure, box_mm: tuple[float, float, float, float]) -> Axes:
    """Add axes at (left, bottom, width, height), mm from the lower left corner of a figure."""
    width, height = (MM_PER_INCH * float(side) for side in figure.get_size_inches())
    left, bottom, wide, high = box_mm
    return figure.add_axes((left / width, bottom / height, wide / width, high / height))


def title(axes: Axes, text: str) -> None:
    """Write a title over the upper left corner."""
    how = {"xycoords": "axes fraction", "ha": "left", "va": "bottom", "fontweight": "bold"}
    _small(axes, text, (0.0, 1.0), (0.0, 3.0), how, 7.5)
