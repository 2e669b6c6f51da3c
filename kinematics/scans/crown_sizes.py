"""How large crowns of permanent teeth are on the whole, to know where on a scan one may end."""

from dataclasses import dataclass
from typing import Final

from kinematics.tooth_codes import is_upper


@dataclass(frozen=True)
class CrownSize:
    """Mean size of a crown.

    Attributes
    ----------
    height_mm, mesiodistal_mm, buccolingual_mm : float
        From the cervical line to the edge or the highest cusp, along the arch, and across it.
    """

    height_mm: float
    mesiodistal_mm: float
    buccolingual_mm: float


#: From the midline. Wheeler's table (Ash & Nelson, Wheeler's Dental Anatomy, Physiology and
#: Occlusion), as reprinted in courses; central and lateral incisors, second premolars and first
#: molars of the upper arch were compared with a reprint, the others are from memory.
_UPPER: Final = (
    CrownSize(10.5, 8.5, 7.0),
    CrownSize(9.0, 6.5, 6.0),
    CrownSize(10.0, 7.5, 8.0),
    CrownSize(8.5, 7.0, 9.0),
    CrownSize(8.5, 7.0, 9.0),
    CrownSize(7.5, 10.0, 11.0),
    CrownSize(7.0, 9.0, 11.0),
    CrownSize(6.5, 8.5, 10.0),
)
_LOWER: Final = (
    CrownSize(9.0, 5.0, 6.0),
    CrownSize(9.5, 5.5, 6.5),
    CrownSize(11.0, 7.0, 7.5),
    CrownSize(8.5, 7.0, 7.5),
    CrownSize(8.0, 7.0, 8.0),
    CrownSize(7.5, 11.0, 10.5),
    CrownSize(7.0, 10.5, 10.0),
    CrownSize(7.0, 10.0, 9.5),
)


def crown_size(code: int) -> CrownSize:
    """Return the mean size of the crown of a permanent tooth, by its ISO 3950 number."""
    return (_UPPER if is_upper(code) else _LOWER)[code % 10 - 1]
