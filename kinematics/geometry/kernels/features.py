"""Where features of two triangles meet when the lower turns about the hinge axis.

Everything stands in the lower's frame at opening 0, where the hinge axis is the y axis, s = y, and
the angle grows downwards ahead of the axis. A vertex meets a face, and an edge meets an edge, where
both have the same s and the same distance from the axis: closed forms, exact to rounding.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel

VERTEX_ON_UPPER = 0  # a lower vertex touches an upper face
VERTEX_ON_LOWER = 1  # an upper vertex touches a lower face
EDGE_ON_EDGE = 2

SLACK = 1e-9  # outward, as a fraction of an edge


@inner_kernel
def move_vertex(pose, vertices, v, stamps, stamp, moved):
    """Bring an upper vertex into the lower's frame, once a pose: x, y, z, r squared."""
    if stamps[v] == stamp:
        return
    stamps[v] = stamp
    px, py, pz = vertices[v, 0], vertices[v, 1], vertices[v, 2]
    x = pose[0, 0] * px + pose[0, 1] * py + pose[0, 2] * pz + pose[0, 3]
    y = pose[1, 0] * px + pose[1, 1] * py + pose[1, 2] * pz + pose[1, 3]
    z = pose[2, 0] * px + pose[2, 1] * py + pose[2, 2] * pz + pose[2, 3]
    moved[v, 0], moved[v, 1], moved[v, 2] = x, y, z
    moved[v, 3] = x * x + z * z


@inner_kernel
def point(array, i):
    """Return a row as a tuple of three: no array view, whose reference all threads would count."""
    return array[i, 0], array[i, 1], array[i, 2]


@inner_kernel
def three(rows, i, first):
    """Return three neighbours in a row as a tuple of long floats, however they are stored."""
    return (
        np.float64(rows[i, first]),
        np.float64(rows[i, first + 1]),
        np.float64(rows[i, first + 2]),
    )


@bare_kernel
def circle_on_face(s, r2, a, b, c):
    """Points where the circle (s, r) about the axis passes through a triangle.

    a, b, c: corners (x, y, z, ...) as the arch numbers them. Returns how many, and x and z of each.
    """
    none = (0.0, 0.0)
    da, db, dc = a[1] - s, b[1] - s, c[1] - s
    if (da > 0.0 and db > 0.0 and dc > 0.0) or (da < 0.0 and db < 0.0 and dc < 0.0):
        return 0, none, none
    # The plane y = s cuts the triangle in a segment P-Q.
    n = 0
    px = pz = qx = qz = 0.0
    for k in range(3):
        # Each side from its first end, and each corner where it comes: the same for any winding.
        if k == 0:
            p, d, u, v, du, dv = a, da, a, b, da, db
        elif k == 1:
            p, d, u, v, du, dv = b, db, b, c, db, dc
        else:
            p, d, u, v, du, dv = c, dc, a, c, da, dc
        if d == 0.0:
            x, z = p[0], p[2]
        elif (du < 0.0 and dv > 0.0) or (du > 0.0 and dv < 0.0):
            t = du / (du - dv)
            x, z = u[0] + t * (v[0] - u[0]), u[2] + t * (v[2] - u[2])
        else:
            continue
        if n == 0:
            px, pz = x, z
            n = 1
        elif n == 1 or (x - px) ** 2 + (z - pz) ** 2 > (qx - px) ** 2 + (qz - pz) ** 2:
            qx, qz = x, z
            n = 2
    if n == 0:
        return 0, none, none
    if n == 1:
        qx, qz = px, pz
    dx, dz = qx - px, qz - pz
    length = dx * dx + dz * dz
    if length == 0.0:
        if abs(px * px + pz * pz - r2) <= 1e-13 * r2:
            return 1, (px, pz), none
        return 0, none, none
    half = px * dx + pz * dz
    square = half * half - length * (px * px + pz * pz - r2)
    if square < 0.0:
        return 0, none, none
    root = math.sqrt(square)
    count, first, second = 0, none, none
    for sign in (-1.0, 1.0):
        t = (-half + sign * root) / length
        if -SLACK <= t <= 1.0 + SLACK:
            if count == 0:
                first = (px + t * dx, pz + t * dz)
            else:
                second = (px + t * dx, pz + t * dz)
            count += 1
            if root == 0.0:
                break
    return count, first, second


@bare_kernel
def edge_on_edge(u0, u1, l0, l1):
    """Pairs of points of an upper and a lower edge with equal s and r.

    u0, u1, l0, l1: x, y, z, r squared. Returns how many, and where on each edge, as fractions.
    Parallel edges give none: their end vertices cover them.
    """
    none = (0.0, 0.0)
    us, ls = u1[1] - u0[1], l1[1] - l0[1]
    ud = (u1[0] - u0[0]) ** 2 + (u1[2] - u0[2]) ** 2
    ld = (l1[0] - l0[0]) ** 2 + (l1[2] - l0[2]) ** 2
    # Along an edge r squared is r0^2 + t (r1^2 - r0^2 - d) + t^2 d: at least the lesser less d/4.
    if min(u0[3], u1[3]) - 0.25 * ud > max(l0[3], l1[3]) * (1.0 + 1e-12):
        return 0, none, none
    if min(l0[3], l1[3]) - 0.25 * ld > max(u0[3], u1[3]) * (1.0 + 1e-12):
        return 0, none, none
    ub, lb = u1[3] - u0[3] - ud, l1[3] - l0[3] - ld
    if us == 0.0 and ls == 0.0:
        return 0, none, none
    solve_lower = abs(us) >= abs(ls)
    if solve_lower:
        c0, c1 = (l0[1] - u0[1]) / us, ls / us  # t_upper = c0 + c1 t_lower
        q2 = ld - ud * c1 * c1
        q1 = lb - 2.0 * ud * c0 * c1 - ub * c1
        q0 = l0[3] - u0[3] - ud * c0 * c0 - ub * c0
    else:
        c0, c1 = (u0[1] - l0[1]) / ls, us / ls  # t_lower = c0 + c1 t_upper
        q2 = ud - ld * c1 * c1
        q1 = ub - 2.0 * ld * c0 * c1 - lb * c1
        q0 = u0[3] - l0[3] - ld * c0 * c0 - lb * c0
    count, first, second = 0, none, none
    square = q1 * q1 - 4.0 * q2 * q0
    if square < 0.0:
        return 0, none, none
    root = math.sqrt(square)
    w = -0.5 * (q1 + root) if q1 >= 0.0 else -0.5 * (q1 - root)
    for k in range(2):
        if k == 0:
            if w == 0.0:
                continue
            t = q0 / w
        else:
            if q2 == 0.0:
                continue
            t = w / q2
            if root == 0.0 and w != 0.0:
                continue
        if not -SLACK <= t <= 1.0 + SLACK:
            continue
        other = c0 + c1 * t
        if not -SLACK <= other <= 1.0 + SLACK:
            continue
        found = (other, t) if solve_lower else (t, other)
        if count == 0:
            first = found
        else:
            second = found
        count += 1
    return count, first, second


@bare_kernel
def angle_of(x, z):
    """Angle about the hinge axis, positive downwards ahead of it."""
    return math.atan2(-z, x)


@bare_kernel
def _keep(best, ids, lane, t, kind, iu, il, fu, fl, x, y, z):
    """Keep the greater opening; equal ones by kind and numbers, so that the choice is stable."""
    if t < best[0, lane]:
        return
    if t == best[0, lane]:
        new = (kind, iu, il, fu, fl)
        old = (ids[lane, 0], ids[lane, 1], ids[lane, 2], ids[lane, 3], ids[lane, 4])
        if new >= old:
            return
    best[0, lane], best[1, lane], best[2, lane], best[3, lane] = t, x, y, z
    best[4, lane], best[5, lane] = math.cos(t), math.sin(t)
    ids[lane, 0], ids[lane, 1], ids[lane, 2], ids[lane, 3], ids[lane, 4] = kind, iu, il, fu, fl


@inner_kernel
def _late(best, lane, ux, uz, lx, lz):
    """Tell cheaply, and only where it is certain, that two points meet later than the best.

    ux, uz and lx, lz: the upper and the lower point. Ahead of the axis their angles differ by less
    than half a turn, so sine and cosine of what is wanting tell its sign.
    """
    if ux <= 0.0 or lx <= 0.0 or best[0, lane] < -1.5:
        return False
    sine, cosine = ux * lz - uz * lx, ux * lx + uz * lz
    c, s = best[4, lane], best[5, lane]
    ahead = cosine * c + sine * s
    return ahead > 0.0 and sine * c - cosine * s < -1e-9 * ahead


@inner_kernel
def lane_pose(poses, lane):
    """Return the pose of one lane as a tuple, which no store to an array can change."""
    return (
        poses[0, lane], poses[1, lane], poses[2, lane], poses[3, lane],
        poses[4, lane], poses[5, lane], poses[6, lane], poses[7, lane],
        poses[8, lane], poses[9, lane], poses[10, lane], poses[11, lane],
    )  # fmt: skip


@inner_kernel
def moved_corner(pose, vertices, v):
    """Return an upper vertex in the lower's frame: x, y, z, r squared."""
    px, py, pz = vertices[v, 0], vertices[v, 1], vertices[v, 2]
    x = pose[0] * px + pose[1] * py + pose[2] * pz + pose[3]
    y = pose[4] * px + pose[5] * py + pose[6] * pz + pose[7]
    z = pose[8] * px + pose[9] * py + pose[10] * pz + pose[11]
    return x, y, z, x * x + z * z


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
def touch_faces(up, lo, iu, il, all_features, poses, lane, best, ids):
    """Offer every feature pair of two triangles to `best`.

    Each vertex and edge of a tooth is tried with one owning triangle only, unless all_features.
    poses: (12, lanes) lower_from_hinge. best: (6, lanes) opening, its place, cosine and sine.
    ids: (lanes, 5) kind, triangles, features.
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
                if _late(best, lane, x, z, p[0], p[2]):
                    continue
                t = angle_of(x, z) - lo.vertex_around[lo.faces[il, k], 2]
                _keep(best, ids, lane, t, VERTEX_ON_UPPER, iu, il, 0, k, x, p[1], z)
        if own_u >> k & 1:
            p = _one_of(k, ua, ub, uc)
            n, first, second = circle_on_face(p[1], p[3], la, lb, lc)
            for i in range(n):
                x, z = first if i == 0 else second
                if _late(best, lane, p[0], p[2], x, z):
                    continue
                t = angle_of(p[0], p[2]) - angle_of(x, z)
                _keep(best, ids, lane, t, VERTEX_ON_LOWER, iu, il, k, 0, p[0], p[1], p[2])
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
                if _late(best, lane, x, z, lx, lz):
                    continue
                t = angle_of(x, z) - angle_of(lx, lz)
                y = u0[1] + tu * (u1[1] - u0[1])
                _keep(best, ids, lane, t, EDGE_ON_EDGE, iu, il, i, j, x, y, z)


@bare_kernel
def _across(a, b, c, opening):
    """Direction square to a triangle that stands opened by an angle."""
    ux, uy, uz = _opened(b[0] - a[0], b[1] - a[1], b[2] - a[2], opening)
    wx, wy, wz = _opened(c[0] - a[0], c[1] - a[1], c[2] - a[2], opening)
    return _cross(ux, uy, uz, wx, wy, wz)


@inner_kernel
def _cross(ux, uy, uz, wx, wy, wz):
    return uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx


@inner_kernel
def _opened(x, y, z, opening):
    """Return a direction of the lower as it stands at an opening: turned about the y axis."""
    c, s = math.cos(opening), math.sin(opening)
    return c * x + s * z, y, -s * x + c * z


@bare_kernel
def normal_at(up, lo, poses, lane, ids, best):
    """Return the unit normal of the contact, along which the closing lower pushes."""
    kind, iu, il = ids[lane, 0], ids[lane, 1], ids[lane, 2]
    ua, ub, uc, la, lb, lc = _corners(up, lo, iu, il, lane_pose(poses, lane))
    opening, x, z = best[0, lane], best[1, lane], best[3, lane]
    if kind == EDGE_ON_EDGE:
        i, j = ids[lane, 3], ids[lane, 4]
        p, q = _one_of(i, ua, ub, uc), _one_of((i + 1) % 3, ua, ub, uc)
        v, w = _one_of(j, la, lb, lc), _one_of((j + 1) % 3, la, lb, lc)
        wx, wy, wz = _opened(w[0] - v[0], w[1] - v[1], w[2] - v[2], opening)
        nx, ny, nz = _cross(q[0] - p[0], q[1] - p[1], q[2] - p[2], wx, wy, wz)
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
