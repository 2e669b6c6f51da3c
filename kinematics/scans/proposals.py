"""Landmarks for mounting that labelled scans themselves offer, for a person to check."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH, Tooth
from kinematics.conventions import Floats
from kinematics.geometry.meshes import moved_mesh
from kinematics.geometry.poses import inverse, move_points
from kinematics.scans.head_frame import head_from_scan
from kinematics.scans.scanned_casts import LabelledCast, incisal_point_of, parted
from kinematics.scans.standing import check_standing, tooth_middles
from kinematics.scans.tooth_landmarks import landmarks_of_teeth
from kinematics.tooth_codes import is_right, place

#: Lower back teeth by their place, in the order in which they serve as the hind end of the
#: occlusal plane: second molars by definition, then what stands nearest to them.
_HINDMOST: Final = (7, 6, 8, 5, 4)


@dataclass(frozen=True)
class Proposal:
    """Landmarks of the lower arch in the coordinates of the scans, mm, and the teeth there are.

    Attributes
    ----------
    incisal_point, molar_right, molar_left : ndarray, shape (3,), or None
        See `ScanMounting`; None where the teeth for it are missing.
    molar_teeth : tuple of int
        Teeth whose cusps serve for `molar_right` and `molar_left`.
    teeth : tuple of int
        All labelled teeth.
    """

    incisal_point: Floats | None
    molar_right: Floats | None
    molar_left: Floats | None
    molar_teeth: tuple[int, ...]
    teeth: tuple[int, ...]

    @property
    def mean_value_points(self) -> tuple[Floats | None, Floats | None, Floats | None]:
        """The three landmarks, in the order of their keys."""
        return self.incisal_point, self.molar_right, self.molar_left


def proposed(upper: LabelledCast, lower: LabelledCast) -> Proposal:
    """Find the landmarks of mean-value mounting on two labelled casts.

    Raises
    ------
    InputError
        The casts do not stand as in a mouth, or lack teeth to tell by.
    """
    middles = [tooth_middles(cast.mesh, cast.codes) for cast in (upper, lower)]
    head = head_from_scan(*middles)
    check_standing(
        *({code: move_points(head, at[None])[0] for code, at in arch.items()} for arch in middles)
    )
    mesh, codes, _ = parted(moved_mesh(lower.mesh, head), lower.codes, "lower")
    teeth = landmarks_of_teeth(mesh, codes, "lower", lower.scan.name).teeth
    back = inverse(head)

    def in_scan(point: Floats | None) -> Floats | None:
        return None if point is None else np.asarray(move_points(back, point[None])[0])

    hind = [_hindmost(teeth, right) for right in (True, False)]
    right, left = (in_scan(None if tooth is None else _distobuccal(tooth)) for tooth in hind)
    return Proposal(
        in_scan(incisal_point_of(teeth)),
        right,
        left,
        tuple(tooth.code for tooth in hind if tooth is not None),
        tuple(sorted({*upper.codes.tolist(), *lower.codes.tolist()} - {NO_TOOTH})),
    )


def _hindmost(teeth: tuple[Tooth, ...], right: bool) -> Tooth | None:
    """Return the tooth of one side at which the occlusal plane ends behind."""
    there = {place(tooth.code): tooth for tooth in teeth if is_right(tooth.code) == right}
    return next((there[n] for n in _HINDMOST if n in there), None)


def _distobuccal(tooth: Tooth) -> Floats:
    """Return the tip of the hindmost buccal cusp: edges run from mesial to distal."""
    return tooth.edge[-1] if "DB" not in tooth.cusp_tips else tooth.cusp_tips["DB"]
