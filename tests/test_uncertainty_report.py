"""How sure findings are in the report and on pages of their own: in full, offline, on paper."""

from dataclasses import replace

import pytest

from kinematics.case import Case
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.findings import Finding
from kinematics.uncertainty.found import FindingShare
from scenes.case_words import case_words
from scenes.cases_page import cases_page, write_cases_page
from scenes.drawing_processes import InLine
from scenes.first_page import first_page
from scenes.report import html_report, write_html
from scenes.study_page import study_page, write_study_page
from tests.made_uncertainty import finding_shares, made_uncertainty, share
from tests.printed_page import A4_MM, boxes_mm, printed, read_offline
from tests.shipped_cases import coarse, shipped
from tests.test_many_cases import cases
from tests.test_report import Page


@pytest.fixture(scope="module")
def studied(example):
    """Return the example with an invented study beside it."""
    return replace(example, uncertainty=made_uncertainty())


def test_the_report_tells_shares_at_findings_and_in_a_section(studied):
    """At cards and points; what was not studied is said once."""
    html = html_report(studied, case_words(Case()))
    page = Page(html)
    text = " ".join(" ".join(page.texts).split())
    assert "holds in 71 % of 512 samples (67 to 75), serious in 40 %" in text
    assert "not of patients" in text
    assert text.count("they have no share") == 1
    assert {"how-sure", "not-as-set"} <= set(page.ids)
    assert "What does not hold as set, but in some samples" in text
    assert "known to ±2.1° instead of ±7.8°, would settle it" in text
    assert html == html_report(studied, case_words(Case()))


def test_without_a_study_the_report_speaks_of_none(example):
    """No section, no link, no word."""
    html = html_report(example, case_words(Case()))
    assert "how-sure" not in html.split("</style>")[1]
    assert "of samples" not in html


def test_points_of_the_first_page_tell_the_share_of_their_gravest(studied):
    """And which points were not studied."""
    more = Finding("no centric stop", "attention", "17 has no stop.", tooth_upper=17)
    found = replace(studied, findings=(*studied.findings, more))
    page = first_page(found, finding_groups(found.findings), "canine")
    assert page.points[0].sure_words == "holds in 71 % (67 to 75), not settled"
    assert page.points[2].sure is None
    assert page.sure == (
        "Shares are of 512 samples of uncertain settings, not of patients. Not studied: point 3."
    )
    twice = replace(studied.findings[0], travel_to_mm=2.0, excursion="protrusion")
    found = replace(studied, findings=(*studied.findings, twice))
    page = first_page(found, finding_groups(found.findings), "canine")
    assert page.points[0].sure_words.startswith("the gravest holds in")


@pytest.mark.parametrize("name", ["lower_distal_extension", "nonworking_interference"])
def test_the_first_page_stays_on_its_page(browser, tmp_path, name):
    """With a share at every point, on A4 paper, and not wider than it."""
    result = shipped(name)
    shares = tuple(
        FindingShare(
            item.kind,
            item.excursion,
            ((item.tooth_upper, item.tooth_lower), *item.together),
            item.severity,
            share(364),
            share(12),
            "not settled",
        )
        for item in result.findings
    )
    path = tmp_path / "report.html"
    whole = replace(result, uncertainty=made_uncertainty(findings=shares))
    write_html(path, whole, case_words(coarse(name)))
    tab = printed(browser, path)
    assert len(boxes_mm(tab, ".points .share")) == len(boxes_mm(tab, ".points li")) > 0
    assert boxes_mm(tab, ".caution")[0][3] <= A4_MM[1]
    assert tab.evaluate("document.documentElement.scrollWidth") <= A4_MM[0] * 96 / 25.4
    tab.close()


@pytest.mark.parametrize("width", [1280, 390])
@pytest.mark.parametrize("kind", ["report", "study", "cases"])
def test_pages_open_offline_and_fit_their_window(studied, browser, tmp_path, kind, width):
    """No request, no complaint, nothing wider than the window, bars as wide as they say."""
    path = tmp_path / f"{kind}.html"
    if kind == "report":
        write_html(path, studied, case_words(Case()))
    elif kind == "study":
        write_study_page(path, study_page("A <b>", "Note", studied.uncertainty, InLine()))
    else:
        write_cases_page(path, cases_page("Cases", cases()))
    with read_offline(browser, path, width) as tab:
        outer, inner = tab.locator(".shares .share").first.locator("rect").all()
        shown = inner.bounding_box()["width"] / outer.bounding_box()["width"]
        assert shown == pytest.approx(364 / 512, abs=0.02)


def test_every_chart_of_a_study_fits_on_one_printed_page(browser, tmp_path):
    """Each finding that is not settled stands together with its chart and its records."""
    path = tmp_path / "study.html"
    apart = [replace(finding_shares()[0], pairs=((16, 41 + k),)) for k in range(8)]
    studied = made_uncertainty(findings=tuple(apart))
    write_study_page(path, study_page("Case", "", studied, InLine()))
    tab = printed(browser, path)
    boxes = boxes_mm(tab, ".open")
    assert len(boxes) == 8
    assert all(bottom - top < 0.4 * A4_MM[1] for _, top, _, bottom in boxes)
    tab.close()
