"""What can be sought in records at all, and by rule why not where it cannot."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final, Literal

import numpy as np

from kinematics.conventions import LEFT, RIGHT, Bools, Floats
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.recorded_places import RecordedPlace
from kinematics.records.settings import RecordFitting

Quantity = Literal["condylar inclination", "curvature", "progressive shift", "immediate shift"]
SideName = Literal["right", "left"]

QUANTITIES: Final[tuple[Quantity, ...]] = (
    "condylar inclination",
    "curvature",
    "progressive shift",
    "immediate shift",
)
INCLINATION, CURVATURE, PROGRESSIVE, IMMEDIATE = range(4)
SIDES: Final[tuple[tuple[SideName, int], ...]] = (("right", RIGHT), ("left", LEFT))
SIDE_NAMES: Final[tuple[SideName, ...]] = tuple(name for name, _ in SIDES)

#: A condyle that advances less, mm, says nothing of its path. Chosen for this program: with the
#: scatter taken as default an inclination from 2 mm has a standard error of about 8 degrees, as
#: much as people differ (7.8, n = 32; 12, n = 154: Appl Sci 2025;15(18):10231).
LEAST_ADVANCE_MM: Final = 2.0
#: Advances that differ by less, mm, count as one. Chosen for this program, for the same reason.
LEAST_APART_MM: Final = 2.0
#: From this advance on, mm, an inclination is sought, and from this difference of advances on both
#: shifts, although none of them is told: so a wrong setting does not tilt the rest. Chosen for this
#: program.
_AT_ALL_MM: Final = 0.5


@dataclass
class Sought:
    """What is sought in records.

    Attributes
    ----------
    free : ndarray of bool, shape (2, 4)
        Sides by quantities: what may differ from its setting while the best fit is sought.
    reasons : dict of (int, int) to str
        Why a quantity of a side is not told, whether it is free or not.
    combined : list of int
        Sides of which progressive and immediate shift are known together only, as a Bennett angle.
    """

    free: Bools = field(default_factory=lambda: np.zeros((2, 4), dtype=bool))
    reasons: dict[tuple[int, int], str] = field(default_factory=dict)
    combined: list[int] = field(default_factory=list)


def advances_along(centres: Floats, half_distance_mm: float) -> Floats:
    """Return about how far records (n, 2, 3) put right and left condyle along their paths, (n, 2).

    Straight from CR, seen from the side.
    """
    moves = centres - np.array([[0.0, -half_distance_mm, 0.0], [0.0, half_distance_mm, 0.0]])
    return np.asarray(np.copysign(np.hypot(moves[..., 0], moves[..., 2]), moves[..., 0]))


def tells_something(place: RecordedPlace, advances_mm: Floats) -> bool:
    """Tell whether a record, with its two advances, takes a condyle far enough to say anything."""
    moved = [
        advance
        for (_, sign), advance in zip(SIDES, advances_mm, strict=True)
        if place.nonworking in (0, sign)
    ]
    return bool(max(moved) >= LEAST_ADVANCE_MM)


def sought_in(
    places: Sequence[RecordedPlace],
    advances_mm: Floats,
    counts: Bools,
    settings: GuidanceSettings,
    fitting: RecordFitting,
    across_mm: float,
) -> Sought:
    """Say what records can tell, by rule.

    Parameters
    ----------
    places : sequence of RecordedPlace
        All records.
    advances_mm : ndarray, shape (n, 2)
        About how far each takes the right and the left condyle.
    counts : ndarray of bool, shape (n,)
        Which of them tell something.
    settings, fitting : GuidanceSettings, RecordFitting
        Of the case.
    across_mm : float
        Standard deviation of a condyle across its path in one record.
    """
    sought = Sought()
    known = (fitting.right_as_set, fitting.left_as_set)
    both = (settings.right, settings.left)
    for side, (_, sign) in enumerate(SIDES):
        kinds = np.array([place.nonworking for place in places])
        protrusive, lateral = (advances_mm[kinds == kind, side] for kind in (0, sign))
        _path(sought, side, protrusive, lateral, known[side], across_mm)
        counted = advances_mm[counts & np.isin(kinds, (0, sign)), side]
        sought.free[side, INCLINATION] = bool((counted >= _AT_ALL_MM).any())
        _shift(sought, side, lateral, known[side], both[1 - side], across_mm)
    return sought


def _path(
    sought: Sought,
    side: int,
    protrusive: Floats,
    lateral: Floats,
    known: Sequence[str],
    across_mm: float,
) -> None:
    name, other = _names(side)
    every = np.concatenate([protrusive, lateral])
    enough = every[every >= LEAST_ADVANCE_MM]
    if "curvature" in known:
        sought.reasons[side, CURVATURE] = "it is taken as set, as the case asks"
    if not len(enough):
        why = (
            f"no record moves the {name} condyle along its path: a protrusive or a {other} lateral"
            " record is needed"
            if not len(every)
            else _too_short(f"the {name} condyle", every, across_mm, "an inclination")
        )
        sought.reasons[side, INCLINATION] = why
        sought.reasons.setdefault((side, CURVATURE), why)
    elif np.ptp(enough) < LEAST_APART_MM:
        one = "is one record" if len(enough) == 1 else "are records"
        sought.reasons.setdefault(
            (side, CURVATURE),
            f"there {one} of the {name} condyle at one advance only ({enough.max():.1f} mm); a"
            f" curve shows in two, at least {LEAST_APART_MM:g} mm apart",
        )
    sought.free[side, CURVATURE] = (side, CURVATURE) not in sought.reasons


def _shift(
    sought: Sought,
    side: int,
    lateral: Floats,
    known: Sequence[str],
    working: SideGuidance,
    across_mm: float,
) -> None:
    name, other = _names(side)
    both = (PROGRESSIVE, IMMEDIATE)
    for quantity in both:
        if QUANTITIES[quantity] in known:
            sought.reasons[side, quantity] = "it is taken as set, as the case asks"
    enough = lateral[lateral >= LEAST_ADVANCE_MM]
    open_to_records = [quantity for quantity in both if (side, quantity) not in sought.reasons]
    why = ""
    if not len(lateral):
        why = f"no {other} lateral record moves the {name} condyle inward"
    elif not len(enough):
        why = _too_short(f"the {name} condyle", lateral, across_mm, "a progressive shift")
    elif working.pure_rotation:
        why = f"the {other} condyle is set to pure rotation, which leaves no shift to be found"
    for quantity in open_to_records:
        if why:
            sought.reasons[side, quantity] = why
    if why or not open_to_records:
        return
    sought.free[side, open_to_records] = True
    if len(open_to_records) == 2 and np.ptp(enough) < LEAST_APART_MM:
        one = f"one {other} lateral record" if len(enough) == 1 else f"{other} lateral records"
        combine(
            sought,
            side,
            f"{one} at one advance ({enough.max():.1f} mm) cannot tell progressive from immediate"
            f" shift: take two, at least {LEAST_APART_MM:g} mm apart, or name in {name}_as_set"
            " which of them is known",
            bool(np.ptp(enough) >= _AT_ALL_MM),
        )


def combine(sought: Sought, side: int, why: str, both_sought: bool) -> None:
    """Give up telling progressive from immediate shift: what they make together is still known.

    Parameters
    ----------
    sought, side : Sought, int
        Of which side.
    why : str
        Reason.
    both_sought : bool
        Whether both are still sought, or the immediate shift is left as set.
    """
    sought.free[side, [PROGRESSIVE, IMMEDIATE]] = True, both_sought
    sought.reasons[side, PROGRESSIVE] = sought.reasons[side, IMMEDIATE] = why
    sought.combined.append(side)


def _too_short(what: str, advances_mm: Floats, across_mm: float, found: str) -> str:
    """Say that advances are too short, and how uncertain a direction from them would be."""
    most_mm = max(float(advances_mm.max()), 0.0)
    error_deg = float(np.degrees(np.arctan2(across_mm, most_mm)))
    return (
        f"{what} advances {most_mm:.1f} mm at most, less than {LEAST_ADVANCE_MM:g} mm: {found} from"
        f" that would have a standard error of {error_deg:.0f} degrees"
    )


def _names(side: int) -> tuple[SideName, SideName]:
    return SIDES[side][0], SIDES[1 - side][0]
