"""Polygons cut into triangles."""

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Ints


def fans(corners: Ints, counts: Ints) -> tuple[Ints, Ints]:
    """Cut every polygon into a fan of triangles from its first corner.

    Parameters
    ----------
    corners : ndarray, shape (k,)
        Vertex numbers of all polygons, one after another.
    counts : ndarray, shape (n,)
        How many corners each has, at least 3.

    Returns
    -------
    faces : ndarray, shape (m, 3)
        In the order of the polygons, wound as they are.
    polygon : ndarray, shape (m,)
        Which polygon every triangle is of.
    """
    triangles = counts - 2
    polygon = np.repeat(np.arange(len(counts)), triangles)
    first = np.repeat(np.cumsum(counts) - counts, triangles)
    step = np.arange(len(polygon)) - np.repeat(np.cumsum(triangles) - triangles, triangles)
    second = first + step + 1
    return corners[np.column_stack((first, second, second + 1))], polygon


def refuse_wrong_faces(corners: Ints, counts: Ints, vertices: int, path: str) -> None:
    """Raise an InputError for a face of fewer than 3 corners, or a corner that is no vertex."""
    few = np.flatnonzero(counts < 3)
    if len(few):
        raise InputError(
            f"{path}: face {few[0]} (counted from 0) has {counts[few[0]]} corners; wanted 3 or more"
        )
    wrong = np.flatnonzero((corners < 0) | (corners >= vertices))
    if len(wrong):
        face = np.searchsorted(np.cumsum(counts), wrong[0], side="right")
        raise InputError(
            f"{path}: face {face} (counted from 0) has corner {corners[wrong[0]]}, but there are "
            f"{vertices} vertices, counted from 0: the file is damaged, export it again"
        )
