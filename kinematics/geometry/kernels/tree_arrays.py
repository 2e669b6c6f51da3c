"""What kernels see of a tree over triangles: plain arrays, named.

Searches jump from node to node, so what is read together lies together: a row of each of these
arrays is one or two lines of the processor's cache. Leaves hold one triangle each.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

#: Room for a search from node to node: more than the deepest tree of memory asks for.
STACK = 512
#: Columns of `TreeArrays.links`: right child, 0 for a leaf (the left child is the next node);
#: first triangle and one past the last; the tooth where a node holds one, else -1.
RIGHT, START, STOP, ONLY = range(4)
#: Columns of `TreeArrays.around`, and of the bounds of a moved upper node: s and r least and most;
#: the angle that the content of a lower node has at least, and that of an upper node at most; and
#: the same as plane + slope_s s + slope_r r.
S_LEAST, S_MOST, R_LEAST, R_MOST, ANGLE, PLANE, SLOPE_S, SLOPE_R = range(8)
#: First columns of `TreeArrays.turning`: a box along the hinge axis, outward from it and around
#: it, as its middle, half sides, and the x and z of the outward direction (around is z, -x); then
#: the mean normal, which faces the other arch, and how far content reaches along it; then the angle
#: of the middle about the axis, from which it is counted once it has moved.
CENTRE, HALF, OUTWARD, NORMAL, OFFSET, FROM = 0, 3, 6, 8, 11, 12
#: First columns of `TreeArrays.slab`: an oriented box, as its middle, half sides, and the three
#: directions, the last of them the mean normal.
MIDDLE, SIDES, AXES = 0, 3, 6


class TreeArrays(NamedTuple):
    """A balanced binary tree; nodes in preorder, triangles in the order of the leaves.

    Shapes: v vertices, m triangles, k nodes, t teeth. Millimetres, radians.
    """

    vertices: NDArray[np.float64]  # (v, 3)
    faces: NDArray[np.int32]  # (m, 3) ascending, whatever the winding
    tooth: NDArray[np.int16]  # (m,) index of the tooth, 0 to 63
    owned: NDArray[np.int16]  # (m,) bits 0-2 vertices, 3-5 edges, 6-8 open edges, 9-11 their ends
    leaf: NDArray[np.int32]  # (m,) node that holds the triangle alone
    links: NDArray[np.int32]  # (k, 4)
    mask: NDArray[np.uint64]  # (k,) one bit a tooth
    turning: NDArray[np.float64]  # (k, 13) of the upper; (0, 13) of the lower
    slab: NDArray[np.float32]  # (k, 15)
    around: NDArray[np.float32]  # (k, 8) of the lower; (0, 8) of the upper
    vertex_around: NDArray[np.float64]  # (v, 3) s, r squared, angle
    tooth_root: NDArray[np.int64]  # (t,) node that holds one whole tooth
