"""What the scatter of the records leaves open, and which record would decide it."""

from dataclasses import replace

import pytest

from kinematics.guidance import excursions
from kinematics.planning.articulation import verdict
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.judging import USUAL_SCATTER_MM, JudgingSettings
from kinematics.planning.record_doubts import RECORDS, record_doubts, records_for
from tests.small_mouth import mouth, swept

EXACT = JudgingSettings()
SCATTERED = JudgingSettings(record_scatter_mm=0.1)


def found(severity, distance, determined=True, unit="mm"):
    """Return a finding that lies so far from its limit."""
    margin = None if distance is None else Figure("above the threshold", distance, unit)
    return Finding("made", severity, f"{severity} {distance}", margin=margin, determined=determined)


FINDINGS = (
    found("serious", 0.29),
    found("attention", 0.31),
    found("attention", 0.05, determined=False),
    found("attention", 2.0, unit="deg"),
    found("attention", None, determined=False),
    found("note", 0.1, determined=False),
    found("note", None),
)


def test_exact_records_are_tried_with_the_usual_scatter():
    """Findings nearer to their limit than 0.3 mm; angles and what has no limit are left alone."""
    doubts = record_doubts(FINDINGS, (), EXACT)
    assert (doubts.scatter_mm, doubts.is_set) == (USUAL_SCATTER_MM, False)
    assert [(item.finding.text, item.distance_mm) for item in doubts.near] == [
        ("serious 0.29", 0.29),
        ("attention 0.05", 0.05),
    ]
    assert (doubts.graver_findings, doubts.open_notes) == (5, 1)


def test_a_set_scatter_takes_the_marks_of_the_findings():
    """What is marked as not determined, near to a limit or without one, and nothing else."""
    doubts = record_doubts(FINDINGS, (), SCATTERED)
    assert (doubts.scatter_mm, doubts.is_set) == (0.1, True)
    assert [(item.finding.text, item.distance_mm) for item in doubts.near] == [
        ("attention 0.05", 0.05),
        ("attention None", None),
    ]
    assert doubts.open_notes == 1


@pytest.mark.parametrize("clearance_mm", [0.15, 0.6])
def test_verdicts_are_open_where_another_tooth_would_guide_within_the_scatter(clearance_mm):
    """A back tooth 0.15 mm clear of guiding with the canine is open at 0.3 mm; at 0.6 mm not."""
    falls = {16: (0.8, 1.0)}
    clear = dict.fromkeys((47, 46, 45, 41, 31, 35, 36, 37), 3.0) | {46: clearance_mm}
    sweep = swept(mouth(falls, clear), excursions.right_lateral())
    doubts = record_doubts((), (sweep,), EXACT)
    found = [(item.excursion, item.rival.tooth_upper) for item in doubts.verdicts]
    assert found == ([("right lateral", 16)] if clearance_mm < USUAL_SCATTER_MM else [])
    assert doubts.judged_verdicts == 1
    assert verdict(sweep, EXACT).determined


@pytest.mark.parametrize("as_scanned", [True, False])
def test_a_bite_as_scanned_rests_on_no_record(as_scanned):
    """What is said of MI is then left out of the trial; what is said of CR and movements stays."""
    of_mi = found("attention", 0.05)
    of_cr = replace(of_mi, kind="deflective contact")
    aside = replace(of_mi, excursion="left lateral")
    doubts = record_doubts((of_mi, of_cr, aside), (), EXACT, bite_as_scanned=as_scanned)
    assert [item.finding for item in doubts.near] == [of_mi, of_cr, aside][as_scanned:]


def test_a_retrusion_has_no_verdict_to_doubt(example):
    """It is left out of the count, as it is of the report."""
    doubts = record_doubts((), example.sweeps, EXACT)
    assert doubts.judged_verdicts == len(example.sweeps) - 1


@pytest.mark.parametrize(
    ("excursion", "kind", "keys"),
    [
        (None, "deflective contact", ("CR",)),
        (None, "CR and MI agree", ("CR",)),
        (None, "intercuspal contact area", ("CR",)),
        (None, "raised bite", ("CR",)),
        (None, "no centric stop", ("MI",)),
        ("protrusion", "", ("protrusion",)),
        ("right lateral", "", ("right lateral",)),
        ("left lateral from CR", "", ("CR", "left lateral")),
        ("lateroprotrusion -45", "", ("protrusion", "right lateral")),
        ("lateroprotrusion 30.5 from CR", "", ("CR", "protrusion", "left lateral")),
        ("retrusion", "", ("CR",)),
    ],
)
def test_which_record_decides(excursion, kind, keys):
    """Each movement names the records that bear on it, and each of these says why."""
    assert records_for(excursion, kind) == keys
    assert {*keys} <= {"CR", *RECORDS}


def test_a_lateral_record_gives_the_other_condyle():
    """To the right the left condyle is the nonworking one, whose path the record shows."""
    assert "left condyle" in RECORDS["right lateral"]
    assert "right condyle" in RECORDS["left lateral"]


def test_every_finding_of_the_example_can_be_asked_about(example):
    """Labels of findings and verdicts lead to records, one at least."""
    for item in (*example.findings, *example.verdicts):
        assert records_for(item.excursion)
