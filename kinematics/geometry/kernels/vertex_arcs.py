"""Arc gap of every vertex of one arch to the surface of the other, least over poses.

How far a vertex of the lower still has to go, on its circle about the hinge axis, to where it first
meets the upper coming from wide open; negative where it is past that place. For a vertex of the
upper the circle is the same, but it is the surface of the lower that comes. Found as first contacts
are: both arches are gone through at once, eight poses at a time, and nodes are held against each
other by their places along the axis, from it and around it.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel
from kinematics.geometry.kernels.features import angle_of, circle_on_face
from kinematics.geometry.kernels.lanes import WIDTH, load, not_below, size, spread
from kinematics.geometry.kernels.moved_nodes import begin_rows, pair_bound, row_of
from kinematics.geometry.kernels.placing import lane_pose, moved_corner, write_lanes
from kinematics.geometry.kernels.tree_arrays import (
    ANGLE,
    PLANE,
    R_LEAST,
    R_MOST,
    RIGHT,
    S_LEAST,
    S_MOST,
    SIDES,
    SLOPE_R,
    SLOPE_S,
    STACK,
    START,
)
from kinematics.geometry.kernels.tree_points import end_of, points_of
from kinematics.geometry.kernels.vectors import point, three
from kinematics.geometry.kernels.watching import count_some, told_to_stop

#: A node with so few vertices is not parted further: they are looked at one by one.
GROUP = 32
#: Bounds are kept above what rounding and the slack of features can add: mm, rad.
SLACK_MM, SLACK_RAD = 1e-8, 1e-8


@inner_kernel
def _size_squared(slab, node):
    """Squared distance of the corners of a node's box from its middle."""
    h0, h1, h2 = three(slab, node, SIDES)
    return h0 * h0 + h1 * h1 + h2 * h2


@inner_kernel
def _in_time(bound, worst, r_least, r_most):
    """Lanes in which a contact at an opening of at most `bound` may leave less than a gap."""
    if worst == -math.inf:
        return 0
    least = spread(np.float32(-worst)) / (r_least if worst >= 0.0 else r_most)
    # What short lanes round is less than this.
    slack = spread(np.float32(1e-6)) * size(least) + spread(np.float32(1e-7))
    return not_below(bound + slack, least)


@inner_kernel
def _near_nodes(up, lo, own_is_upper, poses, where, state, bounds, line, a, worst, near, lanes_of,
                first, last, stack):  # fmt: skip
    """Add to `near` what lies below near[first:last] and content of node a may meet in time.

    Nodes larger than node a are parted. lanes_of: lanes in which that is so. Returns the new end,
    -1 if there is no room.
    """
    other, own = (lo, up) if own_is_upper else (up, lo)
    size2, row = _size_squared(own.slab, a), 0
    if own_is_upper:
        row = row_of(poses, up, a, where, state, bounds, line)
        r_least, r_most = load(bounds, row, R_LEAST * WIDTH), load(bounds, row, R_MOST * WIDTH)
    else:
        r_least, r_most = spread(lo.around[a, R_LEAST]), spread(lo.around[a, R_MOST])
    end = last
    for i in range(first, last):
        stack[0, 0], stack[0, 1] = near[i], lanes_of[i]
        top = 1
        while top > 0:
            top -= 1
            b, lanes = stack[top, 0], stack[top, 1]
            if own_is_upper:
                bound = pair_bound(bounds, row, lo.around, b, lanes)
            else:
                row = row_of(poses, up, b, where, state, bounds, line)
                bound = pair_bound(bounds, row, lo.around, a, lanes)
            lanes &= _in_time(bound, worst, r_least, r_most)
            if lanes == 0:
                continue
            right = other.links[b, RIGHT]
            if right == 0 or _size_squared(other.slab, b) <= size2:
                if end == near.shape[0]:
                    return -1
                near[end], lanes_of[end] = b, lanes
                end += 1
            else:
                stack[top, 0], stack[top, 1] = right, lanes
                stack[top + 1, 0], stack[top + 1, 1] = b + 1, lanes
                top += 2
    return end


@inner_kernel
def _beside(s, r, s_least, s_most, r_least, r_most):
    """Tell whether a circle about the axis passes through the ranges of a node."""
    return (
        s_least - SLACK_MM <= s <= s_most + SLACK_MM
        and r_least - SLACK_MM <= r <= r_most + SLACK_MM
    )


@inner_kernel
def _most_on_lower(rows, b, s, r, angle):
    """Greatest opening at which a point of the upper may meet content of a lower node."""
    if not _beside(s, r, rows[b, S_LEAST], rows[b, S_MOST], rows[b, R_LEAST], rows[b, R_MOST]):
        return -math.inf
    plane = (
        np.float64(rows[b, PLANE])
        + np.float64(rows[b, SLOPE_S]) * s
        + np.float64(rows[b, SLOPE_R]) * r
    )
    return angle - max(np.float64(rows[b, ANGLE]), plane) + SLACK_RAD


@inner_kernel
def _most_on_upper(rows, row, lane, s, r, angle):
    """Greatest opening at which a point of the lower may meet content of a moved upper node."""
    if not _beside(
        s, r, rows[row, S_LEAST * WIDTH + lane], rows[row, S_MOST * WIDTH + lane],
        rows[row, R_LEAST * WIDTH + lane], rows[row, R_MOST * WIDTH + lane],
    ):  # fmt: skip
        return -math.inf
    slope_s, slope_r = rows[row, SLOPE_S * WIDTH + lane], rows[row, SLOPE_R * WIDTH + lane]
    plane = (
        np.float64(rows[row, PLANE * WIDTH + lane])
        + np.float64(slope_s) * s
        + np.float64(slope_r) * r
    )
    return min(np.float64(rows[row, ANGLE * WIDTH + lane]), plane) - angle + SLACK_RAD


@inner_kernel
def _corners(up, lo, own_is_upper, pose, f):
    """Return the corners of a triangle of the other arch, as the lower has them."""
    if own_is_upper:
        return (
            point(lo.vertices, lo.faces[f, 0]),
            point(lo.vertices, lo.faces[f, 1]),
            point(lo.vertices, lo.faces[f, 2]),
        )
    a = moved_corner(pose, up.vertices, up.faces[f, 0])
    b = moved_corner(pose, up.vertices, up.faces[f, 1])
    c = moved_corner(pose, up.vertices, up.faces[f, 2])
    return (a[0], a[1], a[2]), (b[0], b[1], b[2]), (c[0], c[1], c[2])


@bare_kernel
def _opening(up, lo, own_is_upper, poses, lane, where, state, bounds, line, near, lanes_of,
             first, last, place, best, stack):  # fmt: skip
    """Greatest opening at which a point meets near[first:last] in one lane, if above `best`.

    place: x, y, z, r squared of the point, as the lower has it.
    """
    pose = lane_pose(poses, lane)
    links = lo.links if own_is_upper else up.links
    s, r, angle = place[1], math.sqrt(place[3]), angle_of(place[0], place[2])
    for i in range(first, last):
        if lanes_of[i] >> lane & 1 == 0:
            continue
        stack[0, 0] = near[i]
        top = 1
        while top > 0:
            top -= 1
            b = stack[top, 0]
            if own_is_upper:
                most = _most_on_lower(lo.around, b, s, r, angle)
            else:
                row = row_of(poses, up, b, where, state, bounds, line)
                most = _most_on_upper(bounds, row, lane, s, r, angle)
            if most <= best:
                continue
            right = links[b, RIGHT]
            if right != 0:
                stack[top, 0], stack[top + 1, 0] = right, b + 1
                top += 2
                continue
            p, q, w = _corners(up, lo, own_is_upper, pose, links[b, START])
            count, one, two = circle_on_face(s, place[3], p, q, w)
            for k in range(count):
                x, z = one if k == 0 else two
                turn = angle - angle_of(x, z)
                best = max(best, turn if own_is_upper else -turn)
    return best


@inner_kernel
def _group(up, lo, own_is_upper, points, poses, where, state, bounds, line, v0, v1, start, near,
           lanes_of, first, last, limit, best, at, stack):  # fmt: skip
    """Bring the vertices of a small node up to date; return the greatest of their gaps."""
    every = 0
    for i in range(first, last):
        every |= lanes_of[i]
    most = -math.inf
    for lane in range(WIDTH):
        if every >> lane & 1 == 0:
            continue
        pose = lane_pose(poses, lane)
        for v in range(v0, v1):
            if own_is_upper:
                place = moved_corner(pose, points.places, v)
            else:
                x, y, z = point(points.places, v)
                place = x, y, z, x * x + z * z
            r = math.sqrt(place[3])
            # What this gap would be an opening of, and a little less: rounding must not decide.
            known = -best[v] / r - SLACK_RAD if r > 0.0 else -math.inf
            opening = _opening(
                up, lo, own_is_upper, poses, lane, where, state, bounds, line, near, lanes_of,
                first, last, place, known, stack,
            )  # fmt: skip
            gap = 0.0 - opening * r
            if opening > known and gap < best[v]:
                best[v] = gap if gap >= -limit else -math.inf
                if at.shape[0] > 0:
                    at[v] = start + lane
    for v in range(v0, v1):
        most = max(most, best[v])
    return most


@bare_kernel
def _search(up, lo, own_is_upper, points, poses, wanted, where, state, bounds, line, root, start,
            limit, best, at, worst, near, lanes_of, stack, todo):  # fmt: skip
    """Bring the vertices below one node up to date in some poses; return whether there was room.

    worst: (k,) greatest of the gaps below each node.
    """
    links = up.links if own_is_upper else lo.links
    near[0], lanes_of[0] = 0, wanted
    todo[0, 0], todo[0, 1], todo[0, 2] = root, 0, 1
    top = 1
    while top > 0:
        top -= 1
        a, first, last = todo[top, 0], todo[top, 1], todo[top, 2]
        right = links[a, RIGHT]
        if first < 0:  # both children are done
            worst[a] = max(worst[a + 1], worst[right])
            continue
        v0, v1 = points_of(links, points, a)
        if v0 == v1:
            worst[a] = -math.inf
            continue
        end = _near_nodes(
            up, lo, own_is_upper, poses, where, state, bounds, line, a,
            worst[a], near, lanes_of, first, last, stack,
        )  # fmt: skip
        if end < 0:
            return False
        if end == last:
            continue
        if right == 0 or v1 - v0 <= GROUP:
            worst[a] = _group(
                up, lo, own_is_upper, points, poses, where, state, bounds, line, v0, v1, start,
                near, lanes_of, last, end, limit, best, at, stack,
            )  # fmt: skip
            continue
        todo[top, 0], todo[top, 1] = a, -1
        todo[top + 1, 0], todo[top + 1, 1], todo[top + 1, 2] = right, last, end
        todo[top + 2, 0], todo[top + 2, 1], todo[top + 2, 2] = a + 1, last, end
        top += 3
    return True


@kernel
def least_arc_gaps(
    up, lo, own_is_upper, points, poses, span, roots, first, last, limit, scratch, watch, best, at
):  # fmt: skip
    """Arc gap of every vertex, the least over each run of `span` poses.

    Work is counted in parts: part i is what lies below roots[i % k], of k roots, in run i // k.
    points: the own vertices. poses: hinge_from_lower. best: (runs, p + 1), mm; inf beyond the
    limit, -inf beyond it the other way. at: (runs, p + 1), or (runs, 0) if not wanted: the first
    pose of the least gap, -1 where it is inf.
    """
    where, state, bounds = scratch
    above = np.nextafter(limit, np.inf)
    lanes, line = np.empty((12, WIDTH)), np.empty((2, WIDTH))
    stack, todo = np.empty((STACK, 2), np.int64), np.empty((STACK, 3), np.int64)
    near, lanes_of = np.empty(4096, np.int64), np.empty(4096, np.int64)
    links = up.links if own_is_upper else lo.links
    worst = np.empty(links.shape[0])
    for i in range(first, last):
        root, run = roots[i % roots.shape[0]], i // roots.shape[0]
        v0, v1 = points_of(links, points, root)
        best_here, at_here = best[run], at[run]
        best_here[v0:v1], at_here[v0:v1] = above, -1
        worst[root : end_of(links, root)] = above
        for start in range(run * span, run * span + span, WIDTH):
            if told_to_stop(watch):
                return
            width = min(WIDTH, run * span + span - start)
            write_lanes(poses, start, width, lanes)
            begin_rows(where, state)
            while not _search(
                up, lo, own_is_upper, points, lanes, (1 << width) - 1, where, state, bounds, line,
                root, start, limit, best_here, at_here, worst, near, lanes_of, stack, todo,
            ):  # fmt: skip
                near = np.empty(2 * near.shape[0], np.int64)
                lanes_of = np.empty(near.shape[0], np.int64)
            count_some(watch, width)
        for v in range(v0, v1):
            if best_here[v] == above:
                best_here[v] = np.inf
