"""The view of the casts looks as it did when somebody last looked at it."""

import numpy as np
import pytest

from tests.recorded_desk import recorded_page
from tests.view_pictures import SHOWN, known_picture, view_picture

#: Mean difference of all pixels and colours, of 255: letters and edges differ between machines.
MOST_APART = 3.0


@pytest.fixture(scope="module")
def server():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page(coarser=False) as running:
        yield running


@pytest.mark.parametrize("name", SHOWN)
def test_the_view_looks_as_it_did(browser, server, name):
    """Renew the known pictures with python -m tests.renew_pictures, and look at them."""
    pixels, known = view_picture(browser, server, SHOWN[name]), known_picture(name)
    assert pixels.shape == known.shape
    assert np.abs(pixels - known).mean() < MOST_APART


def test_another_pose_would_be_noticed(browser, server):
    """The tolerance is no excuse: from another side the picture is far off."""
    state = {**SHOWN["page_front"], "display": {"look": "right"}}
    apart = np.abs(view_picture(browser, server, state) - known_picture("page_front")).mean()
    assert apart > 3.0 * MOST_APART
