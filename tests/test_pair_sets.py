"""What lies within a tolerance, how near and with which area, against trying all pairs."""

import numpy as np
import pytest

from kinematics.contact.closure import MEETS, close
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.pair import prepare
from kinematics.geometry.poses import move_points, opening_rotation
from tests.made_sheets import FAMILIES, slightly_moved
from tests.slow_but_obvious import areas_near, pairs_within, triangle_distance, triangle_distances

AGREED_MM = 1e-9
AGREED_MM2 = 1e-9


def near_closure(pair, seed, count=10):
    """Return poses at first contact, a little open, and overlapping."""
    poses = slightly_moved(count, seed)
    got = close(pair, poses)
    beyond = np.linspace(-0.02, 0.005, count)
    beyond[count // 2] = 0.0
    return (poses @ opening_rotation(np.where(got.status == MEETS, got.opening_rad, 0) + beyond))[
        got.status == MEETS
    ]


def enumerated(upper, lower, pose, tolerance_mm):
    """Return least gap and area of every tooth pair within the tolerance, by trying all pairs."""
    below = move_points(pose, lower.mesh.vertices)[lower.mesh.faces]
    i, j, gap = pairs_within(upper.mesh.corners, below, tolerance_mm)
    area = areas_near(upper.mesh.corners[i], below[j], tolerance_mm)
    table = {}
    for k, couple in enumerate(
        zip(upper.tooth_of_face[i].tolist(), lower.tooth_of_face[j].tolist(), strict=True)
    ):
        least, sum_of_areas = table.get(couple, (np.inf, 0.0))
        table[couple] = min(least, gap[k]), sum_of_areas + area[k]
    return table


def reported(got, n):
    """Return least gap and area of every tooth pair that has a patch at pose n."""
    table = {}
    for k in np.flatnonzero(got.pose == n):
        couple = int(got.tooth_upper[k]), int(got.tooth_lower[k])
        least, sum_of_areas = table.get(couple, (np.inf, 0.0))
        table[couple] = min(least, got.least_gap_mm[k]), sum_of_areas + got.area_mm2[k]
    return table


@pytest.mark.parametrize("tolerance_mm", [0.02, 0.3])
@pytest.mark.parametrize("family", FAMILIES)
def test_patches_and_gaps_are_those_of_all_triangle_pairs(family, tolerance_mm):
    """Tooth pairs, least gaps and summed areas equal those of an enumeration of all pairs."""
    upper, lower = FAMILIES[family](60)
    pair = prepare(upper, lower)
    poses = near_closure(pair, 4)
    got = patches(pair, poses, tolerance_mm)
    rows, columns = pair.upper.groups, pair.lower.groups
    gaps = pair_gaps(pair, poses, tolerance_mm, rows, columns)
    assert len(got.pose) > 5
    for n, pose in enumerate(poses):
        wanted, found = enumerated(upper, lower, pose, tolerance_mm), reported(got, n)
        assert found.keys() == wanted.keys()
        for couple, (gap_mm, area_mm2) in wanted.items():
            assert found[couple][0] == pytest.approx(gap_mm, abs=AGREED_MM)
            assert found[couple][1] == pytest.approx(area_mm2, abs=AGREED_MM2)
            place = rows.index(couple[0]), columns.index(couple[1])
            assert gaps[n][place] == pytest.approx(gap_mm, abs=AGREED_MM)
        assert np.isfinite(gaps[n]).sum() == len(wanted)


def test_gaps_of_teeth_far_apart_are_those_of_all_triangle_pairs():
    """Up to 12 mm, where thousands of triangle pairs compete; beyond it the gap is infinite."""
    measured = 0
    for family in ("cusps", "bodies"):
        upper, lower = FAMILIES[family](60)
        pair, limit_mm = prepare(upper, lower), 12.0
        poses = near_closure(pair, 9, 1)
        gaps = pair_gaps(pair, poses, limit_mm, pair.upper.groups, pair.lower.groups)
        for n, pose in enumerate(poses):
            below = move_points(pose, lower.mesh.vertices)[lower.mesh.faces]
            for place in np.ndindex(gaps.shape[1:]):
                of_upper = upper.mesh.corners[upper.tooth_of_face == pair.upper.groups[place[0]]]
                of_lower = below[lower.tooth_of_face == pair.lower.groups[place[1]]]
                i, j = np.indices((len(of_upper), len(of_lower))).reshape(2, -1)
                wanted = triangle_distances(of_upper[i], of_lower[j]).min()
                if wanted > limit_mm:
                    assert gaps[n][place] == np.inf
                else:
                    assert gaps[n][place] == pytest.approx(wanted, abs=AGREED_MM)
                    measured += 1
    assert measured > 15


def test_many_distances_at_once_are_those_one_by_one():
    """The twin for many pairs agrees with the twin for one, near, far and intersecting."""
    rng = np.random.default_rng(3)
    u = rng.normal(0, 1, (300, 3, 3))
    v = rng.normal(0, 1, (300, 3, 3)) + rng.uniform(0, 3, (300, 1, 1))
    wanted = [triangle_distance(a, b) for a, b in zip(u, v, strict=True)]
    got = triangle_distances(u, v)
    np.testing.assert_allclose(got, wanted, atol=1e-12)
    assert (got == 0).sum() > 10


def test_areas_of_the_twin_are_right_where_they_are_known():
    """A triangle level over a larger one, half beyond its side, out of reach, and tilted."""
    below = np.array([[0.0, 0.0, 0.0], [40.0, 0.0, 0.0], [0.0, 40.0, 0.0]])
    over = np.array([[2.0, 1.0, 0.1], [6.0, 1.0, 0.1], [2.0, 4.0, 0.1]])
    across = over - [4.0, 0.0, 0.0]  # its right half, a triangle of half the sides, lies over
    tilted = over * [1.0, 1.0, 0.0] + [0.0, 0.0, 1.0] * (over[:, :1] - 2.0) * 0.1
    u = np.array([over, across, over * [1, 1, 3], tilted])
    got = areas_near(u, np.repeat(below[None], 4, axis=0), 0.2)
    # The tilted one rises 0.1 mm a mm: 2 of its 4 mm lie within 0.2 mm.
    share = 6.0 - 0.5 * 2.0 * 1.5
    np.testing.assert_allclose(got, [6.0, 1.5, 0.0, share * np.hypot(1.0, 0.1)], atol=1e-12)
