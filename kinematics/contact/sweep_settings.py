"""What a user sets about excursions: how finely and how far they are followed."""

from typing import Annotated, Final

from pydantic import ConfigDict, Field
from pydantic.dataclasses import dataclass

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)


@dataclass(frozen=True, config=_STRICT)
class SweepSettings:
    """How finely and how far excursions are followed.

    Attributes
    ----------
    step_mm : float, 0.02 to 1
        Horizontal travel of the lower incisal point from pose to pose.
    travel_mm : float, 1 to 12
        Travel at which an excursion ends.
    gap_limit_mm : float, 0.5 to 10
        Distance up to which gaps between teeth are measured.
    """

    step_mm: Annotated[float, Field(ge=0.02, le=1.0)] = 0.1
    travel_mm: Annotated[float, Field(ge=1.0, le=12.0)] = 6.0
    gap_limit_mm: Annotated[float, Field(ge=0.5, le=10.0)] = 3.0
