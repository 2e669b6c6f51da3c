"""What must hold for the built-in teeth as a whole: mirror, frame, refinement, planted faults."""

import dataclasses
import itertools

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_mi import MaximalIntercuspation
from kinematics.casts.casts import Arch, carried
from kinematics.contact.closure import close
from kinematics.contact.contacts import patches
from kinematics.contact.mounted import guided_closure, mount
from kinematics.contact.pair import prepare
from kinematics.contact.sweep import sweep
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import (
    inverse,
    move_points,
    opening_rotation,
    pose_of,
    rotation_about,
)
from kinematics.guidance import excursions
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import place
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.mounting import mounted_casts
from kinematics.planning.contact_runs import judged
from kinematics.planning.interference import interferences
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.occlusion import Occlusion, without
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_right, mirror
from tests.slow_but_obvious import openings_at_touch

SETTINGS = JudgingSettings()
STEPS = SweepSettings(step_mm=0.25, travel_mm=3.0)
MOVEMENTS = (excursions.protrusion(), excursions.right_lateral(), excursions.left_lateral())


def small_case(triangles=10_000, **guidance):
    """Return a case with coarse teeth."""
    return Case(
        guidance=GuidanceSettings(**guidance),
        dentition=DentitionSettings(triangles_per_arch=triangles),
        maximal_intercuspation=MaximalIntercuspation(),
    )


@pytest.fixture(scope="module")
def casts():
    """Return the plain dentition, coarse, mounted on default guidance."""
    return mounted_casts(small_case())


def poses_of(casts, progress):
    """Return jaw positions of all three movements at some progress."""
    columns = [excursions.along(casts.guidance, m, casts.mi, progress) for m in MOVEMENTS]
    return place(casts.guidance, *(np.concatenate(part) for part in zip(*columns, strict=True)))


def swept(casts, movement):
    """Sweep in coarse steps."""
    return sweep(casts, movement, STEPS, SETTINGS.tolerance_mm, SETTINGS.readings_mm, Workers(1))


def mirrored(arch):
    """Return an arch seen in a mirror, teeth renamed."""
    mesh = mesh_of(arch.mesh.vertices * [1, -1, 1], arch.mesh.faces[:, ::-1])
    names = np.vectorize(mirror)
    return Arch(mesh, names(arch.tooth_of_face), ())


def test_mirrored_teeth_and_guidance_give_mirrored_closures(casts):
    """With unequal sides, the mirrored case opens by the same angle to 1e-9 mm."""
    steep, flat = (
        SideGuidance(condylar_inclination_deg=43),
        SideGuidance(condylar_inclination_deg=31),
    )
    openings = []
    for right, left, arches in (
        (steep, flat, (casts.upper, casts.lower)),
        (flat, steep, (mirrored(casts.upper), mirrored(casts.lower))),
    ):
        guidance = prepare_guidance(GuidanceSettings(right=right, left=left))
        u = np.linspace(0.3, 3.0, 12)
        advances = (u, u * 0.2) if right is steep else (u * 0.2, u)
        got = close(prepare(*arches), place(guidance, *advances).pose_at_zero)
        openings.append(got)
    one, other = openings
    difference = (one.opening_rad - other.opening_rad) * one.radius_mm
    np.testing.assert_allclose(difference, 0.0, atol=1e-9)
    np.testing.assert_allclose(one.point * [1, -1, 1], other.point, atol=1e-6)
    assert [mirror(int(code)) for code in one.tooth_upper] == other.tooth_upper.tolist()


def test_a_change_of_frame_changes_nothing(casts):
    """Upper and poses moved together give the same openings to 1e-9 mm."""
    axis = np.array([0.36, 0.48, 0.8])
    world = pose_of(rotation_about(axis, 0.7), np.array([12.0, -30.0, 55.0]))
    # Lateral poses only: in protrusion right and left teeth tie, and rounding picks one.
    poses = poses_of(casts, np.linspace(0.5, 3.0, 6)).pose_at_zero[6:]
    here = close(casts.pair, poses)
    there = close(prepare(carried(casts.upper, world), casts.lower), world @ poses)
    difference = (here.opening_rad - there.opening_rad) * here.radius_mm
    np.testing.assert_allclose(difference, 0.0, atol=1e-9)
    np.testing.assert_allclose(move_points(world, here.point), there.point, atol=1e-7)


def test_closing_opening_and_closing_again_returns(casts):
    """Closed poses are opened by any angle; closing again comes back to the same pose."""
    positions = poses_of(casts, np.linspace(0.0, 3.0, 8))
    first = close(casts.pair, positions.pose_at_zero)
    closed = positions.pose_at_zero @ opening_rotation(first.opening_rad)
    away = closed @ opening_rotation(np.linspace(0.01, 0.3, len(closed)))
    again = away @ opening_rotation(close(casts.pair, away).opening_rad)
    np.testing.assert_allclose(again, closed, atol=1e-11)


def test_finer_meshes_converge():
    """Openings along the movements differ less and less from those of a fine mesh."""
    openings = []
    for triangles in (10_000, 80_000, 160_000):
        casts = mounted_casts(small_case(triangles))
        positions = poses_of(casts, np.linspace(0.5, 3.0, 6))
        got = close(casts.pair, positions.pose_at_zero)
        openings.append((got.opening_rad - casts.mi.opening_rad) * got.radius_mm)
    coarse, middle = (np.abs(o - openings[2]) for o in openings[:2])
    assert np.median(middle) < 0.5 * np.median(coarse)
    assert middle.max() < 0.02


def test_marks_of_a_thicker_foil_contain_those_of_a_thinner_one(casts):
    """Every mark at 8 micrometres lies within one at 20, 40 and 100, pair by pair, and they grow.

    Foils of 8 to 200 micrometres are in use (Brizuela-Velasco et al., Int J Prosthodont
    2015;28:360).
    """
    poses = casts.mi_pose[None]
    areas = []
    for foil in (0.008, 0.02, 0.04, 0.1):
        got = patches(casts.pair, poses, foil)
        area: dict[tuple[int, int], float] = {}
        for u, v, a in zip(got.tooth_upper, got.tooth_lower, got.area_mm2, strict=True):
            area[int(u), int(v)] = area.get((int(u), int(v)), 0.0) + float(a)
        areas.append(area)
    for thin, thick in itertools.pairwise(areas):
        assert set(thin) <= set(thick)
        assert all(thick[pair] >= thin[pair] for pair in thin)
    assert sum(areas[3].values()) > 2 * sum(areas[0].values())


class Upper:
    """The corners of the upper's triangles in the lower's frame, and how far each reaches."""

    def __init__(self, casts, pose):
        self.corners = move_points(inverse(pose), casts.upper.mesh.vertices)[casts.upper.mesh.faces]
        s, r = self.corners[..., 1], np.hypot(self.corners[..., 0], self.corners[..., 2])
        self.s, self.r = (s.min(1), s.max(1)), (r.min(1) - 0.3, r.max(1) + 0.3)

    def touch(self, point):
        """Return the opening at which a lower point meets them, by trying all that it could meet.

        Those are at the same s and roughly at the same radius.
        """
        radius = np.hypot(point[0], point[2])
        keep = (self.s[0] <= point[1]) & (self.s[1] >= point[1])
        corners = self.corners[keep & (self.r[0] <= radius) & (self.r[1] >= radius)]
        return float(openings_at_touch(point[None], corners)[0]) if len(corners) else -np.inf


def a_place_to_plant(casts, base, views, tooth, rng):
    """Find a vertex of a lower tooth that comes nearest to the upper outside MI, and how near.

    views: number of pose and `Upper`, of MI and of some judged poses.
    """
    faces = casts.lower.mesh.faces[casts.lower.tooth_of_face == tooth]
    points = casts.lower.mesh.vertices[np.unique(faces)]
    points = points[points[:, 2] > np.median(points[:, 2])]
    best = None
    for point in points[rng.permutation(len(points))[:150]]:
        radius = np.hypot(point[0], point[2])
        gaps = [(base.opening_rad[n] - upper.touch(point)) * radius for n, upper in views]
        if not np.isfinite(gaps).all() or min(gaps[1:]) > 1.5:
            continue
        spare = gaps[0] - min(gaps[1:])
        if best is None or spare > best[1]:
            best = (point, spare, min(gaps[1:]))
        if best is not None and best[1] > 0.4:
            break
    return best


def with_spike(lower, tooth, foot, tip):
    """Add a needle from a foot to a tip to a tooth."""
    count = len(lower.mesh.vertices)
    ring = foot + 0.02 * np.array([[1, 0, -1], [-0.5, 0.8, -1], [-0.5, -0.8, -1]])
    faces = count + np.array([[0, 1, 3], [1, 2, 3], [2, 0, 3]])
    mesh = mesh_of(
        np.concatenate([lower.mesh.vertices, ring, tip[None]]),
        np.concatenate([lower.mesh.faces, faces]),
    )
    codes = np.concatenate([lower.tooth_of_face, np.full(3, tooth)])
    return dataclasses.replace(lower, mesh=mesh, tooth_of_face=codes)


def test_planted_interferences_are_found_with_their_height(casts):
    """A needle on a back tooth is found on that tooth, in that excursion, with its height.

    The height expected comes from a brute-force search for the needle's tip, and from closing
    without the tooth. At least 50 plants: tooth, excursion and height drawn from seed 7.
    """
    rng = np.random.default_rng(7)
    planted = 0
    for movement in MOVEMENTS:
        base = swept(casts, movement)
        seen = (0, *np.flatnonzero(judged(base, SETTINGS))[::3])
        views = [(n, Upper(casts, base.positions.pose_at_zero[n])) for n in seen]
        for tooth in (35, 36, 37, 45, 46, 47):  # first premolars meet canines
            place_found = a_place_to_plant(casts, base, views, tooth, rng)
            if place_found is None or place_found[1] < 0.16:
                continue
            foot, spare, gap = place_found
            for height in rng.uniform(0.03, min(spare - 0.1, 0.4), 5):
                tip = move_points(
                    opening_rotation(-(gap + height) / np.hypot(foot[0], foot[2])), foot[None]
                )[0]
                lower = with_spike(casts.lower, tooth, foot, tip)
                spiked = mount(
                    casts.upper, lower, prepare(casts.upper, lower), casts.guidance, casts.mi,
                    casts.incisal_point,
                )  # fmt: skip
                assert spiked.mi.opening_rad == casts.mi.opening_rad
                check_found(spiked, swept(spiked, movement), tooth, tip, height)
                planted += 1
    assert planted >= 50


def check_found(spiked, got, tooth, tip, height):
    """Demand the tooth among the interferences, with the height that brute force expects."""
    occlusion = Occlusion(spiked, SETTINGS)
    found = [item for item in interferences(occlusion, got) if tooth in (item.pair or ())]
    heights = [h for item in found for h in item.heights if h.tooth == tooth]
    assert heights, f"{tooth} with {height:.3f} mm in {got.excursion.name} was not found"
    highest = max(heights, key=lambda h: h.height_mm)
    n = int(np.abs(got.travel_mm - highest.travel_mm).argmin())
    position = place(
        spiked.guidance,
        got.positions.advance_right_mm[n : n + 1],
        got.positions.advance_left_mm[n : n + 1],
        got.positions.shift_mm[n : n + 1],
    )
    others = guided_closure(spiked, position, Workers(1), without(frozenset({tooth})))
    radius = np.hypot(tip[0], tip[2])
    upper = Upper(spiked, position.pose_at_zero[0])
    wanted = (upper.touch(tip) - others.opening_rad[0]) * radius
    assert highest.height_mm == pytest.approx(wanted, abs=0.002)
    assert is_right(tooth) == is_right(int(got.closures.tooth_lower[n]))


def test_teeth_touch_only_where_the_tolerance_says():
    """Lifted by 30 micrometres from MI, nothing touches at 20 micrometres and all do at 40."""
    casts = mounted_casts(small_case())
    lifted = casts.mi_pose @ opening_rotation(0.03 / 60.0)
    assert len(patches(casts.pair, lifted[None], 0.01).pose) == 0
    assert len(patches(casts.pair, casts.mi_pose[None], 0.01).pose) >= 16
