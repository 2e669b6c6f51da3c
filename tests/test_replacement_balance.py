"""A base that carries its whole arch: single teeth and balance from the other side judge it."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.findings import Figure
from kinematics.planning.judging import DentureBase
from kinematics.planning.replacement import replacement_contacts
from kinematics.planning.replacement_balance import balance_gap_mm
from kinematics.planning.replacement_findings import replacement_finding
from kinematics.tooth_codes import opponent
from tests.replaced_mouth import AHEAD, LEFT, RIGHT, only, with_holding
from tests.small_mouth import UPPERS, mouth, occlusion, swept

LEFT_BACK = (25, 26, 27)


def complete(scheme="balanced"):
    """Return a base that carries every upper tooth."""
    return DentureBase(name="complete", teeth=UPPERS, scheme=scheme)


def with_gaps(sweep, teeth, gap_mm):
    """Return a sweep in which some upper teeth keep a distance from all lower ones."""
    gaps = sweep.pair_gap_mm.copy()
    for code in teeth:
        row = sweep.upper_codes.index(code)
        gaps[:, row] = np.inf
        gaps[:, row, sweep.lower_codes.index(opponent(code))] = gap_mm
    return replace(sweep, pair_gap_mm=gaps)


def judged(held_mm, other_side_mm, scheme="balanced", excursion=RIGHT):
    """Return contact and finding of 16, which alone holds open by `held_mm`, and all contacts."""
    casts = mouth()
    sweep = swept(casts, excursion)
    made = with_holding(casts, sweep, 0.0, np.full(len(sweep.travel_mm), held_mm))
    made = with_gaps(made, LEFT_BACK, other_side_mm)
    # No margin: the distances made up here have no place on the casts to be read at.
    subject = occlusion(casts, bases=(complete(scheme),), approach_margin_mm=0.0)
    contacts = replacement_contacts(subject, (made,))
    got = only(contacts, excursion=excursion.name)
    return got, replacement_finding(subject, made, got), contacts


@pytest.mark.parametrize("excursion", [RIGHT, LEFT, AHEAD])
def test_a_balanced_denture_is_not_serious(excursion):
    """Contacts of both sides at once, no tooth beyond what the mucosa makes up for: notes."""
    got, finding, contacts = judged(0.05, 0.08, excursion=excursion)
    assert (got.standing, got.severity, got.unbalanced) == ("allowed by its scheme", "note", None)
    assert got.height_mm == pytest.approx(0.05, abs=1e-9)
    assert {contact.severity for contact in contacts} == {"note"}
    assert "nothing else would meet" not in finding.text
    assert finding.threshold.name == "balanced tolerance"
    assert finding.margin == Figure("below the threshold", pytest.approx(0.05, abs=1e-9), "mm")


def test_a_tooth_that_alone_lifts_the_denture_is_serious():
    """0.15 mm by one tooth, though balanced: by its own height, not that of the base."""
    got, finding, _ = judged(0.15, 0.08)
    assert (got.severity, got.unbalanced) == ("serious", None)
    assert got.height_mm == got.height_alone_mm == pytest.approx(0.15, abs=1e-9)
    assert "it holds the other teeth open by more than 0.10 mm" in finding.text
    assert finding.margin == Figure("above the threshold", pytest.approx(0.05, abs=1e-9), "mm")


@pytest.mark.parametrize(
    ("other_side_mm", "nearest", "margin"),
    [(0.5, " (nearest 0.50 mm at 0.6 mm)", 0.4), (np.inf, "", None)],
)
def test_a_contact_without_balance_is_flagged(other_side_mm, nearest, margin):
    """No back teeth of the other side near: attention, and no figure where there is none."""
    got, finding, _ = judged(0.05, other_side_mm)
    assert (got.standing, got.severity) == ("against its scheme", "attention")
    assert (
        "from 0.6 to 3.0 mm no back teeth that would balance it come within 0.10 mm"
        f"{nearest}; the scheme"
    ) in finding.text
    assert finding.threshold.name == "balanced tolerance"
    if margin is None:
        assert finding.margin is None
    else:
        assert finding.margin == Figure("above the threshold", pytest.approx(margin), "mm")
    assert all(np.isfinite(figure.value) for figure in finding.figures)


def test_a_denture_meant_to_meet_only_in_mi_is_judged_by_its_single_teeth():
    """Every contact breaks that scheme; how grave it is follows from what the tooth alone holds."""
    for held_mm, severity in ((0.01, "attention"), (0.15, "serious")):
        got, finding, _ = judged(held_mm, 0.08, "contacts only in MI")
        assert (got.severity, got.unbalanced) == (severity, None)
        assert got.height_mm == pytest.approx(held_mm, abs=1e-9)
        assert finding.margin.value <= 0.06


def test_where_nothing_at_all_would_meet_there_is_no_figure():
    """A single tooth that alone meets is serious in words, without a margin."""
    casts = mouth(uppers=(16,))
    sweep = swept(casts, RIGHT, travel_mm=1.5)
    alone = DentureBase(name="alone", teeth=(16,), scheme="balanced")
    subject = occlusion(casts, bases=(alone,))
    got = only(replacement_contacts(subject, (sweep,)))
    finding = replacement_finding(subject, sweep, got)
    assert (got.severity, finding.margin) == ("serious", None)
    assert "without it nothing else would meet" in finding.text


def test_what_balances_a_contact():
    """Back teeth of the other side; for front teeth in a straight movement those of both."""
    casts = mouth()
    ahead, right = swept(casts, AHEAD), swept(casts, RIGHT)
    for sweep, pair, wanted in (
        (ahead, (11, 41), 0.3),
        (ahead, (16, 46), 0.3),
        (ahead, (26, 36), 0.1),
        (right, (13, 43), 0.3),
        (right, (26, 36), 0.1),
    ):
        made = with_gaps(with_gaps(sweep, LEFT_BACK, 0.3), (15, 16, 17), 0.1)
        everywhere = np.ones(len(made.travel_mm), dtype=bool)
        found = balance_gap_mm(occlusion, made, pair, everywhere)
        assert (found == wanted).all()
