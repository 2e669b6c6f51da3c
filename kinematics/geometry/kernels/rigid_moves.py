"""Boxes and bounds of the nodes of a lower arch after a small rigid motion of the arch.

Nodes keep their triangles and directions. The bounds of a node follow from those it had and from
how the ball around its box moved, so that no triangle is visited and every node is done by itself.
What is lost is as small as the motion, times the ball's share of its distance from the axis.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel
from kinematics.geometry.kernels.short_rows import put_bounds, put_box
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

#: More than rounding can do to a difference of places, mm.
_ROUNDING = 1e-12


@kernel
def move_nodes(slab, around, move, first, last, short_slab, short_around):
    """Write boxes (k, 15) and bounds about the hinge axis (k, 8) of some nodes after a motion.

    slab, around: before it. move: (4, 4).
    """
    turn = 0.0
    for i in range(3):
        for j in range(3):
            turn += (move[i, j] - (1.0 if i == j else 0.0)) ** 2
    turn = math.sqrt(turn)  # at least how much farther than the middle a point 1 mm off it moves
    to_x, to_y, to_z = _row(move, 0), _row(move, 1), _row(move, 2)
    box, row = np.empty(15), np.empty(8)
    for node in range(first, last):
        for column in (MIDDLE, AXES, AXES + 3, AXES + 6):
            x, y, z = slab[node, column], slab[node, column + 1], slab[node, column + 2]
            box[column] = to_x[0] * x + to_x[1] * y + to_x[2] * z
            box[column + 1] = to_y[0] * x + to_y[1] * y + to_y[2] * z
            box[column + 2] = to_z[0] * x + to_z[1] * y + to_z[2] * z
        box[MIDDLE] += to_x[3]
        box[MIDDLE + 1] += to_y[3]
        box[MIDDLE + 2] += to_z[3]
        size2 = 0.0
        for k in range(SIDES, AXES):
            side = np.float64(slab[node, k])
            box[k] = side
            size2 += side * side
        put_box(box, short_slab, node)
        _move_bounds(slab, around, node, box, math.sqrt(size2), turn, row)
        put_bounds(row, short_around, node)


@inner_kernel
def _row(move, i):
    """One row of a motion, kept where nothing that is written can touch it."""
    return move[i, 0], move[i, 1], move[i, 2], move[i, 3]


@inner_kernel
def _move_bounds(slab, around, node, box, size, turn, row):
    """Write the bounds of a node whose box, of this half diagonal, has moved to a new place."""
    x, z = np.float64(slab[node, MIDDLE]), np.float64(slab[node, MIDDLE + 2])
    dx, ds, dz = box[MIDDLE] - x, box[MIDDLE + 1] - slab[node, MIDDLE + 1], box[MIDDLE + 2] - z
    # Directions of a box are rounded, so that a corner may lie a little beyond its half diagonal.
    size *= 1.0 + 1e-6
    beside = turn * size + _ROUNDING
    farthest = math.sqrt(dx * dx + ds * ds + dz * dz) + beside
    for k in range(8):
        row[k] = around[node, k]
    row[S_LEAST] += ds - beside
    row[S_MOST] += ds + beside
    r = math.sqrt(x * x + z * z)
    nearest = r - size - farthest
    reach = size + farthest
    if nearest <= 0.0 or (x < reach and abs(z) <= reach):
        # About the axis, or perhaps across the half-plane behind it, where angles begin anew.
        row[R_LEAST] = max(0.0, row[R_LEAST] - farthest)
        row[R_MOST] += farthest
        row[ANGLE], row[PLANE] = -math.pi, -np.inf
        return
    # What the middle changes by, and by how much a point of the ball can differ from that: its
    # distance from the middle times how steeply the change differs from place to place.
    dr = math.sqrt((x + dx) ** 2 + (z + dz) ** 2) - r
    off_r = size * (farthest / nearest + turn) + _ROUNDING
    turned, off_turned = _turned(x, z, dx, dz)
    off_turned += size * (farthest / nearest + turn) / nearest + _ROUNDING
    row[R_LEAST] = max(0.0, row[R_LEAST] + dr - off_r)
    row[R_MOST] += dr + off_r
    row[ANGLE] += turned - off_turned
    level = abs(row[SLOPE_S]) * beside + abs(row[SLOPE_R]) * off_r + off_turned
    row[PLANE] += turned - row[SLOPE_S] * ds - row[SLOPE_R] * dr - level


@inner_kernel
def _turned(x, z, dx, dz):
    """Return the angle about the axis of a step from a place, and how far off that may be."""
    across = z * dx - x * dz  # angles grow downwards ahead of the axis
    along = x * (x + dx) + z * (z + dz)
    tangent = across / along
    if along > 0.0 and abs(tangent) < 0.1:  # two terms of a series, and less than the third
        return tangent - tangent**3 / 3.0, abs(tangent) ** 5
    return math.atan2(across, along), 0.0
