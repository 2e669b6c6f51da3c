"""What kernels see of a tree over triangles: plain arrays, named."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

#: Columns of `TreeArrays.around`: bounds of a node in cylindrical coordinates about the y axis.
S_LEAST, S_MOST, R_LEAST, R_MOST, ANGLE_LEAST, ANGLE_MOST, PLANE, SLOPE_S, SLOPE_R = range(9)


class TreeArrays(NamedTuple):
    """A balanced binary tree; nodes in preorder, triangles in the order of the leaves.

    Shapes: v vertices, m triangles, k nodes. Millimetres, radians.
    """

    vertices: NDArray[np.float64]  # (v, 3)
    faces: NDArray[np.int64]  # (m, 3)
    tooth: NDArray[np.int64]  # (m,) index of the tooth, 0 to 63
    owned: NDArray[np.int64]  # (m,) bits 0-2 vertices, 3-5 edges, 6-8 edge is an open rim
    leaf: NDArray[np.int64]  # (m,) node that holds the triangle
    right: NDArray[np.int64]  # (k,) right child; 0 for a leaf; the left child is the next node
    start: NDArray[np.int64]  # (k,) first triangle
    stop: NDArray[np.int64]  # (k,) one past the last triangle
    mask: NDArray[np.uint64]  # (k,) one bit a tooth
    only: NDArray[np.int64]  # (k,) the tooth, where a node holds one; else -1
    centre: NDArray[np.float64]  # (k, 3) middle of the box along the axis, outward and around
    outward: NDArray[np.float64]  # (k, 2) x, z of the outward direction; around is (z, -x)
    half: NDArray[np.float64]  # (k, 3) half sides of that box: along, outward, around
    offset: NDArray[np.float64]  # (k,) content keeps axes[2] . (p - centre) <= offset
    axes: NDArray[np.float64]  # (k, 3, 3) rows: directions of the oriented box, the last the mean
    # normal, which faces the other arch
    slab_centre: NDArray[np.float64]  # (k, 3) middle of the oriented box
    slab_half: NDArray[np.float64]  # (k, 3) half sides of the oriented box
    around: NDArray[np.float64]  # (k, 9) see the column names above
    vertex_around: NDArray[np.float64]  # (v, 3) s, r squared, angle
    tooth_root: NDArray[np.int64]  # (t,) node that holds one whole tooth
