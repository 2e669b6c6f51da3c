"""How far a study has come, how long it will take yet, and both in words."""

import time
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

#: Counts of finished samples that are remembered, with their times.
_REMEMBERED: Final = 1024
_MINUTE_S: Final = 60.0
_HOUR_S: Final = 3600.0
_DAY_S: Final = 24 * _HOUR_S


@dataclass(frozen=True)
class Progress:
    """How far a study has come.

    Attributes
    ----------
    done, total : int
        Samples that are stored, those of earlier runs among them, and all there are; samples of
        refused jobs are in neither.
    job : str
        Name of the job of which something was finished last; empty before.
    spent_s : float
        Seconds since this run began.
    left_s : float or None
        Seconds left as it seems, from how quickly samples of this run came of late; None while too
        few came.
    notes : tuple of str
        Sentences on what was found damaged.
    """

    done: int
    total: int
    job: str
    spent_s: float
    left_s: float | None
    notes: tuple[str, ...] = ()


class Pace:
    """Tells how long the rest takes, by the later half of what came so far.

    The first samples are slower than the others, since processes start and jobs are prepared; so
    the earlier half is left out.

    Parameters
    ----------
    clock : callable
        Gives seconds.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._begin = clock()
        self._marks: deque[tuple[float, int]] = deque(maxlen=_REMEMBERED)
        self._came = 0

    def came(self, samples: int) -> None:
        """Note that samples have been finished just now."""
        self._came += samples
        self._marks.append((self._clock(), self._came))

    @property
    def spent_s(self) -> float:
        """Seconds since the beginning."""
        return self._clock() - self._begin

    def left_s(self, samples: int) -> float | None:
        """Return how many seconds this number of samples will take, None if that is not known."""
        if samples <= 0:
            return 0.0
        later = [mark for mark in self._marks if 2 * mark[1] >= self._came]
        if len(later) < 2:
            return None
        (first_s, first), (last_s, last) = later[0], later[-1]
        a_sample_s = (last_s - first_s) / (last - first)
        # Since the last came, the next are under way.
        under_way_s = min(self._clock() - last_s, (last_s - first_s) / (len(later) - 1))
        return max(0.0, a_sample_s * samples - under_way_s)


def progress_words(progress: Progress, what: str) -> str:
    """Return how far a study has come, as "312 of 1,024 samples, about 1 min 40 s left".

    Parameters
    ----------
    progress : Progress
        How far.
    what : str
        What is run, as the user knows it: "samples", "runs" or "cases".
    """
    words = f"{progress.done:,} of {progress.total:,} {what}"
    if progress.left_s is None or progress.done >= progress.total:
        return words
    return f"{words}, about {duration_words(progress.left_s)} left"


def duration_words(seconds: float) -> str:
    """Return a time as one would say it: "40 s", "1 min 40 s", "2 h 10 min", "3 days 4 h"."""
    if round(seconds) < _MINUTE_S:
        return f"{max(1, round(seconds))} s"
    if (tens := round(seconds / 10)) * 10 < _HOUR_S:
        return _two_units(tens * 10, "min", 60, "s")
    if (minutes := round(seconds / _MINUTE_S)) * _MINUTE_S < 2 * _DAY_S:
        return _two_units(minutes, "h", 60, "min")
    return _two_units(round(seconds / _HOUR_S), "days", 24, "h")


def _two_units(number: int, unit: str, parts: int, part: str) -> str:
    whole, rest = divmod(number, parts)
    return f"{whole} {unit} {rest} {part}" if rest else f"{whole} {unit}"
