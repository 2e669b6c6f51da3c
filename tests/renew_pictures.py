"""Take the known pictures of the page's view anew: python -m tests.renew_pictures.

Look at every one of them afterwards: the tests compare with what they show.
"""

import sys

import numpy as np
from PIL import Image

from tests.conftest import drawing_browser
from tests.recorded_desk import recorded_page
from tests.view_pictures import FOLDER, SHOWN, view_picture


def main():
    """Write every picture."""
    FOLDER.mkdir(exist_ok=True)
    with recorded_page(coarser=False) as running, drawing_browser() as browser:
        for name, state in SHOWN.items():
            pixels = view_picture(browser, running, state)
            path = FOLDER / f"{name}.png"
            Image.fromarray(pixels.round().astype(np.uint8)).save(path, optimize=True)
            sys.stdout.write(f"{path}\n")


if __name__ == "__main__":
    main()
