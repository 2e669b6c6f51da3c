"""How far the jaw goes at most: what ligaments and joints allow, which no cast shows."""

from typing import Annotated, Final

from pydantic import ConfigDict, Field
from pydantic.dataclasses import dataclass

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)


@dataclass(frozen=True, config=_STRICT)
class BorderLimits:
    """Limits of border movements, measured on the patient; else means of many people.

    Defaults: Woelfel, Igarashi and Dong, J Adv Prosthodont 2014;6(6), n = 316; of the condyles
    Kordass et al., Int J Comput Dent 2014;17(1):9-20, n = 259 (14.5 mm right, 15.1 mm left).

    Attributes
    ----------
    opening_mm : float, 20 to 80
        Greatest opening: straight way of the lower incisal point from MI.
    hinge_opening_mm : float, 5 to 40
        Opening about the hinge axis alone, condyles in CR: straight way of the same point from
        first contact in CR.
    protrusion_mm : float, 1 to 15
        Greatest protrusion on the teeth: horizontal travel of this point from MI.
    lateral_right_mm : float, 1 to 15
        Greatest right lateral excursion on the teeth: how far the same point goes to the right.
    lateral_left_mm : float, 1 to 15
        The same to the left.
    condylar_advance_mm : float, 1 to 25
        How far both condyles have advanced from CR at the greatest opening.
    """

    opening_mm: Annotated[float, Field(ge=20.0, le=80.0)] = 51.2
    hinge_opening_mm: Annotated[float, Field(ge=5.0, le=40.0)] = 17.2
    protrusion_mm: Annotated[float, Field(ge=1.0, le=15.0)] = 8.0
    lateral_right_mm: Annotated[float, Field(ge=1.0, le=15.0)] = 9.3
    lateral_left_mm: Annotated[float, Field(ge=1.0, le=15.0)] = 9.3
    condylar_advance_mm: Annotated[float, Field(ge=1.0, le=25.0)] = 14.8
