"""Open edges are flagged; copies of triangles and their winding change nothing."""

import itertools

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, close
from kinematics.contact.pair import prepare
from kinematics.geometry.meshes import mesh_of
from tests.closure_twin import EDGES, LOWER_VERTEX, UPPER_VERTEX, turned
from tests.made_sheets import FAMILIES, slightly_moved
from tests.slow_but_obvious import distances_to_triangles


def inverted(arch, rng, share):
    """Return an arch of which a share of the triangles, drawn at random, is wound the other way."""
    faces, chosen = arch.mesh.faces.copy(), rng.random(len(arch.mesh.faces)) < share
    faces[chosen] = faces[chosen][:, ::-1]
    return Arch(mesh_of(arch.mesh.vertices, faces), arch.tooth_of_face, ())


def as_given_and_inverted(family, share):
    """Return closures of two arches, and of the same with triangles turned inside out."""
    arches, rng = FAMILIES[family](3), np.random.default_rng(0)
    poses = slightly_moved(60, 1, 0.2, 4.0)
    other = (inverted(arch, rng, share) for arch in arches)
    return close(prepare(*arches), poses), close(prepare(*other), poses)


@pytest.mark.parametrize("share", [1.0, 0.5])
@pytest.mark.parametrize("family", FAMILIES)
def test_winding_does_not_matter(family, share):
    """Turning all or some triangles inside out moves nothing but the last bit."""
    wanted, got = as_given_and_inverted(family, share)
    np.testing.assert_array_equal(got.kind, wanted.kind)
    for name in ("opening_rad", "point", "normal", "radius_mm"):
        np.testing.assert_allclose(
            getattr(got, name), getattr(wanted, name), rtol=1e-14, atol=1e-13
        )


@pytest.mark.parametrize("share", [1.0, 0.5])
def test_winding_does_not_change_a_bit(share):
    """Turning all or some triangles inside out gives the same bits."""
    for family in FAMILIES:
        wanted, got = as_given_and_inverted(family, share)
        for name in ("opening_rad", "point", "normal", "radius_mm"):
            np.testing.assert_array_equal(getattr(got, name), getattr(wanted, name))


def doubled(arch):
    """Return an arch with every triangle given twice."""
    faces = np.concatenate([arch.mesh.faces] * 2)
    return Arch(mesh_of(arch.mesh.vertices, faces), np.tile(arch.tooth_of_face, 2), ())


@pytest.mark.parametrize("family", FAMILIES)
def test_copies_of_triangles_do_not_matter(family):
    """Every triangle given twice changes no bit; what is reported still holds the contact."""
    upper, lower = FAMILIES[family](3)
    poses = slightly_moved(60, 1, 0.2, 4.0)
    wanted = close(prepare(upper, lower), poses)
    got = close(prepare(doubled(upper), doubled(lower)), poses)
    for name in ("opening_rad", "point", "normal", "kind", "tooth_upper", "tooth_lower"):
        np.testing.assert_array_equal(getattr(got, name), getattr(wanted, name))
    met = wanted.status == MEETS
    faces = upper.mesh.corners[got.face_upper[met] % len(upper.mesh.faces)]
    assert distances_to_triangles(got.point[met], faces).max() < 1e-9


def rims_of(faces):
    """Return edges that belong to one triangle only, as pairs of corner numbers."""
    sides = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    edges, times = np.unique(np.sort(sides, axis=1), axis=0, return_counts=True)
    return edges[times == 1]


def nearest_mm(point, edges):
    """Return how far a point lies from the nearest of some edges (n, 2, 3)."""
    a, d = edges[:, 0], edges[:, 1] - edges[:, 0]
    t = np.clip(np.sum((point - a) * d, axis=1) / np.sum(d * d, axis=1), 0.0, 1.0)
    return float(np.linalg.norm(point - a - t[:, None] * d, axis=1).min())


def on_a_rim(upper, lower, pose, got, n):
    """Tell whether the n-th contact lies on an open edge of either mesh."""
    opened = pose[:3, :3] @ turned(np.eye(3), got.opening_rad[n]).T
    below = lower.mesh.vertices @ opened.T + pose[:3, 3]
    return any(
        nearest_mm(got.point[n], points[rims_of(arch.mesh.faces)]) < 1e-7
        for arch, points in ((upper, upper.mesh.vertices), (lower, below))
    )


def check_flags(kinds):
    """Demand the flag where a contact of some kinds lies on an open edge, and nowhere else."""
    seen = []
    for family, seed in itertools.product(("bodies", "bodies on waves", "waves"), (0, 10, 20)):
        upper, lower = FAMILIES[family](seed)
        poses = slightly_moved(80, seed, 0.4, 8.0)
        got = close(prepare(upper, lower), poses)
        for n in np.flatnonzero((got.status == MEETS) & np.isin(got.kind, kinds)):
            seen.append(on_a_rim(upper, lower, poses[n], got, n))
            assert bool(got.on_rim[n]) == seen[-1], (family, seed, n)
    assert 10 < sum(seen) < len(seen) - 10


def test_edges_that_touch_are_flagged_where_one_is_open():
    """The flag is up where one of two touching edges is open."""
    check_flags([EDGES])


def test_vertices_that_touch_are_flagged_where_they_end_an_open_edge():
    """The flag is up where the touching vertex lies on an open edge, which ends there."""
    check_flags([LOWER_VERTEX, UPPER_VERTEX])


def test_copies_of_triangles_close_no_rim():
    """An edge that only copies of one triangle share is as open as that triangle's."""
    upper, lower = FAMILIES["bodies"](0)
    poses = slightly_moved(80, 0, 0.4, 8.0)
    wanted = close(prepare(upper, lower), poses)
    assert wanted.on_rim.any()
    got = close(prepare(doubled(upper), doubled(lower)), poses)
    np.testing.assert_array_equal(got.on_rim, wanted.on_rim)


def test_edges_of_a_closed_body_are_no_rims():
    """A tetrahedron has none; without one face it has three."""
    faces = np.array([[0, 1, 2], [0, 2, 3], [0, 3, 1], [1, 3, 2]])
    assert len(rims_of(faces)) == 0
    assert len(rims_of(faces[:3])) == 3
