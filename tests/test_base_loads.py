"""What replacement teeth carry: balance, symmetry, turning about the fulcrum line, escape."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.contact.sweep import GUIDED_BY_TABLE
from kinematics.geometry.poses import move_points
from kinematics.load.settings import LoadSettings
from kinematics.planning.base_loads import excursion_loads, variants
from kinematics.planning.load_readings import across_abutments, base_load, largest_load
from kinematics.planning.occlusion import centre_of, root_direction
from tests.loaded_cases import loads_of, planted, ready, some_poses

UPPER, SYMMETRIC = "upper_distal_extension", "two bases"
MIRROR = np.array([1.0, -1.0, 1.0])


def slanted(rng):
    """Return a random unit vector within 40 degrees of straight up."""
    tilt, turn = np.radians(rng.uniform(0.0, 40.0)), rng.uniform(0.0, 2.0 * np.pi)
    return np.array([np.sin(tilt) * np.cos(turn), np.sin(tilt) * np.sin(turn), np.cos(tilt)])


def canine_contact(here, pose, side=1):
    """Return a contact of canines on one side, pushing up and towards the middle."""
    upper, lower = (13, 43) if side == 1 else (23, 33)
    place = move_points(pose, np.asarray(here.occlusion.tooth(lower).cusp_tips["tip"])[None])[0]
    return upper, lower, place, np.array([-0.3, 0.3 * side, 0.905539]) / 1.0


def test_supports_balance_the_closing_force_in_every_pose():
    """Force and moment left are below a billionth of the load, also over the ranges."""
    here = ready(UPPER)
    loads = excursion_loads(here.occlusion, here.case.load, here.frames, here.sweeps[2])
    assert loads.as_is.balanced.all() and loads.as_is.left.max() < 1e-9
    assert loads.as_is.frames[0].balanced.all()
    assert len(variants(here.case.load)) == loads.as_is.frames[0].figures.shape[0] == 5
    # In left lateral 15 touches the over-erupted 46 alone on its side, and carries it.
    largest = largest_load(loads, 0)
    told, tooth = largest.as_is, max(largest.as_is.teeth, key=lambda one: one.across_n)
    assert tooth.tooth == 15 and tooth.across_n > 10.0
    assert told.least["across_n"] <= told.figures["across_n"] <= told.greatest["across_n"]
    # With the guidance taken off, nothing touches the base, and its abutments get far less.
    assert loads.taken_off is not None
    assert not loads.taken_off.frames[0].of("across_n")[0].any()
    assert dict(largest.taken_off)[14] < 0.5 * dict(largest.with_guidance)[14]


@pytest.mark.parametrize("seed", range(60))
def test_a_planted_contact_loads_its_tooth_and_turns_the_base_by_its_arm(seed):
    """Along, across, lever and turning follow from force and place by vector algebra alone."""
    rng = np.random.default_rng(seed)
    here = ready(UPPER)
    number = int(rng.integers(3))
    poses = some_poses(here, number, [float(rng.uniform(0.6, 2.5))])
    pose = poses.poses[0]
    tooth = (15, 16, 17)[seed % 3]
    place = centre_of(here.occlusion, tooth, pose) + rng.uniform(-3.0, 3.0, 3)
    contacts = [
        (tooth, 46, place, slanted(rng)),
        canine_contact(here, pose, -1),
    ]
    loads = loads_of(here, number, planted(poses, contacts))
    assert loads.balanced[0] and loads.left[0] < 1e-9
    told = base_load(loads, loads.frames[0], 0)
    (only,) = told.teeth
    force = np.array(only.force_n)
    assert only.tooth == tooth
    assert np.allclose(np.cross(force, contacts[0][3]), 0.0, atol=1e-9) and force @ force > 0.0
    root = root_direction(here.occlusion, tooth, pose)
    assert only.along_n == pytest.approx(force @ root, abs=1e-9)
    assert np.hypot(only.along_n, only.across_n) == pytest.approx(np.linalg.norm(force))
    line = here.frames[0].fulcrum
    right, left = np.array(line.right), np.array(line.left)
    axis = (left - right) / np.linalg.norm(left - right)
    moment = np.cross(place - right, force) @ axis
    assert abs(told.figures["about_fulcrum_nmm"]) == pytest.approx(abs(moment), rel=1e-9)
    centres = [centre_of(here.occlusion, code, pose)[:2] for code in here.frames[0].held_by]
    nearest = min(np.linalg.norm(centre - place[:2]) for centre in centres)
    assert only.lever_mm == pytest.approx(nearest, rel=1e-9)


def test_a_contact_farther_back_turns_about_the_fulcrum_line_in_proportion():
    """A vertical push: turning for each newton is its distance from the line, seen from above."""
    here = ready(UPPER)
    poses = some_poses(here, 1, [1.0])
    pose, line = poses.poses[0], here.frames[0].fulcrum
    right, left = np.array(line.right), np.array(line.left)
    flat = np.append((left - right)[:2] / np.linalg.norm((left - right)[:2]), 0.0)
    turned = []
    for back in np.linspace(0.0, 12.0, 7):
        place = centre_of(here.occlusion, 16, pose) - [back, 0.0, 0.0]
        up = (16, 46, place, np.array([0.0, 0.0, 1.0]))
        loads = loads_of(here, 1, planted(poses, [up, canine_contact(here, pose, -1)]))
        told = base_load(loads, loads.frames[0], 0)
        away = abs(np.cross(flat, place - right)[2])
        cos = np.linalg.norm((left - right)[:2]) / np.linalg.norm(left - right)
        turned.append(told.figures["about_fulcrum_nmm"] / told.figures["along_n"])
        push = np.linalg.norm(told.teeth[0].force_n)
        assert told.figures["about_fulcrum_nmm"] == pytest.approx(push * away * cos, rel=1e-9)
    assert (np.diff(turned) > 0.0).all()


def test_symmetric_cases_are_loaded_symmetrically():
    """Right and left lateral excursions of a symmetric case load mirrored teeth alike."""
    here = ready(SYMMETRIC)
    both = [loads_of(here, n, some_poses(here, n, [0.0, 0.5, 1.0, 2.0])) for n in (1, 2)]
    for one, other in zip(both[0].frames, both[1].frames, strict=True):
        swapped = [one.teeth.index(code) for code in map(mirrored, other.teeth)]
        assert one.balanced.all() and other.balanced.all()
        assert np.allclose(one.teeth_n[:, :, swapped] * MIRROR, other.teeth_n, atol=2e-4 * 100.0)
    ahead = loads_of(here, 0, some_poses(here, 0, [0.0, 0.5]))
    for frame in ahead.frames:
        swapped = [frame.teeth.index(code) for code in map(mirrored, frame.teeth)]
        assert np.allclose(frame.teeth_n[:, :, swapped] * MIRROR, frame.teeth_n, atol=0.02)
        assert np.abs(frame.teeth_n).max() > 1.0


def mirrored(code):
    """Return the tooth of the other side."""
    quadrant, number = divmod(code, 10)
    return {1: 2, 2: 1, 3: 4, 4: 3}[quadrant] * 10 + number


def test_forces_do_not_depend_on_threads_or_on_who_is_asked_with_whom():
    """A pose alone and among others, and an excursion with and without range, give the same."""
    here = ready(UPPER)
    together = loads_of(here, 2, some_poses(here, 2, [1.0, 1.5, 2.0]), ranged=True)
    alone = loads_of(here, 2, some_poses(here, 2, [1.5]))
    assert np.allclose(alone.frames[0].figures[0, 0], together.frames[0].figures[0, 1], atol=1e-6)


def test_softer_mucosa_lets_the_base_sink_and_turn_more():
    """Sinking rises with the mucosa ratio (check of sign; textbooks)."""
    here = ready(UPPER)
    poses = some_poses(here, 2, [2.0])
    sunk = []
    for ratio in (4.0, 8.0, 12.0, 20.0):
        loads = loads_of(here, 2, poses, replace(here.case.load, mucosa_ratio=ratio))
        sunk.append(float(loads.frames[0].of("sinking_mm")[0, 0]))
    assert sunk == sorted(sunk) and sunk[0] > 0.0


def test_a_force_that_nothing_balances_is_told_with_what_gives_way():
    """A closing force far outside all contacts turns the jaw over the nearest ones."""
    here = ready(UPPER)
    poses = some_poses(here, 1, [1.0])
    only = planted(poses, [canine_contact(here, poses.poses[0], -1)])
    aside = LoadSettings(force_side_mm=-40.0, force_forward_mm=100.0)
    loads = loads_of(here, 1, only, aside)
    assert not loads.balanced[0] and "the jaw" in loads.escape[0]
    assert not loads.frames[0].figures[0].any() and not loads.unique[0]
    told = base_load(loads, loads.frames[0], 0)
    assert told.status == "no equilibrium" and not told.always_balanced


def test_friction_leans_the_force_against_the_movement():
    """With friction the force on a tooth leans along the movement by its coefficient at most."""
    here = ready(UPPER)
    rubbing = replace(
        here.occlusion, settings=replace(here.occlusion.settings, friction_coefficient=0.1)
    )
    poses = some_poses(here, 2, [2.0])
    smooth = loads_of(here, 2, poses)
    rough = loads_of(replace(here, occlusion=rubbing), 2, poses)
    assert rough.balanced[0] and rough.left[0] < 1e-9 and not rough.unique[0]
    assert smooth.contacts.tooth_upper.tolist() == rough.contacts.tooth_upper.tolist()
    one, other = smooth.contacts.force_n, rough.contacts.force_n
    cos = (one * other).sum(axis=1) / np.linalg.norm(one, axis=1) / np.linalg.norm(other, axis=1)
    assert np.allclose(np.tan(np.arccos(cos)), 0.1, atol=1e-6)


def test_figures_are_told_for_100_newtons():
    """Twice the closing force in one phase gives the same figures, but sinks twice as far."""
    here = ready(UPPER)
    poses = some_poses(here, 2, [2.0])
    contacts = [
        (15, 46, centre_of(here.occlusion, 15, poses.poses[0]), np.array([0.0, 0.0, 1.0])),
        canine_contact(here, poses.poses[0], -1),
    ]
    made = planted(poses, contacts)
    linear = replace(here.case.load, two_phase=False)
    one = loads_of(here, 2, made, linear).frames[0]
    two = loads_of(here, 2, made, replace(linear, closing_force_n=200.0)).frames[0]
    assert np.allclose(one.figures[0, 0, :6], two.figures[0, 0, :6], atol=1e-6)
    assert two.of("sinking_mm")[0, 0] == pytest.approx(2.0 * one.of("sinking_mm")[0, 0])


@pytest.mark.parametrize("seed", range(20))
def test_abutments_of_a_bridge_bear_all_that_a_pontic_gets(seed):
    """The pushes on both roots together are the push on the pontic."""
    rng = np.random.default_rng(seed)
    here = ready("bridge")
    poses = some_poses(here, 1, [1.0])
    pose = poses.poses[0]
    place = centre_of(here.occlusion, 45, pose)
    contacts = [(15, 45, place, slanted(rng)), canine_contact(here, pose, -1)]
    loads = loads_of(here, 1, planted(poses, contacts))
    frame, _ = loads.frames
    told = base_load(loads, frame, 0)
    assert frame.framework == "bridge 'lower right'" and not told.has_fulcrum
    assert [tooth.tooth for tooth in told.teeth] == [45]
    given = np.sum([one.force_n for one in told.abutments], axis=0)
    assert np.allclose(given, told.teeth[0].force_n, atol=1e-7)
    for tooth, across in across_abutments(frame, 0)[0]:
        (one,) = [one for one in told.abutments if one.tooth == tooth]
        assert across == pytest.approx(one.across_n)
    assert told.figures["mucosa_n"] == told.figures["about_crest_nmm"] == 0.0


def test_the_push_along_the_arch_follows_the_lean_of_the_force():
    """Leaning forward pushes upper teeth forward, leaning back pushes them back.

    Sign only: published models give the tilt as about 0 to 20 degrees forward (textbooks, from
    memory), and bites on upper front teeth push up and forward (Hylander 1978).
    """
    here = ready(SYMMETRIC)
    poses = some_poses(here, 0, [0.0])
    pushes = []
    for tilt in (-30.0, -20.0, 0.0, 10.0, 20.0):
        loads = loads_of(here, 0, poses, replace(here.case.load, force_tilt_deg=tilt))
        pushes.append(float(loads.contacts.force_n[:, 0].sum()))
    assert pushes == sorted(pushes) and pushes[0] < 0.0 < pushes[-1]


@pytest.mark.parametrize("side_mm", [5.0, 15.0, 25.0])
def test_either_joint_may_be_the_heavier_one(side_mm):
    """A force on the left loads the left joint more, and the mirrored one the right as much.

    That neither joint is always the heavier: Ferrario & Sforza, J Prosthet Dent 1994.
    """
    here = ready(SYMMETRIC)
    poses = some_poses(here, 0, [0.0])
    carried = []
    for side in (side_mm, -side_mm):
        loads = loads_of(here, 0, poses, replace(here.case.load, force_side_mm=side))
        carried.append(loads.condyles_n[0, :, 0])
    right, left = carried[0]
    assert left > right >= 0.0
    assert np.allclose(carried[1][::-1], carried[0], atol=0.05)


def test_an_abutment_of_a_bridge_that_is_pushed_itself_is_counted_once():
    """What an opponent pushes on the crown of an abutment is borne by both roots, and no more."""
    here = ready("bridge")
    poses = some_poses(here, 1, [1.0])
    place = centre_of(here.occlusion, 44, poses.poses[0])
    contacts = [
        (14, 44, place, np.array([0.3, 0.3, 0.905539])),
        canine_contact(here, poses.poses[0], -1),
    ]
    loads = loads_of(here, 1, planted(poses, contacts))
    frame, _ = loads.frames
    told = base_load(loads, frame, 0)
    push = -loads.contacts.force_n[loads.contacts.tooth_lower == 44].sum(axis=0)
    given = np.sum([one.force_n for one in told.abutments], axis=0)
    assert np.allclose(given, push, atol=1e-7) and not told.teeth
    across = dict(across_abutments(frame, 0)[0])
    assert across == pytest.approx({one.tooth: one.across_n for one in told.abutments})


def test_turning_counts_each_contact_where_it_is():
    """Two contacts on one tooth turn the base by the sum of their own moments."""
    here = ready(UPPER)
    poses = some_poses(here, 1, [1.0])
    pose, line = poses.poses[0], here.frames[0].fulcrum
    middle = centre_of(here.occlusion, 16, pose)
    rng = np.random.default_rng(3)
    contacts = [(16, 46, middle + rng.uniform(-4.0, 4.0, 3), slanted(rng)) for _ in range(3)]
    loads = loads_of(here, 1, planted(poses, [*contacts, canine_contact(here, pose, -1)]))
    own = loads.contacts.tooth_upper == 16
    assert own.sum() > 1
    right, left = np.array(line.right), np.array(line.left)
    arms = loads.contacts.place[own] - right
    moment = np.cross(arms, loads.contacts.force_n[own]).sum(axis=0)
    about = moment @ (left - right) / np.linalg.norm(left - right)
    told = base_load(loads, loads.frames[0], 0)
    assert abs(told.figures["about_fulcrum_nmm"]) == pytest.approx(abs(about), rel=1e-9)


def test_no_pose_that_teeth_guide_gives_no_load():
    """Where a guide table carries the jaw all the way there is nothing to weigh."""
    here = ready(UPPER)
    sweep = here.sweeps[0]
    held = replace(sweep, guide=np.full(len(sweep.travel_mm), GUIDED_BY_TABLE))
    loads = excursion_loads(here.occlusion, here.case.load, here.frames, held)
    assert len(loads.as_is.travel_mm) == 0 and loads.taken_off is None
    assert largest_load(loads, 0) is None


def test_ranges_reach_as_far_as_what_is_set():
    """A mucosa softer than the range widens it."""
    soft = LoadSettings(mucosa_ratio=30.0, force_tilt_deg=-5.0)
    assert soft.ranges == ((-5.0, 20.0), (4.0, 30.0))
    assert {tilt for tilt, _ in variants(soft)} == {-5.0, 20.0}
