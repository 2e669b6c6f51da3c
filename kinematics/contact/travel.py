"""Poses of excursions at wanted horizontal travels of the lower incisal point.

Several excursions are searched side by side, so that each round closes the poses of all of them at
once: what a pose is does not depend on the others.
"""

from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.places import Places, closed_places, horizontal_mm, start_of
from kinematics.contact.pose_rows import joined, picked
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats, Ints
from kinematics.guidance.excursions import Excursion, greatest_progress, shift_breaks

#: Spacing of the first, coarse look along an excursion, mm of progress.
COARSE_MM: Final = 0.3
#: So far is looked along at first where it is not known how far is enough, mm: most mouths are at
#: edge-to-edge by then. And so far is looked on, mm, before all that is left is.
FIRST_LOOK_MM: Final = 4.0
LOOK_ON_MM: Final = 0.8
#: Travel is found to within this, mm, so that a mirrored mouth moves as the mirror image does.
TRAVEL_SLACK_MM: Final = 1e-9
#: A travel that may be missed by no more than this, mm, is one that may hardly be missed.
HARDLY_MM: Final = 1e-3
#: How much more progress than travel is looked along at first, and of what is wanting then: the
#: tip mostly keeps pace with progress.
MARGIN: Final = 1.05
FURTHER: Final = 1.5
MOST_ROUNDS: Final = 12

#: Tells how far an excursion is wanted, from places along it; see `places_at_travels`.
Enough = Callable[[Excursion, Places], float]
#: Asks for places at some progress, and gets them; returns the progress that was sought.
_Search = Generator[Floats, Places, Floats]


@dataclass(frozen=True)
class FirstLook:
    """How excursions are looked along before travels are sought.

    Attributes
    ----------
    step_mm : float
        Spacing, mm of progress. Where it is as fine as the wanted travels, and each may be missed
        by half of it, most are found at once.
    sufficed_mm : dict
        Progress of each excursion that was enough in cases like this, where it is known: noted
        anew by every search. The places that are found do not depend on it.
    """

    step_mm: float = COARSE_MM
    sufficed_mm: dict[Excursion, float] = field(default_factory=dict)

    def reach_mm(self, excursion: Excursion, unknown_mm: float) -> float:
        """Return the progress that is looked along at first: a step more than was enough."""
        known_mm = self.sufficed_mm.get(excursion)
        return unknown_mm if known_mm is None else known_mm + self.step_mm

    def note(self, excursion: Excursion, enough_mm: float) -> None:
        """Note what was enough; of cases that take turns the farther decides."""
        before_mm = self.sufficed_mm.get(excursion, 0.0)
        self.sufficed_mm[excursion] = max(enough_mm, before_mm - self.step_mm)


def places_at_travels(
    casts: MountedCasts,
    excursions: Sequence[Excursion],
    wanted_mm: Floats,
    workers: Workers,
    slack_mm: Floats | float = TRAVEL_SLACK_MM,
    enough: Enough | None = None,
    first_look: FirstLook | None = None,
) -> tuple[Places, ...]:
    """Find where the incisal point has travelled each wanted distance, for each excursion.

    Parameters
    ----------
    casts : MountedCasts
        Casts, guidance and MI.
    excursions : sequence of Excursion
        Where to go, and from where.
    wanted_mm : ndarray, shape (k,)
        Travels, ascending from 0.
    workers : Workers
        Threads.
    slack_mm : ndarray, shape (k,), or float
        How far each may be missed; where that is much, most are found at the second look.
    enough : callable, optional
        Gets an excursion and its places at the first look, and tells the travel, mm, beyond which
        only those travels are sought that may hardly be missed.
    first_look : FirstLook, optional
        Coarse if not given.

    Returns
    -------
    tuple of Places
        Of each excursion, by progress, those of the wanted travels that are reached, and the places
        where use of an immediate side shift begins or ends. The last place reached is kept where
        the path ends before the last wanted travel. Those of each excursion and each travel do not
        depend on the others.

    Raises
    ------
    InputError
        Nothing guides at the start: neither teeth nor table meet.
    """
    slack = np.broadcast_to(slack_mm, wanted_mm.shape)
    wanted = _Wanted(wanted_mm, slack, first_look or FirstLook(), enough)
    searches = [_sought(casts, excursion, wanted) for excursion in excursions]
    return tuple(_found(casts, excursions, searches, workers))


def place_at_travel(
    casts: MountedCasts, excursion: Excursion, travel_mm: float, workers: Workers
) -> tuple[Places, float]:
    """Return the place of one travel, or the last where the path ends before it; and its travel.

    It is the one that `places_at_travels` finds for it among others.
    """
    search = _sought_alone(casts, excursion, travel_mm)
    (places,) = _found(casts, [excursion], [search], workers)
    travel = horizontal_mm(places.incisal_point - places.incisal_point[0])
    return picked(places, slice(-1, None)), float(travel[-1])


def _found(
    casts: MountedCasts,
    excursions: Sequence[Excursion],
    searches: Sequence[_Search],
    workers: Workers,
) -> list[Places]:
    """Let searches go on, a round of all at a time, and return the places they settle for."""
    asked = {i: next(search) for i, search in enumerate(searches)}
    seen: list[list[Places]] = [[] for _ in searches]
    sought: list[Floats] = [np.empty(0) for _ in searches]
    while asked:
        here = closed_places(casts, [excursions[i] for i in asked], list(asked.values()), workers)
        ongoing = {}
        for i, places in zip(asked, here, strict=True):
            seen[i].append(places)
            try:
                ongoing[i] = searches[i].send(places)
            except StopIteration as done:
                sought[i] = done.value
        asked = ongoing
    return [_rows_at(joined(seen[i]), progress) for i, progress in enumerate(sought)]


def _rows_at(places: Places, progress_mm: Floats) -> Places:
    """Return the places at some progress, all of which were seen."""
    order = np.argsort(places.progress_mm, kind="stable")
    at = np.searchsorted(places.progress_mm, progress_mm, sorter=order)
    return picked(places, order[at])


@dataclass(frozen=True)
class _Wanted:
    """Travels that are wanted and how far each may be missed, (k,); see `places_at_travels`."""

    travel_mm: Floats
    slack_mm: Floats
    first_look: FirstLook
    enough: Enough | None

    def asked(self, told_mm: float) -> Bools:
        """Return which, (k,), are sought where those up to some travel are told."""
        return np.asarray((self.slack_mm <= HARDLY_MM) | (self.travel_mm <= told_mm))

    def last_mm(self, told_mm: float) -> float:
        """Return the last travel that is sought."""
        return float(self.travel_mm[self.asked(told_mm)].max(initial=0.0))

    def told_mm(self, excursion: Excursion, seen: Places) -> float:
        """Return up to which travel those are sought that may hardly be missed."""
        return np.inf if self.enough is None else self.enough(excursion, seen)


@dataclass(frozen=True)
class _Look:
    """What was seen of an excursion on new ground: progress, travel, how fast that grows, (n,).

    `origin` is the incisal point at the start. Travels are told up to `told_mm`.
    """

    progress_mm: Floats
    travel_mm: Floats
    growth: Floats
    origin: Floats
    told_mm: float


def _sought(casts: MountedCasts, excursion: Excursion, wanted: _Wanted) -> _Search:
    """Search for all wanted travels; see `places_at_travels`."""
    look = yield from _looked_along(casts, excursion, wanted)
    reached = wanted.travel_mm <= look.travel_mm[-1]
    extra = shift_breaks(casts.guidance, excursion, start_of(casts, excursion))
    if look.travel_mm[-1] < wanted.last_mm(look.told_mm):
        extra = np.append(extra, look.progress_mm[-1])
    extra = np.unique(extra[extra <= look.progress_mm[-1]])
    sought = reached & wanted.asked(look.told_mm)
    found = yield from _refined(look, wanted.travel_mm[sought], extra, wanted.slack_mm[sought])
    return np.unique(np.concatenate([found, extra]))


def _sought_alone(casts: MountedCasts, excursion: Excursion, travel_mm: float) -> _Search:
    """Search for one travel, and return the start before it."""
    slack = np.array([TRAVEL_SLACK_MM])
    wanted = _Wanted(np.array([travel_mm]), slack, FirstLook(), None)
    look = yield from _looked_along(casts, excursion, wanted)
    if travel_mm > look.travel_mm[-1]:
        return np.array([0.0, look.progress_mm[-1]])
    found = yield from _refined(look, wanted.travel_mm, np.empty(0), slack)
    return np.concatenate([[0.0], found])


def _travelled(places: Places, origin: Floats, count: int | None = None) -> tuple[Floats, Floats]:
    """Return travel of the first places from the start, mm, and how fast it grows; nan unguided."""
    way, rate = places.incisal_point[:count] - origin, places.rate[:count]
    travel = horizontal_mm(way)
    toward = way[:, 0] * rate[:, 0] + way[:, 1] * rate[:, 1]
    growth = toward / np.where(travel > 0.0, travel, 1.0)
    return travel, np.where(travel > 0.0, growth, horizontal_mm(rate))


def _looked_along(
    casts: MountedCasts, excursion: Excursion, wanted: _Wanted
) -> Generator[Floats, Places, _Look]:
    """Look along an excursion until the last travel that is sought.

    Raises
    ------
    InputError
        Nothing guides at the start.
    """
    last = greatest_progress(casts.guidance, excursion, start_of(casts, excursion))
    look = wanted.first_look
    grid = np.linspace(0.0, last, int(np.ceil(last / look.step_mm)) + 1)
    # In parts, so that a long path is not closed far beyond the travel asked for.
    first_mm = wanted.last_mm(np.inf if wanted.enough is None else FIRST_LOOK_MM)
    first_mm = look.reach_mm(excursion, MARGIN * first_mm)
    seen = yield grid[: 2 + _steps(first_mm, look.step_mm)]
    origin = seen.incisal_point[0]
    if not np.isfinite(origin).all():
        raise InputError(
            f"{excursion.name} from {excursion.start}: neither teeth nor guide table meet at the "
            "start; check mounting and guidance"
        )
    longest_mm = np.inf if wanted.enough is None else LOOK_ON_MM
    while True:
        travel, growth = _travelled(seen, origin)
        ground = _new_ground(travel)
        told_mm = wanted.told_mm(excursion, picked(seen, ground))
        last_mm = wanted.last_mm(told_mm)
        wanting_mm = last_mm - float(travel[ground[-1]])
        if np.isnan(travel).any() or len(travel) == len(grid) or wanting_mm <= 0.0:
            # What lies beyond is left aside, so that it changes nothing how far was looked.
            ground = ground[: 1 + int(np.searchsorted(travel[ground], last_mm))]
            if told_mm < np.inf:
                look.note(excursion, float(seen.progress_mm[ground[-1]]))
            return _Look(seen.progress_mm[ground], travel[ground], growth[ground], origin, told_mm)
        more_mm = FURTHER * wanting_mm
        if told_mm == np.inf:  # edges may meet long before the last travel
            more_mm, longest_mm = min(more_mm, longest_mm), np.inf
        more = 1 + _steps(more_mm, look.step_mm)
        seen = joined([seen, (yield grid[len(travel) : len(travel) + more])])


def _new_ground(travel_mm: Floats) -> Ints:
    """Return those of travels (n,) that are new ground: where the tip pauses or comes back is none.

    It ends where nothing guides.
    """
    used = int(np.argmax(np.isnan(travel_mm))) if np.isnan(travel_mm).any() else len(travel_mm)
    most = np.maximum.accumulate(travel_mm[:used])
    return np.append(0, 1 + np.flatnonzero(travel_mm[1:used] > most[:-1]))


def _steps(progress_mm: float, step_mm: float) -> int:
    """Return how many steps a way takes."""
    return int(np.ceil(progress_mm / step_mm))


def _refined(look: _Look, wanted: Floats, extra: Floats, slack: Floats) -> _Search:
    """Solve travel(progress) = wanted by Newton's way, kept between what is known to lie around.

    The first round closes the jaw at the `extra` progress too.
    """
    grid, travel = look.progress_mm, look.travel_mm
    if len(grid) == 1:
        yield np.append(grid, extra)
        return np.zeros(len(wanted))
    right = np.clip(np.searchsorted(travel, wanted), 1, len(grid) - 1)
    low, high = grid[right - 1].copy(), grid[right].copy()
    below, above = travel[right - 1] - wanted, travel[right] - wanted
    best = np.where(-below < above, low, high)
    error = np.minimum(-below, above)
    tried = _between(look, right, wanted)
    open_ = np.flatnonzero(error > slack)
    before = np.full(len(wanted), np.inf)
    for _ in range(MOST_ROUNDS):
        if len(open_) + len(extra) == 0:
            break
        places = yield np.append(tried[open_], extra)
        extra = np.empty(0)
        here, growth = _travelled(places, look.origin, len(open_))
        at, off = tried[open_], here - wanted[open_]
        closer = np.abs(off) < error[open_]
        best[open_[closer]] = at[closer]
        error[open_[closer]] = np.abs(off)[closer]
        halved = np.abs(off) < 0.5 * before[open_]
        before[open_] = np.abs(off)
        is_above = off > 0.0
        high[open_[is_above]] = at[is_above]
        low[open_[~is_above]] = at[~is_above]
        with np.errstate(divide="ignore", invalid="ignore"):
            next_ = at - off / growth
        inside = (next_ > low[open_]) & (next_ < high[open_])
        middle = 0.5 * (low[open_] + high[open_])
        tried[open_] = np.where(inside & halved, next_, middle)
        open_ = open_[error[open_] > slack[open_]]
    return best


def _between(look: _Look, right: Ints, wanted: Floats) -> Floats:
    """Return where travel is likely as wanted: on a cubic through two places with their growth."""
    left = right - 1
    low, high = look.progress_mm[left], look.progress_mm[right]
    span = look.travel_mm[right] - look.travel_mm[left]
    share = (wanted - look.travel_mm[left]) / span
    steep = np.minimum(look.growth[left], look.growth[right]) > 0.2 * span / (high - low)
    with np.errstate(divide="ignore", invalid="ignore"):
        first, second = span / look.growth[left], span / look.growth[right]
    cubic = (
        (1.0 + 2.0 * share) * (1.0 - share) ** 2 * low
        + share * (1.0 - share) ** 2 * first
        + share**2 * (3.0 - 2.0 * share) * high
        - share**2 * (1.0 - share) * second
    )
    straight = low + share * (high - low)
    return np.asarray(np.where(steep & (cubic > low) & (cubic < high), cubic, straight))
