"""Replacement teeth in excursions: range, gap, height, place, load and lever of each contact."""

import numpy as np
import pytest

from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import without
from kinematics.planning.replacement import replacement_contacts
from kinematics.tooth_codes import mirror
from tests.replaced_mouth import LEFT, RIGHT, STEEP, base, only, with_course, with_holding
from tests.small_mouth import mouth, occlusion, openings, swept


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
    assert got.read_at_mm == pytest.approx(sweep.travel_mm[heights.argmax()])
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


APPROACHES = {
    "leaving": (lambda t: 0.01 + 0.2 * t, "near MI only"),
    "clear at 1.0 mm": (lambda t: np.where(t < 0.95, 0.1 + 0.05 * t, 0.5), "near MI only"),
    "near at 1.0 mm": (lambda t: np.where(t < 1.05, 0.1 + 0.05 * t, 0.5), "against its scheme"),
    "opening steadily to 1.9 mm": (lambda t: 0.105 + 0.05 * t, "against its scheme"),
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
    """Clear of 0.2 mm by 1.0 mm is leaving, a note; else nearer than 0.2 mm beyond MI is flagged.

    0.2 mm itself is not near.
    """
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
    assert got.least_gap_at_mm == sweep.travel_mm[gap.argmin()]
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


def test_where_it_touches_and_where_it_holds_open_are_told_apart():
    """Touching from 0.3 to 2.5 mm with a break, holding open from 1.2 to 1.8 mm, most at 1.4 mm."""
    casts = mouth()
    sweep = swept(casts, RIGHT)
    t = sweep.travel_mm
    touches = (t > 0.25) & (t < 2.55) & ~((t > 2.05) & (t < 2.25))
    held = np.where((t > 1.15) & (t < 1.85), 0.05 - 0.02 * np.abs(t - 1.4), 0.0)
    held[t > 1.85] = np.where(touches[t > 1.85], 0.01, 0.0)
    made = with_holding(casts, sweep, np.where(touches, 0.01, 0.5), held)
    for scheme in ("contacts only in MI", "shared on the working side"):
        got = only(replacement_contacts(occlusion(casts, bases=(base(scheme),)), (made,)))
        assert (got.standing, got.broken) == ("against its scheme", True)
        assert (got.travel_from_mm, got.travel_to_mm) == pytest.approx((0.3, 2.5), abs=1e-6)
        holding = got.holding
        assert (holding.from_mm, holding.to_mm) == pytest.approx((1.2, 1.8), abs=1e-6)
        assert (holding.more_than_mm, holding.broken) == (0.02, False)
        assert got.read_at_mm == pytest.approx(1.4, abs=1e-6)
        assert got.height_mm == pytest.approx(0.05, abs=1e-9)
        assert got.height_alone_mm == got.height_mm


def test_a_balanced_base_holds_open_only_beyond_the_mucosa():
    """Its range is that of more than 0.1 mm, and 0.05 mm is no holding at all."""
    casts = mouth()
    sweep = swept(casts, RIGHT)
    for held, holds in ((0.05, False), (0.15, True)):
        made = with_holding(casts, sweep, 0.0, np.full(len(sweep.travel_mm), held))
        got = only(replacement_contacts(occlusion(casts, bases=(base("balanced"),)), (made,)))
        assert (got.holding is not None) == holds
        assert got.standing == ("against its scheme" if holds else "allowed by its scheme")
        assert got.height_mm == pytest.approx(held)


def test_two_teeth_of_one_base_hold_open_together():
    """Either alone makes little difference; the base is judged by what both do."""
    falls = {16: STEEP[16], 17: tuple(0.95 * rate for rate in STEEP[16])}
    casts = mouth(falls)
    sweep = swept(casts, RIGHT, travel_mm=2.0)
    angles = openings(casts, falls, {}, sweep.positions.pose_at_zero)
    natural = np.delete(angles, [0, 1], axis=1).max(axis=1)
    radius = sweep.closures.radius_mm
    contacts = replacement_contacts(
        occlusion(casts, bases=(base("shared on the working side"),)), (sweep,)
    )
    first = {int(code) for code in sweep.closures.tooth_upper[6:]}
    assert len(first) == 1
    got = only(contacts, *first)
    pose = int(np.abs(sweep.travel_mm - got.read_at_mm).argmin())
    together = (angles[pose].max() - natural[pose]) * radius[pose]
    alone = abs(angles[pose, 0] - angles[pose, 1]) * radius[pose]
    assert got.height_mm == pytest.approx(together, abs=1e-9)
    assert got.height_alone_mm == pytest.approx(alone, abs=1e-9)
    assert got.height_alone_mm < 0.06 * got.height_mm
    assert (got.standing, got.severity) == ("against its scheme", "serious")
