"""The vault of the palate as a smooth field over the plane seen from occlusal."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.ndimage import gaussian_filter, gaussian_filter1d, map_coordinates

from kinematics.conventions import Floats
from kinematics.teeth.arch_coordinates import ArchCoordinates
from kinematics.teeth.gum_lines import GumLines

#: Depth of the palate at the first molars: 13 to 15 mm, or 41 % of the width of the alveolar arch
#: (68 palatal vaults, abstract; the figure in mm from memory).
DEPTH_MM: Final = 14.5
#: Depth where the rays to the front teeth begin, and how far behind it the full depth is reached
#: (our choice, so that it rises at 30 to 40 degrees behind the incisors).
FRONT_DEPTH_MM: Final = 11.0
DEEPENS_MM: Final = 10.0
#: Powers of its section in front and at the molars: a rounded U there (from memory).
POWERS: Final = (1.5, 2.5)
#: The deepest place is rounded over this share of the half width.
ROUND: Final = 0.4
#: Folds in the front third, 0.5 mm high (from memory): height, distance from fold to fold, and
#: between which distances behind the gum margin of the incisors they lie.
FOLD_MM: Final = 0.25
_FOLD_EVERY_MM: Final = 3.4
_FOLDS_MM: Final = (4.5, 14.0)
#: Grid of the field, and how it is smoothed.
_STEP_MM: Final = 0.75
_SMOOTH_MM: Final = 1.8


@dataclass(frozen=True)
class Rim:
    """Where the vault ends: radius (n,) and height (n,) at the stations of the lines, mm."""

    radius: Floats
    height: Floats


def vault(
    lines: GumLines, rim: Rim, coordinates: ArchCoordinates, station: Floats, radius: Floats
) -> Floats:
    """Return the height of the vault, mm, at stations and radii that broadcast."""
    points = coordinates.points(station, radius, np.zeros(1))
    reach = float(rim.radius.max()) + 2.0
    half = round(reach / _STEP_MM)
    y = np.asarray(np.arange(-half, half + 1) * _STEP_MM)
    low, high = points[..., 0].min() - 2.0, points[..., 0].max() + 2.0
    x = np.asarray(low + _STEP_MM * np.arange(np.ceil((high - low) / _STEP_MM) + 1))
    plane = np.stack(np.broadcast_arrays(x[:, None], y, 0.0), axis=-1).reshape(-1, 3)
    seen = coordinates.seen(plane)
    exact = _section(lines, rim, coordinates, seen[:, 0], seen[:, 1]).reshape(len(x), len(y))
    field = gaussian_filter(exact, _SMOOTH_MM / _STEP_MM, mode="nearest")
    field += _folds(lines, rim, coordinates, x, y)
    at = [(points[..., 0] - low) / _STEP_MM, points[..., 1] / _STEP_MM + half]
    smooth = map_coordinates(field, at, order=3, mode="nearest")
    # Towards its rim the vault follows the section exactly.
    share = radius / np.interp(station, lines.station, rim.radius)
    near = np.clip((share - 0.7) / 0.25, 0.0, 1.0) ** 2
    rims = _section(lines, rim, coordinates, station, radius)
    return np.asarray(smooth + near * (rims - smooth))


def _section(
    lines: GumLines, rim: Rim, coordinates: ArchCoordinates, station: Floats, radius: Floats
) -> Floats:
    """Return the height along a ray as a power of the share of its length."""
    step = float(lines.station[1] - lines.station[0])
    both = 0.5 * (lines.base_line[:, 0] + lines.base_line[::-1, 0])
    top = gaussian_filter1d(both, 8.0 / step, mode="nearest") - DEPTH_MM
    turn = coordinates.turn_mm
    # All rays of the half circle in front begin at one point; the vault is shallower there.
    front = float(np.interp(turn, lines.station, top)) + DEPTH_MM - FRONT_DEPTH_MM
    behind = _eased((np.abs(station) - turn) / DEEPENS_MM)
    deep = front + behind * (np.interp(station, lines.station, top) - front)
    power = POWERS[0] + (POWERS[1] - POWERS[0]) * _eased(np.abs(station) / 30.0)
    share = np.minimum(radius / np.interp(station, lines.station, rim.radius), 1.1)
    rounded = (share**2 + ROUND**2) ** (0.5 * power) - ROUND**power
    whole = (1.0 + ROUND**2) ** (0.5 * power) - ROUND**power
    return np.asarray(
        deep + (np.interp(station, lines.station, rim.height) - deep) * rounded / whole
    )


def _folds(lines: GumLines, rim: Rim, coordinates: ArchCoordinates, x: Floats, y: Floats) -> Floats:
    """Return the folds (len(x), len(y)) across the front third, slanting back from the midline."""
    incisal = coordinates.centre_x + float(np.interp(0.0, lines.station, rim.radius))
    side = np.abs(y)
    back = incisal - x[:, None] - 0.3 * side
    start, end = _FOLDS_MM
    window = _eased((back - start) / 2.0) * _eased((end - back) / 3.0)
    window = window * _eased((side - 0.8) / 1.5) * _eased((9.5 - side) / 3.0)
    wave = np.cos(2.0 * np.pi * (back + 0.5 * np.sin(0.8 * side)) / _FOLD_EVERY_MM)
    return np.asarray(FOLD_MM * window * (1.0 + wave))


def _eased(value: Floats) -> Floats:
    """Return a smooth step from 0 at 0 to 1 at 1."""
    share = np.clip(value, 0.0, 1.0)
    return np.asarray(share * share * (3.0 - 2.0 * share))
