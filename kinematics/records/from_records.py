"""Settings of guidance found from interocclusal records, each with its standard error."""

import math
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
from scipy.special import chdtrc, ndtri

from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats
from kinematics.geometry.curves import displacement, turned
from kinematics.guidance.guidance import prepare
from kinematics.records.best_fit import BestFit, Jaw, Observations, best_fit, observations, widened
from kinematics.records.correlations import correlations, shift_correlation
from kinematics.records.found_settings import (
    BennettReading,
    Estimate,
    FromRecords,
    Kept,
    ToldRecord,
    Vector,
)
from kinematics.records.guided_condyles import shift_used
from kinematics.records.record_errors import condyle_errors
from kinematics.records.recorded import Recorded, read_records
from kinematics.records.recorded_places import (
    RecordedPlace,
)
from kinematics.records.settings import KEY
from kinematics.records.sought import (
    CURVATURE,
    IMMEDIATE,
    INCLINATION,
    PROGRESSIVE,
    QUANTITIES,
    SIDES,
    Sought,
    advances_along,
    combine,
    sought_in,
    tells_something,
)

#: Share of intervals that hold the true value; half their width in standard errors.
COVERED: Final = 0.95
_HALF_WIDTH: Final = float(ndtri(0.5 + 0.5 * COVERED))
#: In which unit each quantity is told.
_UNITS: Final = ("degrees", "per mm", "degrees", "mm")
#: With a standard error beyond this, in the unit told, the interval is as wide as all that can be
#: set: a quarter of the range of each setting, of curvature from straight to a radius of 5 mm.
MOST_ERROR: Final = (20.0, 0.05, 11.25, 1.25)
#: With a standard error so many times as large there is nothing to be known at all.
_OPEN: Final = 100.0
#: Who finds transforms from scans of records.
_FROM_SCANS: Final = "`cuspway records` with --write"
#: Step of the numerical derivative of a Bennett angle.
_STEP: Final = 1e-6


def settings_from_records(recorded: Recorded) -> FromRecords:
    """Find settings of guidance from at least one record.

    Raises
    ------
    InputError
        Records that cannot be read, or that no jaw can have left.
    NotConverged
        Records that no guidance comes near to.
    """
    for number, record in enumerate(recorded.records):
        if record.awaits_scan:
            raise InputError(
                f"{KEY}[{number}].scan: not yet brought onto the casts; {_FROM_SCANS} does that"
            )
    places, centres = read_records(recorded)
    settings, fitting = recorded.settings, recorded.fitting
    jaw = Jaw(settings, prepare(settings), recorded.mi)
    errors = [
        condyle_errors(place.fitting(fitting), place.about, centre)
        for place, centre in zip(places, centres, strict=True)
    ]
    advances = advances_along(centres, jaw.prepared.half_distance_mm)
    use = np.array(
        [tells_something(place, gone) for place, gone in zip(places, advances, strict=True)]
    )
    sought = sought_in(places, advances, use, settings, fitting, _across_mm(errors))
    if not use.any():
        return _told(places, centres, jaw, sought, use, None)
    observed = observations(
        [place for place, used in zip(places, use, strict=True) if used],
        [error for error, used in zip(errors, use, strict=True) if used],
    )
    return _told(
        places, centres, jaw, sought, use, settled_fit(jaw, observed, sought, advances[use])
    )


def settled_fit(
    jaw: Jaw,
    observed: Observations,
    sought: Sought,
    advances_mm: Floats,
    *,
    by_misfit: bool = False,
) -> BestFit:
    """Fit guidance, and give up what is too uncertain to be told until the rest is not.

    Parameters
    ----------
    jaw, observed, advances_mm
        See `best_fit`.
    sought : Sought
        What is sought; what is given up is noted there.
    by_misfit : bool
        Where the misfit is larger than the errors explain, take errors to be as much larger.
    """
    while True:
        fit = best_fit(jaw, observed, sought.free, advances_mm)
        fit = widened(fit) if by_misfit else fit
        if not _gave_up(sought, fit.values, fit.standard_errors):
            return fit


def _across_mm(errors: Sequence[Floats]) -> float:
    """Return the usual standard deviation of a condyle's height in one record."""
    return float(np.sqrt(np.mean([np.diagonal(error)[[2, 5]] for error in errors])))


def _gave_up(sought: Sought, values: Floats, errors: Floats) -> bool:
    """Give up what is too uncertain to be told; True if the rest must be fitted anew."""
    for side in range(2):
        for quantity in (CURVATURE, IMMEDIATE, PROGRESSIVE, INCLINATION):
            error = _told_error(quantity, values[side, quantity], errors[side, quantity])
            told = sought.free[side, quantity] and (side, quantity) not in sought.reasons
            if not told or error <= MOST_ERROR[quantity]:
                continue
            why = _too_uncertain(error, quantity)
            if quantity == CURVATURE:
                sought.free[side, quantity] = False
                sought.reasons[side, quantity] = why
                return True
            if quantity != INCLINATION and sought.free[side, [PROGRESSIVE, IMMEDIATE]].all():
                still_sought = error < _OPEN * MOST_ERROR[quantity]
                combine(sought, side, f"told apart from the other shift, {why}", still_sought)
                return True
            sought.reasons[side, quantity] = why  # it stays free, so that it tilts nothing else
    return False


def _told_value(quantity: int, value: float) -> float:
    """Return a value of the fit in the unit in which it is told."""
    if quantity == INCLINATION:
        return math.degrees(value)
    return math.degrees(math.atan(value)) if quantity == PROGRESSIVE else float(value)


def _told_error(quantity: int, value: float, error: float) -> float:
    """Return a standard error of the fit in the same unit."""
    if quantity == INCLINATION:
        return math.degrees(error)
    return math.degrees(error / (1.0 + value**2)) if quantity == PROGRESSIVE else float(error)


def _too_uncertain(error: float, quantity: int) -> str:
    if error > _OPEN * MOST_ERROR[quantity]:
        return "these records leave it open altogether"
    return (
        f"its standard error would be {error:.2g} {_UNITS[quantity]}, so that the interval would"
        " be as wide as all that can be set"
    )


def _told(
    places: Sequence[RecordedPlace],
    centres: Floats,
    jaw: Jaw,
    sought: Sought,
    use: Bools,
    fit: BestFit | None,
) -> FromRecords:
    misfits = np.zeros(len(places))
    if fit is not None:
        misfits[use] = np.abs(fit.left_mm).max(axis=1)
    half_mm = jaw.prepared.half_distance_mm
    records = tuple(
        _told_record(place, centre, half_mm, bool(used), float(misfit))
        for place, centre, used, misfit in zip(places, centres, use, misfits, strict=True)
    )
    used = [place for place, counts in zip(places, use, strict=True) if counts]
    return told_by(records, jaw, sought, used, fit)


def told_by(
    records: tuple[ToldRecord, ...],
    jaw: Jaw,
    sought: Sought,
    used: Sequence[RecordedPlace],
    fit: BestFit | None,
) -> FromRecords:
    """Return what a fit says.

    Parameters
    ----------
    records, jaw, sought : tuple of ToldRecord, Jaw, Sought
        What was recorded; start, and what was sought.
    used : sequence of RecordedPlace
        Records that counted in the fit.
    fit : BestFit or None
        Its result; None where nothing counted.
    """
    kept = tuple(_kept(jaw, sought))
    if fit is None:
        return FromRecords(records, (), (), kept, 0.0, 0, 1.0, (0.0, 0.0))
    spare = fit.freedom > 0
    return FromRecords(
        records,
        tuple(_estimates(jaw, sought, fit)),
        tuple(_bennett(jaw, fit, side, used) for side in sought.combined),
        kept,
        fit.chi_square if spare else 0.0,
        fit.freedom,
        float(chdtrc(fit.freedom, fit.chi_square)) if spare else 1.0,
        (shift_correlation(sought, fit, 0), shift_correlation(sought, fit, 1)),
        correlations(sought, fit),
        tuple(map(tuple, fit.values.tolist())),
    )


def _told_record(
    place: RecordedPlace, centre: Floats, half_mm: float, counts: bool, misfit_mm: float
) -> ToldRecord:
    right, left = centre - np.array([[0.0, -half_mm, 0.0], [0.0, half_mm, 0.0]])
    pairs = place.pairs
    return ToldRecord(
        place.number,
        place.kind,
        0 if pairs is None else len(pairs.apart_mm),
        0.0 if pairs is None else pairs.root_mean_square_mm,
        _vector(right),
        _vector(left),
        counts,
        misfit_mm,
        place.registration,
    )


def _vector(values: Floats) -> Vector:
    x, y, z = values.tolist()
    return x, y, z


def _estimates(jaw: Jaw, sought: Sought, fit: BestFit) -> Iterator[Estimate]:
    errors = fit.standard_errors
    for side, (name, _) in enumerate(SIDES):
        for quantity, called in enumerate(QUANTITIES):
            if not sought.free[side, quantity] or (side, quantity) in sought.reasons:
                continue
            value, error = float(fit.values[side, quantity]), float(errors[side, quantity])
            reach = _HALF_WIDTH * error
            low, middle, high, as_set = (
                _told_value(quantity, of)
                for of in (value - reach, value, value + reach, jaw.as_set[side, quantity])
            )
            told_error = _told_error(quantity, value, error)
            unit = _UNITS[quantity]
            yield Estimate(name, called, middle, told_error, low, high, unit, as_set)


def _kept(jaw: Jaw, sought: Sought) -> Iterator[Kept]:
    for (side, quantity), reason in sorted(sought.reasons.items()):
        as_set = _told_value(quantity, jaw.as_set[side, quantity])
        yield Kept(SIDES[side][0], QUANTITIES[quantity], as_set, _UNITS[quantity], reason)


def _bennett(jaw: Jaw, fit: BestFit, side: int, used: Sequence[RecordedPlace]) -> BennettReading:
    """Return the Bennett angle of a side where its lateral records read it."""
    rows = [place.nonworking == SIDES[side][1] for place in used]
    gone = fit.advances_mm[rows]
    read_at_mm = float(np.mean(gone[:, side] - gone[:, 1 - side]))

    def angles(values: Floats) -> Floats:
        guidance = jaw.guided_by(values)
        mine = (guidance.right, guidance.left)[side]
        excess = np.full(len(values), read_at_mm)
        forward = turned(displacement(mine.path, excess), mine.fischer_rad)[:, 0]
        shift = shift_used(mine, values[:, side, IMMEDIATE], excess)
        return np.degrees(np.arctan2(forward * np.tan(mine.progressive_rad) + shift, forward))

    steps = _STEP * np.eye(8).reshape(8, 2, 4)
    slopes = (angles(fit.values + steps) - angles(fit.values - steps)) / (2.0 * _STEP)
    error = math.sqrt(float(slopes @ fit.covariance.reshape(8, 8) @ slopes))
    value, as_set = (float(angles(of[None])[0]) for of in (fit.values, jaw.as_set))
    low, high = value - _HALF_WIDTH * error, value + _HALF_WIDTH * error
    return BennettReading(SIDES[side][0], value, error, low, high, as_set, read_at_mm)
