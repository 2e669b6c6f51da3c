"""Edge-to-edge of many poses at once, against one pose after the other."""

from types import SimpleNamespace

import numpy as np
import pytest

from kinematics.contact.edge_to_edge import edge_to_edge_travel
from kinematics.geometry.poses import move_points, pose_of, rotation_about

UPPERS, LOWERS = (16, 13, 11, 23), (46, 43, 41, 33)


class EdgedArch:
    """An arch of which only the edges of its teeth are known, 1 to 6 points each."""

    def __init__(self, codes, ahead_mm, rng):
        self.codes = codes
        self.edges = {}
        for code in codes:
            count = int(rng.integers(1, 7))
            x, y = rng.normal(ahead_mm, 1.5, count), np.linspace(-4.0, 4.0, count).round(1)
            self.edges[code] = np.column_stack([x, y, np.full(count, -33.0)])

    def tooth(self, code):
        """Return a tooth with its edge."""
        return SimpleNamespace(edge=self.edges[code])


def one_by_one(casts, poses, travel_mm, guiding, side):
    """Return the travel at edge-to-edge, looking at one pose after the other."""
    before = None
    for n in range(1, len(poses)):
        upper, lower = guiding[n]
        if min(upper, lower) <= 0:
            before = None
            continue
        low, up = casts.lower.tooth(lower).edge, casts.upper.tooth(upper).edge[:, :2]
        start, last, here = (move_points(poses[k], low)[:, :2] for k in (0, n - 1, n))
        way = (here - last).mean(axis=0)
        way = way / max(np.hypot(*way), 1e-300)

        def left(points, way=way, up=up):
            across = np.array([-way[1], way[0]])
            order = np.argsort(up @ across, kind="stable")
            reached = np.interp(points @ across, (up @ across)[order], (up @ way)[order])
            return (reached - points @ way).min() if way.any() else np.inf

        right, back = upper < 20, upper % 10 > 3
        if (right != (side < 0) if side else back) or left(start) < 0.0:
            before = None
            continue
        if left(here) <= 0.0:
            if before is not None and before[0] == (upper, lower) and before[1] < np.inf:
                share = before[1] / (before[1] - left(here))
                return travel_mm[n - 1] + share * (travel_mm[n] - travel_mm[n - 1])
            return travel_mm[n]
        before = (upper, lower), left(here)
    return None


def random_excursion(rng):
    """Return casts of edges, poses that go forward and aside, and pairs that guide in turn."""
    casts = SimpleNamespace(upper=EdgedArch(UPPERS, 3.0, rng), lower=EdgedArch(LOWERS, 0.0, rng))
    count = int(rng.integers(1, 40))
    travel = np.sort(rng.uniform(0.0, 6.0, count))
    course = travel[:, None] * [1.0, rng.uniform(-0.5, 0.5), -0.3]
    poses = pose_of(rotation_about(np.array([0.0, 1.0, 0.0]), 0.02 * travel), course)
    poses[count // 2 :][: int(rng.integers(0, 3))] = poses[count // 2 - 1]
    guiding = np.stack(
        [rng.choice((*codes, 0), count // 8 + 1).repeat(8)[:count] for codes in (UPPERS, LOWERS)],
        axis=1,
    )
    return casts, poses, travel, guiding


@pytest.mark.parametrize("side", [0, -1, 1])
def test_all_poses_at_once_tell_what_each_tells_alone(side):
    """The travel is that of a plain loop, whether interpolated, at a pose, or nowhere."""
    rng = np.random.default_rng(7)
    found = []
    for _ in range(300):
        subject = random_excursion(rng)
        got, wanted = edge_to_edge_travel(*subject, side), one_by_one(*subject, side)
        assert (got is None) == (wanted is None)
        if wanted is not None:
            assert got == pytest.approx(wanted, abs=1e-9)
            found.append(got in subject[2])
    assert 20 < len(found) < 280
    assert 5 < sum(found) < len(found) - 5
