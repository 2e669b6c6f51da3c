"""Which triangles may be near: never one too few, against the distance of every pair."""

import numpy as np
import pytest

from kinematics.geometry.kernels.triangle_blocks import near_lanes, no_blocks, place_of, small
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.trees import tree_over
from tests.slow_but_obvious import triangle_distances

TRIALS = 150
AHEAD = np.array([60.0, 5.0, -30.0])


def _triangles(rng, kind, count):
    """Return triangles (n, 3, 3) about the origin, some 1 mm across."""
    corners = rng.normal(scale=0.4, size=(count, 3, 3))
    if kind == "flat":
        corners[:, :, 2] *= 1e-3
    elif kind == "needles":
        corners[:, 2] = corners[:, 0] + (corners[:, 1] - corners[:, 0]) * rng.random((count, 1))
        corners[:, 2] += rng.normal(scale=1e-7, size=(count, 3))
    elif kind == "segments":
        corners[:, 2] = corners[:, 1]
    elif kind == "points":
        corners[:, 1:] = corners[:, :1]
    elif kind == "specks":
        corners = corners[:, :1] + 1e-11 * (corners - corners[:, :1])
    return corners


KINDS = ("any", "flat", "needles", "segments", "points", "specks")


def _near(lower, upper, tolerance_mm):
    """Return which lower triangles (bool) may be near an upper one, and their corners (n, 3, 3)."""
    faces = np.arange(3 * len(lower)).reshape(-1, 3)
    tree = tree_over(mesh_of(lower.reshape(-1, 3), faces), np.zeros(len(lower), int), 1.0, True)
    assert small(tree.arrays.links, 0)
    blocks = no_blocks()
    place = place_of(blocks, tree.arrays, 0)
    p, q, r = (tuple(float(x) for x in corner) for corner in upper)
    bits = near_lanes(blocks, place, p, q, r, tolerance_mm)
    corners = tree.arrays.vertices[tree.arrays.faces]
    return np.array([bits >> k & 1 for k in range(len(lower))], dtype=bool), corners


@pytest.mark.parametrize("scale", [1e-3, 1.0, 1e3])
@pytest.mark.parametrize("kind", KINDS)
def test_no_pair_within_the_tolerance_is_missed(kind, scale):
    """Whatever lies within the tolerance may be near; of what does not, most is told apart."""
    rng = np.random.default_rng(KINDS.index(kind))
    apart = told = within = 0
    for trial in range(TRIALS):
        lower = _triangles(rng, kind, 1 + trial % 8)
        upper = _triangles(rng, KINDS[trial % len(KINDS)], 1)[0]
        lower, upper = (
            lower * scale + AHEAD,
            (upper + rng.normal(scale=0.5, size=3)) * scale + AHEAD,
        )
        distances = triangle_distances(np.broadcast_to(upper, lower.shape), lower)
        # The tolerance of half the trials is just what one of the pairs is apart.
        tolerance_mm = 0.05 * scale if trial % 2 else float(distances[0])
        near, corners = _near(lower, upper, tolerance_mm)
        distances = triangle_distances(np.broadcast_to(upper, lower.shape), corners)
        assert near[distances <= tolerance_mm].all()
        within += (distances <= tolerance_mm).sum()
        apart += (distances > tolerance_mm).sum()
        told += (~near).sum()
    assert within > TRIALS / 4
    assert told > 0.7 * apart


def test_the_same_place_serves_one_node_after_another():
    """A node whose number leads to a place that is taken is written anew."""
    rng = np.random.default_rng(3)
    corners = (rng.normal(size=(6000, 1, 3)) * 10 + rng.normal(size=(6000, 3, 3)) * 0.1) + AHEAD
    mesh = mesh_of(corners.reshape(-1, 3), np.arange(18000).reshape(-1, 3))
    arrays = tree_over(mesh, np.zeros(6000, int), 1.0, True).arrays
    blocks = no_blocks()
    nodes = [n for n in range(len(arrays.links)) if small(arrays.links, n)]
    rng.shuffle(nodes)
    shared = 0
    for node in nodes:
        place = (node >> 3) % len(blocks.node)
        shared += blocks.node[place] >= 0
        assert place_of(blocks, arrays, node) == place
        first = arrays.links[node, 1]
        a, b, c = (tuple(x) for x in arrays.vertices[arrays.faces[first]].tolist())
        assert near_lanes(blocks, place, a, b, c, 0.0) & 1
    assert shared > len(nodes) / 2
