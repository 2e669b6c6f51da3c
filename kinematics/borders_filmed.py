"""Border movements in motion, in even steps of the way of the lower incisal point, for films."""

from typing import Final

import numpy as np

from kinematics.borders.lines import (
    CR_TO_MI,
    HINGE_OPENING,
    PROTRUDED,
    PROTRUSION,
    WITH_TRANSLATION,
    BorderLine,
)
from kinematics.borders.movements import BorderMovements
from kinematics.case import Case
from kinematics.case_filmed import Filmed, filmed_at
from kinematics.contact.mounted import GUIDED_BY_NOTHING, MountedCasts, guided_closure
from kinematics.contact.pose_rows import picked
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import place

#: Condyles as far back as they can be, from first contact in CR to the greatest opening.
OPENING: Final = Excursion("opening", 0.0, "CR")
#: All that bounds the jaw seen from the side, once round from MI.
ROUND: Final = Excursion("border movement", 0.0, "MI")
#: Lines of each, in the order in which the jaw passes them, and which of them it passes backward.
_LINES: Final = {
    OPENING: ((HINGE_OPENING, False), (WITH_TRANSLATION, False)),
    ROUND: (
        (CR_TO_MI, True),
        (HINGE_OPENING, False),
        (WITH_TRANSLATION, False),
        (PROTRUDED, True),
        (PROTRUSION, True),
    ),
}


def filmed_border(
    case: Case,
    casts: MountedCasts,
    found: BorderMovements,
    movement: Excursion,
    step_mm: float,
    workers: Workers,
) -> Filmed:
    """Move the casts of a case along its border movements as seen from the side.

    Parameters
    ----------
    case : Case
        Its tolerance says what touches, its gap limit how far gaps are told.
    casts : MountedCasts
        Its teeth, mounted.
    found : BorderMovements
        Its outlines.
    movement : Excursion
        `OPENING` or `ROUND`.
    step_mm : float
        Way of the lower incisal point from pose to pose.
    workers : Workers
        Threads.
    """
    lines = [found.line(name) for name, _ in _LINES[movement]]
    rows = [_rows(line, back) for line, (_, back) in zip(lines, _LINES[movement], strict=True)]
    points = np.concatenate([row[:, 4:] for row in rows])
    way = np.append(0.0, np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1)))
    wanted = np.append(np.arange(0.0, way[-1] - 1e-6, step_mm), way[-1])
    ends = way[np.cumsum([len(row) for row in rows]) - 1]
    of_line = np.minimum(np.searchsorted(ends, wanted, side="left"), len(lines) - 1)
    right, left, shift, opening = (
        np.interp(wanted, way, column) for column in np.concatenate(rows)[:, :4].T
    )
    positions = place(casts.guidance, right, left, shift)
    # Between two places on the teeth they would meet before or after what lies evenly between.
    guide = np.full(len(wanted), GUIDED_BY_NOTHING)
    held = np.array([line.on_teeth for line in lines])[of_line]
    first = np.full((len(wanted), 3), np.nan)
    if held.any():
        closed = guided_closure(casts, picked(positions, held), workers)
        opening[held], guide[held], first[held] = (
            closed.opening_rad, closed.guide, closed.teeth.point,
        )  # fmt: skip
    phases = tuple(lines[number].name for number in of_line)
    return filmed_at(
        case, casts, movement, wanted, (positions, opening), (guide, first), phases, workers
    )


def _rows(line: BorderLine, back: bool) -> Floats:
    """Return advances, shift, opening and incisal point (n, 7) of a line as the jaw passes it."""
    at = line.positions
    columns = (at.advance_right_mm, at.advance_left_mm, at.shift_mm, line.opening_rad)
    rows = np.column_stack([*columns, line.incisal_point])
    return rows[::-1] if back else rows
