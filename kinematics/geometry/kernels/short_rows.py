"""Bounds of nodes rounded to short floats, so that they hold what the long ones held."""

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel
from kinematics.geometry.kernels.moved_nodes import JOINT, SHORT
from kinematics.geometry.kernels.tree_arrays import (
    ANGLE,
    AXES,
    MIDDLE,
    PLANE,
    R_LEAST,
    R_MOST,
    S_LEAST,
    S_MOST,
    SIDES,
    SLOPE_R,
    SLOPE_S,
)

#: More than rounding middle, sides and directions can move a side, as a fraction of their sum.
_BOX = 4.0 * 2.0**-24


@kernel
def shorten_boxes(slab, short):
    """Write oriented boxes (k, 15), their sides grown by all that rounding can do."""
    for node in range(slab.shape[0]):
        put_box(slab[node], short, node)


@kernel
def shorten_bounds(around, short):
    """Write bounds about the hinge axis (k, 8), each rounded to its safe side."""
    for node in range(around.shape[0]):
        put_bounds(around[node], short, node)


@inner_kernel
def put_box(row, short, node):
    """Write one oriented box; see `shorten_boxes`."""
    total = 0.0
    for k in range(MIDDLE, AXES):
        total += abs(row[k])
    for k in range(row.shape[0]):
        short[node, k] = np.float32(row[k])
    for k in range(SIDES, AXES):
        short[node, k] = np.float32((row[k] + _BOX * total) * (1.0 + SHORT))


@inner_kernel
def put_bounds(row, short, node):
    """Write the bounds of one node; see `shorten_bounds`."""
    joint = abs(row[PLANE])
    joint += abs(row[SLOPE_S]) * max(abs(row[S_LEAST]), abs(row[S_MOST]))
    joint += abs(row[SLOPE_R]) * row[R_MOST]
    for k in (S_LEAST, R_LEAST, ANGLE):
        short[node, k] = np.float32(row[k] - SHORT * abs(row[k]))
    for k in (S_MOST, R_MOST):
        short[node, k] = np.float32(row[k] + SHORT * abs(row[k]))
    short[node, PLANE] = np.float32(row[PLANE] - JOINT * joint)
    short[node, SLOPE_S] = np.float32(row[SLOPE_S])
    short[node, SLOPE_R] = np.float32(row[SLOPE_R])
