"""Fixtures that several test modules share, and how hypothesis searches."""

import os

import pytest
from hypothesis import settings

from tests import example_checkup

# Windows and plots belong to a person; tests have no screen.
os.environ.setdefault("MPLBACKEND", "Agg")

settings.register_profile("repeatable", derandomize=True, deadline=None, max_examples=100)
settings.load_profile("repeatable")


@pytest.fixture(scope="session")
def example():
    """Return a small hand-made checkup with every kind of entry."""
    return example_checkup.checkup()
