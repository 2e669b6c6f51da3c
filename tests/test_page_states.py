"""States of the page: steps back and forth, links, files, and two of them side by side."""

import json
import struct
from html import escape

import pytest
from playwright.sync_api import expect

from kinematics.case_changes import changed_case
from kinematics.case_file import case_toml, parse_case
from scenes.builtin_cases import builtin_case
from tests.open_page import START, kept_page, opened, plain, state_of
from tests.recorded_desk import recorded_page

SMALL = {"width": 1200, "height": 760}
KEY = "guidance.right.fischer_deg"
TURNED = {
    **START,
    "changes": {**START["changes"], KEY: 7, "guidance.left.path": "curved"},
    "movement": "protrusion",
    "travel_mm": 1.3,
    "map": "none",
    "display": {
        "upper": "ghosted", "lower": "solid", "numbers": False, "around": False, "forces": False,
        "before": False,
        "look": "left", "linked": {"condyles": False},
    },
}  # fmt: skip


@pytest.fixture(scope="module")
def server():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page() as running:
        yield running


@pytest.fixture(scope="module")
def kept(browser, server):
    """Return a page on which one test after the other puts its state."""
    with kept_page(browser, server, viewport=SMALL) as one:
        yield one


def set_to(page, name, value):
    """Type a value into a field, when all that was asked before is answered."""
    page.rested()
    page.find(f"#{name}").fill(str(value))
    page.find(f"#{name}").press("Enter")


def value_is(page, value, key=KEY):
    """Wait until the page asks for a value of a setting; None: as in the case."""
    return page.has_asked(f"{key} = {value}", lambda s: s["changes"].get(key) == value)


@pytest.mark.parametrize("by", ["buttons", "keys"])
def test_steps_back_and_forth(browser, server, by):
    """Undo, redo and reset go through all that was changed, by buttons and by keys."""
    buttons = {"undo": "#undo", "redo": "#redo"}
    keys = {"undo": "Control+z", "redo": "Control+Shift+Z"}
    with opened(browser, server, viewport=SMALL) as page:
        page.rested()

        def step(which):
            if by == "buttons":
                page.find(buttons[which]).click()
            else:
                page.find("#view-a").press(keys[which])

        field = "set-guidance-right-fischer_deg"
        for value in (5, 9):
            set_to(page, field, value)
            value_is(page, value)
        page.find("#movement").select_option("protrusion")
        page.has_asked("protrusion", lambda s: s["movement"] == "protrusion")
        step("undo")
        page.has_asked("lateral", lambda s: s["movement"] == "right lateral")
        step("undo")
        value_is(page, 5)
        step("undo")
        value_is(page, None)
        expect(page.find("#undo")).to_be_disabled()
        for value in (5, 9):
            step("redo")
            value_is(page, value)
        expect(page.find(f"#{field}")).to_have_value("9")
        page.find("#reset").click()
        assert page.has_asked("no changes", lambda s: s["changes"] == {})
        step("undo")
        value_is(page, 9)


def test_a_link_shows_the_same_state_elsewhere(browser, server):
    """What is copied opens on another page with all settings and the same look."""
    permissions = ["clipboard-read", "clipboard-write"]
    with opened(browser, server, TURNED, viewport=SMALL, permissions=permissions) as page:
        page.rested()
        set_to(page, "set-guidance-right-fischer_deg", 8)
        value_is(page, 8)
        page.find("#copy-link").click()
        expect(page.find("#notice-done")).to_contain_text("Link copied")
        address = page.tab.evaluate("navigator.clipboard.readText()")
        assert address.startswith(f"http://{server.own_name}/?token=")
        state = state_of(address)
        assert state["changes"] == {**TURNED["changes"], KEY: 8}
        page.until(lambda: page.tab.url == address, "the same in the address bar")
        asked = page.shows[-1]
    with opened(browser, server, state, viewport=SMALL) as other:
        other.rested()
        same = {key: value for key, value in asked.items() if key != "number"}
        assert {key: value for key, value in other.shows[-1].items() if key != "number"} == same
        expect(other.find("#look-from")).to_have_value("left")
        expect(other.find("#upper-shown-ghosted")).to_be_checked()
        expect(other.find("#numbers-shown")).not_to_be_checked()
        expect(other.find("#linked-condyles")).not_to_be_checked()
        expect(other.find("#map-shown")).to_have_value("none")


BAD_LINKS = {
    "cut short": ("#state=eyJjYXNlIjo", "cut short or altered"),
    "unknown setting": ({**START, "changes": {"guidance.none": 1}}, "no setting guidance.none"),
    "unknown case": ({**START, "case": "nobody"}, "there is no case nobody"),
    "own casts": ({**START, "case": "own_1"}, "own casts that this page was not given"),
    "out of range": ({**START, "changes": {KEY: 99}}, "accepted: −20 to 20"),
    "impossible travel": ({**START, "travel_mm": -1}, "travel is not between 0 and 50 mm"),
}


def test_a_link_is_not_lost_when_the_page_writes_its_own(kept):
    """The page notes its state in the address some time after a change: it may come in between."""
    with kept.at() as page:
        page.rested()
        page.tab.evaluate(
            """(hash) => { const own = location.hash; location.hash = hash;
              history.replaceState(null, "", own || "#"); }""",
            BAD_LINKS["cut short"][0],
        )
        expect(page.find("#notice-link")).to_contain_text("cut short or altered")


@pytest.mark.parametrize("name", BAD_LINKS)
def test_a_bad_link_is_told_in_words(kept, name):
    """On an open page nothing changes."""
    link, words = BAD_LINKS[name]
    with kept.at() as page:
        page.rested()
        asked = len(page.shows)
        if isinstance(link, str):
            page.tab.evaluate("(hash) => { location.hash = hash; }", link)
        else:
            page.open(link)
        expect(page.find("#notice-link")).to_contain_text(words)
        expect(page.find("#notice-link")).to_contain_text("Nothing was changed.")
        assert len(page.shows) == asked


def test_a_page_that_begins_with_a_bad_link_shows_the_usual_state(browser, server):
    """And says so."""
    with opened(browser, server, {**START, "case": "nobody"}, viewport=SMALL) as page:
        expect(page.find("#notice-link")).to_contain_text("The page starts with the usual one.")
        page.rested()
        assert page.shows[-1]["case"] == START["case"]


def open_file(page, content, tmp_path, name="state.json"):
    """Choose a file to be opened."""
    path = tmp_path / name
    path.write_text(content, "utf-8")
    with page.tab.expect_file_chooser() as chooser:
        page.find("#open-state").click()
    chooser.value.set_files(path)


def test_a_saved_state_can_be_opened(kept, tmp_path):
    """Saved, changed, opened: as it was saved; undo brings back what was there before."""
    with kept.at(TURNED) as page:
        page.rested()
        with page.tab.expect_download() as download:
            page.find("#save-state").click()
        saved = json.loads(download.value.path().read_text("utf-8"))
        assert saved == TURNED
        expect(page.find("#notice-done")).to_have_text(
            f"Saved: {download.value.suggested_filename}"
        )
        set_to(page, "set-guidance-right-fischer_deg", 3)
        value_is(page, 3)
        page.find("#movement").select_option("left lateral")
        open_file(page, json.dumps(saved), tmp_path)
        value_is(page, 7)
        assert page.shows[-1]["movement"] == "protrusion"
        page.find("#undo").click()
        value_is(page, 3)


BAD_FILES = {
    "{": "it is no state saved by this page",
    "[]": "it holds no state",
    '{"case": "given"}': "its movement is missing",
}


def test_a_case_file_is_no_state_and_the_page_says_what_to_do(kept, tmp_path):
    """It cannot be opened here, but on the command line."""
    with kept.at() as page:
        page.rested()
        open_file(page, 'title = "Mine"', tmp_path, "mine.toml")
        expect(page.find("#notice-done")).to_contain_text("cuspway page mine.toml")
        page.find("#movement").select_option("protrusion")
        expect(page.find("#notice-done")).to_have_count(0)


def test_a_run_of_travel_is_one_step(kept):
    """However it is moved: undo goes back to the setting that was changed before."""
    with kept.at() as page:
        set_to(page, "set-guidance-right-fischer_deg", 5)
        value_is(page, 5)
        page.find("#travel").press("ArrowUp")
        page.find("#travel-slider").press("ArrowRight")
        set_to(page, "travel", "1.2")
        page.has_asked("a travel", lambda s: s["travel_mm"] == 1.2)
        page.find("#undo").click()
        page.has_asked("the travel before", lambda s: s["travel_mm"] == START["travel_mm"])
        page.find("#undo").click()
        value_is(page, None)


@pytest.mark.parametrize("content", BAD_FILES)
def test_a_bad_file_is_told_in_words(kept, tmp_path, content):
    """Nothing changes."""
    with kept.at() as page:
        page.rested()
        asked = len(page.shows)
        open_file(page, content, tmp_path)
        expect(page.find("#notice-done")).to_contain_text(BAD_FILES[content])
        expect(page.find("#notice-done")).to_contain_text("Nothing was changed.")
        assert len(page.shows) == asked


def test_the_case_file_is_the_case_as_it_is_shown(kept):
    """It parses, and equals the changed case."""
    with kept.at(TURNED) as page:
        page.rested()
        with page.tab.expect_download() as download:
            page.find("#case-file").click()
        text = download.value.path().read_text("utf-8")
        assert download.value.suggested_filename == "upper_distal_extension_case.toml"
    assert parse_case(text, "case.toml") == changed_case(builtin_case(), TURNED["changes"])


def test_the_report_of_the_state(kept):
    """The page stays usable meanwhile: it is made once another state was shown."""
    with kept.at(TURNED) as page:
        page.rested()
        with page.tab.expect_download() as download:
            page.find("#report").click()
            expect(page.find("#notice-report")).to_contain_text("Making the report")
            page.find("#travel").fill("1.0")
            page.find("#travel").press("Enter")
            page.has_asked("1 mm", lambda s: s["travel_mm"] == 1.0)
            page.rested()
        html = download.value.path().read_text("utf-8")
        expect(page.find("#notice-done")).to_contain_text(
            "Saved: upper_distal_extension_report.html"
        )
    assert html.lower().startswith("<!doctype html>")
    assert escape(case_toml(changed_case(builtin_case(), TURNED["changes"]))) in html


def test_the_picture_of_the_casts(kept):
    """A PNG of at least the size of the view, and not of one colour."""
    with kept.at() as page:
        page.rested()
        box = page.find("#view-a").bounding_box()
        with page.tab.expect_download() as download:
            page.find("#picture").click()
        content = download.value.path().read_bytes()
        assert download.value.suggested_filename.endswith(".png")
    assert content.startswith(b"\x89PNG\r\n")
    wide, high = struct.unpack(">II", content[16:24])
    assert wide >= box["width"] - 1 and high >= box["height"] - 1
    assert len(content) > 50_000


def test_two_states_side_by_side(browser, server):
    """Both are shown; settings belong to the chosen one; what differs is listed."""
    with opened(browser, server) as page:
        page.rested()
        page.find("#compare").click()
        expect(page.find("#view-b")).to_be_visible()
        expect(page.find("#settings-title")).to_have_text("Settings of B")
        expect(page.find("#differences")).to_contain_text("None yet")
        page.until(lambda: sum(h["kind"] == "welcome" for h in page.heard) == 2, "two connections")
        set_to(page, "set-guidance-right-fischer_deg", 6)
        value_is(page, 6)
        rows = page.find("#differences tbody tr")
        expect(rows).to_have_count(2)  # right and left are linked
        assert plain(rows.first.inner_text()) == "Fischer angle, right 0° 6°"
        page.find("#edited-a").check()
        expect(page.find("#settings-title")).to_have_text("Settings of A")
        expect(page.find("#set-guidance-right-fischer_deg")).to_have_value("0")
        set_to(page, "set-guidance-right-fischer_deg", 6)
        expect(page.find("#differences")).to_contain_text("None yet")
        expect(page.find("#touch-chart-a")).to_be_visible()
        expect(page.find("#touch-chart-b")).to_be_visible()
        check_pose_of_both(page)
        page.find("#compare").click()
        expect(page.find("#view-b")).to_have_count(0)


def check_pose_of_both(page):
    """Move the jaw: both states are asked for the same place."""
    page.find("#travel").fill("2.5")
    page.find("#travel").press("Enter")
    page.until(lambda: [s["travel_mm"] for s in page.shows[-2:]] == [2.5, 2.5], "both at 2.5 mm")
    page.until(lambda: len(set(page.texts("#compare-pose tbody td"))) >= 1, "contacts of both")


def test_both_states_go_into_a_link(browser, server):
    """A link of two states opens as two."""
    other = {"case": START["case"], "changes": {**START["changes"], KEY: 4}}
    with opened(browser, server, {**START, "other": other, "chosen": "b"}, viewport=SMALL) as page:
        expect(page.find("#view-b")).to_be_visible()
        expect(page.find("#differences")).to_contain_text("4°")
        page.until(lambda: {KEY in s["changes"] for s in page.shows} == {True, False}, "both asked")
        page.rested()
