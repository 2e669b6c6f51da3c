"""Determinants of occlusion in words: what is published, and which way a grid of settings goes."""

from dataclasses import dataclass
from typing import Final

from kinematics.planning.wording import enumeration
from kinematics.varying.determinants import Compared, Determinant
from kinematics.varying.variation import Variation
from scenes.phrases import number
from scenes.report_tables import Table
from scenes.vary_words import axis_words


@dataclass(frozen=True)
class DeterminantWords:
    """A determinant of occlusion: the rule, and how the grid goes, as a table."""

    rule: str
    table: Table


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
            _verdict(one),
        )
        for one in item.compared
    )
    head = ("as it grows", "published", "on this grid, first to last value", "")
    published = f"Published: the greater the {rule.factor}, {enumeration(says)}."
    return DeterminantWords(f"{name[0].upper()}{name[1:]}. {published}", Table(head, rows))


def _quantity(name: str) -> str:
    """Return the name of a quantity without its unit."""
    return name.rpartition(", ")[0]


def _value(name: str, value: float) -> str:
    unit = name.rpartition(", ")[2]
    return f"{number(value, 1)}°" if unit == "deg" else f"{number(value, 2)} {unit}"


def _verdict(one: Compared) -> str:
    if one.agrees:
        return "agrees"
    return "no change here" if one.found == "stays" else "does not agree"
