"""Boxes and bounds of all nodes of a lower arch after a small rigid motion of the arch.

Nodes keep their triangles and directions. What holds for every triangle is told anew for leaves
and joined upwards; how far a joint plane goes down is bounded by how far its vertices moved, which
for a small motion loses next to nothing and visits no triangle more than once.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel
from kinematics.geometry.kernels.node_bounds import face_around, put_both
from kinematics.geometry.kernels.short_rows import put_bounds, put_box
from kinematics.geometry.kernels.tree_arrays import (
    AXES,
    MIDDLE,
    PLANE,
    R_LEAST,
    RIGHT,
    SIDES,
    SLOPE_R,
    SLOPE_S,
    START,
)

#: Columns of what vertices of a node changed by: least of the angle, s least and most, r likewise.
_TURNED, _S_LEAST, _S_MOST, _R_LEAST, _R_MOST = range(5)


@kernel
def move_boxes(slab, move, short):
    """Write the oriented boxes (k, 15) of all nodes after a motion (4, 4)."""
    row = np.empty(15)
    for node in range(slab.shape[0]):
        for first in (MIDDLE, AXES, AXES + 3, AXES + 6):
            x, y, z = slab[node, first], slab[node, first + 1], slab[node, first + 2]
            for i in range(3):
                row[first + i] = move[i, 0] * x + move[i, 1] * y + move[i, 2] * z
        for i in range(3):
            row[MIDDLE + i] += move[i, 3]
            row[SIDES + i] = slab[node, SIDES + i]
        put_box(row, short, node)


@kernel
def move_bounds(vertices, vertex_around, faces, links, old_vertex_around, old, short):
    """Write the bounds about the hinge axis (k, 8) of all nodes after a motion.

    vertices, vertex_around: (v, 3) after it. old_vertex_around: (v, 3), old: (k, 8) before it.
    """
    nodes = links.shape[0]
    around, change = np.empty((nodes, 8)), np.empty((nodes, 5))
    longest, behind = np.empty(nodes), np.empty(nodes, np.bool_)
    moved = np.empty((vertices.shape[0], 3))
    for v in range(vertices.shape[0]):
        moved[v, 0] = vertex_around[v, 0] - old_vertex_around[v, 0]
        moved[v, 1] = math.sqrt(vertex_around[v, 1]) - math.sqrt(old_vertex_around[v, 1])
        moved[v, 2] = vertex_around[v, 2] - old_vertex_around[v, 2]
    face = np.empty(7)
    for node in range(nodes - 1, -1, -1):  # children before their parents
        right = links[node, RIGHT]
        if right == 0:
            f = links[node, START]
            face_around(vertices, vertex_around, faces, f, face)
            for k in range(5):
                around[node, k] = face[k]
            longest[node], behind[node] = face[6], face[5] - face[4] > 3.0
            _put_change(change, node, moved, faces, f)
        else:
            put_both(around, node, node + 1, right)
            longest[node] = max(longest[node + 1], longest[right])
            behind[node] = behind[node + 1] or behind[right]
            _put_both_changes(change, node, node + 1, right)
        slope_s, slope_r = np.float64(old[node, SLOPE_S]), np.float64(old[node, SLOPE_R])
        around[node, SLOPE_S], around[node, SLOPE_R] = slope_s, slope_r
        least = around[node, R_LEAST]
        if least <= 0.0 or behind[node]:
            around[node, PLANE] = -np.inf
        else:
            down = change[node, _TURNED]
            down -= max(slope_s * change[node, _S_LEAST], slope_s * change[node, _S_MOST])
            down -= max(slope_r * change[node, _R_LEAST], slope_r * change[node, _R_MOST])
            # Between the corners as in `bound_around`.
            bend = longest[node] / 6.0 * (1.0 / least**2 + abs(slope_r) / least)
            around[node, PLANE] = old[node, PLANE] + down - bend
        put_bounds(around[node], short, node)


@inner_kernel
def _put_change(change, node, moved, faces, f):
    """Write by how much the corners of one triangle changed."""
    a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
    change[node, _TURNED] = min(moved[a, 2], moved[b, 2], moved[c, 2])
    change[node, _S_LEAST] = min(moved[a, 0], moved[b, 0], moved[c, 0])
    change[node, _S_MOST] = max(moved[a, 0], moved[b, 0], moved[c, 0])
    change[node, _R_LEAST] = min(moved[a, 1], moved[b, 1], moved[c, 1])
    change[node, _R_MOST] = max(moved[a, 1], moved[b, 1], moved[c, 1])


@inner_kernel
def _put_both_changes(change, node, left, right):
    """Write what holds for the vertices of two children."""
    for k in (_TURNED, _S_LEAST, _R_LEAST):
        change[node, k] = min(change[left, k], change[right, k])
    for k in (_S_MOST, _R_MOST):
        change[node, k] = max(change[left, k], change[right, k])
