"""Undercuts and survey lines: bodies in closed form, and crowns against brute force and rays."""

import numpy as np
import pytest
import trimesh

from kinematics.geometry.meshes import mesh_of
from kinematics.planning.surveying.path_frames import path_frame, tilt_of
from kinematics.planning.surveying.side_outlines import side_outline
from kinematics.planning.surveying.survey_lines import polylines, surveyed
from kinematics.planning.surveying.vertical_cover import covered

UP = np.array([0.0, 0.0, 1.0])
LEVEL = path_frame(UP, 0.0, 0.0)
SEEDS = range(50)


def turned_body(heights, radii, spokes=96):
    """Return a closed body of revolution about z through rings at heights."""
    turn = 2.0 * np.pi * np.arange(spokes) / spokes
    rings = [
        np.column_stack([r * np.cos(turn), r * np.sin(turn), np.full(spokes, h)])
        for h, r in zip(heights, radii, strict=True)
    ]
    points = np.vstack([*rings, [[0.0, 0.0, heights[0]], [0.0, 0.0, heights[-1]]]])
    faces = []
    for ring in range(len(rings) - 1):
        for k in range(spokes):
            a, b = ring * spokes + k, ring * spokes + (k + 1) % spokes
            faces += [[a, b, b + spokes], [a, b + spokes, a + spokes]]
    last = (len(rings) - 1) * spokes
    for k in range(spokes):
        faces += [[(k + 1) % spokes, k, len(points) - 2]]
        faces += [[last + k, last + (k + 1) % spokes, len(points) - 1]]
    return mesh_of(points, faces)


def sphere(radius=4.0, subdivisions=4):
    """Return a sphere."""
    ball = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius)
    return mesh_of(ball.vertices, ball.faces)


def crown_like(seed):
    """Return a bumpy crown-like body, and a generator for what is asked of it."""
    rng = np.random.default_rng(seed)
    heights = np.linspace(0.0, 7.0, 12)
    radii = 4.0 + 0.9 * np.sin(heights / 7.0 * np.pi) + rng.uniform(-0.15, 0.15, 12)
    body = turned_body(heights, radii, 24)
    points = body.vertices * [1.0, rng.uniform(0.8, 1.3), 1.0]
    points = points + rng.uniform(-0.05, 0.05, points.shape)
    return mesh_of(points, body.faces), rng


def test_a_cone_on_its_tip_undercuts_by_height_times_tangent():
    """Every vertex of the wall, whatever its height, by what a gauge would show."""
    slope = np.tan(np.radians(12.0))
    heights = np.linspace(0.0, 5.0, 11)
    seen, _ = surveyed(turned_body(heights, 3.0 + slope * heights), LEVEL)
    wall = seen.steep & (seen.height > 0.0)
    # Rings of spokes: the gauge meets the edge between two of them, or their corner.
    np.testing.assert_allclose(
        seen.depth_mm[wall], slope * (5.0 - seen.height[wall]) * np.cos(np.pi / 96), rtol=1e-9
    )


def test_a_cylinder_along_the_path_undercuts_nowhere_and_a_tilted_one_by_its_lean():
    """Without tilt there is none; tilted, the lower side leans under by length times sine."""
    body = turned_body(np.linspace(0.0, 5.0, 11), np.full(11, 3.0))
    seen, _ = surveyed(body, LEVEL)
    assert seen.depth_mm.max() == 0.0
    sine, cosine = np.sin(np.radians(10.0)), np.cos(np.radians(10.0))
    tilted, _ = surveyed(body, path_frame(UP, 10.0, 0.0))
    ahead, behind = (side_outline(tilted, np.array([way, 0.0])) for way in (1.0, -1.0))
    lower_edge = -3.0 * sine
    assert ahead.undercut_mm(lower_edge) == pytest.approx(5.0 * sine, abs=0.01)
    assert ahead.reach_mm.max() == pytest.approx(3.0 * cosine + 5.0 * sine, abs=0.01)
    assert behind.undercut_mm(3.0 * sine) < 1e-9  # it leans the other way


def test_a_sphere_turns_at_its_equator_whatever_the_tilt():
    """Its survey line lies at the middle, and depth is radius less the half chord."""
    for forward, left in ((0.0, 0.0), (12.0, -7.0), (-20.0, 15.0)):
        seen, _ = surveyed(sphere(), path_frame(UP, forward, left))
        assert np.abs(seen.height[seen.lines]).max() < 0.2  # the size of a triangle
        rows = seen.steep & (seen.height < 0.0)
        depth = 4.0 - np.sqrt(16.0 - seen.height[rows] ** 2)
        np.testing.assert_allclose(seen.depth_mm[rows], depth, atol=0.006)
        assert len(polylines(seen.lines)) == 1


def test_what_an_outline_says_of_a_sphere():
    """Undercut at a height, depth of a gauge, a cut plane, and the band that guides."""
    outline = side_outline(surveyed(sphere(subdivisions=5), LEVEL)[0], np.array([1.0, 0.0]))
    assert outline.undercut_mm(-2.0) == pytest.approx(4.0 - np.sqrt(12.0), abs=0.01)
    assert outline.below_contour_mm(0.25) == pytest.approx(np.sqrt(16.0 - 3.75**2), abs=0.03)
    assert outline.below_contour_mm(4.5) == np.inf
    assert outline.cut_for_mm(3.0, -3.9) == pytest.approx(4.0 - np.sqrt(16.0 - 1.5**2), abs=0.01)
    assert outline.cut_for_mm(9.0, -4.0) == np.inf
    low, high = outline.guiding_band(10.0)  # a chord leans half as much as the surface at its end
    assert high - low == pytest.approx(8.0 * np.sin(np.radians(20.0)), abs=0.06)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_lies_below_the_line_is_what_a_ray_upward_meets(seed):
    """Every vertex of a tilted body, against the rays of another library."""
    body, rng = crown_like(seed)
    frame = path_frame(UP, *rng.uniform(-15.0, 15.0, 2))
    seen, number = surveyed(body, frame)
    own = np.arange(len(seen.plan))[:, None]
    found = covered(seen.plan, seen.height, seen.mesh.faces, seen.plan, seen.height, own)[number]
    solid = trimesh.Trimesh(body.vertices, body.faces, process=False)
    ways = np.tile(frame.up, (len(body.vertices), 1))
    hits, rays, faces = solid.ray.intersects_location(body.vertices, ways, multiple_hits=True)
    foreign = (body.faces[faces] != rays[:, None]).all(axis=1)
    above = ((hits - body.vertices[rays]) @ frame.up > 1e-6) & foreign
    wanted = np.zeros(len(found), dtype=bool)
    wanted[rays[above]] = True
    # A ray through an edge may be missed by a library that works with rounded numbers.
    assert (found != wanted).sum() <= 1


@pytest.mark.parametrize("seed", SEEDS)
def test_depth_is_the_distance_to_the_line_by_brute_force(seed):
    """Against every place of every segment, finely divided, that is not below the vertex."""
    body, rng = crown_like(seed)
    seen, _ = surveyed(body, path_frame(UP, *rng.uniform(-15.0, 15.0, 2)))
    share = np.linspace(0.0, 1.0, 201)[:, None, None]
    ends = np.column_stack([seen.plan, seen.height])[seen.lines]
    places = (ends[:, 0] + share * (ends[:, 1] - ends[:, 0])).reshape(-1, 3)
    rows = np.flatnonzero(seen.below)
    assert len(rows)
    for row in rows[:: max(1, len(rows) // 25)]:
        upper = places[places[:, 2] >= seen.height[row] - 1e-12]
        wanted = np.linalg.norm(upper[:, :2] - seen.plan[row], axis=1).min() if len(upper) else 0.0
        assert seen.depth_mm[row] == pytest.approx(wanted, abs=0.01)


@pytest.mark.parametrize("seed", range(5))
def test_the_order_of_triangles_changes_no_bit(seed):
    """Depths and lines of a shuffled mesh are those of the mesh."""
    body, rng = crown_like(seed)
    frame = path_frame(UP, 7.0, -4.0)
    mixed = mesh_of(body.vertices, rng.permutation(body.faces))
    one, other = surveyed(body, frame)[0], surveyed(mixed, frame)[0]
    np.testing.assert_array_equal(one.lines, other.lines)
    np.testing.assert_array_equal(one.below, other.below)
    np.testing.assert_array_equal(one.depth_mm, other.depth_mm)


def test_tilts_are_those_seen_from_the_side_and_from_the_front():
    """A lowered front leans the rod backward; both angles are seen square to the planes."""
    frame = path_frame(UP, 8.0, 5.0)
    assert frame.up[0] < 0.0 and frame.up[1] < 0.0
    assert np.degrees(np.arctan2(-frame.up[0], frame.up[2])) == pytest.approx(8.0)
    assert np.degrees(np.arctan2(-frame.up[1], frame.up[2])) == pytest.approx(5.0)
    axes = np.stack([frame.up, frame.forward, frame.left])
    np.testing.assert_allclose(axes @ axes.T, np.eye(3), atol=1e-12)
    assert tilt_of(UP, path_frame(UP, 8.0, 0.0).up) == pytest.approx(8.0)
    above = path_frame(-UP, 8.0, 5.0)  # an upper cast, standing with its teeth up
    assert above.up[0] < 0.0 and above.up[1] < 0.0 and above.up[2] < 0.0
