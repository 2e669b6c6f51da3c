"""Determinants of occlusion in words: what is published, and which way a grid of settings goes."""

from dataclasses import dataclass
from typing import Final

from kinematics.planning.wording import enumeration
from kinematics.varying.determinants import Compared, Determinant
from kinematics.varying.grid import Axis
from kinematics.varying.variation import Variation
from scenes.phrases import number
from scenes.report_tables import Table
from scenes.vary_axes import axis_words


@dataclass(frozen=True)
class DeterminantWords:
    """A determinant of occlusion: the rule, and how the grid goes, as a table."""

    rule: str
    table: Table


#: Why something may go against a rule that speaks of one guide.
_OTHERS_GUIDE: Final = ", where other front teeth take over"
_FOUND: Final = {
    "rises": "rises",
    "falls": "falls",
    "stays": "stays the same",
    "rises and falls": "rises and falls",
}


def determinant_words(found: Variation, item: Determinant) -> DeterminantWords:
    """Return a published rule and how the grid goes beside it."""
    rule, name = item.rule, axis_words(found.grid.axes[item.axis]).name
    says = [
        *([f"the posterior cusps {rule.cusps}"] if rule.cusps else []),
        *(
            [f"the angle between working and nonworking path of a cusp gets {rule.angle}"]
            if rule.angle
            else []
        ),
    ]
    rows = tuple(
        (
            _quantity(one.quantity),
            one.wanted,
            f"{_FOUND[one.found]}: {_value(one.quantity, one.first)} to"
            f" {_value(one.quantity, one.last)}",
            _verdict(one, found.grid.axes[item.axis]),
        )
        for one in item.compared
    )
    head = ("as it grows", "published", "on this grid, first to last value", "beside the rule")
    published = f"Published: the greater the {rule.factor}, {enumeration(says)}."
    return DeterminantWords(f"{name[0].upper()}{name[1:]}. {published}", Table(head, rows))


def _quantity(name: str) -> str:
    """Return the name of a quantity without its unit."""
    return name.rpartition(", ")[0]


def _value(name: str, value: float) -> str:
    unit = name.rpartition(", ")[2]
    return f"{number(value, 1)}°" if unit == "deg" else f"{number(value, 2)} {unit}"


def _verdict(one: Compared, axis: Axis) -> str:
    """Return whether the grid goes the published way; where not, where and why."""
    if one.agrees:
        return f"agrees{_only(one, axis)}"
    if one.found == "stays":
        return f"no change here{_only(one, axis)}"
    other = "falls" if one.wanted == "rises" else "rises"
    parts = [
        f"from {_at(axis, part.begin)} to {_at(axis, part.end)}"
        f"{_OTHERS_GUIDE if part.guide_changes else ''}"
        for part in one.against
    ]
    return f"does not agree: {other} {enumeration(parts)}{_only(one, axis)}"


def _only(one: Compared, axis: Axis) -> str:
    """Return over which part of the grid alone something is told; empty where over all."""
    if one.told == (axis.first, axis.last):
        return ""
    first, last = (_at(axis, value) for value in one.told)
    return f"; told from {first} to {last} alone, where front teeth guide by themselves"


def _at(axis: Axis, value: float) -> str:
    return axis_words(axis).exact(value, axis.step)
