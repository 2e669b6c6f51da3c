"""Shortest distances of whole teeth under many poses, in the lower's frame."""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel, small_kernel
from kinematics.geometry.kernels.features import move_vertex, point
from kinematics.geometry.kernels.triangle_distance import surely_apart, triangles_squared

STACK = 512
#: mm beyond the limit of a gap that a search looks.
REACH = 0.5


@small_kernel
def inverse_pose(pose, out):
    """Write lower_from_hinge (3, 4) of a rigid hinge_from_lower (4, 4)."""
    for i in range(3):
        for j in range(3):
            out[i, j] = pose[j, i]
        out[i, 3] = -(pose[0, i] * pose[0, 3] + pose[1, i] * pose[1, 3] + pose[2, i] * pose[2, 3])


@inner_kernel
def move_box(pose, up, node, stamps, stamp, bounds):
    """Bring the box of an upper node into the lower's frame, once a pose: centre, then axes."""
    if stamps[node] == stamp:
        return
    stamps[node] = stamp
    # Read first, written last: the compiler must otherwise fear that a store changes the pose.
    p00, p01, p02, p03 = pose[0, 0], pose[0, 1], pose[0, 2], pose[0, 3]
    p10, p11, p12, p13 = pose[1, 0], pose[1, 1], pose[1, 2], pose[1, 3]
    p20, p21, p22, p23 = pose[2, 0], pose[2, 1], pose[2, 2], pose[2, 3]
    x, y, z = up.slab_centre[node, 0], up.slab_centre[node, 1], up.slab_centre[node, 2]
    bounds[node, 0] = p00 * x + p01 * y + p02 * z + p03
    bounds[node, 1] = p10 * x + p11 * y + p12 * z + p13
    bounds[node, 2] = p20 * x + p21 * y + p22 * z + p23
    for k in range(3):
        x, y, z = up.axes[node, k, 0], up.axes[node, k, 1], up.axes[node, k, 2]
        bounds[node, 3 + 3 * k] = p00 * x + p01 * y + p02 * z
        bounds[node, 4 + 3 * k] = p10 * x + p11 * y + p12 * z
        bounds[node, 5 + 3 * k] = p20 * x + p21 * y + p22 * z


@inner_kernel
def _clamped(x, h):
    return min(h, max(-h, x))


@inner_kernel
def nodes_squared(box, up, lo, a, b):
    """Squared distance that the contents of two nodes have at least, by their oriented boxes.

    Points of both boxes are brought near each other in turn; whatever direction they end up in,
    the boxes' reach along it gives a bound that holds.
    """
    h, g = point(up.slab_half, a), point(lo.slab_half, b)
    dx = lo.slab_centre[b, 0] - box[a, 0]
    dy = lo.slab_centre[b, 1] - box[a, 1]
    dz = lo.slab_centre[b, 2] - box[a, 2]
    qx, qy, qz = dx, dy, dz  # a point of the lower box, from the centre of the upper one
    px = py = pz = 0.0
    for _ in range(2):
        e0 = _clamped(box[a, 3] * qx + box[a, 4] * qy + box[a, 5] * qz, h[0])
        e1 = _clamped(box[a, 6] * qx + box[a, 7] * qy + box[a, 8] * qz, h[1])
        e2 = _clamped(box[a, 9] * qx + box[a, 10] * qy + box[a, 11] * qz, h[2])
        px = e0 * box[a, 3] + e1 * box[a, 6] + e2 * box[a, 9]
        py = e0 * box[a, 4] + e1 * box[a, 7] + e2 * box[a, 10]
        pz = e0 * box[a, 5] + e1 * box[a, 8] + e2 * box[a, 11]
        wx, wy, wz = px - dx, py - dy, pz - dz
        f0 = _clamped(lo.axes[b, 0, 0] * wx + lo.axes[b, 0, 1] * wy + lo.axes[b, 0, 2] * wz, g[0])
        f1 = _clamped(lo.axes[b, 1, 0] * wx + lo.axes[b, 1, 1] * wy + lo.axes[b, 1, 2] * wz, g[1])
        f2 = _clamped(lo.axes[b, 2, 0] * wx + lo.axes[b, 2, 1] * wy + lo.axes[b, 2, 2] * wz, g[2])
        qx = dx + f0 * lo.axes[b, 0, 0] + f1 * lo.axes[b, 1, 0] + f2 * lo.axes[b, 2, 0]
        qy = dy + f0 * lo.axes[b, 0, 1] + f1 * lo.axes[b, 1, 1] + f2 * lo.axes[b, 2, 1]
        qz = dz + f0 * lo.axes[b, 0, 2] + f1 * lo.axes[b, 1, 2] + f2 * lo.axes[b, 2, 2]
    mx, my, mz = qx - px, qy - py, qz - pz
    square = mx * mx + my * my + mz * mz
    gap = mx * dx + my * dy + mz * dz
    for k in range(3):
        gap -= abs(mx * box[a, 3 + 3 * k] + my * box[a, 4 + 3 * k] + mz * box[a, 5 + 3 * k]) * h[k]
        gap -= abs(mx * lo.axes[b, k, 0] + my * lo.axes[b, k, 1] + mz * lo.axes[b, k, 2]) * g[k]
    if gap <= 0.0 or square == 0.0:
        return 0.0
    return max(0.0, gap * gap / square * (1.0 - 1e-12) - 1e-18)


@inner_kernel
def faces_squared(up, lo, iu, il, pose, stamp, vertex_stamps, moved, limit2, at, near):
    """Squared distance of an upper and a lower triangle of the trees under a pose."""
    for k in range(3):
        move_vertex(pose, up.vertices, up.faces[iu, k], vertex_stamps, stamp, moved)
    a0, b0 = point(moved, up.faces[iu, 0]), point(lo.vertices, lo.faces[il, 0])
    a1, b1 = point(moved, up.faces[iu, 1]), point(lo.vertices, lo.faces[il, 1])
    a2, b2 = point(moved, up.faces[iu, 2]), point(lo.vertices, lo.faces[il, 2])
    if surely_apart(a0, a1, a2, b0, b1, b2, limit2):
        return np.inf
    return triangles_squared(a0, a1, a2, b0, b1, b2, limit2, at, near)


@small_kernel
def _teeth_squared(up, lo, a, b, pose, stamp, scratch, best, ids, stack, least, at, near):
    """Least squared distance of the contents of two nodes, if below `best`; ids: its triangles."""
    node_stamps, bounds, vertex_stamps, moved = scratch
    move_box(pose, up, a, node_stamps, stamp, bounds)
    stack[0, 0], stack[0, 1] = a, b
    least[0] = nodes_squared(bounds, up, lo, a, b)
    top = 1
    while top > 0:
        top -= 1
        a, b = stack[top, 0], stack[top, 1]
        # Nodes that only tie are still opened, so that the least value found does not depend on
        # the order of the search.
        if least[top] > best * (1.0 + 1e-9) + 1e-18:
            continue
        leaf_a, leaf_b = up.right[a] == 0, lo.right[b] == 0
        if leaf_a and leaf_b:
            for iu in range(up.start[a], up.stop[a]):
                for il in range(lo.start[b], lo.stop[b]):
                    d = faces_squared(
                        up, lo, iu, il, pose, stamp, vertex_stamps, moved,
                        best * (1.0 + 1e-9) + 1e-18, at, near,
                    )  # fmt: skip
                    if d < best:
                        best = d
                        ids[0], ids[1] = iu, il
                        if d == 0.0:
                            return best
            continue
        # Both nodes are opened at once: fewer bounds than opening one after the other.
        bottom = top
        for i in range(1 if leaf_a else 2):
            u = a if leaf_a else (a + 1 if i == 0 else up.right[a])
            move_box(pose, up, u, node_stamps, stamp, bounds)
            for j in range(1 if leaf_b else 2):
                v = b if leaf_b else (b + 1 if j == 0 else lo.right[b])
                bound = nodes_squared(bounds, up, lo, u, v)
                if bound > best * (1.0 + 1e-9) + 1e-18:
                    continue
                place = top
                while place > bottom and least[place - 1] < bound:
                    stack[place, 0], stack[place, 1] = stack[place - 1, 0], stack[place - 1, 1]
                    least[place] = least[place - 1]
                    place -= 1
                stack[place, 0], stack[place, 1], least[place] = u, v, bound
                top += 1
    return best


@small_kernel
def _farthest_move(lo, node, before, after):
    """How far any content of a lower node moves between two poses: most at a corner of its box."""
    farthest = 0.0
    for corner in range(8):
        square = 0.0
        for i in range(3):
            moved = after[i, 3] - before[i, 3]
            for j in range(3):
                point_j = lo.slab_centre[node, j]
                for k in range(3):
                    sign = 1.0 if corner >> k & 1 else -1.0
                    point_j += sign * lo.slab_half[node, k] * lo.axes[node, k, j]
                moved += (after[i, j] - before[i, j]) * point_j
            square += moved * moved
        farthest = max(farthest, square)
    return math.sqrt(farthest) * (1.0 + 1e-9)


@kernel
def tooth_gaps(up, lo, poses, first, last, limit, scratch, gaps):
    """Shortest distance of every tooth pair, inf beyond the limit. gaps: (n, uppers, lowers).

    A search that finds nothing looks `REACH` beyond the limit, so that the pair need not be
    looked at again before the lower has moved that far.
    """
    uppers, lowers = up.tooth_root.shape[0], lo.tooth_root.shape[0]
    seeds = np.full((uppers, lowers, 2), -1, np.int64)
    surely = np.zeros((uppers, lowers))
    searched = np.full((uppers, lowers), -1, np.int64)
    pose = np.empty((3, 4))
    at, near = np.empty(3), np.empty(3)
    stack = np.empty((STACK, 2), np.int64)
    least = np.empty(STACK)
    ids = np.empty(2, np.int64)
    for n in range(first, last):
        inverse_pose(poses[n], pose)
        for i in range(uppers):
            for j in range(lowers):
                gaps[n, i, j] = np.inf
                past = searched[i, j]
                if past >= 0 and seeds[i, j, 0] < 0:
                    moved = _farthest_move(lo, lo.tooth_root[j], poses[past], poses[n])
                    if surely[i, j] - moved > limit:
                        continue
                ids[0], ids[1] = seeds[i, j, 0], seeds[i, j, 1]
                reach = limit + REACH
                best = reach * reach
                if ids[0] >= 0:
                    d = faces_squared(
                        up, lo, ids[0], ids[1], pose, n + 1, scratch[2], scratch[3],
                        np.inf, at, near,
                    )  # fmt: skip
                    best = min(best, d)
                best = _teeth_squared(
                    up, lo, up.tooth_root[i], lo.tooth_root[j], pose, n + 1, scratch,
                    best, ids, stack, least, at, near,
                )  # fmt: skip
                gap = math.sqrt(best)
                surely[i, j], searched[i, j] = gap * (1.0 - 1e-9), n
                if gap <= limit:
                    gaps[n, i, j] = gap
                    seeds[i, j, 0], seeds[i, j, 1] = ids[0], ids[1]
                else:
                    seeds[i, j, 0] = -1
