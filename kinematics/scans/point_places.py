"""Do points that were picked on casts lie on them? Those too far from their cast are named."""

from collections.abc import Mapping
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, part_of
from kinematics.geometry.nearest_points import nearest_on
from kinematics.geometry.poses import move_points
from kinematics.scans.picked_points import GUM_SEED, ON_LOWER, PickedPoint
from kinematics.scans.settings import Side
from kinematics.tooth_codes import is_upper

#: A seed or seat farther from its cast than this was picked on something else. Chosen for this
#: program: about ten times the roughness of a hand that picks on a drawn model.
FARTHEST_MM: Final = 1.0
#: The same of landmarks of the lower cast: of a cusp tip, which may be worn or set off by hand, and
#: of the incisal point, which may stand in a gap of the teeth, as high above the ridge as a crown.
#: Chosen for this program.
FARTHEST_OF_LANDMARKS_MM: Final = {
    **dict.fromkeys(("molar_right", "molar_left"), 3.0),
    **dict.fromkeys(("incisal_point", "lower_incisal_point"), 10.0),
}


def check_on_casts(
    points: tuple[PickedPoint, ...],
    casts: Mapping[Side, Mesh],
    cast_from_scan: Floats,
    codes: Mapping[Side, Ints],
) -> None:
    """Demand that points which belong to a cast lie on it, or as near as they must.

    Parameters
    ----------
    points : tuple of PickedPoint
        Those of the hinge axis and the reference plane lie off the casts, and are not looked at.
    casts : mapping of side to Mesh
        Both casts, the jaw in MI, mm.
    cast_from_scan : ndarray, shape (4, 4)
        Pose that brings the coordinates of the points to those of the casts.
    codes : mapping of side to ndarray, shape (m,)
        Tooth number of every triangle, by which points of a tooth must lie on that tooth; empty
        where teeth are not told.

    Raises
    ------
    InputError
        Some do not; each is named with its distance and with what is accepted.
    """
    faults = []
    for point in points:
        side = _side_of(point)
        if side is None:
            continue
        surface, where = casts[side], f"the surface of the {side} cast"
        if point.tooth is not None and side in codes:
            own = codes[side] == point.tooth
            if point.point == GUM_SEED:
                own = ~own
            if not own.any():
                faults.append(f"{point.called}: the {side} cast has no {point.tooth}")
                continue
            off = "the cast beside " if point.point == GUM_SEED else ""
            surface = part_of(surface, own)[0]
            where = f"{off}{point.tooth} as the labels tell it"
        _, apart_mm = nearest_on(surface, move_points(cast_from_scan, np.array([point.place])))
        if (mm := float(apart_mm[0])) > _farthest_mm(point):
            faults.append(
                f"{point.called}: lies {mm:.1f} mm from {where}; accepted are "
                f"{_farthest_mm(point):g} mm"
            )
    if faults:
        listed = "\n".join(f"  {text}" for text in faults)
        raise InputError(
            "points on the casts: are they in the coordinates of the upper scan, in mm, the jaw in "
            "MI (with a bite record: the lower moved there by it), each with its own tooth number?"
            f"\n{listed}"
        )


def _farthest_mm(point: PickedPoint) -> float:
    return FARTHEST_OF_LANDMARKS_MM.get(point.point, FARTHEST_MM)


def _side_of(point: PickedPoint) -> Side | None:
    """Return on which cast a point lies; None where on neither."""
    if point.tooth is None:
        return "lower" if point.point in ON_LOWER else None
    return "upper" if is_upper(point.tooth) else "lower"
