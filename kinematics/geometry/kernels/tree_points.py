"""The vertices of a tree in the order of its triangles, so that those of a node lie together."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from kinematics.geometry.kernels.compiling import inner_kernel, kernel
from kinematics.geometry.kernels.tree_arrays import RIGHT, START, STOP


class TreePoints(NamedTuple):
    """Every vertex once, with the first triangle of the tree that has it.

    Shapes: p vertices that belong to a triangle, m triangles. Millimetres.
    """

    places: NDArray[np.float64]  # (p, 3)
    first: NDArray[np.int32]  # (m + 1,) how many vertices come before those of a triangle


@kernel
def order_points(faces, number, order, first):
    """Put the vertices in the order in which the triangles of a tree have them.

    number: (v,) number of every vertex, -1 at first. order: (v,) vertex of every number.
    Returns how many belong to a triangle.
    """
    count = 0
    for f in range(faces.shape[0]):
        first[f] = count
        for k in range(3):
            v = faces[f, k]
            if number[v] < 0:
                number[v] = count
                order[count] = v
                count += 1
    first[faces.shape[0]] = count
    return count


@kernel
def cut_nodes(links, most, nodes):
    """Write the highest nodes of at most so many triangles, which together hold all; count them."""
    count, node = 0, 0
    while node < links.shape[0]:
        if links[node, RIGHT] == 0 or links[node, STOP] - links[node, START] <= most:
            nodes[count] = node
            count += 1
            node = end_of(links, node)
        else:
            node += 1
    return count


@inner_kernel
def end_of(links, node):
    """Return the first node after all that lie below a node, in the order of the tree."""
    while links[node, RIGHT] != 0:
        node = links[node, RIGHT]
    return node + 1


@inner_kernel
def points_of(links, points, node):
    """Return the first vertex of a node and one past its last."""
    return points.first[links[node, START]], points.first[links[node, STOP]]
