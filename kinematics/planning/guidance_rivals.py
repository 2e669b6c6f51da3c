"""Which other kind of guidance lies within the scatter of the records, and which teeth decide."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.contact.mounted import GUIDED_BY_TEETH
from kinematics.contact.sweep import Sweep
from kinematics.planning.guidance_kinds import Pair, kind_of
from kinematics.planning.guidance_stretches import kind_at
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.wording import length, pair_name

#: How a pair decides: it misses by so much; it counts as touching although so far apart; or it
#: comes next, so far behind the first contact. What comes first here is told first.
Way = Literal["misses", "counts as touching", "comes next"]
_WAYS: Final[tuple[Way, ...]] = ("misses", "counts as touching", "comes next")


@dataclass(frozen=True)
class Rival:
    """Another kind of guidance that the records do not exclude.

    Attributes
    ----------
    kind : str
        The other guidance kind.
    travel_mm : float
        Reading position at which it is nearest.
    tooth_upper, tooth_lower : int
        The pair that decides.
    distance_mm : float
        By how much: its shortest distance, or of one that comes next the arc gap.
    way : str
        "misses", "counts as touching" or "comes next".
    """

    kind: str
    travel_mm: float
    tooth_upper: int
    tooth_lower: int
    distance_mm: float
    way: Way

    @property
    def decided_by(self) -> str:
        """The reading position, the teeth that decide, and by how much."""
        far = length(self.distance_mm)
        how = {
            "misses": f"misses by {far}",
            "counts as touching": f"counts as touching at {far}",
            "comes next": f"comes next, {far} behind the first contact",
        }[self.way]
        return f"at {self.travel_mm:.1f} mm {pair_name(self.tooth_upper, self.tooth_lower)} {how}"

    @property
    def in_short(self) -> str:
        """The other kind and what decides, to stand behind the kind found."""
        return f"could also be {self.kind}: {self.decided_by}"


def rival_text(rival: Rival, scatter_mm: float) -> str:
    """Return the same as a sentence of its own."""
    return f"Within the {length(scatter_mm)} scatter of records it {rival.in_short}."


def nearest_rival(
    sweep: Sweep, poses: Sequence[int], kind: str, settings: JudgingSettings
) -> Rival | None:
    """Return the kind other than the one found that the fewest hundredths would make.

    Parameters
    ----------
    sweep : Sweep
        One excursion.
    poses : sequence of int
        Its poses at the reading positions.
    kind : str
        Guidance kind found.
    settings : JudgingSettings
        The scatter of the records, and what counts as touching.
    """
    if settings.record_scatter_mm <= 0.0:
        return None
    found = (rival for pose in poses for rival in _rivals(sweep, pose, settings))
    others = (rival for rival in found if rival.kind != kind)
    return min(others, key=_likeliest_first, default=None)


def _likeliest_first(rival: Rival) -> tuple[int, float, float]:
    return _WAYS.index(rival.way), rival.distance_mm, rival.travel_mm


def _rivals(sweep: Sweep, pose: int, settings: JudgingSettings) -> Iterator[Rival]:
    tolerance_mm, scatter_mm = settings.tolerance_mm, settings.record_scatter_mm
    gaps = sweep.pair_gap_mm[pose]
    found, at = kind_at(sweep, pose, tolerance_mm), float(sweep.travel_mm[pose])

    def rival(other: str, pair: Pair, distance_mm: float, way: Way) -> Rival:
        return Rival(other, at, *pair, distance_mm, way)

    for gap in np.unique(gaps[(gaps > tolerance_mm) & (gaps <= scatter_mm)]).tolist():
        other = kind_at(sweep, pose, gap)
        if other != found:
            yield rival(other, _pair_at(sweep, pose, gap), gap, "misses")
            break
    thinnest = min(settings.reading_tolerances_mm[0], tolerance_mm)
    touching = np.unique(gaps[(gaps > thinnest) & (gaps <= tolerance_mm)])[::-1].tolist()
    if tolerance_mm - thinnest <= scatter_mm:
        for gap in touching:
            other = kind_at(sweep, pose, float(np.nextafter(gap, -np.inf)))
            if other != found:
                yield rival(other, _pair_at(sweep, pose, gap), gap, "counts as touching")
                break
    behind_mm = float(sweep.runner_up_gap_mm[pose])
    first, second = _first_and_next(sweep, pose)
    if behind_mm < scatter_mm and min(*first, *second) > 0:
        other = kind_of((second,), sweep.excursion, GUIDED_BY_TEETH)
        if other != kind_of((first,), sweep.excursion, GUIDED_BY_TEETH):
            yield rival(other, second, behind_mm, "comes next")


def _pair_at(sweep: Sweep, pose: int, gap_mm: float) -> Pair:
    """Return the pair with that shortest distance, the first in arch order."""
    row, column = np.argwhere(sweep.pair_gap_mm[pose] == gap_mm)[0]
    return sweep.upper_codes[row], sweep.lower_codes[column]


def _first_and_next(sweep: Sweep, pose: int) -> tuple[Pair, Pair]:
    """Return the first contact of a pose and its runner-up; 0 stands for no tooth."""
    first, second = (
        (int(closures.tooth_upper[pose]), int(closures.tooth_lower[pose]))
        for closures in (sweep.closures, sweep.runner_up)
    )
    return first, second
