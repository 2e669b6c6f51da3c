"""Errors of tracks at the condyles: noise of every row, and how the recorder was fixed in all."""

import math

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points
from kinematics.records.settings import RecordFitting
from kinematics.tracks.placed_tracks import PlacedTrack

#: Errors by which a recorder may be off on one jaw: three turns and three shifts.
FREEDOMS = 6


def noise_of_rows(track: PlacedTrack, centres: Floats) -> Floats:
    """Return the covariance of the noise of rows at the condyles, (n, 6, 6), mm2.

    Parameters
    ----------
    track : PlacedTrack
        Says how much there is at the teeth.
    centres : ndarray, shape (n, 2, 3)
        Right and left condyle centre in every row.
    """
    smooth = track.smooth
    effects = _effects(centres, track.about, smooth.shift_noise_mm, smooth.turn_noise_rad)
    return np.asarray(effects @ np.swapaxes(effects, 1, 2))


def effects_of_fixing(
    track: PlacedTrack, poses: Floats, seats: Floats, fitting: RecordFitting
) -> Floats:
    """Return what errors of standard deviation 1 do to the condyles in all rows, (n, 6, 12), mm.

    A recorder that is off on the upper by a small motion moves all that it records by it; one that
    is off on the lower moves the jaw before it moves. Zeroed in its first row it is off on both
    by the same, so that only directions are wrong.

    Parameters
    ----------
    track : PlacedTrack
        Says whether it was zeroed.
    poses : ndarray, shape (n, 4, 4)
        Motions of the lower.
    seats : ndarray, shape (2, 3)
        Condyle centres where they begin.
    fitting : RecordFitting
        By how much a recorder may be off at the teeth.
    """
    shift_mm = fitting.translation_scatter_mm
    turn_rad = math.radians(fitting.rotation_scatter_deg)
    upper = _effects(move_points(poses, seats), track.about, shift_mm, turn_rad)
    at_start = _effects(seats[None], track.about, shift_mm, turn_rad)[0]
    lower = np.einsum("nij,sjk->nsik", poses[:, :3, :3], at_start.reshape(2, 3, FREEDOMS)).reshape(
        len(poses), 6, FREEDOMS
    )
    if track.zeroed:
        return np.concatenate([upper - lower, np.zeros_like(lower)], axis=2)
    return np.concatenate([upper, lower], axis=2)


def _effects(centres: Floats, about: Floats, shift_mm: float, turn_rad: float) -> Floats:
    """Return what shifts and turns about a point, three each, do to condyles, (n, 6, 6)."""
    x, y, z = np.moveaxis(centres - about, 2, 0)
    effects = np.zeros((len(centres), 2, 3, FREEDOMS))
    effects[..., :3] = shift_mm * np.eye(3)
    # turn x lever, column by column for turns about x, y and z
    effects[..., 1, 3], effects[..., 2, 3] = -turn_rad * z, turn_rad * y
    effects[..., 0, 4], effects[..., 2, 4] = turn_rad * z, -turn_rad * x
    effects[..., 0, 5], effects[..., 1, 5] = -turn_rad * y, turn_rad * x
    return effects.reshape(len(centres), 6, FREEDOMS)
