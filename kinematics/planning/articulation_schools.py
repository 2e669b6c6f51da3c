"""What published schools want of replacement teeth: a table, shipped with the package."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, Final, Literal

from pydantic import ConfigDict, Field, TypeAdapter
from pydantic.dataclasses import dataclass

from kinematics.planning.judging import BaseScheme

CarriedBy = Literal[
    "complete denture",
    "distal extension, both sides",
    "distal extension, one side",
    "tooth-bounded",
    "anterior",
    "bridge",
    "implants",
]
Opposite = Literal["complete denture", "other teeth"]
MiDemand = Literal["stops", "front stops", "stops, front clear", "front clear", "free"]
Demand = Literal[
    "clear",
    "back clear",
    "shares",
    "lifts nothing",
    "balanced",
    "as natural",
    "free",
]

_STRICT: Final = ConfigDict(extra="forbid")


@dataclass(frozen=True, config=_STRICT)
class School:
    """One row of the table; its keys are told at the head of the table itself.

    Attributes
    ----------
    name : str
        What to call it.
    kinds : tuple of str
        What carries the teeth that it speaks of.
    mi : str
        What it wants in maximal intercuspation.
    working, nonworking, protrusion : str
        What it wants of the teeth of a side where that is the working side, where it is the other,
        and in protrusion.
    says : str
        What it says and why, in a sentence or two.
    source : str
        Where it is published, or "common practice".
    arch : str
        "upper", "lower" or "either".
    opposite : str
        "complete denture", "other teeth" or "either".
    canine : bool
        True: only where a canine is among the teeth.
    scheme : str or None
        Scheme of a denture base that aims at it; None where none does.
    """

    name: str
    kinds: tuple[CarriedBy, ...] = Field(min_length=1)
    mi: MiDemand = Field()
    working: Demand = Field()
    nonworking: Demand = Field()
    protrusion: Demand = Field()
    says: str = Field(min_length=1)
    source: str = Field(min_length=1)
    arch: Literal["upper", "lower", "either"] = "either"
    opposite: Literal["complete denture", "other teeth", "either"] = "either"
    canine: bool = False
    scheme: BaseScheme | None = None

    def wanted_at(self, place: str) -> Demand:
        """Return what it wants on the "working side", the "nonworking side" or in "protrusion"."""
        return {
            "working side": self.working,
            "nonworking side": self.nonworking,
            "protrusion": self.protrusion,
        }[place]


@cache
def schools() -> tuple[School, ...]:
    """Return the table, in its order."""
    text = files("kinematics.planning").joinpath("articulation_schools.toml").read_text("utf-8")
    rows: Any = tomllib.loads(text)["schools"]
    return TypeAdapter(tuple[School, ...]).validate_python(rows)


def schools_for(
    kind: CarriedBy, is_upper: bool, opposite: Opposite, has_canine: bool
) -> tuple[School, ...]:
    """Return the schools that speak of some teeth, in the order of the table.

    Parameters
    ----------
    kind : str
        What carries them.
    is_upper : bool
        Their arch.
    opposite : str
        What stands opposite.
    has_canine : bool
        Whether a canine is among them.
    """
    arch = "upper" if is_upper else "lower"
    return tuple(
        school
        for school in schools()
        if kind in school.kinds
        and school.arch in (arch, "either")
        and school.opposite in (opposite, "either")
        and (has_canine or not school.canine)
    )
