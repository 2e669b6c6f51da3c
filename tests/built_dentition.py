"""Built-in dentitions that several test modules look at, made once a process, and how they meet."""

from functools import cache

import numpy as np
import trimesh
from scipy.spatial import KDTree

from kinematics.casts.casts import carried
from kinematics.contact.closure import close
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.conventions import TOLERANCES
from kinematics.geometry.poses import inverse
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_posterior

OVER_ERUPTED = {"over_erupted_mm": {46: 1.2}, "replacements": (15, 16, 17)}
STOP_UM = 1000.0 * TOLERANCES.stop_mm


@cache
def plain():
    """Return the plain dentition at the default resolution."""
    return build(DentitionSettings())


@cache
def erupted():
    """Return the dentition with tooth 46 over-erupted and 15 to 17 set up against it."""
    return build(DentitionSettings(**OVER_ERUPTED))


@cache
def coarse():
    """Return the plain dentition with few triangles."""
    return build(DentitionSettings(triangles_per_arch=12_000))


def first_gaps_um(dentition, pairs=None, pose=None):
    """Return the arc gap of the first contact in MI, or of given tooth pairs, micrometres."""
    pose = np.eye(4) if pose is None else pose
    lower = carried(dentition.lower, inverse(pose))
    pair = prepare(dentition.upper, lower)
    if pairs is None:
        met = close(pair, pose[None])
        return -1000.0 * met.opening_rad[0] * met.radius_mm[0]
    gaps = {}
    for upper_code, lower_code in pairs:
        met = close(
            pair,
            pose[None],
            LeaveOut(
                frozenset(dentition.upper.codes) - {upper_code},
                frozenset(dentition.lower.codes) - {lower_code},
            ),
        )
        gaps[upper_code, lower_code] = -1000.0 * met.opening_rad[0] * met.radius_mm[0]
    return gaps


def check_stops(dentition, pose=None):
    """Demand 8 even stops a side, one a posterior pair, nothing deeper, all confirmed by closure.

    The closure on whole arches knows nothing of cusp regions: it confirms every pair of teeth
    that the table names.
    """
    assert abs(first_gaps_um(dentition, pose=pose)) <= STOP_UM
    pairs = {(stop.upper_tooth, stop.lower_tooth) for stop in dentition.stops}
    for gap in first_gaps_um(dentition, sorted(pairs), pose).values():
        assert -0.5 <= gap <= STOP_UM
    for upper_quadrant, lower_quadrant in ((1, 4), (2, 3)):
        side = [stop for stop in dentition.stops if stop.upper_tooth // 10 == upper_quadrant]
        assert len(side) >= 8
        for stop in side:
            assert is_posterior(stop.upper_tooth) and is_posterior(stop.lower_tooth)
            assert 0.0 <= stop.arc_gap_um <= STOP_UM
        for number in (4, 5, 6, 7):
            assert (10 * upper_quadrant + number, 10 * lower_quadrant + number) in pairs
        points = np.array([stop.point for stop in side])
        apart = np.linalg.norm(points[:, None] - points, axis=2) + 9.0 * np.eye(len(points))
        assert apart.min() > 0.3, "every stop is a patch of its own"


def turns_around(points, corners):
    """Return how often a closed surface winds around each point: 1 inside, 0 outside."""
    a, b, c = (corners[None, :, k] - points[:, None] for k in range(3))
    la, lb, lc = (np.linalg.norm(v, axis=2) for v in (a, b, c))
    volume = np.einsum("ijk,ijk->ij", a, np.cross(b, c))
    below = (
        la * lb * lc
        + np.einsum("ijk,ijk->ij", a, b) * lc
        + np.einsum("ijk,ijk->ij", b, c) * la
        + np.einsum("ijk,ijk->ij", c, a) * lb
    )
    return np.arctan2(volume, below).sum(axis=1) / (2.0 * np.pi)


def gap_mm(arch, code, neighbour):
    """Return the least distance of a tooth's vertices to its neighbour, negative inside it, mm."""
    corners = arch.mesh.corners[arch.tooth_of_face == neighbour]
    points = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == code])]
    distance, near = KDTree(corners.mean(axis=1)).query(points, k=16)
    chosen = distance[:, 0] < max(0.8, distance[:, 0].min() + 0.1)
    points, near = points[chosen], near[chosen]
    spread = np.repeat(points, near.shape[1], axis=0)
    nearest = trimesh.triangles.closest_point(corners[near.ravel()], spread)
    away = np.linalg.norm(spread - nearest, axis=1).reshape(near.shape).min(axis=1)
    # Only what is very near can be inside by little; deeper parts are inside with it.
    close_by = away < 0.25
    if close_by.any():
        inside = turns_around(points[close_by], corners) > 0.5
        away[close_by] *= np.where(inside, -1.0, 1.0)
    return float(away.min())
