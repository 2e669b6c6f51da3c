"""Which triangles of two small nodes may lie within a tolerance: one upper against eight lower.

A pair is told apart by a direction in which all of one lies farther than the tolerance from all of
the other: the normals of both, across each side of the lower, and from middle to middle. Any
direction will do, so short floats are exact enough for it; what they take from a distance is added
to the tolerance.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, small_kernel
from kinematics.geometry.kernels.lanes import (
    ALL,
    WIDTH,
    choose,
    greater,
    lesser,
    load,
    not_below,
    root,
    spread,
    store,
)
from kinematics.geometry.kernels.tree_arrays import START, STOP
from kinematics.geometry.kernels.vectors import cross, dot, minus, point

#: Blocks kept at a time, each in the place its node's number gives it.
PLACES = 512
#: Rows of a block: x, y, z of the corners of eight lower triangles and of their middles; then, for
#: the normal and the directions across the three sides, x, y, z and how far the triangle reaches,
#: least and most. All counted from the first corner of all.
MIDDLE, DIRECTIONS = 9, 12
BLOCK_ROWS = DIRECTIONS + 4 * 5
#: Place in `origin` of the first corner, and of the greatest coordinate counted from it.
FARTHEST = 3
#: More than short floats take from a distance along a direction, as a fraction of coordinates and
#: of the tolerance.
ROUNDING = 1e-5
#: Directions shorter than the root of this tell nothing: their squares might vanish.
SHORTEST = np.float32(1e-28)


@inner_kernel
def small(links, node):
    """Tell whether a node has no more triangles than there are lanes."""
    return links[node, STOP] - links[node, START] <= WIDTH


@inner_kernel
def _three(block, row):
    return load(block, row, 0), load(block, row + 1, 0), load(block, row + 2, 0)


@inner_kernel
def _all(p):
    return spread(p[0]), spread(p[1]), spread(p[2])


@inner_kernel
def _least(a, b, c):
    return lesser(lesser(a, b), c)


@inner_kernel
def _most(a, b, c):
    return greater(greater(a, b), c)


class Blocks(NamedTuple):
    """Small lower nodes made ready, kept from pose to pose."""

    node: NDArray[np.int32]  # (places,) the node in each place, -1 for none
    rows: NDArray[np.float32]  # (places * BLOCK_ROWS, 8)
    origin: NDArray[np.float64]  # (places, 4) the first corner, and the farthest coordinate from it


@small_kernel
def no_blocks():
    """Return memory for blocks, none of them written."""
    return Blocks(
        np.full(PLACES, -1, np.int32), np.empty((PLACES * BLOCK_ROWS, WIDTH), np.float32),
        np.empty((PLACES, 4)),
    )  # fmt: skip


@inner_kernel
def place_of(blocks, lo, node):
    """Return the place in which the block of a lower node stands, written if it did not."""
    # Nodes follow each other as a search goes down first, so a small one has some numbers.
    place = (node >> 3) % PLACES
    if blocks.node[place] != node:
        _write_block(lo, node, blocks.rows, place * BLOCK_ROWS, blocks.origin, place)
        blocks.node[place] = node
    return place


@bare_kernel
def _write_block(lo, node, block, start, origin, place):
    """Write the triangles of a small lower node, the last again in lanes left over."""
    first, last = lo.links[node, START], lo.links[node, STOP] - 1
    o = point(lo.vertices, lo.faces[first, 0])
    farthest = 0.0
    for lane in range(WIDTH):
        face = min(first + lane, last)
        for c in range(3):
            x, y, z = minus(point(lo.vertices, lo.faces[face, c]), o)
            row = start + 3 * c
            block[row, lane], block[row + 1, lane], block[row + 2, lane] = x, y, z
            farthest = max(farthest, abs(x), abs(y), abs(z))
    for k in range(3):
        origin[place, k] = o[k]
    origin[place, FARTHEST] = farthest
    a, b, c = _three(block, start), _three(block, start + 3), _three(block, start + 6)
    third = spread(np.float32(1.0 / 3.0))
    store(block, start + MIDDLE, 0, (a[0] + b[0] + c[0]) * third)
    store(block, start + MIDDLE + 1, 0, (a[1] + b[1] + c[1]) * third)
    store(block, start + MIDDLE + 2, 0, (a[2] + b[2] + c[2]) * third)
    normal = cross(minus(b, a), minus(c, a))
    for k in range(4):
        if k == 0:
            d = normal
        elif k == 1:
            d = cross(minus(b, a), normal)
        elif k == 2:
            d = cross(minus(c, b), normal)
        else:
            d = cross(minus(a, c), normal)
        square = dot(d, d)
        told = not_below(square, spread(SHORTEST))
        scale = choose(told, spread(np.float32(1.0)) / root(square), spread(np.float32(0.0)))
        d = d[0] * scale, d[1] * scale, d[2] * scale
        ha, hb, hc = dot(d, a), dot(d, b), dot(d, c)
        row = start + DIRECTIONS + 5 * k
        store(block, row, 0, d[0])
        store(block, row + 1, 0, d[1])
        store(block, row + 2, 0, d[2])
        store(block, row + 3, 0, _least(ha, hb, hc))
        store(block, row + 4, 0, _most(ha, hb, hc))


@inner_kernel
def _from(o, p):
    """Return a point counted from an origin, and its farthest coordinate."""
    x, y, z = p[0] - o[0], p[1] - o[1], p[2] - o[2]
    return (np.float32(x), np.float32(y), np.float32(z)), max(abs(x), abs(y), abs(z))


@inner_kernel
def _no_farther(hu, hl, reach):
    """Lanes in which heights of two triangles come within reach of each other; see `_least`."""
    least_u, most_u, least_l, most_l = hu[0], hu[1], hl[0], hl[1]
    return not_below(most_l + reach, least_u) & not_below(most_u + reach, least_l)


@inner_kernel
def near_lanes(blocks, place, p, q, r, tolerance):
    """Bits of the triangles of a block that may lie within the tolerance of an upper one."""
    block, start, o = blocks.rows, place * BLOCK_ROWS, point(blocks.origin, place)
    (a, far_a), (b, far_b), (c, far_c) = _from(o, p), _from(o, q), _from(o, r)
    far = max(far_a, far_b, far_c) + blocks.origin[place, FARTHEST]
    most = np.float32(tolerance + ROUNDING * (tolerance + far))
    reach = spread(most)
    near = ALL
    la, lb, lc = _all(a), _all(b), _all(c)
    for k in range(4):
        row = start + DIRECTIONS + 5 * k
        d = _three(block, row)
        ha, hb, hc = dot(d, la), dot(d, lb), dot(d, lc)
        own = load(block, row + 3, 0), load(block, row + 4, 0)
        near &= _no_farther((_least(ha, hb, hc), _most(ha, hb, hc)), own, reach)
    if near == 0:
        return 0
    n = cross(minus(b, a), minus(c, a))
    size = np.float32(math.sqrt(dot(n, n) + SHORTEST))
    ta, tb, tc = _three(block, start), _three(block, start + 3), _three(block, start + 6)
    d = _all(n)
    ha, hb, hc = dot(d, ta), dot(d, tb), dot(d, tc)
    na, nb, nc = dot(n, a), dot(n, b), dot(n, c)
    own = spread(min(na, nb, nc)), spread(max(na, nb, nc))
    near &= _no_farther(own, (_least(ha, hb, hc), _most(ha, hb, hc)), spread(most * size))
    third = np.float32(1.0 / 3.0)
    middle = (
        (a[0] + b[0] + c[0]) * third,
        (a[1] + b[1] + c[1]) * third,
        (a[2] + b[2] + c[2]) * third,
    )
    d = minus(_three(block, start + MIDDLE), _all(middle))
    ha, hb, hc = dot(d, ta), dot(d, tb), dot(d, tc)
    top = _most(dot(d, la), dot(d, lb), dot(d, lc))
    return near & not_below(reach * root(dot(d, d) + spread(SHORTEST)) + top, _least(ha, hb, hc))
