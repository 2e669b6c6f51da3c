"""The movement bar of the page: which way, from where, how far, how fast, how wide open."""

import pytest
from playwright.sync_api import expect

from tests.open_page import START, opened
from tests.recorded_desk import recorded_page


@pytest.fixture(scope="module")
def server():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page() as running:
        yield running


def is_close(field, value):
    """Tell whether a field shows a value, to two decimals."""
    return abs(float(field.input_value()) - value) < 0.0051


def test_every_movement_and_start_can_be_chosen(browser, server):
    """Each movement that the case has, from each of its starts, is asked for by its name."""
    with opened(browser, server, {**START, "case": "centric_slide"}) as page:
        page.rested()
        rows = next(h for h in page.heard if h["kind"] == "case")["movements"]
        known = {(row["movement"], row["start"]) for row in rows}
        assert {start for _, start in known} == {"MI", "CR"}
        for movement in dict.fromkeys(name for name, _ in known):
            page.find("#movement").select_option(movement)
            page.has_asked(movement, lambda s, m=movement: s["movement"] == m)
            for start in ("CR", "MI"):
                button = page.find(f"#start-from-{start}")
                if (movement, start) not in known:
                    expect(button).to_be_disabled()
                    continue
                button.check()
                wanted = movement, start
                page.has_asked(start, lambda s, w=wanted: (s["movement"], s["start"]) == w)
        page.rested()


def test_travel_by_slider_and_field(browser, server):
    """Both show the same; what is asked for is what they show."""
    with opened(browser, server) as page:
        page.rested()
        slider, field = page.find("#travel-slider"), page.find("#travel")
        field.fill("1,25 mm")
        field.press("Enter")
        page.has_asked("1.25 mm", lambda s: s["travel_mm"] == 1.25)
        expect(field).to_have_value("1.25")
        field.press("ArrowUp")
        page.has_asked("a step more", lambda s: 1.25 < s["travel_mm"] <= 1.4)
        slider.press("End")
        end = page.has_asked("the end", lambda s: s["travel_mm"] > 4.0)["travel_mm"]
        page.until(lambda: is_close(field, end), "the end in the field")
        slider.press("Home")
        page.has_asked("the start", lambda s: s["travel_mm"] == 0.0)
        box = slider.bounding_box()
        page.tab.mouse.click(box["x"] + box["width"] / 2.0, box["y"] + box["height"] / 2.0)
        half = page.has_asked("the middle", lambda s: s["travel_mm"] > 0.0)["travel_mm"]
        assert half == pytest.approx(end / 2.0, abs=0.2)
        page.rested()


def test_playing_moves_the_jaw_until_it_is_paused(browser, server):
    """Frames are drawn, many different poses asked for; after a pause neither changes."""
    with opened(browser, server, {**START, "travel_mm": 0.0}) as page:
        page.rested()
        before = int(page.find("html").get_attribute("data-frames"))
        play = page.find("#play")
        play.click()
        expect(play).to_have_text("Pause")
        page.until(lambda: len({s["travel_mm"] for s in page.shows}) > 12, "twelve poses")
        page.until(
            lambda: int(page.find("html").get_attribute("data-frames")) > before + 10, "ten frames"
        )
        play.click()
        expect(play).to_have_text("Play")
        page.rested()
        page.has_asked("where it was paused", lambda s: s["travel_mm"] > 0.0)
        stopped, asked = page.shows[-1]["travel_mm"], len(page.shows)
        page.until(lambda: is_close(page.find("#travel"), stopped), "the travel in the field")
        for _ in range(20):
            page.tab.evaluate("() => new Promise((done) => requestAnimationFrame(done))")
        assert len(page.shows) == asked
        page.find("#undo").click()
        page.has_asked("playing undone in one step", lambda s: s["travel_mm"] == 0.0)


def test_playing_touches_nothing_that_does_not_move(browser, server):
    """What is written anew is painted anew: settings and header stay as they are while it plays."""
    watch = """() => {
      window.touched = [];
      const still = "#settings, #header, #look-bar, #section-legend, #section-guides";
      new MutationObserver((all) => {
        for (const { target, type, attributeName } of all) {
          const part = (target.nodeType === 1 ? target : target.parentElement).closest(still);
          if (part) window.touched.push(`${part.id}: ${type} ${attributeName}`);
        }
      }).observe(document.body,
        { subtree: true, childList: true, attributes: true, characterData: true });
    }"""
    with opened(browser, server, {**START, "travel_mm": 0.0}) as page:
        page.rested()
        page.find("#play").click()
        page.until(lambda: len({s["travel_mm"] for s in page.shows}) > 2, "playing")
        page.tab.evaluate(watch)
        page.until(lambda: len({s["travel_mm"] for s in page.shows}) > 8, "more poses")
        assert page.tab.evaluate("window.touched") == []
        page.find("#play").click()
        page.rested()


def test_speed(browser, server):
    """Eight times the speed goes about eight times as far in the same time of the page."""
    gone = {}
    for speed in ("0.5", "4"):
        with opened(browser, server, {**START, "travel_mm": 0.0}) as page:
            page.rested()
            page.find("#speed").select_option(speed)
            begun = page.tab.evaluate("performance.now()")
            page.find("#view-a").press(" ")
            page.until(lambda page=page: page.shows[-1]["travel_mm"] > 0.2, "some way")
            page.find("#view-a").press(" ")
            page.rested()
            seconds = (page.tab.evaluate("performance.now()") - begun) / 1000.0
            gone[speed] = page.shows[-1]["travel_mm"] / seconds
            assert page.shows[-1]["travel_mm"] <= float(speed) * seconds + 0.01
    assert gone["0.5"] < 0.51


def test_opening(browser, server):
    """The jaw opens by as much as is asked, and the page says that nothing touches."""
    with opened(browser, server) as page:
        page.rested()
        page.find("#opening").fill("20")
        page.find("#opening").press("Enter")
        page.has_asked("20 mm", lambda s: s["opening_mm"] == 20.0)
        page.rested()
        expect(page.find("#pose-now")).to_contain_text("nothing: opened")
        page.find("#opening-slider").press("Home")
        page.has_asked("closed", lambda s: s["opening_mm"] == 0.0)
        page.rested()


def test_motion_that_is_not_wanted(browser, server):
    """Who asks the system for less motion sees the excursion once, not again and again."""
    with opened(browser, server, {**START, "travel_mm": 0.0}, reduced_motion="reduce") as page:
        page.rested()
        page.find("#speed").select_option("4")
        page.find("#play").click()
        page.has_asked("some way", lambda s: s["travel_mm"] > 0.0)
        expect(page.find("#play")).to_have_text("Play")
        page.rested()
        end = float(page.find("#travel-slider").get_attribute("max"))
        assert page.shows[-1]["travel_mm"] == pytest.approx(end, abs=0.01)
