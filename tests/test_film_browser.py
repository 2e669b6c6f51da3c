"""A film as a page in a real browser: opened from disk, turned by hand, stopped, played."""

from contextlib import contextmanager

import numpy as np
import pytest
from playwright.sync_api import expect

from kinematics.geometry.poses import move_points
from tests.access_rules import keeps_the_rules
from tests.film_pages import expected_moments, written
from tests.open_page import plain

PATIENCE_MS = 60_000
#: What a graphics card says of being asked for a picture.
STALL = "GPU stall"
#: Waits until the browser has drawn so many frames.
FRAMES = (
    "new Promise((done) => {{ let left = {}; const next = () =>"
    " (left-- > 0 ? requestAnimationFrame(next) : done()); next(); }})"
)
VIEWS = ("front", "right", "left", "upper", "lower")


class FilmTab:
    """A tab with a film, and what it complained of and asked for."""

    def __init__(self, context, path):
        self.tab, self.path = context.new_page(), path
        self.said, self.asked = [], []
        self.tab.set_default_timeout(PATIENCE_MS)
        self.tab.on("console", lambda message: self.said.append(message.text))
        self.tab.on("pageerror", lambda error: self.said.append(str(error)))
        self.tab.on("request", lambda request: self.asked.append(request.url))
        self.tab.goto(path.as_uri())

    def find(self, selector):
        """Return what a selector finds."""
        return self.tab.locator(selector)

    def text(self, selector):
        """Return the words of what a selector finds."""
        return plain(self.find(selector).inner_text())

    @property
    def number(self):
        """Number of the picture that is shown."""
        return int(self.find("html").get_attribute("data-picture").split("/")[0]) - 1

    def drawn(self):
        """Wait until the casts rest as they are told to stand, and return a picture of them."""
        expect(self.find("#casts")).to_have_attribute("data-pose", str(self.number))
        self.tab.evaluate(f"() => {FRAMES.format(2)}")  # what was asked for has begun
        expect(self.find("#casts")).to_have_attribute("data-still", "true")
        return self.find("#casts").screenshot()

    def go_to(self, number):
        """Move the slider by hand."""
        self.tab.evaluate(
            "number => { const slider = document.querySelector('#slider');"
            " slider.value = number; slider.dispatchEvent(new Event('input')); }",
            number,
        )
        expect(self.find("#casts")).to_have_attribute("data-pose", str(number))

    def look(self, view):
        """Press the button of a view."""
        self.find(f"label[for=view-{view}]").click()

    def turned(self):
        """Return where one looks, as the page tells it."""
        return self.find("#casts").get_attribute("aria-label").split(".")[0]

    def check_manners(self):
        """Check that nothing was complained of, and nothing asked of anybody."""
        assert [text for text in self.said if STALL not in text] == []
        strange = [url for url in self.asked if not url.startswith(("data:", "blob:"))]
        assert strange == [self.path.as_uri()]


@contextmanager
def opened(browser, path, width=560, height=560, script="", ready=True, **settings):
    """Open a film in a window of its own, without any network."""
    context = browser.new_context(
        viewport={"width": width, "height": height}, offline=True, **settings
    )
    if script:
        context.add_init_script(script)
    try:
        film = FilmTab(context, path)
        if ready:
            expect(film.find("html")).to_have_attribute("data-state", "ready", timeout=PATIENCE_MS)
        yield film
        film.check_manners()
    finally:
        context.close()


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    """Return the file of a film."""
    return written(tmp_path_factory.mktemp("film") / "casts.html")[0]


@pytest.fixture(scope="module")
def every():
    """Return all moments of the film, as they are computed."""
    return expected_moments()[1]


@pytest.fixture(scope="module")
def kept(browser, path):
    """Return a tab that several tests use."""
    with opened(browser, path) as film:
        yield film


@pytest.fixture
def film(kept):
    """Return that tab as it was in the beginning."""
    kept.go_to(0)
    kept.look("front")
    return kept


def test_the_slider_puts_the_lower_where_it_was_computed(film, every):
    """To a ten-thousandth of a millimetre; words are those of pictures."""
    corners = np.array([[x, y, z] for x in (0.0, 90.0) for y in (-50, 50) for z in (-60, 0)])
    for number in (0, 6, 9, 17, 23, 30, 33, 45):
        moment = every[number]
        film.go_to(number)
        move = np.array(film.find("#casts").get_attribute("data-move").split(), float)
        off = move_points(move.reshape(4, 4), corners) - move_points(moment.move, corners)
        assert np.abs(off).max() <= 1e-4
        assert [film.text(f"#{name}") for name in ("head", "travel", "told")] == [
            plain(words) for words in (moment.head, moment.travel, moment.told)
        ]
        told = film.find("#slider").get_attribute("aria-valuetext")
        assert told == f"{number / 10.0:.2f} seconds: {moment.head}, {moment.travel}"
        assert film.text("#time") == f"{number / 10.0:.2f} of {(len(every) - 1) / 10.0:.2f} s"


def test_marks_are_explained_in_words(film, every):
    """Those of the movement that is shown."""
    for number in (0, 9, len(every) // 2 + 9):
        film.go_to(number)
        wanted = [words for _, words in every[number].marks.keys]
        assert [plain(text) for text in film.find("#keys li").all_inner_texts()] == wanted
    assert "touch, nonworking side" in wanted


def test_marks_lie_over_the_casts(film):
    """Another place is marked in another movement at the same travel."""
    film.look("upper")
    film.go_to(9)
    one = film.drawn()
    film.go_to(10)
    assert film.drawn() != one


def test_every_view_shows_something_else(film):
    """Its button is pressed then; a film opens with the first that is asked for."""
    assert film.find("#view-front").is_checked()
    shown = set()
    for view in VIEWS:
        film.look(view)
        shown.add(film.drawn())
        assert film.find(f"#view-{view}").is_checked()
    assert len(shown) == len(VIEWS)


def test_a_hand_turns_the_casts_and_a_button_puts_them_back(film):
    """Turned by hand it is none of the views."""
    begin = film.drawn()
    box = film.find("#casts").bounding_box()
    x, y = box["x"] + 0.5 * box["width"], box["y"] + 0.5 * box["height"]
    film.tab.mouse.move(x, y)
    film.tab.mouse.down()
    film.tab.mouse.move(x + 80, y + 30, steps=3)
    film.tab.mouse.up()
    assert film.drawn() != begin
    assert film.find("#view input:checked").count() == 0
    film.look("front")
    assert film.drawn() == begin
    film.find("#casts").dispatch_event("wheel", {"deltaY": -300, "clientX": x, "clientY": y})
    assert film.drawn() != begin


def test_fingers_turn_and_enlarge(film):
    """One turns, two enlarge."""
    turn = """([id, x, y, kind]) => document.querySelector('#casts').dispatchEvent(
      new PointerEvent(kind, {pointerId: id, pointerType: 'touch', clientX: x, clientY: y,
                              button: 0, buttons: 1, bubbles: true}))"""
    film.tab.evaluate("() => { Element.prototype.setPointerCapture = () => {}; }")
    begin = film.drawn()
    for event in ((5, 200, 300, "pointerdown"), (5, 240, 300, "pointermove")):
        film.tab.evaluate(turn, event)
    one = film.drawn()
    for event in ((6, 300, 300, "pointerdown"), (6, 400, 300, "pointermove")):
        film.tab.evaluate(turn, event)
    two = film.drawn()
    for number in (5, 6):
        film.tab.evaluate(turn, (number, 0, 0, "pointerup"))
    assert len({begin, one, two}) == 3


def test_it_plays_and_stops(film):
    """By its button and by the space bar; nothing moves before it is asked to."""
    assert film.text("#play") == "Play"
    film.find("#play").click()
    expect(film.find("#play")).to_have_text("Pause")
    expect(film.find("html")).not_to_have_attribute("data-picture", "1/46")
    film.tab.evaluate("document.activeElement.blur()")
    film.tab.keyboard.press("Space")
    expect(film.find("#play")).to_have_text("Play")
    rests = film.number
    film.tab.evaluate(f"() => {FRAMES.format(20)}")
    assert film.number == rests > 0


def test_keys_step_and_turn(film):
    """Arrows step anywhere but on the casts, which they turn; speed and movement take their own."""
    film.tab.evaluate("document.activeElement.blur()")
    press = film.tab.keyboard.press
    for key, number in (("ArrowRight", 1), ("ArrowRight", 2), ("End", 45), ("ArrowLeft", 44)):
        press(key)
        assert film.number == number
    film.find("#slider").focus()
    for key, number in (("Home", 0), ("ArrowRight", 1)):
        press(key)
        assert film.number == number
    film.find("#casts").focus()
    press("ArrowRight")
    assert film.number == 1 and film.turned().startswith("Casts, view: turned from front")
    outline = film.tab.evaluate(
        "getComputedStyle(document.querySelector('#casts'), '::after').outlineStyle"
    )
    assert outline == "solid"


def test_a_movement_is_gone_to_by_its_name(film, every):
    """To its beginning."""
    film.find("label[for=movement-1]").click()
    assert film.text("#head") == "Right lateral excursion from MI"
    assert film.text("#travel") == "travel 0.00 mm"
    assert film.number == len(every) // 2


def test_access_for_all(film):
    """Nothing serious is found by a checker; speeds have their unit."""
    assert film.find("#speed option:checked").inner_text() == "2 mm/s"
    keeps_the_rules(film)


def test_on_a_narrow_screen_all_is_there(browser, path):
    """Nothing runs off its side; where motion is not wanted, it plays once, when asked."""
    with opened(browser, path, width=390, height=844, reduced_motion="reduce") as film:
        film.drawn()
        assert film.tab.evaluate("document.documentElement.scrollWidth") <= 390
        assert film.find("#casts").bounding_box()["height"] > 250
        assert film.find("#slider").bounding_box()["width"] > 200
        film.find("#speed").select_option("4")
        film.find("#play").click()
        expect(film.find("html")).to_have_attribute("data-picture", "46/46", timeout=PATIENCE_MS)
        expect(film.find("#play")).to_have_text("Play")


def test_without_webgl_it_says_so_and_tells_the_rest(browser, path, every):
    """Words and slider go on."""
    script = "HTMLCanvasElement.prototype.getContext = ((own) => function (kind, ...more) {"
    script += " return kind === '2d' ? own.call(this, kind, ...more) : null;"
    script += " })(HTMLCanvasElement.prototype.getContext);"
    with opened(browser, path, script=script) as film:
        assert "this browser has no WebGL" in film.text("#casts")
        film.find("#slider").focus()
        film.tab.keyboard.press("End")
        assert film.text("#head") == plain(every[-1].head)
        film.said.clear()  # the library of the casts complains, too


def test_an_old_browser_is_told(browser, path):
    """In words, in place of casts."""
    with opened(browser, path, script="delete globalThis.DecompressionStream", ready=False) as film:
        expect(film.find("html")).to_have_attribute("data-state", "fault")
        assert "This browser is too old" in film.text("#film-fault")


def test_without_script_it_says_what_is_missing(browser, path):
    """And keeps its caution."""
    with opened(browser, path, ready=False, java_script_enabled=False) as film:
        assert "needs JavaScript" in film.text("#film-below")
        assert "not a medical device" in film.text("#film-foot")
