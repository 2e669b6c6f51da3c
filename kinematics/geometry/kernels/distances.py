"""Shortest distances of triangles, and of whole teeth, under many poses. Lower's frame."""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel, small_kernel
from kinematics.geometry.kernels.first_contact import move_vertex, point

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


@small_kernel
def _segments(p, q, u, v, at):
    """Squared distance of segments p-q and u-v; at: nearest point of the first."""
    d1x, d1y, d1z = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    d2x, d2y, d2z = v[0] - u[0], v[1] - u[1], v[2] - u[2]
    rx, ry, rz = p[0] - u[0], p[1] - u[1], p[2] - u[2]
    a = d1x * d1x + d1y * d1y + d1z * d1z
    e = d2x * d2x + d2y * d2y + d2z * d2z
    f = d2x * rx + d2y * ry + d2z * rz
    c = d1x * rx + d1y * ry + d1z * rz
    s = t = 0.0
    if a == 0.0 and e == 0.0:
        pass
    elif a == 0.0:
        t = min(1.0, max(0.0, f / e))
    elif e == 0.0:
        s = min(1.0, max(0.0, -c / a))
    else:
        b = d1x * d2x + d1y * d2y + d1z * d2z
        det = a * e - b * b
        if det > 1e-14 * a * e:
            s = min(1.0, max(0.0, (b * f - c * e) / det))
        t = (b * s + f) / e
        if t < 0.0:
            t = 0.0
            s = min(1.0, max(0.0, -c / a))
        elif t > 1.0:
            t = 1.0
            s = min(1.0, max(0.0, (b - c) / a))
    at[0], at[1], at[2] = p[0] + s * d1x, p[1] + s * d1y, p[2] + s * d1z
    wx, wy, wz = rx + s * d1x - t * d2x, ry + s * d1y - t * d2y, rz + s * d1z - t * d2z
    return wx * wx + wy * wy + wz * wz


@small_kernel
def _over_face(p, a, b, c, nx, ny, nz):
    """Tell whether a point stands over the inside of a triangle with normal n."""
    for k in range(3):
        if k == 0:
            u, v = a, b
        elif k == 1:
            u, v = b, c
        else:
            u, v = c, a
        ex, ey, ez = v[0] - u[0], v[1] - u[1], v[2] - u[2]
        wx, wy, wz = p[0] - u[0], p[1] - u[1], p[2] - u[2]
        side = (ey * wz - ez * wy) * nx + (ez * wx - ex * wz) * ny + (ex * wy - ey * wx) * nz
        if side < 0.0:
            return False
    return True


@small_kernel
def _normal(a, b, c):
    ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    wx, wy, wz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    return uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx


@small_kernel
def _pierces(p, q, dp, dq, a, b, c, nx, ny, nz, at):
    """Tell whether the segment p-q passes through a triangle; dp, dq: heights over its plane."""
    if dp * dq > 0.0 or dp == dq:
        return False
    t = dp / (dp - dq)
    for k in range(3):
        at[k] = p[k] + t * (q[k] - p[k])
    return _over_face(at, a, b, c, nx, ny, nz)


@inner_kernel
def _surely_apart(a0, a1, a2, b0, b1, b2, limit2):
    """Tell whether two triangles are farther apart than a limit along the line of their middles.

    Far cheaper than the distance, and off by only side^2 / distance.
    """
    mx = (b0[0] + b1[0] + b2[0]) - (a0[0] + a1[0] + a2[0])
    my = (b0[1] + b1[1] + b2[1]) - (a0[1] + a1[1] + a2[1])
    mz = (b0[2] + b1[2] + b2[2]) - (a0[2] + a1[2] + a2[2])
    most = max(
        mx * a0[0] + my * a0[1] + mz * a0[2],
        mx * a1[0] + my * a1[1] + mz * a1[2],
        mx * a2[0] + my * a2[1] + mz * a2[2],
    )
    least = min(
        mx * b0[0] + my * b0[1] + mz * b0[2],
        mx * b1[0] + my * b1[1] + mz * b1[2],
        mx * b2[0] + my * b2[1] + mz * b2[2],
    )
    gap = least - most
    square = limit2 * (mx * mx + my * my + mz * mz)
    return gap > 0.0 and gap * gap > square * (1.0 + 1e-9)


@small_kernel
def triangles_squared(a0, a1, a2, b0, b1, b2, limit2, at, near):
    """Squared distance of two triangles, 0 where they intersect; inf if surely over the limit.

    at: (3,) scratch. near: nearest point of the first triangle.
    """
    nx, ny, nz = _normal(b0, b1, b2)
    mx, my, mz = _normal(a0, a1, a2)
    nn, mm = nx * nx + ny * ny + nz * nz, mx * mx + my * my + mz * mz
    best = np.inf
    d0 = nx * (a0[0] - b0[0]) + ny * (a0[1] - b0[1]) + nz * (a0[2] - b0[2])
    d1 = nx * (a1[0] - b0[0]) + ny * (a1[1] - b0[1]) + nz * (a1[2] - b0[2])
    d2 = nx * (a2[0] - b0[0]) + ny * (a2[1] - b0[1]) + nz * (a2[2] - b0[2])
    if (d0 > 0.0 and d1 > 0.0 and d2 > 0.0) or (d0 < 0.0 and d1 < 0.0 and d2 < 0.0):
        least = min(abs(d0), abs(d1), abs(d2))
        if least * least > limit2 * nn:
            return np.inf
    e0 = mx * (b0[0] - a0[0]) + my * (b0[1] - a0[1]) + mz * (b0[2] - a0[2])
    e1 = mx * (b1[0] - a0[0]) + my * (b1[1] - a0[1]) + mz * (b1[2] - a0[2])
    e2 = mx * (b2[0] - a0[0]) + my * (b2[1] - a0[1]) + mz * (b2[2] - a0[2])
    if (e0 > 0.0 and e1 > 0.0 and e2 > 0.0) or (e0 < 0.0 and e1 < 0.0 and e2 < 0.0):
        least = min(abs(e0), abs(e1), abs(e2))
        if least * least > limit2 * mm:
            return np.inf
    if nn > 0.0 and mm > 0.0:
        for k in range(3):
            if k == 0:
                p, q, dp, dq, u, v, eu, ev = a0, a1, d0, d1, b0, b1, e0, e1
            elif k == 1:
                p, q, dp, dq, u, v, eu, ev = a1, a2, d1, d2, b1, b2, e1, e2
            else:
                p, q, dp, dq, u, v, eu, ev = a2, a0, d2, d0, b2, b0, e2, e0
            if _pierces(p, q, dp, dq, b0, b1, b2, nx, ny, nz, at) or _pierces(
                u, v, eu, ev, a0, a1, a2, mx, my, mz, at
            ):
                near[0], near[1], near[2] = at[0], at[1], at[2]
                return 0.0
    for k in range(3):
        if k == 0:
            p, d, u, e = a0, d0, b0, e0
        elif k == 1:
            p, d, u, e = a1, d1, b1, e1
        else:
            p, d, u, e = a2, d2, b2, e2
        if nn > 0.0 and d * d < best * nn and _over_face(p, b0, b1, b2, nx, ny, nz):
            best = d * d / nn
            near[0], near[1], near[2] = p[0], p[1], p[2]
        if mm > 0.0 and e * e < best * mm and _over_face(u, a0, a1, a2, mx, my, mz):
            best = e * e / mm
            scale = e / mm
            near[0], near[1], near[2] = u[0] - scale * mx, u[1] - scale * my, u[2] - scale * mz
    for i in range(3):
        p, q = (a0, a1) if i == 0 else ((a1, a2) if i == 1 else (a2, a0))
        for j in range(3):
            u, v = (b0, b1) if j == 0 else ((b1, b2) if j == 1 else (b2, b0))
            d = _segments(p, q, u, v, at)
            if d < best:
                best = d
                near[0], near[1], near[2] = at[0], at[1], at[2]
    return best


@inner_kernel
def faces_squared(up, lo, iu, il, pose, stamp, vertex_stamps, moved, limit2, at, near):
    """Squared distance of an upper and a lower triangle of the trees under a pose."""
    for k in range(3):
        move_vertex(pose, up.vertices, up.faces[iu, k], vertex_stamps, stamp, moved)
    a0, b0 = point(moved, up.faces[iu, 0]), point(lo.vertices, lo.faces[il, 0])
    a1, b1 = point(moved, up.faces[iu, 1]), point(lo.vertices, lo.faces[il, 1])
    a2, b2 = point(moved, up.faces[iu, 2]), point(lo.vertices, lo.faces[il, 2])
    if _surely_apart(a0, a1, a2, b0, b1, b2, limit2):
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
