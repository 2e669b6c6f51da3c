"""How fluently the page moves in a browser without a graphics card: frames drawn a second."""

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any, Final

from benchmarks.page import served
from benchmarks.table import Figure, Run

_CHROMIUM: Final = Path("/usr/bin/chromium")
#: Everything is drawn by the processor, the page itself as well as the casts on it.
_SOFTWARE: Final = ("--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader")
_SIZES: Final = ((1440, 900), (1024, 700))
_MEASURED_S: Final = 3.0
_SETTLED_MS: Final = 1500.0
_PATIENCE_MS: Final = 300_000.0

#: Turns the casts by hand for some seconds, and returns how many frames that drew.
_TURN: Final = """(seconds) => new Promise((done) => {
  const view = document.querySelector("#view-a"), from = performance.now();
  const frames = () => Number(document.documentElement.dataset.frames), before = frames();
  const send = (kind, x) => view.dispatchEvent(new PointerEvent(kind, {
    bubbles: true, pointerId: 1, buttons: 1, clientX: 500 + x, clientY: 300, isPrimary: true }));
  view.setPointerCapture = () => {};
  send("pointerdown", 0);
  const move = (now) => {
    send("pointermove", (now - from) / 20);
    if (now - from < 1000 * seconds) requestAnimationFrame(move);
    else { send("pointerup", 0); done(frames() - before); }
  };
  requestAnimationFrame(move);
})"""


def rows(run: Run) -> Iterator[Figure]:
    """Yield how many frames a second the casts are drawn in, playing and turned by hand."""
    if not _CHROMIUM.exists():
        run.say(f"frames: left out, there is no Chromium at {_CHROMIUM}")
        return
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        run.say("frames: left out, playwright is not installed (it comes with the test extras)")
        return
    with served() as address, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=str(_CHROMIUM), args=list(_SOFTWARE))
        for width, height in _SIZES:
            run.say(f"frames at {width} x {height}")
            tab = browser.new_page(viewport={"width": width, "height": height})
            tab.goto(address)
            tab.locator("html[data-rested]").wait_for(state="attached", timeout=_PATIENCE_MS)
            for what, measured in (("played", _played), ("turned by hand", _turned)):
                found = median(measured(tab) for _ in range(run.repeats))
                yield Figure(
                    f"frames a second, casts {what}", "20", f"{found:.0f}",
                    f"Chromium {browser.version} without a graphics card, {width} x {height}",
                )  # fmt: skip
            tab.close()
        browser.close()


def _played(tab: Any) -> float:
    """Return the frames a second while an excursion is played."""
    tab.locator("#play").click()
    tab.wait_for_timeout(_SETTLED_MS)
    begin, before = perf_counter(), _frames(tab)
    tab.wait_for_timeout(1e3 * _MEASURED_S)
    found = (_frames(tab) - before) / (perf_counter() - begin)
    tab.locator("#play").click()
    tab.wait_for_timeout(_SETTLED_MS)
    return found


def _turned(tab: Any) -> float:
    """Return the frames a second while a hand turns the casts."""
    found = tab.evaluate(_TURN, _MEASURED_S) / _MEASURED_S
    tab.wait_for_timeout(_SETTLED_MS)
    return float(found)


def _frames(tab: Any) -> int:
    return int(tab.evaluate("document.documentElement.dataset.frames"))
