"""Interocclusal records in report, findings and result files."""

import json
from dataclasses import replace

import numpy as np
import pytest

from kinematics import checkup
from kinematics.case import Case
from kinematics.geometry.poses import pose_of
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.group_wording import group_sentence, next_steps
from kinematics.planning.recorded_settings import (
    RECORDS_DO_NOT_FIT,
    SETTINGS_DIFFER,
    recorded_findings,
)
from kinematics.records.settings import RecordFitting
from kinematics.result_files import findings_document
from scenes.report import html_report
from tests.made_excursion_records import found, noisy, poses_in, records_of, unlike
from tests.test_report import WORDS, Page

HEADING = "Settings from records"
STEEP = GuidanceSettings(
    right=SideGuidance(condylar_inclination_deg=48.0, immediate_shift_mm=0.9),
    left=SideGuidance(condylar_inclination_deg=35.0),
)
FINE = RecordFitting(translation_scatter_mm=0.01, rotation_scatter_deg=0.05)


def said(*kinds, given=STEEP, settings=None, fitting=FINE):
    """Return what exact records of a jaw say to a case that is set otherwise."""
    settings = unlike(given) if settings is None else settings
    return found(records_of(poses_in(given, kinds), kinds), settings, fitting)


ALL = (("protrusive", 3.0), ("protrusive", 6.0), ("left lateral", 3.0), ("left lateral", 7.0))


def test_results_without_records_say_nothing_of_them(example):
    """What a run told before it tells still."""
    assert "interocclusal_records" not in findings_document(Case(), example, [])


def test_the_section_tells_records_results_and_reasons(example):
    """What was recorded, what follows with units and plane, what does not; linked from the top."""
    page = Page(html_report(replace(example, recorded=said(*ALL)), WORDS))
    assert "interocclusal" in page.ids
    assert "#interocclusal" in page.addresses
    text = page.text
    for words in (
        HEADING,
        "What was recorded.",
        "4, left lateral",
        "right condylar inclination",
        "48.0°",
        "35.0° (outside)",
        "0.90 mm",
        "Inclinations refer to the Camper plane",
        "and stays as the case sets it.",
        "No right lateral record moves the left condyle inward.",
        "The case is set outside the intervals that the records give: right condylar inclination",
    ):
        assert words in text, words


def test_results_hold_the_records_with_every_digit(example):
    """In findings.json, as it was found."""
    told = said(*ALL)
    document = json.loads(
        json.dumps(findings_document(Case(), replace(example, recorded=told), []))
    )["interocclusal_records"]
    first = document["estimates"][0]
    assert (first["side"], first["quantity"], first["unit"]) == (
        "right",
        "condylar inclination",
        "degrees",
    )
    assert first["value"] == told.estimates[0].value
    assert first["standard_error"] == told.estimates[0].standard_error
    assert [kept["reason"] for kept in document["kept"]] == [kept.reason for kept in told.kept]


def test_settings_outside_the_intervals_are_a_finding():
    """It names each with setting and interval, and what to do; inside there is none."""
    (finding,) = recorded_findings(said(*ALL))
    assert (finding.kind, finding.severity) == (SETTINGS_DIFFER, "attention")
    for words in (
        "the right condylar inclination is set to 35.0 degrees (by the records 47.",
        "the right immediate shift is set to 0.00 mm (by the records 0.",
        "set what the records give (cuspway records with --write)",
    ):
        assert words in finding.text, finding.text
    assert "left condylar inclination" not in finding.text
    assert not list(recorded_findings(said(*ALL, settings=STEEP)))
    (group,) = finding_groups((finding,), ())
    assert group_sentence(group).startswith("Settings of the guidance are not those")
    assert any("interocclusal records" in step for step in next_steps((group,)))


def test_a_bennett_angle_outside_is_one_too():
    """One lateral record of a jaw with a shift, in a case without one."""
    (finding,) = recorded_findings(said(("left lateral", 5.0)))
    assert "the right Bennett angle at 5.0 mm is set to 9.0 degrees (by the records" in finding.text


@pytest.mark.parametrize("seed", range(50))
def test_a_record_that_is_off_is_found(seed):
    """Any of the records higher or lower by 1 mm: it is said, with the largest misfit."""
    poses = poses_in(STEEP, ALL, seed)
    off = seed % 4
    poses[off] = pose_of(np.eye(3), np.array([0.0, 0.0, (-1.0) ** (seed // 4)])) @ poses[off]
    fitting = replace(FINE, right_as_set=("curvature",), left_as_set=("curvature",))
    told = found(records_of(poses, ALL), STEEP, fitting)
    first = next(recorded_findings(told))
    assert first.kind == RECORDS_DO_NOT_FIT
    assert "fit no guidance within their scatter" in first.text
    assert first.margin is not None


def test_records_that_agree_are_no_finding():
    """Exact ones, and noisy ones as often as they should."""
    assert not list(recorded_findings(said(*ALL, settings=STEEP)))
    poses = poses_in(STEEP, ALL)
    kinds = [
        finding.kind
        for seed in range(12)
        for finding in recorded_findings(
            found(
                records_of([noisy(p, np.random.default_rng(seed)) for p in poses], ALL),
                STEEP,
                RecordFitting(),
            )
        )
    ]
    assert kinds.count(RECORDS_DO_NOT_FIT) <= 1


def test_a_whole_run_takes_them_along():
    """From the case to its findings: records, section and finding are there."""
    case = Case(
        guidance=unlike(STEEP),
        interocclusal_records=tuple(records_of(poses_in(STEEP, ALL), ALL)),
        settings_from_records=FINE,
        lateroprotrusion_azimuths_deg=(),
    )
    result = checkup.run(case, progress=lambda _: None)
    assert result.recorded is not None
    assert SETTINGS_DIFFER in {finding.kind for finding in result.findings}
