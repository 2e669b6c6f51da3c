"""Set-up of the arches: occlusal sphere, arch curve, contacts of neighbours, overlaps."""

import tomllib
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from kinematics.checks import NotConverged
from kinematics.teeth.arch_form import (
    contact_points,
    curve_through,
    half_widths,
    place_side,
    sphere_height,
    sphere_normal,
    widest_canine,
)
from kinematics.teeth.crown_table import KINDS, crown_table
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.proximal_contacts import neighbour_gap, proximal_sides
from kinematics.teeth.set_up import (
    SetUpTargets,
    molar_relation,
    overlaps,
    reference_point,
    set_up_side,
    wanted_relation,
)

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "teeth.toml").read_text())
_USUAL = DentitionSettings()
DEFAULT = SetUpTargets(_USUAL.overbite_mm, _USUAL.overjet_mm, 84.0, 33.0, 0.015)


@pytest.fixture(scope="module")
def set_up():
    """Return the table and the frames of the default set-up."""
    return set_up_side(crown_table(), DEFAULT)


def test_posterior_datum_lies_on_the_classic_sphere(set_up):
    """A sphere fitted to the reference points of both sides has a radius of 101.6 mm."""
    table, places = set_up
    left = np.array(
        [reference_point(table, kind, places[kind]) for kind in KINDS if kind in table.posterior]
    )
    points = np.concatenate([left, left * [1.0, -1.0, 1.0]])
    fitted = least_squares(
        lambda c: np.linalg.norm(points - c[:3], axis=1) - c[3], [-20.0, 0.0, 80.0, 80.0]
    )
    assert fitted.x[3] == pytest.approx(PUBLISHED["sphere"]["radius_mm"], abs=0.1)
    assert np.abs(fitted.fun).max() < 1e-6


def test_sagitta_and_tilt_are_those_of_the_classic_sphere():
    """Depth over three chords, and the tilt of a molar 25 mm from the midline."""
    published, sheet = PUBLISHED["sphere"], crown_table().set_up
    for chord, sagitta in zip(published["chord_mm"], published["sagitta_mm"], strict=True):
        height = sphere_height(sheet, sheet.sphere_lowest_x + 0.5 * chord, 0.0)
        assert height == pytest.approx(sagitta, abs=0.002)
    normal = sphere_normal(sheet, sheet.sphere_lowest_x, published["tilt_at_mm"])
    tilt = np.degrees(np.arctan2(-normal[1], normal[2]))
    assert tilt == pytest.approx(published["tilt_deg"], abs=0.05)


def test_curve_of_spee_has_the_published_depth_and_its_deepest_tooth():
    """Over the published chord the sphere is as deep as curves of Spee, deepest at the molar."""
    published, table = PUBLISHED["curve_of_spee"], crown_table()
    height = sphere_height(
        table.set_up, table.set_up.sphere_lowest_x - 0.5 * published["chord_mm"], 0.0
    )
    assert height == pytest.approx(published["depth_mm"], abs=published["within_mm"])
    places = place_side(table, "L", table.set_up.slide)
    mesiobuccal = {}
    for kind in ("L5", "L6", "L7"):
        form = table.posterior[kind]
        cusp = form.cusps[0]
        local = [[cusp.at[0] * form.size[0], cusp.at[1] * form.size[1], form.reference_height]]
        mesiobuccal[kind] = places[kind].points(np.array(local))[0, 0]
    away = {k: abs(x - table.set_up.sphere_lowest_x) for k, x in mesiobuccal.items()}
    assert min(away, key=away.get) == "L6"


@settings(max_examples=15)
@given(
    narrower=st.floats(min_value=0.02, max_value=0.9),
    molar=st.floats(min_value=23.0, max_value=24.6),
)
def test_arch_curve_has_the_wanted_half_widths(narrower, molar):
    """Teeth laid by chord stand at the wanted widths, each as far from the last as it is wide."""
    table = crown_table()
    span, widths = replace(table.set_up.spans["U"], molar=molar), table.widths("U")
    canine = widest_canine(span, widths) - narrower
    span = replace(span, canine=canine)
    curve = curve_through(span, widths)
    np.testing.assert_allclose(half_widths(curve, widths), [canine, molar], atol=2e-6)
    chords = np.linalg.norm(np.diff(contact_points(curve, widths), axis=0), axis=1)
    np.testing.assert_allclose(chords, widths, atol=1e-4)


def test_canines_wider_than_the_front_teeth_allow_are_refused():
    """A half width beyond the flat arch names the widths and what to change."""
    table = crown_table()
    span, widths = table.set_up.spans["U"], table.widths("U")
    widest = widest_canine(span, widths)
    curve_through(replace(span, canine=widest - 0.02), widths)
    with pytest.raises(NotConverged, match=r"half widths of 17\.60 mm at the canines"):
        curve_through(replace(span, canine=17.6), widths)


def test_set_up_reaches_overbite_overjet_and_molar_relation(set_up):
    """All three are as wanted, to 0.01 and 0.02 mm."""
    table, places = set_up
    np.testing.assert_allclose(
        overlaps(table, places), [DEFAULT.overbite_mm, DEFAULT.overjet_mm], atol=0.0101
    )
    assert molar_relation(table, places) == pytest.approx(table.set_up.molar_relation, abs=0.02)


def test_default_overlaps_lie_within_the_published_spread():
    """Default overbite and overjet are within one standard deviation of Class I means."""
    published = PUBLISHED["overlaps"]
    for name in ("overbite_mm", "overjet_mm"):
        mean, deviation = published[name]
        assert abs(getattr(DentitionSettings(), name) - mean) < deviation
    angle = np.degrees(np.arctan2(published["overbite_mm"][0], published["overjet_mm"][0]))
    assert angle == pytest.approx(PUBLISHED["incisal_guide_angle"]["degrees"], abs=0.05)


def test_neighbours_just_touch(set_up):
    """From tooth to tooth, and at the midline, gaps are below 3 micrometres both ways."""
    table, places = set_up
    for arch in "UL":
        kinds = [f"{arch}{n}" for n in range(1, 8)]
        sides = {kind: proximal_sides(table, kind) for kind in kinds}
        for front, behind in pairwise(kinds):
            gap = neighbour_gap(places[front], sides[front][1], places[behind], sides[behind][0])
            assert abs(gap) < 0.003, (front, behind)
        first = places[kinds[0]].points(sides[kinds[0]][0].points)
        assert abs(first[:, 1].min()) < 0.003


def test_a_tooth_moved_along_the_arch_is_noticed(set_up):
    """Sliding one tooth by 0.1 mm opens one contact and overlaps the other by about as much."""
    table, places = set_up
    sides = {kind: proximal_sides(table, kind) for kind in ("L5", "L6", "L7")}
    moved = places["L6"].moved(0.1 * places["L6"].distal)
    opened = neighbour_gap(places["L5"], sides["L5"][1], moved, sides["L6"][0])
    closed = neighbour_gap(moved, sides["L6"][1], places["L7"], sides["L7"][0])
    assert opened == pytest.approx(0.1, abs=0.02)
    assert closed == pytest.approx(-0.1, abs=0.02)


@pytest.mark.parametrize(("overbite", "overjet"), [(1.4, 3.0), (3.4, 3.0), (2.4, 2.4), (2.4, 3.8)])
def test_other_overlaps_can_be_set_up(overbite, overjet):
    """Overbite and overjet are reached; deep ones go with lower molars farther back."""
    targets = replace(DEFAULT, overbite_mm=overbite, overjet_mm=overjet)
    table, places = set_up_side(crown_table(), targets)
    np.testing.assert_allclose(overlaps(table, places), [overbite, overjet], atol=0.0101)
    relation = wanted_relation(table, targets)
    assert molar_relation(table, places) == pytest.approx(relation, abs=0.02)
    more = (overbite - DEFAULT.overbite_mm) + (overjet - DEFAULT.overjet_mm)
    assert np.sign(table.set_up.molar_relation - relation) == np.sign(more)


def test_both_arches_share_one_local_frame():
    """Crown frames: right-handed below, left-handed above; facial outward, occlusal inward."""
    table = crown_table()
    for arch, sign in (("L", 1.0), ("U", -1.0)):
        for kind, place in place_side(table, arch, table.set_up.slide).items():
            assert np.linalg.det(place.axes) == pytest.approx(sign, abs=1e-12), kind
            np.testing.assert_allclose(place.axes.T @ place.axes, np.eye(3), atol=1e-12)
            assert sign * place.axes[2, 2] > 0.8
            assert place.axes[1, 1] > 0.0 and place.axes[0, 0] > 0.0
