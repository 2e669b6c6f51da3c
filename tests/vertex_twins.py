"""Brute-force twins of maps, envelopes and flags: every vertex, or triangle, against all others.

They share no code with what they check.
"""

import numpy as np

from kinematics.contact.closure import close
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from tests.made_sheets import slightly_moved, soup
from tests.slow_but_obvious import distances_to_triangles, openings_at_touch, pairs_within

#: Turns an opening about the hinge axis into a closing.
UPSIDE_DOWN = np.array([1.0, 1.0, -1.0])


def scattered(seed, z, count):
    """Make an arch of loose triangles anywhere in a box: nothing lies where neighbours are."""
    rng = np.random.default_rng(seed)
    middles = rng.uniform([45.0, -20.0, z - 4.0], [80.0, 20.0, z + 4.0], (count, 1, 3))
    return soup(middles + rng.normal(0.0, 0.6, (count, 3, 3)))


def jaw_poses(pair, count, seed):
    """Return closed, then opened, then overlapping poses, `count` of each."""
    closed = slightly_moved(count, seed)
    closed = closed @ opening_rotation(close(pair, closed).opening_rad)
    opened, deeper = opening_rotation(0.012), opening_rotation(-0.02)
    return np.concatenate([closed, closed @ opened, closed @ deeper])


def _nearest(points, corners):
    """Return the distance of every point from the nearest of all triangles."""
    alike = (len(corners), 3)
    return np.array(
        [distances_to_triangles(np.broadcast_to(p, alike), corners).min() for p in points]
    )


def distances(upper, lower, pose, some=(slice(None), slice(None))):
    """Return shortest distances of some vertices of both arches."""
    placed = move_points(pose, lower.mesh.vertices)
    return (
        _nearest(upper.mesh.vertices[some[0]], placed[lower.mesh.faces]),
        _nearest(placed[some[1]], upper.mesh.corners),
    )


def _openings(points, corners):
    """Return the greatest opening at which each point meets triangles, some points at a time."""
    step = max(1, 1_000_000 // len(corners))
    parts = [points[i : i + step] for i in range(0, len(points), step)]
    return np.concatenate([openings_at_touch(part, corners) for part in parts])


def arc_gaps(upper, lower, pose, some=(slice(None), slice(None))):
    """Return arc gaps of some vertices of both arches, without limit; inf where nothing is met.

    An upper vertex that the lower reaches by opening is, upside down, a lower vertex that reaches
    the upper.
    """
    moved = move_points(inverse(pose), upper.mesh.vertices)
    above, below = moved[some[0]], lower.mesh.vertices[some[1]]
    up = _openings(above * UPSIDE_DOWN, lower.mesh.corners * UPSIDE_DOWN)
    down = _openings(below, moved[upper.mesh.faces])
    return tuple(
        np.where(np.isfinite(t), -t * np.hypot(p[:, 0], p[:, 2]), np.inf)
        for t, p in ((up, above), (down, below))
    )


def within(gaps, limit):
    """Return gaps as a map has them: beyond the limit they are infinite, either way."""
    return np.where(gaps > limit, np.inf, np.where(gaps < -limit, -np.inf, gaps))


def touching(upper, lower, pose, tolerance):
    """Return a flag for every triangle of both arches, from all pairs."""
    placed = move_points(pose, lower.mesh.vertices)[lower.mesh.faces]
    i, j, _ = pairs_within(upper.mesh.corners, placed, tolerance)
    flags = np.zeros(len(upper.mesh.faces), bool), np.zeros(len(placed), bool)
    flags[0][i], flags[1][j] = True, True
    return flags
