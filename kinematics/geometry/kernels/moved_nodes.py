"""Bounds of upper nodes, moved by eight poses at a time, and of what two nodes can touch.

Everything stands in the lower's frame at opening 0, as in `first_contact`.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel
from kinematics.geometry.kernels.lanes import (
    ALL,
    WIDTH,
    choose,
    greater,
    lesser,
    load,
    not_below,
    root,
    shorten,
    size,
    spread,
    store,
)
from kinematics.geometry.kernels.tree_arrays import (
    ANGLE,
    CENTRE,
    FROM,
    HALF,
    NORMAL,
    OFFSET,
    OUTWARD,
    PLANE,
    R_LEAST,
    R_MOST,
    S_LEAST,
    S_MOST,
    SLOPE_R,
    SLOPE_S,
)
from kinematics.geometry.kernels.vectors import three

#: More than rounding to a short float changes a number, as a fraction of it.
SHORT = 1.2e-7
#: More than rounding, of both planes and in each of the five steps of joining them, can take from
#: a joint bound in short lanes, as a fraction of what is added up.
JOINT = 8 * 2.0**-24
MOST_ROWS = 2_000_000_000  # that are numbered before counting begins anew
#: Place in `state` of the triangles that touched last, upper and lower, and of those that came
#: next; see `first_contact`.
SEEDS = 2
#: Length of a moved node's row: the columns of `around`, each for all lanes.
MOVED = 8 * WIDTH


@bare_kernel
def begin_rows(where, state):
    """Forget all moved nodes, since other poses come; see `row_of`."""
    state[0] += state[1]
    state[1] = 0
    if state[0] > MOST_ROWS:
        where[:] = 0
        state[0] = 1


@inner_kernel
def _angles(x, z, x0, z0, angle, work):
    """Angle about the axis in every lane: that of a point near by, and how far from it."""
    dot = x * spread(x0) + z * spread(z0)
    ratio = (x * spread(z0) - z * spread(x0)) / dot
    if not_below(spread(0.1), size(ratio)) != ALL or not_below(spread(0.0), dot) != 0:
        store(work, 0, 0, x)
        store(work, 1, 0, z)
        for k in range(WIDTH):
            work[0, k] = math.atan2(-work[1, k], work[0, k])
        return load(work, 0, 0)
    # Below 0.1 this much of the series is exact to rounding.
    q = ratio * ratio
    series = spread(1.0 / 13.0)
    series = spread(1.0 / 11.0) - q * series
    series = spread(1.0 / 9.0) - q * series
    series = spread(1.0 / 7.0) - q * series
    series = spread(1.0 / 5.0) - q * series
    series = spread(1.0 / 3.0) - q * series
    return spread(angle) + ratio * (spread(1.0) - q * series)


@inner_kernel
def move_node(poses, up, node, row, bounds, work):
    """Bound an upper node about the hinge axis under all poses: the columns of `around`.

    poses: (12, 8), rows of lower_from_hinge one after the other. bounds: row `row` is written.
    """
    p00, p01, p02, p03 = load(poses, 0, 0), load(poses, 1, 0), load(poses, 2, 0), load(poses, 3, 0)
    p10, p11, p12, p13 = load(poses, 4, 0), load(poses, 5, 0), load(poses, 6, 0), load(poses, 7, 0)
    p20, p21, p22 = load(poses, 8, 0), load(poses, 9, 0), load(poses, 10, 0)
    p23 = load(poses, 11, 0)
    cx, cy, cz = three(up.turning, node, CENTRE)
    x = p00 * spread(cx) + p01 * spread(cy) + p02 * spread(cz) + p03
    s = p10 * spread(cx) + p11 * spread(cy) + p12 * spread(cz) + p13
    z = p20 * spread(cx) + p21 * spread(cy) + p22 * spread(cz) + p23
    h0, h1, h2 = three(up.turning, node, HALF)
    far = h0 + h1 + h2
    l0, l1, l2 = spread(h0), spread(h1), spread(h2)
    ox, oz = spread(up.turning[node, OUTWARD]), spread(up.turning[node, OUTWARD + 1])
    # Where the box's outward and around directions point now.
    px, py, pz = p00 * ox + p02 * oz, p10 * ox + p12 * oz, p20 * ox + p22 * oz
    qx, qy, qz = p00 * oz - p02 * ox, p10 * oz - p12 * ox, p20 * oz - p22 * ox
    little, none, infinite = spread(1e-10), spread(0.0), spread(np.inf)
    es = size(p11) * l0 + size(py) * l1 + size(qy) * l2 + little
    r = root(x * x + z * z)
    ux, uz = x / r, z / r  # outward; the direction of growing angle is (uz, -ux)
    er = size(ux * p01 + uz * p21) * l0 + little
    er = er + size(ux * px + uz * pz) * l1 + size(ux * qx + uz * qz) * l2
    et = size(uz * p01 - ux * p21) * l0 + little
    et = et + size(uz * px - ux * pz) * l1 + size(uz * qx - ux * qz) * l2
    near = r - er
    most = root((r + er) * (r + er) + et * et)
    angle = _angles(x, z, cx, cz, up.turning[node, FROM], work)
    turn = et / near  # at least the true half angle
    nx, ny, nz = three(up.turning, node, NORMAL)
    nx, ny, nz = spread(nx), spread(ny), spread(nz)
    mx, mz = p00 * nx + p01 * ny + p02 * nz, p20 * nx + p21 * ny + p22 * nz
    ns = p10 * nx + p11 * ny + p12 * nz
    nr, nt = ux * mx + uz * mz, uz * mx - ux * mz
    # n . (p - c) <= offset, written out in (s, r, angle - angle_c); what is dropped is added.
    bend = greater(nr, none) * most * turn * turn * spread(0.5)
    bend = bend + nt * (
        greater(er, most - r) * turn + most * turn * turn * turn * spread(1.0 / 6.0)
    )
    scale = spread(1.0) / (nt * r)
    plane = angle + (spread(up.turning[node, OFFSET]) + bend + ns * s + nr * r) * scale
    slope_s, slope_r = (none - ns) * scale, (none - nr) * scale
    half_turn = spread(math.pi)
    # A box that may hold the axis or reach behind it, and a plane seen nearly from its edge.
    holds = not_below(spread(far), r)
    behind = holds | not_below(none, near) | not_below(size(angle) + turn, half_turn)
    steep = behind | not_below(spread(0.02), nt)
    most = choose(holds, r + spread(far) + little, most)
    plane = plane + spread(JOINT) * (
        size(plane) + size(slope_s) * (size(s) + es) + size(slope_r) * most
    )
    store(bounds, row, S_LEAST * WIDTH, _shortened_down(s - es))
    store(bounds, row, S_MOST * WIDTH, _shortened_up(s + es))
    store(bounds, row, R_LEAST * WIDTH, _shortened_down(choose(holds, none, greater(near, none))))
    store(bounds, row, R_MOST * WIDTH, _shortened_up(most))
    store(bounds, row, ANGLE * WIDTH, _shortened_up(choose(behind, half_turn, angle + turn)))
    store(bounds, row, PLANE * WIDTH, shorten(choose(steep, infinite, plane)))
    store(bounds, row, SLOPE_S * WIDTH, shorten(choose(steep, none, slope_s)))
    store(bounds, row, SLOPE_R * WIDTH, shorten(choose(steep, none, slope_r)))


@inner_kernel
def _shortened_up(a):
    """Make lanes short, never less than they were."""
    return shorten(a + size(a) * spread(SHORT))


@inner_kernel
def _shortened_down(a):
    """Make lanes short, never more than they were."""
    return shorten(a - size(a) * spread(SHORT))


@inner_kernel
def row_of(poses, up, node, where, state, bounds, work):
    """Return the row of `bounds` in which a node stands moved; when all are full, begin anew.

    where: row of every node, counted on through all poses. state: number of the first row that
    still holds, how many follow it, and SEEDS.
    """
    if where[node] >= state[0]:
        return where[node] - state[0]
    if state[1] == bounds.shape[0]:
        state[0] += state[1]
        state[1] = 0
    row = state[1]
    state[1] += 1
    where[node] = state[0] + row
    move_node(poses, up, node, row, bounds, work)
    return row


@inner_kernel
def pair_bound(bounds, row, around, b, wanted):
    """Greatest openings at which content of an upper and a lower node can touch; -inf if never.

    Short lanes: what rounding takes from joint planes stands in the planes, see JOINT.
    """
    never = spread(np.float32(-np.inf))
    s0 = greater(load(bounds, row, S_LEAST * WIDTH), spread(around[b, S_LEAST]))
    s1 = lesser(load(bounds, row, S_MOST * WIDTH), spread(around[b, S_MOST]))
    r0 = greater(load(bounds, row, R_LEAST * WIDTH), spread(around[b, R_LEAST]))
    r1 = lesser(load(bounds, row, R_MOST * WIDTH), spread(around[b, R_MOST]))
    wanted &= not_below(s1, s0) & not_below(r1, r0)
    if wanted == 0:
        return never
    plane_u, plane_l = load(bounds, row, PLANE * WIDTH), spread(around[b, PLANE])
    us, ls = load(bounds, row, SLOPE_S * WIDTH), spread(around[b, SLOPE_S])
    ur, lr = load(bounds, row, SLOPE_R * WIDTH), spread(around[b, SLOPE_R])
    # Planes at infinity never decide.
    most = plane_u + greater(us * s0, us * s1) + greater(ur * r0, ur * r1)
    least = plane_l + lesser(ls * s0, ls * s1) + lesser(lr * r0, lr * r1)
    gs, gr = us - ls, ur - lr
    both = plane_u - plane_l + greater(gs * s0, gs * s1) + greater(gr * r0, gr * r1)
    angle_u, angle_l = load(bounds, row, ANGLE * WIDTH), spread(around[b, ANGLE])
    bound = lesser(lesser(angle_u, most) - greater(angle_l, least), both)
    return choose(wanted, bound + spread(np.float32(SHORT)) * size(bound), never)
