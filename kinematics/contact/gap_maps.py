"""Gap maps: how far every vertex of either arch is from the other arch, in given poses."""

from dataclasses import dataclass

import numpy as np

from kinematics.checks import rigid_poses
from kinematics.contact.pair import Pair
from kinematics.contact.vertex_search import Measure, Side, least_gaps
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats


@dataclass(frozen=True)
class DistanceMap:
    """Shortest distance of every vertex from the surface of the other arch.

    Without sign: of a vertex that lies past the other surface it says how far past. Vertices are
    numbered as in the meshes given; there is a row a pose where several poses were asked for.

    Attributes
    ----------
    upper_mm : ndarray, shape (u,) or (n, u)
        Of the vertices of the upper; inf beyond the limit and where a vertex has no triangle.
    lower_mm : ndarray, shape (v,) or (n, v)
        Of the vertices of the lower.
    """

    upper_mm: Floats
    lower_mm: Floats


@dataclass(frozen=True)
class ArcMap:
    """Arc gap of every vertex: length of the closing arc to where it first meets the other arch.

    The arc is a circle about the hinge axis; its length is radius times angle. A vertex of the
    lower runs along it until it meets the upper; at a vertex of the upper the circle is the same,
    and it is the surface of the lower that comes along it. What counts is the first meeting coming
    from wide open. The sign says on which side of it the jaw stands: positive where it has yet to
    close so far, negative where it is already past it, so that the casts overlap. It comes from the
    arc alone, never from winding.

    Vertices are numbered as in the meshes given; there is a row a pose where several poses were
    asked for.

    Attributes
    ----------
    upper_mm : ndarray, shape (u,) or (n, u)
        Of the vertices of the upper; inf beyond the limit, where the arc meets nothing and where a
        vertex has no triangle; -inf where the overlap is deeper than the limit.
    lower_mm : ndarray, shape (v,) or (n, v)
        Of the vertices of the lower.
    """

    upper_mm: Floats
    lower_mm: Floats


@dataclass(frozen=True)
class GapMap:
    """Both measures of the same poses.

    Attributes
    ----------
    distance : DistanceMap
        Shortest distances, without sign.
    arc_gap : ArcMap
        Along the closing arc, negative where the casts overlap.
    """

    distance: DistanceMap
    arc_gap: ArcMap


def distance_map(
    pair: Pair, poses: Floats, limit_mm: float, workers: Workers | None = None
) -> DistanceMap:
    """Measure the shortest distance of every vertex of both arches.

    Parameters
    ----------
    pair : Pair
        Both arches, prepared.
    poses : ndarray, shape (4, 4) or (n, 4, 4)
        hinge_from_lower as the lower stands (opening included).
    limit_mm : float
        Distance up to which is measured, 1e-6 to 1000 mm.
    workers : Workers, optional
        Threads; one if not given.

    Returns
    -------
    DistanceMap
        The same bits for any number of threads, any limit and any order of triangles.

    Raises
    ------
    InputError
        Limit out of range; poses of another shape, not finite or not rigid.
    """
    return DistanceMap(*_both_arches(pair, poses, limit_mm, (Measure.DISTANCE,), workers))


def arc_map(pair: Pair, poses: Floats, limit_mm: float, workers: Workers | None = None) -> ArcMap:
    """Measure the arc gap of every vertex of both arches; see `distance_map` for the parameters.

    `limit_mm` holds for both signs.
    """
    return ArcMap(*_both_arches(pair, poses, limit_mm, (Measure.ARC_GAP,), workers))


def gap_map(pair: Pair, poses: Floats, limit_mm: float, workers: Workers | None = None) -> GapMap:
    """Measure both gaps of every vertex of both arches; see `distance_map` for the parameters."""
    both = (Measure.DISTANCE, Measure.ARC_GAP)
    found = _both_arches(pair, poses, limit_mm, both, workers)
    return GapMap(DistanceMap(*found[:2]), ArcMap(*found[2:]))


def _both_arches(
    pair: Pair,
    poses: Floats,
    limit_mm: float,
    measures: tuple[Measure, ...],
    workers: Workers | None,
) -> list[Floats]:
    """Measure the vertices of the upper and of the lower, for each measure in turn."""
    single = np.ndim(poses) == 2
    every = rigid_poses(poses, "poses", (4, 4) if single else (None, 4, 4)).reshape(-1, 4, 4)
    wanted = tuple((side, measure) for measure in measures for side in Side)
    found = least_gaps(pair, every, len(every), limit_mm, wanted, False, workers)
    return [gaps.gap_mm[0] if single else gaps.gap_mm for gaps in found]
