"""The casts moved as a track was recorded: where teeth meet, stand apart, or overlap."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.contact.closure import MEETS, close
from kinematics.contact.contacts import patches
from kinematics.contact.pair import Pair
from kinematics.contact.workers import Workers
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.poses import opening_rotation
from kinematics.records.settings import RecordFitting
from kinematics.tracks.placed_tracks import PlacedTrack
from kinematics.tracks.settings import TrackKind

#: Casts are moved to so many places of a track at most. Chosen for this program: over a track of
#: some seconds all whose noise is independent.
_MOST_POSES: Final = 150
#: Half the width of a 95 % interval, in standard deviations.
_COVERED: Final = 1.96


@dataclass(frozen=True)
class DrivenPair:
    """Two teeth that meet along a track.

    Attributes
    ----------
    tooth_upper, tooth_lower : int
        ISO 3950 numbers.
    first, touching : int
        In how many places they meet first, and within the tolerance of that.
    from_s, to_s : float
        First and last time at which they touch.
    """

    tooth_upper: int
    tooth_lower: int
    first: int
    touching: int
    from_s: float
    to_s: float


@dataclass(frozen=True)
class DrivenTrack:
    """The casts along one track.

    Attributes
    ----------
    number : int
        Which track of the case, counted from 1.
    kind : TrackKind
        Which way the jaw went.
    time_s : ndarray, shape (n,)
        Times of places whose noise is independent, and at which the teeth pass each other when the
        jaw closes.
    gap_mm : ndarray, shape (n,)
        By how much the recorded jaw stands open there, along its closing arc at the first contact;
        negative: by how much the casts overlap.
    uncertain_mm : ndarray, shape (n,)
        What that is known to: half width of the 95 % interval.
    nothing_met : int
        Places at which no tooth passes another.
    pairs : tuple of DrivenPair
        Which meet where the jaw does not stand open beyond doubt, most frequent first.
    """

    number: int
    kind: TrackKind
    time_s: Floats
    gap_mm: Floats
    uncertain_mm: Floats
    nothing_met: int
    pairs: tuple[DrivenPair, ...]

    @property
    def closed(self) -> Bools:
        """Where the jaw does not stand open beyond doubt."""
        return np.asarray(self.gap_mm <= self.uncertain_mm)

    @property
    def overlapping(self) -> Bools:
        """Where the casts overlap beyond doubt."""
        return np.asarray(self.gap_mm < -self.uncertain_mm)


def driven_tracks(
    tracks: Sequence[PlacedTrack],
    pair: Pair,
    mi_pose: Floats,
    fitting: RecordFitting,
    tolerance_mm: float,
    workers: Workers,
) -> tuple[DrivenTrack, ...]:
    """Move the casts along tracks; see `driven_track`."""
    return tuple(
        driven_track(track, pair, mi_pose, fitting, tolerance_mm, workers) for track in tracks
    )


def driven_track(
    track: PlacedTrack,
    pair: Pair,
    mi_pose: Floats,
    fitting: RecordFitting,
    tolerance_mm: float,
    workers: Workers,
) -> DrivenTrack:
    """Move the casts along a track.

    Parameters
    ----------
    track : PlacedTrack
        Where the jaw was.
    pair : Pair
        Both casts, prepared.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    fitting : RecordFitting
        How far a recorder may be off.
    tolerance_mm : float
        Distance up to which surfaces count as touching.
    workers : Workers
        Threads.
    """
    rows = track.smooth.independent(_MOST_POSES)
    poses = track.hinge_from_lower(mi_pose)[rows]
    closures = close(pair, poses, workers=workers)
    met = closures.status == MEETS
    time_s = track.smooth.time_s[rows][met]
    found = DrivenTrack(
        track.number,
        track.kind,
        time_s,
        -(closures.opening_rad * closures.radius_mm)[met],
        _uncertain_mm(track, closures.point[met], fitting),
        int(np.sum(~met)),
        (),
    )
    at = np.flatnonzero(met)[found.closed]
    if not len(at):
        return found
    closed = poses[at] @ opening_rotation(closures.opening_rad[at])
    touching = patches(pair, closed, tolerance_mm, workers)
    first = _met(np.arange(len(at)), closures.tooth_upper[at], closures.tooth_lower[at])
    near = _met(touching.pose, touching.tooth_upper, touching.tooth_lower)
    return DrivenTrack(
        found.number,
        found.kind,
        found.time_s,
        found.gap_mm,
        found.uncertain_mm,
        found.nothing_met,
        _pairs(first, first | near, time_s[found.closed]),
    )


Met = set[tuple[int, int, int]]


def _met(rows: Ints, upper: Ints, lower: Ints) -> Met:
    """Return in which places which teeth meet."""
    return set(zip(rows.tolist(), upper.tolist(), lower.tolist(), strict=True))


def _pairs(first: Met, touching: Met, time_s: Floats) -> tuple[DrivenPair, ...]:
    """Return the pairs of teeth that meet at places (row, upper, lower), most frequent first."""
    by_pair: dict[tuple[int, int], list[int]] = {}
    for row, upper, lower in sorted(touching):
        if upper > 0 and lower > 0:
            by_pair.setdefault((upper, lower), []).append(row)
    made = [
        DrivenPair(
            upper,
            lower,
            sum((row, upper, lower) in first for row in rows),
            len(rows),
            float(time_s[rows[0]]),
            float(time_s[rows[-1]]),
        )
        for (upper, lower), rows in by_pair.items()
    ]
    return tuple(sorted(made, key=lambda p: (-p.touching, p.tooth_upper, p.tooth_lower)))


def _uncertain_mm(track: PlacedTrack, points: Floats, fitting: RecordFitting) -> Floats:
    """Return how far off heights of contacts (n, 3) may be, (n,): by noise, and by fixing.

    Upward errors of the lower at the contact; a recorder that was zeroed in MI is not off there.
    """
    lever_mm = np.hypot(*(points - track.about)[:, :2].T)
    smooth = track.smooth
    noise = smooth.shift_noise_mm**2 + (smooth.turn_noise_rad * lever_mm) ** 2
    turn_rad = math.radians(fitting.rotation_scatter_deg)
    fixed = fitting.translation_scatter_mm**2 + (turn_rad * lever_mm) ** 2
    return np.asarray(_COVERED * np.sqrt(noise + (0.0 if track.zeroed else 2.0) * fixed))
