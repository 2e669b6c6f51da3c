"""Vectors as tuples of three, of numbers or of lanes: no arrays, whose references are counted."""

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel


@inner_kernel
def point(array, i):
    """Return a row as a tuple of three: no array view, whose reference all threads would count."""
    return array[i, 0], array[i, 1], array[i, 2]


@inner_kernel
def three(rows, i, first):
    """Return three neighbours in a row as a tuple of long floats, however they are stored."""
    return (
        np.float64(rows[i, first]),
        np.float64(rows[i, first + 1]),
        np.float64(rows[i, first + 2]),
    )


@inner_kernel
def minus(u, v):
    """Return the difference of two vectors."""
    return u[0] - v[0], u[1] - v[1], u[2] - v[2]


@inner_kernel
def dot(u, v):
    """Return the inner product of two vectors."""
    return u[0] * v[0] + u[1] * v[1] + u[2] * v[2]


@inner_kernel
def cross(u, v):
    """Return the vector square to two vectors."""
    return u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]
