"""Settings that are varied in words: what an axis is called, its values, where something ends."""

from dataclasses import dataclass
from typing import Final

from kinematics.varying.along import Border
from kinematics.varying.grid import Axis
from scenes.case_words import plain_name
from scenes.phrases import number

_SIDES: Final = ("right", "left")
_MOST_DECIMALS: Final = 6
_ROUNDING: Final = 1e-9
_HINGE_AXIS: Final = {
    "hinge_axis.forward_mm": "hinge axis ahead of that of the mounting",
    "hinge_axis.up_mm": "hinge axis above that of the mounting",
    "hinge_axis.tilt_deg": "reference plane lower in front than that of the mounting",
}


@dataclass(frozen=True)
class AxisWords:
    """What an axis is called, and its unit."""

    name: str
    unit: str

    @property
    def titled(self) -> str:
        """The name with the unit, as beside a scale."""
        return f"{self.name}, {self.unit}" if self.unit else self.name

    def value(self, value: float, step: float) -> str:
        """Return a value with its unit, with as many digits as a step tells apart."""
        return f"{number(value, _decimals(step))}{self.joined}"

    def exact(self, value: float, step: float) -> str:
        """Return a value with its unit and all its digits, as many at least as `value`."""
        decimals = _decimals(step)
        while decimals < _MOST_DECIMALS and abs(round(value, decimals) - value) > _ROUNDING:
            decimals += 1
        return f"{number(value, decimals)}{self.joined}"

    @property
    def joined(self) -> str:
        """The unit as it stands behind a number."""
        return self.unit if self.unit == "°" else f" {self.unit}".rstrip()


def axis_words(axis: Axis) -> AxisWords:
    """Return what an axis is called."""
    *tables, key = axis.setting.split(".")
    name, unit = plain_name(key)
    if axis.setting in _HINGE_AXIS:
        return AxisWords(_HINGE_AXIS[axis.setting], unit)
    if len(axis.paths) > 1:
        return AxisWords(f"{name} of both sides", unit)
    if len(tables) == 2 and tables[1] in _SIDES:
        return AxisWords(f"{tables[1]} {name}", unit)
    inner = [table.replace("_", " ") for table in tables[1:]]
    about = {"guidance": ""}.get(tables[0], tables[0].replace("_", " ")) if tables else ""
    if not unit and tables and key.isdigit():  # a number of teeth by their numbers
        name, unit = plain_name(tables[-1])
        return AxisWords(f"{about}: {name} of {key}", unit)
    where = ", ".join([*inner])
    told = f"{name}, {where}" if where else name
    return AxisWords(f"{about}: {told}" if about else told, unit)


def _decimals(step: float) -> int:
    """Return how many decimals tell steps of a size apart."""
    decimals = 0
    while decimals < _MOST_DECIMALS and step * 10**decimals < 0.995:
        decimals += 1
    return decimals


def bracket(axis: Axis, border: Border) -> str:
    """Return the value at which something begins or ends, and how certain it is."""
    low, high = border
    half, words = 0.5 * (high - low), axis_words(axis)
    if half == 0.0:
        return words.exact(low, axis.step)
    return f"{words.value(0.5 * (low + high), half)} (±{words.value(half, half)})"
