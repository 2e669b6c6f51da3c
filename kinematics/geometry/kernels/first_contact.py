"""Rotational first contact of two triangle meshes, exact to rounding.

Everything stands in the lower's frame at opening 0, where the hinge axis is the y axis, s = y, and
the angle grows downwards ahead of the axis. Opening adds a constant to the angle of the lower, so
two features touch at the opening angle_upper - angle_lower of their common (s, r), and the first
contact coming from wide open is the greatest of these.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel, kernel, small_kernel
from kinematics.geometry.kernels.distances import inverse_pose
from kinematics.geometry.kernels.features import move_vertex, normal_at, three, touch_faces
from kinematics.geometry.kernels.tree_arrays import (
    ANGLE,
    CENTRE,
    HALF,
    NORMAL,
    OFFSET,
    ONLY,
    OUTWARD,
    PLANE,
    R_LEAST,
    R_MOST,
    RIGHT,
    S_LEAST,
    S_MOST,
    SLOPE_R,
    SLOPE_S,
    START,
    STOP,
)
from kinematics.geometry.kernels.watching import count_one, told_to_stop

BOUND_SLACK = 1e-12  # rad; bounds are kept above what rounding can add
STACK = 512


@inner_kernel
def move_node(pose, up, node, stamps, stamp, bounds):
    """Bound an upper node about the hinge axis, once a pose: the columns of `around`."""
    if stamps[node] == stamp:
        return
    stamps[node] = stamp
    p00, p01, p02, p03 = pose[0, 0], pose[0, 1], pose[0, 2], pose[0, 3]
    p10, p11, p12, p13 = pose[1, 0], pose[1, 1], pose[1, 2], pose[1, 3]
    p20, p21, p22, p23 = pose[2, 0], pose[2, 1], pose[2, 2], pose[2, 3]
    cx, cy, cz = three(up.turning, node, CENTRE)
    h0, h1, h2 = three(up.turning, node, HALF)
    ox, oz = up.turning[node, OUTWARD], up.turning[node, OUTWARD + 1]
    nx, ny, nz = three(up.turning, node, NORMAL)
    offset = up.turning[node, OFFSET]
    x = p00 * cx + p01 * cy + p02 * cz + p03
    s = p10 * cx + p11 * cy + p12 * cz + p13
    z = p20 * cx + p21 * cy + p22 * cz + p23
    # Where the box's outward and around directions point now.
    px, py, pz = p00 * ox + p02 * oz, p10 * ox + p12 * oz, p20 * ox + p22 * oz
    qx, qy, qz = p00 * oz - p02 * ox, p10 * oz - p12 * ox, p20 * oz - p22 * ox
    es = abs(p11) * h0 + abs(py) * h1 + abs(qy) * h2 + 1e-10
    r = math.sqrt(x * x + z * z)
    far = h0 + h1 + h2
    bounds[node, S_LEAST], bounds[node, S_MOST] = s - es, s + es
    bounds[node, PLANE], bounds[node, SLOPE_S], bounds[node, SLOPE_R] = np.inf, 0.0, 0.0
    if r <= far:
        bounds[node, R_LEAST], bounds[node, R_MOST] = 0.0, r + far + 1e-10
        bounds[node, ANGLE] = math.pi
        return
    ux, uz = x / r, z / r  # outward; the direction of growing angle is (uz, -ux)
    er = abs(ux * p01 + uz * p21) * h0 + 1e-10
    er += abs(ux * px + uz * pz) * h1 + abs(ux * qx + uz * qz) * h2
    et = abs(uz * p01 - ux * p21) * h0 + 1e-10
    et += abs(uz * px - ux * pz) * h1 + abs(uz * qx - ux * qz) * h2
    near = r - er
    most = math.sqrt((r + er) * (r + er) + et * et)
    bounds[node, R_LEAST], bounds[node, R_MOST] = max(near, 0.0), most
    angle = math.atan2(-z, x)
    turn = et / near if near > 0.0 else math.inf  # at least the true half angle
    if abs(angle) + turn >= math.pi:
        bounds[node, ANGLE] = math.pi
        return
    bounds[node, ANGLE] = angle + turn
    mx, mz = p00 * nx + p01 * ny + p02 * nz, p20 * nx + p21 * ny + p22 * nz
    ns = p10 * nx + p11 * ny + p12 * nz
    nr, nt = ux * mx + uz * mz, uz * mx - ux * mz
    if nt <= 0.02:
        return
    # n . (p - c) <= offset, written out in (s, r, angle - angle_c); what is dropped is added.
    bend = max(nr, 0.0) * most * turn * turn * 0.5
    bend += nt * (max(er, most - r) * turn + most * turn * turn * turn / 6.0)
    scale = 1.0 / (nt * r)
    bounds[node, PLANE] = angle + (offset + bend + ns * s + nr * r) * scale
    bounds[node, SLOPE_S] = -ns * scale
    bounds[node, SLOPE_R] = -nr * scale


@inner_kernel
def pair_bound(bounds, a, around, b):
    """Greatest opening at which content of an upper and a lower node can touch; -inf if never."""
    s0 = max(bounds[a, S_LEAST], around[b, S_LEAST])
    s1 = min(bounds[a, S_MOST], around[b, S_MOST])
    r0 = max(bounds[a, R_LEAST], around[b, R_LEAST])
    r1 = min(bounds[a, R_MOST], around[b, R_MOST])
    if s0 > s1 + 1e-10 or r0 > r1 + 1e-10:
        return -np.inf
    angle_u, angle_l = bounds[a, ANGLE], around[b, ANGLE]
    plane_u, plane_l = bounds[a, PLANE], around[b, PLANE]
    us, ur = bounds[a, SLOPE_S], bounds[a, SLOPE_R]
    ls, lr = around[b, SLOPE_S], around[b, SLOPE_R]
    # Planes at infinity never decide.
    most = plane_u + max(us * s0, us * s1) + max(ur * r0, ur * r1)
    least = plane_l + min(ls * s0, ls * s1) + min(lr * r0, lr * r1)
    gs, gr = us - ls, ur - lr
    both = plane_u - plane_l + max(gs * s0, gs * s1) + max(gr * r0, gr * r1)
    return min(min(angle_u, most) - max(angle_l, least), both) + BOUND_SLACK


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
        leaf_a, leaf_b = up.links[a, RIGHT] == 0, lo.links[b, RIGHT] == 0
        if leaf_a and leaf_b:
            for iu in range(up.links[a, START], up.links[a, STOP]):
                mask_u = (np.uint64(1) << np.uint64(up.tooth[iu])) & keep_u
                for k in range(3):
                    move_vertex(pose, up.vertices, up.faces[iu, k], vertex_stamps, stamp, moved)
                for il in range(lo.links[b, START], lo.links[b, STOP]):
                    mask_l = (np.uint64(1) << np.uint64(lo.tooth[il])) & keep_l
                    if _allowed(up.tooth[iu], mask_u, mask_l, allow, left_u, left_l):
                        counts[1] += 1
                        touch_faces(up, lo, iu, il, False, moved, best, ids, work)
            continue
        # Both nodes are opened at once, the pair that may touch first on top of the stack.
        bottom = top
        for i in range(1 if leaf_a else 2):
            u = a if leaf_a else (a + 1 if i == 0 else up.links[a, RIGHT])
            move_node(pose, up, u, node_stamps, stamp, bounds)
            for j in range(1 if leaf_b else 2):
                v = b if leaf_b else (b + 1 if j == 0 else lo.links[b, RIGHT])
                counts[0] += 1
                if not _allowed(
                    up.links[u, ONLY],
                    up.mask[u] & keep_u,
                    lo.mask[v] & keep_l,
                    allow,
                    left_u,
                    left_l,
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
def close_poses(up, lo, poses, first, last, keep_u, keep_l, allow, left, scratch, watch,
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
        if told_to_stop(watch):
            return
        inverse_pose(poses[n], pose)
        best[0] = -np.inf
        ids[:] = -1
        _search(up, lo, pose, n + 1, scratch, keep_u, keep_l, allow, left[n, 0], left[n, 1],
                seed_u, seed_l, best, ids, work, stack, stack_bound, counts)  # fmt: skip
        count_one(watch)
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
