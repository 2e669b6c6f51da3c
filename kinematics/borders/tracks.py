"""Border excursions from CR without teeth: gothic arch, condylar tracks, Bennett readings."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.contact.mounted import MountedCasts, incisal_points
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion, along, greatest_progress, shift_breaks
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import CENTRIC_RELATION, JawPositions, place
from kinematics.guidance.readings import bennett_angles

#: How far a border excursion is followed, mm of progress: the published means of protrusion (8.0)
#: and of lateral excursion (9.2, 9.4 mm at the incisors; Woelfel, Igarashi and Dong, J Adv
#: Prosthodont 2014;6(6)) need about this much at the condyle.
LONGEST_MM: Final = 10.0
STEP_MM: Final = 0.1
#: Advance at which the Bennett angle of a border excursion is read, mm.
BENNETT_AT_MM: Final = 5.0


@dataclass(frozen=True)
class BorderTrack:
    """A border excursion without teeth, from CR (gothic arch, Bennett readings).

    Attributes
    ----------
    name : str
        Name of the excursion.
    incisal_point, condyle_right, condyle_left : ndarray, shape (n, 3)
        Tracks in the hinge frame, mm.
    advance_mm : ndarray, shape (n,)
        Advance of the farther condyle.
    bennett_deg : float or None
        Bennett angle of a lateral excursion.
    bennett_read_at_mm : float or None
        The advance at which it was read.
    """

    name: str
    incisal_point: Floats
    condyle_right: Floats
    condyle_left: Floats
    advance_mm: Floats
    bennett_deg: float | None
    bennett_read_at_mm: float | None


def border_track(casts: MountedCasts, excursion: Excursion) -> BorderTrack:
    """Follow a border excursion from CR, on the guide table or else at the opening of MI.

    Parameters
    ----------
    casts : MountedCasts
        Its teeth take no part.
    excursion : Excursion
        Protrusion or a lateral excursion; started in CR whatever it says.
    """
    last = min(greatest_progress(casts.guidance, excursion, CENTRIC_RELATION), LONGEST_MM)
    steps = np.linspace(0.0, last, round(last / STEP_MM) + 1)
    breaks = shift_breaks(casts.guidance, excursion, CENTRIC_RELATION)
    progress = np.unique(np.concatenate([steps, breaks[breaks < last]]))
    positions = place(casts.guidance, *along(casts.guidance, excursion, CENTRIC_RELATION, progress))
    opening = opening_without_teeth(casts, positions)
    readings = bennett_angles(positions)
    angle = read_at = None
    if len(readings.row):
        nearest = int(np.argmin(np.abs(readings.advance_mm - BENNETT_AT_MM)))
        angle = float(np.degrees(readings.angle_rad[nearest]))
        read_at = float(readings.advance_mm[nearest])
    return BorderTrack(
        excursion.name,
        incisal_points(casts, positions, opening),
        positions.condyle_right,
        positions.condyle_left,
        np.maximum(positions.advance_right_mm, positions.advance_left_mm),
        angle,
        read_at,
    )


def opening_without_teeth(casts: MountedCasts, positions: JawPositions) -> Floats:
    """Return the opening (n,), radians, of jaw positions on the guide table, else that of MI."""
    table = table_opening(casts.guidance, positions, casts.incisal_point, casts.incisal_point_in_mi)
    return np.where(np.isfinite(table), table, casts.mi.opening_rad)
