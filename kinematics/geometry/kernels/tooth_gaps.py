"""Shortest distances of whole teeth, eight poses at a time.

Each tooth pair keeps the shortest distance found so far under every pose. Node pairs that surely
lie farther apart are left out, nearer ones are opened first, and the triangles that were nearest in
the poses before are tried at once: they are seldom far from the nearest again.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from kinematics.geometry.kernels.compiling import inner_kernel, kernel, small_kernel
from kinematics.geometry.kernels.distances import between, boxes_apart, moved_box
from kinematics.geometry.kernels.lanes import (
    WIDTH,
    choose,
    greatest,
    load,
    not_below,
    spread,
    store,
)
from kinematics.geometry.kernels.moved_nodes import begin_rows, row_of
from kinematics.geometry.kernels.near_triangles import lanes_within, span_of
from kinematics.geometry.kernels.placing import lane_pose, moved_corner, write_lanes
from kinematics.geometry.kernels.tree_arrays import ONLY, RIGHT, STACK, START, STOP
from kinematics.geometry.kernels.triangle_blocks import (
    near_lanes,
    no_blocks,
    place_of,
    small,
)
from kinematics.geometry.kernels.triangle_lanes import (
    triangles_squared_lanes,
    write_pair,
)
from kinematics.geometry.kernels.vectors import dot
from kinematics.geometry.kernels.watching import count_some, told_to_stop

#: Where a distance is known, nothing is near enough to be looked at.
KNOWN = np.float32(-1.0)


class Nearest(NamedTuple):
    """What is known of p tooth pairs; one row more stands for all that is not one pair."""

    least_mm: NDArray[np.float64]  # (p + 1, 8) shortest distance so far
    span: NDArray[np.float32]  # (p + 1, 8) the same as bounds want it; see `span_of`
    faces: NDArray[np.int64]  # (p, 2) upper and lower triangle that were nearest last; -1 for none


class Trial(NamedTuple):
    """Up to eight triangle pairs of one tooth pair, to be measured together."""

    corners: NDArray[np.float64]  # (18, 8)
    out: NDArray[np.float64]  # (4, 8)
    named: NDArray[np.int64]  # (8, 3) lane, upper, lower triangle


@inner_kernel
def _measure(trial, count, nearest, p):
    """Measure the triangle pairs of a trial, and keep what is nearer than before."""
    triangles_squared_lanes(trial.corners, trial.out)
    for i in range(count):
        lane, gap = trial.named[i, 0], math.sqrt(trial.out[0, i])
        if gap < nearest.least_mm[p, lane]:
            nearest.least_mm[p, lane] = gap
            nearest.span[p, lane] = span_of(gap)
            nearest.faces[p, 0], nearest.faces[p, 1] = (
                trial.named[i, 1],
                trial.named[i, 2],
            )


@inner_kernel
def _try(up, lo, pose, lane, iu, il, trial, count, nearest, p):
    """Add a triangle pair to a trial, which is measured when it is full; return its new count."""
    write_pair(up, lo, pose, iu, il, trial.corners, count)
    trial.named[count, 0], trial.named[count, 1], trial.named[count, 2] = lane, iu, il
    if count + 1 < WIDTH:
        return count + 1
    _measure(trial, WIDTH, nearest, p)
    return 0


@inner_kernel
def _try_last(up, lo, poses, width, trial, nearest):
    """Try in all poses the triangles that were nearest in those before."""
    for p in range(nearest.faces.shape[0]):
        iu, il = nearest.faces[p, 0], nearest.faces[p, 1]
        if iu >= 0:
            count = 0
            for lane in range(width):
                if nearest.span[p, lane] > KNOWN:
                    pose = lane_pose(poses, lane)
                    count = _try(up, lo, pose, lane, iu, il, trial, count, nearest, p)
            if count > 0:
                _measure(trial, count, nearest, p)


@inner_kernel
def _try_small(up, lo, a, b, poses, lanes, where, state, bounds, behind, blocks, work, trial,
               nearest, p, limit):  # fmt: skip
    """Try the triangles of two small nodes that may be nearer than what is known."""
    first = lo.links[b, START]
    every = (1 << (lo.links[b, STOP] - first)) - 1
    for iu in range(up.links[a, START], up.links[a, STOP]):
        row = row_of(poses, up, up.leaf[iu], where, state, bounds, work)
        span = load(nearest.span, p, 0)
        able = lanes_within(bounds, row, lo.around, b, span, limit, behind, lanes)
        if able == 0:
            continue
        place = place_of(blocks, lo, b)
        count = 0
        for lane in range(WIDTH):
            if able >> lane & 1:
                pose = lane_pose(poses, lane)
                near = every & near_lanes(
                    blocks,
                    place,
                    moved_corner(pose, up.vertices, up.faces[iu, 0]),
                    moved_corner(pose, up.vertices, up.faces[iu, 1]),
                    moved_corner(pose, up.vertices, up.faces[iu, 2]),
                    nearest.least_mm[p, lane],
                )
                for j in range(WIDTH):
                    if near >> j & 1:
                        count = _try(up, lo, pose, lane, iu, first + j, trial, count, nearest, p)
        if count > 0:
            _measure(trial, count, nearest, p)


@inner_kernel
def _kept_whole(links, node):
    """Tell whether a node is not opened: small, and of one tooth, so that its pair is known."""
    return links[node, ONLY] >= 0 and small(links, node)


@inner_kernel
def _pair_of(up, lo, a, b, numbers, all_pairs):
    """Return the number of the tooth pair of two nodes: -1 if unwanted, the last if not one."""
    upper, lower = up.links[a, ONLY], lo.links[b, ONLY]
    if upper < 0 or lower < 0:
        return all_pairs
    return numbers[upper, lower]


@small_kernel
def _search(up, lo, poses, where, state, bounds, behind, wanted, stack, order, blocks, work, trial,
            numbers, nearest, limit):  # fmt: skip
    """Bring the shortest distances of all tooth pairs up to date for up to eight poses."""
    all_pairs = nearest.faces.shape[0]
    apart, key = order
    stack[0, 0], stack[0, 1], stack[0, 2] = 0, 0, wanted
    store(apart, 0, 0, spread(np.float32(0.0)))
    top = 1
    while top > 0:
        top -= 1
        a, b, lanes = stack[top, 0], stack[top, 1], stack[top, 2]
        p = _pair_of(up, lo, a, b, numbers, all_pairs)
        # What is known may have come nearer since these were put down.
        lanes &= not_below(load(nearest.span, p, 0), load(apart, top, 0))
        if lanes == 0:
            continue
        small_a, small_b = _kept_whole(up.links, a), _kept_whole(lo.links, b)
        if small_a and small_b:
            _try_small(
                up, lo, a, b, poses, lanes, where, state, bounds, behind, blocks, work, trial,
                nearest, p, limit,
            )  # fmt: skip
            continue
        bottom = top
        for i in range(1 if small_a else 2):
            u = a if small_a else (a + 1 if i == 0 else up.links[a, RIGHT])
            row = row_of(poses, up, u, where, state, bounds, work)
            box = moved_box(poses, up, u)
            for j in range(1 if small_b else 2):
                v = b if small_b else (b + 1 if j == 0 else lo.links[b, RIGHT])
                p = _pair_of(up, lo, u, v, numbers, all_pairs)
                if p < 0:
                    continue
                span = load(nearest.span, p, 0)
                some = lanes_within(bounds, row, lo.around, v, span, limit, behind, lanes)
                if some == 0:
                    continue
                way = between(box, lo, v)
                least = boxes_apart(box, way, up, lo, u, v)
                some &= not_below(span, least)
                if some == 0:
                    continue
                far = spread(np.float32(-np.inf))
                here = -greatest(choose(some, spread(np.float32(0.0)) - dot(way, way), far))
                place = top
                while place > bottom and key[place - 1] < here:
                    stack[place, 0], stack[place, 1] = (
                        stack[place - 1, 0],
                        stack[place - 1, 1],
                    )
                    stack[place, 2], key[place] = stack[place - 1, 2], key[place - 1]
                    store(apart, place, 0, load(apart, place - 1, 0))
                    place -= 1
                stack[place, 0], stack[place, 1], stack[place, 2] = u, v, some
                store(apart, place, 0, least)
                key[place] = here
                top += 1


@inner_kernel
def _begin(nearest, gaps, start, width, limits):
    """Forget what was near in other poses, and take over what is known of these.

    Return the greatest limit.
    """
    most = 0.0
    for lane in range(width):
        limit = limits[start + lane]
        reach = limit * (1.0 + 1e-9) + 1e-9
        nearest.least_mm[:, lane] = reach
        nearest.span[:, lane] = span_of(reach)
        for p in range(gaps.shape[1]):
            if gaps[start + lane, p] <= reach:
                nearest.least_mm[p, lane] = gaps[start + lane, p]
                nearest.span[p, lane] = KNOWN
        most = max(most, limit)
    return most


@kernel
def tooth_gaps(up, lo, poses, numbers, first, last, limits, behind, scratch, watch, gaps):
    """Shortest distance of tooth pairs for poses first to last.

    numbers: (64, 64) number of each wanted pair of tooth indices, from 0; else -1. limits: (n,) how
    far is looked in each pose, above 0. behind: the lower reaches behind the axis. gaps: (n, p);
    holds gaps that are known, not beyond the limit, else inf; gets the others, inf beyond it.
    """
    where, state, bounds = scratch
    pairs = gaps.shape[1]
    nearest = Nearest(
        np.empty((pairs + 1, WIDTH)), np.empty((pairs + 1, WIDTH), np.float32),
        np.full((pairs, 2), -1, np.int64),
    )  # fmt: skip
    trial = Trial(np.zeros((18, WIDTH)), np.empty((4, WIDTH)), np.empty((WIDTH, 3), np.int64))
    stack, work = np.empty((STACK, 3), np.int64), np.empty((2, WIDTH))
    order = np.empty((STACK, WIDTH), np.float32), np.empty(STACK)
    blocks, lanes = no_blocks(), np.empty((12, WIDTH))
    nearest.span[:] = KNOWN
    for start in range(first, last, WIDTH):
        if told_to_stop(watch):
            return
        width = min(WIDTH, last - start)
        limit = _begin(nearest, gaps, start, width, limits)
        write_lanes(poses, start, width, lanes)
        begin_rows(where, state)
        _try_last(up, lo, lanes, width, trial, nearest)
        _search(
            up, lo, lanes, where, state, bounds, behind, (1 << width) - 1, stack, order, blocks,
            work, trial, numbers, nearest, limit,
        )  # fmt: skip
        for lane in range(width):
            for p in range(pairs):
                gap = nearest.least_mm[p, lane]
                gaps[start + lane, p] = gap if gap <= limits[start + lane] else np.inf
        count_some(watch, width)
