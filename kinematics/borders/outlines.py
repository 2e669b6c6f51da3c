"""The outlines of border movements, from where they turn."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.borders.lines import (
    ARCH,
    ARCH_AHEAD,
    FORWARD,
    HINGE_OPENING,
    ON_TEETH,
    OPENING,
    PROTRUDED,
    WITH_TRANSLATION,
    BorderLine,
    advances_mm,
    line_on_teeth,
    line_without_teeth,
)
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.places import Places
from kinematics.conventions import LEFT, RIGHT, Floats
from kinematics.guidance.excursions import (
    Excursion,
    along,
    greatest_progress,
    left_lateral,
    protrusion,
    right_lateral,
    shift_breaks,
)
from kinematics.guidance.mandible import CENTRIC_RELATION

#: How many places the lines without teeth have.
_COUNT: Final = 61
#: Column of a side among advances (n, 2).
_COLUMN: Final = {RIGHT: 0, LEFT: 1}


@dataclass(frozen=True)
class Ends:
    """Where the outlines turn; advances (right, left) in mm, openings in radians.

    Attributes
    ----------
    hinge_rad, greatest_rad : float
        Openings at the limit of the hinge opening, and at the greatest one.
    back_rad, ahead_rad : float
        Openings at closure in CR and in the greatest protrusion.
    ahead_mm, open_mm : ndarray, shape (2,)
        Advances in the greatest protrusion and at the greatest opening.
    """

    hinge_rad: float
    greatest_rad: float
    back_rad: float
    ahead_rad: float
    ahead_mm: Floats
    open_mm: Floats


def _between(start: Floats | float, end: Floats | float, share: Floats) -> Floats:
    """Return what lies between, (n,) or (n, 2); both ends as they are."""
    first, last = np.asarray(start), np.asarray(end)
    part = share.reshape(-1, *(1 for _ in first.shape))
    return np.asarray((1.0 - part) * first + part * last)


def side_lines(casts: MountedCasts, ends: Ends) -> tuple[BorderLine, ...]:
    """Return hinge opening, opening with translation, and what bounds the jaw in front."""
    share, still = np.linspace(0.0, 1.0, _COUNT), np.zeros(_COUNT)
    opening = _between(ends.back_rad, ends.hinge_rad, share)
    held = np.zeros((_COUNT, 2))
    hinge = line_without_teeth(casts, HINGE_OPENING, "side", held, still, opening)
    opening = _between(ends.hinge_rad, ends.greatest_rad, share)
    advances = _between(np.zeros(2), ends.open_mm, share)
    further = line_without_teeth(casts, WITH_TRANSLATION, "side", advances, still, opening)
    opening = _between(ends.ahead_rad, ends.greatest_rad, share)
    advances = _between(ends.ahead_mm, ends.open_mm, share)
    shift = _between(casts.mi.shift_mm, 0.0, share)
    return hinge, further, line_without_teeth(casts, PROTRUDED, "side", advances, shift, opening)


def front_lines(casts: MountedCasts, ends: Ends, aside: dict[int, Places]) -> list[BorderLine]:
    """Return what bounds the jaw to either side: teeth above, then as far aside as it opens.

    The nonworking condyle stands as far forward, the working one as far back as it can.
    """
    lines = []
    for side in (RIGHT, LEFT):
        lines.append(line_on_teeth(ON_TEETH[side], "front", aside[side]))
        last = aside[side]
        first_rad = float(last.closure.opening_rad[-1])
        opening = np.unique(
            [*np.linspace(first_rad, ends.greatest_rad, _COUNT), max(first_rad, ends.hinge_rad)]
        )
        ahead = (opening - first_rad) / (ends.greatest_rad - first_rad)
        drawn = np.clip((opening - ends.hinge_rad) / (ends.greatest_rad - ends.hinge_rad), 0.0, 1.0)
        start = advances_mm(last)[-1]
        share = np.stack([drawn, ahead] if side == RIGHT else [ahead, drawn], axis=1)
        advances = (1.0 - share) * start + share * ends.open_mm
        shift = _between(float(last.positions.shift_mm[-1]), 0.0, drawn)
        lines.append(line_without_teeth(casts, OPENING[side], "front", advances, shift, opening))
    return lines


def lines_from_above(casts: MountedCasts, ends: Ends, aside: dict[int, Places]) -> list[BorderLine]:
    """Return the gothic arch to its limits, and what closes it in front."""
    straight = float(ends.ahead_mm.min())
    lines = [_arm(casts, ARCH_AHEAD, protrusion("CR"), RIGHT, straight)]
    for side, excursion in ((RIGHT, right_lateral("CR")), (LEFT, left_lateral("CR"))):
        leads = -side
        last_mm = float(advances_mm(aside[side])[-1, _COLUMN[leads]])
        lines.append(_arm(casts, ARCH[side], excursion, leads, last_mm))
    share = np.linspace(0.0, 1.0, _COUNT)
    for side, arm in zip((RIGHT, LEFT), lines[1:], strict=True):
        at = arm.positions
        start = np.array([at.advance_right_mm[-1], at.advance_left_mm[-1]])
        advances = _between(start, np.full(2, straight), share)
        shift = _between(float(at.shift_mm[-1]), 0.0, share)
        lines.append(line_without_teeth(casts, FORWARD[side], "above", advances, shift))
    return lines


def _arm(
    casts: MountedCasts, name: str, excursion: Excursion, leads: int, last_mm: float
) -> BorderLine:
    """Return one arm of the gothic arch, until the leading condyle has advanced so far."""
    guidance = casts.guidance
    end = greatest_progress(guidance, excursion, CENTRIC_RELATION)
    progress = np.linspace(0.0, end, _COUNT)
    advance = along(guidance, excursion, CENTRIC_RELATION, progress)[_COLUMN[leads]]
    # While the jaw only shifts, progress grows and the advance does not: that is at the start.
    last = float(np.interp(last_mm, advance, progress))
    breaks = shift_breaks(guidance, excursion, CENTRIC_RELATION)
    steps = np.unique([*np.linspace(0.0, last, _COUNT), *breaks[breaks < last]])
    right, left, shift = along(guidance, excursion, CENTRIC_RELATION, steps)
    return line_without_teeth(casts, name, "above", np.stack([right, left], axis=1), shift)
