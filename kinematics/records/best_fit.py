"""Guidance that fits records best: weighted least squares, and how certain the result is."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

import numpy as np
from scipy.linalg import block_diag
from scipy.optimize import least_squares

from kinematics.checks import NotConverged
from kinematics.conventions import LEFT, RIGHT, Bools, Floats, Ints
from kinematics.geometry.curves import circular_curve
from kinematics.guidance.guidance import Guidance, Side
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.guided_condyles import condyles, shift_used
from kinematics.records.recorded_places import RecordedPlace, centres_in_records
from kinematics.records.sought import IMMEDIATE

#: Steps of the numerical derivatives by inclination, curvature, progressive and immediate shift,
#: and by advances: large beside rounding, small beside any curvature of the paths.
_STEPS: Final = np.array([1e-3, 1e-4, 1e-3, 1e-2])
_ADVANCE_STEP_MM: Final = 1e-2
#: A path whose curvature per mm is less than this is straight to a picometre.
_STRAIGHT: Final = 1e-12
_SETTLED: Final = 1e-10
_MOST_CALLS: Final = 200
#: Singular values below this share of the largest mean "not known".
_SMALLEST_SHARE: Final = 1e-9


@dataclass(frozen=True)
class Observations:
    """Records ready for the fit.

    Attributes
    ----------
    places : tuple of RecordedPlace
        The n records that count.
    counted : ndarray of int, shape (n, 4)
        Which of the six coordinates of the condyles count: forward, left and up of the right one,
        then of the left one. In protrusion both as seen from the side; in a lateral record all of
        the nonworking condyle, and how far forward the working one stands. The rest depends on
        what is not sought: how the jaw sways in protrusion, how the working condyle rises.
    whitening : ndarray, shape (4 n, 4 n)
        Turns the errors of these, record by record, into independent ones of standard deviation 1.
    shared : ndarray, shape (4 n, s)
        What errors that all records share do to these, mm.
    """

    places: tuple[RecordedPlace, ...]
    counted: Ints
    whitening: Floats
    shared: Floats

    @cached_property
    def nonworking(self) -> Ints:
        """RIGHT, LEFT, or 0 in protrusion, of every record, (n,)."""
        return np.array([place.nonworking for place in self.places], dtype=np.int64)

    def counting(self, centres: Floats) -> Floats:
        """Return what counts (..., n, 4) of condyle centres (..., n, 2, 3)."""
        flat = centres.reshape(*centres.shape[:-2], 6)
        return np.asarray(flat[..., np.arange(len(self.places))[:, None], self.counted])

    def by_shared_mm(self, left_mm: Floats) -> Floats:
        """Return which part of what is left (n, 4) errors shared by all records explain best."""
        weighted = self.whitening.T @ (self.whitening @ left_mm.ravel())
        return np.asarray(self.shared @ (self.shared.T @ weighted)).reshape(left_mm.shape)


#: By the nonworking side; see `Observations.counted`.
_COUNTED: Final = {0: (0, 2, 3, 5), RIGHT: (0, 1, 2, 3), LEFT: (3, 4, 5, 0)}


def observations(
    places: Sequence[RecordedPlace], errors: Sequence[Floats], shared: Floats | None = None
) -> Observations:
    """Return records ready for the fit.

    Parameters
    ----------
    places : sequence of RecordedPlace
        The n records.
    errors : sequence of ndarray, shape (6, 6)
        Covariance of the condyles in each, for errors of its own, mm2.
    shared : ndarray, shape (n, 6, s), optional
        What s errors of standard deviation 1, the same in all records, do to the condyles, mm.
    """
    counted = np.array([_COUNTED[place.nonworking] for place in places], dtype=np.int64)
    blocks = [e[np.ix_(c, c)] for e, c in zip(errors, counted, strict=True)]
    covariance = np.asarray(block_diag(*blocks))
    effects = np.zeros((len(covariance), 0))
    if shared is not None:
        effects = shared[np.arange(len(places))[:, None], counted].reshape(len(covariance), -1)
    whitening = np.linalg.inv(np.linalg.cholesky(covariance + effects @ effects.T))
    return Observations(tuple(places), counted, whitening, effects)


@dataclass(frozen=True)
class Jaw:
    """Guidance of a case, whose sought parts may be changed.

    Attributes
    ----------
    settings : GuidanceSettings
        As set.
    prepared : Guidance
        The same, prepared.
    mi : GuidanceCoordinates
        MI along the paths.
    """

    settings: GuidanceSettings
    prepared: Guidance
    mi: GuidanceCoordinates

    @cached_property
    def as_set(self) -> Floats:
        """What is set of both sides by four values, (2, 4); see `BestFit`."""
        return np.array(
            [
                _as_set(self.settings.right, self.prepared.right),
                _as_set(self.settings.left, self.prepared.left),
            ]
        )

    def guided_by(self, values: Floats) -> Guidance:
        """Return guidance with such values (k, 2, 4): of k jaws at once, side shifts unlimited."""
        return replace(
            self.prepared,
            right=_side(self.settings.right, self.prepared.right, values[:, 0]),
            left=_side(self.settings.left, self.prepared.left, values[:, 1]),
        )


def _as_set(given: SideGuidance, side: Side) -> tuple[float, float, float, float]:
    curvature = 1.0 / given.eminence_radius_mm if given.path == "curved" else 0.0
    inclination = math.radians(given.condylar_inclination_deg)
    return inclination, curvature, math.tan(side.progressive_rad), side.shift_limit_mm


def _side(given: SideGuidance, side: Side, values: Floats) -> Side:
    inclination, curvature, progressive, _ = values.T
    curvature = np.where(np.abs(curvature) < _STRAIGHT, _STRAIGHT, curvature)
    path = circular_curve(
        inclination, 1.0 / curvature, given.record_distance_mm, given.path_length_mm
    )
    return replace(side, path=path, progressive_rad=np.arctan(progressive))


@dataclass(frozen=True)
class BestFit:
    """Guidance that fits best.

    Attributes
    ----------
    values : ndarray, shape (2, 4)
        Sides by inclination, rad, curvature per mm, tangent of the progressive shift, which moves
        in proportion to it, and immediate shift, mm.
    covariance : ndarray, shape (2, 4, 2, 4)
        Of their errors; 0 for what was not free.
    advances_mm : ndarray, shape (n, 2)
        Of right and left condyle in every record.
    left_mm : ndarray, shape (n, 4)
        What is left between records and guidance, of what counts.
    allowed : ndarray, shape (n, 2, 3)
        Where guidance puts right and left condyle centre at these advances, hinge frame, mm.
    chi_square : float
        Sum of squares of all that is left, in standard deviations.
    freedom : int
        How many numbers there are more than unknowns.
    """

    values: Floats
    covariance: Floats
    advances_mm: Floats
    left_mm: Floats
    allowed: Floats
    chi_square: float
    freedom: int

    @property
    def standard_errors(self) -> Floats:
        """Of the values, (2, 4)."""
        diagonal = np.diagonal(self.covariance.reshape(8, 8)).reshape(2, 4)
        return np.asarray(np.sqrt(diagonal))


def widened(fit: BestFit) -> BestFit:
    """Return a fit with standard errors as much larger as its misfit is than errors explain.

    By the root of chi-square for each degree of freedom, as for a scatter that is estimated from
    what is left (Bevington & Robinson, Data Reduction and Error Analysis, chapter 6, from memory).
    """
    if fit.freedom <= 0:
        return fit
    return replace(fit, covariance=max(1.0, fit.chi_square / fit.freedom) * fit.covariance)


def best_fit(jaw: Jaw, observed: Observations, free: Bools, advances_mm: Floats) -> BestFit:
    """Fit guidance to records.

    How far each condyle went in a record is not known beforehand and sought with the rest.

    Parameters
    ----------
    jaw : Jaw
        Start, and what is not free.
    observed : Observations
        Records that count.
    free : ndarray of bool, shape (2, 4)
        What of the guidance may differ from the start.
    advances_mm : ndarray, shape (n, 2)
        Where to begin.

    Raises
    ------
    NotConverged
        Records that no guidance comes near to.
    """
    problem = _Problem(jaw, observed, free)
    start = np.concatenate([jaw.as_set[free], advances_mm.T.ravel()])
    found = least_squares(
        problem.residuals,
        start,
        problem.slopes,
        method="lm",
        x_scale="jac",
        xtol=_SETTLED,
        ftol=_SETTLED,
        gtol=_SETTLED,
        max_nfev=_MOST_CALLS,
    )
    if not found.success:
        raise NotConverged(
            "interocclusal_records or jaw_tracks: no guidance was found that fits; check their"
            " kinds and transforms, root of the sum of squares in standard deviations",
            float(np.sqrt(2.0 * found.cost)),
            _MOST_CALLS,
        )
    values, advances = problem.parts(found.x[None])
    slopes = problem.slopes(found.x)
    within = np.zeros((8, 8))
    chosen = np.flatnonzero(free)
    if len(chosen):
        within[np.ix_(chosen, chosen)] = _covariance(slopes, len(chosen))
    return BestFit(
        values[0],
        within.reshape(2, 4, 2, 4),
        advances[0],
        problem.left_mm(found.x[None])[0],
        problem.allowed(np.repeat(values, len(advances[0]), axis=0), advances[0]),
        float(2.0 * found.cost),
        len(found.fun) - len(found.x),
    )


def _covariance(slopes: Floats, count: int) -> Floats:
    """Return the covariance of the first unknowns from slopes (m, k) of residuals of deviation 1.

    The others are advances, of which each is known by its own record: they are eliminated first.
    """
    sizes = np.linalg.norm(slopes, axis=0)
    sizes[sizes == 0.0] = 1.0
    _, triangle = np.linalg.qr(np.roll(slopes / sizes, -count, axis=1))
    last = triangle[-count:, -count:]
    _, singular, turned = np.linalg.svd(last)
    known = np.maximum(singular, _SMALLEST_SHARE * singular[0])
    root = turned.T / known / sizes[:count, None]
    return np.asarray(root @ root.T)


class _Problem:
    """Residuals and their slopes; unknowns are what is free, then advances right, then left."""

    def __init__(self, jaw: Jaw, observed: Observations, free: Bools) -> None:
        self._jaw, self._observed, self._free = jaw, observed, free

    def parts(self, unknowns: Floats) -> tuple[Floats, Floats]:
        """Return values (k, 2, 4) and advances (k, n, 2) of k sets of unknowns."""
        count = int(self._free.sum())
        values = np.tile(self._jaw.as_set, (len(unknowns), 1, 1))
        values[:, self._free] = unknowns[:, :count]
        both = unknowns[:, count:].reshape(len(unknowns), 2, -1)
        return values, np.swapaxes(both, 1, 2)

    def left_mm(self, unknowns: Floats) -> Floats:
        """Return what counts of the records less what guidance allows, (k, n, 4)."""
        values, advances = self.parts(unknowns)
        jaws, rows = advances.shape[:2]
        guidance = self._jaw.guided_by(values)
        measured = centres_in_records(self._observed.places, guidance, self._jaw.mi, jaws)
        allowed = self.allowed(np.repeat(values, rows, axis=0), advances.reshape(-1, 2))
        return self._observed.counting(measured - allowed.reshape(measured.shape))

    def residuals(self, unknowns: Floats) -> Floats:
        """Return the same in standard deviations, independent of each other, (4 n,)."""
        return np.asarray(self._observed.whitening @ self.left_mm(unknowns[None]).ravel())

    def slopes(self, unknowns: Floats) -> Floats:
        """Return how residuals change with every unknown, (4 n, k)."""
        count, rows = int(self._free.sum()), len(self._observed.places)
        # An advance moves the condyles of its own record alone: those of all records step at once.
        steps = np.zeros((count + 2, len(unknowns)))
        sizes = np.append(np.broadcast_to(_STEPS, (2, 4))[self._free], 2 * [_ADVANCE_STEP_MM])
        steps[np.arange(count), np.arange(count)] = sizes[:count]
        steps[count, count : count + rows] = steps[count + 1, count + rows :] = _ADVANCE_STEP_MM
        tried = self.left_mm(np.concatenate([unknowns + steps, unknowns - steps]))
        change = (tried[: count + 2] - tried[count + 2 :]) / (2.0 * sizes[:, None, None])
        slopes = np.zeros((rows, 4, len(unknowns)))
        slopes[:, :, :count] = np.moveaxis(change[:count], 0, 2)
        own = np.arange(rows)
        slopes[own, :, count + own] = change[count]
        slopes[own, :, count + rows + own] = change[count + 1]
        return np.asarray(self._observed.whitening @ slopes.reshape(4 * rows, -1))

    def allowed(self, values: Floats, advances: Floats) -> Floats:
        """Return condyle centres (m, 2, 3) that guidance (m, 2, 4) allows at advances (m, 2)."""
        right, left = np.ascontiguousarray(advances.T)
        kinds = np.tile(self._observed.nonworking, len(values) // len(self._observed.places))
        guidance = self._jaw.guided_by(values)
        used = (
            shift_used(guidance.right, values[:, 0, IMMEDIATE], right - left),
            shift_used(guidance.left, values[:, 1, IMMEDIATE], left - right),
        )
        shift = np.select([kinds == RIGHT, kinds == LEFT], used, 0.0)
        right_leads = np.where(kinds == 0, right > left, kinds == RIGHT)
        return condyles(guidance, right_leads, right, left, shift)
