"""Room for the metal of rests: planted seats and needles, brute force and a second library."""

from importlib.util import find_spec
from types import SimpleNamespace

import numpy as np
import pytest
import trimesh

from kinematics.casts.casts import Arch
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, move_points, pose_of, rotation_about
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.rooms.opposing import FARTHEST_MM, Opposing, Poses
from kinematics.planning.rooms.rest_outlines import LEAST_BASE_MM, LENGTH_SHARES, outline_of
from kinematics.planning.rooms.rest_rooms import DEEPEST_MM, rest_rooms
from kinematics.planning.rooms.rest_surfaces import lowered, rest_surfaces
from kinematics.planning.rooms.seat_depth import UNCERTAIN_MM, outside_mm
from kinematics.planning.rooms.settings import RoomSettings
from tests.built_dentition import coarse
from tests.machine import need
from tests.planted_seats import (
    BACK_TEETH,
    distances_mm,
    facing,
    fine_arch,
    lifted,
    nearest_places,
    needle,
    rest_on,
    seated,
)

SETTINGS = RoomSettings()
OPPONENT = {True: 46, False: 16}


def planted(seed):
    """Return what a seed plants: tooth, place, depth of the seat, distance above its floor."""
    dice = np.random.default_rng(seed)
    code = int(dice.choice(BACK_TEETH))
    place = str(dice.choice(["mesial", "distal"]))
    return code, place, float(dice.uniform(0.9, 1.5)), float(dice.uniform(0.3, 2.5))


@pytest.mark.parametrize("seed", range(50))
def test_planted_room_is_found(seed):
    """How far, to which tooth, in which pose; how deep the seat is, and what would give room."""
    code, place, depth, gap = planted(seed)
    arch = seated(fine_arch(code), code, place, depth)
    crown, rest = crown_frame(arch, code), rest_on(fine_arch(code), code, place, depth)
    tip = np.array(rest.point) + (gap + 1.0) * crown.up
    other = needle(tip, crown.up, OPPONENT[code < 30])
    occlusion = facing(arch, other, code)
    poses = lifted([0.0, 0.4, -1.0, -0.5], crown.up, code)
    (room,) = rest_rooms(occlusion, (SimpleNamespace(name="base", rests=(rest,)),), poses, SETTINGS)
    least = room.least
    assert whole_crown(crown, outline_of(crown, rest), tip - crown.up, least.distance_mm)
    assert (least.opponent, least.excursion, least.travel_mm) == (other.codes[0], "protrusion", 2.0)
    assert room.in_mi.distance_mm > least.distance_mm
    assert min(part.along_axis_mm for part in room.parts) == pytest.approx(gap, abs=1e-9)
    assert room.depth.found
    assert room.depth.ridge_mm == pytest.approx(depth, abs=UNCERTAIN_MM)
    wanted = [limit for limit in (1.0, 1.5) if least.distance_mm < limit]
    assert [gain.wanted_mm for gain in room.gains] == wanted
    outline = outline_of(crown, rest)
    surfaces = rest_surfaces(crown, outline)
    for gain in room.gains:
        assert gain.off_opponent_mm == pytest.approx(gain.wanted_mm - least.distance_mm)
        tried = ((gain.deeper_mm, True), (gain.deeper_mm - 0.01, False))
        if np.isinf(gain.deeper_mm):  # between the walls of the seat no depth gives it
            tried = ((DEEPEST_MM, False),)
        for deeper, enough in tried:
            parts = lowered(crown, outline, surfaces, deeper).parts
            found = min(distances_mm(mesh, tip - crown.up).min() for _, mesh in parts)
            assert (found >= gain.wanted_mm - 1e-9) == enough


def whole_crown(crown, outline, tip, found_mm):
    """Tell whether a distance is that of the whole crown, or, where that lies outside, more."""
    axes = np.stack([crown.mesial, crown.facial, crown.up])
    apart, places = nearest_places(crown.surface, tip)
    nearest = np.argmin(apart)
    place = (places[nearest] - crown.tooth.centre) @ axes.T
    if outside_mm(outline, place[None, :2])[0] < 0.0:
        return abs(found_mm - apart[nearest]) < 1e-9
    seen = (places - crown.tooth.centre) @ axes.T
    own = apart[(outside_mm(outline, seen[:, :2]) < 0.0) & (seen[:, 2] > 0.0)]
    return apart[nearest] - 1e-9 <= found_mm <= own.min() + 1e-9


@pytest.mark.parametrize("code", BACK_TEETH)
def test_a_crown_without_a_seat_is_told_so(code):
    """Natural ridges are not seats, and the outline keeps to published sizes."""
    arch = fine_arch(code)
    crown = crown_frame(arch, code)
    away = needle(crown.tooth.centre + 30.0 * crown.up, crown.up, OPPONENT[code < 30])
    rests = tuple(rest_on(arch, code, place) for place in ("mesial", "distal"))
    frame = SimpleNamespace(name="base", rests=rests)
    poses = lifted([0.0], crown.up, code)
    for room in rest_rooms(facing(arch, away, code), (frame,), poses, SETTINGS):
        assert not room.depth.found
        assert (room.depth_mm, room.gains) == (0.0, ())
        assert room.least.distance_mm == np.inf
        assert room.width_mm >= LEAST_BASE_MM
        share = room.length_mm / np.ptp(crown.seen[:, 0])
        assert LENGTH_SHARES[0] - 1e-9 <= share <= LENGTH_SHARES[1] + 1e-9


def natural(workers=None, dice=None):
    """Return the plain dentition as it is measured, its triangles in an order drawn by dice."""
    arches = []
    for arch in (coarse().upper, coarse().lower):
        order = np.arange(len(arch.mesh.faces))
        if dice is not None:
            dice.shuffle(order)
        mesh = mesh_of(arch.mesh.vertices, arch.mesh.faces[order])
        arches.append(Arch(mesh, arch.tooth_of_face[order], arch.teeth))
    return facing(*arches, 16, workers)


def small_poses(count, seed=3):
    """Return poses of the lower near MI, in small even steps."""
    dice = np.random.default_rng(seed)
    axis = dice.normal(size=3)
    steps = np.linspace(0.0, 1.0, count)
    turns = rotation_about(axis / np.linalg.norm(axis), 0.02 * steps)
    way = np.array([1.5, 0.5, -0.6])
    return Poses(
        pose_of(turns, np.outer(steps, way)),
        ("", *("protrusion",) * (count - 1)),
        2.0 * steps,
    )


def framework(arches):
    """Return rests on teeth of both arches."""
    rests = [rest_on(arches.upper, code, place) for code, place in ((14, "mesial"), (26, "distal"))]
    rests += [rest_on(arches.lower, 36, "mesial"), rest_on(arches.lower, 33, "cingulum")]
    return (SimpleNamespace(name="both", rests=tuple(rests)),)


def test_distances_are_those_of_a_second_library():
    """Every part against the opposing arch in every pose, triangle by triangle, by python-fcl."""
    need(find_spec("fcl") is not None, "python-fcl (pip install -e '.[test]')")
    import fcl

    occlusion, poses = natural(), small_poses(5)
    casts = occlusion.casts

    def model(corners):
        made = fcl.BVHModel()
        made.beginModel(3 * len(corners), len(corners))
        made.addSubModel(corners.reshape(-1, 3).copy(), np.arange(3 * len(corners)).reshape(-1, 3))
        made.endModel()
        return fcl.CollisionObject(made, fcl.Transform())

    for upper, code in ((True, 14), (False, 36)):
        own, other = (casts.upper, casts.lower) if upper else (casts.lower, casts.upper)
        crown = crown_frame(own, code)
        rest = rest_on(own, code, "mesial")
        parts = [mesh for _, mesh in rest_surfaces(crown, outline_of(crown, rest)).parts]
        found, _ = Opposing(casts, upper, poses, Workers()).distances(parts)
        opposite = model(other.mesh.corners)
        for n, pose in enumerate(poses.hinge_from_lower):
            moved = pose if upper else inverse(pose)
            opposite.setTransform(fcl.Transform(moved[:3, :3], moved[:3, 3]))
            for k, part in enumerate(parts):
                apart = fcl.distance(model(part.corners), opposite)
                least = found[n, k].min()
                assert least == pytest.approx(max(apart, 0.0), abs=2e-6)


def test_least_of_all_poses_is_that_of_dense_ones():
    """No pose between comes nearer than the steps between poses allow."""
    few, many = small_poses(7), small_poses(61)
    occlusion = natural()
    coarse_rooms = rest_rooms(occlusion, framework(coarse()), few, SETTINGS)
    dense_rooms = rest_rooms(occlusion, framework(coarse()), many, SETTINGS)
    points = coarse().lower.mesh.vertices
    moved = move_points(few.hinge_from_lower, points)
    step = float(np.linalg.norm(np.diff(moved, axis=0), axis=2).max())
    for one, other in zip(coarse_rooms, dense_rooms, strict=True):
        for part, dense in zip(one.parts, other.parts, strict=True):
            assert dense.least.distance_mm <= part.least.distance_mm + 1e-12
            if np.isfinite(part.least.distance_mm):
                assert part.least.distance_mm - dense.least.distance_mm <= 0.5 * step
            assert part.in_mi == dense.in_mi
            if np.isfinite(part.along_axis_mm):
                assert part.along_axis_mm >= part.least.distance_mm - 1e-9


def test_order_of_triangles_and_threads_change_no_bit():
    """Everything told of a rest is the same."""
    poses = small_poses(3)
    dice = np.random.default_rng(5)
    plain = rest_rooms(natural(), framework(coarse()), poses, SETTINGS)
    for workers, order in ((Workers(2), None), (Workers(), dice)):
        for one, other in zip(
            plain,
            rest_rooms(natural(workers, order), framework(coarse()), poses, SETTINGS),
            strict=True,
        ):
            assert (one.parts, one.gains, one.depth) == (other.parts, other.gains, other.depth)
            assert np.array_equal(one.map.least_mm, other.map.least_mm)


def test_the_map_is_that_of_brute_force():
    """Every vertex of a crown: least distance over all poses, by a second library."""
    poses = small_poses(4)
    casts = natural().casts
    crown = crown_frame(casts.upper, 24)
    found = Opposing(casts, True, poses, Workers()).map_mm(crown.surface)
    chosen = np.arange(0, len(crown.surface.vertices), 40)
    least = np.full(len(chosen), np.inf)
    lower = trimesh.Trimesh(casts.lower.mesh.vertices, casts.lower.mesh.faces, process=False)
    for pose in poses.hinge_from_lower:
        seen = move_points(inverse(pose), crown.surface.vertices[chosen])
        least = np.minimum(least, trimesh.proximity.closest_point(lower, seen)[1])
    near = least < FARTHEST_MM
    assert near.any()
    assert found[chosen][near] == pytest.approx(least[near], abs=1e-9)
    assert np.isinf(found[chosen][~near]).all()
