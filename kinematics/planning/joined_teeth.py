"""Teeth that hold each other: splinted natural teeth, and bridges with their pontics."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import Annotated, Final

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, InputError, refuse
from kinematics.tooth_codes import check_code, is_upper

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)
_Name = Annotated[str, Field(min_length=1, max_length=80)]


def unlike_teeth(what: str, codes: Sequence[int]) -> Iterator[Contradiction]:
    """Yield what keeps some teeth from being one appliance: no teeth, named twice, two arches."""
    arches = set()
    for code in codes:
        try:
            arches.add(is_upper(check_code(code, f"tooth of {what}")))
        except InputError as error:
            yield (), str(error)
    if len(set(codes)) != len(codes):
        yield (), f"{what}: a tooth is named twice among {list(codes)}"
    if len(arches) > 1:
        yield (), f"{what}: {list(codes)} stand in both arches; name teeth of one"


@dataclass(frozen=True, config=_STRICT)
class Splint:
    """Natural teeth joined rigidly: none moves without the others.

    Attributes
    ----------
    name : str
        What to call it.
    teeth : tuple of int
        ISO 3950 numbers, two or more of one arch.
    """

    name: _Name
    teeth: Annotated[tuple[int, ...], Field(min_length=2)]

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "Splint":
        refuse(unlike_teeth(f"splint '{self.name}'", self.teeth))
        return self

    @property
    def joined(self) -> tuple[int, ...]:
        """All teeth that hold each other."""
        return self.teeth

    @property
    def called(self) -> str:
        """Kind and name, as a sentence says it."""
        return f"splint '{self.name}'"


@dataclass(frozen=True, config=_STRICT)
class Bridge:
    """Pontics between or behind abutments (fixed dental prosthesis).

    A pontic is set up against its opponents like a replacement tooth, but teeth carry it: it is
    judged as natural teeth are.

    Attributes
    ----------
    name : str
        What to call it.
    pontics : tuple of int
        ISO 3950 numbers of the teeth it replaces.
    abutments : tuple of int
        Natural teeth of the same arch that carry it.
    """

    name: _Name
    pontics: Annotated[tuple[int, ...], Field(min_length=1)]
    abutments: Annotated[tuple[int, ...], Field(min_length=1)]

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "Bridge":
        refuse(unlike_teeth(f"bridge '{self.name}'", self.joined))
        return self

    @property
    def joined(self) -> tuple[int, ...]:
        """All teeth that hold each other."""
        return (*self.abutments, *self.pontics)

    @property
    def called(self) -> str:
        """Kind and name, as a sentence says it."""
        return f"bridge '{self.name}'"


Joined = Splint | Bridge


def joined_contradictions(
    units: Sequence[Joined], may_have: Callable[[int], bool], on_bases: Sequence[int]
) -> Iterator[Contradiction]:
    """Yield what the dentition, the bases or each other do not leave to splints and bridges.

    Parameters
    ----------
    units : sequence of Splint or Bridge
        All of a case.
    may_have : callable
        Tells whether there may be a tooth of a number.
    on_bases : sequence of int
        Teeth of denture bases.
    """
    for name, count in Counter(unit.called for unit in units).items():
        if count > 1:
            yield (), f"{name} stands {count} times; give each its own name"
    for unit in units:
        for code in unit.joined:
            if not may_have(code):
                yield (
                    (),
                    f"{unit.called}: the dentition has no tooth {code}; name teeth that are "
                    "there: abutments and splinted teeth are not in dentition.missing",
                )
            elif code in on_bases:
                yield (
                    (),
                    f"{unit.called}: {code} stands on a denture base; join natural teeth and "
                    "pontics only",
                )


def holder_of(
    code: int, joined: Sequence[Joined], with_stop: frozenset[int]
) -> tuple[Joined, tuple[int, ...]] | None:
    """Return what keeps a tooth without a stop in its place, and the teeth with stops in it.

    Parameters
    ----------
    code : int
        ISO 3950 number of a tooth without a centric stop.
    joined : sequence of Splint or Bridge
        What joins teeth.
    with_stop : frozenset of int
        Teeth with a centric stop.

    Returns
    -------
    (Splint or Bridge, tuple of int) or None
        None where nothing joins it to a tooth that has a stop.
    """
    for unit in joined:
        holding = tuple(other for other in unit.joined if other in with_stop)
        if code in unit.joined and holding:
            return unit, holding
    return None
