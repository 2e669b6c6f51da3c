"""A close look at the tooth a finding speaks of: a part of the picture of its arch."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checkup import Checkup
from kinematics.planning.findings import Finding
from scenes.arch_scenes import LOWER, UPPER, occlusal_view
from scenes.ringed_teeth import Ring, ringed_arch

#: Width and height of what is shown: a molar with its neighbours and numbers.
WINDOW_MM: Final = 26.0


@dataclass(frozen=True)
class CloseUp:
    """A window on the picture of an arch, mm from its upper left corner.

    Attributes
    ----------
    side : str
        "upper" or "lower".
    width_mm, height_mm : float
        Size of the whole picture.
    left_mm, top_mm, window_mm : float
        What is shown of it.
    ring : Ring
        Around the tooth.
    contact_mm : tuple of float or None
        Place of the contact; known on the upper arch, which stands still.
    """

    side: str
    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    window_mm: float
    ring: Ring
    contact_mm: tuple[float, float] | None


def close_up(finding: Finding, checkup: Checkup) -> CloseUp | None:
    """Return a look at the upper tooth of a finding, else at the lower one; None without a tooth.

    Parameters
    ----------
    finding : Finding
        Its `place` is marked on the upper arch.
    checkup : Checkup
        The arches.
    """
    on_upper = bool(finding.tooth_upper)
    code = finding.tooth_upper or finding.tooth_lower
    arch, side = (checkup.upper, UPPER) if on_upper else (checkup.lower, LOWER)
    ringed = ringed_arch(arch, side, (code,)) if code else None
    if ringed is None:
        return None
    (ring,) = ringed.rings
    contact = None
    if on_upper and finding.place is not None:
        right, up = occlusal_view(arch, side).project(np.array([finding.place]))[0]
        contact = (0.5 * ringed.width_mm + float(right), 0.5 * ringed.height_mm - float(up))
    return CloseUp(
        side,
        ringed.width_mm,
        ringed.height_mm,
        ring.x_mm - 0.5 * WINDOW_MM,
        ring.y_mm - 0.5 * WINDOW_MM,
        WINDOW_MM,
        ring,
        contact,
    )
