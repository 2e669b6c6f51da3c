"""Curves in a sagittal plane, walked by arc length: straight, circular, measured.

A point of a curve is (forward, drop): millimetres ahead of and below its start. The displacement
between two places of a curve is the integral of its tangent, so turning that displacement by an
angle f gives the integral of the tangent turned by f: a path that is everywhere f steeper needs
no integration of its own.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike
from scipy.interpolate import PchipInterpolator

from kinematics.checks import InputError, finite_array
from kinematics.conventions import Floats, Ints
from kinematics.geometry.angles import angle_of

#: Gauss-Legendre points for the length of one cubic piece; on condylar paths 16 leave less than
#: a nanometre.
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)
#: Newton steps that find a parameter within one piece to rounding, with a few to spare.
_NEWTON_STEPS: Final = 12


@dataclass(frozen=True)
class StraightCurve:
    """A straight line.

    Attributes
    ----------
    inclination_rad : float
        Angle below the horizontal.
    length_mm : float
        Where the curve ends.
    """

    inclination_rad: float
    length_mm: float


@dataclass(frozen=True)
class CircularCurve:
    """An arc whose slope falls evenly with arc length (convex upwards when walked forward: down).

    Attributes
    ----------
    start_inclination_rad, radius_mm : float or ndarray, shape (n,)
        Slope at the start and radius of the arc; an array gives each of n arc lengths an arc of
        its own.
    length_mm : float
        Where the curve ends.
    """

    start_inclination_rad: float | Floats
    radius_mm: float | Floats
    length_mm: float


@dataclass(frozen=True)
class MeasuredCurve:
    """Monotone cubics through measured points, walked by their true arc length.

    Attributes
    ----------
    knots_mm : ndarray, shape (k,)
        Summed chord lengths of the points: the parameter of the cubics.
    forward, drop : ndarray, shape (4, k - 1)
        Coefficients of each piece, highest power first, in the parameter counted from its knot.
    lengths_mm : ndarray, shape (k,)
        Arc length from the start to each point.
    length_mm : float
        Where the curve ends.
    """

    knots_mm: Floats
    forward: Floats
    drop: Floats
    lengths_mm: Floats
    length_mm: float


Curve = StraightCurve | CircularCurve | MeasuredCurve


def circular_curve(
    chord_inclination_rad: float | Floats,
    radius_mm: float | Floats,
    record_distance_mm: float,
    length_mm: float,
) -> CircularCurve:
    """Return the arc whose chord from the start to `record_distance_mm` has that inclination.

    The chord of an arc has the slope of the arc's middle, so the start is steeper by half the
    turn over the record distance.
    """
    start = chord_inclination_rad + 0.5 * record_distance_mm / radius_mm
    return CircularCurve(start, radius_mm, length_mm)


def measured_curve(points_mm: ArrayLike, name: str, greatest_length_mm: float) -> MeasuredCurve:
    """Lay monotone cubics through points (k, 2), forward and drop, the first at (0, 0).

    Parameters
    ----------
    points_mm : array_like, shape (k, 2)
        Forward and drop of each point, mm, in the order walked.
    name : str
        What to call the points in a message.
    greatest_length_mm : float
        The curve ends here or at the last point, whichever comes first.

    Raises
    ------
    InputError
        Fewer than two points, a first point other than (0, 0), or points that do not move
        forward.
    """
    points = finite_array(points_mm, name, (None, 2))
    if len(points) < 2:
        raise InputError(f"{name}: wanted at least 2 points (forward, drop), found {len(points)}")
    if points[0].any():
        raise InputError(
            f"{name}: the first point is ({points[0, 0]:g}, {points[0, 1]:g}) mm; it must be "
            "(0, 0), the place in centric relation; subtract it from all points"
        )
    chords = np.diff(points, axis=0)
    if (chords[:, 0] <= 0.0).any():
        where = int(np.argmax(chords[:, 0] <= 0.0))
        raise InputError(
            f"{name}: point {where + 1} (forward {points[where + 1, 0]:g} mm) does not lie ahead "
            f"of point {where} (forward {points[where, 0]:g} mm); every point must"
        )
    knots = np.concatenate([[0.0], np.cumsum(np.hypot(chords[:, 0], chords[:, 1]))])
    cubics = [np.array(PchipInterpolator(knots, points[:, i]).c, dtype=np.float64) for i in (0, 1)]
    pieces = np.arange(len(chords))
    lengths = _piece_length(cubics[0], cubics[1], pieces, np.diff(knots))
    summed = np.concatenate([[0.0], np.cumsum(lengths)])
    end = min(float(summed[-1]), greatest_length_mm)
    return MeasuredCurve(knots, cubics[0], cubics[1], summed, end)


def _speed(forward: Floats, drop: Floats, piece: Ints, at: Floats) -> Floats:
    """Return arc length per parameter (n, k) of cubic pieces (n,) at parameters (n, k)."""
    squares = np.zeros_like(at)
    for cubic in (forward, drop):
        a, b, c = (cubic[i, piece][:, None] for i in range(3))
        squares += ((3.0 * a * at + 2.0 * b) * at + c) ** 2
    return np.asarray(np.sqrt(squares))


def _piece_length(forward: Floats, drop: Floats, piece: Ints, upto: Floats) -> Floats:
    """Return arc lengths (n,) of cubic pieces (n,) from their knots to parameters `upto` (n,)."""
    speed = _speed(forward, drop, piece, 0.5 * upto[:, None] * (_NODES + 1.0))
    return np.asarray(0.5 * upto * np.sum(speed * _WEIGHTS, axis=1))


def _measured_parameter(curve: MeasuredCurve, arc_mm: Floats) -> tuple[Ints, Floats]:
    """Return the piece (n,) and the parameter from its knot (n,) at arc lengths (n,)."""
    piece = np.clip(
        np.searchsorted(curve.lengths_mm, arc_mm, side="right") - 1, 0, len(curve.knots_mm) - 2
    )
    wanted = arc_mm - curve.lengths_mm[piece]
    low, high = np.zeros_like(arc_mm), np.diff(curve.knots_mm)[piece]
    at = np.clip(wanted * high / np.diff(curve.lengths_mm)[piece], low, high)
    for _ in range(_NEWTON_STEPS):
        error = _piece_length(curve.forward, curve.drop, piece, at) - wanted
        low, high = np.where(error < 0.0, at, low), np.where(error > 0.0, at, high)
        speed = _speed(curve.forward, curve.drop, piece, at[:, None])[:, 0]
        # Where a cubic stands still at a knot the step leaves the bracket, which is then halved.
        following = at - error / np.maximum(speed, 1e-12)
        at = np.where((following < low) | (following > high), 0.5 * (low + high), following)
    return piece, at


def displacement(curve: Curve, arc_mm: Floats) -> Floats:
    """Return forward and drop (n, 2), mm, at arc lengths (n,) from the start of the curve."""
    if isinstance(curve, StraightCurve):
        tangent = np.array([np.cos(curve.inclination_rad), np.sin(curve.inclination_rad)])
        return np.asarray(arc_mm[:, None] * tangent)
    if isinstance(curve, CircularCurve):
        # Half-angle form of rho (sin a0 - sin a, cos a - cos a0): exact for nearly flat arcs too.
        half_turn = 0.5 * arc_mm / curve.radius_mm
        chord = 2.0 * curve.radius_mm * np.sin(half_turn)
        slope = curve.start_inclination_rad - half_turn
        return np.array([chord * np.cos(slope), chord * np.sin(slope)]).T
    piece, at = _measured_parameter(curve, arc_mm)
    place = []
    for cubic in (curve.forward, curve.drop):
        a, b, c, d = cubic[:, piece]
        place.append(((a * at + b) * at + c) * at + d)
    return np.array(place).T


def inclination(curve: Curve, arc_mm: Floats) -> Floats:
    """Return the slope below the horizontal (n,), radians, at arc lengths (n,)."""
    if isinstance(curve, StraightCurve):
        return np.full_like(arc_mm, curve.inclination_rad)
    if isinstance(curve, CircularCurve):
        return np.asarray(curve.start_inclination_rad - arc_mm / curve.radius_mm)
    piece, at = _measured_parameter(curve, arc_mm)
    speeds = []
    for cubic in (curve.forward, curve.drop):
        a, b, c = cubic[:3, piece]
        speeds.append((3.0 * a * at + 2.0 * b) * at + c)
    return angle_of(speeds[1], speeds[0])


def turned(displacement_mm: Floats, steeper_rad: float) -> Floats:
    """Return displacements (n, 2) along a curve that is everywhere steeper by that angle."""
    cos, sin = np.cos(steeper_rad), np.sin(steeper_rad)
    forward, drop = displacement_mm[:, 0], displacement_mm[:, 1]
    return np.array([cos * forward - sin * drop, cos * drop + sin * forward]).T
