"""The page in a real browser while a test handles it."""

import base64
import json
import time
from contextlib import ExitStack, contextmanager

from playwright.sync_api import expect

from scenes.case_places import DEFAULT_CASE
from scenes.page_frames import header_of
from tests.recorded_desk import COARSE

#: With kernels to compile first, an answer may take this long.
PATIENCE_S = 120.0
START = {
    "case": DEFAULT_CASE,
    "changes": COARSE,
    "movement": "right lateral",
    "start": "MI",
    "travel_mm": 2.0,
    "opening_mm": 0.0,
    "map": "pose",
}
expect.set_options(timeout=1000.0 * PATIENCE_S)


def fragment(state):
    """Return a state as the page writes it behind its address."""
    text = base64.urlsafe_b64encode(json.dumps(state).encode()).decode()
    return "#state=" + text.rstrip("=")


def state_of(address):
    """Return the state behind an address of the page."""
    text = address.partition("#state=")[2]
    return json.loads(base64.urlsafe_b64decode(text + "=" * (-len(text) % 4)))


class OpenPage:
    """A tab with the page, and what went between it and the server.

    Attributes
    ----------
    tab
        Of the browser library.
    sent : list
        Messages of the page, read.
    heard : list
        Headers of the server's messages.
    said : list of str
        Errors and warnings of the page's console, and errors nobody caught.
    asked : list of str
        Addresses the page wanted something from.
    """

    def __init__(self, context, running):
        self.running = running
        self.sent, self.heard, self.said, self.asked = [], [], [], []
        self.tab = context.new_page()
        self.tab.set_default_timeout(1000.0 * PATIENCE_S)
        self.tab.on("console", self._console)
        self.tab.on("pageerror", lambda error: self.said.append(str(error)))
        self.tab.on("request", lambda request: self.asked.append(request.url))
        self.tab.on("websocket", self._socket)

    def _console(self, message):
        if message.type in ("error", "warning") and "GPU stall" not in message.text:
            self.said.append(message.text)

    def _socket(self, socket):
        self.asked.append(socket.url)
        socket.on("framesent", lambda text: self.sent.append(json.loads(text)))
        socket.on("framereceived", lambda data: self.heard.append(header_of(data)))

    def find(self, selector, **more):
        """Return what a selector finds."""
        return self.tab.locator(selector, **more)

    def open(self, state=START):
        """Go to the page with a state in its address."""
        self.tab.goto(self.running.guard.address() + (fragment(state) if state else ""))
        return self

    def until(self, holds, what):
        """Look again at every frame that the browser draws until something holds."""
        patience = time.monotonic() + PATIENCE_S
        while not holds():
            assert time.monotonic() < patience, f"waited in vain for {what}"
            self.tab.evaluate("() => new Promise((done) => requestAnimationFrame(done))")

    @property
    def shows(self):
        """The states the page has asked for."""
        return [message for message in self.sent if message["kind"] == "show"]

    def has_asked(self, what, holds):
        """Wait until the newest state that the page has asked for is such, and return it."""
        self.until(lambda: self.shows and holds(self.shows[-1]), what)
        return self.shows[-1]

    def answer(self, kind, number):
        """Wait for the header of the answer to a message."""
        found = []

        def heard():
            found[:] = [h for h in self.heard if (h["kind"], h.get("number")) == (kind, number)]
            return found

        self.until(heard, f"{kind} {number}")
        return found[-1]

    def rested(self):
        """Wait until all that was asked is answered and up to date; return the pose."""
        self.tab.evaluate("() => new Promise((done) => requestAnimationFrame(done))")
        self.has_asked("a state", lambda _: True)
        self.until(self.is_answered, "an answer to the last state")
        pose = [h for h in self.heard if h["kind"] == "pose"][-1]
        expect(self.find("#results-note")).to_have_text("up to date")
        expect(self.find("html")).to_have_attribute("data-state", "ready")
        return pose

    def has_come_to_rest(self, still=30):
        """Wait until the browser has drawn a number of frames in which the view drew none."""
        seen = []

        def at_rest():
            seen.append(self.find("html").get_attribute("data-frames"))
            return len(seen) > still and len(set(seen[-still:])) == 1

        self.until(at_rest, "a view at rest")

    def is_answered(self):
        """Tell whether the last state that was asked for was answered."""
        number = self.shows[-1]["number"]
        return any(h.get("number") == number and h["kind"] in ("pose", "fault") for h in self.heard)

    def texts(self, selector):
        """Return the words of everything that a selector finds, blanks of all kinds made plain."""
        return [plain(text) for text in self.find(selector).all_inner_texts()]

    def text(self, selector):
        """Return the words of what a selector finds."""
        return plain(self.find(selector).inner_text())

    def check_manners(self, allowed=()):
        """Check that nothing was complained of and nothing asked of anybody else."""
        assert [text for text in self.said if not any(part in text for part in allowed)] == []
        own = f"//{self.running.own_name}/"
        inner = ("data:", "blob:")
        strange = [url for url in self.asked if own not in url and not url.startswith(inner)]
        assert strange == []


class KeptPage:
    """One tab for many tests that put a state on an open page rather than open another.

    To open the page takes a browser seconds. Who tests what depends on what came before, as steps
    back and forth do, opens one of its own: see `opened`. A page on which a test failed is left.
    """

    def __init__(self, browser, running, **settings):
        self._browser, self._running, self._settings = browser, running, settings
        self._page, self._closing = None, ExitStack()
        self._turns = 0

    @contextmanager
    def at(self, state=START):
        """Give the page in a state, all answered and folded as a new page is."""
        if self._page is None:
            window = opened(self._browser, self._running, state, **self._settings)
            self._page = self._closing.enter_context(window)
        page, self._page = self._page, None
        self._turns += 1  # what stands in the address already is no news
        page.tab.evaluate(_GO_TO, fragment({**state, "turn": self._turns}))
        page.rested()
        page.tab.evaluate(_FOLD)
        yield page
        page.check_manners()
        self._page = page

    def close(self):
        """Close every window."""
        self._closing.close()


#: Puts a state into the address, and waits until the page has taken it over.
_GO_TO = """(to) => new Promise((done) => {
  window.addEventListener('hashchange', () => requestAnimationFrame(done), {once: true});
  location.hash = to;
})"""
#: Folds groups of settings as on a new page, and lets go of what has the focus.
_FOLD = """() => {
  document.activeElement?.blur();
  for (const group of document.querySelectorAll('#settings details')) {
    group.open = group.id === 'group-condyles';
  }
}"""


@contextmanager
def kept_page(browser, running, **settings):
    """Give a page that is kept; see `KeptPage`."""
    kept = KeptPage(browser, running, **settings)
    try:
        yield kept
    finally:
        kept.close()


def plain(text):
    """Return words with every run of blanks as one."""
    return " ".join(text.split())


@contextmanager
def opened(browser, running, state=START, allowed=(), first_steps=False, **settings):
    """Open the page in a window of its own, and check its manners in the end.

    `allowed`: parts of complaints that belong to what is tested; `first_steps`: show them.
    """
    viewport = settings.pop("viewport", {"width": 1440, "height": 900})
    context = browser.new_context(viewport=viewport, accept_downloads=True, **settings)
    if not first_steps:
        context.add_init_script("localStorage.setItem('cuspway first steps seen', 'yes')")
    page = OpenPage(context, running)
    try:
        yield page.open(state)
        page.check_manners(allowed)
    finally:
        context.close()
