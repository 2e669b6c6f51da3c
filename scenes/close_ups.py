"""A close look at the tooth a finding speaks of: a part of the picture of its arch."""

from collections.abc import Container
from dataclasses import dataclass
from typing import Final

from kinematics.checkup_result import Checkup
from kinematics.planning.findings import Finding
from kinematics.tooth_codes import is_upper
from scenes.arch_scenes import LOWER, UPPER, occlusal_view
from scenes.finding_places import OFF_AXIS, places_on
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
    places_mm : tuple of (float, float)
        What the finding speaks of there.
    caption : str
        The tooth, and what the circles about the places mean.
    """

    side: str
    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    window_mm: float
    ring: Ring
    places_mm: tuple[tuple[float, float], ...]
    caption: str


def close_up(
    finding: Finding, checkup: Checkup, replacement_teeth: Container[int] = ()
) -> CloseUp | None:
    """Return a look at one tooth of a finding; None where it names none.

    That is its replacement tooth if it has one, else the upper tooth, else the lower.

    Parameters
    ----------
    finding : Finding
        Its places are marked.
    checkup : Checkup
        The arches, and the results that it was found in.
    replacement_teeth : container of int
        ISO 3950 numbers.
    """
    code = _tooth_of(finding, replacement_teeth)
    if code is None:
        return None
    arch, side = (checkup.upper, UPPER) if is_upper(code) else (checkup.lower, LOWER)
    ringed = ringed_arch(arch, side, (code,))
    if ringed is None:
        return None
    (ring,) = ringed.rings
    seen = occlusal_view(arch, side).project(places_on(finding, code, checkup))
    places = tuple(
        (0.5 * ringed.width_mm + float(right), 0.5 * ringed.height_mm - float(up))
        for right, up in seen
    )
    return CloseUp(
        side,
        ringed.width_mm,
        ringed.height_mm,
        ring.x_mm - 0.5 * WINDOW_MM,
        ring.y_mm - 0.5 * WINDOW_MM,
        WINDOW_MM,
        ring,
        places,
        _caption(finding, code, len(places)),
    )


def _tooth_of(finding: Finding, replacement_teeth: Container[int]) -> int | None:
    """Return the tooth to look at."""
    teeth = [code for code in (finding.tooth_upper, finding.tooth_lower) if code]
    return next((code for code in teeth if code in replacement_teeth), next(iter(teeth), None))


def _caption(finding: Finding, code: int, places: int) -> str:
    if not places:
        return str(code)
    if finding.kind == OFF_AXIS:
        return f"{code}; circles: its stops" if places > 1 else f"{code}; circle: its stop"
    return f"{code}; circle: the place"
