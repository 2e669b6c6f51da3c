"""Closure and contacts at their limits: nonsense, nothing, one triangle, far away, millions."""

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.closure import MEETS, NOTHING_MEETS, close, runner_up
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.pair import prepare
from kinematics.contact.touching_faces import touching_faces
from kinematics.contact.workers import Workers
from kinematics.geometry.kernels import patching, vertex_gaps
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, opening_rotation
from tests.closure_twin import Twin
from tests.made_sheets import FAMILIES, cusps, slightly_moved, soup
from tests.slow_but_obvious import distances_to_triangles

TRIANGLE = np.array([[50.0, -4.0, -30.0], [60.0, -4.0, -30.0], [55.0, 6.0, -30.0]])


@pytest.fixture(scope="module")
def pair():
    """Return two sheets of bumps, prepared."""
    return prepare(*FAMILIES["cusps"](5))


def moved_arch(arch, way):
    """Return an arch moved by (x, y, z), mm."""
    return Arch(
        mesh_of(arch.mesh.vertices + np.array(way), arch.mesh.faces), arch.tooth_of_face, ()
    )


def asks(pair, poses):
    """Return whatever can be asked about poses, each to be called."""
    return {
        "closure": lambda: close(pair, poses),
        "patches": lambda: patches(pair, poses, 0.02),
        "gaps": lambda: pair_gaps(pair, poses, 3.0, (11,), (12,)),
    }


@pytest.mark.parametrize("asked", ["closure", "patches", "gaps"])
@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda p: p.__setitem__((2, 0, 0), np.nan), r"entry \(2, 0, 0\) is nan; every entry must"),
        (lambda p: p.__setitem__((1, 2, 3), np.inf), r"entry \(1, 2, 3\) is inf; every entry must"),
        (
            lambda p: p.__imul__(1.01),
            r"poses\[0\]: not a rigid motion; its rotation is off by 0.02",
        ),
        (
            lambda p: p.__setitem__((2, slice(3), 1), -p[2, :3, 1]),
            r"poses\[2\]: not a rigid motion; its rotation is off by 2 .* must not scale or mirror",
        ),
        (
            lambda p: p.__setitem__((1, slice(3), 0), p[1, :3, 0] + 1e-5 * p[1, :3, 1]),
            r"poses\[1\]: not a rigid motion; its rotation is off by 1e-05",
        ),
        (
            lambda p: p.__setitem__(0, np.eye(4) + np.eye(4, k=-3)),
            r"poses\[0\]: .*its last row by 1 \(accepted: 1e-06\)",
        ),
        (lambda p: p.__setitem__((0, 0, slice(3)), 1e200), r"poses\[0\]: not a rigid motion"),
    ],
)
def test_what_is_no_pose_is_refused(pair, asked, change, message):
    """Not finite, scaled, mirrored, sheared, or a last row that is none: which pose, and how."""
    poses = slightly_moved(3, 1)
    change(poses)
    with pytest.raises(InputError, match=message):
        asks(pair, poses)[asked]()


def test_poses_of_a_few_digits_are_taken():
    """A rotation written with seven digits is near enough, and moves the opening as little."""
    pair, poses = prepare(*FAMILIES["cusps"](5)), slightly_moved(20, 1)
    rounded = poses.copy()
    rounded[:, :3, :3] = rounded[:, :3, :3].round(7)
    near, exact = close(pair, rounded), close(pair, poses)
    off = np.abs(near.opening_rad - exact.opening_rad) * exact.radius_mm
    assert off.max() < 1e-4


@pytest.mark.parametrize("shape", [(4, 4), (3, 3, 4), (3, 4), (2, 3, 4, 4)])
@pytest.mark.parametrize("asked", ["closure", "patches", "gaps"])
def test_poses_of_another_shape_are_refused(pair, asked, shape):
    """The message says which shape was wanted and which came."""
    with pytest.raises(InputError, match=r"poses: wanted an array of shape \(any, 4, 4\), found"):
        asks(pair, np.zeros(shape))[asked]()


def test_one_pose_is_not_many(pair):
    """Who gives a single pose where many are wanted is told how."""
    with pytest.raises(InputError, match=r"found \(4, 4\); for a single one give \[poses\]"):
        close(pair, np.eye(4))


@pytest.mark.parametrize("poses", [None, "poses", np.eye(4)[None] * (1 + 0j), [["1"] * 4] * 4])
def test_poses_that_are_no_numbers_are_refused(pair, poses):
    """No words, no complex numbers, nothing."""
    with pytest.raises(InputError, match="poses: wanted numbers, found"):
        close(pair, poses)


@pytest.mark.parametrize("wrong", ["0,05", "0.05", None, [0.05], True, 1j, np.nan])
def test_lengths_that_are_no_numbers_are_refused(pair, wrong):
    """The message names the argument, what was found and what is accepted."""
    none = identity_poses(0)
    with pytest.raises(InputError, match=r"tolerance_mm = .*must be 0 to 1 mm"):
        patches(pair, none, wrong)
    with pytest.raises(InputError, match=r"tolerance_mm = .*must be 0 to 1 mm"):
        touching_faces(pair, none, wrong)
    with pytest.raises(InputError, match=r"limit_mm = .*must be 1e-06 to 1000 mm"):
        distance_map(pair, none, wrong)
    with pytest.raises(InputError, match=r"limit_mm = .*must be 1e-06 to 1000 mm"):
        pair_gaps(pair, none, wrong, (11,), (12,))


def test_whole_numbers_of_millimetres_compile_nothing_anew(pair):
    """1 and 1.0 mm are the same length, to the same kernel."""
    pose = slightly_moved(1, 2)
    asked = {
        patching.contact_patches: lambda mm: patches(pair, pose, mm).area_mm2,
        vertex_gaps.least_distances: lambda mm: distance_map(pair, pose, mm).upper_mm,
    }
    for kernel, ask in asked.items():
        wanted = ask(1.0)
        known = len(getattr(kernel, "signatures", ()))
        for one in (1, np.float32(1.0), np.int64(1)):
            assert np.array_equal(ask(one), wanted)
        assert len(getattr(kernel, "signatures", ())) == known


@pytest.mark.parametrize("wrong", [2, "2", True])
def test_workers_that_are_none_are_refused(pair, wrong):
    """A number of threads is no crew of workers."""
    with pytest.raises(InputError, match=r"workers = .*: give Workers\(n\), n threads"):
        close(pair, identity_poses(1), workers=wrong)


@pytest.mark.parametrize("wrong", [0, 257, 1.5, "2", None])
def test_numbers_of_threads_that_are_none_are_refused(wrong):
    """A whole number, 1 to 256."""
    with pytest.raises(InputError, match=r"threads = .*must be .*1 to 256"):
        Workers(wrong)


@pytest.mark.parametrize("worker", [Workers(), Workers(3), Workers(2, lambda done, total: None)])
def test_no_poses_give_no_results(pair, worker):
    """Empty arrays of the right shapes, whoever does the work."""
    none = identity_poses(0)
    closures = close(pair, none, workers=worker)
    assert closures.opening_rad.shape == closures.on_rim.shape == (0,)
    assert closures.point.shape == closures.normal.shape == (0, 3)
    second, gap = runner_up(pair, none, closures, workers=worker)
    assert second.status.shape == gap.shape == (0,)
    assert patches(pair, none, 0.02, worker).centroid.shape == (0, 3)
    assert pair_gaps(pair, none, 3.0, (11, 12), (13,), worker).shape == (0, 2, 1)


def test_no_teeth_asked_for_give_no_gaps(pair):
    """No row or no column, for any number of poses."""
    assert pair_gaps(pair, identity_poses(4), 3.0, (), (13,)).shape == (4, 0, 1)
    assert pair_gaps(pair, identity_poses(4), 3.0, (11,), ()).shape == (4, 1, 0)


def test_pairs_left_out_must_be_as_many_as_poses(pair):
    """Closures of other poses are noticed."""
    poses = slightly_moved(3, 1)
    with pytest.raises(InputError, match=r"pairs left out: wanted 2 .* each of 2 poses, found \(3"):
        runner_up(pair, poses[:2], close(pair, poses))


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        (lambda p: patches(p, identity_poses(1), np.nan), "tolerance_mm = nan mm: must be 0 to 1"),
        (lambda p: patches(p, identity_poses(1), -0.01), "tolerance_mm = -0.01 mm: must be 0 to 1"),
        (lambda p: pair_gaps(p, identity_poses(1), np.inf, (11,), (11,)), "limit_mm = inf mm"),
        (lambda p: pair_gaps(p, identity_poses(1), 0.0, (11,), (11,)), "limit_mm = 0 mm: must be"),
        (lambda p: pair_gaps(p, identity_poses(1), 1.0, (99,), (11,)), "upper tooth 99: the arch"),
    ],
)
def test_limits_out_of_range_are_refused(pair, ask, message):
    """The message names the number and its range."""
    with pytest.raises(InputError, match=message):
        ask(pair)


@pytest.mark.parametrize(
    ("vertices", "faces", "message"),
    [
        (np.empty((0, 3)), np.empty((0, 3), int), "wanted at least one row of 3 corner numbers"),
        (TRIANGLE, np.empty((0, 3), int), "wanted at least one row of 3 corner numbers"),
        (np.where(np.eye(3) > 0, np.nan, TRIANGLE), [[0, 1, 2]], r"entry \(0, 0\) is nan"),
        (np.where(np.eye(3) > 0, -np.inf, TRIANGLE), [[0, 1, 2]], r"entry \(0, 0\) is -inf"),
        (TRIANGLE, [[0, 1, 3]], "corner numbers run from 0 to 3, but there are 3 vertices"),
    ],
)
def test_meshes_that_are_none_never_get_so_far(vertices, faces, message):
    """No triangle, or a corner that is no place, is refused when the mesh is made."""
    with pytest.raises(InputError, match=message):
        mesh_of(vertices, faces)


def test_one_triangle_against_one_can_be_asked_everything():
    """Flat over flat: closure in closed form, one patch of the shared area, one gap."""
    larger = np.array([[40.0, -10.0, -30.0], [80.0, -10.0, -30.0], [55.0, 20.0, -30.0]])
    upper, lower = soup(larger[None]), soup((TRIANGLE - [0, 0, 2.0])[None], [41])
    pair = prepare(upper, lower)
    got = close(pair, identity_poses(1))
    # All corners rise to the same level, those behind by the greatest angle.
    x = np.array([50.0, 60.0, 55.0])
    opening = np.arcsin(30.0 / np.hypot(x, 32.0)) - np.arctan2(32.0, x)
    assert got.opening_rad[0] == pytest.approx(opening.max(), abs=1e-14)
    nothing, gap = runner_up(pair, identity_poses(1), got)
    assert (nothing.status[0], gap[0]) == (NOTHING_MEETS, np.inf)
    assert pair_gaps(pair, identity_poses(1), 5.0, (11,), (41,))[0, 0, 0] == pytest.approx(2.0)
    lifted = identity_poses(1)
    lifted[0, 2, 3] = 1.99
    marks = patches(pair, lifted, 0.02)
    assert marks.area_mm2.tolist() == pytest.approx([50.0])
    assert marks.least_gap_mm.tolist() == pytest.approx([0.01])


@pytest.mark.parametrize("far_mm", [1e4, 1e6])
def test_meshes_far_away_lose_only_digits(far_mm):
    """Ten metres or a kilometre from the axis, what rounding leaves of the places decides."""
    arches = FAMILIES["waves"](5)
    upper, lower = (moved_arch(a, [far_mm, 0, 0]) for a in arches)
    poses = slightly_moved(12, 3, 1e-3 * 100.0 / far_mm, 1.0)
    got = close(prepare(upper, lower), poses)
    twin = Twin(upper.mesh, lower.mesh)
    for n, pose in enumerate(poses):
        wanted = twin.first_contact(pose)
        assert got.status[n] == MEETS
        assert got.opening_rad[n] == pytest.approx(wanted.opening_rad, abs=1e-14)


def test_one_mesh_far_from_the_other_meets_nothing():
    """The lower and its axis far aside, ahead or above: no arc of it reaches the upper."""
    upper, lower = FAMILIES["waves"](5)
    poses = np.repeat(np.eye(4)[None], 4, axis=0)
    poses[:, :3, 3] = [[0, 90, 0], [0, -1e6, 0], [1e5, 0, 0], [0, 0, 1e9]]
    away = moved_arch(lower, [0, 0, 1e7])
    assert (close(prepare(upper, lower), poses).status == NOTHING_MEETS).all()
    assert (close(prepare(upper, away), identity_poses(1)).status == NOTHING_MEETS).all()


@pytest.mark.wide
def test_five_million_triangles_a_side():
    """Needs 8 GB and minutes to prepare; closures of some milliseconds that a cut-out confirms."""
    n = 1582
    upper, lower = cusps(1, -28.0, n, towards=-1.0), cusps(2, -38.0, n)
    assert len(upper.mesh.faces) > 4_990_000
    pair, poses = prepare(upper, lower), slightly_moved(50, 1)
    got = close(pair, poses)
    assert (got.status == MEETS).all()
    closed = poses @ opening_rotation(got.opening_rad)
    for n in range(50):
        corners = upper.mesh.corners[got.face_upper[n]][None]
        assert distances_to_triangles(got.point[n : n + 1], corners)[0] < 1e-9
        below = lower.mesh.corners[got.face_lower[n]] @ closed[n, :3, :3].T + closed[n, :3, 3]
        assert distances_to_triangles(got.point[n : n + 1], below[None])[0] < 1e-9
    # Nothing of either sheet lies in the other where it is opened by a micrometre more.
    marks = pair_gaps(pair, closed[:5], 1.0, pair.upper.groups, pair.lower.groups)
    assert (marks.min(axis=(1, 2)) < 1e-9).all()
    opened = poses[:5] @ opening_rotation(got.opening_rad[:5] + 1e-3 / got.radius_mm[:5])
    gaps = pair_gaps(pair, opened, 1.0, pair.upper.groups, pair.lower.groups)
    assert (gaps.min(axis=(1, 2)) > 1e-5).all()
    assert (gaps.min(axis=(1, 2)) < 1e-3).all()
