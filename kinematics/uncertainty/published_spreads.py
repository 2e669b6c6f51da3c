"""How much settings differ among people, and mountings from people: a table, each with its source.

A spread of people stands for how far a setting may be off that nothing was recorded of.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from statistics import NormalDist
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.scans.mean_values import AXIS_INCISAL_MM, BALKWILL_DEG
from kinematics.scans.settings import ScanMounting

_NORMAL: Final = NormalDist()
_CBCT: Final = "n = 120; Int J Comput Dent 2015, PMID 26734666"
_CLASS_I: Final = "n = 47; IADR abstract 13iags-177411"


@dataclass(frozen=True)
class PublishedSpread:
    """How much one setting differs among people.

    Attributes
    ----------
    standard_error : float
        Standard deviation, in the unit of the setting.
    source : str
        What was published, and how the number follows from it.
    """

    standard_error: float
    source: str


def expected_range(count: int) -> float:
    """Return by how many standard deviations the extremes of normal values lie apart on average.

    Parameters
    ----------
    count : int
        Of the values; at least 2.
    """
    # E[range] is the integral of 1 - F^n - (1 - F)^n
    grid = np.linspace(-9.0, 9.0, 3601)
    below = np.array([_NORMAL.cdf(float(x)) for x in grid])
    inside = 1.0 - below**count - (1.0 - below) ** count
    return math.fsum((0.5 * (inside[1:] + inside[:-1]) * np.diff(grid)).tolist())


def difference_spread(share: float, beyond: float) -> float:
    """Return the standard deviation of a difference of which a share lies beyond a limit.

    The difference is normal about nothing, and lies beyond the limit either way.

    Parameters
    ----------
    share : float
        Of people, more than 0 and less than 1.
    beyond : float
        The limit.
    """
    return beyond / _NORMAL.inv_cdf(1.0 - 0.5 * share)


_INCLINATION_DEG: Final = 7.8
#: Of right and left: their difference has a variance of 2 s^2 (1 - r).
INCLINATION_CORRELATION: Final = 1.0 - difference_spread(0.36, 6.0) ** 2 / (
    2.0 * _INCLINATION_DEG**2
)
INCLINATION_CORRELATION_SOURCE: Final = (
    f"right and left differ by more than 6 degrees in 36 % ({_CLASS_I})"
)
_SHIFT: Final = PublishedSpread(
    difference_spread(0.26, 6.0) / math.sqrt(2.0),
    "Bennett angles of right and left differ by more than 6 degrees in 26 %"
    f" ({_CLASS_I}); both sides taken as independent, which makes it the least that fits",
)

#: By the key of the setting, whichever side it is on.
OF_GUIDANCE: Final[Mapping[str, PublishedSpread]] = {
    "condylar_inclination_deg": PublishedSpread(
        _INCLINATION_DEG, "students 41.9 ± 7.8 degrees, n = 32, second hand"
    ),
    "progressive_shift_deg": _SHIFT,
    "bennett_angle_deg": _SHIFT,
    "immediate_shift_mm": PublishedSpread(
        3.0 / expected_range(914),
        "0 to 3 mm in 914 people (Taylor et al., J Prosthet Dent 2016, PMID 26723093); taken as the"
        " range of so many normal values",
    ),
    "intercondylar_distance_mm": PublishedSpread(
        (112.6 - 85.2) / expected_range(120),
        f"85.2 to 112.6 mm ({_CBCT}); taken as the range of so many normal values",
    ),
}

#: Of scanned casts with a record of centric relation.
RECORDED_MI: Final = PublishedSpread(
    0.3,
    "records of centric relation differ by 0.19 ± 0.34 mm between techniques (PMC5506257) and by"
    " 0.33 to 0.44 mm between materials (Utz et al., J Oral Rehabil 2002;29:458-466); 0.3 mm taken",
)
#: Of scanned casts without one: means of three ages at both condyles, and scatter within an age.
_SLIDES_MM: Final = (0.42, 0.36, 0.53, 0.51, 0.87, 0.82)
UNRECORDED_MI: Final = PublishedSpread(
    math.hypot(float(np.std(_SLIDES_MM)), 0.5 * (0.12 + 0.23)),
    "MI lies 0.36 to 0.87 mm ahead of CR at the condyles on average of three ages, ± 0.12 to 0.23"
    " mm within an age (n = 60; ijmds 19055); both put together",
)

#: Of casts mounted to an axis by landmarks, each way.
ARBITRARY_AXIS: Final = PublishedSpread(
    4.0,
    "arbitrary axes lie within 5 mm of the true one in 20 to 95 % of people (four studies in"
    " Zuckerman, J Prosthet Dent 1982); 4 mm each way taken",
)
_MEAN_AXIS_SOURCE: Final = (
    "mean values: distance of the axis from the incisal point 75.2 to 106.9 mm, Balkwill angle 9.0"
    f" to 27.6 degrees ({_CBCT}); taken as ranges of so many normal values"
)
#: Of casts mounted by mean values: how much the plane differs from the one taken for it.
MEAN_PLANE: Final[Mapping[str, PublishedSpread]] = {
    "Camper": PublishedSpread(
        2.4, "lower tragus line to occlusal line 2.9 ± 2.4 degrees (Rostamkhani 2005)"
    ),
    "axis-orbital": PublishedSpread(
        4.36,
        "Frankfort to occlusal plane 11.96 ± 4.36 degrees, n = 150 (Kumar et al., J Adv"
        " Prosthodont 2013;5:9-15)",
    ),
}


@dataclass(frozen=True)
class AxisSpread:
    """How far the axis of a person may lie from the one that casts were mounted to.

    Attributes
    ----------
    forward, up : PublishedSpread
        Each way, along and square to the occlusal plane.
    correlation : float
        Of both.
    """

    forward: PublishedSpread
    up: PublishedSpread
    correlation: float


def mean_axis(mounting: ScanMounting, plane_to_occlusal_rad: float) -> AxisSpread:
    """Return how far the axis may lie from that of a mean-value mounting.

    Distance and angle are taken as independent; to first order the axis moves along the line to
    the incisal point by the one, and square to it by the other.

    Parameters
    ----------
    mounting : ScanMounting
        By mean values.
    plane_to_occlusal_rad : float
        By how much the reference plane rises towards the front against the occlusal plane.
    """
    ranges = expected_range(120)
    along_mm = (AXIS_INCISAL_MM[1] - AXIS_INCISAL_MM[0]) / ranges
    turn_rad = math.radians(BALKWILL_DEG[1] - BALKWILL_DEG[0]) / ranges
    # the axis lies behind and above the incisal point, at this angle to the reference plane
    angle = math.radians(mounting.balkwill_deg) + plane_to_occlusal_rad
    ways = np.array(
        [
            [-math.cos(angle) * along_mm, math.sin(angle) * mounting.axis_incisal_mm * turn_rad],
            [math.sin(angle) * along_mm, math.cos(angle) * mounting.axis_incisal_mm * turn_rad],
        ]
    )
    covariance: Floats = (ways[:, None, :] * ways[None, :, :]).sum(axis=2)
    forward_mm, up_mm = np.sqrt(np.diagonal(covariance)).tolist()
    return AxisSpread(
        PublishedSpread(forward_mm, _MEAN_AXIS_SOURCE),
        PublishedSpread(up_mm, _MEAN_AXIS_SOURCE),
        float(covariance[0, 1]) / (forward_mm * up_mm),
    )
