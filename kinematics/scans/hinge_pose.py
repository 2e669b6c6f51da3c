"""Where the hinge frame lies in the coordinates of scans: by transform, hinge axis or mean values.

Each way returns hinge_from_scan, the pose that brings points of the scans into the hinge frame.
"""

import math
from collections.abc import Iterator
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kinematics.checks import InputError, finite_array, rigid_poses
from kinematics.conventions import Floats
from kinematics.scans.head_frame import directions, frame_at
from kinematics.scans.settings import ScanMounting

#: Inclination of each reference plane to the occlusal plane, degrees, rising towards the front:
#: Camper's 0 to 7 (about 7, CBCT, n = 120; "parallel for practical purposes", n = 316: Woelfel,
#: Igarashi & Dong, J Adv Prosthodont 2014;6(6); 3.5 is the middle, chosen for this program);
#: axis-orbital 10 to 11 (Sato et al., J Japan Gnathol 1996;17:89-96).
PLANE_TO_OCCLUSAL_DEG: Final = {"occlusal": 0.0, "Camper": 3.5, "axis-orbital": 10.5}

#: Least and greatest distance of two points of the axis beside the condyles, mm: wide around the
#: published 85 to 138 of centres and outer poles, since points are marked on the skin too.
_AXIS_POINTS_MM: Final = (60.0, 220.0)
#: Least distance of the reference point from the axis, mm: nearer, a millimetre turns the plane by
#: more than a degree. Chosen for this program.
_REFERENCE_MM: Final = 50.0
#: Distance of the last lower molars from each other, and of the incisal point ahead of them, mm:
#: wide around those of dental arches. Chosen for this program.
_MOLARS_MM: Final = (30.0, 80.0)
_AHEAD_MM: Final = (15.0, 70.0)


def hinge_from_scan(mounting: ScanMounting, reference_plane: str) -> Floats:
    """Return the pose (4, 4) that a mounting describes.

    Parameters
    ----------
    mounting : ScanMounting
        One of three ways.
    reference_plane : str
        Plane of the hinge frame; of use for mean values only, the other ways say it themselves.

    Raises
    ------
    InputError
        No rigid transform, or points that no jaw has.
    """
    at = "scans.mounting"
    if mounting.kind == "transform":
        return rigid_poses(np.array(mounting.hinge_from_scan), f"{at}.hinge_from_scan", (4, 4))
    if mounting.kind == "hinge axis":
        return by_axis_points(
            np.array(mounting.axis_right),
            np.array(mounting.axis_left),
            np.array(mounting.reference_point),
        )
    return by_mean_values(
        np.array(mounting.incisal_point),
        np.array(mounting.molar_right),
        np.array(mounting.molar_left),
        mounting.axis_incisal_mm,
        math.radians(mounting.balkwill_deg),
        math.radians(PLANE_TO_OCCLUSAL_DEG[reference_plane]),
    )


def by_axis_points(
    axis_right: ArrayLike, axis_left: ArrayLike, reference_point: ArrayLike
) -> Floats:
    """Return hinge_from_scan (4, 4) from two points of the hinge axis and one ahead of it.

    Parameters
    ----------
    axis_right, axis_left : array_like, shape (3,)
        One beside each condyle; the origin lies midway between them.
    reference_point : array_like, shape (3,)
        With the axis it spans the reference plane.

    Raises
    ------
    InputError
        Points too near to each other, or too far apart, to be what they are called.
    """
    right, left, front = _points(
        axis_right=axis_right, axis_left=axis_left, reference_point=reference_point
    )
    ways = directions(right, left, front)
    _within("axis_right and axis_left", ways.apart_mm, _AXIS_POINTS_MM, "lie", "apart")
    if ways.ahead_mm < _REFERENCE_MM:
        raise InputError(
            f"scans.mounting.reference_point: lies {ways.ahead_mm:.1f} mm from the hinge axis; "
            f"wanted at least {_REFERENCE_MM:g} mm, or the plane would be too uncertain; is it a "
            "point near the nose or the orbit, in the coordinates of the scans, in mm?"
        )
    return frame_at(0.5 * (left + right), ways.ahead, ways.across)


def by_mean_values(
    incisal_point: ArrayLike,
    molar_right: ArrayLike,
    molar_left: ArrayLike,
    axis_incisal_mm: float,
    balkwill_rad: float,
    plane_to_occlusal_rad: float,
) -> Floats:
    """Return hinge_from_scan (4, 4) from three landmarks of the lower arch and mean values.

    The occlusal plane passes through the three; the hinge axis lies behind the incisal point, at
    the given distance, in a plane that falls towards it by the Balkwill angle, and is parallel to
    the line of the molars.

    Parameters
    ----------
    incisal_point, molar_right, molar_left : array_like, shape (3,)
        See `ScanMounting`.
    axis_incisal_mm : float
        Distance of the axis from the incisal point.
    balkwill_rad : float
        Angle of the triangle of condyles and incisal point to the occlusal plane.
    plane_to_occlusal_rad : float
        By how much the reference plane rises towards the front against the occlusal plane.

    Raises
    ------
    InputError
        Landmarks that no dental arch has.
    """
    front, right, left = _points(
        incisal_point=incisal_point, molar_right=molar_right, molar_left=molar_left
    )
    ways = directions(right, left, front)
    _within("molar_right and molar_left", ways.apart_mm, _MOLARS_MM, "lie", "apart")
    where = "ahead of the line of the molars"
    _within("incisal_point", ways.ahead_mm, _AHEAD_MM, "lies", where)
    forward = ways.ahead
    upward = np.cross(forward, ways.across)
    back_mm = axis_incisal_mm * math.cos(balkwill_rad)
    above_mm = axis_incisal_mm * math.sin(balkwill_rad)
    origin = front - back_mm * forward + above_mm * upward
    turn = plane_to_occlusal_rad
    return frame_at(origin, math.cos(turn) * forward + math.sin(turn) * upward, ways.across)


def _points(**given: ArrayLike) -> Iterator[Floats]:
    """Yield points (3,) of a mounting, by the names of their keys."""
    for name, point in given.items():
        yield finite_array(point, f"scans.mounting.{name}", (3,))


def _within(
    what: str, found_mm: float, accepted: tuple[float, float], verb: str, where: str
) -> None:
    """Refuse a distance that points of a jaw do not have.

    Raises
    ------
    InputError
        It is out of range.
    """
    least, most = accepted
    if not least <= found_mm <= most:
        raise InputError(
            f"scans.mounting.{what}: {verb} {found_mm:.1f} mm {where}; wanted {least:g} to {most:g}"
            " mm; are they given in mm, in the coordinates of the scans, each under its own key?"
        )
