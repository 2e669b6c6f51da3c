"""Moves of a surface made gentle: where one vertex is cut or built up, its neighbours follow.

Moving every vertex to where it is wanted leaves spikes and ledges at the borders of what is moved.
Moves are therefore lowered, never raised, until none exceeds a neighbour's by more than a slope:
so nothing that was clear comes into the way.
"""

from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints

#: How much more a vertex may be built up than its neighbour, per mm between them: ridges of what
#: is added rise gently.
ADDED_SLOPE: Final = 1.0
#: How much less it may be cut than a neighbour that is cut: about as steep as the sides of cusps
#: stand to each other, so that only edges thinner than teeth have are taken off.
CUT_SLOPE: Final = 1.5


def without_cliffs(faces: Ints, vertices: Floats, move_mm: Floats) -> Floats:
    """Return moves lowered until no edge of the mesh is a cliff.

    Parameters
    ----------
    faces : ndarray, shape (m, 3)
        Triangles.
    vertices : ndarray, shape (v, 3)
        Where they stand, mm.
    move_mm : ndarray, shape (v,)
        How far every vertex is to be built up (+) or cut (-), mm.

    Returns
    -------
    ndarray, shape (v,)
        The greatest moves, none above the given one, that keep to both slopes; the same bits for
        any order of the triangles.
    """
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    edges = np.unique(np.sort(edges, axis=1), axis=0)
    length = np.linalg.norm(vertices[edges[:, 0]] - vertices[edges[:, 1]], axis=1)
    ends = ((edges[:, 0], edges[:, 1]), (edges[:, 1], edges[:, 0]))
    move = np.asarray(move_mm, dtype=np.float64)
    while True:
        lower = move.copy()
        for here, other in ends:
            slope = np.where(move[other] < 0.0, CUT_SLOPE, ADDED_SLOPE)
            np.minimum.at(lower, here, move[other] + slope * length)
        if np.array_equal(lower, move):
            return move
        move = lower
