"""Contact patches: triangle pairs within a tolerance, joined where they share upper vertices."""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import kernel, small_kernel
from kinematics.geometry.kernels.distances import (
    STACK,
    boxes_apart,
    faces_squared,
    inverse_pose,
    move_box,
)
from kinematics.geometry.kernels.features import point, touch_faces
from kinematics.geometry.kernels.tree_arrays import RIGHT, START, STOP
from kinematics.geometry.kernels.watching import count_some, told_to_stop

#: Columns of a patch row: pose, upper tooth, lower tooth, centroid, normal, area, gap, arc gap.
ROW = 12


@small_kernel
def _grown(array, used):
    """Return the array, twice as long once it is full."""
    if used < array.shape[0]:
        return array
    longer = np.empty((2 * array.shape[0], array.shape[1]), array.dtype)
    longer[:used] = array[:used]
    return longer


@small_kernel
def _near_pairs(up, lo, i, j, pose, stamp, scratch, tolerance, stack, count, pairs, gaps, at, near):
    """Add all triangle pairs of two teeth within the tolerance: indices, and gap with its place."""
    node_stamps, bounds, vertex_stamps, moved = scratch
    limit = tolerance * tolerance
    stack[0, 0], stack[0, 1] = up.tooth_root[i], lo.tooth_root[j]
    move_box(pose, up, stack[0, 0], node_stamps, stamp, bounds)
    top = 1
    while top > 0:
        top -= 1
        a, b = stack[top, 0], stack[top, 1]
        if boxes_apart(bounds, up, lo, a, b)[0] > tolerance + 1e-9:
            continue
        leaf_a, leaf_b = up.links[a, RIGHT] == 0, lo.links[b, RIGHT] == 0
        if leaf_a and leaf_b:
            for iu in range(up.links[a, START], up.links[a, STOP]):
                for il in range(lo.links[b, START], lo.links[b, STOP]):
                    d = faces_squared(
                        up, lo, iu, il, pose, stamp, vertex_stamps, moved, limit, at, near
                    )
                    if d <= limit:
                        pairs, gaps = _grown(pairs, count), _grown(gaps, count)
                        pairs[count, 0], pairs[count, 1] = iu, il
                        gaps[count, 0] = math.sqrt(d)
                        gaps[count, 1], gaps[count, 2], gaps[count, 3] = near[0], near[1], near[2]
                        count += 1
            continue
        if leaf_b or (
            not leaf_a
            and up.links[a, STOP] - up.links[a, START] >= lo.links[b, STOP] - lo.links[b, START]
        ):
            a0, a1, b0, b1 = a + 1, up.links[a, RIGHT], b, b
            move_box(pose, up, a0, node_stamps, stamp, bounds)
            move_box(pose, up, a1, node_stamps, stamp, bounds)
        else:
            a0, a1, b0, b1 = a, a, b + 1, lo.links[b, RIGHT]
        stack[top, 0], stack[top, 1] = a0, b0
        stack[top + 1, 0], stack[top + 1, 1] = a1, b1
        top += 2
    return count, pairs, gaps


@small_kernel
def _clip(points, n, nx, ny, nz, d, out):
    """Cut a convex polygon to n . p <= d; return the number of corners left in `out`."""
    count = 0
    for i in range(n):
        p, q = point(points, i), point(points, (i + 1) % n)
        hp = nx * p[0] + ny * p[1] + nz * p[2] - d
        hq = nx * q[0] + ny * q[1] + nz * q[2] - d
        if hp <= 0.0:
            for k in range(3):
                out[count, k] = p[k]
            count += 1
        if (hp < 0.0 and hq > 0.0) or (hp > 0.0 and hq < 0.0):
            t = hp / (hp - hq)
            for k in range(3):
                out[count, k] = p[k] + t * (q[k] - p[k])
            count += 1
    return count


@small_kernel
def _shared_area(u0, u1, u2, l0, l1, l2, tolerance, first, second, centre, normal):
    """Area of the upper triangle over the lower one and within the tolerance of its plane.

    centre: centroid of that area; normal: unit normal of the lower triangle (as wound).
    """
    ux, uy, uz = l1[0] - l0[0], l1[1] - l0[1], l1[2] - l0[2]
    wx, wy, wz = l2[0] - l0[0], l2[1] - l0[1], l2[2] - l0[2]
    nx, ny, nz = uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx
    length = math.sqrt(nx * nx + ny * ny + nz * nz)
    normal[0] = normal[1] = normal[2] = 0.0
    if length == 0.0:
        return 0.0
    nx, ny, nz = nx / length, ny / length, nz / length
    normal[0], normal[1], normal[2] = nx, ny, nz
    for k in range(3):
        first[0, k], first[1, k], first[2, k] = u0[k], u1[k], u2[k]
    d = nx * l0[0] + ny * l0[1] + nz * l0[2]
    n = _clip(first, 3, nx, ny, nz, d + tolerance, second)
    n = _clip(second, n, -nx, -ny, -nz, tolerance - d, first)
    a, b = first, second
    for k in range(3):
        p, q = (l0, l1) if k == 0 else ((l1, l2) if k == 1 else (l2, l0))
        ex, ey, ez = q[0] - p[0], q[1] - p[1], q[2] - p[2]
        # Outward normal of the side: edge x face normal.
        sx, sy, sz = ey * nz - ez * ny, ez * nx - ex * nz, ex * ny - ey * nx
        n = _clip(a, n, sx, sy, sz, sx * p[0] + sy * p[1] + sz * p[2], b)
        a, b = b, a
    area = 0.0
    centre[0] = centre[1] = centre[2] = 0.0
    for i in range(1, n - 1):
        ax, ay, az = a[i, 0] - a[0, 0], a[i, 1] - a[0, 1], a[i, 2] - a[0, 2]
        bx, by, bz = a[i + 1, 0] - a[0, 0], a[i + 1, 1] - a[0, 1], a[i + 1, 2] - a[0, 2]
        cx, cy, cz = ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx
        part = 0.5 * math.sqrt(cx * cx + cy * cy + cz * cz)
        area += part
        for k in range(3):
            centre[k] += part * (a[0, k] + a[i, k] + a[i + 1, k]) / 3.0
    if area > 0.0:
        for k in range(3):
            centre[k] /= area
    return area


@small_kernel
def _join(parent, i, j):
    """Join two sets; the earlier member names the set."""
    while parent[i] != i:
        i = parent[i]
    while parent[j] != j:
        j = parent[j]
    if i < j:
        parent[j] = i
    else:
        parent[i] = j


@small_kernel
def _add_to_patch(up, lo, iu, il, gap, tolerance, pose, moved, row, work):
    """Add one triangle pair to the sums of its patch (lower's frame)."""
    first, second, centre, normal, best, ids = work
    area = _shared_area(
        point(moved, up.faces[iu, 0]),
        point(moved, up.faces[iu, 1]),
        point(moved, up.faces[iu, 2]),
        point(lo.vertices, lo.faces[il, 0]),
        point(lo.vertices, lo.faces[il, 1]),
        point(lo.vertices, lo.faces[il, 2]),
        tolerance, first, second, centre, normal,
    )  # fmt: skip
    if area == 0.0:
        centre[0], centre[1], centre[2] = gap[1], gap[2], gap[3]
    # A touch of edge or corner has no area; a trace of weight still gives it a place.
    weight = area + 1e-9
    sign = 1.0 if normal[2] * centre[0] - normal[0] * centre[2] >= 0.0 else -1.0
    for k in range(3):
        row[3 + k] += weight * centre[k]
        row[6 + k] += weight * sign * normal[k]
    row[9] += area
    row[10] = min(row[10], gap[0])
    best[0, 0] = -np.inf
    ids[0, 0] = -1
    touch_faces(up, lo, iu, il, True, pose, 0, best, ids)
    if ids[0, 0] >= 0:
        row[11] = min(row[11], -best[0, 0] * math.sqrt(best[1, 0] ** 2 + best[3, 0] ** 2))
    return weight


@small_kernel
def _finish(row, weight, pose):
    """Turn sums into means and bring place and direction into the hinge frame."""
    x, y, z = row[3] / weight, row[4] / weight, row[5] / weight
    nx, ny, nz = row[6], row[7], row[8]
    length = math.sqrt(nx * nx + ny * ny + nz * nz)
    if length == 0.0:
        nz, length = 1.0, 1.0
    for k in range(3):
        row[3 + k] = pose[k, 0] * x + pose[k, 1] * y + pose[k, 2] * z + pose[k, 3]
        row[6 + k] = (pose[k, 0] * nx + pose[k, 1] * ny + pose[k, 2] * nz) / length


@kernel
def contact_patches(up, lo, poses, look, first, last, tolerance, scratch, watch):
    """Patches of poses first to last; rows of `ROW` numbers ordered by pose and tooth pair.

    look: (n, uppers, lowers), False where two teeth need not be looked at.
    """
    rows = np.empty((256, ROW))
    used = 0
    pairs = np.empty((1024, 2), np.int64)
    gaps = np.empty((1024, 4))
    stack = np.empty((STACK, 2), np.int64)
    at, near = np.empty(3), np.empty(3)
    pose = np.empty((3, 4))
    work = (
        np.empty((10, 3)), np.empty((10, 3)), np.empty(3), np.empty(3),
        np.empty((4, 1)), np.empty((1, 5), np.int64),
    )  # fmt: skip
    moved = scratch[3]
    holder = np.full(up.vertices.shape[0], -1, np.int64)
    for n in range(first, last):
        if told_to_stop(watch):
            break
        inverse_pose(poses[n], pose)
        count = 0
        for u in range(look.shape[1]):
            for v in range(look.shape[2]):
                if look[n, u, v]:
                    count, pairs, gaps = _near_pairs(
                        up, lo, u, v, pose, n + 1, scratch, tolerance, stack, count, pairs, gaps,
                        at, near,
                    )  # fmt: skip
        keys = np.empty(count, np.int64)
        for i in range(count):
            keys[i] = up.tooth[pairs[i, 0]] * 64 + lo.tooth[pairs[i, 1]]
        order = np.argsort(keys, kind="mergesort")
        parent = np.arange(count)
        i = 0
        while i < count:
            j = i
            while j < count and keys[order[j]] == keys[order[i]]:
                for k in range(3):
                    v = up.faces[pairs[order[j], 0], k]
                    if holder[v] >= 0:
                        _join(parent, j, holder[v])
                    holder[v] = j
                j += 1
            weights = np.zeros(j - i)
            place = np.full(j - i, -1, np.int64)
            start = used
            for m in range(i, j):
                root = m
                while parent[root] != root:
                    root = parent[root]
                p = order[m]
                if place[root - i] < 0:
                    rows = _grown(rows, used)
                    rows[used, :] = 0.0
                    rows[used, 0] = n
                    rows[used, 1] = up.tooth[pairs[p, 0]]
                    rows[used, 2] = lo.tooth[pairs[p, 1]]
                    rows[used, 10] = rows[used, 11] = np.inf
                    place[root - i] = used
                    used += 1
                row = place[root - i]
                weights[row - start] += _add_to_patch(
                    up,
                    lo,
                    pairs[p, 0],
                    pairs[p, 1],
                    gaps[p],
                    tolerance,
                    pose.reshape(12, 1),
                    moved,
                    rows[row],
                    work,
                )
                for k in range(3):
                    holder[up.faces[pairs[p, 0], k]] = -1
            for row in range(start, used):
                _finish(rows[row], weights[row - start], poses[n])
            i = j
        count_some(watch, 1)
    return rows[:used].copy()
