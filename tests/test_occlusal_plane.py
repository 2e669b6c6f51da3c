"""Plane and sphere through the teeth of an arch, and how teeth stand to them, on made arches."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import least_squares

from kinematics.casts.casts import carried
from kinematics.geometry.poses import pose_of, rotation_about
from kinematics.planning.plane.arch_heights import MODERATE, NONE, SLIGHT
from kinematics.planning.plane.arch_plane import arch_plane
from kinematics.planning.plane.curved_surface import fitted_surface
from kinematics.planning.plane.laid_surface import FREE_SPHERE
from kinematics.planning.plane.settings import PlaneSettings
from tests.made_planes import BACK, CENTRE, codes_of, made_arch, mirrored, with_teeth_moved

SETTINGS = PlaneSettings()
ALL_FREE = np.array([True, True, True, True])
PLANE_FREE = np.array([True, True, True, False])


def plane_of(arch, replaced=()):
    """Return plane and sphere of an arch with the usual limits."""
    return arch_plane(arch, replaced, SETTINGS)


def tooth_of(plane, code):
    """Return what is told of one tooth."""
    return next(tooth for tooth in plane.teeth if tooth.tooth == code)


@pytest.mark.parametrize("upper", [True, False])
@pytest.mark.parametrize("radius", [80.0, 101.6, 130.0])
def test_exact_tips_give_back_their_sphere(upper, radius):
    """Tips on a sphere of 101.6 mm give 101.6 mm, and no tooth stands off it."""
    plane = plane_of(made_arch(upper, radius))
    assert plane.radius_mm == pytest.approx(radius, abs=1e-6)
    assert plane.out_of_sphere == ()
    if radius == 101.6:
        assert plane.sphere.centre == pytest.approx(CENTRE, abs=1e-6)
        heights = [tooth.height_mm for tooth in plane.teeth]
        assert heights == pytest.approx([0.0] * len(heights), abs=1e-9)


def test_spheres_and_planes_are_those_of_general_least_squares():
    """Two general solvers of other libraries agree on clean, scattered points (30 seeds)."""
    for seed in range(30):
        rng = np.random.default_rng(seed)
        points = np.column_stack([rng.uniform(40, 85, 16), rng.uniform(-27, 27, 16), np.zeros(16)])
        points[:, 2] = 60.0 - np.sqrt(95.0**2 - (points[:, 0] - 60) ** 2 - points[:, 1] ** 2)
        points[:, 2] += 0.05 * rng.standard_normal(16)
        weights = rng.uniform(0.3, 1.0, 16)
        sphere = fitted_surface(points, weights, ALL_FREE, 1.0 / 101.6)

        def off(values, points=points, weights=weights):
            return np.sqrt(weights) * (np.linalg.norm(points - values[:3], axis=1) - values[3])

        start = [60.0, 0.0, 60.0, 95.0]
        told = least_squares(off, start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
        assert off([*sphere.centre, sphere.radius_mm]) == pytest.approx(off(told.x), abs=1e-6)
        assert sphere.radius_mm == pytest.approx(told.x[3], rel=1e-5)
        away = sphere.radius_mm - np.linalg.norm(points - sphere.centre, axis=1)
        assert sphere.heights(points) == pytest.approx(away, abs=1e-9)

        plane = fitted_surface(points, np.ones(16), PLANE_FREE)
        normal = np.linalg.svd(points - points.mean(axis=0))[2][2]
        normal *= np.sign(normal[2])
        assert plane.normal == pytest.approx(normal, abs=1e-9)
        level = (points - points.mean(axis=0)) @ normal
        assert plane.heights(points) == pytest.approx(level, abs=1e-9)


def test_a_tooth_over_erupted_by_2_mm_reads_so_wherever_it_stands():
    """Planted on every back tooth in turn, the others scattered: 1.9 to 2.1 mm (50 seeds)."""
    for seed in range(50):
        code = BACK[seed % len(BACK)]
        arch = made_arch(code < 30, noise=0.02, seed=seed)
        plane = plane_of(with_teeth_moved(arch, {code: 2.0}))
        told = tooth_of(plane, code)
        assert 1.9 <= told.along_axis_mm <= 2.1, (seed, code)
        assert plane.out_of_sphere == (code,)
        others = [tooth for tooth in plane.teeth if tooth.over_eruption and tooth.tooth != code]
        assert max(abs(tooth.along_axis_mm) for tooth in others) < 0.2
        assert not any(tooth.is_out_of_line(SETTINGS.limit_mm) for tooth in others)
        assert not told.class_is_sure, "2 mm is the limit of the class itself"


def test_up_to_three_teeth_out_of_line_are_all_told():
    """One to three of any teeth, out or short by 1.5 to 3 mm; two of one side move apart.

    Two and more of the four teeth of one side moved alike, and one of the other side, cannot be
    told from a plane that slants.
    """
    for seed in range(51):
        rng = np.random.default_rng(seed)
        upper = bool(seed % 2)
        right, left = (
            [code for code in codes_of(upper) if code % 10 >= 4][k : k + 4] for k in (0, 4)
        )
        count = 1 + seed % 3
        chosen = [*rng.choice(right, (count + 1) // 2, False), *rng.choice(left, count // 2, False)]
        signs = rng.choice([-1.0, 1.0]) * np.array([1.0, -1.0, 1.0])[: len(chosen)]
        moves = {
            int(code): sign * float(rng.uniform(1.5, 3.0))
            for code, sign in zip(chosen, signs, strict=True)
        }
        arch = with_teeth_moved(made_arch(upper, noise=0.02, seed=seed), moves)
        plane = plane_of(arch)
        assert set(plane.out_of_sphere) == set(moves), (seed, moves)
        for code, by in moves.items():
            assert tooth_of(plane, code).along_axis_mm == pytest.approx(by, abs=0.3), (seed, moves)


@pytest.mark.parametrize(
    ("by", "told"), [(0.2, NONE), (0.8, SLIGHT), (1.6, SLIGHT), (2.4, MODERATE)]
)
def test_classes_of_over_eruption(by, told):
    """None within chance, slight below 2 mm, moderate to severe from there."""
    tooth = tooth_of(plane_of(with_teeth_moved(made_arch(), {36: by})), 36)
    assert (tooth.over_eruption, tooth.class_is_sure) == (
        told,
        abs(by - 2.0) > tooth.uncertainty_mm,
    )
    assert tooth.reduce_mm == pytest.approx(max(0.0, by - 0.5) if by > 0.5 else 0.0, abs=0.02)
    assert tooth.build_up_mm == 0.0


def test_a_tooth_short_of_the_curve_is_built_up():
    """Infraposition of 1.2 mm: 0.7 mm are missing to the limit, and nothing would be cut."""
    tooth = tooth_of(plane_of(with_teeth_moved(made_arch(True), {16: -1.2})), 16)
    assert tooth.along_axis_mm == pytest.approx(-1.2, abs=0.02)
    assert tooth.build_up_mm == pytest.approx(0.7, abs=0.02)
    assert (tooth.reduce_mm, tooth.above_limit_mm3, tooth.over_eruption) == (0.0, 0.0, NONE)
    assert all(tip.build_up_mm == 0.0 for tip in tooth.tips if not tip.supporting)


def test_heights_do_not_change_with_the_frame_and_angles_do():
    """Fifty turns up to 20 degrees: heights to 1e-9, and the plane falls by what it was turned."""
    for seed in range(50):
        rng = np.random.default_rng(seed)
        upper = bool(seed % 2)
        arch = with_teeth_moved(made_arch(upper, noise=0.05, seed=seed), {BACK[seed % 8]: 1.0})
        still = plane_of(arch)
        ahead = float(rng.uniform(-20, 20))
        pose = pose_of(
            rotation_about(np.array([0.0, 1.0, 0.0]), np.radians(ahead)), rng.uniform(-9, 9, 3)
        )
        plane = plane_of(carried(arch, pose))
        assert plane.falls_forward_deg == pytest.approx(still.falls_forward_deg + ahead, abs=1e-6)
        assert plane.radius_mm == pytest.approx(still.radius_mm, abs=1e-6)
        for was, tooth in zip(still.teeth, plane.teeth, strict=True):
            assert tooth.height_mm == pytest.approx(was.height_mm, abs=1e-9)


def test_a_mirror_changes_sides_and_nothing_else():
    """Heights, radii and distances are the same to 1e-9 in the mirror (12 seeds)."""
    for seed in range(12):
        arch = made_arch(bool(seed % 2), noise=0.1, seed=seed)
        plane, seen = plane_of(arch), plane_of(mirrored(arch))
        assert seen.radius_mm == pytest.approx(plane.radius_mm, abs=1e-6)
        assert seen.falls_left_deg == pytest.approx(-plane.falls_left_deg, abs=1e-9)
        for tooth, other in zip(plane.teeth, reversed(seen.teeth), strict=True):
            assert other.height_mm == pytest.approx(tooth.height_mm, abs=1e-9)
            assert other.beside_line_mm == pytest.approx(
                tooth.beside_line_mm, abs=1e-9, nan_ok=True
            )


def test_the_order_of_teeth_and_triangles_changes_no_bit():
    """Teeth given in any order, triangles too: the same bits."""
    arch = with_teeth_moved(made_arch(noise=0.1, seed=3), {46: 1.7})
    first = plane_of(arch)
    for seed in range(10):
        order = np.random.default_rng(seed).permutation(len(arch.tooth_of_face))
        mesh = replace(arch.mesh, faces=arch.mesh.faces[order])
        teeth = tuple(
            arch.teeth[i] for i in np.random.default_rng(seed).permutation(len(arch.teeth))
        )
        again = plane_of(
            replace(arch, mesh=mesh, tooth_of_face=arch.tooth_of_face[order], teeth=teeth)
        )
        assert [repr(tooth) for tooth in again.teeth] == [repr(tooth) for tooth in first.teeth]
        assert again.radius_mm == first.radius_mm


def test_replacement_teeth_are_told_but_take_no_part():
    """A base set too high moves nothing; where no natural tooth is left, its teeth must serve."""
    low = {14: 3.0, 15: 3.0}
    plane = plane_of(with_teeth_moved(made_arch(True), low), replaced=tuple(low))
    assert plane.natural
    assert tooth_of(plane, 24).height_mm == pytest.approx(0.0, abs=1e-6)
    told = tooth_of(plane, 15)
    assert (told.natural, told.takes_part, told.over_eruption) == (False, False, "")
    assert told.height_mm == pytest.approx(3.0, abs=0.05)
    assert told.reduce_mm == 0.0
    complete = plane_of(made_arch(True), replaced=codes_of(True))
    assert not complete.natural
    assert complete.radius_mm == pytest.approx(101.6, abs=1e-6)


def test_third_molars_are_told_but_take_no_part():
    """One that stands far out moves no other."""
    arch = with_teeth_moved(made_arch(codes=codes_of(False, last=8)), {48: 3.0})
    plane = plane_of(arch)
    assert not tooth_of(plane, 48).takes_part
    assert tooth_of(plane, 48).along_axis_mm == pytest.approx(3.0, abs=0.01)
    assert tooth_of(plane, 47).height_mm == pytest.approx(0.0, abs=1e-9)


def test_a_crossbite_changes_nothing_of_the_curve():
    """Heights are told of the usual supporting cusps; teeth named as crossed take no part."""
    arch = made_arch(True, noise=0.05, seed=4)
    swapped = tuple(
        replace(tooth, supporting=tuple(set(tooth.cusp_tips) - set(tooth.supporting)))
        if tooth.code in (25, 26, 27)
        else tooth
        for tooth in arch.teeth
    )
    first, again = plane_of(arch), plane_of(replace(arch, teeth=swapped))
    assert [tooth.height_mm for tooth in again.teeth] == [tooth.height_mm for tooth in first.teeth]
    apart = with_teeth_moved(arch, {26: 3.0})
    told = arch_plane(apart, (), SETTINGS, crossed=(26,))
    assert (tooth_of(told, 26).takes_part, tooth_of(told, 26).over_eruption) == (False, "")
    assert max(abs(tooth.height_mm) for tooth in told.teeth if tooth.over_eruption) < 0.3


def test_too_few_teeth_tell_no_curve():
    """Four on both sides are read on the classic sphere; on one side alone nothing is read."""
    few = plane_of(made_arch(codes=[46, 44, 43, 42, 41, 31, 32, 33, 34, 36]))
    assert np.isnan(few.radius_mm)
    assert few.sphere.radius_mm == pytest.approx(101.6)
    one_side = plane_of(made_arch(codes=[43, 42, 41, 31, 32, 33, 34, 35, 36, 37]))
    assert one_side.sphere is None
    assert all(np.isnan(tooth.height_mm) and not tooth.over_eruption for tooth in one_side.teeth)
    assert one_side.plane is not None
    two = plane_of(made_arch(codes=[46, 36]))
    assert two.sphere is None


def test_cusps_beside_the_line_are_told():
    """A tooth moved 2 mm to cheek or tongue stands so far beside the line (56 seeds)."""
    still = plane_of(made_arch())
    for seed in range(56):
        rng = np.random.default_rng(seed)
        code = [code for code in BACK if code > 30][seed % 8]
        side = -1.0 if code // 10 == 4 else 1.0
        by = float(rng.choice([-1.0, 1.0])) * 3.0
        arch = with_teeth_moved(made_arch(seed=seed), {code: (0.0, side * by, 0.0)})
        told = tooth_of(plane_of(arch), code)
        assert np.sign(told.beside_line_mm) == np.sign(by)
        assert abs(told.beside_line_mm) > 1.0 > abs(tooth_of(still, code).beside_line_mm)


def test_the_free_sphere_is_what_a_radius_is_told_of():
    """The radius is that of the teeth alone, not drawn towards the classic one."""
    assert FREE_SPHERE.held_by == 0.0
    assert plane_of(made_arch(radius=70.0)).radius_mm == pytest.approx(70.0, abs=1e-6)
