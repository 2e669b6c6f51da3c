"""Contact patches: triangle pairs within a tolerance, joined where they share upper vertices.

What is summed is summed in one order, that of the trees, whatever poses are searched together.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel, small_kernel
from kinematics.geometry.kernels.lanes import WIDTH
from kinematics.geometry.kernels.moved_nodes import begin_rows
from kinematics.geometry.kernels.near_triangles import near_candidates
from kinematics.geometry.kernels.placing import lane_pose, moved_corner, write_lanes
from kinematics.geometry.kernels.shared_area import shared_area
from kinematics.geometry.kernels.touching import touch_faces
from kinematics.geometry.kernels.tree_arrays import R_LEAST, R_MOST, STACK
from kinematics.geometry.kernels.triangle_blocks import no_blocks
from kinematics.geometry.kernels.triangle_lanes import triangles_squared_lanes, write_pair
from kinematics.geometry.kernels.vectors import point
from kinematics.geometry.kernels.watching import count_some, told_to_stop

#: Columns of a patch row: pose, upper tooth, lower tooth, centroid, normal, area, gap, arc gap.
ROW = 12
#: More columns while pairs are added: sum of weights, and the pair that can open most.
WEIGHT, FOREMOST = 12, 13
TEETH = 64
NEVER_RAD = -7.0  # less than any opening at which anything touches


class Room(NamedTuple):
    """Memory for the triangle pairs of up to eight poses."""

    found: NDArray[np.int32]  # (n, 3) lane, upper, lower triangle: may be near
    most: NDArray[np.float64]  # (n,) how far a pair can open at most
    by_lane: NDArray[np.int32]  # (n,) places of these pairs by lane
    near: NDArray[np.int32]  # (n, 2) upper, lower triangle: pairs of one pose within the tolerance
    gaps: NDArray[np.float64]  # (n, 5) their distance, nearest point of the upper, and `most`
    order: NDArray[np.int32]  # (n,) places of near pairs by teeth
    parent: NDArray[np.int32]  # (n,) earlier near pair of the same patch, by place in the order
    row: NDArray[np.int32]  # (n,) row of the patch, where a pair is the first of its patch


@small_kernel
def _room(size):
    return Room(
        np.empty((size, 3), np.int32), np.empty(size), np.empty(size, np.int32),
        np.empty((size, 2), np.int32), np.empty((size, 5)), np.empty(size, np.int32),
        np.empty(size, np.int32), np.empty(size, np.int32),
    )  # fmt: skip


@small_kernel
def _grown(array, used):
    """Return the array, twice as long once it is full."""
    if used < array.shape[0]:
        return array
    longer = np.empty((2 * array.shape[0], array.shape[1]), array.dtype)
    longer[:used] = array[:used]
    return longer


@inner_kernel
def _by_lane(found, count, order, ends):
    """Put candidates in order of their lanes, and keep the order of the trees within.

    order: gets their places. ends: (9,) gets where in it the lanes begin and the last one ends.
    """
    ends[:] = 0
    for i in range(count):
        ends[found[i, 0] + 1] += 1
    for lane in range(WIDTH):
        ends[lane + 1] += ends[lane]
    for i in range(count):
        order[ends[found[i, 0]]] = i
        ends[found[i, 0]] += 1
    for lane in range(WIDTH, 0, -1):
        ends[lane] = ends[lane - 1]
    ends[0] = 0


@inner_kernel
def _near_pairs(up, lo, poses, lane, tolerance, room, first, last, corners, out):
    """Write the pairs of one lane that lie within the tolerance; return how many.

    first, last: part of `by_lane` that holds them.
    """
    found, most, near, gaps, here = room.found, room.most, room.near, room.gaps, room.by_lane
    number, pose = 0, lane_pose(poses, lane)
    for start in range(first, last, WIDTH):
        for k in range(WIDTH):
            i = here[min(start + k, last - 1)]
            write_pair(up, lo, pose, found[i, 1], found[i, 2], corners, k)
        triangles_squared_lanes(corners, out)
        for k in range(min(WIDTH, last - start)):
            if out[0, k] <= tolerance * tolerance:
                i = here[start + k]
                near[number, 0], near[number, 1] = found[i, 1], found[i, 2]
                gaps[number, 0], gaps[number, 1] = math.sqrt(out[0, k]), out[1, k]
                gaps[number, 2], gaps[number, 3], gaps[number, 4] = out[2, k], out[3, k], most[i]
                number += 1
    return number


@inner_kernel
def _by_teeth(up, lo, room, count, first_of, teeth):
    """Put near pairs in order of their teeth, and keep the order of the trees within.

    first_of: (64 * 64,) zeros, left so. teeth: (64 * 64,) gets the tooth pairs in order.
    """
    near, order = room.near, room.order
    kinds = 0
    for i in range(count):
        pair = TEETH * up.tooth[near[i, 0]] + lo.tooth[near[i, 1]]
        if first_of[pair] == 0:
            place = kinds
            while place > 0 and teeth[place - 1] > pair:
                teeth[place] = teeth[place - 1]
                place -= 1
            teeth[place] = pair
            kinds += 1
        first_of[pair] += 1
    start = 0
    for k in range(kinds):
        start, first_of[teeth[k]] = start + first_of[teeth[k]], start
    for i in range(count):
        pair = TEETH * up.tooth[near[i, 0]] + lo.tooth[near[i, 1]]
        order[first_of[pair]] = i
        first_of[pair] += 1
    for k in range(kinds):
        first_of[teeth[k]] = 0


@inner_kernel
def _root(parent, i):
    """Return the first member of a set, and shorten the way to it for the next who asks."""
    while parent[i] != i:
        parent[i] = parent[parent[i]]
        i = parent[i]
    return i


@inner_kernel
def _join(parent, i, j):
    """Join two sets; the earlier member names the set."""
    i, j = _root(parent, i), _root(parent, j)
    parent[max(i, j)] = min(i, j)


@inner_kernel
def _join_pairs(up, lo, room, count, holder):
    """Join near pairs of the same teeth that share an upper vertex. holder: (v,) -1, left so."""
    near, order, parent = room.near, room.order, room.parent
    i = 0
    while i < count:
        iu, il = near[order[i], 0], near[order[i], 1]
        j = i
        while (
            j < count
            and up.tooth[near[order[j], 0]] == up.tooth[iu]
            and lo.tooth[near[order[j], 1]] == lo.tooth[il]
        ):
            parent[j] = j
            for k in range(3):
                v = up.faces[near[order[j], 0], k]
                if holder[v] >= 0:
                    _join(parent, j, holder[v])
                holder[v] = j
            j += 1
        for m in range(i, j):
            for k in range(3):
                holder[up.faces[near[order[m], 0], k]] = -1
        i = j


@inner_kernel
def _add_pair(up, lo, iu, il, gaps, p, tolerance, poses, lane, rows, row, work):
    """Add one near pair to the sums of its patch (lower's frame)."""
    first, second, centre, normal = work
    pose = lane_pose(poses, lane)
    area = shared_area(
        moved_corner(pose, up.vertices, up.faces[iu, 0]),
        moved_corner(pose, up.vertices, up.faces[iu, 1]),
        moved_corner(pose, up.vertices, up.faces[iu, 2]),
        point(lo.vertices, lo.faces[il, 0]),
        point(lo.vertices, lo.faces[il, 1]),
        point(lo.vertices, lo.faces[il, 2]),
        tolerance, first, second, centre, normal,
    )  # fmt: skip
    if area == 0.0:
        centre[0], centre[1], centre[2] = gaps[p, 1], gaps[p, 2], gaps[p, 3]
    # A touch of edge or corner has no area; a trace of weight still gives it a place.
    weight = area + 1e-9
    sign = 1.0 if normal[2] * centre[0] - normal[0] * centre[2] >= 0.0 else -1.0
    for k in range(3):
        rows[row, 3 + k] += weight * centre[k]
        rows[row, 6 + k] += weight * sign * normal[k]
    rows[row, 9] += area
    rows[row, 10] = min(rows[row, 10], gaps[p, 0])
    rows[row, WEIGHT] += weight
    if rows[row, FOREMOST] < 0.0 or gaps[p, 4] > gaps[int(rows[row, FOREMOST]), 4]:
        rows[row, FOREMOST] = p


@inner_kernel
def _arc_gap(up, lo, iu, il, poses, lane, known, best, ids):
    """Length of the closing arc after which two triangles touch; inf if not sooner than known."""
    # Whatever its radius, a contact at a lesser opening than this would have the longer arc.
    leaf = lo.leaf[il]
    radius = lo.around[leaf, R_LEAST] if known > 0.0 else lo.around[leaf, R_MOST]
    late = max(-known / radius - 1e-9 if radius > 0.0 else -np.inf, NEVER_RAD)
    best[0, lane], best[4, lane], best[5, lane] = late, math.cos(late), math.sin(late)
    ids[lane, 0] = -1
    touch_faces(up, lo, iu, il, True, poses, lane, lane, best, ids)
    if ids[lane, 0] < 0:
        return np.inf
    return -best[0, lane] * math.sqrt(best[1, lane] ** 2 + best[3, lane] ** 2)


@inner_kernel
def _arc_gaps(up, lo, room, count, poses, lane, rows, best, ids):
    """Least arc gap of every patch; first of the pair that may open most, which rules out most."""
    near, gaps, order, parent = room.near, room.gaps, room.order, room.parent
    for i in range(count):
        if parent[i] == i:
            row = room.row[i]
            p = int(rows[row, FOREMOST])
            iu, il = near[p, 0], near[p, 1]
            rows[row, 11] = _arc_gap(up, lo, iu, il, poses, lane, np.inf, best, ids)
    for i in range(count):
        row, p = room.row[_root(parent, i)], order[i]
        known = rows[row, 11]
        # It closes by so much at least, along an arc of this radius at least.
        radius = lo.around[lo.leaf[near[p, 1]], R_LEAST]
        if gaps[p, 4] > -np.inf and -gaps[p, 4] * radius <= known:
            gap = _arc_gap(up, lo, near[p, 0], near[p, 1], poses, lane, known, best, ids)
            rows[row, 11] = min(known, gap)


@bare_kernel
def _finish(rows, row, weight, poses, n):
    """Turn sums into means and bring place and direction into the hinge frame."""
    x, y, z = rows[row, 3] / weight, rows[row, 4] / weight, rows[row, 5] / weight
    nx, ny, nz = rows[row, 6], rows[row, 7], rows[row, 8]
    length = math.sqrt(nx * nx + ny * ny + nz * nz)
    if length == 0.0:
        nz, length = 1.0, 1.0
    for k in range(3):
        p0, p1, p2 = poses[n, k, 0], poses[n, k, 1], poses[n, k, 2]
        rows[row, 3 + k] = p0 * x + p1 * y + p2 * z + poses[n, k, 3]
        rows[row, 6 + k] = (p0 * nx + p1 * ny + p2 * nz) / length


@small_kernel
def _pose_patches(up, lo, room, count, tolerance, lanes, lane, poses, n, tools, rows, used):
    """Add the patches of one pose to the rows; return them and how many there are."""
    work, best, ids, holder, first_of, teeth = tools
    near, order, parent = room.near, room.order, room.parent
    _by_teeth(up, lo, room, count, first_of, teeth)
    _join_pairs(up, lo, room, count, holder)
    start = used
    for i in range(count):
        p, root = order[i], _root(parent, i)
        iu, il = near[p, 0], near[p, 1]
        if root == i:
            rows = _grown(rows, used)
            rows[used, :] = 0.0
            rows[used, 0], rows[used, 1], rows[used, 2] = n, up.tooth[iu], lo.tooth[il]
            rows[used, 10] = np.inf
            rows[used, FOREMOST] = -1.0
            room.row[i] = used
            used += 1
        row = room.row[root]
        _add_pair(up, lo, iu, il, room.gaps, p, tolerance, lanes, lane, rows, row, work)
    _arc_gaps(up, lo, room, count, lanes, lane, rows, best, ids)
    for row in range(start, used):
        _finish(rows, row, rows[row, WEIGHT], poses, n)
    return rows, used


@kernel
def contact_patches(up, lo, roots, poses, first, last, tolerance, behind, scratch, watch):
    """Patches of poses first to last; rows of `ROW` numbers ordered by pose and tooth pair.

    roots: upper and lower node that hold all that is looked at. behind: the lower reaches behind
    the axis.
    """
    where, state, bounds = scratch
    rows, used = np.empty((256, ROW + 2)), 0
    room = _room(65536)
    stack, line = np.empty((STACK, 3), np.int64), np.empty((2, WIDTH))
    opens = np.empty((1, WIDTH), np.float32)
    corners, out, lanes = np.empty((18, WIDTH)), np.empty((4, WIDTH)), np.empty((12, WIDTH))
    tools = (
        (np.empty((10, 3)), np.empty((10, 3)), np.empty(3), np.empty(3)),
        np.empty((6, WIDTH)), np.empty((WIDTH, 5), np.int64),
        np.full(up.vertices.shape[0], -1, np.int32),
        np.zeros(TEETH * TEETH, np.int32), np.empty(TEETH * TEETH, np.int32),
    )  # fmt: skip
    blocks, near, ends = no_blocks(), np.empty(WIDTH, np.int64), np.empty(WIDTH + 1, np.int64)
    start, width = first, WIDTH
    while start < last:
        if told_to_stop(watch):
            break
        width = min(width, last - start)
        write_lanes(poses, start, width, lanes)
        begin_rows(where, state)
        count = near_candidates(
            up, lo, roots, lanes, where, state, bounds, tolerance, behind, (1 << width) - 1, stack,
            line, opens, blocks, near, room.found, room.most,
        )  # fmt: skip
        if count < 0:
            # Surfaces that lie on each other: fewer poses at a time, then more room.
            if width > 1:
                width //= 2
            else:
                room = _room(2 * len(room.most))
            continue
        _by_lane(room.found, count, room.by_lane, ends)
        for lane in range(width):
            number = _near_pairs(
                up, lo, lanes, lane, tolerance, room, ends[lane], ends[lane + 1], corners, out
            )
            rows, used = _pose_patches(
                up, lo, room, number, tolerance, lanes, lane, poses, start + lane, tools, rows,
                used,
            )  # fmt: skip
        count_some(watch, width)
        start += width
        width = WIDTH
    return rows[:used, :ROW].copy()
