"""Named movements of the jaw, as paths of advances and shift.

Every excursion is one continuous line in guidance coordinates with corners: `progress` grows by
the advance of the leading condyle, or, where only the jaw shifts, by the shift.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kinematics.checks import InputError, finite_array, in_range
from kinematics.conventions import Floats
from kinematics.guidance.guidance import Guidance, Side
from kinematics.guidance.mandible import CENTRIC_RELATION, GuidanceCoordinates

RETRUSION: Final = "retrusion"


@dataclass(frozen=True)
class Excursion:
    """One movement from MI or CR.

    Attributes
    ----------
    name : str
        "protrusion", "right lateral", "left lateral", "lateroprotrusion A" or "retrusion".
    azimuth_deg : float
        -90 right lateral, 0 protrusion, +90 left lateral; for retrusion 0.
    start : str
        "MI" (travel counted from MI) or "CR" (border excursion, travel counted from CR).
    """

    name: str
    azimuth_deg: float
    start: str


@dataclass(frozen=True)
class _Course:
    """Corners of an excursion: progress, advances, shift, and which of the legs between shift.

    They are few: plain numbers are done with sooner than arrays.
    """

    progress_mm: tuple[float, ...]
    right_mm: tuple[float, ...]
    left_mm: tuple[float, ...]
    shift_mm: tuple[float, ...]
    leg_shifts: tuple[bool, ...]


def protrusion(start: str = "MI") -> Excursion:
    """Return the excursion straight forward."""
    return Excursion("protrusion", 0.0, _start(start))


def right_lateral(start: str = "MI") -> Excursion:
    """Return the excursion to the patient's right: the right side works."""
    return Excursion("right lateral", -90.0, _start(start))


def left_lateral(start: str = "MI") -> Excursion:
    """Return the excursion to the patient's left: the left side works."""
    return Excursion("left lateral", 90.0, _start(start))


def lateroprotrusion(azimuth_deg: float, start: str = "MI") -> Excursion:
    """Return the excursion between protrusion (0) and right (-90) or left lateral (90).

    Raises
    ------
    InputError
        An azimuth outside -90 to 90 degrees.
    """
    azimuth = in_range(azimuth_deg, "azimuth_deg", -90.0, 90.0, "degrees")
    return Excursion(f"lateroprotrusion {azimuth:g}", azimuth, _start(start))


def retrusion() -> Excursion:
    """Return the movement from MI back to CR."""
    return Excursion(RETRUSION, 0.0, "MI")


def _start(start: str) -> str:
    if start not in ("MI", "CR"):
        raise InputError(f"start = '{start}': an excursion starts in 'MI' or 'CR'")
    return start


def along(
    guidance: Guidance,
    excursion: Excursion,
    start: GuidanceCoordinates,
    progress_mm: ArrayLike,
    end: GuidanceCoordinates | None = None,
) -> tuple[Floats, Floats, Floats]:
    """Return both advances and the shift (n,), mm, at places along an excursion.

    Parameters
    ----------
    guidance : Guidance
        Prepared guidance.
    excursion : Excursion
        Where to go.
    start : GuidanceCoordinates
        MI or CR.
    progress_mm : array_like, shape (n,)
        0 at the start; grows by the advance of the leading (nonworking) condyle, or by the shift
        while only that changes.
    end : GuidanceCoordinates, optional
        Where a retrusion ends; CR unless given.

    Returns
    -------
    advance_right_mm, advance_left_mm, shift_mm : ndarray, shape (n,)

    Raises
    ------
    InputError
        Progress beyond `greatest_progress`, or an end for another excursion than retrusion.

    Notes
    -----
    The working condyle is held at its place at the start, but for (1 - |azimuth| / 90) of the
    advance of the other. The shift moves from where it is at the start to setting x |azimuth| / 90:
    at once (immediate), or evenly over the first excess advance (early). Where the start favours
    the other side, the condyles come level first.
    """
    course = _course(guidance, excursion, start, end)
    progress = finite_array(progress_mm, "progress_mm", (None,))
    last = course.progress_mm[-1]
    outside = (progress < 0.0) | (progress > last)
    if outside.any():
        where = int(np.argmax(outside))
        raise InputError(
            f"progress_mm[{where}] = {progress[where]:g} mm: {excursion.name} must be 0 to "
            f"{last:g} mm, where the condylar path ends"
        )
    return (
        np.interp(progress, course.progress_mm, course.right_mm),
        np.interp(progress, course.progress_mm, course.left_mm),
        np.interp(progress, course.progress_mm, course.shift_mm),
    )


def greatest_progress(
    guidance: Guidance,
    excursion: Excursion,
    start: GuidanceCoordinates,
    end: GuidanceCoordinates | None = None,
) -> float:
    """Return the progress, mm, at which a condylar path (or a retrusion) ends; see `along`."""
    return _course(guidance, excursion, start, end).progress_mm[-1]


def shift_breaks(
    guidance: Guidance,
    excursion: Excursion,
    start: GuidanceCoordinates,
    end: GuidanceCoordinates | None = None,
) -> Floats:
    """Return the progress (k,), mm, at which use of the immediate side shift begins or ends.

    Empty where the shift does not change; see `along`.
    """
    course = _course(guidance, excursion, start, end)
    legs = zip(course.leg_shifts, pairwise(course.progress_mm), strict=True)
    breaks = {at for shifts, ends in legs if shifts and ends[0] < ends[1] for at in ends}
    return np.array(sorted(breaks), dtype=np.float64)


def _course(
    guidance: Guidance,
    excursion: Excursion,
    start: GuidanceCoordinates,
    end: GuidanceCoordinates | None,
) -> _Course:
    if excursion.name == RETRUSION:
        return _straight_back(start, CENTRIC_RELATION if end is None else end)
    if end is not None:
        raise InputError(f"{excursion.name}: only a retrusion takes an end")
    direction = -1.0 if excursion.azimuth_deg < 0.0 else 1.0
    share = abs(excursion.azimuth_deg) / 90.0
    sides = (guidance.right, start.advance_right_mm), (guidance.left, start.advance_left_mm)
    (nonworking, lead), (working, follow) = sides if direction > 0.0 else sides[::-1]
    room = nonworking.path.length_mm - lead
    if share < 1.0:
        room = min(room, (working.path.length_mm - follow) / (1.0 - share))
    corners = [(0.0, 0.0, direction * start.shift_mm)]
    shifting = []
    for advance, shift in _legs(nonworking, share, lead - follow, corners[0][2]):
        progress, gone, used = corners[-1]
        taken = min(advance, room - gone)
        part = taken / advance if advance > 0.0 else 1.0
        step = taken if advance > 0.0 else abs(shift)
        corners.append((progress + step, gone + taken, used + shift * part))
        shifting.append(shift != 0.0)
        if taken < advance:
            break
    mine = tuple(lead + gone for _, gone, _ in corners)
    other = tuple(follow + (1.0 - share) * gone for _, gone, _ in corners)
    right, left = (mine, other) if direction > 0.0 else (other, mine)
    used_mm = tuple(direction * used for *_, used in corners)
    return _Course(tuple(at for at, *_ in corners), right, left, used_mm, tuple(shifting))


def _legs(
    nonworking: Side, share: float, ahead_mm: float, shift_mm: float
) -> list[tuple[float, float]]:
    """Return the legs of an excursion: advance of the nonworking condyle, change of shift, mm.

    Parameters
    ----------
    nonworking : Side
        The leading side.
    share : float
        |azimuth| / 90.
    ahead_mm, shift_mm : float
        How far the leading condyle is ahead of the other at the start, and the shift there,
        positive in the direction of the excursion.
    """
    endless = (np.inf, 0.0)
    if share == 0.0:
        return [endless]
    limit = share * nonworking.shift_limit_mm
    level = max(0.0, -ahead_mm / share)
    if nonworking.early_over_mm == 0.0:
        return [(level, 0.0), (0.0, max(limit, shift_mm) - shift_mm), endless]
    # A shift to the other side is given back while the condyles come level.
    given_back = max(0.0, -shift_mm)
    left = max(0.0, limit - max(0.0, shift_mm))
    spread = nonworking.early_over_mm * left / limit / share if limit > 0.0 else 0.0
    return [(level, given_back), (spread, left), endless]


def _straight_back(start: GuidanceCoordinates, end: GuidanceCoordinates) -> _Course:
    """Return the course on which advances and shift fall together."""
    corners = [(at.advance_right_mm, at.advance_left_mm, at.shift_mm) for at in (start, end)]
    length = max(abs(one - two) for one, two in zip(*corners, strict=True))
    if length == 0.0:
        right_mm, left_mm, shift_mm = corners[0]
        return _Course((0.0,), (right_mm,), (left_mm,), (shift_mm,), ())
    right, left, shift = zip(*corners, strict=True)
    return _Course((0.0, length), right, left, shift, (shift[0] != shift[1],))
