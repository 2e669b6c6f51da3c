"""Border movements of the jaw: the outlines of all that it reaches, seen from side, front, above.

Two outlines bound every opening: condyles as far back as they can be, and as far forward. Up to the
limit of the hinge opening they can stay in CR; from there they are drawn forward, evenly with the
opening, to where they stand at the greatest opening. Forward they reach what protrusion reaches
where teeth meet, and evenly with the opening the same place at the greatest one: condyles stand
farthest forward at the greatest opening, not in protrusion (Okeson, Management of Temporomandibular
Disorders and Occlusion, from memory). That both are even is chosen for this program.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.borders.lines import (
    CR_TO_MI,
    ON_TEETH,
    PROTRUSION,
    BorderLine,
    advances_mm,
    line_on_teeth,
    sideways_mm,
)
from kinematics.borders.openings import opening_at_way
from kinematics.borders.outlines import Ends, front_lines, lines_from_above, side_lines
from kinematics.borders.settings import BorderLimits
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.places import Places, horizontal_mm
from kinematics.contact.pose_rows import picked
from kinematics.contact.travel import places_at_travels
from kinematics.contact.workers import Workers
from kinematics.conventions import LEFT, RIGHT, Floats
from kinematics.guidance.excursions import (
    Excursion,
    left_lateral,
    protrusion,
    retrusion,
    right_lateral,
)
from kinematics.guidance.mandible import place

#: Travel from place to place on the teeth; longest way back.
_STEP_MM: Final = 0.1
_LONGEST_BACK_MM: Final = 15.0
#: A lateral excursion is followed so much farther than its limit, since it goes forward too.
_LONGER: Final = 1.4
#: What ends nearer than this to its limit has reached it, mm.
_SHORT_MM: Final = 0.01


@dataclass(frozen=True)
class BorderMovements:
    """All outlines, and how far they reach.

    Attributes
    ----------
    lines : tuple of BorderLine
        Those seen from the side, then from the front, then from above.
    incisal_point_in_mi, incisal_point_in_cr : ndarray, shape (3,)
        In MI, and at first contact in CR; hinge frame, mm.
    cut_short : tuple of str
        Which limits are not reached, and why.
    """

    lines: tuple[BorderLine, ...]
    incisal_point_in_mi: Floats
    incisal_point_in_cr: Floats
    cut_short: tuple[str, ...]

    def line(self, name: str) -> BorderLine:
        """Return one line by its name."""
        return next(line for line in self.lines if line.name == name)


def border_movements(
    casts: MountedCasts, limits: BorderLimits, workers: Workers
) -> BorderMovements:
    """Return the outlines of all that the jaw reaches.

    Parameters
    ----------
    casts : MountedCasts
        Casts, guidance and MI.
    limits : BorderLimits
        How far it goes at most.
    workers : Workers
        Threads.

    Raises
    ------
    InputError
        Nothing guides in MI; limits of opening that do not go together.
    """
    back = _on_teeth(casts, retrusion(), _LONGEST_BACK_MM, workers)
    ahead = _on_teeth(casts, protrusion(), limits.protrusion_mm, workers)
    aside = {
        RIGHT: _aside_on_teeth(casts, right_lateral(), limits.lateral_right_mm, workers),
        LEFT: _aside_on_teeth(casts, left_lateral(), limits.lateral_left_mm, workers),
    }
    ends = _ends(casts, limits, back, ahead, aside)
    lines = (
        line_on_teeth(CR_TO_MI, "side", picked(back, slice(None, None, -1))),
        line_on_teeth(PROTRUSION, "side", ahead),
        *side_lines(casts, ends),
        *front_lines(casts, ends, aside),
        *lines_from_above(casts, ends, aside),
    )
    short = (*_short_ways(limits, ahead, aside), *_short_advances(casts, limits))
    return BorderMovements(lines, casts.incisal_point_in_mi, back.incisal_point[-1], short)


def _on_teeth(
    casts: MountedCasts, excursion: Excursion, limit_mm: float, workers: Workers
) -> Places:
    """Return the closed places of an excursion up to its limit."""
    wanted = np.unique([*np.arange(0.0, limit_mm, _STEP_MM), limit_mm])
    (places,) = places_at_travels(casts, (excursion,), wanted, workers)
    return places


def _aside_on_teeth(
    casts: MountedCasts, excursion: Excursion, limit_mm: float, workers: Workers
) -> Places:
    """Return the closed places of a lateral excursion, until the point is so far to the side."""
    seen = _on_teeth(casts, excursion, _LONGER * limit_mm, workers)
    sideways = sideways_mm(seen.incisal_point)
    if sideways.max() <= limit_mm:
        return seen
    beyond = int(np.argmax(sideways > limit_mm))
    travel = horizontal_mm(seen.incisal_point - seen.incisal_point[0])
    around = slice(beyond - 1, beyond + 1)
    end_mm = float(np.interp(limit_mm, sideways[around], travel[around]))
    return _on_teeth(casts, excursion, end_mm, workers)


def _ends(
    casts: MountedCasts,
    limits: BorderLimits,
    back: Places,
    ahead: Places,
    aside: dict[int, Places],
) -> Ends:
    # Never less than on the teeth: condyles stand farthest forward at the greatest opening.
    reached = np.max([advances_mm(one)[-1] for one in (ahead, *aside.values())], axis=0)
    lengths = [side.path.length_mm for side in (casts.guidance.right, casts.guidance.left)]
    open_mm = np.minimum(np.maximum(limits.condylar_advance_mm, reached), lengths)
    point = casts.incisal_point
    seated, wide = (place(casts.guidance, *at).pose_at_zero[0] for at in ((0.0, 0.0), open_mm))
    hinge = opening_at_way(seated, point, back.incisal_point[-1], limits.hinge_opening_mm)
    greatest = opening_at_way(wide, point, casts.incisal_point_in_mi, limits.opening_mm)
    if hinge is None or greatest is None or hinge >= greatest:
        raise InputError(
            f"border_limits: hinge_opening_mm = {limits.hinge_opening_mm:g} and opening_mm = "
            f"{limits.opening_mm:g} do not go together with condylar advances of "
            f"{open_mm[0]:.1f} mm (right) and {open_mm[1]:.1f} mm (left): the jaw must be able to "
            "turn farther after its hinge opening; give a greater opening_mm"
        )
    return Ends(
        hinge,
        greatest,
        float(back.closure.opening_rad[-1]),
        float(ahead.closure.opening_rad[-1]),
        advances_mm(ahead)[-1],
        open_mm,
    )


def _short_ways(limits: BorderLimits, ahead: Places, aside: dict[int, Places]) -> list[str]:
    """Return which excursions on the teeth end before their limit."""
    forward = horizontal_mm(ahead.incisal_point - ahead.incisal_point[0])
    reached = (
        (PROTRUSION, forward, limits.protrusion_mm),
        (ON_TEETH[RIGHT], sideways_mm(aside[RIGHT].incisal_point), limits.lateral_right_mm),
        (ON_TEETH[LEFT], sideways_mm(aside[LEFT].incisal_point), limits.lateral_left_mm),
    )
    return [
        f"{name} ends at {way[-1]:.1f} mm, where a condylar path ends or nothing guides any more; "
        f"its limit is {limit_mm:g} mm"
        for name, way, limit_mm in reached
        if way[-1] < limit_mm - _SHORT_MM
    ]


def _short_advances(casts: MountedCasts, limits: BorderLimits) -> list[str]:
    """Return which condylar paths end before the advance at the greatest opening."""
    return [
        f"{side.name} condyle: its path is {side.path.length_mm:g} mm long, less than the "
        f"{limits.condylar_advance_mm:g} mm at the greatest opening"
        for side in (casts.guidance.right, casts.guidance.left)
        if side.path.length_mm < limits.condylar_advance_mm
    ]
