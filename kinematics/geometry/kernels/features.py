"""Where features of two triangles meet when the lower turns about the hinge axis.

Everything stands in the lower's frame at opening 0, where the hinge axis is the y axis, s = y, and
the angle grows downwards ahead of the axis. A vertex meets a face, and an edge meets an edge, where
both have the same s and the same distance from the axis: closed forms, exact to rounding.
"""

import math

from kinematics.geometry.kernels.compiling import bare_kernel

VERTEX_ON_UPPER = 0  # a lower vertex touches an upper face
VERTEX_ON_LOWER = 1  # an upper vertex touches a lower face
EDGE_ON_EDGE = 2

SLACK = 1e-9  # outward, as a fraction of an edge


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
