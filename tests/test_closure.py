"""Rotational first contact against a brute-force twin, and its invariants."""

import sys

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.closure import MEETS, NOTHING_MEETS, close, runner_up
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, inverse, move_points, pose_of, rotation_about
from tests import slow_but_obvious

#: Sine of the angle between movement and surface below which a contact is nearly tangential.
NEAR_TANGENT = 1e-4


def soup(corners, codes=None):
    """Make an arch of loose triangles (m, 3, 3)."""
    corners = np.asarray(corners, dtype=float)
    faces = np.arange(3 * len(corners)).reshape(-1, 3)
    codes = np.full(len(corners), 11) if codes is None else np.asarray(codes)
    return Arch(mesh_of(corners.reshape(-1, 3), faces), codes, ())


def patchwork(seed, n, z, wave):
    """Make a waved sheet of 2 (n - 1)^2 triangles ahead of the hinge axis, in four labels."""
    x, y = np.meshgrid(np.linspace(45, 80, n), np.linspace(-20, 20, n), indexing="ij")
    rng = np.random.default_rng(seed)
    h = z + wave * np.sin(0.5 * x + seed) * np.cos(0.4 * y) + rng.normal(0, 0.02, x.shape)
    i = np.arange(n * n).reshape(n, n)
    a, b, c, d = i[:-1, :-1].ravel(), i[1:, :-1].ravel(), i[1:, 1:].ravel(), i[:-1, 1:].ravel()
    faces = np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)])
    mesh = mesh_of(np.stack([x.ravel(), y.ravel(), h.ravel()], 1), faces)
    codes = 11 + np.clip((mesh.corners.mean(1)[:, 1] + 20) // 10, 0, 3).astype(int)
    return Arch(mesh, codes, ())


def slightly_moved(n, seed):
    """Return n small rigid motions."""
    rng = np.random.default_rng(seed)
    axes = rng.normal(size=(n, 3))
    axes /= np.linalg.norm(axes, axis=1, keepdims=True)
    return pose_of(rotation_about(axes, rng.uniform(-0.05, 0.05, n)), rng.uniform(-1, 1, (n, 3)))


def test_agrees_with_brute_force_on_thousands_of_small_pairs():
    """The angle equals that of the twin within 1e-9 rad; nearly tangential pairs come below."""
    rng = np.random.default_rng(0)
    met = 0
    for _ in range(2500):
        nu, nl = rng.integers(1, 5, 2)
        size = 10.0 ** rng.uniform(-0.7, 0.7)
        middle = rng.uniform([30, -25, -40], [85, 25, -20])
        up = middle + rng.normal(0, size, (nu, 3, 3))
        lo = middle + np.array([0, 0, -3 * size]) + rng.normal(0, size, (nl, 3, 3))
        pose = slightly_moved(1, int(rng.integers(1 << 30)))
        got = close(prepare(soup(up), soup(lo)), pose)
        wanted, sharp = slow_but_obvious.first_contact(
            move_points(inverse(pose[0]), up.reshape(-1, 3)).reshape(-1, 3, 3), lo
        )
        if wanted == -np.inf:
            assert got.status[0] == NOTHING_MEETS
            continue
        met += 1
        assert sharp >= NEAR_TANGENT
        assert abs(got.opening_rad[0] - wanted) < 1e-9
    assert met > 1000
    sys.stdout.write(f"{met} pairs met, none of them nearly tangential\n")


def opened_by(points, angle):
    """Open points (..., 3) by an angle about the hinge axis of their own frame."""
    c, s = np.cos(angle), np.sin(angle)
    return points @ np.array([[c, 0.0, s], [0.0, 1.0, 0.0], [-s, 0.0, c]]).T


def grazing(rng, kind):
    """Make two triangles of which a feature meets the other's plane almost without crossing it.

    At contact the plane (of the face, or of both edges) contains the direction of opening but for
    a tilt of 1e-7 to 6e-5 rad; the lower's body lies on the side of the hinge axis.
    """
    place = rng.uniform([30, -25, -40], [85, 25, -20])
    outward = np.array([place[0], 0.0, place[2]]) / np.hypot(place[0], place[2])
    along = np.array([outward[2], 0.0, -outward[0]])
    tilt, lean = 10.0 ** rng.uniform(-7.0, -4.2), rng.uniform(-1.0, 1.0)
    level = np.cos(lean) * outward + np.sin(lean) * np.array([0.0, 1.0, 0.0])
    normal = np.cos(tilt) * level + rng.choice([-1, 1]) * np.sin(tilt) * along
    first = np.cross(normal, along) / np.linalg.norm(np.cross(normal, along))
    second = np.cross(normal, first)

    def in_plane(angle):
        return np.cos(angle) * first + np.sin(angle) * second

    turn, size = rng.uniform(0.0, 2.0 * np.pi), 10.0 ** rng.uniform(-0.7, 0.7)
    ends, heights = rng.uniform(0.3, 1.0, (2, 2, 1)) * [[-1.0], [1.0]], rng.uniform(0.5, 1.5, 2)
    if kind == "edge on edge":
        other = turn + rng.uniform(0.4, np.pi - 0.4)
        upper = [*(ends[0] * in_plane(turn)), heights[0] * level]
        lower = [*(ends[1] * in_plane(other)), -heights[1] * level]
    else:
        corners = turn + 2.0 * np.pi * np.arange(3) / 3.0 + rng.uniform(-0.3, 0.3, 3)
        face = [rng.uniform(0.5, 1.5) * in_plane(angle) for angle in corners]
        body = [0.0 * level, *(rng.normal(0.0, 0.3, (2, 3)) - heights[:, None] * level)]
        upper, lower = (face, body) if kind == "lower vertex" else (body, face)
    upper, lower = (place + size * np.array(corners) for corners in (upper, lower))
    return upper[None], opened_by(lower, rng.uniform(-0.3, 0.1))[None]


@pytest.mark.parametrize(
    ("code", "kind"), [(0, "lower vertex"), (1, "upper vertex"), (2, "edge on edge")]
)
def test_nearly_tangential_contacts_agree_with_brute_force(code, kind):
    """Where the surfaces only graze, the angle still equals that of the twin within 1e-7 rad.

    At a tilt of 1e-7 the circle passes the plane by less than a picometre; below, rounding decides
    whether they meet at all.
    """
    rng = np.random.default_rng(1 + code)
    tangential, worst, sharpest = 0, 0.0, 1.0
    for _ in range(300):
        up, lo = grazing(rng, kind)
        pose = slightly_moved(1, int(rng.integers(1 << 30)))
        placed = move_points(pose[0], up.reshape(-1, 3)).reshape(-1, 3, 3)
        got = close(prepare(soup(placed), soup(lo)), pose)
        again = move_points(inverse(pose[0]), placed.reshape(-1, 3)).reshape(-1, 3, 3)
        wanted, sharp = slow_but_obvious.first_contact(again, lo)
        assert got.status[0] == MEETS
        if sharp >= NEAR_TANGENT:  # another feature comes first
            continue
        tangential += 1
        sharpest, worst = min(sharpest, sharp), max(worst, abs(got.opening_rad[0] - wanted))
        assert got.kind[0] == code
    assert worst < 1e-7
    assert tangential > 50
    assert sharpest < 1e-6
    sys.stdout.write(f"{kind}: {tangential} nearly tangential, worst off by {worst:.1e} rad\n")


def test_agrees_with_brute_force_on_sheets():
    """Connected meshes, where every vertex and edge is tried with one owner only, lose nothing."""
    up, lo = patchwork(1, 9, -30, 1.0), patchwork(2, 10, -33, 0.7)
    poses = slightly_moved(30, 3)
    got = close(prepare(up, lo), poses)
    for pose, opening in zip(poses, got.opening_rad, strict=True):
        moved = move_points(inverse(pose), up.mesh.vertices)[up.mesh.faces]
        wanted, _ = slow_but_obvious.first_contact(moved, lo.mesh.corners)
        assert abs(opening - wanted) < 1e-9


def test_same_bits_for_any_threads_order_of_poses_and_triangles():
    """Threads, pose order and triangle order change nothing; face numbers follow the order."""
    up, lo = patchwork(1, 30, -30, 1.0), patchwork(2, 31, -33, 0.7)
    poses = slightly_moved(40, 5)
    one = close(prepare(up, lo), poses)
    three = close(prepare(up, lo), poses, workers=Workers(3))
    shuffle = np.random.default_rng(1).permutation(40)
    other_order = close(prepare(up, lo), poses[shuffle])
    order_u = slow_but_obvious.permuted(up.mesh.faces, 7)
    order_l = slow_but_obvious.permuted(lo.mesh.faces, 8)
    mixed = close(
        prepare(
            Arch(mesh_of(up.mesh.vertices, up.mesh.faces[order_u]), up.tooth_of_face[order_u], ()),
            Arch(mesh_of(lo.mesh.vertices, lo.mesh.faces[order_l]), lo.tooth_of_face[order_l], ()),
        ),
        poses,
    )
    for name in ("opening_rad", "point", "normal", "kind", "tooth_upper", "radius_mm"):
        wanted = getattr(one, name)
        np.testing.assert_array_equal(getattr(three, name), wanted)
        np.testing.assert_array_equal(getattr(other_order, name), wanted[shuffle])
        np.testing.assert_array_equal(getattr(mixed, name), wanted)
    np.testing.assert_array_equal(order_u[mixed.face_upper], one.face_upper)
    np.testing.assert_array_equal(order_l[mixed.face_lower], one.face_lower)


def test_left_out_teeth_equal_meshes_without_them():
    """Leaving teeth or pairs out gives the closure of meshes that never had them."""
    up, lo = patchwork(1, 20, -30, 1.0), patchwork(2, 21, -33, 0.7)
    poses = slightly_moved(10, 6)

    def cut(arch, keep):
        chosen = np.isin(arch.tooth_of_face, keep)
        return Arch(
            mesh_of(arch.mesh.vertices, arch.mesh.faces[chosen]), arch.tooth_of_face[chosen], ()
        )

    left = close(prepare(up, lo), poses, LeaveOut(upper=frozenset({12}), lower=frozenset({11, 14})))
    wanted = close(prepare(cut(up, [11, 13, 14]), cut(lo, [12, 13])), poses)
    np.testing.assert_array_equal(left.opening_rad, wanted.opening_rad)
    pairs = frozenset(
        (u, v) for u in (11, 12, 13, 14) for v in (11, 12, 13, 14) if u != v or u == 12
    )
    only = close(prepare(up, lo), poses, LeaveOut(pairs=pairs))
    best = np.max(
        [close(prepare(cut(up, [k]), cut(lo, [k])), poses).opening_rad for k in (11, 13, 14)],
        axis=0,
    )
    np.testing.assert_array_equal(only.opening_rad, best)


def test_runner_up_is_the_closure_without_the_first_pair():
    """The runner-up never equals the first pair, comes later, and its gap is along its own arc."""
    up, lo = patchwork(1, 20, -30, 1.0), patchwork(2, 21, -33, 0.7)
    pair, poses = prepare(up, lo), slightly_moved(12, 9)
    first = close(pair, poses)
    second, gap = runner_up(pair, poses, first)
    for n in range(12):
        couple = (int(first.tooth_upper[n]), int(first.tooth_lower[n]))
        alone = close(pair, poses[n : n + 1], LeaveOut(pairs=frozenset({couple})))
        assert alone.opening_rad[0] == second.opening_rad[n]
        assert couple != (second.tooth_upper[n], second.tooth_lower[n])
    assert (gap >= 0).all()
    np.testing.assert_allclose(gap, (first.opening_rad - second.opening_rad) * second.radius_mm)


def test_at_contact_the_surfaces_touch_and_the_normal_pushes_up():
    """Opened by the angle found, the reported point lies on both triangles."""
    up, lo = patchwork(1, 20, -30, 1.0), patchwork(2, 21, -33, 0.7)
    poses = slightly_moved(20, 11)
    got = close(prepare(up, lo), poses)
    c, s = np.cos(got.opening_rad), np.sin(got.opening_rad)
    turn = np.zeros((20, 4, 4))
    turn[:, 0, 0], turn[:, 0, 2], turn[:, 2, 0], turn[:, 2, 2] = c, s, -s, c
    turn[:, 1, 1] = turn[:, 3, 3] = 1
    for n in range(20):
        face = up.mesh.corners[got.face_upper[n]]
        other = move_points(poses[n] @ turn[n], lo.mesh.corners[got.face_lower[n]])
        point = np.repeat(got.point[n][None], 3, axis=0)
        assert slow_but_obvious.triangle_distance(point, face) < 1e-9
        assert slow_but_obvious.triangle_distance(point, other) < 1e-9
    assert (got.normal[:, 2] > 0).all()


def test_nothing_meets_has_its_own_status():
    """Arches that never pass each other give a status, no number that could be mistaken."""
    up = soup([[[50, 0, -30], [51, 0, -30], [50, 1, -30]]])
    lo = soup([[[50, 9, -33], [51, 9, -33], [50, 10, -33]]])
    got = close(prepare(up, lo), identity_poses(1))
    assert got.status[0] == NOTHING_MEETS
    assert got.opening_rad[0] == -np.inf
    assert got.face_upper[0] == got.tooth_lower[0] == -1


def test_first_contact_comes_from_open_even_where_the_casts_overlap_at_the_start():
    """Overlap at opening 0 gives a positive opening."""
    up = soup([[[50, -5, -30], [60, -5, -30], [55, 5, -30]]])
    lo = soup([[[54, -1, -29.5], [56, -1, -29.5], [55, 1, -29.0]]])
    got = close(prepare(up, lo), identity_poses(1))
    assert got.status[0] == MEETS
    assert got.opening_rad[0] > 0


def test_unknown_tooth_cannot_be_left_out():
    """The message lists the teeth there are."""
    pair = prepare(patchwork(1, 5, -30, 1.0), patchwork(2, 5, -33, 0.7))
    with pytest.raises(InputError, match="upper tooth 27: the arch has 11, 12"):
        close(pair, identity_poses(1), LeaveOut(upper=frozenset({27})))


@pytest.mark.parametrize("scale", [1e-3, 1.0, 1e3])
def test_degenerate_meshes_are_answered(scale):
    """Spikes on vertex and edge, zero areas, needles, duplicates and identical sheets."""
    flat = np.array([[50, -4, -30], [60, -4, -30], [55, 6, -30]], dtype=float)
    fan = np.array([[flat[0], flat[1], [55, 0, -30]], [flat[1], flat[2], [55, 0, -30]],
                    [flat[2], flat[0], [55, 0, -30]]])  # fmt: skip
    spike = np.array([[[55, 0, -32], [56, 0, -35], [54, 1, -35]]], dtype=float)
    on_vertex = close(prepare(soup(fan * scale), soup(spike * scale)), identity_poses(1))
    wanted, _ = slow_but_obvious.first_contact(fan, spike)
    assert on_vertex.opening_rad[0] == pytest.approx(wanted, abs=1e-9)
    zero = np.concatenate([fan, [[flat[0], flat[0], flat[1]]], [fan[0]]])
    same = close(prepare(soup(zero * scale), soup(spike * scale)), identity_poses(1))
    assert same.opening_rad[0] == on_vertex.opening_rad[0]
    needle = np.array([[[50, -4, -30], [60, 5, -30], [55, 0.5 + 1e-9, -30]]])
    thin = close(prepare(soup(needle * scale), soup(spike * scale)), identity_poses(1))
    assert thin.status[0] in (MEETS, NOTHING_MEETS)
    sheet = patchwork(4, 6, -30, 1.0)
    scaled = Arch(mesh_of(sheet.mesh.vertices * scale, sheet.mesh.faces), sheet.tooth_of_face, ())
    identical = close(prepare(scaled, scaled), identity_poses(1))
    assert identical.opening_rad[0] >= 0
