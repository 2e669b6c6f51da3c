"""What searches over vertices need of a tree: vertices in its order, parts, and tiles."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import DTypeLike, NDArray

from kinematics.conventions import Ints
from kinematics.geometry.kernels import tree_points, tree_tiles
from kinematics.geometry.kernels.lanes import WIDTH
from kinematics.geometry.kernels.tree_arrays import TreeArrays
from kinematics.geometry.kernels.tree_points import TreePoints
from kinematics.geometry.kernels.tree_tiles import BOXES, TILE, TreeTiles

#: Parts hold a 64th of the triangles at most, so that threads share the work alike.
PARTS = 64


@dataclass(frozen=True)
class Layout:
    """A tree laid out for searches over vertices; all arrays are read-only.

    Attributes
    ----------
    points : TreePoints
        Every vertex that belongs to a triangle, once, in the order of the tree.
    point_of : ndarray, shape (n,)
        Number among these of each vertex of the mesh given; -1 where it belongs to no triangle.
    parts : ndarray, shape (k,)
        Nodes that together hold all triangles.
    tiles : TreeTiles
        The triangles, eight by eight.
    """

    points: TreePoints
    point_of: NDArray[np.int32]
    parts: Ints
    tiles: TreeTiles


def layout_of(arrays: TreeArrays, vertex_of: NDArray[np.int32]) -> Layout:
    """Lay out a tree.

    Parameters
    ----------
    arrays : TreeArrays
        The tree.
    vertex_of : ndarray, shape (n,)
        Vertex of the tree that each vertex of the mesh given is.
    """
    count = len(arrays.vertices)
    number, order = np.full(count, -1, dtype=np.int32), np.empty(count, dtype=np.int32)
    first = np.empty(len(arrays.faces) + 1, dtype=np.int32)
    used = tree_points.order_points(arrays.faces, number, order, first)
    points = TreePoints(arrays.vertices[order[:used]], first)
    nodes = np.empty(len(arrays.links), dtype=np.int64)
    parts = nodes[: tree_points.cut_nodes(arrays.links, len(arrays.faces) // PARTS, nodes)].copy()
    layout = Layout(points, number[vertex_of], parts, _tiles(arrays))
    for array in (*points, layout.point_of, parts, *layout.tiles):
        array.setflags(write=False)
    return layout


def _tiles(arrays: TreeArrays) -> TreeTiles:
    """Return the tiles, after counting how many there are."""
    counted = tree_tiles.lay_tiles(
        arrays.vertices, arrays.faces, arrays.links, arrays.slab, True, *_room(0, 0)
    )
    tiles = _room(*counted)
    tree_tiles.lay_tiles(arrays.vertices, arrays.faces, arrays.links, arrays.slab, False, *tiles)
    return tiles


def _room(tiles: int, wide: int) -> TreeTiles:
    return TreeTiles(
        aligned_rows(tiles, TILE),
        aligned_rows(wide, BOXES),
        np.zeros((wide, WIDTH), dtype=np.int32),
        np.empty(wide),
    )


def aligned_rows(count: int, columns: int, kind: DTypeLike = np.float64) -> NDArray[Any]:
    """Return rows of floats that lie across as few lines of the processor's cache as can be."""
    of_line = 64 // np.dtype(kind).itemsize
    space = np.empty(count * columns + of_line, dtype=kind)
    first = -(space.ctypes.data // space.itemsize) % of_line
    return space[first : first + count * columns].reshape(count, columns)
