"""Landmarks for mean-value mounting on the teeth of a lower cast; whether given ones are they."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Tooth
from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.tooth_codes import is_right, place

#: Lower back teeth by their place, in the order in which they serve as the hind end of the
#: occlusal plane: second molars by definition, then what stands nearest to them.
_HINDMOST: Final = (7, 6, 8, 5, 4)
#: A point farther than this from the landmark it is named after was picked elsewhere: on another
#: tooth. Chosen for this program: one who clicks between incisors meets the gum behind them, some
#: 5 mm deeper; half a molar.
FARTHEST_MM: Final = {
    "incisal_point": 8.0,
    "lower_incisal_point": 8.0,
    "molar_right": 6.0,
    "molar_left": 6.0,
}


@dataclass(frozen=True)
class LowerLandmarks:
    """Landmarks of a lower arch, in the coordinates of its teeth, mm.

    Attributes
    ----------
    incisal_point, molar_right, molar_left : ndarray, shape (3,), or None
        See `ScanMounting`; None where the teeth for it are missing.
    molar_teeth : tuple of int
        Teeth whose cusps serve for `molar_right` and `molar_left`, of those that are there.
    """

    incisal_point: Floats | None
    molar_right: Floats | None
    molar_left: Floats | None
    molar_teeth: tuple[int, ...]


def lower_landmarks(teeth: tuple[Tooth, ...]) -> LowerLandmarks:
    """Return the landmarks that the teeth of a lower arch have."""
    hind = [_hindmost(teeth, right) for right in (True, False)]
    right, left = (None if tooth is None else _distobuccal(tooth) for tooth in hind)
    codes = tuple(tooth.code for tooth in hind if tooth is not None)
    return LowerLandmarks(incisal_point_of(teeth), right, left, codes)


def check_landmarks(given: Mapping[str, Floats], found: LowerLandmarks) -> None:
    """Demand that landmarks lie where the teeth they are named after have them.

    Parameters
    ----------
    given : mapping of str to ndarray, shape (3,)
        By names of `FARTHEST_MM`, in the same coordinates, mm.
    found : LowerLandmarks
        What the teeth have; nothing is asked of what they lack.

    Raises
    ------
    InputError
        Some lie elsewhere; each is named with its distance.
    """
    molars = {("right" if is_right(code) else "left"): code for code in found.molar_teeth}
    faults = []
    for name, point in given.items():
        landmark = getattr(found, name.removeprefix("lower_"))
        if landmark is None:
            continue
        off_mm = float(np.linalg.norm(point - landmark))
        if off_mm > FARTHEST_MM[name]:
            of = f"the distobuccal cusp tip of {molars.get(name.removeprefix('molar_'))}"
            where = "the mesial corners of 31 and 41" if "incisal" in name else of
            faults.append(
                f"{name}: lies {off_mm:.1f} mm from {where}; accepted are {FARTHEST_MM[name]:g} mm"
            )
    if faults:
        listed = "\n".join(f"  {text}" for text in faults)
        raise InputError(
            "landmarks of the lower cast do not lie on the teeth that the labels tell; are they in"
            " the coordinates of the upper scan, in mm, the jaw in MI, each on its own tooth, and"
            f" are the labels right?\n{listed}"
        )


def incisal_point_of(teeth: tuple[Tooth, ...]) -> Floats | None:
    """Return the point (3,) between the mesial corners of 31 and 41, None where both are missing.

    Of one alone it is its own corner.
    """
    corners = [tooth.edge[0] for tooth in teeth if tooth.code in (31, 41)]
    return np.asarray(np.mean(corners, axis=0)) if corners else None


def _hindmost(teeth: tuple[Tooth, ...], right: bool) -> Tooth | None:
    """Return the tooth of one side at which the occlusal plane ends behind."""
    there = {place(tooth.code): tooth for tooth in teeth if is_right(tooth.code) == right}
    return next((there[n] for n in _HINDMOST if n in there), None)


def _distobuccal(tooth: Tooth) -> Floats:
    """Return the tip of the hindmost buccal cusp: edges run from mesial to distal."""
    return tooth.edge[-1] if "DB" not in tooth.cusp_tips else tooth.cusp_tips["DB"]
