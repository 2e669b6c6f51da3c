"""Whether the ridge rises below a replacement tooth, so that none should stand there."""

import math
from collections.abc import Iterable, Sequence
from typing import Final

import numpy as np

from kinematics.casts.casts import Tooth
from kinematics.conventions import Floats
from kinematics.planning.extent import RidgeSlope
from kinematics.tooth_codes import is_upper

#: A crest is measured over about the length of a molar.
SPAN_MM: Final = 8.0


def occlusal_normal(teeth: Iterable[Tooth]) -> Floats:
    """Return the unit normal, upward, of the plane nearest to the edges of the teeth of an arch.

    Parameters
    ----------
    teeth : iterable of Tooth
        Three or more, not in one line.

    Returns
    -------
    ndarray, shape (3,)
        In the coordinates of the arch; straight up where teeth tell no plane.
    """
    points = np.array([tooth.edge.mean(axis=0) for tooth in teeth])
    upward = np.array([0.0, 0.0, 1.0])
    if len(points) < 3:
        return upward
    _, spread, ways = np.linalg.svd(points - points.mean(axis=0))
    normal = ways[2]
    if spread[1] < 1.0 or abs(normal[2]) < math.cos(math.radians(45.0)):
        return upward
    return np.asarray(normal * np.sign(normal[2]))


def rise_deg(crest: Floats, below: Floats, normal: Floats, upper: bool) -> float:
    """Return how steeply a crest nears the occlusal plane towards the back, below one tooth.

    The rise between the two ends of a stretch of `SPAN_MM`, seen along the plane, about the place
    of the crest nearest to the tooth; at an end of the crest the last such stretch.

    Parameters
    ----------
    crest : ndarray, shape (k, 3)
        Crest of the ridge, in either order, mm.
    below : ndarray, shape (3,)
        Middle of the tooth, mm.
    normal : ndarray, shape (3,)
        Unit normal of the occlusal plane, upward.
    upper : bool
        Whether it is the ridge of the upper.

    Returns
    -------
    float
        Degrees; negative where the crest leaves the plane.
    """
    height = crest @ normal
    flat = crest - np.outer(height, normal)
    steps = np.linalg.norm(np.diff(flat, axis=0), axis=1)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    fine = np.linspace(0.0, along[-1], max(2, int(along[-1] / 0.1) + 1))
    places = np.stack([np.interp(fine, along, column) for column in flat.T], axis=1)
    heights = np.interp(fine, along, height)
    middle = fine[np.argmin(np.linalg.norm(places - (below - (below @ normal) * normal), axis=1))]
    half = 0.5 * min(SPAN_MM, float(along[-1]))
    middle = min(max(float(middle), half), float(along[-1]) - half)
    ends = [int(np.argmin(np.abs(fine - at))) for at in (middle - half, middle + half)]
    front, back = sorted(ends, key=lambda end: -float(places[end, 0]))
    run = float(abs(fine[back] - fine[front]))
    rise = float(heights[back] - heights[front]) * (-1.0 if upper else 1.0)
    return math.degrees(math.atan2(rise, run))


def slopes_below(
    teeth: Iterable[Tooth], crests: Sequence[Floats], normal: Floats, limit_deg: float
) -> tuple[RidgeSlope, ...]:
    """Return the slope of the nearest crest below each of some teeth, and whether it is too steep.

    A lower ridge is so where it rises to the pad; an upper one on either slope of the tuberosity.

    Parameters
    ----------
    teeth : iterable of Tooth
        Replacement teeth.
    crests : sequence of ndarray, shape (k, 3)
        One or more; see `rise_deg`, also for `normal`.
    limit_deg : float
        Steepest slope on which a tooth is set.
    """
    found = []
    for tooth in teeth:
        upper = is_upper(tooth.code)
        apart = [float(np.linalg.norm(crest - tooth.centre, axis=1).min()) for crest in crests]
        rise = rise_deg(crests[int(np.argmin(apart))], tooth.centre, normal, upper)
        found.append(RidgeSlope(tooth.code, rise, is_too_steep(rise, limit_deg, upper)))
    return tuple(found)


def is_too_steep(rise: float, limit_deg: float, upper: bool) -> bool:
    """Tell whether a ridge is steeper than a limit: a lower where it rises, an upper either way."""
    return (abs(rise) if upper else rise) > limit_deg
