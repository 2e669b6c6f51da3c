"""Which triangles lie within a tolerance of the other arch, for eight poses at a time.

A pair of nodes all of whose triangles are known to be near something is not looked into further:
so the work grows with the triangles that are near, not with their pairs.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel
from kinematics.geometry.kernels.lanes import ALL, WIDTH, greater, load, not_below, size, spread
from kinematics.geometry.kernels.moved_nodes import begin_rows, row_of
from kinematics.geometry.kernels.near_triangles import lanes_within, span_of
from kinematics.geometry.kernels.placing import lane_pose, write_lanes
from kinematics.geometry.kernels.point_distance import reach_squared
from kinematics.geometry.kernels.tree_arrays import AXES, MIDDLE, RIGHT, SIDES, STACK, START
from kinematics.geometry.kernels.triangle_lanes import triangles_squared_lanes, write_pair
from kinematics.geometry.kernels.vectors import three
from kinematics.geometry.kernels.watching import count_some, told_to_stop

#: Nodes whose boxes have a half diagonal of more than so many tolerances are not held against them.
SMALL = 3.0


@inner_kernel
def _measure(up, lo, asked, count, tolerance, done_u, done_l, corners, out):
    """Measure up to eight pairs of leaves, and note those within the tolerance.

    asked: (8, 3) upper leaf, lower leaf, lane. What is left of the lanes of corners is old.
    """
    triangles_squared_lanes(corners, out)
    for k in range(count):
        if out[0, k] <= tolerance * tolerance:
            bit = np.uint8(1 << asked[k, 2])
            done_u[asked[k, 0]] |= bit
            done_l[asked[k, 1]] |= bit


@inner_kernel
def _known(links, node, done):
    """Return the lanes in which all triangles of a node are known to be near something."""
    right = links[node, RIGHT]
    if right != 0:
        done[node] |= done[node + 1] & done[right]
    return np.int64(done[node])


@inner_kernel
def _moved(poses, i, x, y, z):
    """Return coordinate i of a point of the upper as the lower has it, in all lanes."""
    p, q = load(poses, 4 * i, 0) * spread(x), load(poses, 4 * i + 1, 0) * spread(y)
    return p + q + load(poses, 4 * i + 2, 0) * spread(z) + load(poses, 4 * i + 3, 0)


@inner_kernel
def _within_boxes(poses, up, lo, a, b, tolerance):
    """Lanes in which a ball about a small upper node may come near the box of a lower one.

    Where the tolerance is large this tells more than ranges along the axis and from it.
    """
    h = three(up.slab, a, SIDES)
    radius = math.sqrt(h[0] * h[0] + h[1] * h[1] + h[2] * h[2])
    if radius > SMALL * tolerance:
        return ALL
    x, y, z = three(up.slab, a, MIDDLE)
    middle, half = three(lo.slab, b, MIDDLE), three(lo.slab, b, SIDES)
    dx = _moved(poses, 0, x, y, z) - spread(middle[0])
    dy = _moved(poses, 1, x, y, z) - spread(middle[1])
    dz = _moved(poses, 2, x, y, z) - spread(middle[2])
    square = spread(0.0)
    for k in range(3):
        e = three(lo.slab, b, AXES + 3 * k)
        along = size(spread(e[0]) * dx + spread(e[1]) * dy + spread(e[2]) * dz)
        out = greater(along - spread(half[k]), spread(0.0))
        square = square + out * out
    reach = tolerance + radius
    return not_below(spread(reach_squared(reach * reach)), square)


@bare_kernel
def _search(up, lo, poses, wanted, where, state, bounds, tolerance, behind, done_u, done_l, stack,
            line, asked, corners, out):  # fmt: skip
    """Note for every leaf of both arches the lanes in which it is within the tolerance."""
    stack[0, 0], stack[0, 1], stack[0, 2] = 0, 0, wanted
    top, count = 1, 0
    span = spread(span_of(tolerance))
    while top > 0:
        top -= 1
        a, b, lanes = stack[top, 0], stack[top, 1], stack[top, 2]
        lanes &= ~(_known(up.links, a, done_u) & _known(lo.links, b, done_l))
        leaf_a, leaf_b = up.links[a, RIGHT] == 0, lo.links[b, RIGHT] == 0
        if leaf_a and leaf_b:
            for lane in range(WIDTH):
                if lanes >> lane & 1:
                    pose = lane_pose(poses, lane)
                    write_pair(up, lo, pose, up.links[a, START], lo.links[b, START], corners, count)
                    asked[count, 0], asked[count, 1], asked[count, 2] = a, b, lane
                    count += 1
                    if count == WIDTH:
                        _measure(up, lo, asked, count, tolerance, done_u, done_l, corners, out)
                        count = 0
            continue
        if lanes == 0:
            continue
        for i in range(1 if leaf_a else 2):
            u = a if leaf_a else (a + 1 if i == 0 else up.links[a, RIGHT])
            row = row_of(poses, up, u, where, state, bounds, line)
            for j in range(1 if leaf_b else 2):
                v = b if leaf_b else (b + 1 if j == 0 else lo.links[b, RIGHT])
                some = lanes_within(bounds, row, lo.around, v, span, tolerance, behind, lanes)
                if some != 0:
                    some &= _within_boxes(poses, up, lo, u, v, tolerance)
                if some != 0:
                    stack[top, 0], stack[top, 1], stack[top, 2] = u, v, some
                    top += 1
    _measure(up, lo, asked, count, tolerance, done_u, done_l, corners, out)


@inner_kernel
def _write(leaf, done, number, width, start, marks):
    """Mark the triangles of all lanes by their numbers in the mesh given."""
    for f in range(leaf.shape[0]):
        bits = np.int64(done[leaf[f]])
        if bits != 0:
            for lane in range(width):
                if bits >> lane & 1:
                    marks[start + lane, number[f]] = True


@kernel
def touching_faces(
    up, lo, poses, first, last, tolerance, behind, scratch, watch, number_u, number_l, upper, lower
):  # fmt: skip
    """Mark all triangles within the tolerance of the other arch in poses first to last.

    behind: the lower reaches behind the axis. number_u, number_l: (m,) number in the mesh given of
    every triangle of a tree. upper, lower: (n, m) False at first, marked by these numbers.
    """
    where, state, bounds = scratch
    stack, line = np.empty((STACK, 3), np.int64), np.empty((2, WIDTH))
    asked, lanes = np.empty((WIDTH, 3), np.int64), np.empty((12, WIDTH))
    corners, out = np.zeros((18, WIDTH)), np.empty((4, WIDTH))
    done_u, done_l = np.empty(up.links.shape[0], np.uint8), np.empty(lo.links.shape[0], np.uint8)
    for start in range(first, last, WIDTH):
        if told_to_stop(watch):
            return
        width = min(WIDTH, last - start)
        write_lanes(poses, start, width, lanes)
        begin_rows(where, state)
        done_u[:], done_l[:] = 0, 0
        _search(
            up, lo, lanes, (1 << width) - 1, where, state, bounds, tolerance, behind, done_u,
            done_l, stack, line, asked, corners, out,
        )  # fmt: skip
        _write(up.leaf, done_u, number_u, width, start, upper)
        _write(lo.leaf, done_l, number_l, width, start, lower)
        count_some(watch, width)
