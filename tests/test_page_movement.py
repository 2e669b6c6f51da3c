"""The movement bar of the page: which way, from where, how far, how fast, how wide open."""

import pytest
from playwright.sync_api import expect

from tests.open_page import START, kept_page
from tests.recorded_desk import recorded_page

SMALL = {"width": 1200, "height": 760}
USUAL_SPEED = "2"
AT_START = {**START, "travel_mm": 0.0}


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


def is_close(field, value):
    """Tell whether a field shows a value, to two decimals."""
    return abs(float(field.input_value()) - value) < 0.0051


def travels_since(page, asked):
    """Return the travels that were asked for since so many states had been."""
    return {state["travel_mm"] for state in page.shows[asked:]}


def test_every_movement_and_start_can_be_chosen(kept):
    """Each movement that the case has, from each of its starts, is asked for by its name."""
    with kept.at({**START, "case": "centric_slide"}) as page:
        page.rested()
        rows = [h for h in page.heard if h["kind"] == "case"][-1]["movements"]
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


def test_travel_by_slider_and_field(kept):
    """Both show the same; what is asked for is what they show."""
    with kept.at() as page:
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


def test_playing_moves_the_jaw_until_it_is_paused(kept):
    """Frames are drawn, many different poses asked for; after a pause neither changes."""
    with kept.at(AT_START) as page:
        page.rested()
        asked = len(page.shows)
        before = int(page.find("html").get_attribute("data-frames"))
        play = page.find("#play")
        play.click()
        expect(play).to_have_text("Pause")
        page.until(lambda: len(travels_since(page, asked)) > 12, "twelve poses")
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


def test_playing_touches_nothing_that_does_not_move(kept):
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
    with kept.at(AT_START) as page:
        page.rested()
        asked = len(page.shows)
        page.find("#play").click()
        page.until(lambda: len(travels_since(page, asked)) > 2, "playing")
        page.tab.evaluate(watch)
        page.until(lambda: len(travels_since(page, asked)) > 8, "more poses")
        assert page.tab.evaluate("window.touched") == []
        page.find("#play").click()
        page.rested()


def test_speed(kept):
    """Eight times the speed goes about eight times as far in the same time of the page."""
    gone = {}
    for speed in ("0.5", "4"):
        with kept.at(AT_START) as page:
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
            page.find("#speed").select_option(USUAL_SPEED)
    assert gone["0.5"] < 0.51


def test_opening(kept):
    """The jaw opens by as much as is asked, and the page says that nothing touches."""
    with kept.at() as page:
        page.rested()
        page.find("#opening").fill("20")
        page.find("#opening").press("Enter")
        page.has_asked("20 mm", lambda s: s["opening_mm"] == 20.0)
        page.rested()
        expect(page.find("#pose-now")).to_contain_text("nothing: opened")
        page.find("#opening-slider").press("Home")
        page.has_asked("closed", lambda s: s["opening_mm"] == 0.0)
        page.rested()


def test_motion_that_is_not_wanted(kept):
    """Who asks the system for less motion sees the excursion once, not again and again."""
    with kept.at(AT_START) as page:
        page.rested()
        page.tab.emulate_media(reduced_motion="reduce")
        page.find("#speed").select_option("4")
        page.find("#play").click()
        page.has_asked("some way", lambda s: s["travel_mm"] > 0.0)
        expect(page.find("#play")).to_have_text("Play")
        page.rested()
        end = float(page.find("#travel-slider").get_attribute("max"))
        assert page.shows[-1]["travel_mm"] == pytest.approx(end, abs=0.01)
        page.find("#speed").select_option(USUAL_SPEED)
        page.tab.emulate_media(reduced_motion="no-preference")
