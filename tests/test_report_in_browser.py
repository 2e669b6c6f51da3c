"""The report in a real browser: offline, on wide and narrow screens, and on paper."""

import pytest

from scenes.builtin_cases import builtin_case
from scenes.case_words import case_words
from scenes.report import html_report
from tests.printed_page import A4_MM, arch_heights_px, boxes_mm, printed, read_offline
from tests.shipped_cases import shipped_in_full
from tests.test_report import WORDS


@pytest.fixture(scope="module")
def html(example):
    """Return the report of the example."""
    return html_report(example, WORDS)


def test_a_browser_opens_it_offline_without_complaint(browser, html, tmp_path):
    """No request, no console message; pictures are there; nothing runs off wide or narrow pages."""
    path = tmp_path / "report.html"
    path.write_text(html, "utf-8")
    for width in (1200, 390):
        with read_offline(browser, path, width) as tab:
            drawn = arch_heights_px(tab)
            # Where it is on both arches; the open mouth; MI and five movements on both arches.
            assert len(drawn) == 2 + 1 + 6 * 2
            assert min(drawn) > 100


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints(browser, html, tmp_path, paper):
    """On either paper every figure fits on one page and nothing is cut at the side."""
    path = tmp_path / "report.html"
    path.write_text(html, "utf-8")
    tab = browser.new_page()
    tab.goto(path.as_uri())
    tab.emulate_media(media="print")
    width_mm, height_mm = (182.0, 270.0) if paper == "A4" else (187.9, 252.4)
    per_mm = 96.0 / 25.4
    tab.set_viewport_size({"width": int(width_mm * per_mm), "height": int(height_mm * per_mm)})
    caution = tab.evaluate("document.querySelector('.caution').getBoundingClientRect().bottom")
    assert caution <= height_mm * per_mm  # the first page is complete in itself
    sizes = tab.evaluate(
        "[...document.querySelectorAll('figure, article, table, .readings')].map("
        "e => [e.tagName, e.scrollWidth, e.getBoundingClientRect().height])"
    )
    for tag, wide, high in sizes:
        assert wide <= width_mm * per_mm + 1.0, tag
        if tag != "TABLE":
            assert high <= height_mm * per_mm, tag
    pdf = tab.pdf(format=paper)
    assert pdf.startswith(b"%PDF") and 5 <= pdf.count(b"/Type /Page\n") <= 17
    tab.close()


@pytest.mark.parametrize("name", ["worn_canines", "upper_distal_extension", "natural_dentition"])
def test_the_first_page_of_a_shipped_case_ends_with_its_caution(browser, tmp_path, name):
    """However much was found, A4 paper holds points, picture, guidance, steps and caution."""
    path = tmp_path / "report.html"
    path.write_text(html_report(shipped_in_full(name), case_words(builtin_case(name))), "utf-8")
    tab = printed(browser, path)
    assert boxes_mm(tab, ".caution")[0][3] <= A4_MM[1]
    tab.close()
