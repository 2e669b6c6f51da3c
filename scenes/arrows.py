"""Arrows on a sheet: straight ones for forces, bent ones for turning, as plain lines."""

import math
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from scenes.colours import Line as Dash
from scenes.sheet import Line

_HEAD_MM: Final = 2.1
#: What is shorter would be a dot.
_LEAST_MM: Final = 0.8
#: The head is at most so much of a short arrow.
_MOST_OF_IT: Final = 0.7
_HEAD_HALF_RAD: Final = math.radians(24.0)


def arrow(
    start: Floats, end: Floats, colour: str, width_pt: float = 1.6, dash: Dash = "-"
) -> tuple[Line, ...]:
    """Return an arrow from one place to another, (2,) each, mm; none where it is too short to see.

    Parameters
    ----------
    start, end : ndarray, shape (2,)
        Where it begins and where its tip is.
    colour, width_pt, dash
        Of its shaft; the head is always drawn through.
    """
    way = np.asarray(end, dtype=float) - start
    length = float(np.hypot(*way))
    if length < _LEAST_MM:
        return ()
    shaft = Line(np.array([start, end]), colour, width_pt, dash, level=2.6)
    size = min(_HEAD_MM, _MOST_OF_IT * length)
    return (shaft, _head(np.asarray(end, dtype=float), way / length, colour, width_pt, size))


def bent_arrow(
    middle: Floats, radius_mm: float, from_rad: float, to_rad: float, colour: str
) -> tuple[Line, ...]:
    """Return an arrow along an arc about a place, (2,), from one angle to another."""
    angles = np.linspace(from_rad, to_rad, 41)
    places = middle + radius_mm * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    turn = math.copysign(1.0, to_rad - from_rad)
    way = turn * np.array([-math.sin(to_rad), math.cos(to_rad)])
    return (Line(places, colour, 1.8, level=2.6), _head(places[-1], way, colour, 1.8))


def _head(
    tip: Floats, way: Floats, colour: str, width_pt: float, size_mm: float = _HEAD_MM
) -> Line:
    """Return a closed head at a tip, pointing along a unit vector."""
    back = math.atan2(-way[1], -way[0])
    sides = [back - _HEAD_HALF_RAD, back + _HEAD_HALF_RAD]
    ends = [tip + size_mm * np.array([math.cos(at), math.sin(at)]) for at in sides]
    return Line(np.array([tip, ends[0], ends[1], tip, ends[0]]), colour, width_pt, level=2.7)
