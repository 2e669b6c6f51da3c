"""Fixtures that several test modules share, and how hypothesis searches."""

import os
import signal
from contextlib import contextmanager

import pytest
from hypothesis import settings
from playwright.sync_api import sync_playwright

from tests import example_checkup
from tests.machine import CHROMIUM, need_chromium

# Windows and plots belong to a person; tests have no screen.
os.environ.setdefault("MPLBACKEND", "Agg")

# A shell that starts the tests in the background has Ctrl-C ignored by all that they start.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)

#: Begun first, in this order, a file being one worker's. While one worker compiles all kernels for
#: the first file, which takes minutes where none are kept yet, the other does what needs none: the
#: files on tracks, records and texts. What takes long comes early: nobody should begin it last.
_FIRST = (
    "test_kernels_uncompiled.py",
    "test_track_settings.py",
    "test_page_controls_by_hand.py",  # the first worker's next
    "test_track_hinge_axis.py",
    "test_track_smoothing.py",
    "test_records_exact.py",
    "test_records_scatter.py",
    "test_derivations.py",
    "test_case_file.py",
    "test_invariants.py",
)


def pytest_collection_modifyitems(items):
    """Put some files in front; see `_FIRST`."""
    places = {name: place for place, name in enumerate(_FIRST)}
    items.sort(key=lambda item: places.get(item.path.name, len(places)))


settings.register_profile("repeatable", derandomize=True, deadline=None, max_examples=100)
settings.load_profile("repeatable")


@pytest.fixture(scope="session")
def example():
    """Return a small hand-made checkup with every kind of entry."""
    return example_checkup.checkup()


@contextmanager
def drawing_browser():
    """Give a headless browser that may not reach any network and draws in three dimensions."""
    with sync_playwright() as play:
        chromium = play.chromium.launch(
            executable_path=str(CHROMIUM),
            args=[
                *("--no-sandbox", "--disable-quic", "--no-first-run", "--disable-sync"),
                *("--use-angle=swiftshader", "--enable-unsafe-swiftshader"),
                # Without a graphics card the casts alone are drawn as by one: to lay out all of the
                # page so as well takes ten times as long.
                "--disable-gpu-compositing",
            ],
        )
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def browser():
    """Return a headless browser; see `drawing_browser`. Every test opens windows of its own."""
    need_chromium()
    with drawing_browser() as chromium:
        yield chromium
