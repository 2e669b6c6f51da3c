"""The page when its server goes and comes back, and two pages at once."""

import json

from playwright.sync_api import expect

from scenes.page_guard import Guard
from tests.open_page import START, opened
from tests.recorded_desk import engine_page, recorded_page

#: What a browser itself says when nobody answers.
NOBODY = ("ERR_CONNECTION_REFUSED", "WebSocket connection to")
SMALL = {"width": 1200, "height": 760}


def test_the_server_goes_and_comes_back(browser):
    """The page says so and can still be looked at; then it goes on by itself."""
    with recorded_page() as first:
        opening = opened(browser, first, allowed=NOBODY, viewport=SMALL)
        page = opening.__enter__()
        page.rested()
        frames = int(page.find("html").get_attribute("data-frames"))
    expect(page.find("#notice-apart")).to_contain_text("What is shown can still be looked at")
    expect(page.find("html")).to_have_attribute("data-state", "apart")
    page.find("#view-a").press("ArrowLeft")
    page.until(
        lambda: int(page.find("html").get_attribute("data-frames")) > frames, "a turned picture"
    )
    page.find("#travel").fill("1.5")
    page.find("#travel").press("Enter")
    heard = len(page.heard)
    with recorded_page(guard=first.guard):
        expect(page.find("#notice-apart")).to_have_count(0)
        page.has_asked("what was set meanwhile", lambda s: s["travel_mm"] == 1.5)
        page.rested()
        assert "pose" in {h["kind"] for h in page.heard[heard:]}
        opening.__exit__(None, None, None)


def test_a_program_started_anew_is_told_from_one_that_is_gone(browser):
    """What was set is no longer said to be computed, and can be saved; then the page says why."""
    with recorded_page() as first:
        opening = opened(browser, first, allowed=(*NOBODY, "403"), viewport=SMALL)
        page = opening.__enter__()
        page.rested()
    page.find("#set-guidance-right-fischer_deg").fill("5")
    page.find("#set-guidance-right-fischer_deg").press("Enter")
    expect(page.find("#results-note")).to_have_text("not computed: no connection")
    expect(page.find("#results-of-one")).to_have_attribute("aria-busy", "false")
    expect(page.find("#notice-apart")).to_contain_text("The program was ended.")
    with page.tab.expect_download() as download:
        page.find("#notice-apart-act").click()
    assert 5 in json.loads(download.value.path().read_text("utf-8"))["changes"].values()
    with recorded_page(guard=Guard("127.0.0.1", first.guard.port)):
        expect(page.find("#notice-apart")).to_contain_text("started anew")
        expect(page.find("#notice-apart")).to_contain_text("from # on")
        opening.__exit__(None, None, None)


def test_two_pages_with_different_states(browser):
    """Each gets the answers to its own state."""
    left = {**START, "movement": "left lateral"}
    changes = {**START["changes"], "guidance.right.condylar_inclination_deg": 60}
    steep = {**START, "changes": changes}
    with engine_page() as running, opened(browser, running, left, viewport=SMALL) as one:
        with opened(browser, running, steep, viewport=SMALL) as other:
            poses = one.rested(), other.rested()
            assert [pose["movement"] for pose in poses] == ["left lateral", "right lateral"]
            facts = [page.texts("#pose-now dd") for page in (one, other)]
            assert facts[0] != facts[1]
            for page, pose in zip((one, other), poses, strict=True):
                first = pose["first"]
                assert f"{first['upper']} on {first['lower']}" in page.texts("#pose-now dd")
        assert running.complaints == []
