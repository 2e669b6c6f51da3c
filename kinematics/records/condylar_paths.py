"""Where records put the condyles and where guidance lets them go, as found and as set."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import RIGHT, Floats
from kinematics.guidance.guidance import Guidance, prepare
from kinematics.records.best_fit import Jaw
from kinematics.records.found_settings import FromRecords
from kinematics.records.guided_condyles import condyles, shift_used
from kinematics.records.record_errors import condyle_errors
from kinematics.records.recorded import Recorded, read_records
from kinematics.records.settings import RecordKind
from kinematics.records.sought import IMMEDIATE, SIDES, SideName

#: Paths are shown this far beyond the farthest record, mm, and never shorter than that.
_BEYOND_MM: Final = 1.0
_SHORTEST_MM: Final = 4.0
_POINTS: Final = 61


@dataclass(frozen=True)
class PlacedCondyle:
    """Where one record puts one condyle.

    Attributes
    ----------
    kind : RecordKind
        Which way the jaw went.
    from_cr : ndarray, shape (3,)
        From centric relation: forward, to the left, up, mm; hinge frame.
    covariance : ndarray, shape (3, 3)
        Of its error, mm2.
    """

    kind: RecordKind
    from_cr: Floats
    covariance: Floats


@dataclass(frozen=True)
class SidePaths:
    """One condyle, its records and its paths.

    Attributes
    ----------
    side : SideName
        Whose.
    placed : tuple of PlacedCondyle
        By every record.
    protrusive_as_set, lateral_as_set : ndarray, shape (n, 3)
        In protrusion, and where it is the nonworking condyle; from centric relation, mm.
    protrusive_found, lateral_found : ndarray, shape (n, 3), or None
        The same by the guidance that fits best; None where the records do not give it.
    """

    side: SideName
    placed: tuple[PlacedCondyle, ...]
    protrusive_as_set: Floats
    lateral_as_set: Floats
    protrusive_found: Floats | None
    lateral_found: Floats | None


def condylar_paths(recorded: Recorded, found: FromRecords) -> tuple[SidePaths, ...]:
    """Return both condyles, right and left, with their paths.

    Parameters
    ----------
    recorded : Recorded
        At least one record.
    found : FromRecords
        What `settings_from_records` said of it.

    Raises
    ------
    InputError
        See `read_records`.
    """
    places, centres = read_records(recorded)
    jaw = Jaw(recorded.settings, prepare(recorded.settings), recorded.mi)
    errors = [
        condyle_errors(place.fitting(recorded.fitting), place.about, centre)
        for place, centre in zip(places, centres, strict=True)
    ]
    as_set = jaw.as_set
    fitted = np.array(found.best_fit) if found.best_fit else None
    sides = []
    for side, (name, sign) in enumerate(SIDES):
        start = np.array([0.0, sign * jaw.prepared.half_distance_mm, 0.0])
        block = slice(3 * side, 3 * side + 3)
        placed = tuple(
            PlacedCondyle(place.kind, centre[side] - start, error[block, block])
            for place, centre, error in zip(places, centres, errors, strict=True)
        )
        far_mm = _far_mm(placed, recorded)
        by_set = _guided(jaw.prepared, as_set, side, far_mm)
        inclined, shifted = _gives(found, name)
        by_fit = None
        if fitted is not None and inclined:
            rows = np.tile(fitted, (_POINTS, 1, 1))
            by_fit = _guided(jaw.guided_by(rows), fitted, side, far_mm)
        sides.append(
            SidePaths(
                name,
                placed,
                by_set[0],
                by_set[1],
                by_fit[0] if by_fit else None,
                by_fit[1] if by_fit and shifted else None,
            )
        )
    return tuple(sides)


def _far_mm(placed: Sequence[PlacedCondyle], recorded: Recorded) -> float:
    """Return how far a path is shown, from the records of its condyle."""
    gone = [float(np.hypot(item.from_cr[0], item.from_cr[2])) for item in placed]
    longest = min(recorded.settings.right.path_length_mm, recorded.settings.left.path_length_mm)
    return min(max(_SHORTEST_MM, max(gone) + _BEYOND_MM), longest)


def _gives(found: FromRecords, side: SideName) -> tuple[bool, bool]:
    """Tell whether records give an inclination of a side, and anything of its shift."""
    quantities = {of.quantity for of in found.estimates if of.side == side}
    shifts = {"progressive shift", "immediate shift"}
    by_angle = any(reading.side == side for reading in found.bennett)
    return "condylar inclination" in quantities, by_angle or not shifts.isdisjoint(quantities)


def _guided(guidance: Guidance, values: Floats, side: int, far_mm: float) -> tuple[Floats, Floats]:
    """Return the path (n, 3) of a condyle in protrusion, and as the nonworking one."""
    gone, none = np.linspace(0.0, far_mm, _POINTS), np.zeros(_POINTS)
    sign = SIDES[side][1]
    start = np.array([0.0, sign * guidance.half_distance_mm, 0.0])
    leads = np.full(_POINTS, sign == RIGHT)
    straight = condyles(guidance, leads, gone, gone, none)[:, side]
    mine = (guidance.right, guidance.left)[side]
    shift = shift_used(mine, np.full(_POINTS, values[side, IMMEDIATE]), gone)
    right, left = (gone, none) if sign == RIGHT else (none, gone)
    aside = condyles(guidance, leads, right, left, shift)[:, side]
    # From where it stands before it goes: an immediate shift comes first.
    begun = np.concatenate([np.zeros((1, 3)), aside - start])
    return straight - start, begun
