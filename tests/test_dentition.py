"""The built-in dentition in MI: even stops, closed crowns, landmarks, mirror, neighbours."""

import tomllib
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import trimesh

from kinematics.contact.closure import close
from kinematics.contact.pair import prepare
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import GuidanceCoordinates, pose_at
from kinematics.guidance.settings import GuidanceSettings
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_posterior, mirror
from tests import built_dentition
from tests.built_dentition import OVER_ERUPTED, check_stops, first_gaps_um, gap_mm

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "teeth.toml").read_text())


@pytest.fixture
def plain():
    """Return the plain dentition at the default resolution."""
    return built_dentition.plain()


@pytest.fixture
def erupted():
    """Return the dentition with tooth 46 over-erupted and 15 to 17 set up against it."""
    return built_dentition.erupted()


@pytest.fixture
def coarse():
    """Return the plain dentition with few triangles."""
    return built_dentition.coarse()


def with_vertices(arch, vertices):
    """Return an arch with other vertices."""
    return replace(arch, mesh=mesh_of(vertices, arch.mesh.faces))


@pytest.mark.parametrize("settings", [{}, OVER_ERUPTED], ids=["plain", "over-erupted"])
@pytest.mark.parametrize("triangles", [10_000, 23_000])
def test_even_stops_at_any_resolution(triangles, settings):
    """Each resolution is settled afresh into at least 8 stops a side within 2 micrometres."""
    check_stops(build(DentitionSettings(triangles_per_arch=triangles, **settings)))


@pytest.mark.parametrize("name", ["plain", "erupted"])
def test_even_stops_at_the_default_resolution(name, request):
    """As above, at 40,000 triangles an arch."""
    check_stops(request.getfixturevalue(name))


@pytest.mark.wide
@pytest.mark.parametrize("settings", [{}, OVER_ERUPTED], ids=["plain", "over-erupted"])
@pytest.mark.parametrize("triangles", [15_000, 33_000, 67_000, 100_000, 200_000, 400_000])
def test_even_stops_at_more_resolutions(triangles, settings):
    """As above, up to the finest mesh."""
    check_stops(build(DentitionSettings(triangles_per_arch=triangles, **settings)))


@pytest.mark.parametrize("advances", [(0.3, 0.3), (0.45, 0.15)])
def test_settled_about_the_axis_of_mi(advances):
    """With MI ahead of CR, level or not, stops are even when closing about MI's own axis."""
    guidance = prepare_guidance(GuidanceSettings())
    pose = pose_at(guidance, GuidanceCoordinates(*advances, 0.0, 0.0))
    check_stops(build(DentitionSettings(triangles_per_arch=20_000), pose), pose)


def test_stops_lie_on_both_surfaces(plain):
    """Every stop's point is within half a micrometre of both named teeth."""
    for stop in plain.stops:
        for arch, code in ((plain.upper, stop.upper_tooth), (plain.lower, stop.lower_tooth)):
            corners = arch.mesh.corners[arch.tooth_of_face == code]
            points = np.tile(stop.point, (len(corners), 1))
            nearest = trimesh.triangles.closest_point(corners, points)
            assert np.linalg.norm(nearest - stop.point, axis=1).min() < 0.003


def test_supporting_cusps_are_named_by_tooth_and_cusp(plain):
    """Names in the table are cusps that the named tooth has and that support."""
    for stop in plain.stops:
        code, name = stop.cusp.split()
        arch = plain.upper if int(code) < 30 else plain.lower
        assert int(code) in (stop.upper_tooth, stop.lower_tooth)
        assert name in arch.tooth(int(code)).cusp_tips


def test_a_stop_that_is_pressed_in_is_noticed(plain):
    """Lifting one lower molar by 20 micrometres makes the first contact that much too early."""
    raised = plain.lower.mesh.vertices.copy()
    raised[np.unique(plain.lower.mesh.faces[plain.lower.tooth_of_face == 36])] += [0, 0, 0.02]
    pair = prepare(plain.upper, with_vertices(plain.lower, raised))
    met = close(pair, identity_poses(1))
    assert 12.0 < 1000.0 * met.opening_rad[0] * met.radius_mm[0] < 30.0
    assert met.tooth_lower[0] == 36


def test_front_teeth_are_coupled(plain):
    """Each upper front tooth meets its opponent at 10 to 20 micrometres, without overlap."""
    pairs = [(11, 41), (12, 42), (13, 43), (21, 31), (22, 32), (23, 33)]
    for gap in first_gaps_um(plain, pairs).values():
        assert 10.0 <= gap <= 20.0


@pytest.mark.parametrize("gap_um", [0.0, 40.0, 200.0])
def test_front_teeth_are_left_as_far_as_asked(gap_um):
    """Each upper front tooth stays at the gap that is set, and back teeth keep their stops."""
    made = build(DentitionSettings(triangles_per_arch=15_000, front_gap_um=gap_um))
    pairs = [(11, 41), (13, 43), (21, 31), (23, 33)]
    for gap in first_gaps_um(made, pairs).values():
        assert gap == pytest.approx(gap_um, abs=5.0)
    check_stops(made)


def test_left_mirrors_right_exactly(plain):
    """Every tooth is the mirror image of its counterpart to the last bit, stops too."""
    for arch in (plain.upper, plain.lower):
        for code in (c for c in arch.codes if c // 10 in (2, 3)):
            corners = {
                side: arch.mesh.corners[arch.tooth_of_face == c]
                for side, c in (("left", code), ("right", mirror(code)))
            }
            mirrored = corners["right"][:, ::-1] * [1.0, -1.0, 1.0]
            np.testing.assert_array_equal(corners["left"], mirrored)
    stops = {(s.upper_tooth, s.lower_tooth, tuple(s.point)) for s in plain.stops}
    assert stops == {(mirror(u), mirror(low), (x, -y, z)) for u, low, (x, y, z) in stops}


def test_arches_are_28_closed_crowns_of_about_the_wanted_number(plain):
    """Order from the patient's right to left; every crown closed and wound outward."""
    assert plain.upper.codes == (17, 16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26, 27)
    assert plain.lower.codes == (47, 46, 45, 44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37)
    for arch in (plain.upper, plain.lower):
        assert len(arch.mesh.faces) == pytest.approx(40_000, rel=0.1)
        for code in arch.codes:
            faces = arch.mesh.faces[arch.tooth_of_face == code]
            crown = trimesh.Trimesh(arch.mesh.vertices, faces, process=False)
            assert crown.is_watertight and crown.is_winding_consistent and crown.volume > 50.0


def test_landmarks_lie_on_their_crowns(plain):
    """Tips, edge points and axes: on the surface, towards the other arch, centre inside."""
    for arch, sign in ((plain.upper, -1.0), (plain.lower, 1.0)):
        for tooth in arch.teeth:
            corners = arch.mesh.corners[arch.tooth_of_face == tooth.code]
            for point in (*tooth.edge, *tooth.cusp_tips.values()):
                points = np.tile(point, (len(corners), 1))
                nearest = trimesh.triangles.closest_point(corners, points)
                assert np.linalg.norm(nearest - point, axis=1).min() < 0.06, tooth.code
            assert np.linalg.norm(tooth.long_axis) == pytest.approx(1.0)
            assert sign * tooth.long_axis[2] > 0.8
            low, high = corners.min(axis=(0, 1)), corners.max(axis=(0, 1))
            assert (low < tooth.centre).all() and (tooth.centre < high).all()
            assert set(tooth.supporting) <= set(tooth.cusp_tips)
            assert bool(tooth.supporting) == is_posterior(tooth.code)
    edges = [plain.lower.tooth(code).edge for code in (31, 41)]
    middle = 0.5 * (edges[0].mean(axis=0) + edges[1].mean(axis=0))
    np.testing.assert_allclose(plain.incisal_point, [84.0, 0.0, -33.0])
    assert np.linalg.norm(middle - plain.incisal_point) < 0.5


def test_arch_widths_lie_within_two_deviations_of_published_means(plain):
    """Canine tips and first-molar cusp tips."""
    widths = PUBLISHED["arch_widths"]
    places = {
        "upper_canines": (plain.upper, 23, "tip"),
        "lower_canines": (plain.lower, 33, "tip"),
        "upper_first_molars": (plain.upper, 26, "MB"),
        "lower_first_molars": (plain.lower, 36, "DB"),
    }
    for name, (arch, code, cusp) in places.items():
        mean, deviation = widths[name]
        assert abs(2.0 * arch.tooth(code).cusp_tips[cusp][1] - mean) < 2.0 * deviation, name


@pytest.mark.parametrize(("name", "nearly"), [("plain", 0.03), ("erupted", 0.4)])
def test_neighbours_overlap_by_at_most_30_micrometres(name, nearly, request):
    """Contacts are closed; a tooth that has moved along its axis may leave a small gap."""
    dentition = request.getfixturevalue(name)
    for arch in (dentition.upper, dentition.lower):
        for code, neighbour in pairwise(arch.codes):
            gap = min(gap_mm(arch, code, neighbour), gap_mm(arch, neighbour, code))
            assert -0.03 <= gap <= nearly, (code, neighbour)


def test_the_same_settings_give_the_same_bits(coarse):
    """Once more, to the last bit."""
    again = build(DentitionSettings(triangles_per_arch=12_000))
    for first, second in ((coarse.upper, again.upper), (coarse.lower, again.lower)):
        np.testing.assert_array_equal(first.mesh.vertices, second.mesh.vertices)
        np.testing.assert_array_equal(first.mesh.faces, second.mesh.faces)
