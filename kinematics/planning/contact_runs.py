"""Where along an excursion a tooth pair touches, stays near or lifts: runs of poses."""

from dataclasses import dataclass
from itertools import groupby, pairwise

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.planning.judging import JudgingSettings


@dataclass(frozen=True)
class Run:
    """Consecutive poses.

    Attributes
    ----------
    first, last : int
        Indices of both ends, included.
    """

    first: int
    last: int


def runs(mask: Bools) -> tuple[Run, ...]:
    """Return the runs of True in a mask, shape (n,), in order."""
    # Of the few poses of a sweep a list is looked through sooner than an array is computed with.
    found, end = [], 0
    for inside, part in groupby(mask.tolist()):
        first, end = end, end + len(list(part))
        if inside:
            found.append(Run(first, end - 1))
    return tuple(found)


def is_broken(mask: Bools) -> bool:
    """Tell whether a mask, shape (n,), is more than one run."""
    return len(runs(mask)) > 1


def reaching(mask: Bools, judged_part: Bools) -> Bools:
    """Return those runs of a mask, as a mask, shape (n,), that reach into the judged travel."""
    return covered(
        [run for run in runs(mask) if judged_part[run.first : run.last + 1].any()], len(mask)
    )


def covered(found: list[Run], n: int) -> Bools:
    """Return the poses of some runs as a mask, shape (n,)."""
    mask = np.zeros(n, dtype=np.bool_)
    for run in found:
        mask[run.first : run.last + 1] = True
    return mask


def lasts(sweep: Sweep, mask: Bools, travel_mm: float) -> bool:
    """Tell whether a run of poses in a mask, shape (n,), is at least so long, mm of travel."""
    found, travel = runs(mask), sweep.travel_mm
    if not found:
        return False
    longest = max(travel[run.last] - travel[run.first] for run in found)
    return bool(longest >= travel_mm - _step_slack(sweep))


def upto_edge(sweep: Sweep, settings: JudgingSettings) -> Bools:
    """Return the poses, shape (n,), up to where contacts are judged.

    That is edge-to-edge, or where it is not reached, the last reading position.
    """
    if sweep.edge_to_edge_mm is not None:
        return ~sweep.crossover
    return ~sweep.crossover & upto_last_reading(sweep, settings)


def upto_last_reading(sweep: Sweep, settings: JudgingSettings) -> Bools:
    """Return the poses, shape (n,), up to the last reading position."""
    return np.asarray(sweep.travel_mm <= settings.readings_mm[-1] + _step_slack(sweep))


def judged(sweep: Sweep, settings: JudgingSettings) -> Bools:
    """Return the poses, shape (n,), in which contacts are judged.

    They lie beyond the near-MI length, counted both from the start and from MI: a movement from
    CR may pass by MI, where all teeth meet.
    """
    near = settings.near_mi_mm + _step_slack(sweep)
    beyond = (sweep.travel_mm > near) & (sweep.from_mi_mm > near)
    return upto_edge(sweep, settings) & beyond


def moved(sweep: Sweep, settings: JudgingSettings) -> Bools:
    """Return the poses, shape (n,), of `upto_edge` in which the jaw has left its start."""
    return upto_edge(sweep, settings) & (sweep.travel_mm > _step_slack(sweep))


def _step_slack(sweep: Sweep) -> float:
    """Poses stand at readings and steps only nearly: so little of a step is none."""
    return max(1e-3 * sweep.usual_step_mm, sweep.reading_slack_mm)


def pair_gaps_of(sweep: Sweep, upper: int, lower: int) -> Floats:
    """Return the shortest distance of one tooth pair at every pose, shape (n,), mm."""
    row, column = sweep.upper_codes.index(upper), sweep.lower_codes.index(lower)
    return np.asarray(sweep.pair_gap_mm[:, row, column])


def pairs_within(sweep: Sweep, mask: Bools, limit_mm: float) -> tuple[tuple[int, int], ...]:
    """Return the tooth pairs that come within a distance at any pose of a mask, in arch order."""
    near = (sweep.pair_gap_mm <= limit_mm)[mask].any(axis=0)
    return tuple(_pairs_at(sweep, *np.nonzero(near)))


def pairs_in(sweep: Sweep, near: Bools) -> list[tuple[tuple[int, int], ...]]:
    """Return the tooth pairs of each row of a mask (n, uppers, lowers), in arch order."""
    rows, uppers, lowers = np.nonzero(near)
    pairs = _pairs_at(sweep, uppers, lowers)
    ends = np.searchsorted(rows, np.arange(len(near) + 1)).tolist()
    return [tuple(pairs[first:end]) for first, end in pairwise(ends)]


def _pairs_at(sweep: Sweep, uppers: Ints, lowers: Ints) -> list[tuple[int, int]]:
    """Return the tooth pairs in some rows (k,) and columns (k,) of the gaps of a sweep."""
    return [
        (sweep.upper_codes[upper], sweep.lower_codes[lower])
        for upper, lower in zip(uppers.tolist(), lowers.tolist(), strict=True)
    ]


def least_gap_over(sweep: Sweep, pairs: list[tuple[int, int]]) -> Floats:
    """Return the least shortest distance over some tooth pairs at every pose, shape (n,), mm."""
    if not pairs:
        return np.full(len(sweep.travel_mm), np.inf)
    rows = [sweep.upper_codes.index(upper) for upper, _ in pairs]
    columns = [sweep.lower_codes.index(lower) for _, lower in pairs]
    return np.asarray(sweep.pair_gap_mm[:, rows, columns].min(axis=1))


def comes_first(sweep: Sweep, pair: tuple[int, int]) -> Bools:
    """Return the poses, shape (n,), in which a pair is the first contact."""
    closures = sweep.closures
    first = (closures.tooth_upper == pair[0]) & (closures.tooth_lower == pair[1])
    return np.asarray(first, dtype=np.bool_)


def carries(sweep: Sweep, pair: tuple[int, int], tie_mm: float) -> Bools:
    """Return the poses, shape (n,), in which a pair carries the jaw.

    It is the first contact there, or ties with it: it is next, and no farther away along the
    closing arc than `tie_mm`.
    """
    second = sweep.runner_up
    follows = (second.tooth_upper == pair[0]) & (second.tooth_lower == pair[1])
    ties = follows & (sweep.runner_up_gap_mm <= tie_mm)
    return np.asarray(comes_first(sweep, pair) | ties, dtype=np.bool_)


def contact_place(
    sweep: Sweep, pose: int, pair: tuple[int, int]
) -> tuple[float, float, float] | None:
    """Return where a pair touches in one pose, hinge frame, mm.

    That is the first contact if it is this pair's, else the middle of its largest patch; None
    where the pair has no patch within the sweep's tolerance.
    """
    closures, patches = sweep.closures, sweep.patches
    if comes_first(sweep, pair)[pose]:
        return point_of(closures.point[pose])
    rows = np.flatnonzero(
        (patches.pose == pose) & (patches.tooth_upper == pair[0]) & (patches.tooth_lower == pair[1])
    )
    if len(rows) == 0:
        return None
    return point_of(patches.centroid[rows[int(np.argmax(patches.area_mm2[rows]))]])


def point_of(values: Floats) -> tuple[float, float, float]:
    """Return a point or vector of three as a tuple."""
    x, y, z = (float(value) for value in values)
    return x, y, z
