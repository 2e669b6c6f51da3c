"""What is said along one axis: from where to where, and where it changes more than once."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from kinematics.varying.grid import PARTS, Axis, Place
from kinematics.varying.told import Feature, Told

#: The values of a setting at two runs between which something begins or ends; twice the same where
#: it is followed no farther than that run.
Border = tuple[float, float]
#: In parts of steps: of one run what it says, None where it was refused.
_Said = tuple[int, str | None]


@dataclass(frozen=True)
class Stretch:
    """From where to where along an axis one and the same is said.

    Attributes
    ----------
    says : str or None
        What is said; empty: it does not hold. None: it changes more than once.
    begin, end : (float, float) or None
        Between which runs; None at the ends of the axis.
    """

    says: str | None
    begin: Border | None
    end: Border | None


def stretches_along(
    axis: Axis, number: int, line: Mapping[Place, Told | None], feature: Feature
) -> tuple[Stretch, ...]:
    """Return what is said of a feature along one line of the grid, in order.

    Parameters
    ----------
    axis : Axis
        Along which axis.
    number : int
        Which of the grid.
    line : mapping of Place to (Told or None)
        All runs on the line.
    feature : Feature
        Of what.

    Notes
    -----
    Where between two neighbouring points of the grid something that was said comes back, runs
    between them cannot tell how often it changes: the whole step is told as one that is restless.
    """
    said: list[_Said] = []
    for place in sorted(line, key=lambda p: p[number]):
        told = line[place]
        said.append((place[number], None if told is None else told.get(feature, "")))
    restless = _restless(said)
    calm = [one for one in said if not any(low < one[0] < high for low, high in restless)]
    found = [
        Stretch(None, (axis.at(low), axis.at(low)), (axis.at(high), axis.at(high)))
        for low, high in restless
    ]
    for own, before, after in _runs_of_one(calm, restless):
        begin, end = (
            _border(axis, own[0], before, restless),
            _border(axis, own[-1], after, restless),
        )
        at = axis.at(own[0][0])
        # A single run beside what is restless tells no more than that.
        alone = restless and len(own) == 1 and {begin, end} <= {None, (at, at)}
        if own[0][1] is not None and not alone:
            found.append(Stretch(own[0][1], begin, end))
    return tuple(sorted(found, key=_place_of))


def _restless(said: Sequence[_Said]) -> list[tuple[int, int]]:
    """Return the steps in which what was said comes back; neighbours as one."""
    steps: dict[int, list[str]] = defaultdict(list)
    for at, text in said:
        # A point ends one step and begins the next.
        for step in {(at - 1) // PARTS, at // PARTS}:
            steps[step] += [] if text is None else [text]
    found: list[tuple[int, int]] = []
    for step, texts in sorted(steps.items()):
        low, changes = PARTS * step, [text for text, _ in groupby(texts)]
        if len(set(changes)) < len(changes):
            joined = bool(found) and found[-1][1] == low
            begin = found.pop()[0] if joined else low
            found.append((begin, low + PARTS))
    return found


def _runs_of_one(
    calm: Sequence[_Said], restless: Sequence[tuple[int, int]]
) -> Iterator[tuple[list[_Said], _Said | None, _Said | None]]:
    """Yield runs side by side that say one thing, with the run before and the run after them."""
    groups = [[calm[0]]]
    for one, other in pairwise(calm):
        if one[1] == other[1] and (one[0], other[0]) not in restless:
            groups[-1].append(other)
        else:
            groups.append([other])
    for k, own in enumerate(groups):
        after = groups[k + 1][0] if k + 1 < len(groups) else None
        yield own, groups[k - 1][-1] if k else None, after


def _border(
    axis: Axis, own: _Said, next_to: _Said | None, restless: Sequence[tuple[int, int]]
) -> Border | None:
    """Return where what a run says ends towards another one."""
    if next_to is None:
        return None
    low, high = sorted((own[0], next_to[0]))
    if next_to[1] is None or (low, high) in restless:
        return axis.at(own[0]), axis.at(own[0])
    return axis.at(low), axis.at(high)


def _place_of(stretch: Stretch) -> tuple[bool, Border]:
    return stretch.begin is not None, stretch.begin or (0.0, 0.0)
