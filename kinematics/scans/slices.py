"""Slices across a crown: the lines in which a plane at right angles to the arch meets it."""

import numpy as np

from kinematics.conventions import Bools, Floats, Ints


def slice_of(seen: Floats, faces: Ints, ahead: float) -> Floats:
    """Return the lines in which a slice across a crown meets its triangles.

    Parameters
    ----------
    seen : ndarray, shape (n, 3)
        Vertices along mesial, outward and up, mm.
    faces : ndarray, shape (m, 3)
        Triangles.
    ahead : float
        How far mesial the slice lies, mm.

    Returns
    -------
    ndarray, shape (k, 2, 2)
        Both ends of every line, outward and up, mm.
    """
    corners = seen[faces]
    beyond: Bools = corners[:, :, 0] > ahead
    lone = beyond.sum(axis=1)
    cut = (lone == 1) | (lone == 2)
    corners, beyond, lone = corners[cut], beyond[cut], lone[cut]
    apex = np.argmax(beyond == (lone == 1)[:, None], axis=1)
    row = np.arange(len(corners))
    start = corners[row, apex]
    ends = []
    for step in (1, 2):
        other = corners[row, (apex + step) % 3]
        share = (ahead - start[:, 0]) / (other[:, 0] - start[:, 0])
        ends.append(start[:, 1:] + share[:, None] * (other[:, 1:] - start[:, 1:]))
    return np.stack(ends, axis=1)


def places_at(ends: Floats, level: float) -> Floats:
    """Return how far outward (k,) lines (n, 2, 2) of a slice pass a level, mm."""
    over = ends[..., 1] > level
    passing = ends[over[:, 0] != over[:, 1]]
    rise = passing[:, 1, 1] - passing[:, 0, 1]
    share = (level - passing[:, 0, 1]) / rise
    return np.asarray(passing[:, 0, 0] + share * (passing[:, 1, 0] - passing[:, 0, 0]))
