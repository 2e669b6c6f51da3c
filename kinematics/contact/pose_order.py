"""An order of poses in which each is like the one before: neighbours share most of their search."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.geometry.poses import move_points

#: So few poses, or steps so short beside the whole way, are not worth putting in order.
FEW: Final = 16
SHORT_STEPS: Final = 0.1
_BITS: Final = 10


def order_of_likeness(poses: Floats, corners: Floats) -> Ints:
    """Return an order (n,) of poses (n, 4, 4) in which neighbours are alike.

    The order given is kept where it already is one, as along a movement. Else poses are put along
    a curve that fills the space of what they do to two far corners (2, 3) of what they move.
    """
    given = np.arange(len(poses))
    if len(poses) <= FEW:
        return given
    places = move_points(poses, corners).reshape(len(poses), 6)
    extent = float(np.linalg.norm(np.ptp(places, axis=0)))
    if _way(places) <= SHORT_STEPS * extent * len(poses):
        return given
    along_curve = np.argsort(_along_filling_curve(places), kind="stable")
    return along_curve if _way(places[along_curve]) < _way(places) else given


def _way(places: Floats) -> float:
    """Return the length of all steps from each place to the next."""
    return float(np.linalg.norm(np.diff(places, axis=0), axis=1).sum())


def _along_filling_curve(places: Floats) -> Ints:
    """Return where places (n, 6) lie along a curve that visits near places one after the other.

    The bits of all coordinates are interleaved (Morton, A computer oriented geodetic data base,
    IBM 1966).
    """
    widest = np.ptp(places, axis=0).max()
    cells = (places - places.min(axis=0)) / (widest or 1.0) * (2**_BITS - 1)
    whole = cells.astype(np.int64)
    code = np.zeros(len(places), dtype=np.int64)
    for bit in range(_BITS - 1, -1, -1):
        for column in range(whole.shape[1]):
            code = code << 1 | (whole[:, column] >> bit & 1)
    return code
