"""Meshes at the edge of what a mesh can be: each has an expected answer, at any scale."""

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, NOTHING_MEETS, close
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, move_points
from tests.closure_twin import LOWER_VERTEX, Twin, turned
from tests.made_sheets import FAMILIES, slightly_moved, soup

SCALES = (1e-3, 1.0, 1e3)
#: Openings agree within this, rad: some roundings of a coordinate over the distance from the axis.
AGREED_RAD = 1e-12


def closed_at(upper, lower, pose=None, leave_out=None):
    """Return the closure of two arches in one pose."""
    poses = identity_poses(1) if pose is None else pose[None]
    return close(prepare(upper, lower), poses, leave_out)


def mesh_arch(vertices, faces, code=11):
    """Return an arch of one tooth."""
    return Arch(mesh_of(vertices, faces), np.full(len(faces), code), ())


def scaled(arch, scale):
    """Return an arch with all lengths multiplied."""
    return Arch(mesh_of(arch.mesh.vertices * scale, arch.mesh.faces), arch.tooth_of_face, ())


def plate(angle, radii, places, count):
    """Return a flat plate in a plane through the hinge axis, of 2 count^2 triangles."""
    r, s = np.meshgrid(np.linspace(*radii, count + 1), np.linspace(*places, count + 1))
    points = np.stack([r * np.cos(angle), s, -r * np.sin(angle)], axis=-1)
    a, b, c, d = points[:-1, :-1], points[1:, :-1], points[1:, 1:], points[:-1, 1:]
    triangles = [np.stack([a, b, c], axis=2), np.stack([a, c, d], axis=2)]
    return soup(np.concatenate(triangles).reshape(-1, 3, 3))


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("count", [1, 3])
@pytest.mark.parametrize(
    ("radii", "places", "touching"),
    [
        ((52, 58), (-2, 2), True),  # inside the other
        ((50, 60), (-4, 4), True),  # equal
        ((57, 70), (1, 9), True),  # a corner over the other
        ((60, 70), (-4, 4), True),  # side to side
        ((60, 70), (4, 9), True),  # corner to corner
        ((61, 70), (-4, 4), False),
        ((50, 60), (5, 9), False),
    ],
)
def test_plates_that_meet_flat(radii, places, touching, count, scale):
    """Two plates in planes through the axis meet everywhere at once, if they share any place."""
    upper = scaled(plate(0.5, (50, 60), (-4, 4), count), scale)
    lower = scaled(plate(0.9, radii, places, count), scale)
    got = closed_at(upper, lower)
    if not touching:
        assert got.status[0] == NOTHING_MEETS
        return
    assert got.opening_rad[0] == pytest.approx(-0.4, abs=AGREED_RAD)
    np.testing.assert_allclose(got.normal[0], [np.sin(0.5), 0.0, np.cos(0.5)], atol=1e-9)
    x, s, z = got.point[0] / scale
    assert max(50, radii[0]) - 1e-9 <= np.hypot(x, z) <= min(60, radii[1]) + 1e-9
    assert max(-4, places[0]) - 1e-9 <= s <= min(4, places[1]) + 1e-9


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("way", [0.0, 0.1])
def test_level_plates_that_become_one_plane(way, scale):
    """A level plate and one opened by an angle are one plane at that angle, and meet there first.

    Ahead of the axis every point goes down as the jaw opens, so no part meets earlier.
    """
    corners = np.array([[50.0, -6, -30], [70, -6, -30], [70, 6, -30], [50, 6, -30]])
    faces = [[0, 1, 2], [0, 2, 3]]
    below = turned(corners + np.array([0.0, 40 * way, 0.0]), np.array(0.25))
    got = closed_at(mesh_arch(corners * scale, faces), mesh_arch(below * scale, faces))
    assert got.opening_rad[0] == pytest.approx(-0.25, abs=AGREED_RAD)
    np.testing.assert_allclose(got.normal, [[0, 0, 1]], atol=1e-9)


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("family", ["waves", "cusps", "needles on waves"])
def test_identical_sheets_meet_at_once_everywhere(family, scale):
    """A sheet that never overhangs along the arc, closed onto itself, is closed at opening 0."""
    arch = scaled(FAMILIES[family](3)[1], scale)
    flat = Arch(
        mesh_of(arch.mesh.vertices * [1, 1, 0.1] - [0, 0, 27 * scale], arch.mesh.faces),
        arch.tooth_of_face,
        (),
    )
    got = closed_at(flat, flat)
    assert abs(got.opening_rad[0]) < AGREED_RAD
    # What meets on the line between two teeth belongs to both.
    assert abs(got.tooth_upper[0] - got.tooth_lower[0]) <= 1


def place_to_hit(rng):
    """Return a lower tip, an opening, and where the tip then stands."""
    tip, opening = rng.uniform([45, -20, -40], [80, 20, -30]), rng.uniform(-0.3, 0.2)
    return tip, opening, turned(tip, np.array(opening))


def surface_around(where, hit, rng):
    """Return vertices and faces of a small upper surface of which a feature lies at `hit`."""
    turn = 2 * np.pi * (np.arange(6) + rng.uniform(-0.2, 0.2, 6)) / 6
    ring = hit + np.stack([4 * np.cos(turn), 4 * np.sin(turn), rng.uniform(-1, 1, 6)], axis=1)
    across = 2.0 * hit - ring[0]  # `hit` halves the edge from ring[0] to here
    return {
        "vertex": (np.vstack([hit, ring]), [[0, k + 1, (k + 1) % 6 + 1] for k in range(6)]),
        "edge": (np.vstack([ring[0], across, ring[1], ring[4]]), [[0, 1, 2], [1, 0, 3]]),
        "rim": (np.vstack([ring[0], across, ring[1]]), [[0, 1, 2]]),
        "corner of the rim": (np.vstack([hit, ring[:3]]), [[0, 1, 2], [0, 2, 3]]),
        "face": (ring[[0, 2, 4]] + hit - ring[[0, 2, 4]].mean(axis=0), [[0, 1, 2]]),
    }[where]


def spike(tip):
    """Return a steep pyramid of three sides, open below."""
    base = tip + np.array([[1.0, 0.2, -6.0], [-1.0, 0.3, -6.0], [0.2, -1.0, -6.0]])
    return np.vstack([tip, base]), [[0, 1, 2], [0, 2, 3], [0, 3, 1]]


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("where", ["vertex", "edge", "rim", "corner of the rim", "face"])
def test_a_spike_on_any_feature_meets_it(where, scale):
    """A tip whose arc passes exactly through a vertex, an edge or a rim is never let through.

    200 places and poses each; the opening is known from how the surface was built.
    """
    rng = np.random.default_rng(5)
    for pose in slightly_moved(200, 6):
        tip, opening, hit = place_to_hit(rng)
        vertices, faces = surface_around(where, hit, rng)
        upper = mesh_arch(move_points(pose, vertices) * scale, faces)
        vertices, faces = spike(tip)
        pose[:3, 3] *= scale
        got = closed_at(upper, mesh_arch(vertices * scale, faces, 41), pose)
        assert got.status[0] == MEETS
        # The surface may fall steeply beside the place: a rounding aside is one of the opening.
        assert got.opening_rad[0] == pytest.approx(opening, abs=1e-11)
        np.testing.assert_allclose(got.radius_mm / scale, np.hypot(tip[0], tip[2]), atol=1e-6)


def flat_fan():
    """Return three triangles around a point of a level plane, and a spike under that point."""
    rim = np.array([[50.0, -4, -30], [60, -4, -30], [55, 6, -30]])
    fan = np.stack([[rim[k], rim[(k + 1) % 3], [55.0, 0.0, -30.0]] for k in range(3)])
    return fan, np.array([[[55.0, 0.0, -32.0], [56, 0, -35], [54, 1, -35]]])


def opening_under_a_level_plane(tip, height):
    """Return at which opening a tip reaches a level plane, in closed form."""
    x, _, z = tip
    return np.arcsin(-height / np.hypot(x, z)) - np.arctan2(-z, x)


@pytest.mark.parametrize("scale", SCALES)
def test_triangles_without_area_change_nothing(scale):
    """Points and lines given as triangles of the surface, and copies, leave every bit as it is."""
    fan, tip = flat_fan()
    plain = closed_at(soup(fan * scale), soup(tip * scale))
    assert plain.opening_rad[0] == pytest.approx(
        opening_under_a_level_plane(tip[0, 0], -30.0), abs=AGREED_RAD
    )
    a, b, c = fan[0]
    extra = np.array([[a, a, a], [a, a, b], [a, 0.5 * (a + b), b], [c, c, c], fan[0], fan[1]])
    for upper in (np.concatenate([fan, extra]), np.concatenate([extra, fan])):
        for lower in (tip, np.concatenate([tip, tip, tip[:, [0, 0, 1]], tip[:, [2, 2, 2]]])):
            got = closed_at(soup(upper * scale), soup(lower * scale))
            for name in ("opening_rad", "point", "normal", "kind", "radius_mm"):
                np.testing.assert_array_equal(getattr(got, name), getattr(plain, name))


@pytest.mark.parametrize("scale", SCALES)
def test_triangles_without_area_are_edges_and_points_themselves(scale):
    """A line given as a triangle meets what an edge meets; a point meets faces."""
    fan, tip = flat_fan()
    wanted = opening_under_a_level_plane(tip[0, 0], -30.0)
    point = closed_at(soup(fan * scale), soup(tip[:, [0, 0, 0]] * scale))
    assert point.opening_rad[0] == pytest.approx(wanted, abs=AGREED_RAD)
    assert point.kind[0] == LOWER_VERTEX
    # A level line from left to right, above an edge that runs forward and is steepest at its head.
    line = np.array([[[54.0, -3.0, -29.0], [54.0, 4.0, -29.0], [54.0, 4.0, -29.0]]])
    edge = np.array([[[40.0, 0.5, -35.0], [70.0, 0.5, -35.0], [55.0, 0.5, -50.0]]])
    got = closed_at(soup(line * scale), soup(edge * scale))
    radius = np.hypot(54.0, 29.0)
    # The point of the lower edge that far from the axis turns up to the line.
    wanted = np.arctan2(29.0, 54.0) - np.arcsin(35.0 / radius)
    assert got.opening_rad[0] == pytest.approx(wanted, abs=AGREED_RAD)
    np.testing.assert_allclose(got.point / scale, [[54.0, 0.5, -29.0]], atol=1e-9)


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("width_mm", [1e-2, 1e-5, 1e-8])
@pytest.mark.parametrize("seed", range(5))
def test_needles_are_met_where_they_are(seed, width_mm, scale):
    """Triangles a million times as long as wide are faces still: a tip meets their plane."""
    rng = np.random.default_rng(seed)
    tip = rng.uniform([45, -20, -40], [80, 20, -32])
    wanted = opening_under_a_level_plane(tip, -30.0)
    hit = turned(tip, np.array(wanted))
    turn = rng.uniform(0, np.pi)
    along, aside = np.array([np.cos(turn), np.sin(turn), 0.0]), [-np.sin(turn), np.cos(turn), 0.0]
    needle = hit + np.array([-5.0 * along, 5.0 * along, np.zeros(3)])
    needle += width_mm * np.outer([-0.5, -0.5, 0.5], aside)
    needle[:, 2] = -30.0
    vertices, faces = spike(tip)
    got = closed_at(soup(needle[None] * scale), mesh_arch(vertices * scale, faces, 41))
    assert got.opening_rad[0] == pytest.approx(wanted, abs=1e-9 * width_mm + AGREED_RAD)


def test_single_triangles_agree_with_the_twin():
    """One triangle against one, at every scale, meeting or not."""
    rng, met = np.random.default_rng(8), 0
    for pose in slightly_moved(150, 9):
        middle = rng.uniform([40, -20, -40], [80, 20, -25])
        u, v = middle + rng.normal(0, 2, (3, 3)), middle - [0, 0, 3] + rng.normal(0, 2, (3, 3))
        scale = SCALES[rng.integers(3)]
        upper, lower = soup(u[None] * scale), soup(v[None] * scale)
        pose[:3, 3] *= scale
        got = closed_at(upper, lower, pose)
        wanted = Twin(upper.mesh, lower.mesh).first_contact(pose)
        assert (got.status[0] == MEETS) == (wanted.kind >= 0)
        if wanted.kind >= 0:
            assert got.opening_rad[0] == pytest.approx(wanted.opening_rad, abs=AGREED_RAD)
            met += 1
    assert met > 50


def test_everything_left_out_meets_nothing():
    """All teeth of one side, or all pairs left out: the status says so, nothing is reported."""
    upper, lower = FAMILIES["cusps"](3)
    uppers, lowers = set(upper.tooth_of_face), set(lower.tooth_of_face)
    pairs = frozenset((u, v) for u in uppers for v in lowers)
    for leave_out in (
        LeaveOut(upper=frozenset(uppers)),
        LeaveOut(lower=frozenset(lowers)),
        LeaveOut(pairs=pairs),
    ):
        got = closed_at(upper, lower, None, leave_out)
        assert got.status[0] == NOTHING_MEETS
        assert got.opening_rad[0] == -np.inf
        assert got.face_upper[0] == got.face_lower[0] == got.tooth_upper[0] == -1
