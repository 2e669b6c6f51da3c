"""What a test needs of the machine: a reason to skip here, a failure in the automatic check."""

import os
import shutil
from pathlib import Path

import pytest

from scenes.opengl_probe import probe

CHROMIUM = Path("/usr/bin/chromium")


def need(present: bool, missing: str) -> None:
    """Skip with a reason where something is missing; with CI=true in the environment, fail."""
    if present:
        return
    if os.environ.get("CI") == "true":
        pytest.fail(f"the automatic check needs {missing}")
    pytest.skip(f"this machine has no {missing}")


def need_opengl() -> None:
    """Skip or fail where no picture in three dimensions can be drawn."""
    need(probe().window is not None, "OpenGL (Debian: libegl1 libgl1-mesa-dri)")


def need_chromium() -> None:
    """Skip or fail where there is no headless browser."""
    need(CHROMIUM.exists(), f"Chromium at {CHROMIUM}")


def need_display() -> None:
    """Skip or fail where no display can be made and used as a person uses one."""
    found = all(shutil.which(name) for name in ("Xvfb", "xdotool"))
    need(found, "display to test windows on (Debian: xvfb xdotool)")
    need_opengl()
