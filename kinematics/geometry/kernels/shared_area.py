"""How much of one triangle lies over another and within a tolerance of its plane."""

import math

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel
from kinematics.geometry.kernels.vectors import point


@bare_kernel
def _clip(points, n, nx, ny, nz, d, out):
    """Cut a convex polygon to n . p <= d; return the number of corners left in `out`."""
    count = 0
    for i in range(n):
        p, q = point(points, i), point(points, (i + 1) % n)
        hp = nx * p[0] + ny * p[1] + nz * p[2] - d
        hq = nx * q[0] + ny * q[1] + nz * q[2] - d
        if hp <= 0.0:
            for k in range(3):
                out[count, k] = p[k]
            count += 1
        if (hp < 0.0 and hq > 0.0) or (hp > 0.0 and hq < 0.0):
            t = hp / (hp - hq)
            for k in range(3):
                out[count, k] = p[k] + t * (q[k] - p[k])
            count += 1
    return count


@inner_kernel
def _outward(p, q, nx, ny, nz):
    """Direction out of a triangle across its side p-q, and where the side lies along it."""
    ex, ey, ez = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    x, y, z = ey * nz - ez * ny, ez * nx - ex * nz, ex * ny - ey * nx
    return x, y, z, x * p[0] + y * p[1] + z * p[2]


@inner_kernel
def _heights(u0, u1, u2, side):
    """Return how far a triangle reaches beyond a side, least and most."""
    x, y, z, level = side
    h0 = x * u0[0] + y * u0[1] + z * u0[2]
    h1 = x * u1[0] + y * u1[1] + z * u1[2]
    h2 = x * u2[0] + y * u2[1] + z * u2[2]
    return min(h0, h1, h2) - level, max(h0, h1, h2) - level


@bare_kernel
def shared_area(u0, u1, u2, l0, l1, l2, tolerance, first, second, centre, normal):
    """Area of the upper triangle over the lower one and within the tolerance of its plane.

    centre: centroid of that area; normal: unit normal of the lower triangle (as wound).
    """
    ux, uy, uz = l1[0] - l0[0], l1[1] - l0[1], l1[2] - l0[2]
    wx, wy, wz = l2[0] - l0[0], l2[1] - l0[1], l2[2] - l0[2]
    nx, ny, nz = uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx
    length = math.sqrt(nx * nx + ny * ny + nz * nz)
    normal[0] = normal[1] = normal[2] = 0.0
    if length == 0.0:
        return 0.0
    nx, ny, nz = nx / length, ny / length, nz / length
    normal[0], normal[1], normal[2] = nx, ny, nz
    d = nx * l0[0] + ny * l0[1] + nz * l0[2]
    h0 = nx * u0[0] + ny * u0[1] + nz * u0[2] - d
    h1 = nx * u1[0] + ny * u1[1] + nz * u1[2] - d
    h2 = nx * u2[0] + ny * u2[1] + nz * u2[2] - d
    if min(h0, h1, h2) > tolerance or max(h0, h1, h2) < -tolerance:
        return 0.0
    # Most triangles lie wholly on one side of most planes; only by the others they are cut.
    side_a, side_b, side_c = (
        _outward(l0, l1, nx, ny, nz), _outward(l1, l2, nx, ny, nz), _outward(l2, l0, nx, ny, nz)
    )  # fmt: skip
    least_a, most_a = _heights(u0, u1, u2, side_a)
    least_b, most_b = _heights(u0, u1, u2, side_b)
    least_c, most_c = _heights(u0, u1, u2, side_c)
    if max(least_a, least_b, least_c) > 0.0:
        return 0.0
    for k in range(3):
        first[0, k], first[1, k], first[2, k] = u0[k], u1[k], u2[k]
    n, a, b = 3, first, second
    if max(h0, h1, h2) > tolerance:
        n = _clip(a, n, nx, ny, nz, d + tolerance, b)
        a, b = b, a
    if min(h0, h1, h2) < -tolerance:
        n = _clip(a, n, -nx, -ny, -nz, tolerance - d, b)
        a, b = b, a
    for (x, y, z, level), most in ((side_a, most_a), (side_b, most_b), (side_c, most_c)):
        if most > 0.0:
            n = _clip(a, n, x, y, z, level, b)
            a, b = b, a
            if n == 0:
                return 0.0
    area = 0.0
    centre[0] = centre[1] = centre[2] = 0.0
    for i in range(1, n - 1):
        ax, ay, az = a[i, 0] - a[0, 0], a[i, 1] - a[0, 1], a[i, 2] - a[0, 2]
        bx, by, bz = a[i + 1, 0] - a[0, 0], a[i + 1, 1] - a[0, 1], a[i + 1, 2] - a[0, 2]
        cx, cy, cz = ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx
        part = 0.5 * math.sqrt(cx * cx + cy * cy + cz * cz)
        area += part
        for k in range(3):
            centre[k] += part * (a[0, k] + a[i, k] + a[i + 1, k]) / 3.0
    if area > 0.0:
        for k in range(3):
            centre[k] /= area
    return area
