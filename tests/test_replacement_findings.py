"""What replacement teeth do, in words and figures."""

import pytest

from kinematics.planning.replacement import replacement_contacts
from kinematics.planning.replacement_findings import replacement_finding
from kinematics.tooth_codes import opponent
from tests.replaced_mouth import RIGHT, STEEP, base, only, with_course
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
