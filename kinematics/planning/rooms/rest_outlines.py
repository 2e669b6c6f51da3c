"""Outlines of rest seats, seen along the long axis or from the tongue, and of what leaves them.

A rest on a marginal ridge has a rounded triangle: apex towards the middle of the crown, as long as
wide, base at least 2.5 mm (textbook wording, dentalhospital.com.cn/gjjb/gjml/802); half as wide as
the cusp tips stand apart, and a third to a half of the mesiodistal size long (dentowesome.in,
2022). Outlines in the mouth scatter widely (Culwick, Howell & Faigenblum). A rest on a cingulum has
a half moon (common practice).
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.spatial import ConvexHull

from kinematics.conventions import Floats
from kinematics.planning.crown_places import CrownFrame
from kinematics.planning.framework import PlacedRest

#: Base of a rounded triangle at least, mm, and its width in distances of cusp tips.
LEAST_BASE_MM: Final = 2.5
TIPS_SHARE: Final = 0.5
#: Its length at least and at most, in mesiodistal sizes of the crown.
LENGTH_SHARES: Final = (1.0 / 3.0, 0.5)
#: Radii of its corners at the ridge and at the apex, in widths (chosen for this program).
_CORNERS: Final = (0.12, 0.3)
#: Width and height of a half moon on a cingulum, mm: 2.5 to 3 and 1.5 (common practice).
HALF_MOON_MM: Final = (3.0, 1.5)
#: Points of a rounded corner.
_ROUND: Final = 24


@dataclass(frozen=True)
class Outline:
    """The outline of a seat on a crown.

    Attributes
    ----------
    corners : ndarray, shape (k, 2)
        Convex, counter-clockwise, mm from the middle of the crown: along mesial and facial, of a
        cingulum along mesial and up.
    axes : (int, int)
        These two of mesial, facial and up.
    outward, sign : int, float
        The third, and which way along it one looks at the seat from outside.
    proximal : float
        1.0 where its ridge is the mesial one, -1.0 where the distal; 0.0 on a cingulum.
    length_mm, width_mm : float
        From the ridge to the apex, and across; of a half moon its height and its width.
    """

    corners: Floats
    axes: tuple[int, int]
    outward: int
    sign: float
    proximal: float
    length_mm: float
    width_mm: float

    def placed(self, crown: CrownFrame) -> Floats:
        """Return the corners (k, 3) at the height of the middle of the crown, its coordinates."""
        local = np.zeros((len(self.corners), 3))
        local[:, self.axes] = self.corners
        return local @ np.stack([crown.mesial, crown.facial, crown.up]) + crown.tooth.centre


def outline_of(crown: CrownFrame, rest: PlacedRest) -> Outline:
    """Return the outline of a rest on its crown.

    Parameters
    ----------
    crown : CrownFrame
        The tooth that it lies on.
    rest : PlacedRest
        The middle of its seat lies where the rest does.
    """
    axes = np.stack([crown.mesial, crown.facial, crown.up])
    middle = (np.array(rest.point) - crown.tooth.centre) @ axes.T
    if rest.place == "cingulum":
        return _half_moon(float(middle[0]), float(middle[2]))
    proximal = 1.0 if rest.place == "mesial" else -1.0
    end = float(np.max(proximal * crown.seen[:, 0]))
    size = float(np.ptp(crown.seen[:, 0]))
    inward = end - proximal * float(middle[0])
    width = max(LEAST_BASE_MM, TIPS_SHARE * _tips_apart_mm(crown))
    shortest, longest = (share * size for share in LENGTH_SHARES)
    length = float(np.clip(max(width, 2.0 * inward), shortest, longest))
    return _rounded_triangle(end, float(middle[1]), length, width, proximal)


def _tips_apart_mm(crown: CrownFrame) -> float:
    """Return how far buccal and lingual cusp tips stand apart; half a crown where not known."""
    tips = [(tip - crown.tooth.centre) @ crown.facial for tip in crown.tooth.cusp_tips.values()]
    apart = float(np.ptp(tips)) if len(tips) > 1 else 0.0
    return apart if apart > 0.0 else 0.5 * float(np.ptp(crown.seen[:, 1]))


def _rounded_triangle(
    end: float, across: float, length: float, width: float, proximal: float
) -> Outline:
    base, apex = (share * width for share in _CORNERS)
    centres = [
        (proximal * (end - base), across + 0.5 * width - base, base),
        (proximal * (end - base), across - 0.5 * width + base, base),
        (proximal * (end - length + apex), across, apex),
    ]
    corners = _around(centres)
    return Outline(corners, (0, 1), 2, 1.0, proximal, length, width)


def _around(circles: list[tuple[float, float, float]]) -> Floats:
    """Return the convex outline (k, 2) of some circles, counter-clockwise."""
    turn = 2.0 * np.pi * np.arange(_ROUND) / _ROUND
    ring = np.stack([np.cos(turn), np.sin(turn)], axis=1)
    points = np.concatenate([np.array([x, y]) + radius * ring for x, y, radius in circles])
    return np.asarray(points[ConvexHull(points).vertices])


def _half_moon(across: float, height: float) -> Outline:
    width, tall = HALF_MOON_MM
    turn = np.linspace(0.0, np.pi, _ROUND)
    arc = np.stack([0.5 * width * np.cos(turn), tall * np.sin(turn) - 0.5 * tall], axis=1)
    return Outline(arc + np.array([across, height]), (0, 2), 1, -1.0, 0.0, tall, width)
