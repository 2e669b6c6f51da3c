"""What all plots share: a rectangle with two scales of its own, its numbers, grid and title."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kinematics.conventions import Floats
from scenes import colours
from scenes.phrases import number
from scenes.sheet import MM_PER_POINT, Box, Item, Line, Place, Words

#: Width of a drawing over the whole width of a page, mm.
PAGE_WIDTH_MM: Final = 178.0
_NAME_PT: Final = 7.2
_TITLE_PT: Final = 7.5


@dataclass(frozen=True)
class Panel:
    """A rectangle of a sheet in which values have places.

    Attributes
    ----------
    box : Box
        Where it is.
    across, upward : (float, float)
        Values at its left and right, and at its bottom and top; a scale may run backwards.
    """

    box: Box
    across: tuple[float, float]
    upward: tuple[float, float]

    def x(self, values: ArrayLike) -> Floats:
        """Return where values stand across, mm."""
        return _scaled(np.asarray(values, dtype=float), self.across, self.box[0], self.box[2])

    def y(self, values: ArrayLike) -> Floats:
        """Return where values stand upward, mm."""
        return _scaled(np.asarray(values, dtype=float), self.upward, self.box[1], self.box[3])

    def places(self, across: ArrayLike, upward: ArrayLike) -> Floats:
        """Return places (n, 2) of pairs of values, mm."""
        return np.stack([self.x(across), self.y(upward)], axis=-1)

    def place(self, across: float, upward: float, offset_pt: Place = (0.0, 0.0)) -> Place:
        """Return the place of one pair of values, moved by an offset in points."""
        return (
            float(self.x(across)) + offset_pt[0] * MM_PER_POINT,
            float(self.y(upward)) + offset_pt[1] * MM_PER_POINT,
        )

    def band(self, first: float, last: float) -> Box:
        """Return the box between two values across, over the whole height."""
        left, right = (float(self.x(value)) for value in (first, last))
        return (left, self.box[1], right - left, self.box[3])

    def upright(self, values: ArrayLike) -> Floats:
        """Return lines over the whole height at values across, as one line in pieces."""
        return _pieces(self.x(values), self.box[1], self.box[1] + self.box[3])

    def level(self, values: ArrayLike) -> Floats:
        """Return lines over the whole width at values upward, as one line in pieces."""
        return _pieces(self.y(values), self.box[0], self.box[0] + self.box[2])[:, ::-1]


def same_scale(box: Box, low: Floats, high: Floats) -> Panel:
    """Return a panel that holds values from `low` to `high`, a millimetre as long both ways.

    Parameters
    ----------
    box : Box
        Where.
    low, high : ndarray, shape (2,)
        Least and greatest values across and upward; their middle stands in that of the box.
    """
    paper = np.array(box[2:])
    half = 0.5 * max((high - low) / paper) * paper
    middle = 0.5 * (low + high)
    (left, bottom), (right, top) = (middle - half).tolist(), (middle + half).tolist()
    return Panel(box, (left, right), (bottom, top))


def _scaled(values: Floats, ends: tuple[float, float], start: float, length: float) -> Floats:
    return start + length * (values - ends[0]) / (ends[1] - ends[0])


def _pieces(at: Floats, first: float, last: float) -> Floats:
    """Return (3 n, 2): from (at, first) to (at, last) for each value, and a gap after it."""
    at = np.atleast_1d(at)
    pieces = np.full((len(at), 3, 2), np.nan)
    pieces[:, :2, 0] = at[:, None]
    pieces[:, 0, 1], pieces[:, 1, 1] = first, last
    return pieces.reshape(-1, 2)


def step_for(span: float, count: int = 5) -> float:
    """Return a round step (1, 2 or 5 times a power of ten) that divides a span into about `count`.

    Parameters
    ----------
    span : float
        Length of a scale, greater than 0.
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


def scale_across(panel: Panel, name: str, step: float | None = None) -> list[Item]:
    """Return the lower scale of a panel: its line, numbers and name.

    Parameters
    ----------
    panel : Panel
        Where.
    name : str
        What is measured, with its unit.
    step : float or None
        Distance of two numbers; None: a round one.
    """
    left, right = panel.across
    bottom = panel.upward[0]
    middle = panel.box[0] + 0.5 * panel.box[2], panel.box[1] - 12.8 * MM_PER_POINT
    numbers = ticks(left, right, step or step_for(right - left))
    return [
        Line(panel.level(bottom), colours.SOFT_INK, 0.7),
        Words(name, middle, "center", "top", _NAME_PT),
        *(
            Words(text, panel.place(at, bottom, (0.0, -3.5)), "center", "top")
            for at, text in numbers
        ),
    ]


def scales(
    panel: Panel,
    across_name: str,
    upward_name: str,
    across_step: float | None = None,
    upward_step: float | None = None,
) -> list[Item]:
    """Return both scales of a panel and a light grid.

    Parameters
    ----------
    panel : Panel
        Where.
    across_name, upward_name : str
        What is measured, with its unit.
    across_step, upward_step : float or None
        Distance of two numbers; None: a round one.
    """
    (left, right), (low, high) = panel.across, panel.upward
    across = ticks(left, right, across_step or step_for(right - left))
    upward = ticks(low, high, upward_step or step_for(high - low))
    beside = panel.box[0] - 23.0 * MM_PER_POINT, panel.box[1] + 0.5 * panel.box[3]
    return [
        Line(panel.upright([at for at, _ in across]), colours.FAINT, 0.4, level=0.4),
        Line(panel.level([at for at, _ in upward]), colours.FAINT, 0.4, level=0.4),
        *scale_across(panel, across_name, across_step),
        Line(panel.upright(left), colours.SOFT_INK, 0.7),
        *(Words(text, panel.place(left, at, (-3.0, 0.0)), "right") for at, text in upward),
        Words(upward_name, beside, "center", "center", _NAME_PT, turned=True),
    ]


def title(panel: Panel, text: str) -> Words:
    """Return a title over the upper left corner."""
    left, bottom, _, height = panel.box
    place = left, bottom + height + 3.0 * MM_PER_POINT
    return Words(text, place, "left", "bottom", _TITLE_PT, bold=True)
