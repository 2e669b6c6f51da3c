"""Landmarks for mounting that labelled scans themselves offer, for a person to check."""

from dataclasses import dataclass

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.conventions import Floats
from kinematics.geometry.meshes import moved_mesh
from kinematics.geometry.poses import inverse, move_points
from kinematics.scans.head_frame import head_from_scan
from kinematics.scans.lower_landmarks import LowerLandmarks, lower_landmarks
from kinematics.scans.scanned_casts import LabelledCast, parted
from kinematics.scans.standing import check_standing, tooth_middles
from kinematics.scans.tooth_landmarks import landmarks_of_teeth


@dataclass(frozen=True)
class Proposal(LowerLandmarks):
    """Landmarks of the lower arch in the coordinates of the scans, mm, and the teeth there are.

    Attributes
    ----------
    teeth : tuple of int
        All labelled teeth.
    """

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

    found = lower_landmarks(teeth)
    return Proposal(
        in_scan(found.incisal_point),
        in_scan(found.molar_right),
        in_scan(found.molar_left),
        found.molar_teeth,
        tuple(sorted({*upper.codes.tolist(), *lower.codes.tolist()} - {NO_TOOTH})),
    )
