"""What tracks of excursions can tell of guidance, by rule why not where they cannot."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.settings import RecordFitting
from kinematics.records.sought import (
    CURVATURE,
    IMMEDIATE,
    INCLINATION,
    LEAST_ADVANCE_MM,
    PROGRESSIVE,
    QUANTITIES,
    SIDE_NAMES,
    SIDES,
    SideName,
    Sought,
    combine,
)

#: Rows in which no condyle has advanced so far, mm, say nothing of paths. Chosen for this program:
#: beyond the error of how a recorder is fixed.
LEAST_USED_MM: Final = 0.5
#: Rows of a lateral track in which the nonworking condyle is not so far ahead, mm, are not used
#: where an immediate shift comes first: it may not be over yet. Chosen for this program: more than
#: four times the error, 0.4 mm, of how far one condyle is ahead, by how a recorder is fixed.
SHIFT_OVER_MM: Final = 2.0
#: A curve shows over so much of a path, mm. Chosen for this program: over 4 mm an arc of the usual
#: radius of 19 mm leaves its chord by 0.1 mm, twice the measuring error taken.
_LEAST_CURVED_MM: Final = 4.0
#: Immediate and progressive shift are told apart from this advance of one condyle beyond the other
#: on, mm. Chosen for this program: as for records, that differ by 2 mm, and the shift over.
_LEAST_APART_MM: Final = SHIFT_OVER_MM + 2.0


@dataclass(frozen=True)
class Advances:
    """How far rows of tracks take the condyles.

    Attributes
    ----------
    nonworking : ndarray, shape (n,)
        RIGHT, LEFT, or 0 in protrusion.
    both_mm : ndarray, shape (n, 2)
        Advance of right and left condyle, about.
    """

    nonworking: Ints
    both_mm: Floats

    def along_path(self, side: int, sign: int) -> Floats:
        """Return advances of a side in rows in which it goes along its path."""
        return np.asarray(self.both_mm[np.isin(self.nonworking, (0, sign)), side])

    def beyond_other(self, side: int, sign: int) -> Floats:
        """Return by how much a side is ahead of the other in its lateral rows."""
        rows = self.both_mm[self.nonworking == sign]
        return np.asarray(rows[:, side] - rows[:, 1 - side])


def sought_along(advances: Advances, settings: GuidanceSettings, fitting: RecordFitting) -> Sought:
    """Say what tracks can tell.

    Parameters
    ----------
    advances : Advances
        Of all rows that are used.
    settings, fitting : GuidanceSettings, RecordFitting
        Of the case.
    """
    sought = Sought()
    known = (fitting.right_as_set, fitting.left_as_set)
    both = (settings.right, settings.left)
    for side, (_, sign) in enumerate(SIDES):
        _path(sought, side, advances.along_path(side, sign), known[side], both[side])
        _shift(sought, side, advances.beyond_other(side, sign), known[side], both[1 - side])
    return sought


def _path(
    sought: Sought, side: int, along_mm: Floats, known: Sequence[str], given: SideGuidance
) -> None:
    name, other = _names(side)
    farthest_mm = float(along_mm.max(initial=0.0))
    if "curvature" in known:
        sought.reasons[side, CURVATURE] = "it is taken as set, as the case asks"
    why = ""
    if not len(along_mm):
        why = (
            f"no track moves the {name} condyle along its path: a protrusive or a {other} lateral"
            " track is needed"
        )
    elif farthest_mm < LEAST_ADVANCE_MM:
        why = (
            f"the {name} condyle advances {farthest_mm:.1f} mm at most, less than"
            f" {LEAST_ADVANCE_MM:g} mm"
        )
    elif given.path == "measured":
        why = "the path is set as measured points, which say more"
    if why:
        sought.reasons[side, INCLINATION] = why
        sought.reasons.setdefault((side, CURVATURE), why)
    elif farthest_mm < LEAST_USED_MM + _LEAST_CURVED_MM:
        sought.reasons.setdefault(
            (side, CURVATURE),
            f"the {name} condyle advances {farthest_mm:.1f} mm at most; a curve shows over"
            f" {_LEAST_CURVED_MM:g} mm from an advance of {LEAST_USED_MM:g} mm on",
        )
    # What is not told is sought all the same, so that a wrong setting does not tilt the rest.
    sought.free[side, INCLINATION] = len(along_mm) > 0
    measured = given.path == "measured" and farthest_mm >= LEAST_USED_MM + _LEAST_CURVED_MM
    sought.free[side, CURVATURE] = measured or (side, CURVATURE) not in sought.reasons


def _shift(
    sought: Sought, side: int, beyond_mm: Floats, known: Sequence[str], working: SideGuidance
) -> None:
    name, other = _names(side)
    farthest_mm = float(beyond_mm.max(initial=0.0))
    for quantity in (PROGRESSIVE, IMMEDIATE):
        if QUANTITIES[quantity] in known:
            sought.reasons[side, quantity] = "it is taken as set, as the case asks"
    to_find = [q for q in (PROGRESSIVE, IMMEDIATE) if (side, q) not in sought.reasons]
    why = ""
    if not len(beyond_mm):
        why = f"no {other} lateral track moves the {name} condyle inward"
    elif farthest_mm < LEAST_ADVANCE_MM:
        why = (
            f"the {name} condyle advances {farthest_mm:.1f} mm beyond the other at most, less than"
            f" {LEAST_ADVANCE_MM:g} mm"
        )
    elif working.pure_rotation:
        why = f"the {other} condyle is set to pure rotation, which leaves no shift to be found"
    if why:
        sought.reasons.update({(side, quantity): why for quantity in to_find})
    if why or not to_find:
        return
    sought.free[side, to_find] = True
    if len(to_find) == 2 and farthest_mm < _LEAST_APART_MM:
        combine(
            sought,
            side,
            f"an advance of {farthest_mm:.1f} mm beyond the other condyle cannot tell progressive"
            f" from immediate shift: record at least {_LEAST_APART_MM:g} mm, or name in"
            f" {name}_as_set which of them is known",
            both_sought=False,
        )


def _names(side: int) -> tuple[SideName, SideName]:
    return SIDE_NAMES[side], SIDE_NAMES[1 - side]
