"""A grid over one or two settings of a case, as it is asked for, and whether it can be run."""

import itertools
import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from kinematics.case import Case
from kinematics.case_changes import ChangesRefused, changed_case, setting_of
from kinematics.case_values import has_setting, values_of
from kinematics.checks import InputError, in_range, nearest_word
from kinematics.uncertainty.hinge_axis import AXIS

#: The argument that names an axis.
OVER: Final = "--over"
#: Into so many parts a step of the grid is parted where something flips within it.
PARTS: Final = 16
MOST_AXES: Final = 2
MOST_POINTS: Final = 2500
#: How far the true hinge axis may be said to lie from that of the mounting, mm, or the reference
#: plane to be tilted, degrees. Chosen for this program.
FARTHEST_AXIS: Final = 30.0
#: Nearer than this to a point, in steps, the case itself takes its place.
_NO_STEP: Final = 1e-3
#: Points of an axis that says none.
_USUAL_COUNT: Final = 11
_NUMBER: Final = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_ASKED: Final = re.compile(rf"([^\s=]+)=({_NUMBER})\.\.({_NUMBER})(?::(\d+))?")
_FORM: Final = (
    "wanted SETTING=FROM..TO or SETTING=FROM..TO:POINTS, as "
    "guidance.right.condylar_inclination_deg=20..50:7"
)
_SIDES: Final = ("right", "left")
_GUIDANCE: Final = "guidance"

#: A place on the grid: along every axis, counted in parts of a step; of points multiples of PARTS.
Place = tuple[int, ...]


@dataclass(frozen=True)
class Axis:
    """One setting, or the same of both sides, over a range in equal steps.

    Attributes
    ----------
    setting : str
        As asked for: "guidance.right.condylar_inclination_deg"; with the side left out, as
        "guidance.condylar_inclination_deg", the right and the left together.
    paths : tuple of str
        The settings that are changed, by their paths in a case file.
    first, last : float
        Of the range, in the unit of the setting; first below last.
    count : int
        Points in equal steps, both ends among them.
    as_set : float or None
        What the case itself has; None where that is nothing, or not the same on both sides.
    with_case : bool
        Whether the case itself is a point too, where it lies within the range.
    """

    setting: str
    paths: tuple[str, ...]
    first: float
    last: float
    count: int
    as_set: float | None
    with_case: bool = False

    @cached_property
    def values(self) -> tuple[float, ...]:
        """The values of its points."""
        steps = range(self.count)
        even = [self.first + (self.last - self.first) * k / (self.count - 1) for k in steps]
        own = self.as_set if self.with_case else None
        if own is None or not self.first <= own <= self.last:
            return tuple(even)
        others = [value for value in even if abs(value - own) > _NO_STEP * self.step]
        return tuple(sorted([*others, own]))

    @property
    def step(self) -> float:
        """From one of the points in equal steps to the next."""
        return (self.last - self.first) / (self.count - 1)

    def at(self, parts: int) -> float:
        """Return the value so many parts of steps behind the first, each between two points."""
        point, rest = divmod(parts, PARTS)
        low = self.values[point]
        return low + (self.values[point + 1] - low) * rest / PARTS if rest else low


@dataclass(frozen=True)
class Grid:
    """One or two axes.

    Attributes
    ----------
    axes : tuple of Axis
        The first runs across, the second upward.
    """

    axes: tuple[Axis, ...]

    @property
    def shape(self) -> tuple[int, ...]:
        """Points along every axis."""
        return tuple(len(axis.values) for axis in self.axes)

    @property
    def points(self) -> tuple[Place, ...]:
        """The places of all points, the last axis fastest."""
        along = (range(0, PARTS * count, PARTS) for count in self.shape)
        return tuple(itertools.product(*along))

    @property
    def case_point(self) -> Place | None:
        """The point that is the case itself; None where none is made to be."""
        (axis, *more) = self.axes
        own = axis.as_set if axis.with_case and not more else None
        return (PARTS * axis.values.index(own),) if own in axis.values else None

    def values(self, place: Place) -> tuple[float, ...]:
        """Return the value of every axis at a place."""
        return tuple(axis.at(parts) for axis, parts in zip(self.axes, place, strict=True))

    def changes(self, place: Place) -> dict[str, float]:
        """Return the settings at a place, by their paths."""
        values = zip(self.axes, self.values(place), strict=True)
        return {path: value for axis, value in values for path in axis.paths}

    @property
    def as_set(self) -> tuple[float, ...] | None:
        """Where the case itself lies; None where it lies on no place of the plane."""
        own = [axis.as_set for axis in self.axes]
        return None if None in own else tuple(value for value in own if value is not None)


def middle_of(i: int, j: int) -> Place:
    """Return the middle of a cell, two axes, by the indices of its first corner."""
    return PARTS * i + PARTS // 2, PARTS * j + PARTS // 2


def grid_over(case: Case, asked: Sequence[str]) -> Grid:
    """Return the grid that was asked for.

    Parameters
    ----------
    case : Case
        The case whose settings are varied.
    asked : sequence of str
        One or two axes, as "guidance.right.condylar_inclination_deg=20..50:7".

    Raises
    ------
    InputError
        An axis that cannot be read, no such setting, values that are not accepted, the same
        setting twice, or too many points.
    """
    if not 1 <= len(asked) <= MOST_AXES:
        raise InputError(
            f"{OVER}: found {len(asked)} settings; one or two can be varied over a grid"
        )
    axes = tuple(_axis(case, text) for text in asked)
    if len(axes) == MOST_AXES and (twice := {*axes[0].paths} & {*axes[1].paths}):
        raise InputError(
            f"{OVER} {axes[1].setting}: {min(twice)} is varied by the other axis already"
        )
    # On a line the case stands in its place, so that nothing is said that it contradicts.
    grid = Grid(axes if len(axes) > 1 else (replace(axes[0], with_case=True),))
    count = math.prod(grid.shape)
    if count > MOST_POINTS:
        raise InputError(
            f"{OVER}: {' x '.join(map(str, grid.shape))} = {count:,} points; accepted are up to "
            f"{MOST_POINTS:,}: ask for fewer, places where something flips are sought between them"
        )
    return grid


def _axis(case: Case, text: str) -> Axis:
    read = _ASKED.fullmatch(text.strip())
    if read is None:
        raise InputError(f"{OVER} {text!r}: {_FORM}")
    setting, first, last = read[1], float(read[2]), float(read[3])
    count = int(read[4]) if read[4] else _USUAL_COUNT
    if not first < last or not math.isfinite(last - first):
        raise InputError(
            f"{OVER} {setting}: from {read[2]} to {read[3]} is no range; give the smaller first"
        )
    if not 2 <= count <= MOST_POINTS:
        raise InputError(
            f"{OVER} {setting}: {count} points; accepted are 2 to {MOST_POINTS:,} along one axis"
        )
    if setting in AXIS:
        for end in (first, last):
            in_range(end, f"{OVER} {setting}", -FARTHEST_AXIS, FARTHEST_AXIS, "")
        return Axis(setting, (setting,), first, last, count, 0.0)
    paths = _paths(setting)
    axis = Axis(setting, paths, first, last, count, _as_set(case, paths))
    for value in (first, last):
        _try(case, axis, value)
    return axis


def _paths(setting: str) -> tuple[str, ...]:
    """Return the settings that are meant: of guidance without a side those of both."""
    table, _, key = setting.rpartition(".")
    own = has_setting((_GUIDANCE,), key)
    if table == _GUIDANCE and not own and has_setting((_GUIDANCE, _SIDES[0]), key):
        return tuple(f"{_GUIDANCE}.{side}.{key}" for side in _SIDES)
    return (setting,)


def _as_set(case: Case, paths: Sequence[str]) -> float | None:
    own = {setting_of(case, path) for path in paths}
    value = own.pop() if len(own) == 1 else None
    return float(value) if isinstance(value, int | float) else None


def _try(case: Case, axis: Axis, value: float) -> None:
    """Make the case at one end of an axis, to say at once what hinders it."""
    said = f"{OVER} {axis.setting}"
    try:
        changed = changed_case(case, dict.fromkeys(axis.paths, value))
    except ChangesRefused as error:
        raise InputError(f"{said}: {_first_line(error)}{_hint(case, axis.setting)}") from error
    for path in axis.paths:
        found = setting_of(changed, path)
        if isinstance(found, int) and not isinstance(found, bool):
            raise InputError(f"{said}: takes whole numbers only, so nothing lies between them")
        if found is None or isinstance(found, bool | str):
            table = path.rpartition(".")[0]
            raise InputError(
                f"{said}: the case has no [{table}]; put it into the case file, then vary it"
            )


def _first_line(error: InputError) -> str:
    return str(error).splitlines()[0]


def _hint(case: Case, setting: str) -> str:
    """Return the nearest name where there is no such setting."""
    known = [*known_settings(case)]
    return "" if setting in known else nearest_word(setting, known)


def known_settings(case: Case) -> Iterator[str]:
    """Yield the settings of a case that are numbers, of guidance also for both sides at once."""
    for path in _numbers(values_of(case, all_of_them=True), ""):
        yield path
        if path.startswith(f"{_GUIDANCE}.{_SIDES[0]}."):
            yield path.replace(f".{_SIDES[0]}.", ".", 1)
    yield from AXIS


def _numbers(values: object, path: str) -> Iterator[str]:
    if isinstance(values, Mapping):
        for key, value in values.items():
            yield from _numbers(value, f"{path}.{key}" if path else str(key))
    elif isinstance(values, list):
        for number, value in enumerate(values):
            yield from _numbers(value, f"{path}[{number}]")
    elif isinstance(values, float):
        yield path
