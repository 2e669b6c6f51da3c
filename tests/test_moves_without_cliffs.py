"""Moves of a surface without cliffs: never higher, never steeper, as high as both allow."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from kinematics.teeth.moves_without_cliffs import ADDED_SLOPE, CUT_SLOPE, without_cliffs


def sheet(seed, size=9):
    """Return a seeded uneven sheet of triangles and wanted moves, among them spikes and pits."""
    random = np.random.default_rng(seed)
    across = np.arange(size) * 0.2
    x, y = (part.ravel() for part in np.meshgrid(across, across))
    vertices = np.stack([x, y, random.normal(0.0, 0.05, size * size)], axis=1)
    vertices[:, :2] += random.uniform(-0.05, 0.05, (size * size, 2))
    first = (np.arange(size - 1)[:, None] * size + np.arange(size - 1)).ravel()
    faces = np.concatenate(
        [
            np.stack([first, first + 1, first + size], axis=1),
            np.stack([first + 1, first + size + 1, first + size], axis=1),
        ]
    )
    moves = np.where(random.random(size * size) < 0.6, 0.0, random.normal(0.0, 0.6, size * size))
    return faces, vertices, moves


def edges_of(faces, vertices):
    """Return both ends and the length of every edge, both ways."""
    pairs = {tuple(sorted(p)) for f in faces for p in ((f[0], f[1]), (f[1], f[2]), (f[2], f[0]))}
    one, two = np.array(sorted(pairs)).T
    length = np.linalg.norm(vertices[one] - vertices[two], axis=1)
    return np.r_[one, two], np.r_[two, one], np.r_[length, length]


@given(st.integers(min_value=0, max_value=10_000))
def test_moves_are_lowered_to_the_slopes_and_no_farther(seed):
    """Against shortest ways over the mesh: built-up parts by the gentle, cut parts by the steep."""
    faces, vertices, wanted = sheet(seed)
    move = without_cliffs(faces, vertices, wanted)
    assert (move <= wanted).all()
    here, other, length = edges_of(faces, vertices)
    slope = np.where(move[other] < 0.0, CUT_SLOPE, ADDED_SLOPE)
    assert (move[here] <= move[other] + slope * length + 1e-12).all()
    size = len(wanted)
    ways = dijkstra(coo_array((length, (here, other)), shape=(size, size)).tocsr())
    # Nothing is lower than the gentlest of both slopes explains, from whatever place.
    least = (wanted[None, :] + min(ADDED_SLOPE, CUT_SLOPE) * ways).min(axis=1)
    assert (move >= least - 1e-9).all()
    np.testing.assert_array_equal(without_cliffs(faces, vertices, move), move)


@given(st.integers(min_value=0, max_value=1_000))
def test_the_order_of_triangles_does_not_matter(seed):
    """To the last bit."""
    faces, vertices, wanted = sheet(seed)
    order = np.random.default_rng(seed).permutation(len(faces))
    mixed = faces[order][:, [1, 2, 0]]
    np.testing.assert_array_equal(
        without_cliffs(faces, vertices, wanted), without_cliffs(mixed, vertices, wanted)
    )


def test_a_spike_becomes_a_gentle_hill_and_a_level_place_stays():
    """One vertex built up by 1 mm among still ones; a surface moved as a whole keeps its move."""
    faces, vertices, _ = sheet(0)
    wanted = np.zeros(len(vertices))
    wanted[40] = 1.0
    assert 0.0 < without_cliffs(faces, vertices, wanted)[40] < 0.2
    np.testing.assert_array_equal(without_cliffs(faces, vertices, np.full(81, 0.7)), 0.7)
    np.testing.assert_array_equal(without_cliffs(faces, vertices, np.full(81, -0.7)), -0.7)
