"""Envelope of a movement: how near every vertex comes to the other arch, and in which pose."""

from dataclasses import dataclass

from kinematics.checks import one_of, rigid_poses
from kinematics.contact.pair import Pair
from kinematics.contact.vertex_search import Measure, Side, least_gaps
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats, Ints

__all__ = ["Envelope", "Envelopes", "Measure", "Side", "envelope", "envelopes"]


@dataclass(frozen=True)
class Envelope:
    """Least gap of every vertex of one arch over some poses.

    Attributes
    ----------
    side : Side
        Whose vertices, numbered as in the mesh given.
    measure : Measure
        Shortest distance, without sign; or arc gap, along the closing arc, negative where the casts
        overlap (see `gap_maps.ArcMap`).
    least_mm : ndarray, shape (v,)
        The least of all poses, bit for bit that of their maps. inf where no pose comes within the
        limit; of arc gaps, -inf where the overlap is deeper than the limit.
    pose : ndarray, shape (v,)
        The first pose in which it is so little; -1 where it is inf.
    """

    side: Side
    measure: Measure
    least_mm: Floats
    pose: Ints


@dataclass(frozen=True)
class Envelopes:
    """Both measures of both arches over the same poses.

    Attributes
    ----------
    distance_upper, distance_lower : Envelope
        Shortest distances, without sign.
    arc_gap_upper, arc_gap_lower : Envelope
        Along the closing arc, negative where the casts overlap.
    """

    distance_upper: Envelope
    distance_lower: Envelope
    arc_gap_upper: Envelope
    arc_gap_lower: Envelope


def envelope(
    pair: Pair,
    poses: Floats,
    limit_mm: float,
    side: Side,
    measure: Measure = Measure.DISTANCE,
    workers: Workers | None = None,
) -> Envelope:
    """Find how near every vertex of one arch comes to the other.

    Parameters
    ----------
    pair : Pair
        Both arches, prepared.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower as the lower stands (opening included).
    limit_mm : float
        Gap up to which is measured, 1e-6 to 1000 mm.
    side : Side
        Whose vertices; "upper" and "lower" do as well.
    measure : Measure, optional
        Shortest distance if not given; "shortest distance" and "arc gap" do as well.
    workers : Workers, optional
        Threads; one if not given.

    Returns
    -------
    Envelope
        The same bits for any number of threads and any order of triangles.

    Raises
    ------
    InputError
        Limit out of range; no such side or measure; poses of another shape, not finite or not
        rigid.
    """
    wanted = one_of(side, Side, "side"), one_of(measure, Measure, "measure")
    return _envelopes(pair, poses, limit_mm, (wanted,), workers)[0]


def envelopes(
    pair: Pair, poses: Floats, limit_mm: float, workers: Workers | None = None
) -> Envelopes:
    """Find both least gaps of every vertex of both arches; see `envelope` for the parameters."""
    wanted = tuple((side, measure) for measure in Measure for side in Side)
    return Envelopes(*_envelopes(pair, poses, limit_mm, wanted, workers))


def _envelopes(
    pair: Pair,
    poses: Floats,
    limit_mm: float,
    wanted: tuple[tuple[Side, Measure], ...],
    workers: Workers | None,
) -> list[Envelope]:
    poses = rigid_poses(poses, "poses", (None, 4, 4))
    found = least_gaps(pair, poses, 1, limit_mm, wanted, True, workers)
    return [
        Envelope(side, measure, gaps.gap_mm[0], gaps.pose[0])
        for (side, measure), gaps in zip(wanted, found, strict=True)
    ]
