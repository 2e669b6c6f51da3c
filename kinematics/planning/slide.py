"""From the first contact in CR to MI: is it a slide, which way, and does it change height."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.contact.closure import MEETS
from kinematics.contact.sweep import Sweep
from kinematics.planning.contact_runs import point_of
from kinematics.planning.judging import JudgingSettings
from kinematics.tooth_codes import is_posterior

NO_SLIDE: Final = "none"
SLIDE: Final = "slide"
CONTACT_AREA: Final = "intercuspal contact area"

MESIAL: Final = "mesial"
DISTAL: Final = "distal"
#: Share of a contact normal forward or backward from which a surface is an incline: 15 degrees.
LEAST_INCLINE: Final = 0.26

#: Change of height that still counts as none: the contact tolerance of 0.02 mm.
LEVEL_MM: Final = 0.02


@dataclass(frozen=True)
class CentricSlide:
    """The slide, read at the lower incisal point.

    Attributes
    ----------
    first_contact_upper, first_contact_lower : int
        Teeth that meet first in CR.
    first_contact_point : tuple of float
        Hinge frame, mm.
    forward_mm, left_mm, up_mm : float
        From first contact in CR to MI.
    opening_cr_deg : float
        Opening at first contact in CR, less that of MI.
    kind : str
        "none", "slide" (changes height) or "intercuspal contact area" (does not).
    height_range_mm : float
        Highest less lowest place of the incisal point all the way from CR to MI.
    together : tuple of (int, int)
        Another tooth pair, upper and lower, that meets at once with the first: no farther than a
        centric stop may be from it along the closing arc.
    incline : str
        On which incline of the upper back tooth the first contact in CR lies: "mesial" where its
        surface looks forward, "distal" where it looks backward, empty where it hardly does either,
        on front teeth, and where there is no slide.
    """

    first_contact_upper: int
    first_contact_lower: int
    first_contact_point: tuple[float, float, float]
    forward_mm: float
    left_mm: float
    up_mm: float
    opening_cr_deg: float
    kind: str
    height_range_mm: float = 0.0
    together: tuple[tuple[int, int], ...] = ()
    incline: str = ""

    @property
    def length_mm(self) -> float:
        """Straight length of the slide."""
        return math.hypot(self.forward_mm, self.left_mm, self.up_mm)


def centric_slide(
    retrusion: Sweep, stop_tolerance_mm: float = JudgingSettings.stop_tolerance_mm
) -> CentricSlide:
    """Read the slide from a retrusion.

    It is none where the incisal point stays within 0.02 mm; an intercuspal contact area (a long
    centric) where its height stays within 0.02 mm over the whole length; a slide otherwise.

    Parameters
    ----------
    retrusion : Sweep
        From MI, its first pose, to CR, its last. A sweep of one pose where MI is CR.
    stop_tolerance_mm : float
        How far along the closing arc a centric stop may be.

    Raises
    ------
    InputError
        The arches do not meet in CR.
    """
    closures, track = retrusion.closures, retrusion.incisal_point
    if closures.status[-1] != MEETS:
        raise InputError(
            "centric slide: no part of the lower arch meets the upper in centric relation; check "
            "how the casts are mounted"
        )
    forward, left, up = point_of(track[0] - track[-1])
    height_range = float(np.ptp(track[:, 2]))
    if float(np.linalg.norm(track - track[0], axis=1).max()) <= LEVEL_MM:
        kind = NO_SLIDE
    else:
        kind = CONTACT_AREA if height_range <= LEVEL_MM else SLIDE
    return CentricSlide(
        first_contact_upper=int(closures.tooth_upper[-1]),
        first_contact_lower=int(closures.tooth_lower[-1]),
        first_contact_point=point_of(closures.point[-1]),
        forward_mm=forward,
        left_mm=left,
        up_mm=up,
        opening_cr_deg=math.degrees(retrusion.opening_rad[-1] - retrusion.opening_rad[0]),
        kind=kind,
        height_range_mm=height_range,
        together=_together(retrusion, stop_tolerance_mm),
        incline=_incline(retrusion) if kind == SLIDE else "",
    )


def _incline(retrusion: Sweep) -> str:
    """Return which way the upper surface looks at the first contact in CR."""
    code = int(retrusion.closures.tooth_upper[-1])
    if code <= 0 or not is_posterior(code):
        return ""
    # The normal points from lower to upper, so forward where the upper surface looks backward.
    forward = -float(retrusion.closures.normal[-1, 0])
    if abs(forward) < LEAST_INCLINE:
        return ""
    return MESIAL if forward > 0.0 else DISTAL


def _together(retrusion: Sweep, stop_tolerance_mm: float) -> tuple[tuple[int, int], ...]:
    """Return the pair that ties with the first contact in CR, if one does."""
    if float(retrusion.runner_up_gap_mm[-1]) > stop_tolerance_mm:
        return ()
    second = retrusion.runner_up
    return ((int(second.tooth_upper[-1]), int(second.tooth_lower[-1])),)
