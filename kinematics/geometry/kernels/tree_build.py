"""Build a tree over triangles: order, nodes, and bounds that hold for every point of a triangle."""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import kernel, small_kernel


@kernel
def cylindrical(points, out):
    """Write s = y, r squared and the angle about the y axis (positive downwards ahead of it)."""
    for i in range(points.shape[0]):
        x, y, z = points[i, 0], points[i, 1], points[i, 2]
        out[i, 0] = y
        out[i, 1] = x * x + z * z
        out[i, 2] = math.atan2(-z, x)


@small_kernel
def _select(order, key, low, high, wanted):
    """Reorder order[low:high] so that the element of rank `wanted` by key stands in its place."""
    high -= 1
    while low < high:
        pivot = key[order[(low + high) // 2]]
        i, j = low, high
        while i <= j:
            while key[order[i]] < pivot:
                i += 1
            while key[order[j]] > pivot:
                j -= 1
            if i <= j:
                order[i], order[j] = order[j], order[i]
                i += 1
                j -= 1
        if wanted <= j:
            high = j
        elif wanted >= i:
            low = i
        else:
            return


@kernel
def split_triangles(order, keys, group_start, leaf_size, right, start, stop, group_root):
    """Order triangles and lay out nodes in preorder; return the number of nodes.

    keys: (3, m) coordinates to split on. order: (m,) comes grouped by tooth, group_start: (t + 1,).
    """
    groups = group_start.shape[0] - 1
    stack = np.empty((256, 3), np.int64)
    stack[0, 0], stack[0, 1], stack[0, 2] = 0, order.shape[0], -1
    top, count = 1, 0
    while top > 0:
        top -= 1
        a, b, parent = stack[top, 0], stack[top, 1], stack[top, 2]
        node = count
        count += 1
        if parent >= 0:
            right[parent] = node
        start[node], stop[node], right[node] = a, b, 0
        first = 0
        while group_start[first + 1] <= a:
            first += 1
        if group_start[first] == a and group_start[first + 1] == b:
            group_root[first] = node
        middle = (a + b) // 2
        if group_start[first + 1] < b:
            # Several teeth: cut between two of them, as near to the middle as can be.
            best = group_start[first + 1]
            for g in range(first + 1, groups):
                cut = group_start[g]
                if a < cut < b and abs(cut - middle) < abs(best - middle):
                    best = cut
            middle = best
        elif b - a <= leaf_size:
            continue
        else:
            widest, axis = -1.0, 0
            for k in range(3):
                least = most = keys[k, order[a]]
                for i in range(a + 1, b):
                    v = keys[k, order[i]]
                    least = min(least, v)
                    most = max(most, v)
                if most - least > widest:
                    widest, axis = most - least, k
            _select(order, keys[axis], a, b, middle)
        stack[top, 0], stack[top, 1], stack[top, 2] = middle, b, node
        stack[top + 1, 0], stack[top + 1, 1], stack[top + 1, 2] = a, middle, -1
        top += 2
    return count


@small_kernel
def _nearest_squared(ax, az, bx, bz):
    """Least squared distance of a segment from the axis, seen along it."""
    dx, dz = bx - ax, bz - az
    length = dx * dx + dz * dz
    t = 0.0
    if length > 0.0:
        t = min(1.0, max(0.0, -(ax * dx + az * dz) / length))
    px, pz = ax + t * dx, az + t * dz
    return px * px + pz * pz


@small_kernel
def _holds_axis(ax, az, bx, bz, cx, cz):
    """Tell whether the axis passes through the triangle, seen along it."""
    u = ax * bz - az * bx
    v = bx * cz - bz * cx
    w = cx * az - cz * ax
    return (u >= 0.0 and v >= 0.0 and w >= 0.0) or (u <= 0.0 and v <= 0.0 and w <= 0.0)


@small_kernel
def _mean_normal(vertices, faces, first, last, facing, out):
    """Area-weighted mean normal of some triangles, turned to face the other arch.

    The winding is not trusted. A bound holds for any direction; a bad one only costs time.
    """
    out[0] = out[1] = out[2] = 0.0
    for f in range(first, last):
        p, q, r = vertices[faces[f, 0]], vertices[faces[f, 1]], vertices[faces[f, 2]]
        ux, uy, uz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
        wx, wy, wz = r[0] - p[0], r[1] - p[1], r[2] - p[2]
        out[0] += uy * wz - uz * wy
        out[1] += uz * wx - ux * wz
        out[2] += ux * wy - uy * wx
    length = math.sqrt(out[0] ** 2 + out[1] ** 2 + out[2] ** 2)
    if length == 0.0:
        out[2] = facing
        return
    if out[2] * facing < 0.0:
        length = -length
    for k in range(3):
        out[k] /= length


@small_kernel
def _principal_axes(vertices, faces, first, last, axes):
    """Complete axes[2] by the directions, square to it, in which the triangles spread most."""
    n = axes[2]
    # Any direction square to n, then its partner.
    k = (
        0
        if abs(n[0]) <= abs(n[1]) and abs(n[0]) <= abs(n[2])
        else (1 if abs(n[1]) <= abs(n[2]) else 2)
    )
    u = np.zeros(3)
    u[k] = 1.0
    share = n[k]
    length = math.sqrt(1.0 - share * share)
    for i in range(3):
        u[i] = (u[i] - share * n[i]) / length
    v0 = n[1] * u[2] - n[2] * u[1]
    v1 = n[2] * u[0] - n[0] * u[2]
    v2 = n[0] * u[1] - n[1] * u[0]
    origin = vertices[faces[first, 0]]
    total = su = sv = suu = suv = svv = 0.0
    for f in range(first, last):
        for c in range(3):
            p = vertices[faces[f, c]]
            x, y, z = p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]
            a = u[0] * x + u[1] * y + u[2] * z
            b = v0 * x + v1 * y + v2 * z
            total += 1.0
            su += a
            sv += b
            suu += a * a
            suv += a * b
            svv += b * b
    cuu, cvv = suu - su * su / total, svv - sv * sv / total
    angle = 0.5 * math.atan2(2.0 * (suv - su * sv / total), cuu - cvv)
    c, s = math.cos(angle), math.sin(angle)
    axes[0, 0], axes[0, 1], axes[0, 2] = c * u[0] + s * v0, c * u[1] + s * v1, c * u[2] + s * v2
    axes[1, 0], axes[1, 1], axes[1, 2] = c * v0 - s * u[0], c * v1 - s * u[1], c * v2 - s * u[2]


@small_kernel
def _reach(vertices, faces, first, last, origin, x, y, z):
    """Least and most of (p - origin) along a direction, over some triangles."""
    least, most = np.inf, -np.inf
    for f in range(first, last):
        for c in range(3):
            p = vertices[faces[f, c]]
            value = x * (p[0] - origin[0]) + y * (p[1] - origin[1]) + z * (p[2] - origin[2])
            least = min(least, value)
            most = max(most, value)
    return least, most


@small_kernel
def _local_box(vertices, faces, first, last, centre, outward, half):
    """Box of some triangles along the hinge axis, outward from it and around it.

    These are the directions in which closing is bounded; a box along x, y, z would be looser.
    """
    mx = mz = 0.0
    for f in range(first, last):
        for c in range(3):
            mx += vertices[faces[f, c], 0]
            mz += vertices[faces[f, c], 2]
    length = math.sqrt(mx * mx + mz * mz)
    outward[0], outward[1] = (mx / length, mz / length) if length > 0.0 else (1.0, 0.0)
    origin = vertices[faces[first, 0]]
    for k in range(3):
        centre[k] = origin[k]
    for k in range(3):
        x, y, z = 0.0, 1.0, 0.0
        if k == 1:
            x, y, z = outward[0], 0.0, outward[1]
        elif k == 2:
            x, y, z = outward[1], 0.0, -outward[0]
        least, most = _reach(vertices, faces, first, last, origin, x, y, z)
        middle = 0.5 * (least + most)
        centre[0] += middle * x
        centre[1] += middle * y
        centre[2] += middle * z
        half[k] = 0.5 * (most - least) + 1e-12


@kernel
def box_nodes(vertices, faces, tooth, facing, start, stop, mask, only, centre, outward, half,
              offset, axes, slab_centre, slab_half):  # fmt: skip
    """Boxes, half-spaces and tooth masks of all nodes. facing: sign of z towards the other arch."""
    for node in range(start.shape[0]):
        first, last = start[node], stop[node]
        bits = np.uint64(0)
        for f in range(first, last):
            bits |= np.uint64(1) << np.uint64(tooth[f])
        mask[node] = bits
        only[node] = tooth[first] if bits & (bits - np.uint64(1)) == 0 else -1
        origin = vertices[faces[first, 0]]
        _local_box(vertices, faces, first, last, centre[node], outward[node], half[node])
        frame = axes[node]
        _mean_normal(vertices, faces, first, last, facing, frame[2])
        _principal_axes(vertices, faces, first, last, frame)
        for k in range(3):
            slab_centre[node, k] = origin[k]
        for k in range(3):
            x, y, z = frame[k, 0], frame[k, 1], frame[k, 2]
            least, most = _reach(vertices, faces, first, last, origin, x, y, z)
            slab_half[node, k] = 0.5 * (most - least) + 1e-12
            for i in range(3):
                slab_centre[node, i] += 0.5 * (least + most) * frame[k, i]
            if k == 2:
                offset[node] = most + 1e-12
                for i in range(3):
                    offset[node] -= frame[2, i] * (centre[node, i] - origin[i])


@small_kernel
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
        d = vertices[p] - vertices[q]
        longest = max(longest, d[0] ** 2 + d[1] ** 2 + d[2] ** 2)
    out[6] = longest


@kernel
def bound_around(vertices, vertex_around, faces, start, stop, centre, axes, around):
    """Cylindrical bounds of all nodes: box, and angle >= plane + slope_s s + slope_r r."""
    face = np.empty((faces.shape[0], 7))
    for f in range(faces.shape[0]):
        _face_around(vertices, vertex_around, faces, f, face[f])
    for node in range(start.shape[0]):
        box = around[node]
        box[0], box[2], box[4] = np.inf, np.inf, np.inf
        box[1], box[3], box[5] = -np.inf, -np.inf, -np.inf
        for f in range(start[node], stop[node]):
            for k in range(0, 6, 2):
                box[k] = min(box[k], face[f, k])
                box[k + 1] = max(box[k + 1], face[f, k + 1])
        x, z = centre[node, 0], centre[node, 2]
        r = math.sqrt(x * x + z * z)
        slope_s, slope_r = 0.0, 0.0
        if r > 0.0 and box[2] > 0.0:
            nx, ny, nz = axes[node, 2, 0], axes[node, 2, 1], axes[node, 2, 2]
            radial = (nx * x + nz * z) / r
            tangential = (nx * z - nz * x) / r
            if abs(tangential) > 0.02:
                slope_s = -ny / (tangential * r)
                slope_r = -radial / (tangential * r)
        plane = np.inf
        for f in range(start[node], stop[node]):
            if face[f, 2] <= 0.0 or face[f, 5] - face[f, 4] > 3.0:
                plane = -np.inf
                break
            value = np.inf
            for k in range(3):
                v = faces[f, k]
                value = min(
                    value,
                    vertex_around[v, 2]
                    - slope_s * vertex_around[v, 0]
                    - slope_r * math.sqrt(vertex_around[v, 1]),
                )
            # Angle and radius bend between the corners by at most half the second derivative
            # (1/r^2 and 1/r) times the squared radius of the smallest ball, side^2 / 3.
            bend = face[f, 6] / 6.0 * (1.0 / face[f, 2] ** 2 + abs(slope_r) / face[f, 2])
            plane = min(plane, value - bend)
        box[6], box[7], box[8] = plane, slope_s, slope_r
