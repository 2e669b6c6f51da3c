"""How far two nodes lie apart under a pose, in the lower's frame."""

import math

from kinematics.geometry.kernels.compiling import inner_kernel
from kinematics.geometry.kernels.tree_arrays import AXES, MIDDLE, SIDES
from kinematics.geometry.kernels.vectors import three


@inner_kernel
def move_box(pose, up, node, stamps, stamp, bounds):
    """Bring the box of an upper node into the lower's frame, once a pose: centre, then axes."""
    if stamps[node] == stamp:
        return
    stamps[node] = stamp
    # Read first, written last: the compiler must otherwise fear that a store changes the pose.
    p00, p01, p02, p03 = pose[0, 0], pose[0, 1], pose[0, 2], pose[0, 3]
    p10, p11, p12, p13 = pose[1, 0], pose[1, 1], pose[1, 2], pose[1, 3]
    p20, p21, p22, p23 = pose[2, 0], pose[2, 1], pose[2, 2], pose[2, 3]
    x, y, z = up.slab[node, MIDDLE], up.slab[node, MIDDLE + 1], up.slab[node, MIDDLE + 2]
    bounds[node, 0] = p00 * x + p01 * y + p02 * z + p03
    bounds[node, 1] = p10 * x + p11 * y + p12 * z + p13
    bounds[node, 2] = p20 * x + p21 * y + p22 * z + p23
    for k in range(3):
        x, y, z = three(up.slab, node, AXES + 3 * k)
        bounds[node, 3 + 3 * k] = p00 * x + p01 * y + p02 * z
        bounds[node, 4 + 3 * k] = p10 * x + p11 * y + p12 * z
        bounds[node, 5 + 3 * k] = p20 * x + p21 * y + p22 * z


@inner_kernel
def _clamped(x, h):
    return min(h, max(-h, x))


@inner_kernel
def boxes_apart(box, up, lo, a, b):
    """Distance that the contents of two nodes have at least, by their boxes, and its direction.

    Points of both boxes are brought near each other in turn; whatever direction they end up in,
    the boxes' reach along it gives a bound that holds.
    """
    h, g = three(up.slab, a, SIDES), three(lo.slab, b, SIDES)
    dx = lo.slab[b, MIDDLE] - box[a, 0]
    dy = lo.slab[b, MIDDLE + 1] - box[a, 1]
    dz = lo.slab[b, MIDDLE + 2] - box[a, 2]
    qx, qy, qz = dx, dy, dz  # a point of the lower box, from the centre of the upper one
    px = py = pz = 0.0
    for _ in range(2):
        e0 = _clamped(box[a, 3] * qx + box[a, 4] * qy + box[a, 5] * qz, h[0])
        e1 = _clamped(box[a, 6] * qx + box[a, 7] * qy + box[a, 8] * qz, h[1])
        e2 = _clamped(box[a, 9] * qx + box[a, 10] * qy + box[a, 11] * qz, h[2])
        px = e0 * box[a, 3] + e1 * box[a, 6] + e2 * box[a, 9]
        py = e0 * box[a, 4] + e1 * box[a, 7] + e2 * box[a, 10]
        pz = e0 * box[a, 5] + e1 * box[a, 8] + e2 * box[a, 11]
        wx, wy, wz = px - dx, py - dy, pz - dz
        f0 = _clamped(
            lo.slab[b, AXES] * wx + lo.slab[b, AXES + 1] * wy + lo.slab[b, AXES + 2] * wz, g[0]
        )
        f1 = _clamped(
            lo.slab[b, AXES + 3] * wx + lo.slab[b, AXES + 4] * wy + lo.slab[b, AXES + 5] * wz, g[1]
        )
        f2 = _clamped(
            lo.slab[b, AXES + 6] * wx + lo.slab[b, AXES + 7] * wy + lo.slab[b, AXES + 8] * wz, g[2]
        )
        qx = dx + f0 * lo.slab[b, AXES] + f1 * lo.slab[b, AXES + 3] + f2 * lo.slab[b, AXES + 6]
        qy = dy + f0 * lo.slab[b, AXES + 1] + f1 * lo.slab[b, AXES + 4] + f2 * lo.slab[b, AXES + 7]
        qz = dz + f0 * lo.slab[b, AXES + 2] + f1 * lo.slab[b, AXES + 5] + f2 * lo.slab[b, AXES + 8]
    mx, my, mz = qx - px, qy - py, qz - pz
    square = mx * mx + my * my + mz * mz
    gap = mx * dx + my * dy + mz * dz
    for k in range(3):
        gap -= abs(mx * box[a, 3 + 3 * k] + my * box[a, 4 + 3 * k] + mz * box[a, 5 + 3 * k]) * h[k]
        gap -= (
            abs(
                mx * lo.slab[b, AXES + 3 * k]
                + my * lo.slab[b, AXES + 3 * k + 1]
                + mz * lo.slab[b, AXES + 3 * k + 2]
            )
            * g[k]
        )
    if gap <= 0.0 or square == 0.0:
        return 0.0, 0.0, 0.0, 0.0
    scale = 1.0 / math.sqrt(square)
    return gap * scale * (1.0 - 1e-12), mx * scale, my * scale, mz * scale
