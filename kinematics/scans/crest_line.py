"""The crest of a scanned arch without labels: how it lies, a line along its crowns, how high it is.

All of it is a guess from the shape alone, good enough to propose where teeth are.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.polynomial import Polynomial
from scipy.ndimage import maximum_filter1d
from scipy.spatial import cKDTree

from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.scans.arch_stations import crossing
from kinematics.scans.edges import edges_of
from kinematics.scans.folded_surface import FoldedSurface

#: Distance of two stations, mm.
STEP_MM: Final = 0.1
#: What follows was chosen for this program, by trials on made casts. From this share of its height
#: on a cast is of crowns for the most part.
_TALL: Final = 0.6
#: The line is sought in sectors around a point so far behind the front, as a share of the length of
#: the arch; on either side of straight ahead so far; a sector has at least so many vertices.
_CENTRE: Final = 0.7
_WIDEST_RAD: Final = 2.4
_SECTORS: Final = 90
_FEWEST: Final = 30
#: What lies nearer to that point, or deeper below the usual top of a sector, is no crest; a whole
#: arch is at least so long, mm.
_NEAREST_MM: Final = 5.0
_DEEPEST_MM: Final = 6.0
_SHORTEST_MM: Final = 70.0
#: Between these shares of the line its middle is sought.
_MIDDLE: Final = (0.35, 0.65)
#: Of a sector, what is so near to its highest place is of the crest, mm.
_CREST_MM: Final = 2.5
#: So near to the line surface is looked at, and so far below its tops, mm.
_BESIDE_MM: Final = 4.5
_BELOW_MM: Final = 5.0
#: Tops are taken together over so much of the line; those below which surface is looked at, mm.
_EVENED_MM: Final = 0.7
_AROUND_MM: Final = 8.0
#: A crest that lies so far below the even line of the tops carries no crown, mm.
_LOW_MM: Final = 3.0


@dataclass(frozen=True)
class ArchLie:
    """How an arch lies: unit vectors (3,) towards the tops of crowns, the front, and the left."""

    up: Floats
    ahead: Floats
    left: Floats

    @property
    def flat_axes(self) -> Floats:
        """Ahead and to the left, shape (3, 2)."""
        return np.stack([self.ahead, self.left], axis=1)


@dataclass(frozen=True)
class CrestLine:
    """The crest, station by station from the patient's right to left.

    Attributes
    ----------
    points : ndarray, shape (q, 2)
        Ahead and to the left, mm.
    across : ndarray, shape (q,)
        How much surface leads across each station; 1 is usual.
    high : ndarray, shape (q,)
        Where the crest is as high as crowns are.
    middle : int
        The station at the midline.
    """

    points: Floats
    across: Floats
    high: Bools
    middle: int


def arch_lie(mesh: Mesh, upper: bool, up: Floats | None = None) -> ArchLie:
    """Tell how an arch lies: flattest from above, its rim below, closed in front.

    Parameters
    ----------
    mesh : Mesh
        One cleaned cast, mm, in any place.
    upper : bool
        Whether it is the upper one; this tells left from right.
    up : ndarray, shape (3,), optional
        Where the crowns point, if that is known better.
    """
    places = mesh.vertices[np.lexsort(mesh.vertices.T[::-1])]
    middle = places.mean(axis=0)
    about = places - middle
    axes = np.linalg.eigh(about.T @ about)[1].T
    if up is None:
        heights = about @ axes[0]
        edges = edges_of(mesh.faces)
        rim = (mesh.vertices[np.unique(edges.ends[edges.counts == 1])] - middle) @ axes[0]
        # a closed cast is broad below and narrow above: crowns are the longer tail
        below = np.median(rim) if len(rim) else -0.5 * (heights.max() + heights.min())
        up = axes[0] * (1.0 if below < 0.0 else -1.0)
    heights = about @ up
    tall = about[heights >= heights.min() + _TALL * np.ptp(heights)]
    tall = tall - tall.mean(axis=0)
    level = tall - np.outer(tall @ up, up)
    flat = np.linalg.eigh(level.T @ level)[1].T[1:]
    along = level @ flat.T
    low, high = along.min(axis=0), along.max(axis=0)
    # the mean lies nearer to the closed end than the middle of the extent does
    lean = -0.5 * (low + high) / np.maximum(high - low, 1e-12)
    front = int(np.argmax(np.abs(lean)))
    ahead = flat[front] * np.sign(lean[front] or 1.0)
    return ArchLie(up, ahead, np.cross(-up if upper else up, ahead))


def crest_line(surface: FoldedSurface, lie: ArchLie) -> CrestLine:
    """Lay a line along the crest of an arch, and tell what leads across it and where it is high.

    Parameters
    ----------
    surface : FoldedSurface
        The cast.
    lie : ArchLie
        How it lies.

    Raises
    ------
    InputError
        No arch is seen.
    """
    flat = surface.vertices @ lie.flat_axes
    heights = surface.vertices @ lie.up
    line = _line(flat, heights)
    beside, at = cKDTree(line).query(flat)
    nearest = np.asarray(at, dtype=np.int64)
    tops = np.full(len(line), -np.inf)
    close = beside < _BESIDE_MM
    np.maximum.at(tops, nearest[close], heights[close])
    tops = maximum_filter1d(tops, round(_EVENED_MM / STEP_MM))
    local = maximum_filter1d(tops, round(_AROUND_MM / STEP_MM))
    on_crest = close & (heights > local[nearest] - _BELOW_MM)
    inside = on_crest[surface.edges].all(axis=1)
    across = _leading(nearest[surface.edges[inside]], surface.open_ways[inside], len(line))
    return CrestLine(line, across, _high(tops), _midline(line))


def _line(flat: Floats, heights: Floats) -> Floats:
    """Return a smooth line (q, 2) along the crest: its distance from a centre by the angle."""
    low, high = flat.min(axis=0), flat.max(axis=0)
    centre = np.array([high[0] - _CENTRE * (high[0] - low[0]), 0.5 * (low[1] + high[1])])
    about = flat - centre
    angle, far = np.arctan2(about[:, 1], about[:, 0]), np.linalg.norm(about, axis=1)
    crest = []
    for begins, ends in pairwise(np.linspace(-_WIDEST_RAD, _WIDEST_RAD, _SECTORS + 1)):
        here = np.flatnonzero((angle >= begins) & (angle < ends))
        if len(here) >= _FEWEST:
            highest = heights[here].max()
            radius_mm = np.median(far[here[heights[here] > highest - _CREST_MM]])
            crest.append((0.5 * (begins + ends), radius_mm, highest))
    at, radius_mm, tops = np.array(crest).reshape(-1, 3).T
    if len(at):
        seen = (radius_mm > _NEAREST_MM) & (tops > np.median(tops) - _DEEPEST_MM)
        at, radius_mm = at[seen], radius_mm[seen]
    _check_whole(at, radius_mm)
    curve = _without_outliers(at, 1.0 / radius_mm)
    fine = np.linspace(at[0], at[-1], 4000)
    points = centre + np.stack([np.cos(fine), np.sin(fine)], axis=1) / curve(fine)[:, None]
    gone = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    stations = np.arange(0.0, gone[-1], STEP_MM)
    return np.stack([np.interp(stations, gone, points[:, axis]) for axis in range(2)], axis=1)


def _check_whole(at: Floats, radius_mm: Floats) -> None:
    """Refuse what does not run around a centre as far as an arch does."""
    if len(at) < _SECTORS // 4 or (at[-1] - at[0]) * radius_mm.mean() < _SHORTEST_MM:
        raise InputError(
            "the cast: no arch is seen in its shape, so no seeds of teeth can be proposed; is it"
            " one whole arch, in mm? Seeds can be picked by hand"
        )


def _without_outliers(at: Floats, values: Floats) -> Polynomial:
    """Return a polynomial of the sixth degree through most of the values."""
    curve = Polynomial.fit(at, values, 6)
    for _ in range(3):
        off = np.abs(values - curve(at))
        sure = off <= 3.0 * np.median(off)
        curve = Polynomial.fit(at[sure], values[sure], 6)
    return curve


def _leading(ends: Ints, open_ways: Floats, count: int) -> Floats:
    across = crossing(ends.min(axis=1), ends.max(axis=1), open_ways, count)
    return np.asarray(across / max(float(np.median(across[across > 0.0])), 1e-12))


def _high(tops: Floats) -> Bools:
    """Return where the tops reach the even line of most of them."""
    known = np.flatnonzero(np.isfinite(tops))
    sure = known
    for _ in range(6):
        even = Polynomial.fit(sure, tops[sure], 2)
        off = tops[known] - even(known)
        sure = known[off > np.quantile(off, 0.3) - 0.5]
        sure = sure[tops[sure] > even(sure) - _LOW_MM]
    high = np.zeros(len(tops), dtype=bool)
    high[known] = tops[known] > even(known) - _LOW_MM
    return high


def _midline(line: Floats) -> int:
    """Return the station where the line is most its own mirror image."""
    stations = range(int(_MIDDLE[0] * len(line)), int(_MIDDLE[1] * len(line)), 2)
    return min(stations, key=lambda station: _leaning(line, station))


def _leaning(line: Floats, station: int) -> float:
    """Return how far the middles of chords lie beside the mirror line through a station, mm2."""
    reach = np.arange(20, min(station, len(line) - 1 - station), 20)
    one, other = line[station - reach], line[station + reach]
    middles = 0.5 * (one + other) - line[station]
    chords = (other - one) / np.linalg.norm(other - one, axis=1, keepdims=True)
    return float(np.mean((middles @ chords.mean(axis=0)) ** 2))
