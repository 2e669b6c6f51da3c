"""Border movements made by hand, without casts: every line, few places each."""

import numpy as np

from kinematics.borders import lines as names
from kinematics.borders.lines import BorderLine
from kinematics.borders.movements import BorderMovements
from kinematics.conventions import LEFT, RIGHT
from kinematics.geometry.poses import move_points
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import opened, place
from kinematics.guidance.settings import GuidanceSettings

_GUIDANCE = prepare(GuidanceSettings())
_POINT = np.array([84.0, 0.0, -33.0])
#: Advances right and left and opening where each line begins and ends, mm and degrees.
_WAYS = {
    names.CR_TO_MI: ("side", True, (0.0, 0.0, 0.2), (0.3, 0.3, 0.0)),
    names.PROTRUSION: ("side", True, (0.3, 0.3, 0.0), (8.0, 8.0, -1.5)),
    names.HINGE_OPENING: ("side", False, (0.0, 0.0, 0.2), (0.0, 0.0, 11.0)),
    names.WITH_TRANSLATION: ("side", False, (0.0, 0.0, 11.0), (14.0, 14.0, 32.0)),
    names.PROTRUDED: ("side", False, (8.0, 8.0, -1.5), (14.0, 14.0, 32.0)),
    names.ON_TEETH[RIGHT]: ("front", True, (0.3, 0.3, 0.0), (0.3, 9.0, -0.5)),
    names.OPENING[RIGHT]: ("front", False, (0.3, 9.0, -0.5), (14.0, 14.0, 32.0)),
    names.ON_TEETH[LEFT]: ("front", True, (0.3, 0.3, 0.0), (9.0, 0.3, -0.5)),
    names.OPENING[LEFT]: ("front", False, (9.0, 0.3, -0.5), (14.0, 14.0, 32.0)),
    names.ARCH_AHEAD: ("above", False, (0.0, 0.0, 0.0), (8.0, 8.0, 0.0)),
    names.ARCH[RIGHT]: ("above", False, (0.0, 0.0, 0.0), (0.0, 9.0, 0.0)),
    names.ARCH[LEFT]: ("above", False, (0.0, 0.0, 0.0), (9.0, 0.0, 0.0)),
    names.FORWARD[RIGHT]: ("above", False, (0.0, 9.0, 0.0), (8.0, 8.0, 0.0)),
    names.FORWARD[LEFT]: ("above", False, (9.0, 0.0, 0.0), (8.0, 8.0, 0.0)),
}


def made_borders():
    """Return border movements of no casts."""
    lines = []
    for name, (seen, on_teeth, start, end) in _WAYS.items():
        right, left, opening_deg = np.linspace(start, end, 4).T
        positions, opening = place(_GUIDANCE, right, left), np.radians(opening_deg)
        points = move_points(opened(positions, opening), _POINT[None])[:, 0]
        lines.append(BorderLine(name, seen, on_teeth, positions, opening, points))
    by_name = {line.name: line.incisal_point for line in lines}
    return BorderMovements(
        tuple(lines), by_name[names.PROTRUSION][0], by_name[names.CR_TO_MI][0], ()
    )
