"""Who carries the closing force adds up to it; what is unlikely is warned of where it stands."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.geometry.poses import move_points
from kinematics.load.settings import LoadSettings
from kinematics.planning.base_loads import excursion_loads
from kinematics.planning.closing_shares import LEAST_PULL_N, closing_shares, overloads
from kinematics.planning.load_model import force_place
from kinematics.planning.load_readings import largest_load
from scenes.load_figures import overload_words, share_rows
from tests.loaded_cases import loads_of, planted, ready, some_poses

UPPER = "upper_distal_extension"


@pytest.mark.parametrize("name", [UPPER, "bridge"])
def test_what_all_carry_adds_up_to_the_closing_force(name):
    """In every pose: along it 100 N, across it nothing, and the table says so with its rows."""
    here = ready(name)
    loads = excursion_loads(here.occlusion, here.case.load, here.frames, here.sweeps[1])
    as_is, way = loads.as_is, loads.as_is.closing_n / 100.0
    for pose in range(len(as_is.travel_mm)):
        shares = closing_shares(as_is, pose)
        assert sum(one.against_closing_n for one in shares) == pytest.approx(100.0, abs=1e-6)
        assert all(one.size_n >= abs(one.against_closing_n) - 1e-9 for one in shares)
        whole = as_is.joints_n[pose].sum(axis=0)
        whole = whole + as_is.contacts.force_n[as_is.contacts.pose == pose].sum(axis=0)
        np.testing.assert_allclose(whole, 100.0 * way, atol=1e-6)
    largest = largest_load(loads, 0)
    rows = list(share_rows(largest.shares, as_is.frames[0].teeth, as_is.frames[0].kind))
    parts = [float(row[1].split()[0].replace("−", "-")) for row in rows]
    assert rows[-1][:2] == ("in all", "100 N")
    assert sum(parts[:-1]) == pytest.approx(100.0, abs=0.5 * len(rows))
    assert sum("condyle" in row[0] for row in rows) == 2


def test_two_condyles_push_as_their_parts_say():
    """The force of a condyle is as large as its parts against, sideways and along."""
    here = ready(UPPER)
    loads = loads_of(here, 1, some_poses(here, 1, [0.0, 1.0, 2.0]))
    np.testing.assert_allclose(
        np.linalg.norm(loads.joints_n, axis=2), np.linalg.norm(loads.condyles_n, axis=2), atol=1e-9
    )
    np.testing.assert_allclose(loads.joints_n[..., 1], loads.condyles_n[..., 1], atol=1e-6)


@pytest.mark.parametrize("seed", range(60))
def test_a_force_ahead_of_all_that_meets_is_warned_of(seed):
    """One contact in the midline, whose force follows from the moment about the condyles alone.

    It is more than 100 N where the closing force has the longer lever; what is left for the joints
    then draws. Warnings stand exactly where that is so.
    """
    rng = np.random.default_rng(seed)
    here = ready(UPPER)
    poses = some_poses(here, 0, [float(rng.uniform(0.0, 2.0))])
    settings = LoadSettings(
        force_forward_mm=float(rng.uniform(20.0, 100.0)), force_tilt_deg=float(rng.uniform(0, 20))
    )
    back = rng.uniform(0.1, 0.9)
    push = np.array([-np.sin(back), 0.0, np.cos(back)])
    place = np.array([rng.uniform(30.0, 90.0), 0.0, rng.uniform(-40.0, -30.0)])
    loads = loads_of(here, 0, planted(poses, [(11, 41, place, push)]), settings)
    if not loads.balanced[0]:
        assert overloads(loads, 0) == () == closing_shares(loads, 0)
        return
    closing = loads.closing_n
    at = move_points(poses.poses[0], force_place(here.occlusion, settings)[None])[0]
    joint = poses.poses[0][:3, 3]  # both condyle centres lie level with it
    size = np.cross(at - joint, closing)[1] / np.cross(place - joint, push)[1]
    draws = size * push @ closing / 100.0 - 100.0
    found = overloads(loads, 0)
    teeth = [one for one in found if one.kind == "tooth"]
    assert bool(teeth) == (size > 100.0)
    if teeth:
        (both,) = teeth
        assert both.teeth == (11, 41) and both.force_n == pytest.approx(size, rel=1e-6)
        assert overload_words(both).startswith("11 and 41 bear ")
    sides = [one.side for one in found if one.kind == "condyle"]
    joints = {one.place: one.against_closing_n for one in closing_shares(loads, 0)[1:]}
    assert sum(joints.values()) == pytest.approx(-draws, abs=1e-6)
    assert sides == [
        side for side in ("right", "left") if joints[f"{side} condyle"] < -LEAST_PULL_N
    ]


@pytest.mark.parametrize("seed", range(60))
def test_planted_forces_are_warned_of_exactly_beyond_their_bounds(seed):
    """Forces of one pose written over: the tooth that gets too much, the joint that draws."""
    rng = np.random.default_rng(seed)
    here = ready(UPPER)
    loads = loads_of(here, 2, some_poses(here, 2, [1.0]))
    count = len(loads.contacts.pose)
    forces = rng.uniform(0.0, 8.0, (count, 1)) * loads.closing_n / 100.0
    row = int(rng.integers(count))
    much = float(rng.uniform(0.9, 1.1)) * 100.0
    same = loads.contacts.tooth_upper == loads.contacts.tooth_upper[row]
    forces[same] = 0.0
    forces[row] = much * np.array([0.6, 0.0, 0.8])
    drawn = rng.uniform(-2.0, 2.0, 2) * LEAST_PULL_N
    made = replace(
        loads,
        contacts=replace(loads.contacts, force_n=forces),
        joints_n=drawn[None, :, None] * loads.closing_n / 100.0,
    )
    lower = int(loads.contacts.tooth_lower[row])
    on_lower = np.linalg.norm(forces[loads.contacts.tooth_lower == lower].sum(axis=0))
    found = overloads(made, 0)
    told = {code for one in found if one.kind == "tooth" for code in one.teeth}
    upper = int(loads.contacts.tooth_upper[row])
    assert told == ({upper} if much > 100.0 else set()) | ({lower} if on_lower > 100.0 else set())
    sides = {one.side for one in found if one.kind == "condyle"}
    wanted = zip(("right", "left"), drawn, strict=True)
    assert sides == {side for side, pull in wanted if pull < -LEAST_PULL_N}
