"""Shortest distances of whole teeth under many poses.

Poses of a movement are alike, so each search begins where the last one ended: at its front, the
node pairs that were too far apart to matter, which together cover both teeth. A pair of the front
is looked at again only if the lower may have moved it nearer than the best pair: first by how far
the lower moved at all, then along the direction in which the two boxes stood apart, then anew.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel, small_kernel
from kinematics.geometry.kernels.distances import boxes_apart, move_box
from kinematics.geometry.kernels.placing import inverse_pose, placed
from kinematics.geometry.kernels.tree_arrays import AXES, MIDDLE, RIGHT, SIDES, STACK, START, STOP
from kinematics.geometry.kernels.triangle_distance import surely_apart, triangles_squared
from kinematics.geometry.kernels.vectors import point, three
from kinematics.geometry.kernels.watching import count_some, told_to_stop

#: Nodes of so few triangles are not opened: trying all is quicker.
FEW = 6
#: A front this many times as long as it was at first is dropped and grown anew.
STALE = 2
#: Distances are searched so much farther than asked for, mm: a pair that is found to be far is left
#: alone until the lower may have come near enough.
WIDER = 1.0
#: Columns of a front: direction in which two boxes stand apart; place along it that the upper
#: node's centre must not pass; reach of that node, by which it comes nearer as it turns.
ALONG_X, ALONG_Y, ALONG_Z, LEVEL, REACH = range(5)


@bare_kernel
def _farthest_move(lo, node, before, after):
    """How far any content of a lower node moves between two poses: most at a corner of its box."""
    farthest = 0.0
    for corner in range(8):
        square = 0.0
        for i in range(3):
            moved = after[i, 3] - before[i, 3]
            for j in range(3):
                point_j = lo.slab[node, MIDDLE + j]
                for k in range(3):
                    sign = 1.0 if corner >> k & 1 else -1.0
                    point_j += sign * lo.slab[node, SIDES + k] * lo.slab[node, AXES + 3 * k + j]
                moved += (after[i, j] - before[i, j]) * point_j
            square += moved * moved
        farthest = max(farthest, square)
    return math.sqrt(farthest) * (1.0 + 1e-9)


@bare_kernel
def _turned(before, after):
    """How far a point at distance 1 moves, at most, by the turn between two poses."""
    square = 0.0
    for i in range(3):
        for j in range(3):
            square += (after[i, j] - before[i, j]) ** 2
    return math.sqrt(0.5 * square) * (1.0 + 1e-9)


@inner_kernel
def _upper_along(pose, up, a, x, y, z):
    """Place of an upper node's centre along a direction of the lower's frame."""
    px, py, pz = placed(pose, *three(up.slab, a, MIDDLE))
    return x * px + y * py + z * pz


@inner_kernel
def _keep(front, f, up, box, a, b, apart, least, way, turn):
    """Write a node pair and how far its boxes stand apart into a place of the front."""
    pairs, nearest, rows = front
    least_here, x, y, z = apart
    pairs[f, 0], pairs[f, 1] = a, b
    nearest[f] = least + way
    rows[f, ALONG_X], rows[f, ALONG_Y], rows[f, ALONG_Z] = x, y, z
    h0, h1, h2 = three(up.slab, a, SIDES)
    reach = math.sqrt(h0 * h0 + h1 * h1 + h2 * h2)
    rows[f, REACH] = reach
    rows[f, LEVEL] = least_here + x * box[a, 0] + y * box[a, 1] + z * box[a, 2] + turn * reach


@small_kernel
def _front(room):
    """Node pairs; least distance plus the way so far; see the columns above."""
    return np.empty((room, 2), np.int64), np.empty(room), np.empty((room, 5))


@small_kernel
def _roomy(front, count):
    """Return a front with room for one more pair."""
    if count < front[1].shape[0]:
        return front
    more = _front(2 * count)
    more[0][:count], more[1][:count], more[2][:count] = front[0], front[1], front[2]
    return more


@inner_kernel
def _few(tree, node):
    """Tell whether a node is not to be opened."""
    return tree.links[node, STOP] - tree.links[node, START] <= FEW


@inner_kernel
def _limit(squared):
    """Distance above which a bound surely lies beyond a squared distance, rounding included."""
    return math.sqrt(squared) * (1.0 + 1e-9) + 1e-9


@inner_kernel
def _triangles_squared(up, lo, first_u, last_u, first_l, last_l, pose, best, ids, work):
    """Least squared distance of upper to lower triangles, or `best` where none is below it."""
    nearest = best
    for iu in range(first_u, last_u):
        a0 = placed(pose, *point(up.vertices, up.faces[iu, 0]))
        a1 = placed(pose, *point(up.vertices, up.faces[iu, 1]))
        a2 = placed(pose, *point(up.vertices, up.faces[iu, 2]))
        for il in range(first_l, last_l):
            b0, b1 = point(lo.vertices, lo.faces[il, 0]), point(lo.vertices, lo.faces[il, 1])
            b2 = point(lo.vertices, lo.faces[il, 2])
            limit = nearest * (1.0 + 1e-9) + 1e-18
            if surely_apart(a0, a1, a2, b0, b1, b2, limit):
                continue
            d = triangles_squared(a0, a1, a2, b0, b1, b2, limit, work[0], work[1])
            if d < nearest:
                nearest = d
                ids[0], ids[1] = iu, il
    return nearest


@inner_kernel
def _along(up, lo, a, b, pose, apart):
    """How far the triangles of two leaves stand apart along a direction; their boxes say less."""
    x, y, z = apart[1], apart[2], apart[3]
    most, least = -np.inf, np.inf
    for iu in range(up.links[a, START], up.links[a, STOP]):
        for k in range(3):
            p = placed(pose, *point(up.vertices, up.faces[iu, k]))
            most = max(most, x * p[0] + y * p[1] + z * p[2])
    for il in range(lo.links[b, START], lo.links[b, STOP]):
        for k in range(3):
            p = point(lo.vertices, lo.faces[il, k])
            least = min(least, x * p[0] + y * p[1] + z * p[2])
    return (least - most) * (1.0 - 1e-12)


@small_kernel
def _search(up, lo, pose, stamp, scratch, way, turn, best, ids, front, count, stack, apart, work):
    """Least squared distance of two teeth, if below `best`; brings their front up to date."""
    node_stamps, box = scratch
    limit = _limit(best)
    pairs, nearest, rows = front
    for f in range(count):
        if nearest[f] - way > limit:
            continue
        a, b = pairs[f, 0], pairs[f, 1]
        x, y, z = rows[f, ALONG_X], rows[f, ALONG_Y], rows[f, ALONG_Z]
        least = rows[f, LEVEL] - _upper_along(pose, up, a, x, y, z) - turn * rows[f, REACH]
        if least > limit:
            nearest[f] = least + way
            continue
        move_box(pose, up, a, node_stamps, stamp, box)
        stack[0, 0], stack[0, 1] = a, b
        apart[0, 0], apart[0, 1], apart[0, 2], apart[0, 3] = boxes_apart(box, up, lo, a, b)
        top, free = 1, f
        while top > 0:
            top -= 1
            a, b = stack[top, 0], stack[top, 1]
            here = apart[top, 0], apart[top, 1], apart[top, 2], apart[top, 3]
            leaf_a, leaf_b = _few(up, a), _few(lo, b)
            least = here[0]
            if least <= limit and leaf_a and leaf_b:
                closer = _along(up, lo, a, b, pose, here)
                here = max(least, closer), here[1], here[2], here[3]
                least = here[0]
                if least <= limit:
                    best = _triangles_squared(
                        up, lo, up.links[a, START], up.links[a, STOP],
                        lo.links[b, START], lo.links[b, STOP], pose, best, ids, work,
                    )  # fmt: skip
                    limit = _limit(best)
                    least = max(least, math.sqrt(best) * (1.0 - 1e-9))
            if here[0] > limit or (leaf_a and leaf_b):
                if free < 0:
                    front = _roomy(front, count)
                    pairs, nearest, rows = front
                    free = count
                    count += 1
                _keep(front, free, up, box, a, b, here, least, way, turn)
                free = -1
                continue
            # Both nodes are opened at once: fewer bounds than opening one after the other.
            bottom = top
            for i in range(1 if leaf_a else 2):
                u = a if leaf_a else (a + 1 if i == 0 else up.links[a, RIGHT])
                move_box(pose, up, u, node_stamps, stamp, box)
                for j in range(1 if leaf_b else 2):
                    v = b if leaf_b else (b + 1 if j == 0 else lo.links[b, RIGHT])
                    here = boxes_apart(box, up, lo, u, v)
                    if here[0] > limit:
                        if free < 0:
                            front = _roomy(front, count)
                            pairs, nearest, rows = front
                            free = count
                            count += 1
                        _keep(front, free, up, box, u, v, here, here[0], way, turn)
                        free = -1
                        continue
                    place = top
                    while place > bottom and apart[place - 1, 0] < here[0]:
                        stack[place, 0], stack[place, 1] = stack[place - 1, 0], stack[place - 1, 1]
                        for k in range(4):
                            apart[place, k] = apart[place - 1, k]
                        place -= 1
                    stack[place, 0], stack[place, 1] = u, v
                    apart[place, 0], apart[place, 1], apart[place, 2], apart[place, 3] = here
                    top += 1
    return best, front, count


@kernel
def moves(lo, poses, lowers, inverses, ways, turns):
    """Prepare poses for `tooth_gaps`: their inverses, and how far teeth came since the first.

    lowers: indices of teeth. inverses: (n, 3, 4). ways: (lowers, n), mm, summed from pose to pose.
    turns: (n,), mm at a distance of 1 mm, summed likewise.
    """
    turn = 0.0
    for n in range(poses.shape[0]):
        inverse_pose(poses[n], inverses[n])
        if n > 0:
            turn += _turned(poses[n - 1], poses[n])
        turns[n] = turn
    for j in range(lowers.shape[0]):
        root, way = lo.tooth_root[lowers[j]], 0.0
        for n in range(poses.shape[0]):
            if n > 0:
                way += _farthest_move(lo, root, poses[n - 1], poses[n])
            ways[j, n] = way


@kernel
def tooth_gaps(
    up, lo, inverses, ways, turns, uppers, lowers, first, last, limit, scratch, watch, gaps
):
    """Shortest distance of every pair of uppers first to last and all lowers, for every pose.

    inverses, ways, turns: see `moves`. uppers, lowers: indices of teeth. gaps: (n, uppers, lowers);
    holds gaps that are known, else inf; gets inf beyond the limit.
    """
    work = np.empty(3), np.empty(3)
    stack, apart = np.empty((STACK, 2), np.int64), np.empty((STACK, 4))
    ids = np.empty(2, np.int64)
    front = _front(4096)
    wide = limit + WIDER
    none = _limit(wide * wide) ** 2
    stamp = 0
    for i in range(first, last):
        for j in range(lowers.shape[0]):
            root_u, root_l = up.tooth_root[uppers[i]], lo.tooth_root[lowers[j]]
            count, fresh, clear_until = 0, 0, 0.0
            ids[0] = -1
            for n in range(inverses.shape[0]):
                if told_to_stop(watch):
                    return
                stamp += 1
                way, turn = ways[j, n], turns[n]
                if way < clear_until or gaps[n, i, j] < np.inf:
                    count_some(watch, 1)
                    continue
                pose = inverses[n]
                anew = count == 0 or count > STALE * fresh + 64
                if anew:
                    front[0][0, 0], front[0][0, 1] = root_u, root_l
                    front[1][0], front[2][0, :], count = way, 0.0, 1
                best = none
                if ids[0] >= 0:
                    u, v = ids[0], ids[1]
                    best = _triangles_squared(up, lo, u, u + 1, v, v + 1, pose, best, ids, work)
                best, front, count = _search(
                    up, lo, pose, stamp, scratch, way, turn, best, ids, front, count, stack,
                    apart, work,
                )  # fmt: skip
                if anew:
                    fresh = count
                gap = math.sqrt(best)
                gaps[n, i, j] = gap if gap <= limit else np.inf
                # No nearer than this until the lower may have gone the rest of the way.
                clear_until = way + (min(gap, wide) - limit) * (1.0 - 1e-9) - 1e-9
                count_some(watch, 1)
