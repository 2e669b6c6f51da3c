"""By what the occlusal plane of an arch is judged."""

from typing import Annotated, Final

from pydantic import ConfigDict, Field
from pydantic.dataclasses import dataclass


@dataclass(frozen=True, config=ConfigDict(extra="forbid", allow_inf_nan=False))
class PlaneSettings:
    """What a tooth out of line with its arch is told by.

    Attributes
    ----------
    limit_mm : float, 0.1 to 3
        A back tooth that stands farther than this above or below the occlusal curve of the other
        teeth is told; reduction and build-up are reckoned to this distance.
    line_limit_mm : float, 0.2 to 5
        The same seen along the bite: how far supporting cusps may stand beside the line of the
        others, to the cheek or to the tongue.
    """

    limit_mm: Annotated[float, Field(ge=0.1, le=3.0)] = 0.5
    line_limit_mm: Annotated[float, Field(ge=0.2, le=5.0)] = 1.0


#: Where the defaults come from.
PLANE_SOURCES: Final = {
    "limit_mm": "chosen for this program: twice what teeth in line scatter by",
    "line_limit_mm": "chosen for this program",
}
