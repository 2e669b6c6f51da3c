"""Where something flips between the points of a grid: sought by further runs between them."""

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from kinematics.varying.grid import PARTS, Grid, Place, middle_of
from kinematics.varying.told import Feature, Told, differing

#: Runs some places, in their order, and is told how many may be asked for after them at most: what
#: each says of all features, None where it was refused.
Ask = Callable[[Sequence[Place], int], Sequence[Told | None]]
#: A stretch along one axis, from one place to the next that was run.
_Stretch = tuple[int, Place, Place]
_ABSENT: Final = ""


@dataclass(frozen=True)
class Crossing:
    """Where one feature flips on a line of the grid.

    Attributes
    ----------
    axis : int
        Along which axis.
    low, high : Place
        The nearest two runs: a part of a step apart.
    before, after : str
        What is said at each; empty where it does not hold, or nothing is said.
    """

    axis: int
    low: Place
    high: Place
    before: str
    after: str

    @property
    def middle(self) -> tuple[float, ...]:
        """Midway between both, counted in parts of a step."""
        return tuple(0.5 * (one + other) for one, other in zip(self.low, self.high, strict=True))


def lines_of(grid: Grid) -> Iterator[_Stretch]:
    """Yield all stretches between neighbouring points of a grid."""
    for axis in range(len(grid.axes)):
        for place in grid.points:
            ahead = tuple(p + PARTS * (i == axis) for i, p in enumerate(place))
            if ahead[axis] < PARTS * grid.shape[axis]:
                yield axis, place, ahead


def most_followed(grid: Grid) -> int:
    """Return how many runs `followed` asks for at most: where everything flips everywhere."""
    middles = math.prod(count - 1 for count in grid.shape) if len(grid.axes) > 1 else 0
    return middles + (PARTS - 1) * sum(1 for _ in lines_of(grid))


def followed(grid: Grid, runs: Mapping[Place, Told | None], ask: Ask) -> dict[Place, Told | None]:
    """Run places between points until every flip lies between runs that are one part apart.

    Every round halves the stretches at whose ends anything differs; a place serves all that flips
    in its stretch. With the first round middles of cells are run whose opposite corners say the
    same and the others do not: there lines may go either way.

    Parameters
    ----------
    grid : Grid
        The grid.
    runs : mapping of Place to (Told or None)
        All its points.
    ask : callable
        Runs more places.

    Returns
    -------
    dict
        All runs.
    """
    known = dict(runs)
    middles = [*_unclear(grid, known)] if len(grid.axes) > 1 else []
    stretches = [stretch for stretch in lines_of(grid) if _flips(known, stretch)]
    length = PARTS
    while stretches and length > 1:
        length //= 2
        halves = [half for stretch in stretches for half in _halved(stretch)]
        wanted = sorted({*middles, *(half[2] for half in halves)} - known.keys())
        most = (length - 1) * len(halves)
        known.update(zip(wanted, ask(wanted, most), strict=True))
        stretches = [half for half in halves if _flips(known, half)]
    return known


def _unclear(grid: Grid, known: Mapping[Place, Told | None]) -> Iterator[Place]:
    """Yield the middles of cells of which two opposite corners alone say something."""
    for i in range(grid.shape[0] - 1):
        for j in range(grid.shape[1] - 1):
            corners = [known[PARTS * (i + a), PARTS * (j + b)] for a in (0, 1) for b in (0, 1)]
            if _crossed([told for told in corners if told is not None]):
                yield middle_of(i, j)


def _crossed(corners: Sequence[Told]) -> bool:
    """Tell whether two opposite corners of a cell, of four, alone say something of a feature."""
    if len(corners) < 4:
        return False
    for feature in {feature for told in corners for feature in told}:
        a, b, d, c = (told.get(feature, _ABSENT) for told in corners)
        if (a == c and a not in (b, d)) or (b == d and b not in (a, c)):
            return True
    return False


def _halved(stretch: _Stretch) -> tuple[_Stretch, _Stretch]:
    axis, low, high = stretch
    middle = tuple((one + other) // 2 for one, other in zip(low, high, strict=True))
    return (axis, low, middle), (axis, middle, high)


def _flips(known: Mapping[Place, Told | None], stretch: _Stretch) -> bool:
    one, other = known[stretch[1]], known[stretch[2]]
    return one is not None and other is not None and bool(differing(one, other))


def crossings(grid: Grid, runs: Mapping[Place, Told | None]) -> dict[Feature, tuple[Crossing, ...]]:
    """Return where every feature flips, along the first axis first, in order of their places."""
    lines: dict[tuple[int, Place], list[Place]] = defaultdict(list)
    for place in sorted(runs):
        for axis in _lines_through(place):
            lines[axis, (*place[:axis], *place[axis + 1 :])].append(place)
    found: dict[Feature, list[Crossing]] = defaultdict(list)
    for (axis, _), places in sorted(lines.items()):
        for low, high in pairwise(places):
            one, other = runs[low], runs[high]
            if one is None or other is None:
                continue
            for feature in differing(one, other):
                ends = one.get(feature, _ABSENT), other.get(feature, _ABSENT)
                found[feature].append(Crossing(axis, low, high, *ends))
    return {feature: tuple(found[feature]) for feature in sorted(found)}


def _lines_through(place: Place) -> Iterable[int]:
    """Yield the axes along which a place lies on a line of the grid."""
    for axis in range(len(place)):
        if all(p % PARTS == 0 for i, p in enumerate(place) if i != axis):
            yield axis
