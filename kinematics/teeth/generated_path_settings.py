"""What a user sets about teeth formed by a functionally generated path."""

from collections import Counter
from collections.abc import Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.guidance.settings import IncisalTable
from kinematics.tooth_codes import PERMANENT, is_upper

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

#: Teeth that can be formed: the upper ones.
FORMED: Final = tuple(code for code in PERMANENT if is_upper(code))
#: The contact on the way from MI back to CR.
RETRUSIVE: Final = "retrusion"
#: Which contacts the named teeth share.
Contact = Literal["working", "nonworking", "protrusion", "retrusion"]


@dataclass(frozen=True, config=_STRICT)
class GeneratedPath:
    """Upper teeth formed by the movement of the lower ones on a guide table.

    A functionally generated path (Glossary of Prosthodontic Terms). Formed after the teeth have
    settled into MI; the stops there are kept.

    Attributes
    ----------
    teeth : tuple of int
        Upper teeth that share contact along the path. All others are cut where they would touch.
    spared : tuple of int
        Upper teeth that are left as they are, though they may stand in the way.
    contacts : tuple of "working", "nonworking", "protrusion", "retrusion"
        In which movements they share it; in the others they are cut to the clearance. With
        "protrusion", lateroprotrusions of 45 degrees are followed too; without it straight
        protrusion is left as it is. With "retrusion" the whole way from MI back to CR is followed
        at one height of the incisal point, whatever the table: an intercuspal contact area (long
        centric); alone, it leaves all other movements as they are.
    table : IncisalTable
        Guide table on which the lower incisal point moves while the teeth are formed; flatter than
        what guides the teeth otherwise, or they will not reach it.
    reach_mm : float, 0.5 to 5
        Up to which travel of the lower incisal point.
    build_up_mm : float, 0 to 1.5
        How much may be added to the teeth named, along the closing arc.
    clearance_mm : float, 0 to 0.5
        How far teeth that are not to touch stay away, along the closing arc at the incisal point.
    """

    teeth: tuple[int, ...]
    spared: tuple[int, ...] = ()
    contacts: tuple[Contact, ...] = ("working",)
    table: IncisalTable = IncisalTable()
    reach_mm: Annotated[float, Field(ge=0.5, le=5.0)] = 3.0
    build_up_mm: Annotated[float, Field(ge=0.0, le=1.5)] = 0.6
    clearance_mm: Annotated[float, Field(ge=0.0, le=0.5)] = 0.1

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "GeneratedPath":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        known = ", ".join(map(str, FORMED))
        for name, what in (("teeth", "formed by the path"), ("spared", "left as they are")):
            for code, count in Counter(getattr(self, name)).items():
                if code not in FORMED:
                    yield (name,), f"{code}: teeth {what} may be any of {known} (ISO 3950)"
                elif count > 1:
                    yield (name,), f"{code} stands {count} times in {name}; name it once"
        for code in sorted({*self.teeth} & {*self.spared}):
            yield ("teeth", "spared"), f"{code} is both in teeth and in spared; leave one out"
        if not self.teeth:
            yield ("teeth",), f"teeth names none; accepted are {known} (ISO 3950)"
