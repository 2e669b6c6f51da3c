"""Rotational first contact of two triangle meshes, exact to rounding.

Everything stands in the lower's frame at opening 0, where the hinge axis is the y axis, s = y, and
the angle grows downwards ahead of the axis. Opening adds a constant to the angle of the lower, so
two features touch at the opening angle_upper - angle_lower of their common (s, r), and the first
contact coming from wide open is the greatest of these.

What comes next, with the tooth pair of the first contact left out, is found in the same search:
it only goes on down to the opening of what comes next.

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


@inner_kernel
def _comes_before(best, ids, one, other):
    """Tell whether one place holds a contact that comes before that of another place."""
    if best[0, one] != best[0, other]:
        return best[0, one] > best[0, other]
    a = (ids[one, 0], ids[one, 1], ids[one, 2], ids[one, 3], ids[one, 4])
    b = (ids[other, 0], ids[other, 1], ids[other, 2], ids[other, 3], ids[other, 4])
    return a < b


@inner_kernel
def _lanes_of(firsts, upper, lower):
    """Lanes whose first contact, so far, is one of these two teeth."""
    lanes = 0
    for k in range(WIDTH):
        if firsts[k, 0] == upper and firsts[k, 1] == lower:
            lanes |= 1 << k
    return lanes


@inner_kernel
def _offer(up, lo, iu, il, poses, lane, both, best, ids, firsts):
    """Offer two triangles to the first contact of a lane, or to what comes next."""
    place, upper, lower = lane, up.tooth[iu], lo.tooth[il]
    if both and firsts[lane, 0] >= 0 and (upper != firsts[lane, 0] or lower != firsts[lane, 1]):
        place = lane + WIDTH
    touch_faces(up, lo, iu, il, False, poses, lane, place, best, ids)
    if place != lane and ids[place, 0] >= 0 and _comes_before(best, ids, place, lane):
        for i in range(6):
            best[i, lane], best[i, place] = best[i, place], best[i, lane]
        for i in range(5):
            ids[lane, i], ids[place, i] = ids[place, i], ids[lane, i]
    if ids[lane, 0] >= 0:
        firsts[lane, 0], firsts[lane, 1] = up.tooth[ids[lane, 1]], lo.tooth[ids[lane, 2]]


@inner_kernel
def _surely(best, place):
    """Return a short float that is not above the opening which a place holds."""
    return np.float32(best[0, place] - SHORT * abs(best[0, place]))


@bare_kernel
def _search(up, lo, poses, where, state, bounds, keep_u, keep_l, allow, left, seeds, wanted, both,
            best, ids, firsts, surely, work, stack, stack_bound, stack_key, counts):  # fmt: skip
    """Depth-first over node pairs, best bound first, from the whole pair and the seeds.

    both: what comes next is wanted too. best: (6, 16), see `touch_faces`; ids: (16, 5); the second
    eight places for what comes next. firsts: (8, 2) teeth of the first contact, indices, so far.
    surely: (2, 8) short floats not above the opening of the first contact, and of what comes next;
    infinite in lanes that are not wanted.
    """
    last = 1 if both else 0
    top = 0
    for k in range(5):
        # The seeds lie on top: leaves that touched last, each against the whole other tree.
        seed = seeds[max(k - 1, 0)]
        if k > 0 and (seed < 0 or (k > 2 and not both)):
            continue
        a, b = 0, 0
        if k == 1 or k == 3:
            a = up.leaf[seed]
        elif k > 0:
            b = lo.leaf[seed]
        stack[top, 0], stack[top, 1] = a, b
        row = row_of(poses, up, a, where, state, bounds, work)
        lanes = _wanted(up, lo, a, b, keep_u, keep_l, allow, left, wanted)
        store(stack_bound, top, 0, pair_bound(bounds, row, lo.around, b, lanes))
        stack[top, 2] = 0
        top += 1
    never, none = spread(np.float32(-np.inf)), spread(np.float32(0.0))
    while top > 0:
        top -= 1
        bound, reached = load(stack_bound, top, 0), load(surely, last, 0)
        a, b, single = stack[top, 0], stack[top, 1], stack[top, 2]
        if both and single:
            # Of the teeth that touch first nothing but the first contact is wanted.
            theirs = _lanes_of(firsts, up.links[a, ONLY], lo.links[b, ONLY])
            reached = choose(theirs, load(surely, 0, 0), reached)
        lanes = not_below(bound, reached) & ~not_below(never, bound)
        if lanes == 0:
            continue
        leaf_a, leaf_b = up.links[a, RIGHT] == 0, lo.links[b, RIGHT] == 0
        if leaf_a and leaf_b:
            for k in range(WIDTH):
                if lanes >> k & 1:
                    counts[1] += 1
                    iu, il = up.links[a, START], lo.links[b, START]
                    _offer(up, lo, iu, il, poses, k, both, best, ids, firsts)
                    surely[0, k] = _surely(best, k)
                    surely[1, k] = _surely(best, k + WIDTH)
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


@inner_kernel
def _tell(up, lo, poses, n, lanes, k, place, row, best, ids, told):
    """Write the contact that a place holds for pose n, lane k, into a row of all results."""
    opening, ids_out, points, normals, radius = told
    opening[row] = best[0, place]
    for i in range(5):
        ids_out[row, i] = ids[place, i]
    if ids[place, 0] < 0:
        points[row, :] = 0.0
        normals[row, :] = 0.0
        radius[row] = 0.0
        return
    nx, ny, nz = normal_at(up, lo, lanes, k, place, ids, best)
    x, y, z = best[1, place], best[2, place], best[3, place]
    radius[row] = math.sqrt(x * x + z * z)
    for i in range(3):
        p0, p1, p2 = poses[n, i, 0], poses[n, i, 1], poses[n, i, 2]
        points[row, i] = p0 * x + p1 * y + p2 * z + poses[n, i, 3]
        normals[row, i] = p0 * nx + p1 * ny + p2 * nz


@kernel
def close_poses(up, lo, poses, first, last, keep_u, keep_l, allow, left_out, both, scratch, watch,
                opening, ids_out, points, normals, radius, counts):  # fmt: skip
    """First contact of poses first to last, eight at a time, each eight seeded by those before.

    poses: (n, 4, 4) hinge_from_lower at opening 0. left_out: (n, 2) one more tooth pair (indices)
    to leave out a pose, -1 for none. both: what comes next is told too, in n rows more. points,
    normals: hinge frame.
    """
    where, state, bounds = scratch
    told = (opening, ids_out, points, normals, radius)
    best, ids = np.empty((6, 2 * WIDTH)), np.empty((2 * WIDTH, 5), np.int64)
    left, firsts = np.empty((WIDTH, 2), np.int64), np.empty((WIDTH, 2), np.int64)
    work, surely = np.empty((2, WIDTH)), np.empty((2, WIDTH), np.float32)
    stack, stack_key = np.empty((STACK, 3), np.int64), np.empty(STACK, np.float32)
    stack_bound = np.empty((STACK, WIDTH), np.float32)
    lanes = np.empty((12, WIDTH))
    # What touched last in this memory; any triangles do for a beginning, also of other casts.
    seeds = state[SEEDS : SEEDS + 4]
    for k in range(4):
        if seeds[k] >= (up.leaf.shape[0] if k % 2 == 0 else lo.leaf.shape[0]):
            seeds[k] = -1
    for start in range(first, last, WIDTH):
        if told_to_stop(watch):
            return
        count = min(WIDTH, last - start)
        write_lanes(poses, start, count, lanes)
        for k in range(WIDTH):
            n = start + min(k, count - 1)
            surely[:, k] = -np.inf if k < count else np.inf
            left[k, 0], left[k, 1] = left_out[n, 0], left_out[n, 1]
        best[0, :] = -np.inf
        ids[:, :] = -1
        firsts[:, :] = -1
        begin_rows(where, state)
        wanted = (1 << count) - 1
        _search(up, lo, lanes, where, state, bounds, keep_u, keep_l, allow, left, seeds, wanted,
                both, best, ids, firsts, surely, work, stack, stack_bound, stack_key,
                counts)  # fmt: skip
        for k in range(count):
            for row in range(2 if both else 1):
                place = k + row * WIDTH
                n = start + k
                _tell(up, lo, poses, n, lanes, k, place, n + row * poses.shape[0], best, ids, told)
                if ids[place, 0] >= 0:
                    seeds[2 * row], seeds[2 * row + 1] = ids[place, 1], ids[place, 2]
        count_some(watch, count)
