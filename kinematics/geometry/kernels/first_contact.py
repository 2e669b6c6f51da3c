"""Rotational first contact of two triangle meshes, exact to rounding.

Everything stands in the lower's frame at opening 0, where the hinge axis is the y axis, s = y, and
the angle grows downwards ahead of the axis. Opening adds a constant to the angle of the lower, so
two features touch at the opening angle_upper - angle_lower of their common (s, r), and the first
contact coming from wide open is the greatest of these.

Poses of a movement are alike: their searches open nearly the same nodes. So eight are searched at
once, each in a lane of its own, and a node pair is opened if any of them needs it.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel
from kinematics.geometry.kernels.lanes import (
    WIDTH,
    choose,
    greatest,
    load,
    not_below,
    spread,
    store,
)
from kinematics.geometry.kernels.moved_nodes import (
    SEEDS,
    SHORT,
    begin_rows,
    pair_bound,
    row_of,
)
from kinematics.geometry.kernels.placing import write_lanes
from kinematics.geometry.kernels.touching import normal_at, touch_faces
from kinematics.geometry.kernels.tree_arrays import ONLY, RIGHT, STACK, START
from kinematics.geometry.kernels.watching import count_some, told_to_stop


@inner_kernel
def _wanted(up, lo, u, v, keep_u, keep_l, allow, left, wanted):
    """Lanes in which any tooth pair of two nodes may touch.

    Exact where both nodes hold one tooth, generous where one holds several.
    """
    if up.mask[u] & keep_u == 0 or lo.mask[v] & keep_l == 0:
        return 0
    if up.links[u, ONLY] < 0:
        return wanted
    if lo.mask[v] & keep_l & allow[up.links[u, ONLY]] == 0:
        return 0
    if lo.links[v, ONLY] >= 0:
        for k in range(WIDTH):
            if left[k, 0] == up.links[u, ONLY] and left[k, 1] == lo.links[v, ONLY]:
                wanted &= ~(1 << k)
    return wanted


@bare_kernel
def _search(up, lo, poses, where, state, bounds, keep_u, keep_l, allow, left, seeds, wanted,
            best, ids, surely, work, stack, stack_bound, stack_key, counts):  # fmt: skip
    """Depth-first over node pairs, best bound first, from the whole pair and the seeds.

    best: (6, 8), see `touch_faces`; ids: (8, 5). surely: (1, 8) short floats not above the opening,
    infinite in lanes that are not wanted.
    """
    top = 0
    for k in range(3):
        # The seeds lie on top: the leaf that touched last against the whole other tree.
        if k == 0:
            a, b = 0, 0
        elif seeds[0] < 0:
            break
        elif k == 1:
            a, b = up.leaf[seeds[0]], 0
        else:
            a, b = 0, lo.leaf[seeds[1]]
        stack[top, 0], stack[top, 1] = a, b
        row = row_of(poses, up, a, where, state, bounds, work)
        lanes = _wanted(up, lo, a, b, keep_u, keep_l, allow, left, wanted)
        store(stack_bound, top, 0, pair_bound(bounds, row, lo.around, b, lanes))
        stack[top, 2] = 0
        top += 1
    never, none = spread(np.float32(-np.inf)), spread(np.float32(0.0))
    while top > 0:
        top -= 1
        bound, reached = load(stack_bound, top, 0), load(surely, 0, 0)
        lanes = not_below(bound, reached) & ~not_below(never, bound)
        if lanes == 0:
            continue
        a, b, single = stack[top, 0], stack[top, 1], stack[top, 2]
        leaf_a, leaf_b = up.links[a, RIGHT] == 0, lo.links[b, RIGHT] == 0
        if leaf_a and leaf_b:
            for k in range(WIDTH):
                if lanes >> k & 1:
                    counts[1] += 1
                    touch_faces(
                        up, lo, up.links[a, START], lo.links[b, START], False, poses, k, best, ids
                    )
                    surely[0, k] = np.float32(best[0, k] - SHORT * abs(best[0, k]))
            continue
        # Both nodes are opened at once, the pair that may touch first on top of the stack.
        level = choose(not_below(never, reached), none, reached)
        bottom = top
        for i in range(1 if leaf_a else 2):
            u = a if leaf_a else (a + 1 if i == 0 else up.links[a, RIGHT])
            row = row_of(poses, up, u, where, state, bounds, work)
            for j in range(1 if leaf_b else 2):
                v = b if leaf_b else (b + 1 if j == 0 else lo.links[b, RIGHT])
                counts[0] += 1
                some = lanes
                if single == 0:
                    some = _wanted(up, lo, u, v, keep_u, keep_l, allow, left, lanes)
                    if some == 0:
                        continue
                bound = pair_bound(bounds, row, lo.around, v, some)
                if not_below(bound, reached) & ~not_below(never, bound) == 0:
                    continue
                key = greatest(bound - level)
                place = top
                while place > bottom and stack_key[place - 1] > key:
                    stack[place, 0], stack[place, 1] = stack[place - 1, 0], stack[place - 1, 1]
                    stack[place, 2] = stack[place - 1, 2]
                    stack_key[place] = stack_key[place - 1]
                    store(stack_bound, place, 0, load(stack_bound, place - 1, 0))
                    place -= 1
                stack[place, 0], stack[place, 1], stack_key[place] = u, v, key
                stack[place, 2] = up.links[u, ONLY] >= 0 and lo.links[v, ONLY] >= 0
                store(stack_bound, place, 0, bound)
                top += 1


@kernel
def close_poses(up, lo, poses, first, last, keep_u, keep_l, allow, left_out, scratch, watch,
                opening, ids_out, points, normals, radius, counts):  # fmt: skip
    """First contact of poses first to last, eight at a time, each eight seeded by those before.

    poses: (n, 4, 4) hinge_from_lower at opening 0. left_out: (n, 2) one more tooth pair (indices)
    to leave out a pose, -1 for none. points, normals: hinge frame.
    """
    where, state, bounds = scratch
    best, ids = np.empty((6, WIDTH)), np.empty((WIDTH, 5), np.int64)
    left = np.empty((WIDTH, 2), np.int64)
    work, surely = np.empty((2, WIDTH)), np.empty((1, WIDTH), np.float32)
    stack, stack_key = np.empty((STACK, 3), np.int64), np.empty(STACK, np.float32)
    stack_bound = np.empty((STACK, WIDTH), np.float32)
    lanes = np.empty((12, WIDTH))
    # What touched last in this memory; any triangles do for a beginning, also of other casts.
    seeds = state[SEEDS : SEEDS + 2]
    if seeds[0] >= up.leaf.shape[0] or seeds[1] >= lo.leaf.shape[0]:
        seeds[0] = -1
    for start in range(first, last, WIDTH):
        if told_to_stop(watch):
            return
        count = min(WIDTH, last - start)
        write_lanes(poses, start, count, lanes)
        for k in range(WIDTH):
            n = start + min(k, count - 1)
            best[0, k] = -np.inf
            surely[0, k] = -np.inf if k < count else np.inf
            left[k, 0], left[k, 1] = left_out[n, 0], left_out[n, 1]
        ids[:, :] = -1
        begin_rows(where, state)
        wanted = (1 << count) - 1
        _search(up, lo, lanes, where, state, bounds, keep_u, keep_l, allow, left, seeds, wanted,
                best, ids, surely, work, stack, stack_bound, stack_key, counts)  # fmt: skip
        for k in range(count):
            n = start + k
            opening[n] = best[0, k]
            for i in range(5):
                ids_out[n, i] = ids[k, i]
            if ids[k, 0] < 0:
                points[n, :] = 0.0
                normals[n, :] = 0.0
                radius[n] = 0.0
                continue
            seeds[0], seeds[1] = ids[k, 1], ids[k, 2]
            nx, ny, nz = normal_at(up, lo, lanes, k, ids, best)
            x, y, z = best[1, k], best[2, k], best[3, k]
            radius[n] = math.sqrt(x * x + z * z)
            for i in range(3):
                p0, p1, p2 = poses[n, i, 0], poses[n, i, 1], poses[n, i, 2]
                points[n, i] = p0 * x + p1 * y + p2 * z + poses[n, i, 3]
                normals[n, i] = p0 * nx + p1 * ny + p2 * nz
        count_some(watch, count)
