"""Which way a cusp leaves on its working and on its nonworking side, seen from above."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.angles import angle_of
from kinematics.geometry.poses import move_points
from kinematics.guidance.excursions import (
    Excursion,
    along,
    greatest_progress,
    left_lateral,
    right_lateral,
    shift_breaks,
)
from kinematics.guidance.guidance import Guidance
from kinematics.guidance.mandible import CENTRIC_RELATION, opened, place

_LATERAL: Final = (right_lateral("CR"), left_lateral("CR"))


@dataclass(frozen=True)
class CuspPaths:
    """The two lateral border paths of a cusp from CR, seen from above: angles from straight ahead.

    Attributes
    ----------
    laterotrusive_deg : float
        Outward, where its own side works.
    mediotrusive_deg : float
        Inward, where the other side works.
    """

    laterotrusive_deg: float
    mediotrusive_deg: float

    @property
    def between_deg(self) -> float:
        """Angle between both paths."""
        return self.laterotrusive_deg + self.mediotrusive_deg


def cusp_paths(
    guidance: Guidance, points: Floats, advance_mm: float, opening_rad: float = 0.0
) -> tuple[CuspPaths, ...]:
    """Follow cusps of the lower along both lateral border excursions from CR.

    Parameters
    ----------
    guidance : Guidance
        Prepared guidance.
    points : ndarray, shape (n, 3)
        In lower coordinates, mm; off the midline.
    advance_mm : float
        How far the nonworking condyle has advanced where the cusp is looked at: an angle is that of
        the straight line from its place in CR. An immediate side shift comes before the advance.
    opening_rad : float
        Held all the way.

    Raises
    ------
    InputError
        A point on the midline, or an advance beyond a condylar path.
    """
    for i in np.flatnonzero(points[:, 1] == 0.0):
        raise InputError(f"points[{i}]: lies on the midline, where no side is its own")
    return tuple(
        _paths(*ways, on_left=bool(point[1] > 0.0))
        for point, ways in zip(
            points, _ways(guidance, points, advance_mm, opening_rad), strict=True
        )
    )


def _paths(right: Floats, left: Floats, *, on_left: bool) -> CuspPaths:
    """Return the paths of a cusp from where to where (3,) it goes in either excursion."""
    laterotrusive, mediotrusive = (left, right) if on_left else (right, left)
    outward = 1.0 if on_left else -1.0
    return CuspPaths(
        _from_ahead_deg(laterotrusive, outward), _from_ahead_deg(mediotrusive, -outward)
    )


def _ways(guidance: Guidance, points: Floats, advance_mm: float, opening_rad: float) -> Floats:
    """Return from where to where points of the lower have gone at an advance, shape (n, 2, 3)."""
    places = [
        along(
            guidance,
            excursion,
            CENTRIC_RELATION,
            np.array([0.0, _progress_at(guidance, excursion, advance_mm)]),
        )
        for excursion in _LATERAL
    ]
    positions = place(guidance, *np.concatenate(places, axis=1))
    poses = opened(positions, np.full(2 * len(_LATERAL), opening_rad))
    gone = np.stack([move_points(pose, points) for pose in poses], axis=1)
    return np.asarray(gone[:, 1::2] - gone[:, ::2])


def _progress_at(guidance: Guidance, excursion: Excursion, advance_mm: float) -> float:
    """Return the progress at which the nonworking condyle has advanced so far from CR."""
    end = greatest_progress(guidance, excursion, CENTRIC_RELATION)
    breaks = shift_breaks(guidance, excursion, CENTRIC_RELATION)
    corners = np.unique([0.0, *breaks, end])
    right, left, _ = along(guidance, excursion, CENTRIC_RELATION, corners)
    advances = np.maximum(right, left)
    if not 0.0 < advance_mm <= advances[-1]:
        raise InputError(
            f"advance_mm = {advance_mm:g} mm: must be more than 0 and at most {advances[-1]:g} mm, "
            "where the condylar path ends"
        )
    # Where only the shift grows the advance stands still: the later corner counts.
    kept = np.append(np.diff(advances) > 0.0, True)
    return float(np.interp(advance_mm, advances[kept], corners[kept]))


def _from_ahead_deg(way: Floats, aside: float) -> float:
    return float(np.degrees(angle_of(aside * way[1:2], way[:1]))[0])
