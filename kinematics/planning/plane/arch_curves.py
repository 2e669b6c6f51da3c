"""Curve of Spee of either side and curve of Wilson of the molars, measured on cusp tips."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.plane.curved_surface import fitted_surface
from kinematics.planning.plane.laid_surface import CLASSIC_RADIUS_MM
from kinematics.planning.plane.standing_points import StandingTooth
from kinematics.tooth_codes import is_right, place

#: In a plane: tilt, height and curvature, no tilt to the side.
_CIRCLE: Final = np.array([True, False, True, True])
#: Fewest teeth behind the canine whose cusps make a curve of Spee, and where it begins and ends.
_FEWEST_BEHIND: Final = 3
_CANINE: Final = 3
#: Molars by their place from the midline.
MOLARS: Final = (6, 7)


@dataclass(frozen=True)
class SpeeCurve:
    """Curve of Spee of one side, seen square to its chord.

    Attributes
    ----------
    side : "right" or "left"
        Which.
    depth_mm : float
        Farthest that a buccal cusp tip stands below the chord from the canine tip to the last
        buccal cusp tip.
    deepest : tuple of (int, str)
        That cusp.
    radius_mm : float
        Of the circle nearest to the tips; negative where they arch upward.
    chord_mm : float
        From the canine tip to the last buccal cusp tip.
    """

    side: Literal["right", "left"]
    depth_mm: float
    deepest: tuple[int, str]
    radius_mm: float
    chord_mm: float


@dataclass(frozen=True)
class WilsonCurve:
    """Curve of Wilson of a pair of molars.

    Attributes
    ----------
    teeth : tuple of (int, int)
        Right and left molar.
    radius_mm : float
        Of the circle nearest to their buccal and lingual cusp tips, seen from the front; negative
        where they arch upward.
    """

    teeth: tuple[int, int]
    radius_mm: float


def spee_curves(teeth: Iterable[StandingTooth], upward: Floats) -> tuple[SpeeCurve, ...]:
    """Return the curves of Spee of both sides, where there are teeth enough.

    Parameters
    ----------
    teeth : iterable of StandingTooth
        Those of an arch that take part.
    upward : ndarray, shape (3,)
        Square to its occlusal plane.
    """
    teeth = tuple(teeth)
    curves = []
    for right in (True, False):
        own = [tooth for tooth in teeth if is_right(tooth.code) == right]
        own = sorted(
            (tooth for tooth in own if place(tooth.code) >= _CANINE), key=lambda t: place(t.code)
        )
        enough = len(own) > _FEWEST_BEHIND and place(own[-1].code) in MOLARS
        if enough and place(own[0].code) == _CANINE:
            curve = _spee("right" if right else "left", own, upward)
            curves += [] if curve is None else [curve]
    return tuple(curves)


def _spee(
    side: Literal["right", "left"], teeth: list[StandingTooth], upward: Floats
) -> SpeeCurve | None:
    named = [(tooth.code, name) for tooth in teeth for name in tooth.buccal]
    points = np.array([tooth.tips[name] for tooth in teeth for name in tooth.buccal])
    front = points[0]
    ahead = points - front
    level = ahead - np.outer(ahead @ upward, upward)
    last = int(np.argmax(np.linalg.norm(level, axis=1)))
    back = -level[last] / np.linalg.norm(level[last])
    seen = np.stack([level @ back, np.zeros(len(points)), ahead @ upward], axis=1)
    circle = fitted_surface(seen, np.ones(len(seen)), _CIRCLE, 1.0 / CLASSIC_RADIUS_MM)
    if circle is None:
        return None
    chord = seen[last] - seen[0]
    reach = float(np.linalg.norm(chord))
    below = (chord[2] * seen[:, 0] / chord[0] - seen[:, 2]) * abs(chord[0]) / reach
    deepest = int(np.argmax(below))
    return SpeeCurve(side, float(below[deepest]), named[deepest], circle.radius_mm, reach)


def wilson_curves(teeth: Iterable[StandingTooth], upward: Floats) -> tuple[WilsonCurve, ...]:
    """Return the curve of Wilson of every pair of molars of the same number; see `spee_curves`."""
    by_code = {tooth.code: tooth for tooth in teeth}
    curves = []
    for code in sorted(by_code):
        other = by_code.get(code + 10 if code < 30 else code - 10)
        if not is_right(code) or place(code) not in MOLARS or other is None:
            continue
        points = np.array([point for tooth in (by_code[code], other) for point in _across(tooth)])
        across = np.cross(upward, [1.0, 0.0, 0.0])
        across /= np.linalg.norm(across)
        middle = points.mean(axis=0)
        seen = np.stack(
            [(points - middle) @ across, np.zeros(len(points)), (points - middle) @ upward], axis=1
        )
        circle = fitted_surface(seen, np.ones(len(seen)), _CIRCLE, 1.0 / CLASSIC_RADIUS_MM)
        if circle is not None and len(points) == 4:
            curves.append(WilsonCurve((code, other.code), circle.radius_mm))
    return tuple(curves)


def _across(tooth: StandingTooth) -> list[Floats]:
    """Return the middles of the buccal and of the lingual cusp tips."""
    lingual = tuple(name for name in tooth.tips if name not in tooth.buccal)
    return [
        np.mean([tooth.tips[name] for name in names], axis=0)
        for names in (tooth.buccal, lingual)
        if names
    ]
