"""Shortest distance of two triangles, eight pairs at a time."""

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel
from kinematics.geometry.kernels.lanes import (
    ALL,
    choose,
    greater,
    lesser,
    load,
    not_below,
    spread,
    store,
)
from kinematics.geometry.kernels.placing import moved_corner
from kinematics.geometry.kernels.vectors import cross, dot, minus, point


@inner_kernel
def _point(rows, first):
    return load(rows, first, 0), load(rows, first + 1, 0), load(rows, first + 2, 0)


@inner_kernel
def _along(p, t, d):
    return p[0] + t * d[0], p[1] + t * d[1], p[2] + t * d[2]


@inner_kernel
def _either(mask, p, q):
    return choose(mask, p[0], q[0]), choose(mask, p[1], q[1]), choose(mask, p[2], q[2])


@inner_kernel
def _share(x):
    """Clamp to a share of a segment: at least 0, at most 1."""
    return lesser(spread(1.0), greater(spread(0.0), x))


@inner_kernel
def _below(a, b):
    return ALL & ~not_below(a, b)


@inner_kernel
def _over_face(p, a, b, c, n):
    """Lanes in which a point stands over the inside of a triangle with normal n."""
    none = spread(0.0)
    inside = not_below(dot(cross(minus(b, a), minus(p, a)), n), none)
    inside &= not_below(dot(cross(minus(c, b), minus(p, b)), n), none)
    return inside & not_below(dot(cross(minus(a, c), minus(p, c)), n), none)


@inner_kernel
def _pierced(p, q, dp, dq, a, b, c, n):
    """Lanes in which the segment p-q passes through a triangle, and where it does."""
    none = spread(0.0)
    apart = _below(none, dp * dq) | (not_below(dp, dq) & not_below(dq, dp))
    at = _along(p, dp / (dp - dq), minus(q, p))
    return ~apart & _over_face(at, a, b, c, n), at


@inner_kernel
def _segments(p, q, u, v):
    """Squared distance of segments p-q and u-v, and the nearest point of the first."""
    none, one = spread(0.0), spread(1.0)
    d1, d2, r = minus(q, p), minus(v, u), minus(p, u)
    a, e, f, c, b = dot(d1, d1), dot(d2, d2), dot(d2, r), dot(d1, r), dot(d1, d2)
    det = a * e - b * b
    slanting = _below(spread(1e-14) * a * e, det)
    s = choose(slanting, _share((b * f - c * e) / det), none)
    t = (b * s + f) / e
    low, high = _below(t, none), _below(one, t)
    at_start = _share((none - c) / a)
    s = choose(low, at_start, choose(high, _share((b - c) / a), s))
    t = choose(low, none, choose(high, one, t))
    no_first, no_second = not_below(none, a), not_below(none, e)
    s = choose(no_second, at_start, s)
    t = choose(no_second, none, t)
    s = choose(no_first, none, s)
    w = minus(_along(r, s, d1), (t * d2[0], t * d2[1], t * d2[2]))
    return dot(w, w), _along(p, s, d1)


@inner_kernel
def write_pair(up, lo, pose, iu, il, corners, k):
    """Write the corners of an upper triangle, moved, and a lower one into one lane."""
    for c in range(3):
        p = moved_corner(pose, up.vertices, up.faces[iu, c])
        q = point(lo.vertices, lo.faces[il, c])
        corners[3 * c, k], corners[3 * c + 1, k], corners[3 * c + 2, k] = p[0], p[1], p[2]
        corners[9 + 3 * c, k], corners[10 + 3 * c, k], corners[11 + 3 * c, k] = q[0], q[1], q[2]


@bare_kernel
def triangles_squared_lanes(corners, out):
    """Write squared distances of eight pairs, 0 where they intersect, and the nearest points.

    corners: (18, 8) x, y, z of the corners of the first triangles, then of the second.
    out: (4, 8) squared distance, then the point of the first triangle.
    """
    a0, a1, a2 = _point(corners, 0), _point(corners, 3), _point(corners, 6)
    b0, b1, b2 = _point(corners, 9), _point(corners, 12), _point(corners, 15)
    none = spread(0.0)
    n = cross(minus(b1, b0), minus(b2, b0))
    m = cross(minus(a1, a0), minus(a2, a0))
    nn, mm = dot(n, n), dot(m, m)
    flat = not_below(none, nn) | not_below(none, mm)
    d0, d1, d2 = dot(n, minus(a0, b0)), dot(n, minus(a1, b0)), dot(n, minus(a2, b0))
    e0, e1, e2 = dot(m, minus(b0, a0)), dot(m, minus(b1, a0)), dot(m, minus(b2, a0))
    best, near = spread(np.inf), a0
    pierced = 0
    for k in range(3):
        if k == 0:
            p, q, dp, dq, u, v, eu, ev = a0, a1, d0, d1, b0, b1, e0, e1
        elif k == 1:
            p, q, dp, dq, u, v, eu, ev = a1, a2, d1, d2, b1, b2, e1, e2
        else:
            p, q, dp, dq, u, v, eu, ev = a2, a0, d2, d0, b2, b0, e2, e0
        here, at = _pierced(p, q, dp, dq, b0, b1, b2, n)
        here &= ~flat & ~pierced
        near = _either(here, at, near)
        pierced |= here
        here, at = _pierced(u, v, eu, ev, a0, a1, a2, m)
        here &= ~flat & ~pierced
        near = _either(here, at, near)
        pierced |= here
    best = choose(pierced, none, best)
    for k in range(3):
        if k == 0:
            p, d, u, e = a0, d0, b0, e0
        elif k == 1:
            p, d, u, e = a1, d1, b1, e1
        else:
            p, d, u, e = a2, d2, b2, e2
        here = _below(none, nn) & _below(d * d, best * nn) & ~pierced
        here &= _over_face(p, b0, b1, b2, n)
        best, near = choose(here, d * d / nn, best), _either(here, p, near)
        here = _below(none, mm) & _below(e * e, best * mm) & ~pierced
        here &= _over_face(u, a0, a1, a2, m)
        foot = minus(u, (e / mm * m[0], e / mm * m[1], e / mm * m[2]))
        best, near = choose(here, e * e / mm, best), _either(here, foot, near)
    for i in range(3):
        p, q = (a0, a1) if i == 0 else ((a1, a2) if i == 1 else (a2, a0))
        for j in range(3):
            u, v = (b0, b1) if j == 0 else ((b1, b2) if j == 1 else (b2, b0))
            d, at = _segments(p, q, u, v)
            here = _below(d, best) & ~pierced
            best, near = choose(here, d, best), _either(here, at, near)
    store(out, 0, 0, best)
    store(out, 1, 0, near[0])
    store(out, 2, 0, near[1])
    store(out, 3, 0, near[2])
