"""Pictures of the page's view of the casts, reduced, and where the known ones are kept."""

import io

import numpy as np
from PIL import Image
from playwright.sync_api import expect

from tests.fresh_python import ROOT
from tests.open_page import START, opened

FOLDER = ROOT / "tests" / "pictures"
REDUCED = 4
SIZE = {"width": 1200, "height": 800}
#: Name of a picture, and what is seen in it.
SHOWN = {
    "page_front": START,
    "page_upper_occlusal": {
        **START,
        "map": "excursion",
        "display": {"upper": "solid", "lower": "away", "look": "upper occlusal"},
    },
}


def view_picture(browser, running, state):
    """Return what the view shows of a state, each pixel the mean of 16: height x width x 3."""
    with opened(browser, running, state, viewport=SIZE) as page:
        page.rested()
        page.has_come_to_rest()
        expect(page.find("#hover-a")).to_be_hidden()
        content = page.find("#view-a").screenshot(animations="disabled")
    with Image.open(io.BytesIO(content)) as opened_picture:
        pixels = np.asarray(opened_picture.convert("RGB"), np.float64)
    high, wide = (length // REDUCED for length in pixels.shape[:2])
    cut = pixels[: high * REDUCED, : wide * REDUCED]
    return cut.reshape(high, REDUCED, wide, REDUCED, 3).mean(axis=(1, 3))


def known_picture(name):
    """Return a picture as it was when somebody looked at it last."""
    with Image.open(FOLDER / f"{name}.png") as known:
        return np.asarray(known.convert("RGB"), np.float64)
