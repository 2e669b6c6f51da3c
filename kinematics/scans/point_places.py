"""Do points that were picked on casts lie on them? Those too far from their cast are named."""

from collections.abc import Mapping
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.nearest_points import nearest_on
from kinematics.geometry.poses import move_points
from kinematics.scans.picked_points import ON_LOWER, PickedPoint
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

#: An incisal point farther than this from the corners it is named after was picked elsewhere.
#: Chosen for this program: about the width of a lower incisor.
FARTHEST_FROM_CORNERS_MM: Final = 5.0


def check_on_casts(
    points: tuple[PickedPoint, ...], casts: Mapping[Side, Mesh], cast_from_scan: Floats
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

    Raises
    ------
    InputError
        Some do not; each is named with its distance and with what is accepted.
    """
    faults = []
    for side, mesh in casts.items():
        own = [p for p in points if _side_of(p) == side]
        if not own:
            continue
        places = np.array([p.place for p in own])
        _, apart_mm = nearest_on(mesh, move_points(cast_from_scan, places))
        faults += [
            f"{p.called}: lies {mm:.1f} mm from the surface of the {side} cast; accepted are "
            f"{_farthest_mm(p):g} mm"
            for p, mm in zip(own, apart_mm.tolist(), strict=True)
            if mm > _farthest_mm(p)
        ]
    if faults:
        listed = "\n".join(f"  {text}" for text in faults)
        raise InputError(
            "points on the casts: are they in the coordinates of the upper scan, in mm, the jaw in "
            "MI (with a bite record: the lower moved there by it), each with its own tooth number?"
            f"\n{listed}"
        )


def check_incisal_point(key: str, place: Floats, corners: Floats | None) -> None:
    """Demand that a lower incisal point lies where the teeth it is named after have it.

    Parameters
    ----------
    key : str
        What it is called in the case.
    place : ndarray, shape (3,)
        The point, mm.
    corners : ndarray, shape (3,), or None
        Between the mesial corners of 31 and 41, as found; None where neither is there.

    Raises
    ------
    InputError
        It lies elsewhere.
    """
    off_mm = 0.0 if corners is None else float(np.linalg.norm(place - corners))
    if off_mm > FARTHEST_FROM_CORNERS_MM:
        raise InputError(
            f"{key}: lies {off_mm:.1f} mm from the mesial corners of 31 and 41 as found on the "
            f"lower cast; accepted are {FARTHEST_FROM_CORNERS_MM:g} mm. Is it in the "
            "coordinates of the upper scan, in mm, jaw in MI? Are the labels of these teeth "
            "right?"
        )


def _farthest_mm(point: PickedPoint) -> float:
    return FARTHEST_OF_LANDMARKS_MM.get(point.point, FARTHEST_MM)


def _side_of(point: PickedPoint) -> Side | None:
    """Return on which cast a point lies; None where on neither."""
    if point.tooth is None:
        return "lower" if point.point in ON_LOWER else None
    return "upper" if is_upper(point.tooth) else "lower"
