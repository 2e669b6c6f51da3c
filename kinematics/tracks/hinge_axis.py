"""The hinge axis from a track of a hinge opening: by finite turns, and from moment to moment."""

import math
from typing import Final

import numpy as np
from scipy.spatial.transform import Rotation
from scipy.special import ndtri, stdtrit

from kinematics.conventions import Floats, Ints
from kinematics.geometry.poses import inverse, move_points
from kinematics.records.record_errors import condyle_errors
from kinematics.records.settings import RecordFitting
from kinematics.tracks.found_axis import AxisPlace, FoundAxis, HingeAxis, Pair, Vector
from kinematics.tracks.placed_tracks import PlacedTrack
from kinematics.tracks.screw_axes import (
    Turns,
    crossings_of,
    directions_of,
    finite_turns,
    instantaneous_turns,
    jackknife,
)

#: Places count as turned apart from this angle on, degrees: with a noise of 0.05 degrees in a
#: smoothed row, the axis of one pair is then off by some 2 mm. Chosen for this program.
_LEAST_TURN_DEG: Final = 2.0
_LEAST_TURN_RAD: Final = math.radians(_LEAST_TURN_DEG)
#: Slower turns, degrees a second, say nothing of an axis. Chosen for this program, likewise.
_LEAST_SPEED_DEG_S: Final = 5.0
#: The axis may move by this much, mm, beyond what noise explains, while the jaw turns about it: the
#: scatter taken for recorded mountings. Chosen for this program.
MOST_MOVED_MM: Final = 0.3
#: A hinge opening must turn the jaw by at least so much, degrees, for its axis to be told; about 12
#: are possible before condyles advance (common practice). Chosen for this program.
LEAST_OPENING_DEG: Final = 4.0
#: So many standard deviations of noise explain the largest of 60 rows. Chosen for this program.
_TIMES_NOISE: Final = 5.0
_MOST_OPENING_DEG: Final = 15.0
_STEP_DEG: Final = 0.5
#: Where rows beyond an opening are left out, so many steps before it are too: condyles have begun
#: to advance there already. Chosen for this program.
_HELD_BACK: Final = 2
#: An axis farther from that of the case, mm, is hardly a hinge axis: located by measure of the face
#: most lie within 5 to 6 mm of the true one (Zuckerman, J Prosthet Dent 1982). Twice that; chosen
#: for this program.
FAR_MM: Final = 12.0
#: It lies across the head to within this angle, degrees. Chosen for this program.
_MOST_OBLIQUE_DEG: Final = 30.0
_FEWEST_ROWS: Final = 8
#: More rows make nothing better, since how the recorder is fixed counts for more. Chosen for this
#: program.
_MOST_ROWS: Final = 60
_COVERED: Final = 0.95


def hinge_axis(track: PlacedTrack, half_distance_mm: float, fitting: RecordFitting) -> HingeAxis:
    """Find the hinge axis in a track.

    Parameters
    ----------
    track : PlacedTrack
        Of a hinge opening.
    half_distance_mm : float
        Of each condyle centre from the midline.
    fitting : RecordFitting
        How far the recorder may be off at the teeth.
    """
    smooth = track.smooth
    every_deg = np.degrees(_openings(smooth.poses))
    opened_deg = float(every_deg[smooth.kept].max())
    if opened_deg < LEAST_OPENING_DEG:
        return _no_axis(track, opened_deg, f"the jaw turns by {opened_deg:.1f} degrees at most; at"
                        f" least {LEAST_OPENING_DEG:g} are needed")  # fmt: skip
    rows = smooth.independent(_MOST_ROWS)
    opening_deg = every_deg[rows]
    allowed_mm = MOST_MOVED_MM + _TIMES_NOISE * _noise_mm(track, half_distance_mm)
    steps = math.ceil(min(opened_deg, _MOST_OPENING_DEG) / _STEP_DEG)
    limits = (_STEP_DEG * np.arange(steps, LEAST_OPENING_DEG / _STEP_DEG - 1.0, -1.0)).tolist()
    moved_mm = 0.0
    for place, limit_deg in enumerate(limits):
        turns = finite_turns(smooth.poses, rows[opening_deg <= limit_deg], _LEAST_TURN_RAD)
        fault = _fault(turns, limit_deg)
        if fault:
            return _no_axis(track, opened_deg, fault)
        moved_mm = _moved_mm(track, opening_deg, turns, half_distance_mm, limit_deg)
        if moved_mm <= allowed_mm:
            held_back = 0 if place == 0 else _HELD_BACK
            used_deg = limits[min(place + held_back, len(limits) - 1)]
            return _told(track, half_distance_mm, fitting, opening_deg, opened_deg, used_deg)
    return _no_axis(
        track,
        opened_deg,
        f"it is no hinge opening: already up to {LEAST_OPENING_DEG:g} degrees the axis that fits"
        f" best moves by {moved_mm:.2f} mm; accepted are {allowed_mm:.2f} mm",
    )


def _told(
    track: PlacedTrack,
    half_distance_mm: float,
    fitting: RecordFitting,
    opening_deg: Floats,
    opened_deg: float,
    used_deg: float,
) -> HingeAxis:
    """Return the axis of the turns up to an opening."""
    rows = track.smooth.independent(_MOST_ROWS)[opening_deg <= used_deg]
    turns = finite_turns(track.smooth.poses, rows, _LEAST_TURN_RAD)
    fault = _fault(turns, used_deg)
    if fault:
        return _no_axis(track, opened_deg, fault)
    quick, wander_mm = _moments(track, half_distance_mm, fitting, rows)
    return HingeAxis(
        track.number,
        opened_deg,
        min(used_deg, opened_deg),
        _moved_mm(track, opening_deg, turns, half_distance_mm, used_deg),
        _moved_mm(track, opening_deg, turns, half_distance_mm, np.inf),
        _found(track, half_distance_mm, fitting, turns),
        quick,
        wander_mm,
        "",
    )


def _no_axis(track: PlacedTrack, opened_deg: float, reason: str) -> HingeAxis:
    return HingeAxis(track.number, opened_deg, 0.0, 0.0, 0.0, None, None, 0.0, reason)


def _fault(turns: Turns, limit_deg: float) -> str:
    """Say why turns up to an opening tell no axis; empty where they do."""
    rows = len(np.unique(turns.members))
    if rows < _FEWEST_ROWS:
        return (
            f"only {rows} independent places lie within {limit_deg:g} degrees of opening and turned"
            f" apart by {_LEAST_TURN_DEG:g}; at least {_FEWEST_ROWS} are needed: record a slower"
            " or a repeated opening"
        )
    along = directions_of(turns, np.ones((1, len(turns.turn))))[0]
    oblique_deg = math.degrees(math.acos(min(1.0, float(along[1]))))
    if oblique_deg > _MOST_OBLIQUE_DEG:
        return (
            f"it turns about an axis {oblique_deg:.0f} degrees off the transverse one; accepted are"
            f" {_MOST_OBLIQUE_DEG:g}. Are the coordinates those that are asked for?"
        )
    return ""


def _openings(poses: Floats) -> Floats:
    """Return by how much poses are opened, rad, from the one that is least."""
    turned = Rotation.from_matrix(poses[:, :3, :3] @ poses[0, :3, :3].T).as_rotvec()[:, 1]
    return np.asarray(turned - turned.min())


def _noise_mm(track: PlacedTrack, half_distance_mm: float) -> float:
    """Return how far the noise of a row moves a condyle, mm, across its axis."""
    lever_mm = float(np.hypot(track.about[0], track.about[2]) + half_distance_mm)
    return math.hypot(track.smooth.shift_noise_mm, track.smooth.turn_noise_rad * lever_mm)


def _moved_mm(
    track: PlacedTrack, opening_deg: Floats, turns: Turns, half_distance_mm: float, limit_deg: float
) -> float:
    """Return how far points of an axis at both condyles move up to an opening, mm."""
    axis = _axis_points(crossings_of(turns, half_distance_mm), half_distance_mm)
    poses = track.smooth.poses[track.smooth.independent(_MOST_ROWS)]
    closed = poses[int(np.argmin(opening_deg))]
    moves = move_points(poses[opening_deg <= limit_deg] @ inverse(closed), axis) - axis
    return float(np.linalg.norm(moves, axis=2).max())


def _moments(
    track: PlacedTrack, half_distance_mm: float, fitting: RecordFitting, rows: Ints
) -> tuple[FoundAxis | None, float]:
    """Return the axis of velocities, if the jaw turns fast enough, and how far it wanders."""
    smooth = track.smooth
    half = max(1, smooth.every // 2)
    least_rad_s = math.radians(_LEAST_SPEED_DEG_S)
    # every other row, so that no two velocities share the noise of a place between them
    quick = instantaneous_turns(smooth.poses, smooth.time_s, rows[::2], half, least_rad_s)
    if len(quick.turn) < _FEWEST_ROWS:
        return None, 0.0
    found = _found(track, half_distance_mm, fitting, quick)
    return found, _wander_mm(quick, half_distance_mm)


def _axis_points(crossings: Floats, half_distance_mm: float) -> Floats:
    """Return the points (2, 3) in which an axis crosses the planes of right and left condyle."""
    planes = half_distance_mm * np.array([-1.0, 1.0])
    return np.stack([crossings[:, 0], planes, crossings[:, 1]], axis=1)


def _wander_mm(quick: Turns, half_distance_mm: float) -> float:
    """Return how far points of the common axis are from standing still at single moments.

    The velocity of a point, by the angular one, is its distance from the axis of the moment.
    """
    axis = _axis_points(crossings_of(quick, half_distance_mm), half_distance_mm)
    speeds = np.einsum("mij,kj->mki", quick.turn, axis) + quick.shift[:, None]
    across = speeds[:, :, [0, 2]]
    turning = np.sqrt(0.5) * np.linalg.norm(quick.turn, axis=(1, 2))
    away = np.linalg.norm(across, axis=2) / turning[:, None]
    return float(np.sqrt(np.mean(away**2)))


def _found(
    track: PlacedTrack, half_distance_mm: float, fitting: RecordFitting, turns: Turns
) -> FoundAxis:
    crossings = crossings_of(turns, half_distance_mm)
    by_rows = np.diagonal(jackknife(turns, half_distance_mm)).reshape(2, 2)
    axis = _axis_points(crossings, half_distance_mm)
    fixed = np.diagonal(condyle_errors(fitting, track.about, axis)).reshape(2, 3)[:, [0, 2]]
    rows = len(np.unique(turns.members))
    # By rows the error is estimated itself, from so many less the four numbers of an axis.
    wider = float(stdtrit(rows - 4, 0.5 + 0.5 * _COVERED))
    usual = float(ndtri(0.5 + 0.5 * _COVERED))
    reach = np.sqrt(wider**2 * by_rows + usual**2 * fixed)
    right, left = (
        AxisPlace(
            float(place[0]),
            float(place[1]),
            _pair(np.sqrt(rows_mm2 + fixed_mm2)),
            _pair(np.sqrt(rows_mm2)),
            _pair(mine),
        )
        for place, rows_mm2, fixed_mm2, mine in zip(crossings, by_rows, fixed, reach, strict=True)
    )
    points = move_points(inverse(track.hinge_from_file), axis)
    return FoundAxis(right, left, rows, len(turns.turn), _vector(points[0]), _vector(points[1]))


def _pair(values: Floats) -> Pair:
    forward, up = values.tolist()
    return forward, up


def _vector(values: Floats) -> Vector:
    x, y, z = values.tolist()
    return x, y, z
