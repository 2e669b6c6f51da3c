"""Stations along a dental arch: a curve through the teeth, and where on it each tooth may end."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.polynomial import Polynomial
from scipy.ndimage import gaussian_filter1d
from scipy.spatial import cKDTree

from kinematics.conventions import Floats, Ints
from kinematics.scans.crown_sizes import crown_size
from kinematics.scans.folded_surface import FoldedSurface
from kinematics.tooth_codes import is_right

#: Distance of two stations, mm, and how far the curve goes on past the last teeth.
_STEP_MM: Final = 0.1
_BEYOND_MM: Final = 16.0
#: Of a crown, as a share of its height below its top: so deep the arch is still looked at.
_CROWN_DEPTH: Final = 0.75
#: What follows was chosen for this program, by trials on made casts: how much a tooth that is e
#: times as wide as usual, a middle that lies a crown's width beside its seed, and a boundary across
#: as much surface as usual weigh against each other.
_WIDTH_WEIGHT: Final = 0.1 / 0.12**2
_MIDDLE_WEIGHT: Final = 0.1 / 0.25**2
#: A seed lies at least so far inside its crown, as a share of its width.
_INSIDE: Final = 0.08
#: Whole dentitions are so much smaller or larger than the mean (about twice the published spread
#: of arch lengths).
_SCALES: Final = (0.85, 1.15)


@dataclass(frozen=True)
class ArchStations:
    """One arch, seen along a curve through its teeth.

    Attributes
    ----------
    codes : tuple of int
        Its teeth from the patient's right to left.
    station_mm, beside_mm : ndarray, shape (n,)
        Of every vertex: how far along the curve it is, and how far from it, seen from above.
    depth : ndarray, shape (n,)
        How far below the top of the nearest crown, as a share of the usual height of that crown.
    half_width_mm : ndarray, shape (n,)
        Half the usual buccolingual size of a crown at that station.
    spans_mm : ndarray, shape (t, 2)
        Where each tooth begins and ends.
    tops : ndarray, shape (t, 3)
        Highest place of each crown near its middle.
    """

    codes: tuple[int, ...]
    station_mm: Floats
    beside_mm: Floats
    depth: Floats
    half_width_mm: Floats
    spans_mm: Floats
    tops: Floats

    def between(self, beyond_mm: float) -> Ints:
        """Return vertices that lie in no tooth's span, and farther than that from any."""
        out = np.ones(len(self.station_mm), dtype=bool)
        for low, high in self.spans_mm:
            out &= (self.station_mm < low - beyond_mm) | (self.station_mm > high + beyond_mm)
        return np.flatnonzero(out)


def arch_order(codes: Sequence[int]) -> tuple[int, ...]:
    """Return teeth of one arch from the patient's right to left."""
    return tuple(sorted(codes, key=lambda code: -(code % 10) if is_right(code) else code % 10))


def arch_stations(
    surface: FoldedSurface, middles: Mapping[int, Floats], up: Floats
) -> ArchStations:
    """Lay a curve through the middles of teeth, and part it among them.

    A boundary is put where little of the surface leads across: in an embrasure. How wide crowns
    usually are, and where their middles are, decide among folds that are alike.

    Parameters
    ----------
    surface : FoldedSurface
        The cast.
    middles : mapping of tooth number to ndarray, shape (3,)
        About the middle of each crown, mm.
    up : ndarray, shape (3,)
        Direction in which crowns point.
    """
    codes = arch_order(tuple(middles))
    flat_axes = _across(up)
    flat = surface.vertices @ flat_axes
    points = np.array([middles[code] for code in codes]) @ flat_axes
    curve, along = _curve(points)
    tree = cKDTree(curve)
    beside, nearest = tree.query(flat)
    station, at = along[nearest], along[tree.query(points)[1]]
    sizes = [crown_size(code) for code in codes]
    widths = np.array([size.mesiodistal_mm for size in sizes])
    heights = surface.vertices @ up
    tops = np.array(
        [_top(heights, near) for near in cKDTree(flat).query_ball_point(points, 0.35 * widths)]
    )
    height_mm = np.interp(station, at, [size.height_mm for size in sizes])
    depth = (np.interp(station, at, heights[tops]) - heights) / height_mm
    half_mm = 0.5 * np.interp(station, at, [size.buccolingual_mm for size in sizes])
    on_crowns = (depth < _CROWN_DEPTH) & (beside < half_mm + 1.5)
    inside = on_crowns[surface.edges].all(axis=1)
    across = _leading_across(
        station[surface.edges[inside]], surface.open_ways[inside], at, along[-1]
    )
    spans = _spans(codes, at, widths, across)
    return ArchStations(
        codes, station, np.asarray(beside), depth, half_mm, spans, surface.vertices[tops]
    )


def _across(up: Floats) -> Floats:
    """Return two directions (3, 2) across up."""
    return np.asarray(np.linalg.svd(up[None])[2][1:].T)


def _top(heights: Floats, near: Sequence[int]) -> int:
    near = sorted(near)
    return int(near[int(np.argmax(heights[near]))])


def _curve(points: Floats) -> tuple[Floats, Floats]:
    """Return a smooth curve (q, 2) through points, going on straight at its ends, and its length.

    An arch is well drawn by a polynomial of the fourth degree (Lu, J Dent Res 1966;45:1806; from
    memory).
    """
    gone = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    degree = 4 if len(points) >= 6 else min(2, len(points) - 1)
    stations = np.arange(0.0, gone[-1], _STEP_MM)
    line = np.stack(
        [Polynomial.fit(gone, points[:, axis], degree)(stations) for axis in range(2)], axis=1
    )
    steps = np.arange(_STEP_MM, _BEYOND_MM, _STEP_MM)[:, None]
    back, on = _direction(line[0] - line[20]), _direction(line[-1] - line[-21])
    whole = np.concatenate([(line[0] + steps * back)[::-1], line, line[-1] + steps * on])
    lengths = np.linalg.norm(np.diff(whole, axis=0), axis=1)
    return whole, np.concatenate([[0.0], np.cumsum(lengths)])


def _direction(vector: Floats) -> Floats:
    return np.asarray(vector / np.linalg.norm(vector))


def _leading_across(ends_mm: Floats, open_ways: Floats, at: Floats, last_mm: float) -> Floats:
    """Return how much surface leads across each station; 1 is usual between the teeth."""
    count = int(last_mm / _STEP_MM) + 2
    first = np.ceil(ends_mm.min(axis=1) / _STEP_MM).astype(np.int64)
    after = np.floor(ends_mm.max(axis=1) / _STEP_MM).astype(np.int64) + 1
    crosses = after > first
    across = crossing(first[crosses], after[crosses], open_ways[crosses], count)
    stations = _STEP_MM * np.arange(count)
    usual = float(np.median(across[(stations > at[0]) & (stations < at[-1])]))
    return np.asarray(across / max(usual, 1e-12))


def crossing(first: Ints, after: Ints, open_ways: Floats, count: int) -> Floats:
    """Return what leads across each of so many stations, evened out over some of them.

    Parameters
    ----------
    first, after : ndarray, shape (k,)
        The first station that each edge crosses, and the first beyond it.
    open_ways : ndarray, shape (k,)
        How much leads across each edge.
    count : int
        Of stations.
    """
    size = max(count, int(after.max(initial=0))) + 1
    begun = np.bincount(first, open_ways, size)
    ended = np.bincount(after, open_ways, size)
    return np.asarray(gaussian_filter1d(np.cumsum(begun - ended)[:count], 2.0))


def _spans(codes: Sequence[int], at: Floats, usual_mm: Floats, across: Floats) -> Floats:
    """Return where each tooth begins and ends (t, 2): the cheapest chain of boundaries."""
    meet = [_neighbours(one, other) for one, other in pairwise(codes)]
    widths = usual_mm * _scale(at, usual_mm, meet)
    begins, ends = at - widths, at + widths
    inner_low, inner_high = at - _INSIDE * widths, at + _INSIDE * widths
    windows, first, last = [_window(begins[0], inner_low[0], len(across))], [0], []
    for tooth, together in enumerate(meet):
        if together:
            windows.append(_window(inner_high[tooth], inner_low[tooth + 1], len(across)))
        else:
            farthest = min(ends[tooth], inner_low[tooth + 1])
            windows.append(_window(inner_high[tooth], farthest, len(across)))
        last.append(len(windows) - 1)
        if not together:
            nearest = max(begins[tooth + 1], inner_high[tooth])
            windows.append(_window(nearest, inner_low[tooth + 1], len(across)))
        first.append(len(windows) - 1)
    windows.append(_window(inner_high[-1], ends[-1], len(across)))
    last.append(len(windows) - 1)
    owner = {end: tooth for tooth, end in enumerate(last)}
    found = _cheapest(windows, owner, at, widths, across)
    return np.stack([found[first], found[last]], axis=1)


def _neighbours(one: int, other: int) -> bool:
    """Tell whether nothing lies between two teeth in a row."""
    if one // 10 == other // 10:
        return abs(one - other) == 1
    return one % 10 == other % 10 == 1


def _scale(at: Floats, usual_mm: Floats, meet: Sequence[bool]) -> float:
    """Return how large these teeth are, by the distances of neighbours."""
    usual = 0.5 * (usual_mm[1:] + usual_mm[:-1])
    found = (np.diff(at) / usual)[list(meet)]
    return float(np.clip(np.median(found), *_SCALES)) if len(found) >= 3 else 1.0


def _window(low_mm: float, high_mm: float, count: int) -> Ints:
    """Return stations between two places, at least one."""
    low = min(max(0, int(np.ceil(low_mm / _STEP_MM))), count - 1)
    high = max(low, min(count - 1, int(high_mm / _STEP_MM)))
    return np.arange(low, high + 1)


def _cheapest(
    windows: Sequence[Ints],
    owner: Mapping[int, int],
    at: Floats,
    widths: Floats,
    across: Floats,
) -> Floats:
    """Return one station of each window, mm, so that all together cost least (Viterbi)."""
    costs, came = across[windows[0]], []
    for index in range(1, len(windows)):
        low, high = windows[index - 1][:, None], windows[index][None]
        if index in owner:
            tooth = owner[index]
            width = np.maximum((high - low) * _STEP_MM, _STEP_MM)
            middle = 0.5 * (high + low) * _STEP_MM
            steps = _WIDTH_WEIGHT * np.log(width / widths[tooth]) ** 2
            steps = steps + _MIDDLE_WEIGHT * ((middle - at[tooth]) / widths[tooth]) ** 2
        else:
            steps = np.where(high >= low, 0.0, np.inf)
        every = costs[:, None] + steps
        came.append(np.argmin(every, axis=0))
        costs = every.min(axis=0) + across[windows[index]]
    chosen = [int(np.argmin(costs))]
    for back in reversed(came):
        chosen.append(int(back[chosen[-1]]))
    places = [window[index] for window, index in zip(windows, reversed(chosen), strict=True)]
    return _STEP_MM * np.array(places, dtype=float)
