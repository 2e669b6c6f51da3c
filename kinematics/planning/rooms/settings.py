"""How much room rests and crowns want, and which crowns are planned."""

from collections.abc import Callable, Iterator, Sequence
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.tooth_codes import unknown_code

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

Material = Literal["metal", "ceramic", "metal-ceramic"]
Thickness = Annotated[float, Field(ge=0.2, le=4.0)]

#: Keys of a case.
ROOMS_KEY: Final = "rooms"
CROWNS_KEY: Final = "crowns"

REST_SOURCE: Final = (
    "metal 1.0 to 1.5 mm thick where it crosses the marginal ridge (textbook wording, by way of"
    " dentowesome.in, 2022)"
)
METAL_SOURCE: Final = (
    "metal crowns: 1.5 mm over functional cusps (Rosenstiel; Shillingburg), 1.0 mm over others"
    " (textbook, from memory)"
)
CERAMIC_SOURCE: Final = (
    "ceramic and metal-ceramic: 2.0 mm over functional cusps, 1.5 to 2.0 mm over others (textbook,"
    " from memory)"
)


@dataclass(frozen=True, config=_STRICT)
class RoomSettings:
    """How much room the metal of a rest wants above it, in MI and on every path.

    Attributes
    ----------
    rest_least_mm : float, 0.2 to 4
        Shortest distance to the opposing arch below which a rest has no room (metal where it
        crosses the marginal ridge is 1.0 to 1.5 mm thick: textbook, dentowesome.in, 2022).
    rest_wanted_mm : float, 0.2 to 4
        Below this its room is tight; not less than rest_least_mm (same source).
    """

    rest_least_mm: Thickness = 1.0
    rest_wanted_mm: Thickness = 1.5

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "RoomSettings":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        if self.rest_wanted_mm < self.rest_least_mm:
            yield (
                ("rest_least_mm", "rest_wanted_mm"),
                f"rest_wanted_mm = {self.rest_wanted_mm:g} is less than rest_least_mm = "
                f"{self.rest_least_mm:g}: give at least as much",
            )


@dataclass(frozen=True, config=_STRICT)
class PlannedCrown:
    """A crown that is planned or prepared for.

    Attributes
    ----------
    tooth : int
        ISO 3950 number of a natural tooth.
    material : "metal", "ceramic" or "metal-ceramic"
        What covers its cusps; it says how much room is wanted above them.
    prepared : bool
        The cast shows the prepared tooth; else it shows the tooth as it is.
    surveyed : bool
        It is to be a surveyed crown of a partial denture: room beside it is told too.
    """

    tooth: int
    material: Material
    prepared: bool = False
    surveyed: bool = False

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "PlannedCrown":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        yield from unknown_code(self.tooth, "tooth")


def crown_contradictions(
    crowns: Sequence[PlannedCrown], may_have: Callable[[int], bool], carried: Sequence[int]
) -> Iterator[Contradiction]:
    """Yield what is said of planned crowns and cannot be so.

    Parameters
    ----------
    crowns : sequence of PlannedCrown
        What the case says.
    may_have : callable
        Tells whether there may be such a tooth.
    carried : sequence of int
        ISO 3950 numbers of the teeth on bases and in bridges.
    """
    for number, crown in enumerate(crowns):
        where, key = f"{CROWNS_KEY}[{number}]", f"{CROWNS_KEY}[{number}].tooth"
        if crown.tooth in carried:
            what = "is a replacement tooth; a crown is planned on a natural tooth"
            yield (key,), f"{where}: {crown.tooth} {what}"
        elif not may_have(crown.tooth):
            yield (key,), f"{where}: tooth {crown.tooth} is not there; name a tooth that stands"
        if crown.tooth in {other.tooth for other in crowns[:number]}:
            yield (key,), f"{where}: a crown on {crown.tooth} stands twice; name it once"


@dataclass(frozen=True)
class Cover:
    """How thick a material lies over cusps, mm, and where that comes from."""

    functional_mm: float
    other_mm: float
    source: str


#: What each material wants over functional and over other cusps.
COVERS: Final[dict[Material, Cover]] = {
    "metal": Cover(1.5, 1.0, METAL_SOURCE),
    "ceramic": Cover(2.0, 1.5, CERAMIC_SOURCE),
    "metal-ceramic": Cover(2.0, 1.5, CERAMIC_SOURCE),
}
