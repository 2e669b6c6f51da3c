"""Patches and gaps against brute force, and what must hold for any tolerance."""

from dataclasses import fields

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.contact.closure import close
from kinematics.contact.contacts import Patches, pair_gaps, patches
from kinematics.contact.pair import prepare
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, opening_rotation
from tests.test_closure import patchwork, slightly_moved, soup


def closed(pair, poses):
    """Bring poses to first contact."""
    return poses @ opening_rotation(close(pair, poses).opening_rad)


def test_gaps_do_not_depend_on_threads_or_order_of_poses():
    """Seeds from the pose before change time only."""
    pair = prepare(patchwork(1, 20, -30, 1.0), patchwork(2, 21, -33, 0.7))
    poses = closed(pair, slightly_moved(12, 5))
    codes = (11, 12, 13, 14)
    one = pair_gaps(pair, poses, 3.0, codes, codes)
    np.testing.assert_array_equal(pair_gaps(pair, poses, 3.0, codes, codes, Workers(3)), one)
    np.testing.assert_array_equal(pair_gaps(pair, poses[::-1], 3.0, codes, codes)[::-1], one)


def test_gaps_along_a_path_are_those_of_each_pose_alone():
    """What a pose leaves behind for the next never changes a bit, on a way or after a jump."""
    pair = prepare(patchwork(1, 20, -30, 1.0), patchwork(2, 21, -33, 0.7))
    start = closed(pair, slightly_moved(3, 8))
    steps = np.linspace(0.0, 3.0, 31)
    rng = np.random.default_rng(4)
    paths = []
    for pose in start:  # sideways and down, slowly, then anywhere
        path = np.repeat(pose[None], 31, axis=0)
        path[:, :3, 3] += steps[:, None] * rng.uniform([-1, -1, -0.5], [1, 1, 0.0])
        paths.append(path @ opening_rotation(0.02 * steps))
    poses = np.concatenate(paths)
    codes = (11, 12, 13, 14)
    got = pair_gaps(pair, poses, 2.0, codes, codes)
    assert np.isfinite(got).sum() > 300
    assert np.isinf(got).sum() > 300
    for n, pose in enumerate(poses):
        np.testing.assert_array_equal(got[n], pair_gaps(pair, pose[None], 2.0, codes, codes)[0])


def test_patches_of_one_tooth_pair_are_its_rows_among_all():
    """Looking at two teeth alone leaves out the others, and changes nothing about theirs."""
    pair = prepare(patchwork(1, 20, -30, 1.0), patchwork(2, 21, -33, 0.7))
    poses = closed(pair, slightly_moved(6, 5))
    whole = patches(pair, poses, 0.3)
    pairs = sorted(set(zip(whole.tooth_upper.tolist(), whole.tooth_lower.tolist(), strict=True)))
    assert len(pairs) > 3
    for teeth in pairs:
        rows = (whole.tooth_upper == teeth[0]) & (whole.tooth_lower == teeth[1])
        alone = patches(pair, poses, 0.3, teeth=teeth)
        for field in fields(Patches):
            np.testing.assert_array_equal(
                getattr(alone, field.name), getattr(whole, field.name)[rows]
            )


def test_a_flat_plate_over_a_plate_has_its_known_area_and_gap():
    """A 4 by 3 mm plate 10 micrometres over a larger one: area 12 mm2, gap 0.01, normal up."""
    low = [
        [[50, -6, -30], [70, -6, -30], [70, 6, -30]],
        [[50, -6, -30], [70, 6, -30], [50, 6, -30]],
    ]
    top = [[[58, -1, -29.99], [62, -1, -29.99], [62, 2, -29.99]],
           [[58, -1, -29.99], [62, 2, -29.99], [58, 2, -29.99]]]  # fmt: skip
    pair = prepare(soup(top, [16, 16]), soup(low, [46, 46]))
    got = patches(pair, identity_poses(1), 0.02)
    assert got.tooth_upper.tolist() == [16]
    assert got.tooth_lower.tolist() == [46]
    np.testing.assert_allclose(got.area_mm2, [12.0], rtol=1e-9)
    np.testing.assert_allclose(got.centroid, [[60, 0.5, -29.99]], atol=1e-6)
    np.testing.assert_allclose(got.normal, [[0, 0, 1]], atol=1e-9)
    np.testing.assert_allclose(got.least_gap_mm, [0.01], atol=1e-9)
    assert len(patches(pair, identity_poses(1), 0.009).pose) == 0


def test_area_is_cut_to_the_tolerance():
    """A plate tilted by 0.02 mm a mm is within 0.02 mm over 1 of its 4 mm."""
    low = [
        [[50, -6, -30], [70, -6, -30], [70, 6, -30]],
        [[50, -6, -30], [70, 6, -30], [50, 6, -30]],
    ]
    top = [[[58, -1, -30], [62, -1, -29.92], [62, 2, -29.92]],
           [[58, -1, -30], [62, 2, -29.92], [58, 2, -30]]]  # fmt: skip
    got = patches(prepare(soup(top), soup(low)), identity_poses(1), 0.02)
    assert got.area_mm2.sum() == pytest.approx(3.0 * np.hypot(1, 0.02), rel=1e-9)


def test_two_bumps_are_two_patches():
    """Separate touches of one tooth pair are separate patches with their own arc gaps."""
    low = [
        [[40, -9, -30], [80, -9, -30], [80, 9, -30]],
        [[40, -9, -30], [80, 9, -30], [40, 9, -30]],
    ]
    bump = np.array([[0, 0, 0], [1, 0.3, 1], [1, -0.3, 1.0]])
    top = [bump + np.array(at) for at in ([55, -3, -29.995], [60, 3, -29.99])]
    pair = prepare(soup(top), soup(low))
    got = patches(pair, identity_poses(1), 0.02)
    assert len(got.pose) == 2
    order = np.argsort(got.centroid[:, 0])
    np.testing.assert_allclose(got.least_gap_mm[order], [0.005, 0.01], atol=1e-9)
    # Along the arc the gap is the vertical one divided by the cosine of the arc's slope.
    x, r = np.array([55, 60]), np.hypot([55, 60], 30)
    np.testing.assert_allclose(got.arc_gap_mm[order], [0.005, 0.01] * r / x, rtol=1e-3)


def test_thicker_tolerance_contains_thinner_marks():
    """Every patch at a tolerance lies in one at a larger tolerance, and areas grow."""
    up, lo = patchwork(1, 30, -30, 1.0), patchwork(2, 31, -33, 0.7)
    pair = prepare(up, lo)
    poses = closed(pair, slightly_moved(6, 5))
    before = None
    for tolerance in (0.008, 0.02, 0.04, 0.1):
        got = patches(pair, poses, tolerance)
        pairs = {
            (int(p), int(u), int(v))
            for p, u, v in zip(got.pose, got.tooth_upper, got.tooth_lower, strict=True)
        }
        area = np.bincount(got.pose, got.area_mm2, minlength=6)
        if before is not None:
            assert before[0] <= pairs
            assert (area > before[1]).all()
        before = pairs, area


def test_least_gap_of_patches_equals_the_gap_of_the_pair():
    """At closure the closest patch of each tooth pair has exactly the pair's gap."""
    pair = prepare(patchwork(1, 30, -30, 1.0), patchwork(2, 31, -33, 0.7))
    poses = closed(pair, slightly_moved(6, 8))
    codes = (11, 12, 13, 14)
    gaps = pair_gaps(pair, poses, 0.1, codes, codes)
    got = patches(pair, poses, 0.1)
    table = np.full((6, 4, 4), np.inf)
    np.minimum.at(table, (got.pose, got.tooth_upper - 11, got.tooth_lower - 11), got.least_gap_mm)
    np.testing.assert_array_equal(table, gaps)
    arc = np.full(6, np.inf)
    np.minimum.at(arc, got.pose, got.arc_gap_mm)
    np.testing.assert_allclose(arc, 0, atol=1e-9)


def test_patches_do_not_depend_on_threads_or_order_of_triangles():
    """The same rows, bit for bit."""
    up, lo = patchwork(1, 25, -30, 1.0), patchwork(2, 26, -33, 0.7)
    pair = prepare(up, lo)
    poses = closed(pair, slightly_moved(8, 8))
    order = np.random.default_rng(3).permutation(len(up.mesh.faces))
    mixed = Arch(mesh_of(up.mesh.vertices, up.mesh.faces[order]), up.tooth_of_face[order], ())
    one = patches(pair, poses, 0.05)
    for other in (patches(pair, poses, 0.05, Workers(3)), patches(prepare(mixed, lo), poses, 0.05)):
        for name in ("pose", "tooth_upper", "centroid", "normal", "area_mm2", "arc_gap_mm"):
            np.testing.assert_array_equal(getattr(other, name), getattr(one, name))
