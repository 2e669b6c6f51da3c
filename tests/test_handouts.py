"""What a report hands on: limits of its records, check list, pages for patient and laboratory."""

import re
from dataclasses import replace

import pytest

from kinematics.case_sequence import order_of_work
from kinematics.planning.judging import DentureBase
from kinematics.result_texts import CAUTION
from scenes.case_words import case_words
from scenes.report import html_report
from tests.checked_cases import NAMES, checked
from tests.made_needs import ALL
from tests.printed_page import boxes_mm, printed
from tests.reading_level import TRADE_WORDS, grade
from tests.test_report import WORDS, Page

HANDOUTS = ("chairside", "patient", "laboratory")
#: The plan for the patient stands there only where something is to be done.
PLAN = "patient plan"
BASE = DentureBase(name="upper right base", teeth=(15, 16, 17), abutments=(14,))
#: Units that may follow a number with decimals.
_UNIT = r"(?: mm²?| µm| N\b|°|, | to )"


def part(html, name):
    """Return one part of a report, as text."""
    start = html.index(f'<section class="{name}">')
    return Page(html[start : html.index("</section>", start)]).text


def parts(html):
    """Return all four by name."""
    plan = (PLAN,) if f'"handout {PLAN}"' in html else ()
    return {"limits": part(html, "limits")} | {
        name: part(html, f"handout {name}") for name in (*HANDOUTS, *plan)
    }


@pytest.fixture(scope="module")
def html(example):
    """Return the report of the example with its base and an order of work with every step."""
    ordered = replace(example, sequence=order_of_work(ALL.case, ALL.found(example)))
    return html_report(ordered, replace(WORDS, bases=(BASE,)))


@pytest.fixture(scope="module", params=NAMES)
def whole(request):
    """Return a whole case: case, checkup and report."""
    case, checkup = checked(request.param)
    return case, checkup, html_report(checkup, case_words(case))


def test_each_page_stands_alone(html):
    """Title, case, caution and sides of the patient on each; blanks and boxes to fill in."""
    said = parts(html)
    for name, title in (
        ("chairside", "Check list at the chair"),
        ("patient", "For the patient: how your teeth meet"),
        ("laboratory", "For the laboratory"),
    ):
        assert said[name].startswith(title)
        assert f"Case: {WORDS.title}." in said[name]
        assert "not a medical device" in said[name]
    assert CAUTION in said["chairside"] and CAUTION in said["laboratory"]
    assert "Right and left are the patient's" in said["chairside"]
    assert "Right and left are the patient's" in said["laboratory"]
    assert "Your dentist looks in your mouth and decides" in said["patient"]
    for blank in ("patient", "dentist", "laboratory", "signature of the dentist", "date"):
        assert blank in said["laboratory"]


def test_the_check_list_has_boxes_for_every_line(html):
    """Yes and no, not ticked, on every row; the meaning of a difference beside them."""
    start = html.index('<section class="handout chairside">')
    section = html[start : html.index("</section>", start)]
    rows = section.count('<th scope="row">')
    assert rows > 10
    assert section.count('class="box"></span> yes') == rows
    assert section.count('class="box"></span> no') == rows
    assert section.count("do not cut") >= rows
    assert "cut nothing until the two agree" in part(html, "handout chairside")


def test_a_case_with_nothing_wrong_and_nothing_replaced(example):
    """Each part says so in words instead of staying empty."""
    still = replace(example, findings=(), replacement=())
    said = parts(html_report(still, replace(WORDS, replacement_teeth=())))
    assert "It found nothing that calls for attention." in said["patient"]
    assert "replacement" not in said["patient"]
    assert "This case has no replacement teeth." in said["laboratory"]
    assert "No contact in an excursion has to be removed." in said["laboratory"]
    assert "verdicts on guidance would be open." in said["limits"]


def test_the_patient_is_shown_the_teeth_without_a_new_picture(html, example):
    """Rings lie over the arches that are already in the page: no picture more."""
    start = html.index('<section class="handout patient">')
    section = html[start : html.index("</section>", start)]
    assert section.count("<ellipse") == 4
    assert section.count('<use href="#arch-') == 2
    assert "<image" not in section
    assert html.count("data:image/jpeg") == 3


def test_whole_cases_in_words(whole):
    """No empty unit, no number without one, no tooth that is not there, no word of the trade."""
    case, checkup, html = whole
    said = parts(html)
    for name, text in said.items():
        assert "  " not in text and "None" not in text and "nan" not in text.split()
        assert not re.search(r"\binf\b", text)
        assert not re.search(r"(?<![\d.])(?:mm|µm)\.? (?:mm|µm)", text), name
        bare = re.findall(rf"(?<![\d.:/])\d+\.\d+(?!\d)(?!{_UNIT})[^.]{{0,20}}", text)
        assert bare == [], name
        for code in case.dentition.missing:
            assert not re.search(rf"(?<![\d.]){code}(?= on | and \d\d|/)", text)
    for name in {PLAN, "patient"} & said.keys():
        plain = said[name].replace(f"Case: {case.title}.", "")
        assert not TRADE_WORDS.search(plain)
        assert grade(plain) < 7.0
    assert (PLAN in said) == bool(checkup.sequence.steps)
    plain = said["patient"]
    graver = [item for item in checkup.findings if item.severity != "note"]
    assert ("nothing that calls for attention" in plain) == (not graver)


def test_whole_cases_are_complete(whole):
    """Every stop of a replacement tooth, every base and setting; every open verdict."""
    case, checkup, html = whole
    said = parts(html)
    for base in case.denture_bases:
        assert base.name in said["laboratory"] and base.scheme in said["laboratory"]
    for row in case_words(case).settings:
        if row.group.startswith("guidance") and row.value != "not given":
            assert f"{row.name} {row.shown}" in said["laboratory"] or row.group.endswith(", left")
    scatter = case.judging.record_scatter_mm
    words = "set to scatter by" if scatter else "taken as exact"
    assert words in said["limits"]
    assert "Settings that may not have been recorded" in said["limits"]
    assert "82 %" in said["limits"] and "Morneburg & Proeschel" in said["limits"]
    mi = said["chairside"][said["chairside"].index("Maximal intercuspation (MI)") :]
    for stop in checkup.stops:
        assert f"{stop.tooth_upper}/{stop.tooth_lower}" in mi


def test_the_longest_plan_for_the_patient_fits_one_page(browser, html, tmp_path):
    """With space for what the dentist changes, and for signatures."""
    path = tmp_path / "report.html"
    path.write_text(html, "utf-8")
    tab = printed(browser, path)
    ((_, top, _, bottom),) = boxes_mm(tab, ".plan")
    assert bottom - top <= 270.0
    assert len(boxes_mm(tab, ".plan .blanks div")) == 6
    tab.close()


def test_every_place_that_a_report_points_to_is_there(whole):
    """Links between its parts, those of the order of work too."""
    *_, html = whole
    assert {*re.findall(r'href="#([\w-]+)"', html)} <= {*re.findall(r' id="([\w-]+)"', html)}


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_pages_on_paper(browser, whole, tmp_path, paper):
    """A new page for each; nothing cut at the side; the check list fits on two, the patient's one.

    Rows, pictures and lines to fill in are never parted.
    """
    *_, html = whole
    path = tmp_path / "report.html"
    path.write_text(html, "utf-8")
    tab = browser.new_page()
    tab.goto(path.as_uri())
    tab.emulate_media(media="print")
    width_mm, height_mm = (182.0, 270.0) if paper == "A4" else (187.9, 252.4)
    per_mm = 96.0 / 25.4
    tab.set_viewport_size({"width": int(width_mm * per_mm), "height": int(height_mm * per_mm)})
    found = tab.evaluate(
        "[...document.querySelectorAll('.handout')].map(e => [e.className.slice(8), e.scrollWidth,"
        " e.getBoundingClientRect().height, getComputedStyle(e).breakBefore])"
    )
    assert [name for name, *_ in found if name != PLAN] == list(HANDOUTS)
    most = {"chairside": 2.0, "patient": 1.0, PLAN: 1.0, "laboratory": 2.0}
    for name, wide, high, breaks in found:
        assert breaks == "page"
        assert wide <= width_mm * per_mm + 1.0, name
        assert high <= most[name] * height_mm * per_mm, name
    whole_ones = tab.evaluate(
        "[...document.querySelectorAll('.handout tr, .handout .blanks, .ringed, .limits tr')].map("
        "e => [e.getBoundingClientRect().height, getComputedStyle(e).breakInside])"
    )
    for high, breaks in whole_ones:
        assert breaks == "avoid" and high < 0.3 * height_mm * per_mm
    tab.close()
