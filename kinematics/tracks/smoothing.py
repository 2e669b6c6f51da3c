"""Tracks smoothed to a bandwidth: noise taken out without delay, and how much of it there was."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.signal import butter, sosfiltfilt

from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints
from kinematics.tracks.screw_coordinates import middle_pose, poses_at, screw_coordinates

#: Butterworth filter of this order, forward and back in time, so that nothing is delayed (Winter et
#: al., J Biomech 1974;7:157-159, from memory).
_ORDER: Final = 2
#: Run twice, a filter ends sooner: its own limit lies higher by this, so that amplitudes at the
#: bandwidth are reduced to 1 / sqrt(2) (by algebra).
_TWICE: Final = (math.sqrt(2.0) - 1.0) ** (-0.5 / _ORDER)
#: So many rows for each cycle of the bandwidth are needed. Two are by the sampling theorem; twice
#: as many leave room for the filter. Chosen for this program.
_ROWS_A_CYCLE: Final = 4.0
#: Steps in time that differ by more than this share are uneven. Chosen for this program.
_UNEVEN: Final = 0.01
#: A row that stands farther than this beside the smoothed track, and `_TIMES_NOISE` times as far as
#: rows usually do, is a jump of the recorder. Chosen for this program.
_JUMP_MM: Final = 1.0
_JUMP_RAD: Final = math.radians(1.0)
_TIMES_NOISE: Final = 10.0
#: Rows that must be left without the ends. Chosen for this program.
_FEWEST_KEPT: Final = 10
#: Nothing is recorded with less noise than this, in a smoothed row. Chosen for this program.
_LEAST_NOISE: Final = (math.radians(0.01), 0.01)
#: A track that was smoothed before does not show its noise: this is taken. Chosen for this program,
#: after a measuring error of 0.05 mm (Jaarda, Clayton & Myers, J Prosthet Dent 1978;39:696).
UNSEEN_NOISE: Final = (math.radians(0.05), 0.05)
#: From the median of sizes of normal errors to their standard deviation.
_FROM_MEDIAN: Final = 1.4826


@dataclass(frozen=True)
class SmoothTrack:
    """A track smoothed to a bandwidth, evenly spaced in time.

    Attributes
    ----------
    time_s : ndarray, shape (n,)
        Of the rows.
    poses : ndarray, shape (n, 4, 4)
        Smoothed.
    kept : ndarray of bool, shape (n,)
        Rows that lie far enough from both ends, where smoothing knows one side alone.
    rate_hz, bandwidth_hz : float
        Rows a second, and movements that are left.
    end_s : float
        How long the ends are that are not kept.
    before : bool
        It was smoothed before, and is taken as it is.
    resampled : bool
        The rows of the file were unevenly spaced in time; these are read between them.
    turn_noise_rad, shift_noise_mm : float
        Standard deviation of the noise left in a row, about and along each axis, at the teeth.
    taken_off_mm : float
        Distance of the teeth from where the file has them, root mean square.
    every : int
        Of rows so far apart the noise is independent: one in so many.
    """

    time_s: Floats
    poses: Floats
    kept: Bools
    rate_hz: float
    bandwidth_hz: float
    end_s: float
    before: bool
    resampled: bool
    turn_noise_rad: float
    shift_noise_mm: float
    taken_off_mm: float
    every: int

    def independent(self, most: int) -> Ints:
        """Return kept rows (m,), m at most `most`, so far apart that their noise is independent.

        White noise smoothed by weights w has, over n rows, as much information as n times the sum
        of w^2 independent rows (by algebra; for a steep filter that is one row in half a cycle of
        its bandwidth, the sampling theorem).
        """
        rows = np.flatnonzero(self.kept)[:: self.every]
        return rows[:: math.ceil(len(rows) / most)]


@dataclass(frozen=True)
class Rows:
    """Rows to be smoothed.

    Attributes
    ----------
    time_s : ndarray, shape (n,)
        Rising.
    poses : ndarray, shape (n, 4, 4)
        Rigid.
    lines : ndarray, shape (n,)
        In which line of its file each stands.
    where : str
        What to call the file.
    """

    time_s: Floats
    poses: Floats
    lines: Ints
    where: str


def smoothed(rows: Rows, about: Floats, bandwidth_hz: float, before: bool = False) -> SmoothTrack:
    """Smooth a track without delay.

    Parameters
    ----------
    rows : Rows
        The track.
    about : ndarray, shape (3,)
        Middle of the teeth, where shifts and noise are told, mm.
    bandwidth_hz : float
        Movements that pass; at it amplitudes are reduced to 1 / sqrt(2).
    before : bool
        The track was smoothed to that bandwidth before; it is taken as it is.

    Raises
    ------
    InputError
        Too few rows a second, too short a track, a gap in time, or a jump.
    """
    time_s, resampled = _even_times(rows, bandwidth_hz)
    rate_hz = (len(time_s) - 1) / float(time_s[-1] - time_s[0])
    middle = middle_pose(rows.poses)
    given = screw_coordinates(rows.poses, middle, about)
    if resampled:
        given = CubicSpline(rows.time_s, given)(time_s)
    end_s = 0.5 / bandwidth_hz
    kept = (time_s - time_s[0] >= end_s) & (time_s[-1] - time_s >= end_s)
    if int(kept.sum()) < _FEWEST_KEPT:
        raise InputError(
            f"{rows.where}: lasts {time_s[-1] - time_s[0]:.2f} s; with bandwidth_hz ="
            f" {bandwidth_hz:g} at least {2.0 * end_s + _FEWEST_KEPT / rate_hz:.2f} s are needed,"
            " since smoothing is not certain at the ends"
        )
    smooth = _filtered(given, rate_hz, bandwidth_hz)
    left = given - smooth
    _refuse_jumps(rows, time_s, left)
    gain, seen = _noise_gains(rate_hz, bandwidth_hz)
    if before:
        smooth, (turn_noise, shift_noise) = given, UNSEEN_NOISE
    else:
        squares = np.mean(left[kept].reshape(-1, 2, 3) ** 2, axis=(0, 2))
        turn_noise, shift_noise = np.maximum(np.sqrt(squares / seen * gain), _LEAST_NOISE).tolist()
    off = given - smooth
    return SmoothTrack(
        time_s,
        poses_at(smooth, middle, about),
        kept,
        rate_hz,
        bandwidth_hz,
        end_s,
        before,
        resampled,
        turn_noise,
        shift_noise,
        float(np.sqrt(np.mean(np.sum(off[:, 3:] ** 2, axis=1)))),
        math.ceil(1.0 / gain - 1e-9),
    )


def _even_times(rows: Rows, bandwidth_hz: float) -> tuple[Floats, bool]:
    """Return evenly spaced times, and whether they are other than those of the rows."""
    steps = np.diff(rows.time_s)
    step = float(np.median(steps))
    if _ROWS_A_CYCLE * bandwidth_hz * step > 1.0 + _UNEVEN:
        raise InputError(
            f"{rows.where}: has {1.0 / step:.1f} rows a second; bandwidth_hz = {bandwidth_hz:g}"
            f" needs at least {_ROWS_A_CYCLE * bandwidth_hz:g}: set it to"
            f" {1.0 / (_ROWS_A_CYCLE * step):.1f} or less, if the movement was slow enough"
        )
    longest = int(np.argmax(steps))
    if steps[longest] > 0.5 / bandwidth_hz:
        raise InputError(
            f"{rows.where}: line {rows.lines[longest + 1]}: comes {steps[longest]:.3f} s after the"
            f" row before it; with bandwidth_hz = {bandwidth_hz:g} rows may be"
            f" {0.5 / bandwidth_hz:.3f} s apart at most. Cut the track there, and keep the part"
            " that is needed"
        )
    if np.abs(steps - step).max() <= _UNEVEN * step:
        return rows.time_s, False
    span = float(rows.time_s[-1] - rows.time_s[0])
    return rows.time_s[0] + np.linspace(0.0, span, round(span / step) + 1), True


def _filtered(values: Floats, rate_hz: float, bandwidth_hz: float) -> Floats:
    """Return values (n, k), smoothed along the first axis."""
    sections = butter(_ORDER, _TWICE * bandwidth_hz, fs=rate_hz, output="sos")
    reach = min(len(values) - 1, math.ceil(2.0 * rate_hz / bandwidth_hz))
    return np.asarray(sosfiltfilt(sections, values, axis=0, padtype="odd", padlen=reach))


def _noise_gains(rate_hz: float, bandwidth_hz: float) -> tuple[float, float]:
    """Return which share of the variance of white noise is left, and which is taken away."""
    half = math.ceil(6.0 * rate_hz / bandwidth_hz)
    weights = np.zeros((2 * half + 1, 1))
    weights[half] = 1.0
    weights = _filtered(weights, rate_hz, bandwidth_hz)
    left = float(np.sum(weights**2))
    return left, 1.0 - 2.0 * float(weights[half, 0]) + left


def _refuse_jumps(rows: Rows, time_s: Floats, left: Floats) -> None:
    sizes = np.linalg.norm(left.reshape(-1, 2, 3), axis=2)
    usual = _FROM_MEDIAN * np.median(sizes, axis=0)
    limits = np.maximum(_TIMES_NOISE * usual, (_JUMP_RAD, _JUMP_MM))
    over = (sizes / limits).max(axis=1)
    worst = int(np.argmax(over))
    if over[worst] > 1.0:
        line = rows.lines[int(np.argmin(np.abs(rows.time_s - time_s[worst])))]
        turn_deg, shift_mm = math.degrees(sizes[worst, 0]), float(sizes[worst, 1])
        raise InputError(
            f"{rows.where}: line {line}: the teeth stand {shift_mm:.2f} mm and"
            f" {turn_deg:.2f} degrees beside the smoothed track, a jump: rows usually do by"
            f" {usual[1]:.2f} mm and {math.degrees(usual[0]):.2f} degrees. Take the rows of the"
            " jump out, or raise bandwidth_hz if the jaw moved that fast"
        )
