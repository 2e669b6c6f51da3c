"""Who can use the page: contrast, names, focus, sizes, windows of several widths, colour vision."""

from itertools import pairwise

import pytest
from playwright.sync_api import expect

from tests.access_rules import keeps_the_rules
from tests.open_page import kept_page, opened, plain
from tests.recorded_desk import recorded_page

SIZES = {
    "wide": {"width": 1440, "height": 900},
    "narrow": {"width": 1024, "height": 700},
    "tablet": {"width": 768, "height": 1024},
}
#: Where the first links lead.
SKIPPING = {"casts": "#view-a", "movement of the jaw": "#movement-bar", "results": "#results"}
REGIONS = ("header", "settings", "centre", "results")
#: Where the casts stand above both panels.
TABLET_REGIONS = ("header", "centre", "settings", "results")


@pytest.fixture(scope="module")
def server():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page() as running:
        yield running


@pytest.fixture(scope="module")
def kept(browser, server):
    """Return a wide page on which one test after the other puts its state."""
    with kept_page(browser, server) as one:
        yield one


@pytest.fixture(scope="module")
def kept_first_steps(browser, server):
    """Return the same with the first steps."""
    with kept_page(browser, server, first_steps=True) as one:
        yield one


def as_it_is(page):
    """Leave the page as it is."""


def compare(page):
    """Show two states."""
    page.find("#compare").click()
    page.find("#set-guidance-right-fischer_deg").fill("6")
    page.find("#set-guidance-right-fischer_deg").press("Enter")
    expect(page.find("#differences tbody tr")).to_have_count(2)
    page.rested()


def ask_for_help(page):
    """Open the help."""
    page.find("#help").click()
    expect(page.find("#help-dialog")).to_be_visible()


def provoke_a_fault(page):
    """Set what does not go together, and type what is no number."""
    page.find("#set-guidance-right-bennett_angle_deg").fill("10")
    page.find("#set-guidance-right-bennett_angle_deg").press("Enter")
    expect(page.find("#notice-fault-a")).to_be_visible()
    page.find("#travel").fill("99")
    page.find("#travel").press("Enter")
    expect(page.find("#travel-wrong")).to_be_visible()


def unfold(page):
    """Unfold every group of settings."""
    for summary in page.find("#settings details:not([open]):not([hidden]) > summary").all()[::-1]:
        summary.press("Enter")
    expect(page.find("#settings details:not([open]):not([hidden])")).to_have_count(0)


LOOKS = {
    "default": ("wide", as_it_is),
    "unfolded": ("wide", unfold),
    "two states": ("wide", compare),
    "help": ("wide", ask_for_help),
    "fault": ("wide", provoke_a_fault),
    "narrow": ("narrow", as_it_is),
    "tablet": ("tablet", as_it_is),
}


@pytest.mark.parametrize("look", LOOKS)
def test_rules_of_access(kept_first_steps, look):
    """No serious or critical finding of the checker, at this look of the page."""
    size, prepare = LOOKS[look]
    with kept_first_steps.at() as page:
        page.tab.set_viewport_size(SIZES[size])
        page.has_come_to_rest()
        expect(page.find("#first-steps")).to_be_visible()
        prepare(page)
        keeps_the_rules(page)
        page.tab.keyboard.press("Escape")  # what was opened


#: Boxes of what can be handled and is seen, cut by what scrolls around it; in page coordinates.
BOXES = """() => {
  const handled = 'button, select, input, summary, a[href], [tabindex="0"]';
  const rows = [];
  for (const e of document.querySelectorAll(handled)) {
    if (!e.checkVisibility({visibilityProperty: true}) || e.disabled) continue;
    if (e.closest('.skip')) continue;
    const target = e.closest('label') ?? e;
    let {left, top, right, bottom} = target.getBoundingClientRect();
    const whole = [right - left, bottom - top];
    for (let p = e.parentElement; p; p = p.parentElement) {
      if (getComputedStyle(p).overflow === 'visible') continue;
      const box = p.getBoundingClientRect();
      left = Math.max(left, box.left); top = Math.max(top, box.top);
      right = Math.min(right, box.right); bottom = Math.min(bottom, box.bottom);
    }
    const name = e.id || e.getAttribute('aria-label') || e.textContent.slice(0, 30);
    rows.push({name, left, top, right, bottom, whole});
  }
  return rows;
}"""

#: Words that do not fit into what holds them.
CUT = """() => {
  const pen = document.createElement('canvas').getContext('2d');
  const rows = [];
  const holders = 'button, label, summary, h1, h2, h3, h4, dt, dd, th, td, .label, .side';
  for (const e of document.querySelectorAll(holders)) {
    if (!e.checkVisibility() || e.closest('.spoken')) continue;
    if (getComputedStyle(e).display === 'inline') continue;
    if (e.clientWidth > 1 && e.scrollWidth > e.clientWidth + 1) {
      const words = e.textContent.slice(0, 40);
      rows.push([e.tagName, e.id || e.className, words, e.scrollWidth, e.clientWidth]);
    }
  }
  for (const e of document.querySelectorAll('input[type=text]')) {
    if (!e.checkVisibility()) continue;
    const style = getComputedStyle(e);
    pen.font = style.font;
    const room = e.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    const wide = pen.measureText(e.value || e.placeholder).width;
    if (wide > room + 0.5) rows.push(['INPUT', e.id, e.value || e.placeholder, wide, room]);
  }
  return rows;
}"""


@pytest.mark.parametrize("look", ["default", "unfolded", "two states", "fault"])
def test_nothing_overlaps_and_nothing_is_cut(kept, look):
    """No scrolling sideways; targets apart and large enough; words whole, at every width."""
    found = {}
    with kept.at() as page:
        page.tab.set_viewport_size(SIZES["wide"])
        LOOKS[look][1](page)
        for size, viewport in SIZES.items():
            page.tab.set_viewport_size(viewport)
            page.has_come_to_rest()
            wide = page.tab.evaluate("document.documentElement.scrollWidth")
            boxes = page.tab.evaluate(BOXES)
            assert len(boxes) > 40
            found[size] = {
                "too wide": [wide] if wide > viewport["width"] else [],
                "overlap": overlaps(boxes),
                "small": [(b["name"], b["whole"]) for b in boxes if min(b["whole"]) < 23.9],
                "cut": page.tab.evaluate(CUT),
            }
    assert {(size, *rows) for size, kinds in found.items() for rows in listed(kinds)} == set()


def listed(kinds):
    """Return each fault with its kind, as text."""
    return [(kind, str(row)) for kind, rows in kinds.items() for row in rows]


def overlaps(boxes):
    """Return the names of each two boxes that share more than a hair."""
    found = []
    seen = [b for b in boxes if b["right"] - b["left"] > 1.0 and b["bottom"] - b["top"] > 1.0]
    for i, one in enumerate(seen):
        for other in seen[i + 1 :]:
            wide = min(one["right"], other["right"]) - max(one["left"], other["left"])
            high = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            if wide > 1.5 and high > 1.5:
                found.append((one["name"], other["name"], round(wide), round(high)))
    return found


#: What has the focus: where, in which part of the page, and how it shows.
FOCUSED = """() => {
  const e = document.activeElement;
  const outlined = (style) => style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
  const seen = (o) => o && [null, '::after'].some((part) => outlined(getComputedStyle(o, part)));
  const part = ['header', 'settings', 'centre', 'results'].find((id) => e.closest('#' + id)) ?? '';
  const scrolled = part ? document.getElementById(part).scrollTop : 0;
  const {left, top, right, bottom} = e.getBoundingClientRect();
  return {
    name: e.id || e.getAttribute('aria-label') || e.textContent.slice(0, 40), tag: e.tagName, part,
    left, right, top: top + scrolled, bottom: bottom + scrolled,
    seen: seen(e) || seen(e.nextElementSibling), inView: bottom > 0 && top < innerHeight,
  };
}"""


@pytest.mark.parametrize("size", SIZES)
def test_the_focus_goes_in_reading_order_and_is_seen(browser, server, size):
    """From the links that skip, through header, settings, casts and results, downwards in each."""
    with opened(browser, server, viewport=SIZES[size]) as page:
        page.rested()
        stops = []
        for _ in range(250):
            page.tab.keyboard.press("Tab")
            stop = page.tab.evaluate(FOCUSED)
            if stop["tag"] == "BODY":
                break
            stops.append(stop)
        assert stops[-1]["part"] == "results"
        assert [s["name"] for s in stops[: len(SKIPPING)]] == [f"Skip to the {n}" for n in SKIPPING]
        regions = TABLET_REGIONS if size == "tablet" else REGIONS
        order = [regions.index(s["part"]) for s in stops[len(SKIPPING) :]]
        assert order == sorted(order)
        assert set(order) == {0, 1, 2, 3}
        assert [s["name"] for s in stops if not s["seen"]] == []
        assert [s["name"] for s in stops if not s["inView"]] == []
        same_part = [(a, b) for a, b in pairwise(stops[len(SKIPPING) :]) if a["part"] == b["part"]]
        assert [(a["name"], b["name"]) for a, b in same_part if goes_back(a, b)] == []


def goes_back(one, other):
    """Tell whether the focus jumped up, other than to the next column."""
    return other["bottom"] <= one["top"] + 1.0 and other["left"] < one["right"] - 1.0


def test_links_that_skip(kept):
    """They lead to the casts, to the movement bar and to the results."""
    with kept.at() as page:
        page.rested()
        for words, target in SKIPPING.items():
            page.find(".skip", has_text=words).press("Enter")
            inside = f"document.activeElement.closest('{target}') !== null"
            page.until(lambda inside=inside: page.tab.evaluate(inside), f"focus in {target}")


def test_nothing_is_told_by_colour_alone(kept):
    """Surfaces and contacts have words, each movement its own shape, each severity its own sign."""
    with kept.at() as page:
        page.rested()
        welcome = next(h for h in page.heard if h["kind"] == "welcome")
        items = page.find("#legend li")
        assert all(plain(text) for text in items.locator("> span:last-child").all_inner_texts())
        words = page.texts("#legend li")
        contacts = items.filter(has_text="contact, ")
        shapes = contacts.locator("svg path").evaluate_all(
            "all => all.map((e) => e.getAttribute('d'))"
        )
        assert len(shapes) >= 5
        assert len(set(shapes)) == len(shapes)
        assert any("nonworking" in text for text in words)
        signs = welcome["severities"]
        assert len(set(signs.values())) == len(signs)
        for name, sign in signs.items():
            assert f"{sign}{name}" in [text.replace(" ", "") for text in words]
        told = page.texts("#findings .severity")
        assert told
        assert all(text.rstrip(":") in signs for text in told)
        assert {text[-2:] for text in page.texts("#legend .ends span")} <= {"mm", "re"}


def test_the_state_is_spoken(kept):
    """What a screen reader hears after the jaw has moved is the server's own line."""
    with kept.at() as page:
        pose = page.rested()
        expect(page.find("#spoken")).to_contain_text(pose["words"].split(":")[0])


@pytest.mark.parametrize("size", [(390, 844), (844, 390), (600, 844)])
def test_a_telephone_shows_the_casts_and_scrolls_to_the_rest(browser, server, size):
    """Nothing is squeezed to nothing where not all of it has room at once."""
    width, height = size
    with opened(browser, server, viewport={"width": width, "height": height}) as page:
        page.rested()
        for part, least in (("#view-a", 250), ("#movement-bar", 60), ("#results", 500)):
            assert page.find(part).bounding_box()["height"] >= least
        assert page.tab.evaluate("document.documentElement.scrollWidth") <= width
        page.tab.mouse.move(width / 2, height / 2)
        page.find("#results").scroll_into_view_if_needed()
        assert page.tab.evaluate("scrollY") > 0
