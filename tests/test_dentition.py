"""The built-in dentition in MI and in excursions, by the exact closure on whole arches."""

import tomllib
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import trimesh
from pydantic import ValidationError
from scipy.spatial import KDTree

from kinematics.casts.casts import carried
from kinematics.checks import InputError
from kinematics.contact.closure import close
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.conventions import TOLERANCES
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, inverse, move_points
from kinematics.guidance.excursions import along, left_lateral, protrusion, right_lateral
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import CENTRIC_RELATION, GuidanceCoordinates, place, pose_at
from kinematics.guidance.settings import GuidanceSettings
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_posterior, mirror

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "teeth.toml").read_text())
OVER_ERUPTED = {"over_erupted_mm": {46: 1.2}, "replacements": (15, 16, 17)}
STOP_UM = 1000.0 * TOLERANCES.stop_mm


@pytest.fixture(scope="module")
def plain():
    """Return the plain dentition at the default resolution."""
    return build(DentitionSettings())


@pytest.fixture(scope="module")
def erupted():
    """Return the dentition with tooth 46 over-erupted and 15 to 17 set up against it."""
    return build(DentitionSettings(**OVER_ERUPTED))


@pytest.fixture(scope="module")
def coarse():
    """Return the plain dentition with few triangles."""
    return build(DentitionSettings(triangles_per_arch=12_000))


def first_gaps_um(dentition, pairs=None, pose=None):
    """Return the arc gap of the first contact in MI, or of given tooth pairs, micrometres."""
    pose = np.eye(4) if pose is None else pose
    lower = carried(dentition.lower, inverse(pose))
    pair = prepare(dentition.upper, lower)
    if pairs is None:
        met = close(pair, pose[None])
        return -1000.0 * met.opening_rad[0] * met.radius_mm[0]
    gaps = {}
    for upper_code, lower_code in pairs:
        met = close(
            pair,
            pose[None],
            LeaveOut(
                frozenset(dentition.upper.codes) - {upper_code},
                frozenset(dentition.lower.codes) - {lower_code},
            ),
        )
        gaps[upper_code, lower_code] = -1000.0 * met.opening_rad[0] * met.radius_mm[0]
    return gaps


def with_vertices(arch, vertices):
    """Return an arch with other vertices."""
    return replace(arch, mesh=mesh_of(vertices, arch.mesh.faces))


def check_stops(dentition, pose=None):
    """Demand 8 even stops a side, one a posterior pair, nothing deeper, all confirmed by closure.

    The closure on whole arches knows nothing of cusp regions: it confirms every pair of teeth
    that the table names.
    """
    assert abs(first_gaps_um(dentition, pose=pose)) <= STOP_UM
    pairs = {(stop.upper_tooth, stop.lower_tooth) for stop in dentition.stops}
    for gap in first_gaps_um(dentition, sorted(pairs), pose).values():
        assert -0.5 <= gap <= STOP_UM
    for upper_quadrant, lower_quadrant in ((1, 4), (2, 3)):
        side = [stop for stop in dentition.stops if stop.upper_tooth // 10 == upper_quadrant]
        assert len(side) >= 8
        for stop in side:
            assert is_posterior(stop.upper_tooth) and is_posterior(stop.lower_tooth)
            assert 0.0 <= stop.arc_gap_um <= STOP_UM
        for number in (4, 5, 6, 7):
            assert (10 * upper_quadrant + number, 10 * lower_quadrant + number) in pairs
        points = np.array([stop.point for stop in side])
        apart = np.linalg.norm(points[:, None] - points, axis=2) + 9.0 * np.eye(len(points))
        assert apart.min() > 0.3, "every stop is a patch of its own"


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


def turns_around(points, corners):
    """Return how often a closed surface winds around each point: 1 inside, 0 outside."""
    a, b, c = (corners[None, :, k] - points[:, None] for k in range(3))
    la, lb, lc = (np.linalg.norm(v, axis=2) for v in (a, b, c))
    volume = np.einsum("ijk,ijk->ij", a, np.cross(b, c))
    below = (
        la * lb * lc
        + np.einsum("ijk,ijk->ij", a, b) * lc
        + np.einsum("ijk,ijk->ij", b, c) * la
        + np.einsum("ijk,ijk->ij", c, a) * lb
    )
    return np.arctan2(volume, below).sum(axis=1) / (2.0 * np.pi)


def gap_mm(arch, code, neighbour):
    """Return the least distance of a tooth's vertices to its neighbour, negative inside it, mm."""
    corners = arch.mesh.corners[arch.tooth_of_face == neighbour]
    points = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == code])]
    distance, near = KDTree(corners.mean(axis=1)).query(points, k=16)
    chosen = distance[:, 0] < max(0.8, distance[:, 0].min() + 0.1)
    points, near = points[chosen], near[chosen]
    spread = np.repeat(points, near.shape[1], axis=0)
    nearest = trimesh.triangles.closest_point(corners[near.ravel()], spread)
    away = np.linalg.norm(spread - nearest, axis=1).reshape(near.shape).min(axis=1)
    # Only what is very near can be inside by little; deeper parts are inside with it.
    close_by = away < 0.25
    if close_by.any():
        inside = turns_around(points[close_by], corners) > 0.5
        away[close_by] *= np.where(inside, -1.0, 1.0)
    return float(away.min())


@pytest.mark.parametrize(("name", "nearly"), [("plain", 0.03), ("erupted", 0.4)])
def test_neighbours_overlap_by_at_most_30_micrometres(name, nearly, request):
    """Contacts are closed; a tooth that has moved along its axis may leave a small gap."""
    dentition = request.getfixturevalue(name)
    for arch in (dentition.upper, dentition.lower):
        for code, neighbour in pairwise(arch.codes):
            gap = min(gap_mm(arch, code, neighbour), gap_mm(arch, neighbour, code))
            assert -0.03 <= gap <= nearly, (code, neighbour)


def test_over_eruption_moves_the_tooth_rigidly_along_its_axis(plain, erupted):
    """Tooth 46 is the plain one moved by 1.2 mm along its axis; the left side is untouched."""
    before, after = (d.lower.mesh.corners[d.lower.tooth_of_face == 46] for d in (plain, erupted))
    axis = plain.lower.tooth(46).long_axis
    np.testing.assert_allclose(
        after - before, np.broadcast_to(1.2 * axis, before.shape), atol=1e-12
    )
    left = [
        d.upper.mesh.corners[np.isin(d.upper.tooth_of_face, range(21, 28))]
        for d in (plain, erupted)
    ]
    np.testing.assert_array_equal(*left)


def test_replacement_opponent_follows_and_natural_teeth_stay(plain, erupted):
    """Tooth 16 moves nearly as 46 did, which keeps its stops; 14, 44, 45, 47 are the plain ones."""
    step = 1.2 * plain.lower.tooth(46).long_axis
    moved = erupted.upper.tooth(16).centre - plain.upper.tooth(16).centre
    np.testing.assert_allclose(moved, step, atol=0.15)
    for arch, code in (("upper", 14), ("lower", 44), ("lower", 45), ("lower", 47)):
        corners = [
            getattr(d, arch).mesh.corners[getattr(d, arch).tooth_of_face == code]
            for d in (plain, erupted)
        ]
        np.testing.assert_array_equal(*corners)


GUIDANCE = prepare_guidance(GuidanceSettings())


def excursion_contacts(dentition, excursion, progress_mm):
    """Return, at places along an excursion from CR, the first tooth pair and the posterior gap.

    The gap is that of the first posterior pair to the first contact, along the arc, mm.
    """
    pair = prepare(dentition.upper, dentition.lower)
    advances = along(GUIDANCE, excursion, CENTRIC_RELATION, progress_mm)
    poses = place(GUIDANCE, *advances).pose_at_zero
    front = frozenset(c for c in dentition.upper.codes if not is_posterior(c))
    lower_front = frozenset(c for c in dentition.lower.codes if not is_posterior(c))
    first = close(pair, poses)
    behind = close(pair, poses, LeaveOut(front, lower_front))
    gap = (first.opening_rad - behind.opening_rad) * behind.radius_mm
    return list(zip(first.tooth_upper, first.tooth_lower, strict=True)), gap


PROGRESS = np.array([0.5, 1.0, 2.0, 3.0, 4.0])


@pytest.mark.parametrize(
    ("excursion", "canines"), [(left_lateral(), (23, 33)), (right_lateral(), (13, 43))]
)
def test_the_working_canine_alone_guides_lateral_excursions(plain, excursion, canines):
    """From 0.5 mm of condylar advance on; all posterior teeth, both sides, stay clear."""
    pairs, gap = excursion_contacts(plain, excursion, PROGRESS)
    assert set(pairs) == {canines}
    assert gap.min() > 0.1


def test_incisors_guide_protrusion(plain):
    """Posterior teeth separate; first contact is between incisors."""
    pairs, gap = excursion_contacts(plain, protrusion(), PROGRESS)
    incisors = {(11, 41), (21, 31), (11, 42), (21, 32), (12, 42), (22, 32)}
    assert set(pairs) <= incisors
    assert gap.min() > 0.1
    assert (np.diff(gap[:3]) > 0).all(), "separation grows with protrusion"


def test_worn_canines_lose_guidance():
    """With 0.5 mm off the guiding surfaces something else touches first at 0.5 mm."""
    worn = build(DentitionSettings(wear_canine_mm=0.5, triangles_per_arch=20_000))
    check_stops(worn)
    pairs, _ = excursion_contacts(worn, left_lateral(), np.array([0.5]))
    assert pairs[0] != (23, 33)


def test_wear_of_one_tooth_changes_that_tooth_only(coarse):
    """Wear by tooth number."""
    worn = build(DentitionSettings(wear_mm={23: 0.3}, triangles_per_arch=12_000))
    for code in coarse.upper.codes:
        same = np.array_equal(
            *(d.upper.mesh.corners[d.upper.tooth_of_face == code] for d in (coarse, worn))
        )
        assert same == (code != 23)


def rise_in_protrusion(dentition):
    """Return how far the incisal point falls over 1 mm of straight condylar protrusion, mm."""
    pair = prepare(dentition.upper, dentition.lower)
    advances = along(GUIDANCE, protrusion(), CENTRIC_RELATION, np.array([1.5]))
    poses = place(GUIDANCE, *advances).pose_at_zero
    turned = close(pair, poses).opening_rad[0]
    cos, sin = np.cos(turned), np.sin(turned)
    opened = np.array([[cos, 0, sin, 0], [0, 1, 0, 0], [-sin, 0, cos, 0], [0, 0, 0, 1]])
    moved = move_points(poses[0] @ opened, dentition.incisal_point[None])[0]
    return float(dentition.incisal_point[2] - moved[2]) / (moved[0] - dentition.incisal_point[0])


@pytest.mark.parametrize("change", [{"overbite_mm": 2.9}, {"overjet_mm": 2.6}])
def test_overbite_and_overjet_change_guidance(coarse, change):
    """More overbite or less overjet guides more steeply, and stops stay even."""
    changed = build(DentitionSettings(triangles_per_arch=12_000, **change))
    assert abs(first_gaps_um(changed)) <= STOP_UM
    assert rise_in_protrusion(changed) > 1.05 * rise_in_protrusion(coarse)


@pytest.mark.parametrize("change_deg", [-6.0, 6.0])
def test_cusp_inclination_changes_depth_and_keeps_stops_even(coarse, change_deg):
    """Steeper cusps stand higher over their central fossa; MI stays at opening 0."""
    changed = build(
        DentitionSettings(cusp_inclination_change_deg=change_deg, triangles_per_arch=12_000)
    )
    assert abs(first_gaps_um(changed)) <= STOP_UM
    depths = []
    for made in (coarse, changed):
        tooth = made.upper.tooth(26)
        corners = made.upper.mesh.corners[made.upper.tooth_of_face == 26].reshape(-1, 3)
        near = np.linalg.norm((corners - tooth.centre)[:, :2], axis=1) < 1.2
        along_axis = (corners - tooth.centre) @ tooth.long_axis
        fossa = along_axis[near & (along_axis > 0)].min()
        tips = [(tip - tooth.centre) @ tooth.long_axis for tip in tooth.cusp_tips.values()]
        depths.append(np.mean(tips) - fossa)
    assert (depths[1] - depths[0]) * np.sign(change_deg) > 0.05


def test_size_and_width_scale_the_arches(coarse):
    """Everything 10 percent larger keeps MI; wider arches are wider at the molars."""
    large = build(DentitionSettings(size_scale=1.1, triangles_per_arch=12_000))
    check_stops(large)
    np.testing.assert_array_equal(large.incisal_point, coarse.incisal_point)
    wide = build(DentitionSettings(arch_width_scale=1.02, triangles_per_arch=12_000))
    assert abs(first_gaps_um(wide)) <= STOP_UM
    before = coarse.upper.tooth(26).centre[1]
    assert large.upper.tooth(26).centre[1] == pytest.approx(1.1 * before, rel=0.01)
    assert wide.upper.tooth(26).centre[1] == pytest.approx(1.02 * before, rel=0.01)


@pytest.mark.parametrize("advances", [(0.3, 0.3), (0.45, 0.15)])
def test_settled_about_the_axis_of_mi(advances):
    """With MI ahead of CR, level or not, stops are even when closing about MI's own axis."""
    pose = pose_at(GUIDANCE, GuidanceCoordinates(*advances, 0.0, 0.0))
    check_stops(build(DentitionSettings(triangles_per_arch=20_000), pose), pose)


def test_missing_teeth_are_not_there():
    """A missing tooth takes its stops with it; an over-erupted opponent needs no room then."""
    made = build(
        DentitionSettings(
            triangles_per_arch=12_000, missing=(25, 26, 27), over_erupted_mm={36: 1.0}
        )
    )
    assert not {25, 26, 27} & set(made.upper.codes)
    assert all(stop.upper_tooth not in (25, 26, 27) for stop in made.stops)
    assert abs(first_gaps_um(made)) <= STOP_UM


def test_the_same_settings_give_the_same_bits(coarse):
    """Once more, to the last bit."""
    again = build(DentitionSettings(triangles_per_arch=12_000))
    for first, second in ((coarse.upper, again.upper), (coarse.lower, again.lower)):
        np.testing.assert_array_equal(first.mesh.vertices, second.mesh.vertices)
        np.testing.assert_array_equal(first.mesh.faces, second.mesh.faces)


def test_over_eruption_into_natural_teeth_is_refused():
    """The message names the teeth by number and says what to do."""
    with pytest.raises(InputError, match=r"over_erupted 46 by 1\.2 mm: .*natural .*15 on 46"):
        build(
            DentitionSettings(
                triangles_per_arch=10_000, over_erupted_mm={46: 1.2}, replacements=(16,)
            )
        )


def test_replacements_without_room_are_refused():
    """Over-eruption beyond what the teeth can make way for."""
    with pytest.raises(InputError, match=r"replacements 15, 16, 17 find no room"):
        build(
            DentitionSettings(
                triangles_per_arch=10_000, over_erupted_mm={46: 3.5}, replacements=(15, 16, 17)
            )
        )


@pytest.mark.parametrize(
    ("settings", "message"),
    [
        ({"triangles_per_arch": 9_999}, "greater than or equal to 10000"),
        ({"overbyte_mm": 2.0}, "overbyte_mm"),
        ({"missing": (18,)}, "18: teeth of the built-in dentition may be any of 11, 12"),
        ({"wear_mm": {33: 0.2}}, "33: teeth with a guiding surface may be any of 11, 12, 13, 21"),
        ({"over_erupted_mm": {46: 4.5}}, "less than or equal to 4"),
        ({"missing": (46,), "over_erupted_mm": {46: 1.0}}, "46 is missing"),
        ({"replacements": (46,), "over_erupted_mm": {46: 1.0}}, "46 is a replacement tooth"),
    ],
)
def test_settings_that_make_no_sense_are_refused(settings, message):
    """Each fault is named with what is accepted."""
    with pytest.raises(ValidationError, match=message):
        DentitionSettings(**settings)
