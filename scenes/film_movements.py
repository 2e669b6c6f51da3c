"""The movements of a film by the names that the command takes, and as they are followed."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final

import numpy as np

from kinematics.borders.movements import BorderMovements, border_movements
from kinematics.borders_filmed import OPENING, ROUND, filmed_border
from kinematics.case import Case
from kinematics.case_filmed import Filmed, filmed
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats, Ints
from kinematics.guidance.excursions import (
    Excursion,
    left_lateral,
    protrusion,
    retrusion,
    right_lateral,
)
from scenes.film_arguments import MOVEMENTS
from scenes.phrases import excursion_title, length

_EXCURSIONS: Final[dict[str, Excursion]] = dict(
    zip(
        MOVEMENTS,
        (protrusion(), right_lateral(), left_lateral(), retrusion(), OPENING, ROUND),
        strict=True,
    )
)
_BORDER: Final = (OPENING, ROUND)
#: So many times as fast as excursions border movements go, being that much longer.
BORDER_FASTER: Final = 5.0


def needs_borders(names: Sequence[str]) -> bool:
    """Return whether there is a border movement among the movements of a film."""
    return any(_EXCURSIONS[name] in _BORDER for name in names)


def borders_of(case: Case, casts: MountedCasts, threads: int) -> BorderMovements:
    """Return the border movements of a case."""
    return border_movements(casts, case.border_limits, Workers(threads))


def followed(
    case: Case,
    casts: MountedCasts,
    names: Sequence[str],
    borders: BorderMovements | None,
    travel_mm: float,
    step_mm: float,
    progress: Callable[[str], None],
    threads: int,
) -> Iterator[Filmed]:
    """Yield the movements that are shown.

    Parameters
    ----------
    case, casts : Case, MountedCasts
        The case, and its casts.
    names : sequence of str
        Of `film_arguments.MOVEMENTS`.
    borders : BorderMovements or None
        Of the case; None where none of them is asked for.
    travel_mm : float
        Travel at which excursions turn back.
    step_mm : float
        Travel from pose to pose; border movements go `BORDER_FASTER`.
    progress : callable
        Gets the name of every step when it begins.
    threads : int
        How many may compute.

    Raises
    ------
    InputError
        A movement that leads nowhere.
    """
    steps = np.append(np.arange(0.0, travel_mm - 1e-6, step_mm), travel_mm)
    for name in names:
        progress(f"following {name.replace('-', ' ')}")
        movement, workers = _EXCURSIONS[name], Workers(threads)
        if movement in _BORDER:
            assert borders is not None
            faster_mm = BORDER_FASTER * step_mm
            yield filmed_border(case, casts, borders, movement, faster_mm, workers)
            continue
        found = filmed(case, casts, movement, steps, workers)
        if found.travel_mm[-1] == 0.0:
            raise InputError(
                f"--movement {name}: there is no way back to show: MI is in CR; leave it out"
            )
        yield found


def tracks_of(borders: BorderMovements | None) -> tuple[Floats, ...]:
    """Return the lines of the lower incisal point that bound it as seen from the side."""
    if borders is None:
        return ()
    return tuple(line.incisal_point for line in borders.lines if line.seen == "side")


def order_of(one: Filmed) -> Ints:
    """Return the numbers of the poses as they are shown: out and back, or once round."""
    there = np.arange(len(one.travel_mm))
    return there if one.excursion == ROUND else np.append(there, there[-2::-1])


def speed_of(one: Filmed, speed_mm_a_s: float) -> float:
    """Return how fast a movement goes where excursions go with some speed, mm a second."""
    return speed_mm_a_s * (BORDER_FASTER if one.phases else 1.0)


def way_words(one: Filmed) -> str:
    """Return how far a movement goes."""
    way = length(float(one.travel_mm[-1]))
    of_what = "along the track of the lower incisal point" if one.phases else "of travel"
    back = "once round" if one.excursion == ROUND else "out and back"
    return f"{excursion_title(one.excursion)}: {way} {of_what} {back}"
