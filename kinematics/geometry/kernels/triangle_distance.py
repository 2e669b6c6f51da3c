"""Shortest distance of two triangles."""

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel


@bare_kernel
def _segments(p, q, u, v, at):
    """Squared distance of segments p-q and u-v; at: nearest point of the first."""
    d1x, d1y, d1z = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    d2x, d2y, d2z = v[0] - u[0], v[1] - u[1], v[2] - u[2]
    rx, ry, rz = p[0] - u[0], p[1] - u[1], p[2] - u[2]
    a = d1x * d1x + d1y * d1y + d1z * d1z
    e = d2x * d2x + d2y * d2y + d2z * d2z
    f = d2x * rx + d2y * ry + d2z * rz
    c = d1x * rx + d1y * ry + d1z * rz
    s = t = 0.0
    if a == 0.0 and e == 0.0:
        pass
    elif a == 0.0:
        t = min(1.0, max(0.0, f / e))
    elif e == 0.0:
        s = min(1.0, max(0.0, -c / a))
    else:
        b = d1x * d2x + d1y * d2y + d1z * d2z
        det = a * e - b * b
        if det > 1e-14 * a * e:
            s = min(1.0, max(0.0, (b * f - c * e) / det))
        t = (b * s + f) / e
        if t < 0.0:
            t = 0.0
            s = min(1.0, max(0.0, -c / a))
        elif t > 1.0:
            t = 1.0
            s = min(1.0, max(0.0, (b - c) / a))
    at[0], at[1], at[2] = p[0] + s * d1x, p[1] + s * d1y, p[2] + s * d1z
    wx, wy, wz = rx + s * d1x - t * d2x, ry + s * d1y - t * d2y, rz + s * d1z - t * d2z
    return wx * wx + wy * wy + wz * wz


@bare_kernel
def _over_face(p, a, b, c, nx, ny, nz):
    """Tell whether a point stands over the inside of a triangle with normal n."""
    for k in range(3):
        if k == 0:
            u, v = a, b
        elif k == 1:
            u, v = b, c
        else:
            u, v = c, a
        ex, ey, ez = v[0] - u[0], v[1] - u[1], v[2] - u[2]
        wx, wy, wz = p[0] - u[0], p[1] - u[1], p[2] - u[2]
        side = (ey * wz - ez * wy) * nx + (ez * wx - ex * wz) * ny + (ex * wy - ey * wx) * nz
        if side < 0.0:
            return False
    return True


@bare_kernel
def _normal(a, b, c):
    ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    wx, wy, wz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    return uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx


@bare_kernel
def _pierces(p, q, dp, dq, a, b, c, nx, ny, nz, at):
    """Tell whether the segment p-q passes through a triangle; dp, dq: heights over its plane."""
    if dp * dq > 0.0 or dp == dq:
        return False
    t = dp / (dp - dq)
    for k in range(3):
        at[k] = p[k] + t * (q[k] - p[k])
    return _over_face(at, a, b, c, nx, ny, nz)


@inner_kernel
def surely_apart(a0, a1, a2, b0, b1, b2, limit2):
    """Tell whether two triangles are farther apart than a limit along the line of their middles.

    Far cheaper than the distance, and off by only side^2 / distance.
    """
    mx = (b0[0] + b1[0] + b2[0]) - (a0[0] + a1[0] + a2[0])
    my = (b0[1] + b1[1] + b2[1]) - (a0[1] + a1[1] + a2[1])
    mz = (b0[2] + b1[2] + b2[2]) - (a0[2] + a1[2] + a2[2])
    most = max(
        mx * a0[0] + my * a0[1] + mz * a0[2],
        mx * a1[0] + my * a1[1] + mz * a1[2],
        mx * a2[0] + my * a2[1] + mz * a2[2],
    )
    least = min(
        mx * b0[0] + my * b0[1] + mz * b0[2],
        mx * b1[0] + my * b1[1] + mz * b1[2],
        mx * b2[0] + my * b2[1] + mz * b2[2],
    )
    gap = least - most
    square = limit2 * (mx * mx + my * my + mz * mz)
    return gap > 0.0 and gap * gap > square * (1.0 + 1e-9)


@bare_kernel
def triangles_squared(a0, a1, a2, b0, b1, b2, limit2, at, near):
    """Squared distance of two triangles, 0 where they intersect; inf if surely over the limit.

    at: (3,) scratch. near: nearest point of the first triangle.
    """
    nx, ny, nz = _normal(b0, b1, b2)
    mx, my, mz = _normal(a0, a1, a2)
    nn, mm = nx * nx + ny * ny + nz * nz, mx * mx + my * my + mz * mz
    best = np.inf
    d0 = nx * (a0[0] - b0[0]) + ny * (a0[1] - b0[1]) + nz * (a0[2] - b0[2])
    d1 = nx * (a1[0] - b0[0]) + ny * (a1[1] - b0[1]) + nz * (a1[2] - b0[2])
    d2 = nx * (a2[0] - b0[0]) + ny * (a2[1] - b0[1]) + nz * (a2[2] - b0[2])
    if (d0 > 0.0 and d1 > 0.0 and d2 > 0.0) or (d0 < 0.0 and d1 < 0.0 and d2 < 0.0):
        least = min(abs(d0), abs(d1), abs(d2))
        if least * least > limit2 * nn:
            return np.inf
    e0 = mx * (b0[0] - a0[0]) + my * (b0[1] - a0[1]) + mz * (b0[2] - a0[2])
    e1 = mx * (b1[0] - a0[0]) + my * (b1[1] - a0[1]) + mz * (b1[2] - a0[2])
    e2 = mx * (b2[0] - a0[0]) + my * (b2[1] - a0[1]) + mz * (b2[2] - a0[2])
    if (e0 > 0.0 and e1 > 0.0 and e2 > 0.0) or (e0 < 0.0 and e1 < 0.0 and e2 < 0.0):
        least = min(abs(e0), abs(e1), abs(e2))
        if least * least > limit2 * mm:
            return np.inf
    if nn > 0.0 and mm > 0.0:
        for k in range(3):
            if k == 0:
                p, q, dp, dq, u, v, eu, ev = a0, a1, d0, d1, b0, b1, e0, e1
            elif k == 1:
                p, q, dp, dq, u, v, eu, ev = a1, a2, d1, d2, b1, b2, e1, e2
            else:
                p, q, dp, dq, u, v, eu, ev = a2, a0, d2, d0, b2, b0, e2, e0
            if _pierces(p, q, dp, dq, b0, b1, b2, nx, ny, nz, at) or _pierces(
                u, v, eu, ev, a0, a1, a2, mx, my, mz, at
            ):
                near[0], near[1], near[2] = at[0], at[1], at[2]
                return 0.0
    for k in range(3):
        if k == 0:
            p, d, u, e = a0, d0, b0, e0
        elif k == 1:
            p, d, u, e = a1, d1, b1, e1
        else:
            p, d, u, e = a2, d2, b2, e2
        if nn > 0.0 and d * d < best * nn and _over_face(p, b0, b1, b2, nx, ny, nz):
            best = d * d / nn
            near[0], near[1], near[2] = p[0], p[1], p[2]
        if mm > 0.0 and e * e < best * mm and _over_face(u, a0, a1, a2, mx, my, mz):
            best = e * e / mm
            scale = e / mm
            near[0], near[1], near[2] = u[0] - scale * mx, u[1] - scale * my, u[2] - scale * mz
    for i in range(3):
        p, q = (a0, a1) if i == 0 else ((a1, a2) if i == 1 else (a2, a0))
        for j in range(3):
            u, v = (b0, b1) if j == 0 else ((b1, b2) if j == 1 else (b2, b0))
            d = _segments(p, q, u, v, at)
            if d < best:
                best = d
                near[0], near[1], near[2] = at[0], at[1], at[2]
    return best
