"""The triangles of a tree in tiles of eight, and wide nodes that part in eight at once.

A point is held against the eight triangles of a tile, or against the boxes of the eight children of
a wide node, by the same few instructions: what they read lies side by side, lane by lane.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel
from kinematics.geometry.kernels.lanes import WIDTH
from kinematics.geometry.kernels.tree_arrays import AXES, MIDDLE, RIGHT, SIDES, STACK, START, STOP
from kinematics.geometry.kernels.vectors import cross, dot, minus, point

#: First columns of what a tile has of its triangles, each for all lanes: first corner, sides from
#: it to the other two, the directions in which the shares of these two grow in the plane, and one
#: over the squared lengths of the three sides.
CORNER, SIDE_B, SIDE_C, SHARE_B, SHARE_C = 0, 3 * WIDTH, 6 * WIDTH, 9 * WIDTH, 12 * WIDTH
PER_B, PER_C, PER_THIRD, TILE = 15 * WIDTH, 16 * WIDTH, 17 * WIDTH, 18 * WIDTH
#: First columns of what a wide node has of its children, as `TreeArrays.slab` has it of a node.
BOX_MIDDLE, BOX_SIDES, BOX_AXES, BOXES = 0, 3 * WIDTH, 6 * WIDTH, 15 * WIDTH
#: Where lanes without a triangle lie, mm: farther than any limit.
NOWHERE = 1e9


class TreeTiles(NamedTuple):
    """Tiles and wide nodes of a tree; wide node 0 holds everything.

    Shapes: t tiles, w wide nodes. Millimetres.
    """

    faces: NDArray[np.float64]  # (t, 144)
    boxes: NDArray[np.float64]  # (w, 120)
    children: NDArray[np.int32]  # (w, 8) wide node, or -1 - tile
    size2: NDArray[np.float64]  # (w,) squared half diagonal of the box; 0 where a child is a tile


@inner_kernel
def _one_over(u):
    """One over a squared length; 0 where there is none, so that nothing is divided by it."""
    square = dot(u, u)
    return 1.0 / square if square > 1e-300 else 0.0


@bare_kernel
def _write_face(vertices, faces, f, tiles, tile, lane):
    """Write one triangle into a lane of a tile."""
    a, b, c = (
        point(vertices, faces[f, 0]), point(vertices, faces[f, 1]), point(vertices, faces[f, 2]),
    )  # fmt: skip
    u, v = minus(b, a), minus(c, a)
    n = cross(u, v)
    per = _one_over(n)
    share_b, share_c = cross(v, n), cross(n, u)
    for k in range(3):
        place = k * WIDTH + lane
        tiles[tile, CORNER + place], tiles[tile, SIDE_B + place] = a[k], u[k]
        tiles[tile, SIDE_C + place] = v[k]
        tiles[tile, SHARE_B + place] = share_b[k] * per
        tiles[tile, SHARE_C + place] = share_c[k] * per
    tiles[tile, PER_B + lane], tiles[tile, PER_C + lane] = _one_over(u), _one_over(v)
    tiles[tile, PER_THIRD + lane] = _one_over(minus(v, u))


@bare_kernel
def _write_tile(vertices, faces, first, last, tiles, tile):
    """Write up to eight triangles into a tile."""
    for k in range(TILE):
        tiles[tile, k] = NOWHERE if k < SIDE_B else 0.0
    for f in range(first, last):
        _write_face(vertices, faces, f, tiles, tile, f - first)


@bare_kernel
def _write_child(slab, node, boxes, wide, lane):
    """Write the box of a node into a lane of a wide node."""
    for k in range(3):
        boxes[wide, BOX_MIDDLE + k * WIDTH + lane] = slab[node, MIDDLE + k]
        boxes[wide, BOX_SIDES + k * WIDTH + lane] = slab[node, SIDES + k]
    for k in range(9):
        boxes[wide, BOX_AXES + k * WIDTH + lane] = slab[node, AXES + k]


@bare_kernel
def _part(links, node, parts):
    """Write up to eight nodes that together hold what a node holds; return how many.

    Balanced trees give eight: the largest power of eight below the number of triangles each.
    """
    most = WIDTH
    while most * WIDTH < links[node, STOP] - links[node, START]:
        most *= WIDTH
    parts[0] = node
    count = 1
    while count < WIDTH:
        largest, place = most, -1
        for k in range(count):
            held = links[parts[k], STOP] - links[parts[k], START]
            if held > largest:
                largest, place = held, k
        if place < 0:
            break
        for k in range(count, place + 1, -1):
            parts[k] = parts[k - 1]
        parts[place], parts[place + 1] = parts[place] + 1, links[parts[place], RIGHT]
        count += 1
    return count


@kernel
def lay_tiles(vertices, faces, links, slab, counting, tiles, boxes, children, size2):
    """Lay out tiles and wide nodes; return how many there are of each. counting: write nothing."""
    stack, parts = np.empty((STACK, 2), np.int64), np.empty(WIDTH, np.int64)
    stack[0, 0], stack[0, 1] = 0, 0
    top, tile, last = 1, 0, 1
    while top > 0:
        top -= 1
        node, wide = stack[top, 0], stack[top, 1]
        count = _part(links, node, parts)
        if not counting:
            for k in range(BOXES):
                boxes[wide, k] = -NOWHERE if BOX_SIDES <= k < BOX_AXES else 0.0
            size2[wide] = slab[node, SIDES] ** 2 + slab[node, SIDES + 1] ** 2
            size2[wide] += slab[node, SIDES + 2] ** 2
        for lane in range(count):
            first, stop = links[parts[lane], START], links[parts[lane], STOP]
            small = stop - first <= WIDTH
            if not counting:
                _write_child(slab, parts[lane], boxes, wide, lane)
                children[wide, lane] = -1 - tile if small else last
                if small:
                    _write_tile(vertices, faces, first, stop, tiles, tile)
                    size2[wide] = 0.0
            if small:
                tile += 1
            else:
                stack[top, 0], stack[top, 1] = parts[lane], last
                top += 1
                last += 1
    return tile, last
