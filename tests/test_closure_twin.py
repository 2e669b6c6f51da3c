"""First contact agrees with trying every pair of features, to a millionth of a micrometre."""

import sys

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, NOTHING_MEETS, close
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from tests import slow_but_obvious
from tests.closure_twin import Twin, turned
from tests.made_sheets import CODES, FAMILIES, slightly_moved, soup

#: One millionth of a micrometre along the arc.
AGREED_MM = 1e-9
#: Sine of the angle between movement and surface below which a contact is nearly tangential.
NEAR_TANGENT = 1e-4
#: Where surfaces only graze, the opening is as uncertain as how far they stand apart, divided by
#: that sine: a few roundings of a coordinate, 1e-14 mm each.
GRAZING_MM = 1e-13


class Agreement:
    """What a campaign has seen; every pose added is judged at once."""

    def __init__(self):
        self.met, self.missed, self.tangential = 0, 0, 0
        self.worst_mm, self.kinds = 0.0, np.zeros(3, dtype=int)

    def add(self, closures, n, wanted):
        """Demand that the n-th closure is what the twin says."""
        if wanted.kind < 0:
            assert closures.status[n] == NOTHING_MEETS
            self.missed += 1
            return
        assert closures.status[n] == MEETS
        off = abs(closures.opening_rad[n] - wanted.opening_rad) * closures.radius_mm[n]
        self.met += 1
        self.kinds[wanted.kind] += 1
        if wanted.sine < NEAR_TANGENT:
            self.tangential += 1
            assert off * wanted.sine < GRAZING_MM
            return
        self.worst_mm = max(self.worst_mm, off)
        assert off < AGREED_MM

    def tell(self, name):
        """Print what was counted."""
        sys.stdout.write(
            f"{name}: {self.met} poses met ({self.tangential} of them nearly tangential), "
            f"{self.missed} did not; by kind {self.kinds.tolist()}; "
            f"worst off by {1000.0 * self.worst_mm:.1e} micrometres\n"
        )


def many_ways(n, seed):
    """Return n poses: three fifths a little off, a quarter farther, the others far."""
    parts = (0.6, 0.05, 1.0), (0.25, 0.2, 6.0), (0.15, 0.6, 12.0)
    return np.concatenate(
        [
            slightly_moved(round(share * n), seed + k, turn, way)
            for k, (share, turn, way) in enumerate(parts)
        ]
    )


def agree(upper, lower, poses, agreement):
    """Compare one pair of arches under all poses, which the search takes in one run."""
    closures, twin = close(prepare(upper, lower), poses), Twin(upper.mesh, lower.mesh)
    for n, pose in enumerate(poses):
        agreement.add(closures, n, twin.first_contact(pose))
    return closures


def on_both_surfaces(upper, lower, poses, closures):
    """Tell how far reported points lie from the triangles they are said to lie on, mm."""
    met = closures.status == MEETS
    closed = poses[met] @ opening_rotation(closures.opening_rad[met])
    below = np.einsum("nij,nkj->nki", closed[:, :3, :3], lower.corners[closures.face_lower[met]])
    point = closures.point[met]
    return max(
        slow_but_obvious.distances_to_triangles(point, faces).max()
        for faces in (upper.corners[closures.face_upper[met]], below + closed[:, None, :3, 3])
    )


@pytest.mark.parametrize("family", FAMILIES)
def test_connected_meshes_lose_nothing(family):
    """On sheets of some hundred triangles, opening and place of contact are those of the twin.

    Each vertex and edge of a tooth is tried with one owner only, most node pairs not at all.
    """
    agreement = Agreement()
    for seed in (0, 10, 20):
        upper, lower = FAMILIES[family](seed)
        poses = many_ways(120, seed)
        closures = agree(upper, lower, poses, agreement)
        assert on_both_surfaces(upper.mesh, lower.mesh, poses, closures) < AGREED_MM
    agreement.tell(family)
    assert agreement.met > 300
    assert agreement.tangential == 0
    assert agreement.kinds[2] >= 20


def small_pair(rng):
    """Make one to four loose triangles a side, of 0.2 to 5 mm, anywhere ahead of the axis."""
    counts, size = rng.integers(1, 5, 2), 10.0 ** rng.uniform(-0.7, 0.7)
    middle = rng.uniform([30, -25, -40], [85, 25, -20])
    upper = middle + rng.normal(0, size, (counts[0], 3, 3))
    lower = middle - [0, 0, 3 * size] + rng.normal(0, size, (counts[1], 3, 3))
    return soup(upper), soup(lower)


def test_thousands_of_small_pairs_agree():
    """Loose triangles, each pair with a pose of its own; many of them do not meet."""
    rng, agreement = np.random.default_rng(0), Agreement()
    for pose in slightly_moved(2000, 1):
        agree(*small_pair(rng), pose[None], agreement)
    agreement.tell("small pairs")
    assert agreement.met > 900
    assert agreement.missed > 900
    assert (agreement.kinds > 100).all()


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
    return upper[None], turned(lower, np.array(rng.uniform(-0.3, 0.1)))[None]


@pytest.mark.parametrize(
    ("code", "kind"), [(0, "lower vertex"), (1, "upper vertex"), (2, "edge on edge")]
)
def test_nearly_tangential_contacts_agree(code, kind):
    """Where the surfaces only graze, the opening is off by no more than rounding makes of it.

    At a tilt of 1e-7 the circle passes the plane by less than a picometre; below, rounding decides
    whether they meet at all.
    """
    rng, agreement = np.random.default_rng(1 + code), Agreement()
    for pose in slightly_moved(300, 5 + code):
        upper, lower = grazing(rng, kind)
        placed = move_points(pose, upper.reshape(-1, 3)).reshape(-1, 3, 3)
        agree(soup(placed), soup(lower), pose[None], agreement)
    agreement.tell(kind)
    assert agreement.met == 300
    assert agreement.tangential > 100
    assert agreement.kinds[code] >= agreement.tangential


def cut(arch, codes):
    """Return the part of an arch that belongs to some teeth."""
    chosen = np.isin(arch.tooth_of_face, list(codes))
    return Arch(
        mesh_of(arch.mesh.vertices, arch.mesh.faces[chosen]), arch.tooth_of_face[chosen], ()
    )


def test_teeth_and_pairs_left_out_at_random_are_as_if_never_there():
    """The closure of what takes part is the first of the twins' closures of its tooth pairs."""
    agreement = Agreement()
    for seed in range(12):
        rng = np.random.default_rng(seed)
        upper, lower = FAMILIES["cusps" if seed % 2 else "bodies"](seed)
        drop = [frozenset(int(c) for c in CODES if rng.random() < 0.2) for _ in range(2)]
        taking_part = {(u, v) for u in CODES for v in CODES if rng.random() < 0.5 or u == v}
        left = frozenset((u, v) for u in CODES for v in CODES) - taking_part
        poses = slightly_moved(5, seed)
        closures = close(prepare(upper, lower), poses, LeaveOut(*drop, left))
        twins = [
            Twin(cut(upper, {u}).mesh, cut(lower, {v}).mesh)
            for u, v in sorted(taking_part)
            if u not in drop[0] and v not in drop[1]
        ]
        for n, pose in enumerate(poses):
            touches = [twin.first_contact(pose) for twin in twins]
            agreement.add(closures, n, max(touches, key=lambda touch: touch.opening_rad))
    agreement.tell("teeth left out")
    assert agreement.met > 40


def test_the_twin_sifts_nothing_out():
    """The twin solves only pairs that share a place and a radius; solving all finds the same."""
    for family in FAMILIES:
        upper, lower = (cut(arch, CODES[:2]) for arch in FAMILIES[family](40))
        pose = slightly_moved(1, 7)[0]
        moved = move_points(inverse(pose), upper.mesh.vertices)[upper.mesh.faces]
        wanted, _ = slow_but_obvious.first_contact(moved, lower.mesh.corners)
        got = Twin(upper.mesh, lower.mesh).first_contact(pose)
        assert got.opening_rad == pytest.approx(wanted, abs=1e-10)


@pytest.mark.wide
@pytest.mark.parametrize("family", FAMILIES)
def test_wide_campaign_on_connected_meshes(family):
    """Twenty pairs of every family, 300 poses each."""
    agreement = Agreement()
    for seed in range(100, 300, 10):
        agree(*FAMILIES[family](seed), many_ways(300, seed), agreement)
    agreement.tell(family)
    assert agreement.met > 5000


@pytest.mark.wide
def test_wide_campaign_on_small_pairs():
    """A hundred thousand pairs of loose triangles."""
    rng, agreement = np.random.default_rng(100), Agreement()
    for pose in slightly_moved(100_000, 100, 0.5, 5.0):
        agree(*small_pair(rng), pose[None], agreement)
    agreement.tell("small pairs")
    assert agreement.met > 10_000
