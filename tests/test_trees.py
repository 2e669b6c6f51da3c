"""Trees over triangles: every bound holds for every point, and the order of input is forgotten."""

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.geometry.kernels import moved_nodes
from kinematics.geometry.kernels.lanes import WIDTH
from kinematics.geometry.kernels.tree_arrays import PLANE, RIGHT, START, STOP
from kinematics.geometry.poses import inverse, move_points
from kinematics.geometry.trees import tree_over
from tests.test_closure import patchwork, slightly_moved

SLACK = 1e-9


def samples(tree, node, count=200):
    """Return points spread over the triangles of a node."""
    arrays = tree.arrays
    rng = np.random.default_rng(node)
    picked = rng.integers(arrays.links[node, START], arrays.links[node, STOP], count)
    weights = rng.dirichlet([0.5, 0.5, 0.5], count)
    return np.einsum("nk,nkj->nj", weights, arrays.vertices[arrays.faces[picked]])


def about_the_axis(points):
    """Return s, r and angle."""
    x, y, z = points.T
    return y, np.hypot(x, z), np.arctan2(-z, x)


def lower_bounds_hold(tree):
    """Tell whether every sampled point keeps to the bounds of its node."""
    for node in range(0, len(tree.arrays.links), 3):
        s, r, angle = about_the_axis(samples(tree, node))
        box = tree.arrays.around[node]
        inside = (s >= box[0] - SLACK) & (s <= box[1] + SLACK) & (r >= box[2] - SLACK)
        inside &= (r <= box[3] + SLACK) & (angle >= box[4] - SLACK)
        inside &= angle >= box[5] + box[6] * s + box[7] * r - SLACK
        if not inside.all():
            return False
    return True


def test_lower_bounds_hold_and_a_broken_one_is_noticed():
    """Box and plane of every lower node hold its content; raising one plane breaks the check."""
    arch = patchwork(3, 25, -33, 1.5)
    tree = tree_over(arch.mesh, arch.tooth_of_face, 1.0, True)
    assert lower_bounds_hold(tree)
    tree.arrays.around.setflags(write=True)
    tree.arrays.around[9, PLANE] += 0.002
    assert not lower_bounds_hold(tree)


def test_upper_bounds_hold_under_any_pose():
    """Box and plane of moved upper nodes hold their content."""
    arch = patchwork(4, 25, -30, 1.5)
    tree = tree_over(arch.mesh, arch.tooth_of_face, -1.0, False)
    a = tree.arrays
    backs = inverse(slightly_moved(WIDTH, 2))
    lanes = np.ascontiguousarray(backs[:, :3].reshape(WIDTH, 12).T)
    rows, work = np.empty((1, moved_nodes.MOVED)), np.empty((2, WIDTH))
    for node in range(0, len(a.links), 5):
        moved_nodes.move_node(lanes, a, node, 0, rows, work)
        for lane, back in enumerate(backs):
            s, r, angle = about_the_axis(move_points(back, samples(tree, node)))
            box = rows.reshape(8, WIDTH)[:, lane]
            assert (s >= box[0] - SLACK).all() and (s <= box[1] + SLACK).all()
            assert (r >= box[2] - SLACK).all() and (r <= box[3] + SLACK).all()
            assert (angle <= box[4] + SLACK).all()
            assert (angle <= box[5] + box[6] * s + box[7] * r + SLACK).all()


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
