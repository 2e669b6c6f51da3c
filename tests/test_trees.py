"""Trees over triangles: who shares out what, and who owns which vertex and edge."""

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.geometry.kernels.tree_arrays import RIGHT, START, STOP
from kinematics.geometry.trees import tree_over
from tests.made_sheets import patchwork


def test_nodes_split_their_triangles_and_teeth_stand_alone():
    """Children share out the parent's triangles; each tooth has a node of its own."""
    arch = patchwork(3, 20, -33, 1.0)
    tree = tree_over(arch.mesh, arch.tooth_of_face, 1.0, True)
    a = tree.arrays
    right, start, stop = a.links[:, RIGHT], a.links[:, START], a.links[:, STOP]
    for node in np.flatnonzero(right):
        assert start[node + 1] == start[node]
        assert stop[node + 1] == start[right[node]]
        assert stop[right[node]] == stop[node]
        assert a.mask[node] == a.mask[node + 1] | a.mask[right[node]]
    assert ((stop - start)[right == 0] == 1).all()
    for index, code in enumerate(tree.groups):
        root = a.tooth_root[index]
        faces = tree.face_of[start[root] : stop[root]]
        np.testing.assert_array_equal(np.sort(faces), np.flatnonzero(arch.tooth_of_face == code))


def test_every_vertex_and_edge_of_a_tooth_has_one_owner():
    """Counts of owned vertices and edges are those of the teeth taken alone."""
    arch = patchwork(3, 12, -33, 1.0)
    tree = tree_over(arch.mesh, arch.tooth_of_face, 1.0, True)
    for index in range(len(tree.groups)):
        rows = tree.arrays.tooth == index
        faces, owned = tree.arrays.faces[rows], tree.arrays.owned[rows]
        edges = np.sort(np.stack([faces, np.roll(faces, -1, 1)], 2), 2).reshape(-1, 2)
        assert sum((owned >> k & 1).sum() for k in range(3)) == len(np.unique(faces))
        assert sum((owned >> k & 1).sum() for k in range(3, 6)) == len(np.unique(edges, axis=0))


def test_too_many_teeth_are_refused():
    """More than 64 labels do not fit the masks."""
    arch = patchwork(3, 12, -33, 1.0)
    with pytest.raises(InputError, match="at most 64 different teeth, found 65"):
        tree_over(arch.mesh, np.arange(len(arch.mesh.faces)) % 65, 1.0, True)
