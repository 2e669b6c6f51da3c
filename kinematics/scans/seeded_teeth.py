"""Teeth of a scanned cast from one picked seed each: parted along embrasures, folds and gums."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import connected_components, dijkstra
from scipy.spatial import cKDTree

from kinematics.casts.casts import NO_TOOTH
from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.scans.arch_stations import ArchStations, arch_order, arch_stations
from kinematics.scans.crown_sizes import crown_size
from kinematics.scans.folded_surface import FoldedSurface, folded_surface
from kinematics.scans.labels import FEWEST_TEETH
from kinematics.scans.seed_shares import seed_shares

#: Where the best tooth of a vertex leads the next by less than this share, it is doubtful.
#: This and what follows were chosen for this program, by trials on made casts.
LEAST_LEAD: Final = 0.3
#: A way is as long as what it folds, rad, and this much for each mm.
_PER_MM: Final = 0.05
#: A place is sure if it is so many times as far from the middle of any other crown.
_TIMES_AS_FAR: Final = 2.0
#: The middle of a crown: so much of its span and half width, and of its height from the top.
_MIDDLE_OF_SPAN: Final = 0.2
_MIDDLE_OF_WIDTH: Final = 0.6
_MIDDLE_DEPTH: Final = 0.55
#: Sure places lie so far inside the span of their tooth, and not deeper than this.
_SURE_INSIDE: Final = 0.15
_SURE_DEPTH: Final = 0.8
#: Deeper, or farther from the arch than this, mm, there is no crown; from where on gum is likely.
_GUM_DEPTH: Final = 1.25
_GUM_BESIDE_MM: Final = 4.0
_GUM_BEYOND_MM: Final = 2.5
_GUM_LIKELY: Final = (0.9, 1.3, 0.04)
#: Near their necks crowns are upright: what is so deep and faces up is gum, with this weight.
_LEDGE_DEPTH: Final = (0.7, 0.9)
_LEDGE_FACING: Final = (0.4, 0.7)
_LEDGE_LIKELY: Final = 0.3
#: A piece that no seed is on, but that lies so near to others, belongs to them, mm: a crack.
_BROKEN_MM: Final = 0.5
#: Around a seed this much is its tooth, mm.
SEED_MM: Final = 0.5
#: A rival seed that is so much nearer takes a place out of the middle of another crown.
_RIVAL: Final = 0.6
#: A place is gum if it is so many times nearer to a seed of gum than to what is surely a crown.
_GUM_NEARER: Final = 1.0
#: So near to a seed of gum nothing is crown that lies as deep, mm: half a tooth.
_GUM_SEED_MM: Final = 4.0
#: Teeth that lie this near to one line span no plane, mm.
_IN_LINE_MM: Final = 3.0


@dataclass(frozen=True)
class SeededTeeth:
    """Which vertex belongs to which tooth.

    Attributes
    ----------
    tooth_of_vertex : ndarray, shape (n,)
        ISO 3950 number, 0 for none.
    doubtful : ndarray, shape (n,)
        Where another tooth, or gum, is nearly as likely, or nothing is known.
    widths_mm : dict of tooth number to float
        How much of the arch each tooth takes.
    """

    tooth_of_vertex: Ints
    doubtful: Bools
    widths_mm: dict[int, float]


def teeth_from_seeds(
    mesh: Mesh, seeds: Mapping[int, Floats], gum_seeds: Floats | None = None
) -> SeededTeeth:
    """Part a cast among the teeth that seeds name.

    Twice: with the seeds as the middles of crowns, then with the middles of what was found.

    Parameters
    ----------
    mesh : Mesh
        One cleaned cast, mm, in any place.
    seeds : mapping of tooth number to ndarray, shape (k, 3)
        One point on each crown, better near its middle; more where a boundary is to be moved.
    gum_seeds : ndarray, shape (g, 3), optional
        Points on no tooth.

    Raises
    ------
    InputError
        Too few teeth.
    """
    if len(seeds) < FEWEST_TEETH:
        raise InputError(
            f"tooth_seeds: {len(seeds)} teeth of this cast have one; at least {FEWEST_TEETH} are"
            " needed, and every tooth that has none is taken for gum or for its neighbour"
        )
    picked = {code: np.atleast_2d(points) for code, points in seeds.items()}
    middles = {code: points.mean(axis=0) for code, points in picked.items()}
    _check_order(middles)
    up = _up(mesh.vertices, np.array(list(middles.values())))
    surface = folded_surface(mesh, up)
    parted = _parted(surface, picked, gum_seeds, middles, up)
    up = _up(mesh.vertices, parted.stations.tops)
    surface = folded_surface(mesh, up)
    parted = _parted(surface, picked, gum_seeds, parted.middles(surface, picked), up)
    return parted.told(surface)


def _check_order(middles: Mapping[int, Floats]) -> None:
    """Refuse seeds that go back where their numbers go on along the arch."""
    codes = arch_order(tuple(middles))
    places = np.array([middles[code] for code in codes])
    last = len(codes) - 1
    for i in range(last):
        around = places[min(i + 2, last)] - places[max(i - 1, 0)]
        if float((places[i + 1] - places[i]) @ around) < 0.0:
            raise InputError(
                f"tooth_seeds: those of {codes[i]} and {codes[i + 1]} stand the other way round"
                " along the arch than their numbers; were the numbers exchanged?"
            )


def _up(vertices: Floats, crowns: Floats) -> Floats:
    """Return the direction in which crowns point: across their plane, away from the rest."""
    spread = np.linalg.svd(crowns - crowns.mean(axis=0), full_matrices=False)
    if spread[1][1] < _IN_LINE_MM * np.sqrt(len(crowns)):
        about = vertices - vertices.mean(axis=0)
        up = np.linalg.eigh(about.T @ about)[1][:, 0]
    else:
        up = spread[2][2]
    return np.asarray(
        up if float(crowns.mean(axis=0) @ up) > float(vertices.mean(axis=0) @ up) else -up
    )


@dataclass(frozen=True)
class _Parted:
    """Shares (n, t + 1) of each tooth in their order, and of gum, at every vertex."""

    stations: ArchStations
    shares: Floats

    def middles(self, surface: FoldedSurface, picked: Mapping[int, Floats]) -> dict[int, Floats]:
        """Return about the middle of the upper half of each crown."""
        best, found = np.argmax(self.shares, axis=1), {}
        for index, code in enumerate(self.stations.codes):
            own = (best == index) & (self.stations.depth < 0.5)
            few = np.count_nonzero(own) < 20
            found[code] = picked[code].mean(axis=0) if few else surface.vertices[own].mean(axis=0)
        return found

    def told(self, surface: FoldedSurface) -> SeededTeeth:
        """Return the tooth of every vertex as they were given."""
        numbers = np.array([*self.stations.codes, NO_TOOTH])
        best = np.argmax(self.shares, axis=1)
        apart = self.shares.sum(axis=1) == 0.0
        if apart.any():
            tree = cKDTree(surface.vertices[~apart])
            far, nearest = tree.query(surface.vertices[apart])
            beside = best[~apart][nearest]
            best[apart] = np.where(far < _BROKEN_MM, beside, len(numbers) - 1)
        highest = np.partition(self.shares, -2, axis=1)[:, -2:]
        teeth = np.empty(len(best), dtype=np.int64)
        doubtful = np.empty(len(best), dtype=bool)
        teeth[surface.given] = numbers[best]
        doubtful[surface.given] = highest[:, 1] - highest[:, 0] < LEAST_LEAD
        widths = np.diff(self.stations.spans_mm, axis=1).ravel().tolist()
        return SeededTeeth(teeth, doubtful, dict(zip(self.stations.codes, widths, strict=True)))


def _parted(
    surface: FoldedSurface,
    picked: Mapping[int, Floats],
    gum_seeds: Floats | None,
    middles: Mapping[int, Floats],
    up: Floats,
) -> _Parted:
    stations = arch_stations(surface, middles, up)
    fixed = _sure(surface, stations, picked)
    gum = _surely_gum(stations) & (fixed < 0)
    tree = cKDTree(surface.vertices)
    if gum_seeds is not None and len(gum_seeds):
        of_seeds = np.asarray(tree.query(gum_seeds)[1])
        gum |= _nearer_to_gum(surface, of_seeds, fixed)
        for seed in of_seeds:
            near = np.asarray(tree.query_ball_point(surface.vertices[seed], _GUM_SEED_MM))
            gum[near] |= stations.depth[near] >= stations.depth[seed]
    fixed[gum] = len(stations.codes)
    for index, code in enumerate(stations.codes):
        fixed[_around(tree, picked[code])] = index
    if gum_seeds is not None and len(gum_seeds):
        fixed[_around(tree, gum_seeds)] = len(stations.codes)
    low, high, weight = _GUM_LIKELY
    likely = weight * _between(stations.depth, (low, high))
    ledge = _between(stations.depth, _LEDGE_DEPTH) * _between(surface.facing, _LEDGE_FACING)
    likely += _LEDGE_LIKELY * ledge
    groups = len(stations.codes) + 1
    return _Parted(stations, seed_shares(surface.net(surface.open_ways), fixed, groups, likely))


def _nearer_to_gum(surface: FoldedSurface, seeds: Ints, fixed: Ints) -> Bools:
    """Return what is so much nearer to a seed of gum than to what is surely a crown."""
    ways = _ways(surface)
    crowns = np.flatnonzero(fixed >= 0)
    to_gum = dijkstra(ways, indices=seeds, min_only=True)
    to_crown = dijkstra(ways, indices=crowns, min_only=True)
    return np.asarray(_GUM_NEARER * to_gum < to_crown)


def _ways(surface: FoldedSurface) -> csr_matrix:
    """Return how far it is along each edge: what it folds, and a little for its length."""
    return surface.net(surface.folds_rad + _PER_MM * surface.lengths_mm)


def _between(values: Floats, limits: tuple[float, float]) -> Floats:
    """Return 0 below the first limit, 1 above the second, and what lies between in proportion."""
    low, high = limits
    return np.clip((values - low) / (high - low), 0.0, 1.0)


def _around(tree: cKDTree, points: Floats) -> Ints:
    """Return the vertices around points, and the nearest to each."""
    near = [np.asarray(tree.query_ball_point(point, SEED_MM)) for point in points]
    return np.unique(np.concatenate([*near, tree.query(points)[1]])).astype(np.int64)


def _surely_gum(stations: ArchStations) -> Bools:
    gum = stations.depth > _GUM_DEPTH
    gum |= stations.beside_mm > stations.half_width_mm + _GUM_BESIDE_MM
    gum[stations.between(_GUM_BEYOND_MM)] = True
    return gum


def _sure(surface: FoldedSurface, stations: ArchStations, picked: Mapping[int, Floats]) -> Ints:
    """Return the place in the row of the tooth that each vertex surely belongs to, or -1."""
    starts = _crown_middles(surface, stations, picked)
    ways = _ways(surface)
    far = np.array([dijkstra(ways, indices=start, min_only=True) for start in starts])
    order = np.argsort(far, axis=0, kind="stable")[:2]
    nearest, other = np.take_along_axis(far, order, axis=0)
    low, high = stations.spans_mm[order[0]].T
    inside = _SURE_INSIDE * (high - low)
    sure = (_TIMES_AS_FAR * nearest < other) & (stations.depth < _SURE_DEPTH)
    sure &= (stations.station_mm > low + inside) & (stations.station_mm < high - inside)
    sure &= ~_surely_gum(stations)
    fixed = np.where(sure, order[0], -1)
    for index, start in enumerate(starts):
        fixed[start] = index
    return fixed


def _crown_middles(
    surface: FoldedSurface, stations: ArchStations, picked: Mapping[int, Floats]
) -> list[Ints]:
    """Return the vertices in the middle of each crown, without those that a rival seed claims.

    A rival claims what it is much nearer to, and a separate piece that it is on alone.
    """
    trees = [cKDTree(picked[code]) for code in stations.codes]
    whole = cKDTree(surface.vertices)
    seeded = [np.asarray(whole.query(picked[code])[1]) for code in stations.codes]
    pieces = connected_components(surface.net(surface.lengths_mm), directed=False)[1]
    high_up = stations.depth < _MIDDLE_DEPTH
    starts = []
    for index, (code, span) in enumerate(zip(stations.codes, stations.spans_mm, strict=True)):
        middle, reach = span.mean(), _MIDDLE_OF_SPAN * (span[1] - span[0])
        here = np.abs(stations.station_mm - middle) < reach
        beside = _MIDDLE_OF_WIDTH * 0.5 * crown_size(code).buccolingual_mm
        found = np.flatnonzero(here & high_up & (stations.beside_mm < beside))
        points = surface.vertices[found]
        own = trees[index].query(points)[0]
        others = [tree for tree in trees if tree is not trees[index]]
        rival = np.array([tree.query(points)[0] for tree in others], dtype=float).min(axis=0)
        found = found[rival > _RIVAL * own]
        strange = np.concatenate([pieces[seeds] for seeds in seeded])
        strange = np.setdiff1d(strange, pieces[seeded[index]])
        found = found[~np.isin(pieces[found], strange)]
        starts.append(np.unique(np.concatenate([found, seeded[index]])).astype(np.int64))
    return starts
