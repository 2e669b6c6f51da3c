"""Where two triangles touch as the lower closes, by which features, and which way it pushes."""

import math

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel
from kinematics.geometry.kernels.features import (
    EDGE_ON_EDGE,
    VERTEX_ON_LOWER,
    VERTEX_ON_UPPER,
    angle_of,
    circle_on_face,
    edge_on_edge,
)
from kinematics.geometry.kernels.placing import lane_pose, moved_corner
from kinematics.geometry.kernels.vectors import cross, minus


@bare_kernel
def _keep(best, ids, place, t, kind, iu, il, fu, fl, x, y, z):
    """Keep the greater opening; equal ones by kind and numbers, so that the choice is stable."""
    if t < best[0, place]:
        return
    if t == best[0, place]:
        new = (kind, iu, il, fu, fl)
        old = (ids[place, 0], ids[place, 1], ids[place, 2], ids[place, 3], ids[place, 4])
        if new >= old:
            return
    best[0, place], best[1, place], best[2, place], best[3, place] = t, x, y, z
    best[4, place], best[5, place] = math.cos(t), math.sin(t)
    ids[place, 0], ids[place, 1], ids[place, 2], ids[place, 3], ids[place, 4] = kind, iu, il, fu, fl


@inner_kernel
def _late(best, place, ux, uz, lx, lz):
    """Tell cheaply, and only where it is certain, that two points meet later than the best.

    ux, uz and lx, lz: the upper and the lower point. Ahead of the axis their angles differ by less
    than half a turn, so sine and cosine of what is wanting tell its sign.
    """
    if ux <= 0.0 or lx <= 0.0 or best[0, place] < -1.5:
        return False
    sine, cosine = ux * lz - uz * lx, ux * lx + uz * lz
    c, s = best[4, place], best[5, place]
    ahead = cosine * c + sine * s
    return ahead > 0.0 and sine * c - cosine * s < -1e-9 * ahead


@inner_kernel
def _lower_corner(lo, v):
    """Return a lower vertex: x, y, z, r squared."""
    return lo.vertices[v, 0], lo.vertices[v, 1], lo.vertices[v, 2], lo.vertex_around[v, 1]


@inner_kernel
def _corners(up, lo, iu, il, pose):
    """Return the corners of an upper triangle, moved, and of a lower one."""
    return (
        moved_corner(pose, up.vertices, up.faces[iu, 0]),
        moved_corner(pose, up.vertices, up.faces[iu, 1]),
        moved_corner(pose, up.vertices, up.faces[iu, 2]),
        _lower_corner(lo, lo.faces[il, 0]),
        _lower_corner(lo, lo.faces[il, 1]),
        _lower_corner(lo, lo.faces[il, 2]),
    )


@inner_kernel
def _one_of(k, a, b, c):
    return a if k == 0 else (b if k == 1 else c)


@inner_kernel
def _ends(k, a, b, c):
    """Return the ends of side k of a triangle, first the vertex that comes first in the arch."""
    if k == 2:
        return a, c
    return (a, b) if k == 0 else (b, c)


@inner_kernel
def touch_faces(up, lo, iu, il, all_features, poses, lane, place, best, ids):
    """Offer every feature pair of two triangles, in the pose of a lane, to a place of `best`.

    Each vertex and edge of a tooth is tried with one owning triangle only, unless all_features.
    poses: (12, lanes) lower_from_hinge. best: (6, places) opening, where, cosine and sine. ids:
    (places, 5) kind, triangles, features.
    """
    ua, ub, uc, la, lb, lc = _corners(up, lo, iu, il, lane_pose(poses, lane))
    u_low, u_high = min(ua[1], ub[1], uc[1]), max(ua[1], ub[1], uc[1])
    l_low, l_high = min(la[1], lb[1], lc[1]), max(la[1], lb[1], lc[1])
    if u_low > l_high or l_low > u_high:
        return
    own_u = 63 if all_features else up.owned[iu]
    own_l = 63 if all_features else lo.owned[il]
    for k in range(3):
        if own_l >> k & 1:
            p = _one_of(k, la, lb, lc)
            n, first, second = circle_on_face(p[1], p[3], ua, ub, uc)
            for i in range(n):
                x, z = first if i == 0 else second
                if _late(best, place, x, z, p[0], p[2]):
                    continue
                t = angle_of(x, z) - lo.vertex_around[lo.faces[il, k], 2]
                _keep(best, ids, place, t, VERTEX_ON_UPPER, iu, il, 0, k, x, p[1], z)
        if own_u >> k & 1:
            p = _one_of(k, ua, ub, uc)
            n, first, second = circle_on_face(p[1], p[3], la, lb, lc)
            for i in range(n):
                x, z = first if i == 0 else second
                if _late(best, place, p[0], p[2], x, z):
                    continue
                t = angle_of(p[0], p[2]) - angle_of(x, z)
                _keep(best, ids, place, t, VERTEX_ON_LOWER, iu, il, k, 0, p[0], p[1], p[2])
    for i in range(3):
        if not own_u >> (3 + i) & 1:
            continue
        u0, u1 = _ends(i, ua, ub, uc)
        s_low, s_high = min(u0[1], u1[1]), max(u0[1], u1[1])
        if s_high < l_low or s_low > l_high:
            continue
        for j in range(3):
            if not own_l >> (3 + j) & 1:
                continue
            l0, l1 = _ends(j, la, lb, lc)
            if max(l0[1], l1[1]) < s_low or min(l0[1], l1[1]) > s_high:
                continue
            n, first, second = edge_on_edge(u0, u1, l0, l1)
            for k in range(n):
                tu, tl = first if k == 0 else second
                x, z = u0[0] + tu * (u1[0] - u0[0]), u0[2] + tu * (u1[2] - u0[2])
                lx, lz = l0[0] + tl * (l1[0] - l0[0]), l0[2] + tl * (l1[2] - l0[2])
                if _late(best, place, x, z, lx, lz):
                    continue
                t = angle_of(x, z) - angle_of(lx, lz)
                y = u0[1] + tu * (u1[1] - u0[1])
                _keep(best, ids, place, t, EDGE_ON_EDGE, iu, il, i, j, x, y, z)


@bare_kernel
def _across(a, b, c, opening):
    """Direction square to a triangle that stands opened by an angle."""
    return cross(_opened(minus(b, a), opening), _opened(minus(c, a), opening))


@inner_kernel
def _opened(u, opening):
    """Return a direction of the lower as it stands at an opening: turned about the y axis."""
    c, s = math.cos(opening), math.sin(opening)
    return c * u[0] + s * u[2], u[1], -s * u[0] + c * u[2]


@bare_kernel
def normal_at(up, lo, poses, lane, place, ids, best):
    """Return the unit normal of the contact, along which the closing lower pushes."""
    kind, iu, il = ids[place, 0], ids[place, 1], ids[place, 2]
    ua, ub, uc, la, lb, lc = _corners(up, lo, iu, il, lane_pose(poses, lane))
    opening, x, z = best[0, place], best[1, place], best[3, place]
    if kind == EDGE_ON_EDGE:
        i, j = ids[place, 3], ids[place, 4]
        p, q = _one_of(i, ua, ub, uc), _one_of((i + 1) % 3, ua, ub, uc)
        v, w = _one_of(j, la, lb, lc), _one_of((j + 1) % 3, la, lb, lc)
        nx, ny, nz = cross(minus(q, p), _opened(minus(w, v), opening))
    elif kind == VERTEX_ON_UPPER:
        nx, ny, nz = _across(ua, ub, uc, 0.0)
    else:
        nx, ny, nz = _across(la, lb, lc, opening)
    length = math.sqrt(nx * nx + ny * ny + nz * nz)
    if length == 0.0:  # parallel edges or a triangle without area: push along the closing arc
        nx, ny, nz = -z, 0.0, x
        length = math.sqrt(nx * nx + nz * nz)
        if length == 0.0:
            nz, length = 1.0, 1.0
    # Closing moves the point along (-z, 0, x).
    sign = 1.0 if nz * x - nx * z >= 0.0 else -1.0
    return sign * nx / length, sign * ny / length, sign * nz / length
