"""A tree over the triangles of one arch, the same for any order of the triangles given."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.geometry.kernels import node_bounds, rigid_moves, short_rows, tree_build
from kinematics.geometry.kernels.tree_arrays import (
    AXES,
    MIDDLE,
    RIGHT,
    SIDES,
    START,
    TreeArrays,
)
from kinematics.geometry.layouts import Layout, aligned_rows, layout_of
from kinematics.geometry.meshes import Mesh, distinct_vertices
from kinematics.geometry.poses import move_points

MOST_GROUPS = 64
BEHIND_RAD = 2.5


@dataclass(frozen=True)
class Tree:
    """Triangles in a canonical order, and a balanced tree over them.

    Attributes
    ----------
    arrays : TreeArrays
        What the kernels read; all read-only.
    face_of : ndarray, shape (m,)
        Number, in the mesh given, of each triangle of the tree.
    groups : tuple of int
        Label (tooth number) of each tooth index.
    vertex_of : ndarray, shape (n,)
        Vertex of the tree that each vertex of the mesh given is; equal ones are one.
    """

    arrays: TreeArrays
    face_of: Ints
    groups: tuple[int, ...]
    vertex_of: NDArray[np.int32]

    @cached_property
    def layout(self) -> Layout:
        """What searches over vertices need, laid out when they first ask for it."""
        return layout_of(self.arrays, self.vertex_of)

    @cached_property
    def far_corners(self) -> Floats:
        """Two opposite corners (2, 3) of the box around all triangles."""
        box = self.arrays.slab[0].astype(np.float64)
        way = box[SIDES:AXES] @ box[AXES:].reshape(3, 3)
        return np.stack([box[MIDDLE:SIDES] - way, box[MIDDLE:SIDES] + way])

    @cached_property
    def behind_axis(self) -> bool:
        """Whether triangles may reach behind the hinge axis, where angles about it begin anew."""
        return bool(self.arrays.vertex_around[:, 2].max() > BEHIND_RAD)


def _merged(mesh: Mesh) -> tuple[Floats, Ints, Floats, NDArray[np.int32]]:
    """Return vertices in order of their coordinates, equal ones merged, and the faces on them.

    Corners of a face are in order too; the third array is -1 where that turned its winding, else 1.
    The fourth is the number, among these, of each vertex of the mesh.
    """
    vertices, number = distinct_vertices(mesh)
    faces = number[mesh.faces]
    a, b, c = faces.T
    turned = (a > b) ^ (b > c) ^ (a > c)
    winding = np.where(turned, -1.0, 1.0)
    return vertices, np.sort(faces, axis=1), winding, number.astype(np.int32)


def _group_ranks(labels: Ints, centroids: Floats) -> tuple[Ints, tuple[int, ...]]:
    """Return an index per triangle and the labels by index, in order of their mean y."""
    values, inverse = np.unique(labels, return_inverse=True)
    if len(values) > MOST_GROUPS:
        raise InputError(
            f"an arch may hold at most {MOST_GROUPS} different teeth, found {len(values)}"
        )
    means = np.array([centroids[inverse == i, 1].mean() for i in range(len(values))])
    order = np.lexsort((values, means))
    rank = np.empty(len(values), dtype=np.int64)
    rank[order] = np.arange(len(values))
    return rank[inverse], tuple(int(v) for v in values[order])


def tree_over(mesh: Mesh, labels: Ints, facing: float, turns: bool) -> Tree:
    """Build the tree of one arch.

    Parameters
    ----------
    mesh : Mesh
        Triangles, mm.
    labels : ndarray, shape (m,)
        Tooth number of every triangle; at most 64 different ones.
    facing : float
        Sign of z towards the other arch: -1 for the upper, +1 for the lower.
    turns : bool
        True for the lower, whose nodes get bounds about the hinge axis (the y axis).

    Raises
    ------
    InputError
        Labels do not match the triangles, or more than 64 different ones.
    """
    if labels.shape != (len(mesh.faces),):
        raise InputError(
            f"tooth of each triangle: wanted {len(mesh.faces)} numbers, found {labels.shape}"
        )
    vertices, faces, winding, vertex_of = _merged(mesh)
    centroids = vertices[faces].mean(axis=1)
    tooth, groups = _group_ranks(labels, centroids)
    # By tooth, then by corners. Two corners in one number, and few teeth, make sorting quick.
    order = np.lexsort((faces[:, 2], faces[:, 0] * len(vertices) + faces[:, 1]))
    order = order[np.argsort(tooth[order].astype(np.uint8), kind="stable")]
    faces, tooth, centroids = faces[order], tooth[order], centroids[order]
    copy = np.zeros(len(faces), dtype=bool)  # copies of a triangle follow it
    copy[1:] = (faces[1:] == faces[:-1]).all(axis=1) & (tooth[1:] == tooth[:-1])
    keys = np.ascontiguousarray(centroids.T)
    # Along the hinge axis, outward and around it: the directions of the bounds.
    radius = np.hypot(keys[0], keys[2])
    keys = np.stack([keys[1], radius, radius.mean() * np.arctan2(-keys[2], keys[0])])
    inner, links, tooth_root = _split(
        keys, np.searchsorted(tooth, np.arange(len(groups) + 1)).astype(np.int64)
    )
    faces, tooth, order = np.ascontiguousarray(faces[inner]), tooth[inner], order[inner]
    owned = np.zeros(len(faces), dtype=np.int16)
    tree_build.own_features(faces, tooth, copy[inner], len(vertices), owned)
    arrays = _bounded(
        vertices, faces, winding[order], tooth, owned, links, tooth_root, facing, turns
    )
    for array in arrays:
        array.setflags(write=False)
    vertex_of.setflags(write=False)
    return Tree(arrays, order, groups, vertex_of)


def moved_tree(tree: Tree, move: Floats, threads: int = 1) -> Tree:
    """Return the tree of a lower arch after a rigid motion of its arch.

    Order, nodes and links stay as they are: they suit any arch, and after a small motion as well as
    new ones. Boxes are moved, and bounds about the hinge axis follow.

    Parameters
    ----------
    tree : Tree
        Of the lower, with bounds about the hinge axis.
    move : ndarray, shape (4, 4)
        To its new coordinates from its old ones.
    threads : int
        How many share the work; the result does not depend on it.
    """
    old = tree.arrays
    vertices = move_points(move, old.vertices)
    vertex_around = np.empty((len(vertices), 3))
    nodes = len(old.links)
    slab, around = np.empty_like(old.slab), aligned_rows(nodes, 8, np.float32)

    def part(share: int) -> None:
        """Move one of as many shares as there are threads; each row is done by itself."""
        first, last = (nodes * n // threads for n in (share, share + 1))
        rigid_moves.move_nodes(old.slab, old.around, move, first, last, slab, around)
        some = slice(*(len(vertices) * n // threads for n in (share, share + 1)))
        node_bounds.cylindrical(vertices[some], vertex_around[some])

    if threads == 1:
        part(0)
    else:
        with ThreadPoolExecutor(threads) as pool:
            list(pool.map(part, range(threads)))
    arrays = old._replace(vertices=vertices, slab=slab, around=around, vertex_around=vertex_around)
    for array in arrays:
        array.setflags(write=False)
    return Tree(arrays, tree.face_of, tree.groups, tree.vertex_of)


def _split(keys: Floats, group_start: Ints) -> tuple[Ints, NDArray[np.int32], Ints]:
    """Return the order of triangles, the links of all nodes, and the root of every tooth."""
    count = keys.shape[1]
    inner = np.arange(count, dtype=np.int64)
    links = np.zeros((2 * count + 2 * len(group_start), 4), dtype=np.int32)
    tooth_root = np.zeros(len(group_start) - 1, dtype=np.int64)
    used = tree_build.split_triangles(inner, keys, group_start, links, tooth_root)
    return inner, links[:used].copy(), tooth_root


def _bounded(
    vertices: Floats,
    faces: Ints,
    winding: Floats,
    tooth: Ints,
    owned: NDArray[np.int16],
    links: NDArray[np.int32],
    tooth_root: Ints,
    facing: float,
    turns: bool,
) -> TreeArrays:
    """Return the arrays of the tree with the bounds of every node."""
    nodes = len(links)
    mask = np.zeros(nodes, dtype=np.uint64)
    turning, slab = np.empty((nodes, 13)), np.empty((nodes, 15))
    corners, sums = vertices[faces], np.empty((len(faces) + 1, 12))
    holder = np.empty(faces.shape, dtype=np.int32)
    tree_build.find_holders(faces, len(vertices), holder)
    node_bounds.running_sums(corners, winding, sums)
    node_bounds.box_nodes(corners, holder, sums, tooth, facing, links, mask, turning, slab)
    vertex_around = np.empty((len(vertices), 3))
    around = np.empty((0, 8), dtype=np.float32)
    node_bounds.cylindrical(vertices, vertex_around)
    if turns:
        bounds = np.empty((nodes, 8))
        node_bounds.bound_around(vertices, vertex_around, faces, holder, links, turning, bounds)
        around = aligned_rows(nodes, 8, np.float32)
        short_rows.shorten_bounds(bounds, around)
        turning = np.empty((0, 13))
    boxes = np.empty((nodes, 15), dtype=np.float32)
    short_rows.shorten_boxes(slab, boxes)
    leaf = np.zeros(len(faces), dtype=np.int32)
    leaves = np.flatnonzero(links[:, RIGHT] == 0)
    leaf[links[leaves, START]] = leaves
    return TreeArrays(
        vertices, faces.astype(np.int32), tooth.astype(np.int16), owned, leaf, links,
        mask, turning, boxes, around, vertex_around, tooth_root,
    )  # fmt: skip
