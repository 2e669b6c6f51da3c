"""Triangle pairs that may lie within a tolerance of each other, for eight poses at a time.

Two points within a tolerance differ little in s, r and angle. So the bounds that tell how far the
lower could close also tell which nodes may hold such points, and they fit surfaces far better than
boxes do.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel
from kinematics.geometry.kernels.lanes import WIDTH, greater, lesser, load, not_below, spread, store
from kinematics.geometry.kernels.moved_nodes import pair_bound, row_of
from kinematics.geometry.kernels.placing import lane_pose, moved_corner
from kinematics.geometry.kernels.tree_arrays import (
    ANGLE,
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
from kinematics.geometry.kernels.triangle_blocks import near_lanes, place_of, small

#: Points a distance x r apart, one of them at r, differ in s, r and r times the angle by no more
#: than x (1 + this times x) r in all, for x up to 1/2, though the other may lie nearer to the axis.
BENDS = np.float32(0.3)


@inner_kernel
def span_of(tolerance):
    """Return a tolerance with all that bounds in short floats may take from it."""
    return np.float32(tolerance * (1.0 + 1e-6) + 1e-5)


@inner_kernel
def _near_lanes(bounds, row, around, b, reach, tolerance, wanted):
    """Lanes in which two nodes come within the tolerance by all their bounds."""
    s0 = greater(load(bounds, row, S_LEAST * WIDTH), spread(around[b, S_LEAST])) - reach
    s1 = lesser(load(bounds, row, S_MOST * WIDTH), spread(around[b, S_MOST])) + reach
    r0 = greater(load(bounds, row, R_LEAST * WIDTH), spread(around[b, R_LEAST])) - reach
    r1 = lesser(load(bounds, row, R_MOST * WIDTH), spread(around[b, R_MOST])) + reach
    wanted &= not_below(s1, s0) & not_below(r1, r0)
    if wanted == 0:
        return 0
    radius = around[b, R_LEAST]
    if radius < 2.0 * tolerance:
        return wanted
    # Content may differ along the axis, outward and around, by all of the tolerance in the end.
    slope_s, slope_r = around[b, SLOPE_S], around[b, SLOPE_R]
    per_mm = np.float32(1.0) / radius
    steepest = np.float32(math.sqrt(slope_s * slope_s + slope_r * slope_r + per_mm * per_mm))
    gs = load(bounds, row, SLOPE_S * WIDTH) - spread(slope_s)
    gr = load(bounds, row, SLOPE_R * WIDTH) - spread(slope_r)
    level = load(bounds, row, PLANE * WIDTH) - spread(around[b, PLANE])
    both = level + greater(gs * s0, gs * s1) + greater(gr * r0, gr * r1)
    reach = reach + reach * reach * spread(per_mm * BENDS)
    aslant, turn = spread(steepest) * reach, spread(per_mm) * reach
    wanted &= not_below(both + aslant, spread(np.float32(0.0)))
    single = load(bounds, row, ANGLE * WIDTH) - spread(around[b, ANGLE])
    return wanted & not_below(single + turn, spread(np.float32(0.0)))


@inner_kernel
def lanes_within(bounds, row, around, b, reach, tolerance, behind, wanted):
    """Lanes in which content of an upper and a lower node may lie within a tolerance.

    reach: `span_of` the tolerance of each lane. tolerance: not less than any of them. behind: the
    lower reaches behind the axis, where angles begin anew.
    """
    if behind:
        return _beside(bounds, row, around, b, reach, wanted)
    return _near_lanes(bounds, row, around, b, reach, tolerance, wanted)


@inner_kernel
def _block_pairs(up, lo, a, b, poses, lanes, where, state, bounds, tolerance, behind, blocks,
                 work, opens, near, found, most_opening, count):  # fmt: skip
    """Write the triangle pairs of two small nodes that may be near; return how many there are."""
    reach = spread(span_of(tolerance))
    first = lo.links[b, START]
    every = (1 << (lo.links[b, STOP] - first)) - 1
    for iu in range(up.links[a, START], up.links[a, STOP]):
        row = row_of(poses, up, up.leaf[iu], where, state, bounds, work)
        able = lanes_within(bounds, row, lo.around, b, reach, tolerance, behind, lanes)
        if able == 0:
            continue
        place = place_of(blocks, lo, b)
        some = 0
        for k in range(WIDTH):
            near[k] = 0
            if able >> k & 1:
                pose = lane_pose(poses, k)
                near[k] = every & near_lanes(
                    blocks,
                    place,
                    moved_corner(pose, up.vertices, up.faces[iu, 0]),
                    moved_corner(pose, up.vertices, up.faces[iu, 1]),
                    moved_corner(pose, up.vertices, up.faces[iu, 2]),
                    tolerance,
                )
                some |= near[k]
        if some == 0:
            continue
        for j in range(WIDTH):
            if some >> j & 1:
                bits = 0
                for k in range(WIDTH):
                    bits |= (near[k] >> j & 1) << k
                store(opens, 0, 0, pair_bound(bounds, row, lo.around, lo.leaf[first + j], bits))
                for k in range(WIDTH):
                    if bits >> k & 1:
                        found[count, 0], found[count, 1], found[count, 2] = k, iu, first + j
                        most_opening[count] = opens[0, k]
                        count += 1
    return count


@bare_kernel
def near_candidates(up, lo, roots, poses, where, state, bounds, tolerance, behind, wanted, stack,
                    work, opens, blocks, near, found, most_opening):  # fmt: skip
    """Triangle pairs that may lie within the tolerance; return how many, -1 if they do not fit.

    roots: upper and lower node that hold all that is looked at. behind: see `lanes_within`. found:
    (n, 3) lane, upper, lower triangle; most_opening: (n,) how far, at most, the pair would have to
    open.
    """
    stack[0, 0], stack[0, 1], stack[0, 2] = roots[0], roots[1], wanted
    top, count = 1, 0
    reach = spread(span_of(tolerance))
    while top > 0:
        top -= 1
        a, b, lanes = stack[top, 0], stack[top, 1], stack[top, 2]
        small_a, small_b = small(up.links, a), small(lo.links, b)
        if small_a and small_b:
            if count + WIDTH * WIDTH * WIDTH > found.shape[0]:
                return -1
            count = _block_pairs(
                up, lo, a, b, poses, lanes, where, state, bounds, tolerance, behind, blocks, work,
                opens, near, found, most_opening, count,
            )  # fmt: skip
            continue
        for i in range(1 if small_a else 2):
            u = a if small_a else (a + 1 if i == 0 else up.links[a, RIGHT])
            row = row_of(poses, up, u, where, state, bounds, work)
            for j in range(1 if small_b else 2):
                v = b if small_b else (b + 1 if j == 0 else lo.links[b, RIGHT])
                some = lanes_within(bounds, row, lo.around, v, reach, tolerance, behind, lanes)
                if some != 0:
                    stack[top, 0], stack[top, 1], stack[top, 2] = u, v, some
                    top += 1
    return count


@inner_kernel
def _beside(bounds, row, around, b, reach, wanted):
    """Lanes in which two nodes come within the tolerance along the axis and outward."""
    s0 = greater(load(bounds, row, S_LEAST * WIDTH), spread(around[b, S_LEAST]))
    s1 = lesser(load(bounds, row, S_MOST * WIDTH), spread(around[b, S_MOST]))
    r0 = greater(load(bounds, row, R_LEAST * WIDTH), spread(around[b, R_LEAST]))
    r1 = lesser(load(bounds, row, R_MOST * WIDTH), spread(around[b, R_MOST]))
    return wanted & not_below(s1 + reach, s0 - reach) & not_below(r1 + reach, r0 - reach)
