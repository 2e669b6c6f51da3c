"""Changing a tooth on the page, in a real browser: applied, altered, refused, taken back."""

import pytest
from playwright.sync_api import expect

from scenes.builtin_cases import builtin_case
from scenes.page_trial import trial_of
from tests.access_rules import keeps_the_rules
from tests.open_page import START, opened, state_of
from tests.recorded_desk import engine_page, recorded_page

LOWERED = {"kind": "lower", "tooth": 46, "by_mm": 1.2}
DRAWN_LITTLE = {"width": 1100, "height": 760}


@pytest.fixture(scope="module")
def server():
    """Return a server with the real engine."""
    with engine_page() as running:
        yield running


def choose(page, tooth, kind, **amounts):
    """Fill in the form by keyboard."""
    page.find("#trial-tooth").select_option(str(tooth))
    page.find("#trial-kind").select_option(kind)
    for name, text in amounts.items():
        page.find(f"#set-trial-{name}").fill(text)


def applied(page, holds):
    """Apply by keyboard, and wait for the answer to what was asked then."""
    page.find("#trial-apply").press("Enter")
    page.has_asked("a change", holds)
    page.rested()


def test_a_tooth_is_changed_seen_and_taken_back(browser, server):
    """The serious finding goes with 46 lowered, and comes again bit for bit when it is undone."""
    with opened(browser, server, START, viewport=DRAWN_LITTLE) as page:
        page.rested()
        first = page.texts("#findings .finding-words")
        assert page.text("#findings-counts").startswith("■ 2 serious")
        page.find("#group-trial summary").press("Enter")
        refuse_what_is_out_of_range(page)
        choose(page, 46, "lower", by_mm="1,2")
        applied(page, lambda show: show.get("trial") == [LOWERED])
        assert page.text("#findings-counts").startswith("■ 0 serious")
        assert page.text("#trial-list li").startswith("46 lowered by 1.2 mm")
        assert state_of_link(page)["trial"] == [LOWERED]
        alter_and_undo(page)
        refuse_an_abutment(page)
        page.find("#trial-list .trial-back").first.press("Enter")
        page.has_asked("no change", lambda show: "trial" not in show)
        page.rested()
        expect(page.find("#trial-none")).to_be_visible()
        assert page.texts("#findings .finding-words") == first
        click_a_tooth(page)
        page.check_manners()


def refuse_what_is_out_of_range(page):
    """Nothing is sent, and why is told beside the field, or in the form."""
    page.find("#trial-apply").press("Enter")
    expect(page.find("#trial-wrong")).to_contain_text("Choose a tooth first")
    expect(page.find("#trial-tooth")).to_be_focused()
    choose(page, 46, "lower", by_mm="9")
    page.find("#trial-apply").press("Enter")
    expect(page.find("#set-trial-by_mm-note")).to_contain_text("accepted: 0.01 to 4")
    expect(page.find("#set-trial-by_mm")).to_be_focused()
    choose(page, 46, "move")
    page.find("#trial-apply").press("Enter")
    expect(page.find("#trial-wrong")).to_contain_text("Say by how much")
    assert all("trial" not in show for show in page.shows)


def alter_and_undo(page):
    """Give a change in the list another amount, and the one before by Ctrl+Z."""
    page.find("#trial-list .trial-alter").press("Enter")
    expect(page.find("#trial-apply")).to_have_text("Apply to change 1")
    expect(page.find("#set-trial-by_mm")).to_have_value("1.2")
    page.find("#set-trial-by_mm").fill("0.4")
    applied(page, lambda show: show.get("trial") == [{**LOWERED, "by_mm": 0.4}])
    page.tab.keyboard.press("Control+z")
    page.has_asked("the change before", lambda show: show.get("trial") == [LOWERED])
    page.rested()


def refuse_an_abutment(page):
    """Remove a replacement tooth: refused at its row, which is then taken back."""
    choose(page, 16, "remove")
    page.find("#trial-apply").press("Enter")
    expect(page.find("#trial-wrong-1")).to_contain_text("16 cannot be removed")
    keeps_the_rules(page)
    expect(page.find("#trial-said")).to_have_text("")
    page.find("#trial-list .trial-back").nth(1).press("Enter")
    page.has_asked("one change", lambda show: show.get("trial") == [LOWERED])
    page.rested()


def click_a_tooth(page):
    """Choose one of the front teeth by a click in the middle of the picture."""
    box = page.find("#view-a").bounding_box()
    page.find("#view-a").click(position={"x": 0.47 * box["width"], "y": 0.47 * box["height"]})
    chosen = page.find("#trial-tooth").input_value()
    assert chosen in ("11", "21", "12", "41", "31")


def state_of_link(page):
    """Return the state in the address, once it has been written there."""
    page.until(lambda: "trial" in state_of(page.tab.url), "the link")
    return state_of(page.tab.url)


@pytest.fixture(scope="module")
def recorded():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page() as running:
        yield running


def test_changes_of_the_case_are_listed_taken_back_and_put_back(browser, recorded):
    """Those of a case file are among the changes; without them the state says so."""
    state = {**START, "case": "lowered_46"}
    with opened(browser, recorded, state, viewport=DRAWN_LITTLE) as page:
        page.rested()
        page.find("#group-trial summary").press("Enter")
        own = trial_of(builtin_case("lowered_46"))
        rows = page.texts("#trial-list .trial-words")
        assert len(rows) == len(own) > 1 and all(row.endswith("(in the case)") for row in rows)
        assert "trial" not in page.shows[-1]
        expect(page.find("#trial-as-case")).to_be_hidden()
        page.find("#trial-list .trial-back").first.press("Enter")
        page.has_asked("one change less", lambda show: show.get("trial") == own[1:])
        page.find("#trial-none-left").press("Enter")
        page.has_asked("no changes", lambda show: show.get("trial") == [])
        page.find("#trial-as-case").press("Enter")
        page.has_asked("those of the case", lambda show: "trial" not in show)
        assert page.texts("#trial-list .trial-words") == rows
        compare(page, own)


def compare(page, own):
    """Put two states with other changes side by side: they are told, and only one is changed."""
    page.find("#compare").press("Enter")
    page.find("#trial-list .trial-back").last.press("Enter")
    page.has_asked("one change less in B", lambda show: show.get("trial") == own[:-1])
    row = page.find("#differences tr", has_text="Trial set-up")
    expect(row).to_contain_text("46 lowered by")
    one, other = row.locator("td").all_inner_texts()
    assert one.startswith(other) and one != other
    page.find("#reset").press("Enter")
    page.has_asked("B as in the case", lambda show: "trial" not in show)
    expect(row).to_have_count(0)
