"""Bounds of the nodes of a tree that hold for every point of their triangles."""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel
from kinematics.geometry.kernels.tree_arrays import (
    ANGLE,
    AXES,
    CENTRE,
    FROM,
    HALF,
    MIDDLE,
    NORMAL,
    OFFSET,
    ONLY,
    OUTWARD,
    PLANE,
    R_LEAST,
    R_MOST,
    RIGHT,
    S_LEAST,
    S_MOST,
    SIDES,
    SLOPE_R,
    SLOPE_S,
    START,
    STOP,
)
from kinematics.geometry.kernels.vectors import point


@kernel
def cylindrical(points, out):
    """Write s = y, r squared and the angle about the y axis (positive downwards ahead of it)."""
    for i in range(points.shape[0]):
        x, y, z = points[i, 0], points[i, 1], points[i, 2]
        out[i, 0] = y
        out[i, 1] = x * x + z * z
        out[i, 2] = math.atan2(-z, x)


@bare_kernel
def _nearest_squared(ax, az, bx, bz):
    """Least squared distance of a segment from the axis, seen along it."""
    dx, dz = bx - ax, bz - az
    length = dx * dx + dz * dz
    t = 0.0
    if length > 0.0:
        t = min(1.0, max(0.0, -(ax * dx + az * dz) / length))
    px, pz = ax + t * dx, az + t * dz
    return px * px + pz * pz


@bare_kernel
def _holds_axis(ax, az, bx, bz, cx, cz):
    """Tell whether the axis passes through the triangle, seen along it."""
    u = ax * bz - az * bx
    v = bx * cz - bz * cx
    w = cx * az - cz * ax
    return (u >= 0.0 and v >= 0.0 and w >= 0.0) or (u <= 0.0 and v <= 0.0 and w <= 0.0)


@kernel
def running_sums(corners, winding, sums):
    """Sum over all triangles before each, so that the sums of any node follow at once.

    corners: (m, 3, 3). winding: (m,) -1 where corners go round the other way, else 1. sums:
    (m + 1, 12): area vector, places of corners, and their products xx, yy, zz, xy, yz, zx.
    """
    for k in range(12):
        sums[0, k] = 0.0
    for f in range(corners.shape[0]):
        for k in range(12):
            sums[f + 1, k] = sums[f, k]
        here = sums[f + 1]
        ax, ay, az = corners[f, 0, 0], corners[f, 0, 1], corners[f, 0, 2]
        ux, uy, uz = corners[f, 1, 0] - ax, corners[f, 1, 1] - ay, corners[f, 1, 2] - az
        wx, wy, wz = corners[f, 2, 0] - ax, corners[f, 2, 1] - ay, corners[f, 2, 2] - az
        here[0] += winding[f] * (uy * wz - uz * wy)
        here[1] += winding[f] * (uz * wx - ux * wz)
        here[2] += winding[f] * (ux * wy - uy * wx)
        for c in range(3):
            x, y, z = corners[f, c, 0], corners[f, c, 1], corners[f, c, 2]
            here[3] += x
            here[4] += y
            here[5] += z
            here[6] += x * x
            here[7] += y * y
            here[8] += z * z
            here[9] += x * y
            here[10] += y * z
            here[11] += z * x


@bare_kernel
def _mean_normal(sums, first, last, facing):
    """Area-weighted mean normal of some triangles, turned to face the other arch.

    The winding is not trusted. A bound holds for any direction; a bad one only costs time.
    """
    x = sums[last, 0] - sums[first, 0]
    y = sums[last, 1] - sums[first, 1]
    z = sums[last, 2] - sums[first, 2]
    length = math.sqrt(x * x + y * y + z * z)
    if length == 0.0:
        return 0.0, 0.0, facing
    if z * facing < 0.0:
        length = -length
    return x / length, y / length, z / length


@bare_kernel
def _widest_across(sums, first, last, n):
    """Direction square to a unit vector in which the corners of some triangles spread most."""
    # Any direction u square to n, then its partner v.
    k = (
        0
        if abs(n[0]) <= abs(n[1]) and abs(n[0]) <= abs(n[2])
        else (1 if abs(n[1]) <= abs(n[2]) else 2)
    )
    share = n[k]
    length = math.sqrt(1.0 - share * share)
    ux = ((1.0 if k == 0 else 0.0) - share * n[0]) / length
    uy = ((1.0 if k == 1 else 0.0) - share * n[1]) / length
    uz = ((1.0 if k == 2 else 0.0) - share * n[2]) / length
    vx, vy, vz = n[1] * uz - n[2] * uy, n[2] * ux - n[0] * uz, n[0] * uy - n[1] * ux
    count = 3.0 * (last - first)
    x = (sums[last, 3] - sums[first, 3]) / count
    y = (sums[last, 4] - sums[first, 4]) / count
    z = (sums[last, 5] - sums[first, 5]) / count
    xx = (sums[last, 6] - sums[first, 6]) / count - x * x
    yy = (sums[last, 7] - sums[first, 7]) / count - y * y
    zz = (sums[last, 8] - sums[first, 8]) / count - z * z
    xy = (sums[last, 9] - sums[first, 9]) / count - x * y
    yz = (sums[last, 10] - sums[first, 10]) / count - y * z
    zx = (sums[last, 11] - sums[first, 11]) / count - z * x
    ax, ay = xx * ux + xy * uy + zx * uz, xy * ux + yy * uy + yz * uz
    bx, by = xx * vx + xy * vy + zx * vz, xy * vx + yy * vy + yz * vz
    az, bz = zx * ux + yz * uy + zz * uz, zx * vx + yz * vy + zz * vz
    uu, uv = ax * ux + ay * uy + az * uz, ax * vx + ay * vy + az * vz
    vv = bx * vx + by * vy + bz * vz
    angle = 0.5 * math.atan2(2.0 * uv, uu - vv)
    c, s = math.cos(angle), math.sin(angle)
    return c * ux + s * vx, c * uy + s * vy, c * uz + s * vz


@bare_kernel
def _put(rows, node, first, x, y, z):
    rows[node, first], rows[node, first + 1], rows[node, first + 2] = x, y, z


@inner_kernel
def _seen_before(holder, f, c, first):
    """Tell whether a corner of a triangle is also that of an earlier one from `first` on."""
    return holder[f, c] != f and holder[f, c] >= first


@kernel
def box_nodes(corners, holder, sums, tooth, facing, links, mask, turning, slab):
    """Boxes, half-spaces and tooth masks of all nodes.

    holder: (m, 3) first triangle at each corner. facing: sign of z towards the other arch.
    One box lies along the hinge axis, outward from it and around it, the directions in which
    closing is bounded (one along x, y, z would be looser); the other along the mean normal.
    """
    low, high = np.empty(6), np.empty(6)
    for node in range(links.shape[0] - 1, -1, -1):  # children before their parents
        first, last = links[node, START], links[node, STOP]
        if links[node, RIGHT] == 0:
            bits = np.uint64(1) << np.uint64(tooth[first])
        else:
            bits = mask[node + 1] | mask[links[node, RIGHT]]
        mask[node] = bits
        links[node, ONLY] = tooth[first] if bits & (bits - np.uint64(1)) == 0 else -1
        mx, mz = sums[last, 3] - sums[first, 3], sums[last, 5] - sums[first, 5]
        length = math.sqrt(mx * mx + mz * mz)
        ox, oz = (mx / length, mz / length) if length > 0.0 else (1.0, 0.0)
        nx, ny, nz = _mean_normal(sums, first, last, facing)
        ux, uy, uz = _widest_across(sums, first, last, (nx, ny, nz))
        vx, vy, vz = ny * uz - nz * uy, nz * ux - nx * uz, nx * uy - ny * ux
        qx, qy, qz = corners[first, 0, 0], corners[first, 0, 1], corners[first, 0, 2]
        low[:] = np.inf
        high[:] = -np.inf
        for f in range(first, last):
            for c in range(3):
                if _seen_before(holder, f, c, first):
                    continue
                x, y, z = corners[f, c, 0] - qx, corners[f, c, 1] - qy, corners[f, c, 2] - qz
                along = ox * x + oz * z
                low[1], high[1] = min(low[1], along), max(high[1], along)
                along = oz * x - ox * z
                low[2], high[2] = min(low[2], along), max(high[2], along)
                along = ux * x + uy * y + uz * z
                low[3], high[3] = min(low[3], along), max(high[3], along)
                along = vx * x + vy * y + vz * z
                low[4], high[4] = min(low[4], along), max(high[4], along)
                along = nx * x + ny * y + nz * z
                low[5], high[5] = min(low[5], along), max(high[5], along)
                low[0], high[0] = min(low[0], y), max(high[0], y)
        for k in range(3):
            turning[node, HALF + k] = 0.5 * (high[k] - low[k]) + 1e-12
            slab[node, SIDES + k] = 0.5 * (high[3 + k] - low[3 + k]) + 1e-12
        a, b, c = 0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1]), 0.5 * (low[2] + high[2])
        cx, cy, cz = b * ox + c * oz, a, b * oz - c * ox
        _put(turning, node, CENTRE, qx + cx, qy + cy, qz + cz)
        turning[node, FROM] = math.atan2(-(qz + cz), qx + cx)
        turning[node, OUTWARD], turning[node, OUTWARD + 1] = ox, oz
        _put(turning, node, NORMAL, nx, ny, nz)
        turning[node, OFFSET] = high[5] + 1e-12 - (nx * cx + ny * cy + nz * cz)
        a, b, c = 0.5 * (low[3] + high[3]), 0.5 * (low[4] + high[4]), 0.5 * (low[5] + high[5])
        x, y, z = a * ux + b * vx + c * nx, a * uy + b * vy + c * ny, a * uz + b * vz + c * nz
        _put(slab, node, MIDDLE, qx + x, qy + y, qz + z)
        _put(slab, node, AXES, ux, uy, uz)
        _put(slab, node, AXES + 3, vx, vy, vz)
        _put(slab, node, AXES + 6, nx, ny, nz)


@bare_kernel
def _face_around(vertices, vertex_around, faces, f, out):
    """Bounds of one triangle (s, r, angle: least, most) and its longest side squared."""
    a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
    ax, az = vertices[a, 0], vertices[a, 2]
    bx, bz = vertices[b, 0], vertices[b, 2]
    cx, cz = vertices[c, 0], vertices[c, 2]
    out[0] = min(vertices[a, 1], vertices[b, 1], vertices[c, 1])
    out[1] = max(vertices[a, 1], vertices[b, 1], vertices[c, 1])
    # The radius is greatest at a corner, but may be least inside a side.
    least = min(
        _nearest_squared(ax, az, bx, bz),
        _nearest_squared(bx, bz, cx, cz),
        _nearest_squared(cx, cz, ax, az),
    )
    out[2] = math.sqrt(least)
    out[3] = math.sqrt(max(vertex_around[a, 1], vertex_around[b, 1], vertex_around[c, 1]))
    out[4] = min(vertex_around[a, 2], vertex_around[b, 2], vertex_around[c, 2])
    out[5] = max(vertex_around[a, 2], vertex_around[b, 2], vertex_around[c, 2])
    if _holds_axis(ax, az, bx, bz, cx, cz):
        out[2] = 0.0
        out[4], out[5] = -math.pi, math.pi
    elif out[5] - out[4] > math.pi:
        out[4], out[5] = -math.pi, math.pi  # crosses the cut behind the axis
    longest = 0.0
    for p, q in ((a, b), (b, c), (c, a)):
        u, v = point(vertices, p), point(vertices, q)
        longest = max(longest, (u[0] - v[0]) ** 2 + (u[1] - v[1]) ** 2 + (u[2] - v[2]) ** 2)
    out[6] = longest


@kernel
def bound_around(vertices, vertex_around, faces, holder, links, turning, around):
    """Cylindrical bounds of all nodes: box, and angle >= plane + slope_s s + slope_r r."""
    radius = np.sqrt(vertex_around[:, 1])
    face = np.empty(7)
    longest, behind = np.empty(links.shape[0]), np.empty(links.shape[0], np.bool_)
    for node in range(links.shape[0] - 1, -1, -1):  # children before their parents
        first, last, right = links[node, START], links[node, STOP], links[node, RIGHT]
        if right == 0:
            _face_around(vertices, vertex_around, faces, first, face)
            for k in range(4):
                around[node, S_LEAST + k] = face[k]
            around[node, ANGLE] = face[4]
            longest[node], behind[node] = face[6], face[5] - face[4] > 3.0
        else:
            _put_both(around, node, node + 1, right)
            longest[node] = max(longest[node + 1], longest[right])
            behind[node] = behind[node + 1] or behind[right]
        slope_s, slope_r = _slopes(turning, node)
        around[node, SLOPE_S], around[node, SLOPE_R] = slope_s, slope_r
        least = around[node, R_LEAST]
        if least <= 0.0 or behind[node]:
            around[node, PLANE] = -np.inf
            continue
        plane = np.inf
        for f in range(first, last):
            for c in range(3):
                if not _seen_before(holder, f, c, first):
                    v = faces[f, c]
                    level = vertex_around[v, 2] - slope_s * vertex_around[v, 0]
                    plane = min(plane, level - slope_r * radius[v])
        # Angle and radius bend between the corners by at most half the second derivative (1/r^2
        # and 1/r) times the squared radius of the smallest ball, side^2 / 3.
        bend = longest[node] / 6.0 * (1.0 / least**2 + abs(slope_r) / least)
        around[node, PLANE] = plane - bend


@inner_kernel
def _put_both(around, node, left, right):
    """Write the box that holds those of two children."""
    around[node, S_LEAST] = min(around[left, S_LEAST], around[right, S_LEAST])
    around[node, S_MOST] = max(around[left, S_MOST], around[right, S_MOST])
    around[node, R_LEAST] = min(around[left, R_LEAST], around[right, R_LEAST])
    around[node, R_MOST] = max(around[left, R_MOST], around[right, R_MOST])
    around[node, ANGLE] = min(around[left, ANGLE], around[right, ANGLE])


@inner_kernel
def _slopes(turning, node):
    """How the angle grows with s and r along the mean surface; 0 where that is too steep."""
    x, z = turning[node, CENTRE], turning[node, CENTRE + 2]
    r = math.sqrt(x * x + z * z)
    if r == 0.0:
        return 0.0, 0.0
    nx, ny, nz = turning[node, NORMAL], turning[node, NORMAL + 1], turning[node, NORMAL + 2]
    radial, tangential = (nx * x + nz * z) / r, (nx * z - nz * x) / r
    if abs(tangential) <= 0.02:
        return 0.0, 0.0
    return -ny / (tangential * r), -radial / (tangential * r)
