"""The page shows what replacement teeth carry, moves the jaw there, and draws forces as arrows."""

import pytest
from playwright.sync_api import expect

from tests.access_rules import keeps_the_rules
from tests.open_page import START, kept_page, state_of
from tests.recorded_desk import recorded_page, recording

#: Counts pixels of the words over the casts that have the colour of forces across.
ACROSS_PIXELS = """() => {
  const canvas = document.querySelector("#view-a .casts-words");
  const copy = new OffscreenCanvas(canvas.width, canvas.height);
  const context = copy.getContext("2d", { willReadFrequently: true });
  context.drawImage(canvas, 0, 0);
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  let found = 0;
  for (let i = 0; i < data.length; i += 4) {
    found += data[i] === 0x9c && data[i + 1] === 0x14 && data[i + 2] === 0x58 ? 1 : 0;
  }
  return found;
}"""
WINDOWS = ({"width": 1280, "height": 860}, {"width": 1024, "height": 700})


@pytest.fixture(scope="module")
def server():
    """Return a server that answers what was recorded."""
    with recorded_page() as running:
        yield running


@pytest.fixture(scope="module")
def kept(browser, server):
    """Return a page on which one test after the other puts its state."""
    with kept_page(browser, server, viewport=WINDOWS[0]) as one:
        yield one


@pytest.fixture(scope="module")
def told():
    """Return the header of the message about loads."""
    return recording()["loads"][0]


def across_pixels(page):
    """Return how much of the colour of forces is over the casts, once they are at rest."""
    page.rested()
    page.has_come_to_rest()
    return page.tab.evaluate(ACROSS_PIXELS)


def check_rows(page, told):
    """Check that every excursion has a row: its name, the largest load across, and where."""
    expect(page.find("#loads .load")).to_have_count(5)
    for row, excursion in zip(page.texts("#loads .load"), told["excursions"], strict=True):
        largest = excursion["frames"][0]["largest"]
        for words in (excursion["title"], largest["words"], largest["where"]):
            assert words in row
    assert "100 N of closing force" in page.text("#section-loads")


def test_a_row_moves_the_jaw_and_shows_all_about_it(kept, told):
    """With keys alone; figures and teeth are listed, arrows come, and undo takes both back."""
    excursion = told["excursions"][2]
    largest = excursion["frames"][0]["largest"]
    with kept.at() as page:
        page.rested()
        check_rows(page, told)
        assert across_pixels(page) == 0
        page.find("#loads .load").nth(2).focus()
        page.tab.keyboard.press("Enter")
        asked = page.has_asked("the largest load", lambda s: s["movement"] == "left lateral")
        assert asked["travel_mm"] == pytest.approx(largest["at_mm"], abs=1e-3)
        expect(page.find("#loads .load").nth(2)).to_be_focused()
        expect(page.find("#loads .load").nth(2)).to_have_attribute("aria-expanded", "true")
        assert page.texts("#loads .picked dt") == [name for name, _ in largest["details"]]
        assert page.texts("#loads .picked dd") == [text for _, text in largest["details"]]
        rows = [row for table in largest["tables"] for row in table["rows"]]
        assert page.find("#loads .picked tbody tr").count() == len(rows)
        assert across_pixels(page) > 100
        page.find("#undo").click()
        page.has_asked("the state before", lambda s: s["movement"] == "right lateral")
        assert across_pixels(page) == 0
        page.find("#loads .load").nth(2).click()
        expect(page.find("#loads .picked")).to_have_count(0)


def test_forces_of_the_pose_are_listed_and_follow_the_travel(kept, told):
    """Arrows can be put on and off; where nothing was computed that is said, and there are none."""
    state = {**START, "travel_mm": 0.6, "display": {"forces": True}}
    with kept.at(state) as page:
        page.rested()
        expect(page.find("#load-now tbody tr").first).to_be_visible()
        here = page.texts("#load-now tbody tr")
        assert "Computed at 0.6 mm" in page.text("#load-now-words")
        assert across_pixels(page) > 100
        page.find("#forces-shown").uncheck()
        assert across_pixels(page) == 0
        assert state_of(page.tab.url)["display"]["forces"] is False
        page.find("#forces-shown").check()
        page.find("#travel").fill("1.5")
        page.find("#travel").press("Enter")
        page.rested()
        assert page.texts("#load-now tbody tr") != here
        assert "Computed at 1.5 mm" in page.text("#load-now-words")
        page.find("#opening").fill("8")
        page.find("#opening").press("Enter")
        expect(page.find("#load-now-words")).to_contain_text("Not computed here")
        expect(page.find("#load-now tbody tr")).to_have_count(0)
        assert across_pixels(page) == 0


def test_a_case_without_denture_bases_shows_nothing_of_loads(kept):
    """Neither the section nor its settings nor arrows."""
    state = {**START, "case": "natural_dentition", "display": {"forces": True}}
    with kept.at(state) as page:
        page.rested()
        expect(page.find("#section-loads")).to_be_hidden()
        expect(page.find("#group-load")).to_be_hidden()
        assert across_pixels(page) == 0
        asked = {s["number"] for s in page.shows if s["case"] == state["case"]}
        about = {h["kind"] for h in page.heard if h.get("number") in asked}
        assert "rest" in about and "loads" not in about


def test_a_picked_row_keeps_the_rules_of_access(kept):
    """No serious finding of the checker, and nothing wider than its panel."""
    with kept.at() as page:
        page.rested()
        page.find("#loads .load").nth(1).click()
        page.rested()
        keeps_the_rules(page)
        for window in WINDOWS:
            page.tab.set_viewport_size(window)
            wide = "panel => panel.scrollWidth - panel.clientWidth"
            assert page.find("#results").evaluate(wide) <= 0
        page.tab.set_viewport_size(WINDOWS[0])
        page.find("#loads .load").nth(1).click()
        expect(page.find("#loads .picked")).to_have_count(0)


def test_largest_loads_of_two_states_stand_side_by_side(kept, told):
    """Each movement once, with the load of A and of B."""
    other = {"case": START["case"], "changes": {**START["changes"], "load.force_tilt_deg": 20.0}}
    with kept.at({**START, "other": other, "chosen": "b"}) as page:
        rows = page.find("#compare-loads tbody tr")
        expect(rows).to_have_count(5)
        # The loads of one state may come a while after those of the other.
        expect(rows.filter(has_text="–")).to_have_count(0)
        for row, excursion in zip(
            page.texts("#compare-loads tbody tr"), told["excursions"], strict=True
        ):
            assert row.count(excursion["frames"][0]["largest"]["words"]) == 2
