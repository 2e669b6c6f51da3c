"""Rotational first contact of two triangle meshes, exact to rounding.

Everything stands in the lower's frame at opening 0, where the hinge axis is the y axis, s = y, and
the angle grows downwards ahead of the axis. Opening adds a constant to the angle of the lower, so
two features touch at the opening angle_upper - angle_lower of their common (s, r), and the first
contact coming from wide open is the greatest of these.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel, small_kernel
from kinematics.geometry.kernels.features import move_vertex, normal_at, touch_faces

BOUND_SLACK = 1e-12  # rad; bounds are kept above what rounding can add
STACK = 512


@inner_kernel
def move_node(pose, up, node, stamps, stamp, bounds):
    """Bound an upper node about the hinge axis, once a pose.

    bounds: s, r least and most, angle least and most, then angle <= plane + slope_s s + slope_r r.
    """
    if stamps[node] == stamp:
        return
    stamps[node] = stamp
    cx, cy, cz = up.centre[node, 0], up.centre[node, 1], up.centre[node, 2]
    x = pose[0, 0] * cx + pose[0, 1] * cy + pose[0, 2] * cz + pose[0, 3]
    s = pose[1, 0] * cx + pose[1, 1] * cy + pose[1, 2] * cz + pose[1, 3]
    z = pose[2, 0] * cx + pose[2, 1] * cy + pose[2, 2] * cz + pose[2, 3]
    h0, h1, h2 = up.half[node, 0], up.half[node, 1], up.half[node, 2]
    ox, oz = up.outward[node, 0], up.outward[node, 1]
    # Where the box's outward and around directions point now.
    px, py = pose[0, 0] * ox + pose[0, 2] * oz, pose[1, 0] * ox + pose[1, 2] * oz
    pz = pose[2, 0] * ox + pose[2, 2] * oz
    qx, qy = pose[0, 0] * oz - pose[0, 2] * ox, pose[1, 0] * oz - pose[1, 2] * ox
    qz = pose[2, 0] * oz - pose[2, 2] * ox
    es = abs(pose[1, 1]) * h0 + abs(py) * h1 + abs(qy) * h2 + 1e-10
    r = math.sqrt(x * x + z * z)
    far = math.sqrt(h0 * h0 + h1 * h1 + h2 * h2)
    if r <= far:
        bounds[node, 0], bounds[node, 1] = s - es, s + es
        bounds[node, 2], bounds[node, 3] = 0.0, r + far + 1e-10
        bounds[node, 4], bounds[node, 5] = -math.pi, math.pi
        bounds[node, 6], bounds[node, 7], bounds[node, 8] = np.inf, 0.0, 0.0
        return
    ux, uz = x / r, z / r  # outward; the direction of growing angle is (uz, -ux)
    er = abs(ux * pose[0, 1] + uz * pose[2, 1]) * h0
    er += abs(ux * px + uz * pz) * h1 + abs(ux * qx + uz * qz) * h2 + 1e-10
    et = abs(uz * pose[0, 1] - ux * pose[2, 1]) * h0
    et += abs(uz * px - ux * pz) * h1 + abs(uz * qx - ux * qz) * h2 + 1e-10
    nx, ny, nz = up.axes[node, 2, 0], up.axes[node, 2, 1], up.axes[node, 2, 2]
    mx = pose[0, 0] * nx + pose[0, 1] * ny + pose[0, 2] * nz
    ns = pose[1, 0] * nx + pose[1, 1] * ny + pose[1, 2] * nz
    mz = pose[2, 0] * nx + pose[2, 1] * ny + pose[2, 2] * nz
    nr, nt = ux * mx + uz * mz, uz * mx - ux * mz
    bounds[node, 0], bounds[node, 1] = s - es, s + es
    near = r - er
    most = math.sqrt((r + er) * (r + er) + et * et)
    bounds[node, 2], bounds[node, 3] = max(near, 0.0), most
    angle = math.atan2(-z, x)
    turn = et / near if near > 0.0 else math.inf  # at least the true half angle
    if abs(angle) + turn >= math.pi:
        bounds[node, 4], bounds[node, 5] = -math.pi, math.pi
        bounds[node, 6], bounds[node, 7], bounds[node, 8] = np.inf, 0.0, 0.0
        return
    bounds[node, 4], bounds[node, 5] = angle - turn, angle + turn
    if nt <= 0.02:
        bounds[node, 6], bounds[node, 7], bounds[node, 8] = np.inf, 0.0, 0.0
        return
    # n . (p - c) <= offset, written out in (s, r, angle - angle_c); what is dropped is added.
    bend = max(nr, 0.0) * most * turn * turn * 0.5
    bend += nt * (max(er, most - r) * turn + most * turn * turn * turn / 6.0)
    scale = 1.0 / (nt * r)
    bounds[node, 6] = angle + (up.offset[node] + bend + ns * s + nr * r) * scale
    bounds[node, 7] = -ns * scale
    bounds[node, 8] = -nr * scale


@inner_kernel
def pair_bound(bounds, a, around, b):
    """Greatest opening at which content of an upper and a lower node can touch; -inf if never."""
    s0, s1 = max(bounds[a, 0], around[b, 0]), min(bounds[a, 1], around[b, 1])
    r0, r1 = max(bounds[a, 2], around[b, 2]), min(bounds[a, 3], around[b, 3])
    if s0 > s1 + 1e-10 or r0 > r1 + 1e-10:
        return -np.inf
    bound = bounds[a, 5] - around[b, 4]
    if bounds[a, 6] < np.inf:
        most = (
            bounds[a, 6]
            + max(bounds[a, 7] * s0, bounds[a, 7] * s1)
            + max(bounds[a, 8] * r0, bounds[a, 8] * r1)
        )
        bound = min(bound, most - around[b, 4])
    if around[b, 6] > -np.inf:
        least = (
            around[b, 6]
            + min(around[b, 7] * s0, around[b, 7] * s1)
            + min(around[b, 8] * r0, around[b, 8] * r1)
        )
        bound = min(bound, bounds[a, 5] - least)
        if bounds[a, 6] < np.inf:
            gs, gr = bounds[a, 7] - around[b, 7], bounds[a, 8] - around[b, 8]
            both = bounds[a, 6] - around[b, 6] + max(gs * s0, gs * s1) + max(gr * r0, gr * r1)
            bound = min(bound, both)
    return bound + BOUND_SLACK


@inner_kernel
def _allowed(only_u, mask_u, mask_l, allow, left_u, left_l):
    """Tell whether any tooth pair of two sets may touch.

    Exact where the upper set holds one tooth (only_u), generous where it holds several (-1).
    """
    if mask_u == 0 or mask_l == 0:
        return False
    if only_u < 0:
        return True
    lowers = allow[only_u]
    if only_u == left_u and left_l >= 0:
        lowers &= ~(np.uint64(1) << np.uint64(left_l))
    return (mask_l & lowers) != 0


@small_kernel
def _search(up, lo, pose, stamp, scratch, keep_u, keep_l, allow, left_u, left_l,
            seed_u, seed_l, best, ids, work, stack, stack_bound, counts):  # fmt: skip
    """Depth-first over node pairs, best bound first, from the whole pair and the seeds."""
    node_stamps, bounds, vertex_stamps, moved = scratch
    top = 0
    for k in range(3):
        # The seeds lie on top: the leaf that touched last against the whole other tree.
        if k == 0:
            a, b = 0, 0
        elif seed_u < 0:
            break
        elif k == 1:
            a, b = up.leaf[seed_u], 0
        else:
            a, b = 0, lo.leaf[seed_l]
        move_node(pose, up, a, node_stamps, stamp, bounds)
        stack[top, 0], stack[top, 1] = a, b
        stack_bound[top] = pair_bound(bounds, a, lo.around, b)
        top += 1
    while top > 0:
        top -= 1
        if stack_bound[top] < best[0] or stack_bound[top] == -np.inf:
            continue
        a, b = stack[top, 0], stack[top, 1]
        leaf_a, leaf_b = up.right[a] == 0, lo.right[b] == 0
        if leaf_a and leaf_b:
            for iu in range(up.start[a], up.stop[a]):
                mask_u = (np.uint64(1) << np.uint64(up.tooth[iu])) & keep_u
                for k in range(3):
                    move_vertex(pose, up.vertices, up.faces[iu, k], vertex_stamps, stamp, moved)
                for il in range(lo.start[b], lo.stop[b]):
                    mask_l = (np.uint64(1) << np.uint64(lo.tooth[il])) & keep_l
                    if _allowed(up.tooth[iu], mask_u, mask_l, allow, left_u, left_l):
                        counts[1] += 1
                        touch_faces(up, lo, iu, il, False, moved, best, ids, work)
            continue
        # Both nodes are opened at once, the pair that may touch first on top of the stack.
        bottom = top
        for i in range(1 if leaf_a else 2):
            u = a if leaf_a else (a + 1 if i == 0 else up.right[a])
            move_node(pose, up, u, node_stamps, stamp, bounds)
            for j in range(1 if leaf_b else 2):
                v = b if leaf_b else (b + 1 if j == 0 else lo.right[b])
                counts[0] += 1
                if not _allowed(
                    up.only[u], up.mask[u] & keep_u, lo.mask[v] & keep_l, allow, left_u, left_l
                ):
                    continue
                bound = pair_bound(bounds, u, lo.around, v)
                if bound < best[0] or bound == -np.inf:
                    continue
                place = top
                while place > bottom and stack_bound[place - 1] > bound:
                    stack[place, 0], stack[place, 1] = stack[place - 1, 0], stack[place - 1, 1]
                    stack_bound[place] = stack_bound[place - 1]
                    place -= 1
                stack[place, 0], stack[place, 1], stack_bound[place] = u, v, bound
                top += 1


@kernel
def close_poses(up, lo, poses, first, last, keep_u, keep_l, allow, left, scratch,
                opening, ids_out, points, normals, radius, counts):  # fmt: skip
    """First contact of poses first to last, each seeded by the one before.

    poses: (n, 4, 4) hinge_from_lower at opening 0. left: (n, 2) one more tooth pair (indices) to
    leave out a pose, -1 for none. points, normals: hinge frame.
    """
    best = np.empty(4)
    ids = np.empty(5, np.int64)
    work = np.empty((2, 6))
    stack = np.empty((STACK, 2), np.int64)
    stack_bound = np.empty(STACK)
    pose = np.empty((3, 4))
    normal = np.empty(3)
    seed_u, seed_l = -1, -1
    for n in range(first, last):
        for i in range(3):
            for j in range(3):
                pose[i, j] = poses[n, j, i]
            pose[i, 3] = -(
                poses[n, 0, i] * poses[n, 0, 3]
                + poses[n, 1, i] * poses[n, 1, 3]
                + poses[n, 2, i] * poses[n, 2, 3]
            )
        best[0] = -np.inf
        ids[:] = -1
        _search(up, lo, pose, n + 1, scratch, keep_u, keep_l, allow, left[n, 0], left[n, 1],
                seed_u, seed_l, best, ids, work, stack, stack_bound, counts)  # fmt: skip
        opening[n] = best[0]
        ids_out[n, :] = ids
        if ids[0] < 0:
            points[n, :] = 0.0
            normals[n, :] = 0.0
            radius[n] = 0.0
            continue
        seed_u, seed_l = ids[1], ids[2]
        normal_at(up, lo, scratch[3], ids, best, normal)
        radius[n] = math.sqrt(best[1] * best[1] + best[3] * best[3])
        for i in range(3):
            points[n, i] = (
                poses[n, i, 0] * best[1]
                + poses[n, i, 1] * best[2]
                + poses[n, i, 2] * best[3]
                + poses[n, i, 3]
            )
            normals[n, i] = (
                poses[n, i, 0] * normal[0] + poses[n, i, 1] * normal[1] + poses[n, i, 2] * normal[2]
            )
