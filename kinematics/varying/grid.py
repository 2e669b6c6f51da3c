"""A grid over one or two settings of a case, as it is asked for, and whether it can be run."""

import itertools
import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial
from typing import Final

from kinematics.case import Case
from kinematics.case_changes import ChangesRefused, changed_case, setting_of
from kinematics.checks import InputError
from kinematics.uncertainty.hinge_axis import AXIS
from kinematics.varying.setting_names import is_setting, nearest_settings, paths_of

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
_TOO_FAR: Final = f"found {{:g}}; accepted are {-FARTHEST_AXIS:g} to {FARTHEST_AXIS:g}"

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
        An axis that cannot be read, no such setting, values that are not accepted, of all axes
        together, one a line; the same setting twice, or too many points.
    """
    if not 1 <= len(asked) <= MOST_AXES:
        raise InputError(
            f"{OVER}: found {len(asked)} settings; one or two can be varied over a grid"
        )
    read = [_axis(case, text) for text in asked]
    axes = tuple(axis for axis in read if isinstance(axis, Axis))
    if faults := [fault for item in read if not isinstance(item, Axis) for fault in item]:
        raise InputError("\n".join(dict.fromkeys(faults)))
    if len(axes) == MOST_AXES and (twice := {*axes[0].paths} & {*axes[1].paths}):
        fault = f"{min(twice)} is varied by the other axis already"
        raise InputError(_said(axes[1].setting, fault))
    # On a line the case stands in its place, so that nothing is said that it contradicts.
    grid = Grid(axes if len(axes) > 1 else (replace(axes[0], with_case=True),))
    count = math.prod(grid.shape)
    if count > MOST_POINTS:
        raise InputError(
            f"{OVER}: {' x '.join(map(str, grid.shape))} = {count:,} points; accepted are up to "
            f"{MOST_POINTS:,}: ask for fewer, places where something flips are sought between them"
        )
    return grid


def _axis(case: Case, text: str) -> Axis | list[str]:
    """Return an axis as it is asked for, or all that is wrong with it."""
    read = _ASKED.fullmatch(text.strip())
    if read is None:
        return [f"{OVER} {text!r}: {_FORM}"]
    setting, first, last = read[1], float(read[2]), float(read[3])
    count = int(read[4]) if read[4] else _USUAL_COUNT
    faults = []
    if not first < last or not math.isfinite(last - first):
        faults.append(f"from {read[2]} to {read[3]} is no range; give the smaller first")
    if not 2 <= count <= MOST_POINTS:
        faults.append(f"{count} points; accepted are 2 to {MOST_POINTS:,} along one axis")
    if not is_setting(setting):
        faults.append(f"there is no such setting{nearest_settings(case, setting)}")
    if faults:
        return [_said(setting, fault) for fault in faults]
    if setting in AXIS:
        far = [end for end in (first, last) if abs(end) > FARTHEST_AXIS]
        axis = Axis(setting, (setting,), first, last, count, 0.0)
        return [_said(setting, _TOO_FAR.format(end)) for end in far] or axis
    paths = paths_of(setting)
    axis = Axis(setting, paths, first, last, count, _as_set(case, paths))
    return [*_try(case, axis, (first, last))] or axis


def _as_set(case: Case, paths: Sequence[str]) -> float | None:
    own = {setting_of(case, path) for path in paths}
    value = own.pop() if len(own) == 1 else None
    return float(value) if isinstance(value, int | float) else None


def _try(case: Case, axis: Axis, values: Sequence[float]) -> Iterator[str]:
    """Make the case at the ends of an axis; yield at once what hinders it."""
    for value in values:
        try:
            changed = changed_case(case, dict.fromkeys(axis.paths, value))
        except ChangesRefused as error:
            yield from map(partial(_said, axis.setting), str(error).splitlines())
            continue
        for path in axis.paths:
            found = setting_of(changed, path)
            if isinstance(found, int) and not isinstance(found, bool):
                yield _said(axis.setting, "takes whole numbers only, so nothing lies between them")
            if found is None or isinstance(found, bool | str):
                table = path.rpartition(".")[0]
                yield _said(
                    axis.setting,
                    f"the case has no [{table}]; put it into the case file, then vary it",
                )


def _said(setting: str, fault: str) -> str:
    """Return one fault behind the argument; a setting that the fault names is not told twice."""
    return f"{OVER} {fault}" if fault.startswith(setting) else f"{OVER} {setting}: {fault}"
