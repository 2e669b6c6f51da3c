"""What replacement teeth do, in words and figures."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.findings import Figure
from kinematics.planning.replacement import replacement_contacts
from kinematics.planning.replacement_findings import replacement_finding
from kinematics.tooth_codes import opponent
from tests.replaced_mouth import RIGHT, STEEP, base, only, with_course, with_holding
from tests.small_mouth import mouth, occlusion, swept


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
        "; from 0.6 to 3.0 mm it holds the other teeth open by more than 20 µm, most at 3.0 mm by "
    )
    assert " At 3.0 mm the normal stands " in finding.text
    assert "degrees to the long axis of 16" in finding.text
    assert "N across its long axis for every N along it" in finding.text
    assert "mm from abutment 15" in finding.text
    assert (finding.tooth_upper, finding.tooth_lower) == (16, opponent(16))
    assert [(figure.name, figure.unit) for figure in finding.figures] == [
        (f"least distance at {got.least_gap_at_mm:.1f} mm", "mm"),
        ("height along the closing arc, measured at 16, at 3.0 mm", "mm"),
        ("longest travel on end held open by more than 20 µm", "mm"),
        ("contact normal to the long axis at 3.0 mm", "deg"),
        ("across the long axis per N along it at 3.0 mm", "N/N"),
        ("lever to abutment 15 at 3.0 mm", "mm"),
    ]
    assert finding.threshold == Figure("height along the closing arc that guides", 0.1, "mm")
    assert finding.margin.value == pytest.approx(got.height_mm - 0.1)
    assert finding.margin.name == "above the threshold"
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


def told(course, held):
    """Return the sentences about 16 in a sweep with the given distances and heights."""
    casts = mouth()
    sweep = swept(casts, RIGHT)
    made = with_holding(casts, sweep, course(sweep.travel_mm), held(sweep.travel_mm))
    subject = occlusion(casts, bases=(base(),))
    return replacement_finding(subject, made, only(replacement_contacts(subject, (made,)))).text


def test_both_ranges_stand_in_the_sentence():
    """Where it touches, where it holds open, with their breaks, and where most."""
    text = told(
        lambda t: np.where((t > 2.05) & (t < 2.25), 0.5, 0.01),
        lambda t: np.where((t > 1.15) & (t < 1.85) & (np.abs(t - 1.6) > 0.05), 0.09 - 0.02 * t, 0),
    )
    assert (
        "touches 46 from 0.1 to 3.0 mm with breaks; from 1.2 to 1.8 mm with breaks it holds the"
        " other teeth open by more than 20 µm, most at 1.2 mm by 66 µm along the closing arc,"
        " measured at 16; the scheme of base"
    ) in text
    assert " At 1.2 mm the normal stands " in text


def test_a_height_within_the_tolerance_has_its_travel_too():
    """Ten micrometres at 1.4 mm are told, without a range."""
    text = told(lambda t: 0.0 * t, lambda t: np.where(np.abs(t - 1.4) < 0.05, 0.01, 0.0))
    assert (
        "touches 46 from 0.1 to 3.0 mm, and it holds the other teeth open, most at 1.4 mm by 10 µm"
        " along the closing arc, measured at 16; the scheme"
    ) in text


def test_what_the_base_does_together_is_told_apart_from_one_tooth():
    """Two teeth that hold open together: the height of both, and that of one alone."""
    falls = {16: STEEP[16], 17: tuple(0.95 * rate for rate in STEEP[16])}
    casts = mouth(falls)
    sweep = swept(casts, RIGHT, travel_mm=2.0)
    subject = occlusion(casts, bases=(base(),))
    (first,) = {int(code) for code in sweep.closures.tooth_upper[6:]}
    finding = replacement_finding(
        subject, sweep, only(replacement_contacts(subject, (sweep,)), first)
    )
    assert "the teeth of its base hold the other teeth open by more than 20 µm" in finding.text
    assert f"by {first} alone); the scheme of base" in finding.text
    height = f"height along the closing arc, measured at {first}, at 2.0 mm"
    assert [figure.name for figure in finding.figures[1:3]] == [height, f"{height}, {first} alone"]
    assert f"along the closing arc, measured at {first} (" in finding.text


@pytest.mark.parametrize(
    ("course", "held_mm", "until_mm", "slope_deg", "limit", "value", "severity"),
    [
        (0.01, 0.15, 3.05, 0.0, "height along the closing arc that guides", 0.05, "serious"),
        (0.01, 0.05, 1.35, 0.0, "travel on end, held open by more", 0.2, "serious"),
        (0.01, 0.022, 1.15, 0.0, "travel on end, held open by more", 0.0, "serious"),
        (0.01, 0.005, 3.05, 40.0, "N across per N along, times the lever", None, "serious"),
        (0.01, 0.005, 1.05, 40.0, "contact tolerance", 0.01, "attention"),
        (0.15, 0.0, 3.05, 0.0, "approach margin", 0.05, "attention"),
    ],
)
def test_each_finding_is_compared_with_the_limit_that_decided(
    course, held_mm, until_mm, slope_deg, limit, value, severity
):
    """Height, travel on end, turning, contact tolerance or margin: the one that made it so."""
    casts = mouth()
    sweep = swept(casts, RIGHT)
    held = np.where((sweep.travel_mm > 0.55) & (sweep.travel_mm < until_mm), held_mm, 0.0)
    made = with_holding(casts, sweep, course, held)
    slope = np.radians(slope_deg)
    normals = np.tile([np.sin(slope), 0.0, np.cos(slope)], (len(held), 1))
    made = replace(made, patches=replace(made.patches, normal=normals))
    subject = occlusion(casts, bases=(base(),))
    contact = only(replacement_contacts(subject, (made,)))
    finding = replacement_finding(subject, made, contact)
    assert finding.severity == severity
    assert finding.threshold.name.startswith(limit)
    if value is None:
        value = contact.across_per_along * contact.lever_mm - 5.0
        assert finding.figures[-1].value == pytest.approx(value + 5.0)
    assert finding.margin.value == pytest.approx(value, abs=1e-6)
    above = severity == "serious"
    assert finding.margin.name == f"{'above' if above else 'below'} the threshold"
