"""The report says everything that was found, alone, offline, and on paper."""

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from kinematics.planning.base_rules import SEVERITY_RULE
from kinematics.planning.findings import Figure
from kinematics.planning.guidance_rivals import Rival
from kinematics.planning.guidance_stretches import Stretch
from kinematics.planning.stops import Stop
from scenes import finding_cards, opengl_probe, report_tables, writers
from scenes.phrases import figure, length, number, pair, travel
from scenes.reading_rows import all_readings
from scenes.report import CaseWords, html_report, write_html
from scenes.report_tables import excursion_titles, mostly, starts_in_mi
from scenes.setting_tables import SettingRow, setting_tables

LIMIT_BYTES = 2_500_000
WORDS = CaseWords(
    title="Invented <case> & more",
    note="Nobody's teeth.",
    reference_plane="Camper plane",
    settings=(
        SettingRow("guidance", "condylar inclination, right", "35", "°"),
        SettingRow("guidance", "condylar inclination, left", "37", "°"),
        SettingRow("contact", "tolerance", "20", "µm"),
    ),
    replacement_teeth=(15, 16, 17),
    cautions=("The scans overlap.",),
)


class Page(HTMLParser):
    """Collects visible text, element names, ids and every address of a page."""

    def __init__(self, html):
        super().__init__()
        self.texts, self.addresses, self.ids, self.tags, self.policy = [], [], [], [], ""
        self._hidden = False
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        """Note the name and the attributes of an element."""
        values = dict(attrs)
        self.tags.append(tag)
        self._hidden = tag == "style"
        if "id" in values:
            self.ids.append(values["id"])
        self.addresses += [v for k, v in attrs if k in ("src", "href", "xlink:href", "data")]
        if values.get("http-equiv") == "Content-Security-Policy":
            self.policy = values["content"]

    def handle_data(self, data):
        """Note text that is shown."""
        if not self._hidden:
            self.texts.append(data)

    @property
    def text(self):
        """Visible text with single spaces."""
        return " ".join(" ".join(self.texts).split())


@pytest.fixture(scope="module")
def html(example):
    """Return the report of the example."""
    return html_report(example, WORDS)


@pytest.fixture(scope="module")
def page(html):
    """Return the report taken apart."""
    return Page(html)


def test_what_guides_is_headed_alike_on_the_first_page_and_with_the_readings(example):
    """Also where it changes along the way, and with what it could also be."""
    rival = Rival("canine with incisors", 2.0, 12, 42, 0.12, "misses")
    changing = (Stretch(0.6, 2.0, "canine", (), ()), Stretch(2.1, 3.0, "partial group", (), ()))
    first, *others = example.verdicts
    made = replace(first, kind="canine", stretches=changing, rival=rival, determined=False)
    text = Page(html_report(replace(example, verdicts=(made, *others)), WORDS)).text
    assert text.count("Protrusion: canine over most of the way; could also be canine with in") == 2
    assert text.count("with incisors: at 2.0 mm 12 on 42 misses by 0.12 mm") == 2
    for verdict in others:
        title = excursion_titles(example)[verdict.excursion]
        assert text.count(f"{title}: {mostly(verdict)}") >= 1 + starts_in_mi(verdict.excursion)


def test_everything_found_is_said(example, page):
    """Every finding with its figures, limit, source, margin and runner-up; every verdict."""
    for finding in example.findings:
        assert finding.text in page.text
        for item in (*finding.figures, finding.threshold, finding.margin):
            if item is not None:
                assert item.name in page.text
                assert figure(item) in page.text
        for words in (finding.threshold_source, finding.runner_up):
            assert words in page.text
    for words in (
        "across: 0.62 N across per N along",
        "compared with margin: 0.20 mm (common practice)",
        "how near: 0.20 mm short of the threshold",
        "how near: 14 µm beyond the threshold",
        "runner-up: the next to touch would be 17 on 47",
    ):
        assert words in page.text
    for verdict in example.verdicts:
        assert verdict.text in page.text
        assert verdict.kind in page.text
    assert page.text.count("not determined by these records") >= 3
    for setting in WORDS.settings:
        assert (
            f"{setting.name} {setting.value}{' ' * (setting.unit != '°')}{setting.unit}"
            in page.text
        )
    assert "The scans overlap." in page.text


def test_the_gravest_comes_first_and_is_named_in_words(page):
    """Severities stand as words beside their signs, serious before attention before note."""
    places = [page.text.index(word) for word in ("1 serious", "1 attention", "1 note")]
    assert places == sorted(places)
    first, second = (page.text.index(w) for w in ("Replacement tooth 16 touches", "Contact of 27"))
    assert page.text.index("What is wrong") < first < second < page.text.index("What touches")


def test_with_nothing_wrong_the_first_page_shows_where_the_teeth_touch(example, html):
    """The open mouth with its marks comes first, in the marks section else; never twice."""
    calm = html_report(replace(example, findings=example.findings[2:]), WORDS)
    for text, before in ((calm, 'id="findings"'), (html, 'id="replacement"')):
        assert text[: text.index('id="chairside"')].count('<use href="#mouth"/>') == 1
        assert text.index('<use href="#mouth"/>') < text.index(before)
    assert html.index('id="marks"') < html.index('<use href="#mouth"/>')
    of_patient = calm[calm.index('id="patient"') : calm.index('id="laboratory"')]
    assert of_patient.count('<use href="#mouth"/>') == 1
    assert 'href="#mouth-picture"' in calm and "the picture of the first page" in calm
    told = Page(calm).text
    assert "What is wrong" not in told and "Nothing was found that calls for attention." in told
    assert "What is wrong" in Page(html).text


def test_the_limits_of_the_report_are_said(page):
    """Not a medical device; what decides; the published share of contacts; the severity rule."""
    for words in (
        "not a medical device",
        "licensed clinician",
        "mounted casts",
        "local rules",
        "82 %",
        "90 %",
        "Tamaki et al., J Prosthet Dent 1997;78:373-378",
        "Every inclination refers to the reference plane of this case: Camper plane",
        *(row.text for row in SEVERITY_RULE),
    ):
        assert words in page.text


def test_the_page_is_alone_and_forbids_what_it_does_not_need(html, page):
    """No script, no address but its own parts and data; a policy that forbids the rest; small."""
    assert page.policy == "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
    assert not {"script", "link", "iframe", "object", "base", "form"} & set(page.tags)
    for address in page.addresses:
        assert address.startswith(("#", "data:image/jpeg;base64,"))
        if address.startswith("#"):
            assert address[1:] in page.ids
    assert len(page.ids) == len(set(page.ids))
    assert not re.search(r"url\((?!#)", html) and "@import" not in html
    assert len(html.encode()) < LIMIT_BYTES


def test_text_of_a_case_cannot_become_markup(html):
    """Angle brackets and ampersands of titles and findings are shown as such."""
    assert "<case>" not in html and "Invented &lt;case&gt; &amp; more" in html
    assert "<b>lifts</b>" not in html


def test_the_same_results_give_the_same_bytes(example, html, tmp_path):
    """Written again, the file is the page, byte for byte, without a date or a path."""
    write_html(tmp_path / "report.html", example, WORDS)
    assert (tmp_path / "report.html").read_bytes() == html.encode("utf-8")
    assert str(tmp_path) not in html
    assert not re.search(r"20\d\d-\d\d-\d\d", html)


def test_without_opengl_the_report_comes_with_one_line_more(example, monkeypatch):
    """Simplified drawings, and the line that names the packages; plots and tables as ever."""
    missing = opengl_probe.Drawing(None, opengl_probe.MISSING_TEXT)
    monkeypatch.setattr(writers, "probe", lambda: missing)
    page = Page(html_report(replace(example, sweeps=example.sweeps[:1]), WORDS))
    assert page.text.count(opengl_probe.MISSING_TEXT) == 1
    assert sum(a.startswith("data:image/jpeg") for a in page.addresses) == 3
    # where it is, 2 close-ups, open mouth, 2 of marks, chart, gaps, 2 of tracks, borders
    assert page.tags.count("figure") == 11


def test_a_bare_checkup_still_makes_a_report(example):
    """No findings, stops, replacement teeth or border tracks: each section says so."""
    few = replace(example, sweeps=example.sweeps[:1])
    bare = replace(few, findings=(), stops=(), replacement=(), borders=(), verdicts=())
    bare = replace(bare, outlines=None)
    text = Page(html_report(bare, replace(WORDS, replacement_teeth=(), note=""))).text
    assert "Border movements" not in text
    for words in (
        "Nothing was found that calls for attention.",
        "No centric stop was found",
        "This case has no replacement teeth.",
    ):
        assert words in text


@pytest.mark.filterwarnings("error")
def test_a_movement_without_length_is_not_drawn(example):
    """Where MI is in CR there is no way back to draw; the stops are told all the same."""
    back = replace(example.sweeps[4], travel_mm=0.0 * example.sweeps[4].travel_mm)
    still = replace(example, sweeps=(example.sweeps[0], back), findings=(), replacement=())
    page = Page(html_report(still, replace(WORDS, replacement_teeth=())))
    assert page.tags.count("figure") == 8  # as with one movement, without findings
    assert "This case has no replacement teeth." in page.text
    assert "17/47 3 1.0 µm" in page.text


def test_settings_keep_their_order(page):
    """Groups stand in the order given, not in that of the alphabet."""
    settings = page.text[page.text.index("Every inclination refers") :]
    assert settings.index("guidance") < settings.index("contact")


def test_what_is_set_for_both_sides_stands_side_by_side():
    """Right and left become one table where they hold the same settings, else each its own."""
    right, left = (
        [SettingRow(f"guidance, {side}", name, value, unit) for name, value, unit in rows]
        for side, rows in (
            ("right", (("path", "straight", ""), ("inclination", "35", "°"))),
            ("left", (("path", "curved", ""), ("inclination", "37", "°"))),
        )
    )
    (both,) = setting_tables((*right, *left))
    assert both.head == ("guidance", "right", "left")
    assert both.rows == (("path", "straight", "curved"), ("inclination", "35°", "37°"))
    more = SettingRow("guidance, left", "radius", "6", "mm")
    apart = setting_tables((*right, *left, more))
    assert [table.head for table in apart] == [("guidance, right",), ("guidance, left",)]
    assert apart[1].rows[-1] == ("radius", "6 mm")


def test_long_sources_are_told_once(example):
    """A source too long to be repeated stands under a number, and the findings name that."""
    source = "a rule of the trade that somebody measured on a great many people, and published"
    first, second, third = example.findings
    findings = (
        replace(first, threshold_source=source),
        replace(second, threshold_source=source),
        third,
    )
    page = Page(html_report(replace(example, sweeps=(), findings=findings), WORDS))
    assert page.text.count(source) == 1
    assert page.text.count("(source 1)") == 2
    assert page.text.index("(source 1)") < page.text.index("Where the limits come from")


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.002, "2.0 µm"), (0.034, "34 µm"), (0.5, "0.50 mm"), (-0.62, "−0.62 mm"), (3.0, "3.00 mm")],
)
def test_lengths_carry_their_unit(value, text):
    """Micrometres where small, a true minus sign."""
    assert length(value) == text


def test_figures_carry_their_unit():
    """Every unit a finding knows is written; a bare count stays bare."""
    shown = [figure(Figure("x", v, u)) for v, u in ((31.04, "deg"), (20, "um"), (0.62, "N/N"))]
    assert shown == ["31.0°", "20 µm", "0.62 N across per N along"]
    assert figure(Figure("pairs", 3, "")) == "3"
    assert number(-0.0001, 2) == "0.00"


def test_teeth_and_travel_in_words():
    """Unknown teeth are left out; a range of one place is "at"."""
    assert (pair(16, 46), pair(16, None), pair(None, None)) == ("16/46", "16", "")
    assert (travel(0.5, 2.5), travel(None, 1.0), travel(None, None)) == (
        "0.5 to 2.5 mm",
        "at 1.0 mm",
        "",
    )


def test_readings_and_stops_become_tables(example):
    """Rows are the positions, columns the tolerances; stops are gathered by pair."""
    table = report_tables.readings_table(example.verdicts[0])
    assert table.head == ("travel", "within 8 µm", "within 20 µm", "within 40 µm", "within 100 µm")
    assert [row[0] for row in table.rows] == ["0.0 mm", "0.5 mm", "1.0 mm", "2.0 mm", "3.0 mm"]
    assert table.rows[1][1] == "anterior\n11/41, 16/46"
    assert table.rows[0][4] == "anterior\n14 pairs: 7 right, 7 left"
    stops = report_tables.stops_table(example.stops)
    assert stops.rows[0][:3] == ("17/47", "3", "1.0 µm")
    assert len(stops.rows) == 8
    one = Stop(26, 36, (0.0, 0.0, 0.0), 0.0004, 0.25, (0.0, 0.0, 1.0))
    assert report_tables.stops_table([one]).rows == (("26/36", "1", "0.4 µm", "0.25 mm²"),)


def test_readings_that_say_the_same_are_told_once(example):
    """The start once for all excursions; neighbouring tolerances as one cell over their columns."""
    titles = report_tables.excursion_titles(example)
    told = all_readings(example.verdicts, titles)
    assert told.head == report_tables.readings_table(example.verdicts[0]).head
    assert [row.name for row in told.starts] == []  # each says another kind at 0 mm
    first = told.excursions[0]
    assert first.rows[1].name == "0.5 mm"
    assert (first.rows[1].kind, first.rows[1].cells) == ("anterior", (("", "11/41, 16/46", 4),))
    for part, verdict in zip(told.excursions, example.verdicts, strict=True):
        shown = {
            row.name: [
                f"{row.kind or kind}\n{pairs}"
                for kind, pairs, columns in row.cells
                for _ in range(columns)
            ]
            for row in part.rows
        }
        for row in report_tables.readings_table(verdict).rows:
            assert shown[row[0]] == list(row[1:])
    in_mi = [
        replace(
            item,
            readings=tuple(replace(r, kind="in MI") if not r.pose else r for r in item.readings),
        )
        for item in example.verdicts
    ]
    shared = all_readings(in_mi, titles)
    assert [row.name for row in shared.starts] == ["0.0 mm"]
    assert all(row.name != "0.0 mm" for part in shared.excursions for row in part.rows)


def test_the_first_page_tells_the_first_clause():
    """Up to the first semicolon or full stop, numbers with a decimal point left whole."""
    assert finding_cards.lead("15 touches 46 from 0.1 to 3.0 mm; more. And more.") == (
        "15 touches 46 from 0.1 to 3.0 mm."
    )
    assert finding_cards.lead("Canine from 0.6 mm. At 2.0 mm 12.") == "Canine from 0.6 mm."
    assert finding_cards.lead("Only this.") == "Only this."
