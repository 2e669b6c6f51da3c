"""How far the boxes of two nodes lie apart, for eight poses at a time, in the lower's frame."""

import numpy as np

from kinematics.geometry.kernels.compiling import inner_kernel
from kinematics.geometry.kernels.lanes import (
    greater,
    lesser,
    load,
    root,
    shorten,
    size,
    spread,
)
from kinematics.geometry.kernels.tree_arrays import AXES, MIDDLE, SIDES
from kinematics.geometry.kernels.vectors import dot, minus, three

#: More than short floats take from a distance, as a fraction of all that is added up.
ROUNDING = np.float32(2e-6)


@inner_kernel
def _short(a):
    return spread(np.float32(a))


@inner_kernel
def _turned(poses, p):
    """Return a vector of numbers turned by all poses, in short lanes."""
    x, y, z = spread(p[0]), spread(p[1]), spread(p[2])
    return (
        shorten(load(poses, 0, 0) * x + load(poses, 1, 0) * y + load(poses, 2, 0) * z),
        shorten(load(poses, 4, 0) * x + load(poses, 5, 0) * y + load(poses, 6, 0) * z),
        shorten(load(poses, 8, 0) * x + load(poses, 9, 0) * y + load(poses, 10, 0) * z),
    )


@inner_kernel
def moved_box(poses, up, node):
    """Return the box of an upper node under all poses: middle in long lanes, three directions.

    poses: (12, 8), rows of lower_from_hinge one after the other.
    """
    x, y, z = three(up.slab, node, MIDDLE)
    x, y, z = spread(x), spread(y), spread(z)
    middle = (
        load(poses, 0, 0) * x + load(poses, 1, 0) * y + load(poses, 2, 0) * z + load(poses, 3, 0),
        load(poses, 4, 0) * x + load(poses, 5, 0) * y + load(poses, 6, 0) * z + load(poses, 7, 0),
        load(poses, 8, 0) * x + load(poses, 9, 0) * y + load(poses, 10, 0) * z + load(poses, 11, 0),
    )
    e = _turned(poses, three(up.slab, node, AXES))
    f = _turned(poses, three(up.slab, node, AXES + 3))
    g = _turned(poses, three(up.slab, node, AXES + 6))
    return middle, (e, f, g)


@inner_kernel
def between(box, lo, b):
    """Return the way from the middle of a moved box to that of a lower node, in short lanes."""
    x, y, z = three(lo.slab, b, MIDDLE)
    middle = box[0]
    return (
        shorten(spread(x) - middle[0]),
        shorten(spread(y) - middle[1]),
        shorten(spread(z) - middle[2]),
    )


@inner_kernel
def _nearest(axes, half, way):
    """Return the point of a box nearest to a place, both from the box's middle."""
    x = y = z = _short(0.0)
    for k in range(3):
        e, h = axes[k], half[k]
        s = dot(e, way)
        s = lesser(h, greater(_short(0.0) - h, s))
        x, y, z = x + s * e[0], y + s * e[1], z + s * e[2]
    return x, y, z


@inner_kernel
def boxes_apart(box, way, up, lo, a, b):
    """Distance that the contents of two nodes have at least, by their boxes, in every lane.

    way: see `between`. Points of both boxes are brought near each other in turn; whatever direction
    they end up in, the boxes' reach along it gives a bound that holds.
    """
    axes = box[1]
    h0, h1, h2 = three(up.slab, a, SIDES)
    half = _short(h0), _short(h1), _short(h2)
    g0, g1, g2 = three(lo.slab, b, SIDES)
    other_half = _short(g0), _short(g1), _short(g2)
    others = (_axis(lo, b, AXES), _axis(lo, b, AXES + 3), _axis(lo, b, AXES + 6))
    q = way
    p = way
    for _ in range(2):
        p = _nearest(axes, half, q)
        f = _nearest(others, other_half, minus(p, way))
        q = way[0] + f[0], way[1] + f[1], way[2] + f[2]
    m = minus(q, p)
    gap = dot(m, way)
    for k in range(3):
        gap = gap - size(dot(m, axes[k])) * half[k] - size(dot(m, others[k])) * other_half[k]
    length = root(dot(m, m) + _short(1e-28))
    all_ = size(way[0]) + size(way[1]) + size(way[2]) + _short(h0 + h1 + h2 + g0 + g1 + g2)
    return gap / length - _short(ROUNDING) * all_


@inner_kernel
def _axis(lo, b, first):
    x, y, z = three(lo.slab, b, first)
    return _short(x), _short(y), _short(z)
