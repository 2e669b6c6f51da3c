"""Lessons in words: readings with their units, goals as sentences."""

from typing import Final

from kinematics.lessons.conditions import NOW, START, Condition, Sought
from kinematics.lessons.reading_names import Reading, Value
from kinematics.lessons.readings import FARTHEST_MM
from scenes.phrases import number

_SIGNS: Final = {
    "<": "less than",
    "<=": "at most",
    ">": "more than",
    ">=": "at least",
    "is": "is",
    "is not": "is not",
}


def with_unit(value: float, unit: str, decimals: int) -> str:
    """Return a number with its unit; "deg" becomes the sign of degrees."""
    text = number(value, decimals)
    return f"{text}°" if unit == "deg" else f"{text} {unit}".rstrip()


def value_words(reading: Reading, value: Value) -> str:
    """Return what a reading says, with its unit."""
    if isinstance(value, str):
        return value
    if reading.kind.form.startswith("gap") and value >= FARTHEST_MM:
        return f"more than {number(FARTHEST_MM, 0)} mm"
    return with_unit(value, reading.kind.unit, reading.kind.decimals)


def sought_words(asked: Sought) -> str:
    """Return the name of a reading, with its moment where that is not now."""
    if asked.moment == NOW:
        return asked.reading.name
    where = "at the start" if asked.moment == START else asked.moment.replace("_", " ")
    return f"{asked.reading.name} ({where})"


def condition_words(one: Condition) -> str:
    """Return a condition as a sentence with units."""
    left, unit = sought_words(one.left), one.left.reading.kind.unit
    if isinstance(one.right, Sought):
        right = sought_words(one.right)
    elif isinstance(one.right, str):
        right = one.right
    else:
        right = _plain(one.right, unit)
    if one.sign == "=":
        return f"{left} is {right}, within {_plain(one.within, unit)}"
    return f"{left} {_SIGNS[one.sign]} {right}"


def _plain(value: float, unit: str) -> str:
    """Return a number as a teacher wrote it, with its unit."""
    return with_unit(value, unit, len(f"{value:g}".partition(".")[2]))
