"""Teeth stand in MI whatever guides the jaw, and their trees move with them."""

import dataclasses
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_mi import MaximalIntercuspation
from kinematics.contact.closure import close
from kinematics.contact.contacts import patches
from kinematics.contact.pair import Pair, lower_tree
from kinematics.guidance.excursions import along, left_lateral, protrusion
from kinematics.guidance.mandible import opened, place
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.mounting import mounted_casts, remounted, same_teeth, teeth_for
from kinematics.planning.stops import centric_stops
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.generated_path_settings import GeneratedPath

COARSE = DentitionSettings(triangles_per_arch=12_000)
AHEAD = Case(dentition=COARSE)
SHIFTED = Case(
    dentition=COARSE,
    guidance=GuidanceSettings(left=SideGuidance(immediate_shift_mm=0.5)),
    maximal_intercuspation=MaximalIntercuspation(0.2, 0.6, -0.4),
)
#: MI holds on another path as well as on its own.
STILL_RAD = 2e-6


def guided(case, distance_mm=104.0, **changes):
    """Return a case with both sides of its guidance changed."""
    sides = {name: replace(getattr(case.guidance, name), **changes) for name in ("right", "left")}
    guidance = replace(case.guidance, intercondylar_distance_mm=distance_mm, **sides)
    return replace(case, guidance=guidance)


@pytest.fixture(scope="module", params=["ahead", "shifted"])
def built(request):
    """Return a case whose MI lies away from CR, and its teeth."""
    case = {"ahead": AHEAD, "shifted": SHIFTED}[request.param]
    return case, teeth_for(case, lambda _: None)


@pytest.mark.parametrize(
    ("distance_mm", "changes"),
    [
        (104.0, {"condylar_inclination_deg": 0.0}),
        (104.0, {"condylar_inclination_deg": 60.0}),
        (90.0, {"condylar_inclination_deg": 25.0, "progressive_shift_deg": 20.0}),
        (130.0, {"path": "curved"}),
    ],
)
def test_all_stops_of_mi_hold_on_any_guidance(built, distance_mm, changes):
    """The teeth keep their place in MI to rounding, meet there, and have the same stops."""
    case, teeth = built
    nominal, other = remounted(teeth, case), guided(case, distance_mm, **changes)
    casts = remounted(teeth, other)
    assert abs(casts.mi.opening_rad) < STILL_RAD
    first, second = (
        centric_stops(patches(c.pair, c.mi_pose[None], case.judging.tolerance_mm), case.judging)
        for c in (nominal, casts)
    )
    assert [(s.tooth_upper, s.tooth_lower) for s in first] == [
        (s.tooth_upper, s.tooth_lower) for s in second
    ]
    assert np.allclose([s.point for s in first], [s.point for s in second], atol=1e-3)


def test_teeth_of_a_case_on_default_guidance_stand_as_they_were_built():
    """Nothing is moved there: the same arrays are mounted."""
    teeth = teeth_for(AHEAD, lambda _: None)
    casts = remounted(teeth, AHEAD)
    assert casts.lower is teeth.lower
    assert casts.pair is teeth.pair


def test_what_has_not_moved_is_taken_over(built):
    """A change that leaves the condyles where MI has them takes the casts before as they are."""
    case, teeth = built
    before = remounted(teeth, guided(case, condylar_inclination_deg=50.0))
    longer = guided(case, condylar_inclination_deg=50.0, path_length_mm=11.0)
    casts = remounted(teeth, longer, (before,))
    assert casts.pair is before.pair
    assert casts.mi == remounted(teeth, longer).mi


def test_a_moved_tree_finds_what_a_new_one_finds(built):
    """First contacts are the same bits, areas the same to 1e-9 of a square millimetre."""
    case, teeth = built
    casts = remounted(teeth, guided(case, condylar_inclination_deg=55.0))
    fresh = Pair(casts.pair.upper, lower_tree(casts.lower))
    for excursion in (protrusion(), left_lateral()):
        course = along(casts.guidance, excursion, casts.mi, np.linspace(0.0, 4.0, 20))
        positions = place(casts.guidance, *course)
        moved, new = (close(pair, positions.pose_at_zero) for pair in (casts.pair, fresh))
        for item in dataclasses.fields(moved):
            assert np.array_equal(getattr(moved, item.name), getattr(new, item.name)), item.name
        poses = opened(positions, moved.opening_rad)
        marks, marks_new = (patches(pair, poses, 0.02) for pair in (casts.pair, fresh))
        assert np.array_equal(marks.pose, marks_new.pose)
        assert np.abs(marks.area_mm2 - marks_new.area_mm2).max() < 1e-9


def test_which_settings_leave_the_teeth():
    """Guidance does, but for teeth that it forms; the dentition and MI do not."""
    steep = guided(AHEAD, condylar_inclination_deg=50.0)
    assert same_teeth(AHEAD, steep)
    formed = GeneratedPath(teeth=(14, 15), contacts=("working",))
    assert same_teeth(replace(AHEAD, generated_path=formed), replace(AHEAD, generated_path=formed))
    assert not same_teeth(
        replace(AHEAD, generated_path=formed), replace(steep, generated_path=formed)
    )
    assert not same_teeth(AHEAD, replace(AHEAD, dentition=replace(COARSE, overbite_mm=1.5)))
    assert not same_teeth(
        AHEAD, replace(AHEAD, maximal_intercuspation=MaximalIntercuspation(0.0, 0.0))
    )


def test_teeth_made_anew_are_the_same():
    """Mounting once is the same bits as building and mounting on the other guidance."""
    steep = guided(AHEAD, condylar_inclination_deg=50.0)
    casts, again = remounted(teeth_for(AHEAD, lambda _: None), steep), mounted_casts(steep)
    assert casts.mi == again.mi
    assert np.array_equal(casts.lower.mesh.vertices, again.lower.mesh.vertices)
