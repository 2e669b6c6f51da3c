"""Written pages as Chromium lays them out, for paper in millimetres, and on screens offline."""

from contextlib import contextmanager

_PER_MM = 96.0 / 25.4
#: Width and height of A4 without the margins of the report.
A4_MM = (182.0, 270.0)


def printed(browser, path, paper_mm=A4_MM):
    """Return a tab with a report laid out as on paper."""
    tab = browser.new_page()
    tab.goto(path.as_uri())
    tab.emulate_media(media="print")
    width, height = (int(side * _PER_MM) for side in paper_mm)
    tab.set_viewport_size({"width": width, "height": height})
    return tab


def boxes_mm(tab, selector):
    """Return left, top, right and bottom of all that a selector finds, mm."""
    found = tab.evaluate(
        "selector => [...document.querySelectorAll(selector)].map((one) => {"
        " const box = one.getBoundingClientRect();"
        " return [box.left, box.top, box.right, box.bottom]; })",
        selector,
    )
    return [[value / _PER_MM for value in box] for box in found]


@contextmanager
def read_offline(browser, path, width):
    """Give a tab with a page opened offline: no complaint, no request, nothing too wide."""
    view = browser.new_context(viewport={"width": width, "height": 844}, offline=True)
    tab, said, asked = view.new_page(), [], []
    tab.on("console", lambda message: said.append(message.text))
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto(path.as_uri())
    assert said == []
    assert [url for url in asked if not url.startswith("data:")] == [path.as_uri()]
    assert tab.evaluate("document.documentElement.scrollWidth") <= width
    yield tab
    view.close()


def arch_heights_px(tab):
    """Return the heights of all drawings of arches."""
    return tab.evaluate(
        "[...document.querySelectorAll('.arch > svg')].map(e => e.getBoundingClientRect().height)"
    )
