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
)

#: The angle that a distance x r spans is at most this times x, for x up to 1/2.
SPANS = 1.05


@inner_kernel
def _near_lanes(bounds, row, around, b, tolerance, wanted):
    """Lanes in which two nodes come within the tolerance by all their bounds."""
    # Short floats are exact enough: far closer than to the tolerance and a nanometre.
    reach = spread(np.float32(tolerance * SPANS + 1e-5))
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
    aslant, turn = spread(steepest) * reach, spread(per_mm) * reach
    wanted &= not_below(both + aslant, spread(np.float32(0.0)))
    single = load(bounds, row, ANGLE * WIDTH) - spread(around[b, ANGLE])
    return wanted & not_below(single + turn, spread(np.float32(0.0)))


@inner_kernel
def lanes_within(bounds, row, around, b, tolerance, behind, wanted):
    """Lanes in which content of an upper and a lower node may lie within the tolerance.

    behind: the lower reaches behind the axis, where angles begin anew.
    """
    if behind:
        return _beside(bounds, row, around, b, tolerance, wanted)
    return _near_lanes(bounds, row, around, b, tolerance, wanted)


@bare_kernel
def near_candidates(up, lo, poses, where, state, bounds, tolerance, behind, wanted, stack, work,
                    opens, found, most_opening):  # fmt: skip
    """Triangle pairs that may lie within the tolerance; return how many, -1 if they do not fit.

    behind: see `lanes_within`. found: (n, 3) lane, upper, lower triangle; most_opening: (n,) how
    far, at most, the pair would have to open.
    """
    stack[0, 0], stack[0, 1], stack[0, 2] = 0, 0, wanted
    top, count = 1, 0
    while top > 0:
        top -= 1
        a, b, lanes = stack[top, 0], stack[top, 1], stack[top, 2]
        leaf_a, leaf_b = up.links[a, RIGHT] == 0, lo.links[b, RIGHT] == 0
        if leaf_a and leaf_b:
            if count + WIDTH > found.shape[0]:
                return -1
            row = row_of(poses, up, a, where, state, bounds, work)
            store(opens, 0, 0, pair_bound(bounds, row, lo.around, b, lanes))
            for k in range(WIDTH):
                if lanes >> k & 1:
                    found[count, 0] = k
                    found[count, 1], found[count, 2] = up.links[a, START], lo.links[b, START]
                    most_opening[count] = opens[0, k]
                    count += 1
            continue
        for i in range(1 if leaf_a else 2):
            u = a if leaf_a else (a + 1 if i == 0 else up.links[a, RIGHT])
            row = row_of(poses, up, u, where, state, bounds, work)
            for j in range(1 if leaf_b else 2):
                v = b if leaf_b else (b + 1 if j == 0 else lo.links[b, RIGHT])
                some = lanes_within(bounds, row, lo.around, v, tolerance, behind, lanes)
                if some != 0:
                    stack[top, 0], stack[top, 1], stack[top, 2] = u, v, some
                    top += 1
    return count


@inner_kernel
def _beside(bounds, row, around, b, tolerance, wanted):
    """Lanes in which two nodes come within the tolerance along the axis and outward."""
    reach = spread(np.float32(tolerance * SPANS + 1e-5))
    s0 = greater(load(bounds, row, S_LEAST * WIDTH), spread(around[b, S_LEAST]))
    s1 = lesser(load(bounds, row, S_MOST * WIDTH), spread(around[b, S_MOST]))
    r0 = greater(load(bounds, row, R_LEAST * WIDTH), spread(around[b, R_LEAST]))
    r1 = lesser(load(bounds, row, R_MOST * WIDTH), spread(around[b, R_MOST]))
    return wanted & not_below(s1 + reach, s0 - reach) & not_below(r1 + reach, r0 - reach)
