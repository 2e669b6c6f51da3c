"""How much mean values differ from person to person, and what that does to a closed record."""

import math
from dataclasses import dataclass
from typing import Final

from kinematics.scans.settings import ScanMounting

#: Least and greatest of n = 120, angle; distance of the axis from the incisal point worked out of
#: the sides of the same triangles, 90.2 to 117.9 mm, over half the mean distance of the condyles
#: from each other, 49.8 mm (Int J Comput Dent 2015, PMID 26734666).
BALKWILL_DEG: Final = (9.0, 27.6)
_ARMS_MM: Final = (90.2, 117.9)
_HALF_BASE_MM: Final = 49.8
AXIS_INCISAL_MM: Final = (
    math.sqrt(_ARMS_MM[0] ** 2 - _HALF_BASE_MM**2),
    math.sqrt(_ARMS_MM[1] ** 2 - _HALF_BASE_MM**2),
)
#: Thickness of the record, at the incisal point, for which errors are told.
RECORD_MM: Final = 2.0


@dataclass(frozen=True)
class MeanValue:
    """One value of a mean-value mounting, and what people who differ from it would get.

    Attributes
    ----------
    name : str
        Key of the setting; its ending is the unit.
    used : float
        As set.
    least, greatest : float
        Of the people who were measured.
    error_least_mm, error_greatest_mm : float
        By how much all teeth are displaced in a person with that value when a record is closed that
        is `RECORD_MM` thick at the incisal point.
    """

    name: str
    used: float
    least: float
    greatest: float
    error_least_mm: float
    error_greatest_mm: float


def mean_values(mounting: ScanMounting) -> tuple[MeanValue, ...]:
    """Return the mean values of a mounting with what they may be worth; none of other kinds.

    Parameters
    ----------
    mounting : ScanMounting
        How casts were mounted.
    """
    if mounting.kind != "mean values":
        return ()
    length_mm, angle_deg = mounting.axis_incisal_mm, mounting.balkwill_deg
    return (
        MeanValue(
            "axis_incisal_mm",
            length_mm,
            *AXIS_INCISAL_MM,
            *(closing_error_mm(mounting, true, angle_deg) for true in AXIS_INCISAL_MM),
        ),
        MeanValue(
            "balkwill_deg",
            angle_deg,
            *BALKWILL_DEG,
            *(closing_error_mm(mounting, length_mm, true) for true in BALKWILL_DEG),
        ),
    )


def closing_error_mm(
    mounting: ScanMounting,
    axis_incisal_mm: float,
    balkwill_deg: float,
    record_mm: float = RECORD_MM,
) -> float:
    """Return by how much closing a record about the mean axis displaces every tooth, mm.

    Two turns by equal and opposite angles about parallel axes leave a displacement of 2 e sin(t/2),
    e being the distance of the axes and t the angle (geometry).

    Parameters
    ----------
    mounting : ScanMounting
        Its mean values were used.
    axis_incisal_mm, balkwill_deg : float
        Where the axis of the person really lies.
    record_mm : float
        Thickness of the record at the incisal point.
    """
    used_mm, turn = mounting.axis_incisal_mm, math.radians(balkwill_deg - mounting.balkwill_deg)
    apart_mm = math.sqrt(
        used_mm**2 + axis_incisal_mm**2 - 2.0 * used_mm * axis_incisal_mm * math.cos(turn)
    )
    return apart_mm * record_mm / used_mm  # 2 sin(t/2) is the chord of the record
