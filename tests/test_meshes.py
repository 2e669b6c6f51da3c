"""Meshes are checked, frozen, and measured as a reference library does."""

import numpy as np
import pytest
import trimesh

from kinematics.checks import InputError
from kinematics.geometry.meshes import face_areas_normals, joined, mesh_of


def test_areas_and_normals_agree_with_a_reference_library():
    """Areas and normals of a sphere equal trimesh's."""
    ball = trimesh.creation.icosphere(subdivisions=2)
    area, normal = face_areas_normals(mesh_of(ball.vertices, ball.faces))
    np.testing.assert_allclose(area, ball.area_faces, rtol=1e-12)
    np.testing.assert_allclose(normal, ball.face_normals, atol=1e-9)


def test_a_triangle_without_area_has_no_normal():
    """No division by zero: area 0, normal 0."""
    area, normal = face_areas_normals(mesh_of([[0, 0, 0], [1, 0, 0], [2, 0, 0]], [[0, 1, 2]]))
    assert area.tolist() == [0.0]
    assert normal.tolist() == [[0.0, 0.0, 0.0]]


def test_meshes_are_read_only():
    """Nobody can change a mesh that others share."""
    mesh = mesh_of([[0, 0, 0], [1, 0, 0], [0, 1, 0]], [[0, 1, 2]])
    with pytest.raises(ValueError, match="read-only"):
        mesh.vertices[0, 0] = 5.0


def test_joined_meshes_keep_all_triangles_in_order():
    """The second mesh's corner numbers are moved on."""
    one = mesh_of([[0, 0, 0], [1, 0, 0], [0, 1, 0]], [[0, 1, 2]])
    two = mesh_of([[5, 0, 0], [6, 0, 0], [5, 1, 0]], [[0, 2, 1]])
    both = joined([one, two])
    np.testing.assert_array_equal(both.corners, np.concatenate([one.corners, two.corners]))


@pytest.mark.parametrize(
    ("vertices", "faces", "message"),
    [
        ([[0, 0, 0]], [[0, 0, 1]], "corner numbers run from 0 to 1, but there are 1 vertices"),
        ([[0, 0, 0]], np.empty((0, 3)), "at least one row of 3 corner numbers, found \\(0, 3\\)"),
        ([[0, 0]], [[0, 0, 0]], "wanted an array of shape \\(any, 3\\), found \\(1, 2\\)"),
        ([[0, np.nan, 0]], [[0, 0, 0]], "entry \\(0, 1\\) is nan; every entry must be finite"),
        ("teeth", [[0, 0, 0]], "wanted numbers, found 'teeth'"),
    ],
)
def test_bad_arrays_are_refused(vertices, faces, message):
    """The message says what was wanted and what came."""
    with pytest.raises(InputError, match=message):
        mesh_of(vertices, faces)
