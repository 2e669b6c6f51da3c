"""First contact: what must hold for any meshes, threads and orders."""

from dataclasses import fields

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.closure import (
    MEETS,
    NOTHING_MEETS,
    arc_gaps_mm,
    close,
    close_and_next,
    runner_up,
)
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.contact.pose_rows import picked
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, move_points
from tests import slow_but_obvious
from tests.made_sheets import FAMILIES, patchwork, slightly_moved, soup


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


def same_bits(one, other):
    """Compare closures field by field."""
    for item in fields(one):
        np.testing.assert_array_equal(getattr(one, item.name), getattr(other, item.name), item.name)


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("seed", range(10))
def test_first_and_next_in_one_search_are_those_of_two(family, seed):
    """Bit for bit, whichever poses are searched together and whatever touched before."""
    pair, workers = prepare(*FAMILIES[family](seed)), Workers()
    poses = slightly_moved(37, seed, way=3.0)
    first = close(pair, poses)
    second, gap = runner_up(pair, poses, first)
    for order in (slice(None), slice(None, None, -1), slice(5, 6)):
        found = close_and_next(pair, poses[order], workers)
        same_bits(found.first, picked(first, order))
        same_bits(found.runner_up, picked(second, order))
        np.testing.assert_array_equal(arc_gaps_mm(found.first, found.runner_up), gap[order])
    assert family == "bodies" or (second.status == MEETS).any()


def test_where_one_pair_alone_meets_nothing_comes_next():
    """And where none does, there is neither."""
    up = soup([[[50, 0, -30], [51, 0, -30], [50, 1, -30]]])
    lo = soup([[[48, 0, -33], [49, 0, -33], [48, 1, -33]]])
    aside = identity_poses(2)
    aside[1, 1, 3] = 9.0
    found = close_and_next(prepare(up, lo), aside)
    assert found.first.status.tolist() == [MEETS, NOTHING_MEETS]
    assert found.runner_up.status.tolist() == [NOTHING_MEETS, NOTHING_MEETS]
    assert arc_gaps_mm(found.first, found.runner_up).tolist() == [np.inf, np.inf]


@pytest.mark.parametrize("keeps", [False, True])
def test_of_no_poses_nothing_is_told(keeps):
    """Neither closures nor patches nor gaps; and no error."""
    pair, none = prepare(patchwork(1, 9, -30, 1.0), patchwork(2, 9, -33, 0.7)), identity_poses(0)
    for _ in range(2):
        workers = Workers(keeps_poses=keeps)
        found = close_and_next(pair, none, workers)
        assert len(found.first.opening_rad) == len(found.runner_up.opening_rad) == 0
        assert len(patches(pair, none, 0.1, workers).pose) == 0
        assert pair_gaps(pair, none, 1.0, (11, 12), (11,), workers).shape == (0, 2, 1)


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
