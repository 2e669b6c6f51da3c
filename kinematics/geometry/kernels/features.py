"""Where features of two triangles meet when the lower turns about the hinge axis.

Everything stands in the lower's frame at opening 0, where the hinge axis is the y axis, s = y, and
the angle grows downwards ahead of the axis. A vertex meets a face, and an edge meets an edge, where
both have the same s and the same distance from the axis: closed forms, exact to rounding.
"""

import math

from kinematics.geometry.kernels.compiling import inner_kernel, small_kernel

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
    """Return three neighbours in a row as a tuple."""
    return rows[i, first], rows[i, first + 1], rows[i, first + 2]


@small_kernel
def circle_on_face(s, r2, a, b, c, out):
    """Points where the circle (s, r) about the axis passes through a triangle.

    a, b, c: corners (x, y, z). Writes to the first rows of out; returns how many.
    """
    da, db, dc = a[1] - s, b[1] - s, c[1] - s
    if (da > 0.0 and db > 0.0 and dc > 0.0) or (da < 0.0 and db < 0.0 and dc < 0.0):
        return 0
    # The plane y = s cuts the triangle in a segment P-Q.
    n = 0
    px = pz = qx = qz = 0.0
    for k in range(3):
        if k == 0:
            u, v, du, dv = a, b, da, db
        elif k == 1:
            u, v, du, dv = b, c, db, dc
        else:
            u, v, du, dv = c, a, dc, da
        if du == 0.0:
            x, z = u[0], u[2]
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
        return 0
    if n == 1:
        qx, qz = px, pz
    dx, dz = qx - px, qz - pz
    length = dx * dx + dz * dz
    if length == 0.0:
        if abs(px * px + pz * pz - r2) <= 1e-13 * r2:
            out[0, 0], out[0, 1], out[0, 2] = px, s, pz
            return 1
        return 0
    half = px * dx + pz * dz
    square = half * half - length * (px * px + pz * pz - r2)
    if square < 0.0:
        return 0
    root = math.sqrt(square)
    count = 0
    for sign in (-1.0, 1.0):
        t = (-half + sign * root) / length
        if -SLACK <= t <= 1.0 + SLACK:
            out[count, 0], out[count, 1], out[count, 2] = px + t * dx, s, pz + t * dz
            count += 1
            if root == 0.0:
                break
    return count


@small_kernel
def edge_on_edge(u0, u1, l0, l1, out):
    """Pairs of points of an upper and a lower edge with equal s and r.

    u0, u1, l0, l1: x, y, z, r squared. Writes upper point, then lower point to rows of out.
    Returns how many were written. Parallel edges give none: their end vertices cover them.
    """
    us, ls = u1[1] - u0[1], l1[1] - l0[1]
    ud = (u1[0] - u0[0]) ** 2 + (u1[2] - u0[2]) ** 2
    ld = (l1[0] - l0[0]) ** 2 + (l1[2] - l0[2]) ** 2
    # Along an edge r squared is r0^2 + t (r1^2 - r0^2 - d) + t^2 d: at least the lesser less d/4.
    if min(u0[3], u1[3]) - 0.25 * ud > max(l0[3], l1[3]) * (1.0 + 1e-12):
        return 0
    if min(l0[3], l1[3]) - 0.25 * ld > max(u0[3], u1[3]) * (1.0 + 1e-12):
        return 0
    ub, lb = u1[3] - u0[3] - ud, l1[3] - l0[3] - ld
    if us == 0.0 and ls == 0.0:
        return 0
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
    count = 0
    square = q1 * q1 - 4.0 * q2 * q0
    if square < 0.0:
        return 0
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
        tu, tl = (other, t) if solve_lower else (t, other)
        for i in range(3):
            out[count, i] = u0[i] + tu * (u1[i] - u0[i])
            out[count, 3 + i] = l0[i] + tl * (l1[i] - l0[i])
        count += 1
    return count


@small_kernel
def angle_of(x, z):
    """Angle about the hinge axis, positive downwards ahead of it."""
    return math.atan2(-z, x)


@small_kernel
def _keep(best, ids, t, kind, iu, il, fu, fl, x, y, z):
    """Keep the greater opening; equal ones by kind and numbers, so that the choice is stable."""
    if t < best[0]:
        return
    if t == best[0]:
        new = (kind, iu, il, fu, fl)
        old = (ids[0], ids[1], ids[2], ids[3], ids[4])
        if new >= old:
            return
    best[0], best[1], best[2], best[3] = t, x, y, z
    ids[0], ids[1], ids[2], ids[3], ids[4] = kind, iu, il, fu, fl


@inner_kernel
def touch_faces(up, lo, iu, il, all_features, moved, best, ids, work):
    """Offer every feature pair of two triangles to `best`.

    Each vertex and edge of a tooth is tried with one owning triangle only, unless all_features.
    moved: upper vertices in the lower's frame. work: (2, 6) scratch.
    """
    lv, lr = lo.vertices, lo.vertex_around
    ua, la = point(moved, up.faces[iu, 0]), point(lv, lo.faces[il, 0])
    ub, lb = point(moved, up.faces[iu, 1]), point(lv, lo.faces[il, 1])
    uc, lc = point(moved, up.faces[iu, 2]), point(lv, lo.faces[il, 2])
    u_low, u_high = min(ua[1], ub[1], uc[1]), max(ua[1], ub[1], uc[1])
    l_low, l_high = min(la[1], lb[1], lc[1]), max(la[1], lb[1], lc[1])
    if u_low > l_high or l_low > u_high:
        return
    own_u = 63 if all_features else up.owned[iu]
    own_l = 63 if all_features else lo.owned[il]
    for k in range(3):
        if own_l >> k & 1:
            v = lo.faces[il, k]
            n = circle_on_face(lr[v, 0], lr[v, 1], ua, ub, uc, work)
            for i in range(n):
                x, y, z = work[i, 0], work[i, 1], work[i, 2]
                t = angle_of(x, z) - lr[v, 2]
                _keep(best, ids, t, VERTEX_ON_UPPER, iu, il, 0, k, x, y, z)
        if own_u >> k & 1:
            v = up.faces[iu, k]
            n = circle_on_face(moved[v, 1], moved[v, 3], la, lb, lc, work)
            for i in range(n):
                t = angle_of(moved[v, 0], moved[v, 2]) - angle_of(work[i, 0], work[i, 2])
                _keep(
                    best, ids, t, VERTEX_ON_LOWER, iu, il, k, 0,
                    moved[v, 0], moved[v, 1], moved[v, 2],
                )  # fmt: skip
    for i in range(3):
        if not own_u >> (3 + i) & 1:
            continue
        p, q = up.faces[iu, i], up.faces[iu, (i + 1) % 3]
        if p > q:
            p, q = q, p
        if max(moved[p, 1], moved[q, 1]) < l_low or min(moved[p, 1], moved[q, 1]) > l_high:
            continue
        u0 = (moved[p, 0], moved[p, 1], moved[p, 2], moved[p, 3])
        u1 = (moved[q, 0], moved[q, 1], moved[q, 2], moved[q, 3])
        for j in range(3):
            if not own_l >> (3 + j) & 1:
                continue
            p, q = lo.faces[il, j], lo.faces[il, (j + 1) % 3]
            if p > q:
                p, q = q, p
            if max(lv[p, 1], lv[q, 1]) < min(u0[1], u1[1]):
                continue
            if min(lv[p, 1], lv[q, 1]) > max(u0[1], u1[1]):
                continue
            l0 = (lv[p, 0], lv[p, 1], lv[p, 2], lr[p, 1])
            l1 = (lv[q, 0], lv[q, 1], lv[q, 2], lr[q, 1])
            n = edge_on_edge(u0, u1, l0, l1, work)
            for k in range(n):
                x, y, z = work[k, 0], work[k, 1], work[k, 2]
                t = angle_of(x, z) - angle_of(work[k, 3], work[k, 5])
                _keep(best, ids, t, EDGE_ON_EDGE, iu, il, i, j, x, y, z)


@small_kernel
def normal_at(up, lo, moved, ids, contact, out):
    """Write the unit normal of the contact, along which the closing lower pushes."""
    kind, iu, il, fu, fl = ids[0], ids[1], ids[2], ids[3], ids[4]
    if kind == EDGE_ON_EDGE:
        p, q = up.faces[iu, fu], up.faces[iu, (fu + 1) % 3]
        ux, uy, uz = moved[q, 0] - moved[p, 0], moved[q, 1] - moved[p, 1], moved[q, 2] - moved[p, 2]
        e = lo.vertices[lo.faces[il, (fl + 1) % 3]] - lo.vertices[lo.faces[il, fl]]
        # The lower edge as it stands at contact: turned by the opening about the y axis.
        c, s = math.cos(contact[0]), math.sin(contact[0])
        wx, wy, wz = c * e[0] + s * e[2], e[1], -s * e[0] + c * e[2]
    elif kind == VERTEX_ON_UPPER:
        p, q, r = up.faces[iu, 0], up.faces[iu, 1], up.faces[iu, 2]
        ux, uy, uz = moved[q, 0] - moved[p, 0], moved[q, 1] - moved[p, 1], moved[q, 2] - moved[p, 2]
        wx, wy, wz = moved[r, 0] - moved[p, 0], moved[r, 1] - moved[p, 1], moved[r, 2] - moved[p, 2]
    else:
        p = lo.vertices[lo.faces[il, 0]]
        d, e = lo.vertices[lo.faces[il, 1]] - p, lo.vertices[lo.faces[il, 2]] - p
        c, s = math.cos(contact[0]), math.sin(contact[0])
        ux, uy, uz = c * d[0] + s * d[2], d[1], -s * d[0] + c * d[2]
        wx, wy, wz = c * e[0] + s * e[2], e[1], -s * e[0] + c * e[2]
    nx, ny, nz = uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx
    length = math.sqrt(nx * nx + ny * ny + nz * nz)
    if length == 0.0:  # parallel edges or a triangle without area: push along the closing arc
        nx, ny, nz = -contact[3], 0.0, contact[1]
        length = math.sqrt(nx * nx + nz * nz)
        if length == 0.0:
            nz, length = 1.0, 1.0
    # Closing moves the point along (-z, 0, x).
    sign = 1.0 if nz * contact[1] - nx * contact[3] >= 0.0 else -1.0
    out[0], out[1], out[2] = sign * nx / length, sign * ny / length, sign * nz / length
