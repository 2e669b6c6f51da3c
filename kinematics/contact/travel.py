"""Poses of an excursion at wanted horizontal travels of the lower incisal point."""

import numpy as np

from kinematics.checks import InputError
from kinematics.contact.mounted import (
    GUIDED_BY_NOTHING,
    GuidedClosure,
    MountedCasts,
    guided_closure,
    incisal_points,
)
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion, along, greatest_progress, shift_breaks
from kinematics.guidance.mandible import (
    CENTRIC_RELATION,
    GuidanceCoordinates,
    JawPositions,
    place,
)

#: Spacing of the first, coarse look along an excursion, mm of progress.
COARSE_MM = 0.3
#: Travel is found to within this, mm; a hundredth of the finest tolerance in use.
TRAVEL_SLACK_MM = 1e-6
MOST_ROUNDS = 12


class _Path:
    """One excursion as functions of its progress."""

    def __init__(
        self,
        casts: MountedCasts,
        excursion: Excursion,
        start: GuidanceCoordinates,
        workers: Workers,
    ) -> None:
        self.casts, self.excursion, self.start, self.workers = casts, excursion, start, workers
        self.origin = self.points(np.zeros(1))[0]

    def positions(self, progress: Floats) -> JawPositions:
        """Place the condyles."""
        return place(
            self.casts.guidance, *along(self.casts.guidance, self.excursion, self.start, progress)
        )

    def closed(self, progress: Floats) -> tuple[JawPositions, GuidedClosure]:
        """Place the condyles and close."""
        positions = self.positions(progress)
        return positions, guided_closure(self.casts, positions, self.workers)

    def points(self, progress: Floats) -> Floats:
        """Return the incisal point at closure; nan where nothing guides."""
        positions, closure = self.closed(progress)
        guided = closure.guide != GUIDED_BY_NOTHING
        opening = np.where(guided, closure.opening_rad, 0.0)
        points = incisal_points(self.casts, positions, opening)
        points[~guided] = np.nan
        return points

    def travel(self, progress: Floats) -> Floats:
        """Return horizontal travel from the start, mm; nan where nothing guides."""
        moved = self.points(progress) - self.origin
        return np.asarray(np.sqrt(moved[:, 0] ** 2 + moved[:, 1] ** 2))


def progress_at_travels(
    casts: MountedCasts,
    excursion: Excursion,
    start: GuidanceCoordinates,
    wanted_mm: Floats,
    workers: Workers,
) -> Floats:
    """Find the progress at which the incisal point has travelled each wanted distance.

    Parameters
    ----------
    casts : MountedCasts
        Casts, guidance and MI.
    excursion : Excursion
        Where to go.
    start : GuidanceCoordinates
        MI or CR.
    wanted_mm : ndarray, shape (k,)
        Travels, ascending from 0.
    workers : Workers
        Threads.

    Returns
    -------
    ndarray, shape (m,)
        Progress, mm: those of the wanted travels that are reached, and the places where use of an
        immediate side shift begins or ends. The last place reached is kept where the path ends
        before the last wanted travel.

    Raises
    ------
    InputError
        Nothing guides at the start: neither teeth nor table meet.
    """
    path = _Path(casts, excursion, start, workers)
    grid, found = _searched(path, wanted_mm)
    extra = shift_breaks(casts.guidance, excursion, start)
    if len(found) < len(wanted_mm):
        extra = np.append(extra, grid[-1])
    extra = extra[extra <= grid[-1]]
    return np.unique(np.concatenate([found, extra]))


def progress_at_travel(
    casts: MountedCasts, excursion: Excursion, travel_mm: float, workers: Workers
) -> float:
    """Return the progress of one travel, mm, or of the last place where the path ends before it.

    It is the one that `progress_at_travels` finds for it among others.
    """
    path = _Path(casts, excursion, start_of(casts, excursion), workers)
    grid, found = _searched(path, np.array([travel_mm]))
    return float(found[0] if len(found) else grid[-1])


def start_of(casts: MountedCasts, excursion: Excursion) -> GuidanceCoordinates:
    """Return where the condyles stand at the start of an excursion."""
    return casts.mi if excursion.start == "MI" else CENTRIC_RELATION


def _searched(path: _Path, wanted_mm: Floats) -> tuple[Floats, Floats]:
    """Return the places of the coarse look, and those of the wanted travels that are reached.

    Raises
    ------
    InputError
        Nothing guides at the start.
    """
    excursion = path.excursion
    if not np.isfinite(path.origin).all():
        raise InputError(
            f"{excursion.name} from {excursion.start}: neither teeth nor guide table meet at the "
            "start; check mounting and guidance"
        )
    grid, travel = _coarse(path, float(wanted_mm[-1]))
    return grid, _refined(path, grid, travel, wanted_mm[wanted_mm <= travel[-1]])


def _coarse(path: _Path, wanted_mm: float) -> tuple[Floats, Floats]:
    """Look along the path until the wanted travel; return progress and travel, both ascending."""
    last = greatest_progress(path.casts.guidance, path.excursion, path.start)
    if last == 0.0:
        return np.zeros(1), np.zeros(1)
    count = int(np.ceil(last / COARSE_MM)) + 1
    grid = np.linspace(0.0, last, count)
    travels: list[Floats] = [np.zeros(1)]
    used = 1
    # In parts, so that a long path is not closed far beyond the travel asked for.
    part = int(np.ceil(1.2 * wanted_mm / COARSE_MM)) + 1
    while used < count and float(travels[-1][-1]) < wanted_mm:
        here = path.travel(grid[used : used + part])
        if np.isnan(here).any():
            stop = int(np.argmax(np.isnan(here)))
            travels.append(here[:stop])
            used += stop
            break
        travels.append(here)
        used += len(here)
    travel = np.concatenate(travels)
    # Where the tip pauses or comes back, only new ground counts.
    new = np.ones(len(travel), dtype=bool)
    new[1:] = travel[1:] > np.maximum.accumulate(travel)[:-1]
    return grid[:used][new], travel[new]


def _refined(path: _Path, grid: Floats, travel: Floats, wanted: Floats) -> Floats:
    """Solve travel(progress) = wanted by false position (Illinois), all places at once."""
    right = np.clip(np.searchsorted(travel, wanted), 1, max(len(grid) - 1, 1))
    if len(grid) == 1:
        return np.zeros(len(wanted))
    low, high = grid[right - 1].copy(), grid[right].copy()
    below, above = travel[right - 1] - wanted, travel[right] - wanted
    best = np.where(-below < above, low, high)
    error = np.minimum(-below, above)
    open_ = np.flatnonzero(error > TRAVEL_SLACK_MM)
    last_side = np.zeros(len(wanted), dtype=np.int64)
    for _ in range(MOST_ROUNDS):
        if len(open_) == 0:
            break
        lo, hi, b, a = low[open_], high[open_], below[open_], above[open_]
        middle = hi - a * (hi - lo) / (a - b)
        value = path.travel(middle) - wanted[open_]
        closer = np.abs(value) < error[open_]
        best[open_[closer]] = middle[closer]
        error[open_[closer]] = np.abs(value)[closer]
        is_above = value > 0.0
        up, down = open_[is_above], open_[~is_above]
        high[up], above[up] = middle[is_above], value[is_above]
        low[down], below[down] = middle[~is_above], value[~is_above]
        # An end that stays twice counts half, so that both ends move.
        below[up[last_side[up] == 1]] *= 0.5
        above[down[last_side[down] == -1]] *= 0.5
        last_side[up], last_side[down] = 1, -1
        open_ = open_[error[open_] > TRAVEL_SLACK_MM]
    return best
