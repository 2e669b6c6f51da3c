"""The section of the report on the raised bite: its words, its tables, its side view, on paper."""

import math
import re
from dataclasses import replace
from itertools import combinations, pairwise

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.transforms import Bbox

from kinematics.planning.raised_bite import FrontTeeth
from scenes.case_words import case_words
from scenes.phrases import degrees, length, number
from scenes.raised_bite import raised_words
from scenes.raised_bite_chart import nearer_side, raised_chart
from scenes.report import html_report
from scenes.sheet import MM_PER_INCH, MM_PER_POINT, Line, Words
from tests.checked_cases import checked
from tests.example_checkup import LOWERS
from tests.made_raised import made_raised, turned_bite
from tests.test_report import WORDS, Page

PLANE = "Camper plane"
HEADING = "What does raising the bite change?"
#: Bites that are hard to draw: tiny and great openings, a low jaw, a free pin, a way forward, gaps.
DRAWN = {
    "usual": {},
    "MI in CR": {"slide_mm": 0.0},
    "tiny": {"raised_mm": 0.05, "slide_mm": 0.0},
    "greatest": {"raised_mm": 8.0, "slide_mm": 1.5},
    "low": {"point": (70.0, 0.0, -55.0)},
    "low, free pin": {"point": (70.0, 0.0, -55.0), "pin_holds": False, "pin_opening_mm": 2.5},
    "level": {"point": (90.0, 0.0, -5.0), "slide_mm": 0.0},
    "above the axis": {"point": (90.0, 0.0, 12.0), "slide_mm": 0.0},
    "third molars": {"codes": (48, *LOWERS, 38)},
    "free pin": {"pin_holds": False, "pin_opening_mm": 0.3},
    "free pin, just so": {"pin_holds": False, "pin_opening_mm": 2.99, "first_contact_lower": 0},
    "few teeth": {"codes": (41, 31, 32)},
    "no tooth": {"codes": ()},
}


def words_of(raised):
    """Return what is said."""
    return raised_words(raised, PLANE)


def row_of(**changed):
    """Return the row of one tooth with some fields changed."""
    tooth = replace(turned_bite(codes=(46,)).teeth[0], **changed)
    return words_of(made_raised(teeth=(tooth,))).teeth.rows[0]


def test_a_bite_that_stays_is_not_mentioned(example):
    """No words, no section, no link to it."""
    assert raised_words(None, PLANE) is None
    page = Page(html_report(example, WORDS))
    assert HEADING not in page.text
    assert "Raised bite" not in page.text
    assert "vertical-dimension" not in page.ids
    assert "interocclusal" not in page.ids  # nor are records that there are not
    assert "Settings from records" not in page.text


def test_what_was_asked_and_what_is_reached():
    """Amount, place, plane; what holds; how far back; the turn from MI, not that from opening 0."""
    words = words_of(made_raised())
    assert "raise the bite by 3.00 mm" in words.asked
    assert "square to the reference plane (Camper plane)" in words.asked
    assert "The pin holds the jaw there." in words.reached
    assert "upper 17 and lower 47 would touch first, 1.20 mm away" in words.reached
    assert "stands 1.10 mm behind its place in MI" in words.reached
    assert "turned open by 2.0°" in words.turned
    assert "steeper" in words.turned
    assert "2.4°" not in " ".join((words.asked, words.reached, words.turned))


def test_teeth_that_hold_the_jaw_are_named():
    """The pin stands free, and what is reached is not what was asked for."""
    words = words_of(made_raised(pin_holds=False, raised_mm=3.42, first_arc_gap_mm=0.0))
    assert "raise the bite by 3.00 mm" in words.asked
    assert "upper 17 and lower 47 touch before it does" in words.reached
    assert "raised by 3.42 mm instead, and the pin stands free" in words.reached
    assert "The pin holds" not in words.reached
    assert "away" not in words.reached


@pytest.mark.parametrize("holds", [True, False])
def test_a_part_that_is_no_tooth_is_called_so(holds):
    """Code 0 is gum or base, never a number."""
    bare = made_raised(pin_holds=holds, first_contact_lower=0)
    assert "upper 17 and lower gum or base" in words_of(bare).reached
    both = made_raised(pin_holds=holds, first_contact_upper=0, first_contact_lower=0)
    assert "upper gum or base and lower gum or base" in words_of(both).reached


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"back_mm": -0.4}, "stands 0.40 mm ahead of its place in MI"),
        ({"back_mm": 0.001}, "neither behind nor ahead of its place in MI"),
        ({"turned_deg": -0.3}, "turned closed by 0.3° about the hinge axis"),
        ({"turned_deg": -0.3}, "the lower occlusal plane is flatter"),
        ({"turned_deg": 0.01}, "the jaw is turned as in MI"),
    ],
)
def test_directions_are_said_in_words(changed, told):
    """No number carries a sign that a reader would have to interpret."""
    words = words_of(made_raised(**changed))
    assert told in f"{words.reached} {words.turned}"
    assert "−" not in f"{words.reached} {words.turned}"


def test_overlap_of_the_front_teeth_before_and_after():
    """In MI and raised; an open bite and a reversed overjet in words; not measured is said."""
    raised = made_raised(front=FrontTeeth(-0.93, 4.4), front_in_mi=FrontTeeth(2.06, -0.5))
    overbite, overjet = words_of(raised).front.rows
    assert overbite[1:] == ("2.06 mm", "none: an open bite of 0.93 mm")
    assert overjet[1:] == ("reversed: lower ahead by 0.50 mm", "4.40 mm")
    for row in words_of(made_raised()).front.rows:
        assert row[1:] == ("not measured", "not measured")
    level = made_raised(front=FrontTeeth(-0.001, 0.0), front_in_mi=FrontTeeth(0.0, 0.0))
    for row in words_of(level).front.rows:
        assert row[1:] == ("0.00 mm", "0.00 mm")


def test_a_row_a_tooth():
    """Drop, room to which tooth, way along the arc, each with its unit."""
    assert row_of(opening_mm=2.1, room_mm=1.5, nearest_upper=16, arc_gap_mm=2.5) == (
        "46",
        "2.10 mm",
        "1.50 mm to 16",
        "2.50 mm",
    )


def test_what_has_no_number_is_said_in_words():
    """Nothing within the limit, nothing on the arc, no gap, a tooth that rises."""
    far = row_of(nearest_upper=None, room_mm=math.inf, arc_gap_mm=math.inf)
    assert far[2:] == ("more than 20 mm", "nothing in its way")
    assert row_of(arc_gap_mm=0.0, room_mm=0.0, nearest_upper=16)[2:] == ("touches 16", "touches")
    assert row_of(opening_mm=-0.2)[1] == "0.20 mm higher"


def _page_with(example, raised):
    few = replace(example, sweeps=example.sweeps[:1], findings=(), raised=raised)
    return html_report(few, WORDS)


def test_the_section_stands_in_the_page(example):
    """Heading and link, every row, void MI, the caution; a figure with a title and a text."""
    raised = turned_bite()
    html = _page_with(example, raised)
    page = Page(html)
    section = html[html.index('<h2 id="vertical-dimension">') :]
    section = section[: section.index("</section>")]
    text = Page(section).text
    assert '<a href="#vertical-dimension">' in html
    assert HEADING in text
    for tooth in raised.teeth:
        told = f"{tooth.tooth_lower} {length(tooth.opening_mm)} {length(tooth.room_mm)}"
        assert told in text
    for words in (
        "MI is void: the habitual bite cannot be used",
        "the record must be taken in centric relation",
        "tried in the mouth with a reversible appliance",
        "judged by the treating dentist",
        "common practice",
        "an open bite of 0.90 mm",
        degrees(raised.turned_deg),
    ):
        assert words in text
    named = re.search(r'<svg role="img" aria-labelledby="(\S+) (\S+)"', section).groups()
    assert set(named) <= set(page.ids)
    assert "<title" in section
    assert f"{length(raised.raised_mm)} below and {length(raised.back_mm)} behind" in text
    assert len(page.ids) == len(set(page.ids))


def test_no_rule_of_thumb_stands_for_a_measurement(example):
    """The share of the drop that reaches a molar is measured, never told as a fraction."""
    section = _page_with(example, turned_bite())
    section = section[section.index('<h2 id="vertical-dimension">') :]
    section = section[: section.index("</section>")]
    assert not re.search(r"third|1/3|⅓|3:1|3 to 1|33 ?%", Page(section).text)


@pytest.mark.parametrize("codes", [(), (47, 46, 36, 37)])
def test_arches_without_front_teeth_or_without_teeth_have_a_section(example, codes):
    """What is not there has no row; the section is there all the same."""
    text = Page(_page_with(example, turned_bite(codes=codes, front=None, front_in_mi=None))).text
    assert HEADING in text
    assert "not measured" in text
    assert ("The farther back a tooth stands" in text) == bool(codes)


def _boxes(sheet):
    """Return every text of a sheet with its box as it is drawn, mm."""
    figure = Figure(
        figsize=(sheet.width_mm / MM_PER_INCH, sheet.height_mm / MM_PER_INCH), dpi=MM_PER_INCH * 20
    )
    renderer = FigureCanvasAgg(figure).get_renderer()
    found = []
    for words in (item for item in sheet.items if isinstance(item, Words)):
        x, y = words.place
        text = figure.text(
            x / sheet.width_mm,
            y / sheet.height_mm,
            words.text,
            fontsize=words.size_pt,
            fontweight="bold" if words.bold else "normal",
            fontfamily="DejaVu Sans",
            ha=words.across,
            va=words.upward,
            linespacing=words.line_spacing,
        )
        box = text.get_window_extent(renderer)
        found.append((words, Bbox(box.get_points() / 20.0)))
    return found


@pytest.mark.parametrize("name", DRAWN)
def test_words_in_the_side_view_never_meet(name):
    """Not one another, not the edge of the sheet; marks and dark lines do not run through them."""
    sheet = raised_chart(turned_bite(**DRAWN[name]))
    boxes = _boxes(sheet)
    for (one, first), (other, second) in combinations(boxes, 2):
        assert not first.overlaps(second), (one.text, other.text)
    for words, box in boxes:
        assert box.x0 > 0.5 and box.x1 < sheet.width_mm - 0.5, words.text
        assert box.y0 > 5.0 and box.y1 < sheet.height_mm, words.text  # the key stands below
    for line in (item for item in sheet.items if isinstance(item, Line) and item.level >= 2.0):
        for words, box in boxes:
            assert words.ground or not _meets(line, box), words.text


def _meets(line, box):
    """Tell whether a line as it is drawn, or one of its marks, comes into a box."""
    ways = line.points if len(line.points) == 1 else _along(line)
    if line.within is not None:
        left, bottom, width, height = line.within
        inside = (ways >= [left, bottom]) & (ways <= [left + width, bottom + height])
        ways = ways[inside.all(axis=1)]
    pad = 0.5 * line.mark_pt * MM_PER_POINT if len(line.points) == 1 else 0.0
    low, high = box.min - pad, box.max + pad
    return bool(((ways > low) & (ways < high)).all(axis=1).any())


def _along(line):
    """Return points close together along a line."""
    shares = np.linspace(0.0, 1.0, 200)[:, None]
    pairs = pairwise(line.points)
    return np.concatenate([first + shares * (last - first) for first, last in pairs])


@pytest.mark.parametrize("name", DRAWN)
def test_the_side_view_carries_its_measures(name):
    """Drop and way back with their units; the drop is drawn as long as its scale says."""
    raised = turned_bite(**DRAWN[name])
    sheet = raised_chart(raised)
    texts = [item.text for item in sheet.items if isinstance(item, Words)]
    assert length(raised.raised_mm) in texts
    way = "back" if raised.back_mm >= 0.0 else "forward"
    assert f"{length(abs(raised.back_mm))} {way}" in texts
    for tooth in nearer_side(raised.teeth)[1]:
        assert number(tooth.opening_mm, 2) in texts
    drop, back = (_measured(sheet, bar) for bar in "_|")
    assert drop / abs(back) == pytest.approx(raised.raised_mm / abs(raised.back_mm), rel=1e-6)


def _measured(sheet, bar):
    (line,) = (item for item in sheet.items if isinstance(item, Line) and item.mark == bar)
    return math.dist(*line.points)


def test_mi_stands_on_the_arc_only_where_it_is_in_cr():
    """The arc goes through the raised point always, through MI only without a slide."""
    for slide_mm, on_arc in ((0.0, True), (0.6, False)):
        sheet = raised_chart(turned_bite(slide_mm=slide_mm))
        lines = [item for item in sheet.items if isinstance(item, Line)]
        arc = _along(next(line for line in reversed(lines) if len(line.points) > 200))
        in_mi, stands = (
            next(line.points[0] for line in reversed(lines) if line.mark == "o" and fits(line))
            for fits in (
                lambda line: line.dash != "-" and len(line.points) == 1,
                lambda line: line.dash == "-" and len(line.points) == 1,
            )
        )
        assert np.linalg.norm(arc - stands, axis=1).min() < 0.05
        assert (np.linalg.norm(arc - in_mi, axis=1).min() < 0.05) == on_arc


def test_the_fuller_side_is_drawn():
    """The right one where both are alike; no tooth, no row."""
    assert nearer_side(turned_bite().teeth)[0] == "right"
    side, teeth = nearer_side(turned_bite(codes=(47, 41, 31, 36, 37)).teeth)
    assert side == "left"
    assert [tooth.tooth_lower for tooth in teeth] == [31, 36, 37]
    assert nearer_side(()) == ("right", ())
    titles = [raised_chart(turned_bite(codes=codes)).items[0].text for codes in ((31,), ())]
    assert "the patient's left" in titles[0] and "patient" not in titles[1]


def test_a_whole_run_prints_the_section():
    """From the case file to the page, with the figures that were computed."""
    case, checkup = checked("raised")
    page = Page(html_report(checkup, case_words(case)))
    assert HEADING in page.text
    assert f"raise the bite by {length(case.pin_opening_mm)}" in page.text
    for tooth in checkup.raised.teeth:
        assert f"{length(tooth.room_mm)} to {tooth.nearest_upper}" in page.text


@pytest.mark.parametrize("paper_mm", [(182.0, 270.0), (187.9, 252.4)], ids=["A4", "Letter"])
def test_it_prints_whole(browser, example, tmp_path, paper_mm):
    """On either paper the side view and the tables of the section fit on a page each."""
    path = tmp_path / "report.html"
    path.write_text(_page_with(example, turned_bite(codes=(48, *LOWERS, 38))), "utf-8")
    tab = browser.new_page()
    tab.goto(path.as_uri())
    tab.emulate_media(media="print")
    wide, high = (int(size * 96.0 / MM_PER_INCH) for size in paper_mm)
    tab.set_viewport_size({"width": wide, "height": high})
    sizes = tab.evaluate(
        "[...document.querySelectorAll('.raised figure, .raised table, .raised svg[role]')].map("
        "e => [e.scrollWidth, e.getBoundingClientRect().width, e.getBoundingClientRect().height])"
    )
    assert len(sizes) == 4
    for inner, outer, tall in sizes:
        assert max(inner, outer) <= wide + 1.0
        assert 20.0 < tall <= high
    kept = tab.evaluate(
        "[...document.querySelectorAll('.raised figure, .raised .keep')].map("
        "e => getComputedStyle(e).breakInside)"
    )
    assert kept == ["avoid"] * 3
    tab.close()
