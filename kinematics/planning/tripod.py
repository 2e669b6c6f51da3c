"""Whether the natural stops of MI hold two casts in one place: a bilateral tripod.

Seen from above, square to the reference plane; the occlusal plane leans against it by some 10
degrees at most, which changes lengths by less than 2 %.
"""

from collections.abc import Container, Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kinematics.conventions import Floats
from kinematics.planning.stops import Stop
from kinematics.tooth_codes import is_posterior, is_right

#: Least height of the triangle of stops, mm. Chosen for this program: a stop that is off by 0.05 mm
#: tips casts on a tripod of this width by 0.25 mm at a tooth 50 mm away, the scatter of a record.
LEAST_WIDTH_MM: Final = 10.0


@dataclass(frozen=True)
class Tripod:
    """On what two casts stand when they are put together by hand.

    Attributes
    ----------
    right, left, front : int
        Natural stops behind the canines of each side, and all others.
    width_mm : float
        Least height of the best triangle of stops, one of them behind the canine of each side;
        0 where there is none.
    """

    right: int
    left: int
    front: int
    width_mm: float

    @property
    def holds(self) -> bool:
        """Whether the casts have one certain place."""
        return self.width_mm >= LEAST_WIDTH_MM


def tripod(stops: Iterable[Stop], replaced: Container[int] = ()) -> Tripod:
    """Return on what casts without the replacement teeth would stand.

    Parameters
    ----------
    stops : iterable of Stop
        Centric stops in MI.
    replaced : container of int
        Teeth that are not on the casts a record is made with; their stops do not count.
    """
    places: dict[str, list[tuple[float, float]]] = {"right": [], "left": [], "front": []}
    for stop in stops:
        pair = stop.tooth_upper, stop.tooth_lower
        if any(code in replaced for code in pair):
            continue
        side = "right" if is_right(stop.tooth_upper) else "left"
        back = all(map(is_posterior, pair))
        places[side if back else "front"].append(stop.point[:2])
    counts = {side: len(found) for side, found in places.items()}
    return Tripod(**counts, width_mm=widest_tripod_mm(**places))


def widest_tripod_mm(right: ArrayLike, left: ArrayLike, front: ArrayLike) -> float:
    """Return the greatest least height of a triangle with one corner right and one left.

    The same bits for mirrored points with their sides swapped.

    Parameters
    ----------
    right, left, front : array_like, shape (n, 2)
        Points in plan view, mm; any of the three may be empty.

    Returns
    -------
    float
        0 where a side has no point, or where there is no third one.
    """
    one, two, more = (_points(given) for given in (right, left, front))
    third = np.concatenate([one, two, more])
    if not len(one) or not len(two):
        return 0.0
    to_one = one[:, None, None] - third
    to_two = two[None, :, None] - third
    area2 = np.abs(to_one[..., 0] * to_two[..., 1] - to_one[..., 1] * to_two[..., 0])
    lengths = [np.hypot(side[..., 0], side[..., 1]) for side in (to_one, to_two)]
    base = one[:, None] - two[None, :]
    lengths.append(np.hypot(base[..., 0], base[..., 1])[:, :, None])
    longest = np.maximum(np.maximum(lengths[0], lengths[1]), lengths[2])
    # Where all three points are one, there is no triangle and no height.
    heights = np.divide(area2, longest, out=np.zeros_like(area2), where=longest > 0.0)
    return float(heights.max())


def _points(given: ArrayLike) -> Floats:
    return np.asarray(given, dtype=np.float64).reshape(-1, 2)
