"""Adjustments: depth against planted heights and a second library, stops kept, aims reached."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from scipy.spatial import ConvexHull

from kinematics.casts.casts import Arch
from kinematics.contact.pair import Pair, upper_tree
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.adjusting.adjusted_casts import adjusted_casts
from kinematics.planning.adjusting.outcome import outcome
from kinematics.planning.adjusting.planned import plan
from kinematics.planning.adjusting.protected_stops import may_come_off
from kinematics.planning.adjusting.settings import (
    FLAT_STOP,
    KEEPS_STOP,
    ONLY_GUIDE,
    OPENS_FOSSA,
    Adjustment,
)
from kinematics.planning.adjusting.wanted_paths import path_without
from kinematics.tooth_codes import opponent
from tests.adjusted_mouth import (
    BACK,
    fine_mouth,
    hump,
    moved,
    vertices_of,
    with_places,
    with_raised,
)

#: Depth agrees with what was planted, mm.
EXACT_MM = 0.005
#: How far off the balls' flat triangles a vertex may be that the envelope touches, mm.
TOUCHES_MM = 0.01
#: Falls forward and outward that bring a back tooth into the way of the front teeth.
STEEP = (0.42, 0.42)


@cache
def steep(code):
    """Return a mouth in which one back tooth guides in every excursion, moved."""
    return moved(fine_mouth({code: STEEP}))


@cache
def level():
    """Return a mouth in which no back tooth is in the way, moved."""
    return moved(fine_mouth())


def planned(mouth, casts=None, **asked):
    """Plan one adjustment of a mouth, or of other casts that move as it does."""
    occlusion = mouth.occlusion if casts is None else replace(mouth.occlusion, casts=casts)
    return plan(occlusion, mouth.sweeps, mouth.stops, Adjustment(**asked))


def clearing(code, margin_mm=0.0):
    """Return what has a tooth keep its stop and clear excursions."""
    return {
        "so_that": KEEPS_STOP,
        "teeth": (code,),
        "cut": "upper",
        "margin_mm": margin_mm,
        "deepest_mm": 2.0,
    }


@cache
def cleared(code):
    """Return casts whose tooth just touches the path of all others, and the cut that took."""
    mouth = steep(code)
    (cut,) = planned(mouth, **clearing(code)).cuts
    casts = mouth.occlusion.casts
    return with_places(casts, code, cut.surface.vertices, cut.surface.after.vertices), cut


@cache
def on_path(code):
    """Return which vertices of a cleared tooth lie on the path and may be raised, (k,)."""
    casts, cut = cleared(code)
    _, places = vertices_of(casts, code)
    free = may_come_off(casts, code, places, steep(code).stops) > 0.4
    found = np.flatnonzero((cut.surface.arc_mm > 0.02) & free)
    return found[np.abs(nearest(code, places[found]).min(axis=0)) < 3e-3]


def nearest(code, places):
    """Return how far places (k, 3) lie outside the ball of a tooth in every pose, (n, k), mm.

    By the half-spaces of another library's convex hull; negative inside.
    """
    mouth = steep(code)
    _, ball = vertices_of(mouth.occlusion.casts, opponent(code))
    planes = ConvexHull(ball).equations
    found = []
    for sweep in mouth.sweeps:
        path, _ = path_without(mouth.occlusion, sweep, frozenset({code}))
        for pose in path.poses:
            seen = move_points(inverse(pose), places)
            found.append((seen @ planes[:, :3].T + planes[:, 3]).max(axis=1))
    return np.array(found)


@pytest.mark.parametrize("code", [17, 15, 26])
def test_what_is_left_touches_the_path_and_nothing_stands_in_it(code):
    """By another library: vertices, edges and faces of a cut tooth clear the ball in all poses."""
    _, cut = cleared(code)
    after = cut.surface.after
    corners = after.corners
    middles = [
        corners.mean(axis=1),
        *(corners[:, [a, b]].mean(axis=1) for a, b in ((0, 1), (1, 2))),
    ]
    assert nearest(code, np.concatenate([after.vertices, *middles])).min() > -1e-3
    deep = cut.surface.arc_mm > 0.02
    gap = nearest(code, after.vertices[deep]).min(axis=0)
    assert deep.sum() > 20
    assert np.quantile(gap, 0.1) < TOUCHES_MM
    assert cut.surface.left_pose == -1


@pytest.mark.parametrize("seed", range(50))
def test_depth_is_the_height_of_a_planted_hump(seed):
    """A hump of known height in the path of an excursion comes off, to 5 micrometres."""
    random = np.random.default_rng(seed)
    code = BACK[seed % len(BACK)]
    casts, _ = cleared(code)
    _, places = vertices_of(casts, code)
    top = int(random.choice(on_path(code)))
    height, width = random.uniform(0.02, 0.3), random.uniform(0.3, 0.6)
    high = hump(places, places[top], height, width)
    high[may_come_off(casts, code, places, steep(code).stops) < 2.0 * high] = 0.0
    found = planned(steep(code), with_raised(casts, code, high), **clearing(code))
    (cut,) = found.cuts
    assert cut.deepest_mm == pytest.approx(height, abs=EXACT_MM)
    assert cut.surface.arc_mm[top] == pytest.approx(height, abs=EXACT_MM)
    assert not found.hinders


@pytest.mark.parametrize("seed", range(50))
def test_depth_is_the_height_of_a_planted_over_eruption(seed):
    """A tooth that stands too high in MI is cut by as much, in the fossa or on the cusp."""
    random = np.random.default_rng(100 + seed)
    mouth, code = level(), BACK[seed % len(BACK)]
    whose = ("upper", "lower")[seed // len(BACK) % 2]
    raised = code if random.integers(2) else opponent(code)
    casts, height = mouth.occlusion.casts, random.uniform(0.01, 0.4)
    numbers, _ = vertices_of(casts, raised)
    casts = with_raised(casts, raised, np.full(len(numbers), height))
    (cut,) = planned(mouth, casts, so_that=OPENS_FOSSA, teeth=(raised,), cut=whose).cuts
    assert cut.tooth == (code if whose == "upper" else opponent(code))
    assert cut.deepest_mm == pytest.approx(height, abs=EXACT_MM)
    assert cut.height_mm == pytest.approx(height, abs=EXACT_MM)


@pytest.mark.parametrize("code", BACK)
def test_a_tooth_keeps_its_stop_and_clears_excursions(code):
    """Moved again the contact is gone, every stop is there, and no contact is new."""
    mouth = steep(code)
    asked = Adjustment(**clearing(code, 0.05))
    done = plan(mouth.occlusion, mouth.sweeps, mouth.stops, asked)
    after = moved(adjusted_casts(mouth.occlusion.casts, done.cuts))
    found = outcome(mouth, after, asked)
    assert found.is_reached, (done.hinders, found)
    assert (found.stops_lost, found.still_there) == ((), ())
    assert found.closes_mm == pytest.approx(0.0, abs=1e-6)
    before = outcome(mouth, mouth, asked)
    assert {(one.tooth_upper, one.tooth_lower) for one in before.still_there} == {
        (code, opponent(code))
    }


def test_only_the_wanted_teeth_guide_and_new_contacts_are_listed():
    """With the steep tooth out of the way front teeth touch that did not."""
    mouth = steep(17)
    asked = Adjustment(ONLY_GUIDE, (13, 11, 21, 23), excursions=("right lateral",), cut="upper")
    done = plan(mouth.occlusion, mouth.sweeps, mouth.stops, asked)
    assert [cut.tooth for cut in done.cuts] == [17]
    assert [cut.excursion for cut in done.cuts] == ["right lateral"]
    found = outcome(mouth, moved(adjusted_casts(mouth.occlusion.casts, done.cuts)), asked)
    assert found.is_reached
    new = {(one.tooth_upper, one.tooth_lower, one.excursion) for one in found.new_contacts}
    assert (13, 43, "right lateral") in new


def test_an_opened_fossa_lets_the_jaw_close_to_all_stops():
    """A tooth 0.2 mm too high holds all others open; cut in the fossa, all of them meet again."""
    mouth = moved(fine_mouth(clearances={46: -0.2}))
    assert [stop.tooth_lower for stop in mouth.stops] == [46]
    asked = Adjustment(OPENS_FOSSA, (46,), cut="upper")
    done = plan(mouth.occlusion, mouth.sweeps, mouth.stops, asked)
    found = outcome(mouth, moved(adjusted_casts(mouth.occlusion.casts, done.cuts)), asked)
    assert [cut.tooth for cut in done.cuts] == [16]
    assert found.is_reached
    assert found.stops_kept == ((16, 46),)
    assert len(found.stops_new) == len(level().stops) - 1
    assert found.closes_mm > 0.2


@pytest.mark.parametrize("code", [16, 46])
def test_a_hump_becomes_a_flat_stop(code):
    """What is cut lies in one plane square to the closing arc, as wide as asked."""
    mouth = level()
    casts = mouth.occlusion.casts
    _, places = vertices_of(casts, code)
    top = next(stop for stop in mouth.stops if code in (stop.tooth_upper, stop.tooth_lower)).point
    if code == 46:
        top = move_points(inverse(casts.mi_pose), np.array(top)[None])[0]
    casts = with_raised(casts, code, hump(places, np.array(top), 0.25, 1.2))
    whose = "upper" if code < 30 else "lower"
    found = planned(mouth, casts, so_that=FLAT_STOP, teeth=(code,), cut=whose, width_mm=0.8)
    (cut,) = found.cuts
    assert cut.flat_mm == pytest.approx(0.8, abs=0.15)
    after = cut.surface.after.vertices[cut.surface.arc_mm > 0.02]
    after = after[np.linalg.norm((after - top)[:, :2], axis=1) < 0.3]
    assert len(after) > 3
    normal = np.linalg.svd(after - after.mean(axis=0))[2][2]
    assert np.abs((after - after.mean(axis=0)) @ normal).max() < 0.003
    assert cut.deepest_mm == pytest.approx(0.25, abs=EXACT_MM)


def test_what_cannot_be_reached_says_why():
    """Too shallow a limit, teeth that never guide, and teeth that are not high are told."""
    shallow = planned(steep(16), so_that=KEEPS_STOP, teeth=(16,), cut="upper", deepest_mm=0.02)
    assert any("no cut is to be deeper than deepest_mm = 0.02" in why for why in shallow.hinders)
    none = planned(level(), so_that=OPENS_FOSSA, teeth=(16,))
    assert none.cuts == ()
    assert none.hinders == ("none of these teeth is high in MI: others meet at least as early",)


def test_the_same_bits_for_threads_and_any_order_of_triangles():
    """Depths, volume and area do not depend on either."""
    mouth, code = steep(26), 26
    casts = mouth.occlusion.casts
    order = np.random.default_rng(3).permutation(len(casts.upper.mesh.faces))
    mesh = mesh_of(casts.upper.mesh.vertices, casts.upper.mesh.faces[order])
    upper = Arch(mesh, casts.upper.tooth_of_face[order], casts.upper.teeth)
    shuffled = replace(casts, upper=upper, pair=Pair(upper_tree(upper), casts.pair.lower))
    occlusion = replace(mouth.occlusion, casts=shuffled, workers=Workers(2))
    asked = Adjustment(**clearing(code, 0.05))
    (one,) = plan(mouth.occlusion, mouth.sweeps, mouth.stops, asked).cuts
    (other,) = plan(occlusion, mouth.sweeps, mouth.stops, asked).cuts
    np.testing.assert_array_equal(one.surface.arc_mm, other.surface.arc_mm)
    assert (one.surface.volume_mm3, one.surface.area_mm2) == (
        other.surface.volume_mm3,
        other.surface.area_mm2,
    )
    np.testing.assert_array_equal(one.square_mm, other.square_mm)
