"""Replacement teeth: judged by their base, with gap, load, lever, height and severity."""

import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.contact.contacts import Patches
from kinematics.guidance import excursions
from kinematics.planning.base_rules import (
    BACK_TEETH_CLEAR,
    BACK_TEETH_SHARE,
    BASE_RULES,
    GRAVE_TURNING_MM,
    SEVERITY_RULE,
    rule_of,
    scheme_in,
    severity_of,
)
from kinematics.planning.contact_runs import judged
from kinematics.planning.judging import DentureBase
from kinematics.planning.lateral_load import across_per_along, angle_to_axis_deg, with_friction
from kinematics.planning.occlusion import without
from kinematics.planning.replacement import replacement_contacts
from kinematics.planning.replacement_findings import replacement_finding
from kinematics.tooth_codes import mirror, opponent
from tests.small_mouth import middle, mouth, occlusion, openings, swept

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)
UP = np.array([0.0, 0.0, 1.0])
RIGHT, LEFT, AHEAD = (
    excursions.right_lateral(),
    excursions.left_lateral(),
    excursions.protrusion(),
)
STEEP = {16: (0.9, 1.6)}


def base(scheme="contacts only in MI", teeth=(16, 17), abutments=(15, 13)):
    """Return a distal-extension base of the upper right."""
    return DentureBase(name="upper right", teeth=teeth, abutments=abutments, scheme=scheme)


def incline(slope_deg):
    """Return the normal of an upper incline that faces inward, and the way out along it."""
    slope = np.radians(slope_deg)
    return np.array([np.sin(slope), 0, np.cos(slope)]), np.array([np.cos(slope), 0, -np.sin(slope)])


def test_load_on_an_incline_without_friction():
    """Across = along x tan(slope), as statics gives it."""
    published = PUBLISHED["incline_without_friction"]
    got = [100 * across_per_along(incline(slope)[0], UP) for slope in published["slope_deg"]]
    np.testing.assert_allclose(got, published["lateral_n_per_100_n"], atol=0.05)


@pytest.mark.parametrize("row", PUBLISHED["incline_with_friction"])
def test_load_on_an_incline_with_friction_follows_the_movement(row):
    """Outward friction adds to the slope, sliding back in it takes from it."""
    got = []
    for slope in row["slope_deg"]:
        normal, outward = incline(slope)
        push = with_friction(normal, outward if row["outward"] else -outward, row["coefficient"])
        got.append(100 * across_per_along(push, UP))
    np.testing.assert_allclose(got, row["lateral_n_per_100_n"], atol=0.05)


@given(st.floats(0.1, 80.0), st.floats(0.0, 0.5), st.floats(0.01, 100.0), st.floats(0.0, 360.0))
def test_friction_is_the_tangent_of_the_sum_of_angles(slope, coefficient, speed, turn):
    """tan(slope + atan mu) in any direction around the axis, whatever the speed."""
    normal, outward = incline(slope)
    cos, sin = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    about = np.array([[cos, -sin, 0], [sin, cos, 0], [0, 0, 1.0]])
    push = with_friction(about @ normal, about @ (speed * outward), coefficient)
    angle = np.radians(slope) + np.arctan(coefficient)
    wanted = np.tan(angle) if angle < np.pi / 2 - 1e-6 else np.inf
    assert across_per_along(push, UP) == pytest.approx(wanted, rel=1e-6)


def test_a_force_with_no_part_along_the_axis():
    """At right angles or away from the root the ratio is infinite, not negative."""
    assert across_per_along(np.array([1.0, 0, 0]), UP) == np.inf
    assert across_per_along(np.array([1.0, 0, -0.5]), UP) == np.inf
    assert across_per_along(UP, UP) == 0.0
    assert angle_to_axis_deg(np.array([1.0, 0, 0]), UP) == pytest.approx(90.0)
    np.testing.assert_array_equal(with_friction(UP, np.zeros(3), 0.3), UP)


def only(contacts, tooth=16, excursion="right lateral"):
    """Return the one contact of a tooth in an excursion."""
    (found,) = [c for c in contacts if (c.tooth, c.excursion) == (tooth, excursion)]
    return found


def test_a_replacement_tooth_that_guides_is_serious_and_measured():
    """Range, height as in closed form, slope of the plane as angle and tangent, lever, severity."""
    casts = mouth(STEEP, domes=(46,))
    sweep = swept(casts, RIGHT)
    got = only(replacement_contacts(occlusion(casts, bases=(base(),)), (sweep,)))
    assert (got.base, got.opponent, got.touches) == ("upper right", 46, True)
    assert (got.standing, got.severity) == ("against its scheme", "serious")
    assert got.travel_to_mm == pytest.approx(3.0, abs=1e-6)
    assert got.least_gap_mm == pytest.approx(0.0, abs=1e-9)
    slope = np.degrees(np.arctan(np.hypot(*STEEP[16])))
    assert got.normal_to_axis_deg == pytest.approx(slope, abs=1.5)
    assert got.across_per_along == pytest.approx(
        np.tan(np.radians(got.normal_to_axis_deg)), rel=1e-9
    )
    centre = casts.upper.tooth(15).centre
    assert got.abutment == 15
    assert got.lever_mm == pytest.approx(np.hypot(*(centre - got.place)[:2]))


def test_height_is_the_difference_between_closing_with_and_without_the_tooth():
    """On tips and planes it is known in closed form, to rounding."""
    casts = mouth(STEEP)
    sweep = swept(casts, RIGHT, travel_mm=2.0)
    got = only(replacement_contacts(occlusion(casts, bases=(base(),)), (sweep,)))
    angles = openings(casts, STEEP, {}, sweep.positions.pose_at_zero)
    further = angles[:, 1] - np.delete(angles, 1, axis=1).max(axis=1)
    heights = further * sweep.closures.radius_mm
    assert got.height_mm == pytest.approx(heights.max(), abs=1e-9)
    assert got.height_at_mm == pytest.approx(sweep.travel_mm[heights.argmax()])
    assert without(frozenset({16, 47})).lower == {47}


def test_a_replacement_tooth_thirty_micrometres_clear_is_no_touch():
    """Sliding along a plane parallel to the canine's, 30 micrometres clear: an approach."""
    casts = mouth(STEEP, {46: 0.0})
    sweep = swept(casts, RIGHT, travel_mm=2.0)
    for clear, touches in ((0.03, False), (0.02, True)):
        subject = occlusion(casts, bases=(base(),))
        got = only(replacement_contacts(subject, (with_course(casts, sweep, clear),)))
        assert got.touches == touches
        assert got.least_gap_mm == clear


def with_course(casts, sweep, course):
    """Return a sweep in which 16 keeps the given distances from 46, and 13 leads."""
    n = len(sweep.travel_mm)
    gaps = sweep.pair_gap_mm.copy()
    gaps[:, sweep.upper_codes.index(16), sweep.lower_codes.index(46)] = course
    first = np.full(n, 13), np.full(n, 43)
    patches = Patches(
        pose=np.arange(n),
        tooth_upper=np.full(n, 16),
        tooth_lower=np.full(n, 46),
        centroid=np.tile(middle(16), (n, 1)),
        normal=np.tile(UP, (n, 1)),
        area_mm2=np.full(n, 0.1),
        least_gap_mm=gaps[:, sweep.upper_codes.index(16), sweep.lower_codes.index(46)],
        arc_gap_mm=np.zeros(n),
    )
    closures = replace(sweep.closures, tooth_upper=first[0], tooth_lower=first[1])
    return replace(sweep, pair_gap_mm=gaps, closures=closures, patches=patches)


APPROACHES = {
    "leaving": (lambda t: 0.01 + 0.15 * t, "near MI only"),
    "slow to leave": (lambda t: 0.01 + 0.15 * np.minimum(t, 1.0), "against its scheme"),
    "deepening": (
        lambda t: np.where(t < 0.75, 0.15, np.where(t < 1.5, 0.1, 0.5)),
        "against its scheme",
    ),
    "coming": (lambda t: np.where(np.abs(t - 1.5) < 0.4, 0.15, 0.5), "against its scheme"),
    "just outside": (lambda t: np.where(np.abs(t - 1.5) < 0.4, 0.2, 0.5), None),
    "only near MI": (lambda t: np.where(t < 0.45, 0.1, 0.5), "near MI only"),
}


@pytest.mark.parametrize("name", APPROACHES)
def test_an_approach_is_flagged_when_it_comes_stays_or_deepens(name):
    """Leaving MI is a note; coming nearer than 0.2 mm beyond it is flagged, 0.2 itself is not."""
    course, standing = APPROACHES[name]
    casts = mouth(STEEP)
    sweep = swept(casts, RIGHT)
    sweep = with_course(casts, sweep, course(sweep.travel_mm))
    found = [
        c
        for c in replacement_contacts(occlusion(casts, bases=(base(),)), (sweep,))
        if c.tooth == 16
    ]
    if standing is None:
        assert found == []
        return
    (got,) = found
    assert got.standing == standing
    assert got.severity == ("note" if standing == "near MI only" else "attention")


def test_a_real_approach_is_measured_where_it_is_nearest():
    """16 comes near without touching: gap, place and slope are those of the nearest pose."""
    casts = mouth(STEEP, {46: 0.72}, domes=(46,))
    sweep = swept(casts, RIGHT)
    gap = sweep.pair_gap_mm[:, sweep.upper_codes.index(16), sweep.lower_codes.index(46)]
    assert 0.02 < gap.min() < 0.2
    got = only(replacement_contacts(occlusion(casts, bases=(base(),)), (sweep,)))
    assert (got.touches, got.standing, got.severity) == (False, "against its scheme", "attention")
    assert got.least_gap_mm == gap.min()
    assert got.height_mm == 0.0
    slope = np.degrees(np.arctan(np.hypot(*STEEP[16])))
    assert got.normal_to_axis_deg == pytest.approx(slope, abs=1.5)
    inside = gap < 0.2
    assert got.travel_from_mm == sweep.travel_mm[inside].min()
    assert got.travel_to_mm == sweep.travel_mm[inside].max()


def test_touching_next_to_mi_is_listed_as_a_note():
    """Contact to 0.4 mm: listed, a note, and no longer than it lasts."""
    casts = mouth(STEEP)
    sweep = swept(casts, RIGHT)
    sweep = with_course(casts, sweep, np.where(sweep.travel_mm < 0.45, 0.0, 0.5))
    got = only(replacement_contacts(occlusion(casts, bases=(base(),)), (sweep,)))
    assert (got.standing, got.severity, got.touches) == ("near MI only", "note", True)
    assert got.travel_to_mm == pytest.approx(0.4, abs=1e-6)


@pytest.mark.parametrize(
    ("scheme", "excursion", "falls", "standing"),
    [
        ("contacts only in MI", RIGHT, STEEP, "against its scheme"),
        ("shared on the working side", RIGHT, STEEP, "against its scheme"),
        ("balanced", RIGHT, STEEP, "against its scheme"),
        ("shared on the working side", RIGHT, {}, "allowed by its scheme"),
        ("balanced", RIGHT, {}, "allowed by its scheme"),
        ("contacts only in MI", RIGHT, {}, "against its scheme"),
        ("shared on the working side", LEFT, {}, "against its scheme"),
        ("balanced", LEFT, {}, "allowed by its scheme"),
        ("shared on the working side", AHEAD, {}, "against its scheme"),
        ("balanced", AHEAD, {}, "allowed by its scheme"),
    ],
)
def test_the_scheme_of_the_base_decides(scheme, excursion, falls, standing):
    """The same touch is right in one scheme and wrong in another; holding open is never right."""
    casts = mouth(falls)
    sweep = swept(casts, excursion)
    if not falls:
        sweep = with_course(casts, sweep, 0.01)
    contacts = replacement_contacts(occlusion(casts, bases=(base(scheme),)), (sweep,))
    got = only(contacts, excursion=excursion.name)
    assert got.standing == standing
    assert got.scheme == scheme
    if standing == "allowed by its scheme":
        assert got.severity == "note"


def test_the_existing_guidance_is_read_without_the_replacement_teeth():
    """Natural back teeth that share make sharing right; if they are clear, contact is wrong."""
    as_existing = base("as the existing guidance")
    for falls, wanted in (({}, BACK_TEETH_CLEAR), ({15: (2.0, 2.0)}, BACK_TEETH_SHARE)):
        casts = mouth({**STEEP, **falls})
        sweep = swept(casts, RIGHT, travel_mm=2.0)
        subject = occlusion(casts, bases=(as_existing,))
        within = judged(sweep, subject.settings)
        assert scheme_in(subject, sweep, as_existing, within) == wanted
        assert scheme_in(subject, sweep, base(), within) == "contacts only in MI"
    assert scheme_in(subject, sweep, as_existing, np.zeros(len(within), bool)) == BACK_TEETH_CLEAR


def test_every_scheme_and_place_has_a_row():
    """Five ways to judge a base, three places each, once."""
    schemes = {rule.scheme for rule in BASE_RULES}
    assert schemes == {
        "contacts only in MI",
        "shared on the working side",
        "balanced",
        BACK_TEETH_CLEAR,
        BACK_TEETH_SHARE,
    }
    keys = [(rule.scheme, rule.place) for rule in BASE_RULES]
    assert len(set(keys)) == len(keys) == 15
    assert all(rule_of(*key) in BASE_RULES for key in keys)


@pytest.mark.parametrize(
    ("row", "touches", "against", "height", "turning"),
    [
        (0, True, True, 0.021, 0.0),
        (1, True, True, 0.02, GRAVE_TURNING_MM),
        (2, True, True, 0.02, GRAVE_TURNING_MM - 1e-9),
        (3, False, True, 0.0, 99.0),
        (4, True, False, 0.5, 99.0),
        (4, False, False, 0.0, 0.0),
    ],
)
def test_severity_follows_the_printed_rule(row, touches, against, height, turning):
    """Each row of the rule, at its limits."""
    got = severity_of(touches, against, height, turning, 0.02)
    assert got == SEVERITY_RULE[row].severity
    assert [r.severity for r in SEVERITY_RULE] == [
        "serious", "serious", "attention", "attention", "note",
    ]  # fmt: skip


def test_turning_limit_is_what_the_rule_says():
    """A slope of 20 degrees 14 mm behind the abutment makes 5 mm."""
    assert np.tan(np.radians(20.0)) * 14.0 == pytest.approx(GRAVE_TURNING_MM, abs=0.1)


def test_friction_adds_to_the_load_on_the_way_out():
    """With mu = 0.2 a guiding replacement tooth is pushed harder, by the tangent rule."""
    casts = mouth(STEEP, domes=(46,))
    sweep = swept(casts, RIGHT)
    plain = only(replacement_contacts(occlusion(casts, bases=(base(),)), (sweep,)))
    rough = only(
        replacement_contacts(occlusion(casts, bases=(base(),), friction_coefficient=0.2), (sweep,))
    )
    assert rough.normal_to_axis_deg == plain.normal_to_axis_deg
    most = np.tan(np.radians(plain.normal_to_axis_deg) + np.arctan(0.2))
    assert plain.across_per_along < rough.across_per_along <= most + 1e-9


def test_a_lower_base_is_judged_alike():
    """The same contact seen from a lower base: its own tooth, axis and abutment."""
    casts = mouth(STEEP, domes=(46,))
    sweep = swept(casts, RIGHT)
    lower = DentureBase(name="lower right", teeth=(46, 47), abutments=(45,))
    got = only(replacement_contacts(occlusion(casts, bases=(lower,)), (sweep,)), tooth=46)
    assert (got.opponent, got.abutment, got.severity) == (16, 45, "serious")
    slope = np.degrees(np.arctan(np.hypot(*STEEP[16])))
    opening = np.degrees(sweep.opening_rad.max())
    assert abs(got.normal_to_axis_deg - slope) < opening + 4.0
    assert got.across_per_along > 1.0


def test_mirrored_bases_in_mirrored_mouths():
    """Left and right give the same figures, with mirrored teeth and places."""
    left_base = DentureBase(name="upper left", teeth=(26, 27), abutments=(25, 23))
    one, other = mouth(STEEP, domes=(46,)), mouth({26: STEEP[16]}, domes=(36,))
    a = only(replacement_contacts(occlusion(one, bases=(base(),)), (swept(one, RIGHT),)))
    b = only(
        replacement_contacts(occlusion(other, bases=(left_base,)), (swept(other, LEFT),)),
        26,
        "left lateral",
    )
    assert (b.opponent, b.abutment) == (mirror(a.opponent), mirror(a.abutment))
    np.testing.assert_allclose(np.array(b.place) * [1, -1, 1], a.place, atol=1e-6)
    for name in ("height_mm", "normal_to_axis_deg", "across_per_along", "lever_mm"):
        assert getattr(b, name) == pytest.approx(getattr(a, name), abs=1e-6)


def test_a_base_without_abutments_has_no_lever():
    """A complete denture turns about nothing: lever 0, and no word of an abutment."""
    casts = mouth(STEEP)
    subject = occlusion(casts, bases=(base(abutments=()),))
    sweep = swept(casts, RIGHT)
    got = only(replacement_contacts(subject, (sweep,)))
    assert (got.abutment, got.lever_mm) == (0, 0.0)
    assert "abutment" not in replacement_finding(subject, sweep, got).text


def test_a_finding_in_words_and_figures():
    """The sentence stands alone, angles say what they are measured to, figures have units."""
    casts = mouth(STEEP, domes=(46,))
    sweep = swept(casts, RIGHT)
    subject = occlusion(casts, bases=(base(),), over_erupted=(46,))
    got = only(replacement_contacts(subject, (sweep,)))
    finding = replacement_finding(subject, sweep, got)
    assert finding.kind == "replacement tooth touches"
    assert finding.text.startswith(
        "In right lateral excursion replacement tooth 16 touches over-erupted 46 from 0.1 to 3.0 mm"
        " and holds the other teeth "
    )
    assert "degrees to the long axis of 16" in finding.text
    assert "N across its long axis for every N along it" in finding.text
    assert "mm from abutment 15" in finding.text
    assert (finding.tooth_upper, finding.tooth_lower) == (16, opponent(16))
    assert [figure.unit for figure in finding.figures] == ["mm", "mm", "deg", "N/N", "mm"]
    assert finding.threshold.name == "approach margin"
    assert finding.margin.value == pytest.approx(0.2 - got.least_gap_mm)
    assert finding.margin.name == "below the threshold"
    assert finding.determined


def test_near_records_that_scatter_nothing_smaller_is_determined():
    """An approach of 0.15 mm against a margin of 0.2 mm is not told apart at 0.3 mm of scatter."""
    casts = mouth(STEEP)
    sweep = swept(casts, RIGHT)
    sweep = with_course(casts, sweep, 0.15)
    for scatter, determined in ((0.0, True), (0.3, False)):
        subject = occlusion(casts, bases=(base(),), record_scatter_mm=scatter)
        got = only(replacement_contacts(subject, (sweep,)))
        finding = replacement_finding(subject, sweep, got)
        assert finding.determined == determined
        assert "comes within 0.15 mm of 46" in finding.text
