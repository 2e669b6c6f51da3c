"""Can this machine draw in three dimensions? Asked in a child process.

Without OpenGL libraries the drawing library does not raise: it ends the whole process (SIGSEGV).
So a child process draws a small red square first and reports what drew it.
"""

import os
import subprocess
import sys
from dataclasses import dataclass
from functools import lru_cache

#: Environment variable by which VTK chooses its kind of render window.
WINDOW_VARIABLE = "VTK_DEFAULT_OPENGL_WINDOW"
#: What Debian and Ubuntu need for pictures without a screen and without a graphics card.
DEBIAN_PACKAGES = ("libegl1", "libgl1-mesa-dri")
#: Kinds of window tried in turn; None leaves the choice to VTK (or to the user's environment).
WINDOWS: tuple[str | None, ...] = (None, "vtkEGLRenderWindow", "vtkOSOpenGLRenderWindow")

#: Ends when the process that asked is gone, so that nothing it left behind goes on drawing.
_ENDING = """
import os, sys, threading
threading.Thread(target=lambda: (sys.stdin.read(), os._exit(1)), daemon=True).start()
"""
#: Draws 32 x 32 pixels of pure red, reads them back, and prints the kind of window that did it.
_CHILD = """
import vtkmodules.vtkRenderingOpenGL2
from vtkmodules.vtkCommonCore import vtkUnsignedCharArray
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow

window = vtkRenderWindow()
window.SetOffScreenRendering(1)
window.SetSize(32, 32)
renderer = vtkRenderer()
renderer.SetBackground(1.0, 0.0, 0.0)
window.AddRenderer(renderer)
window.Render()
pixels = vtkUnsignedCharArray()
window.GetPixelData(0, 0, 31, 31, 1, pixels, 0)
values = [pixels.GetValue(i) for i in range(pixels.GetNumberOfValues())]
if values == [255, 0, 0] * 1024:
    print("red by", window.GetClassName())
"""
_ANSWER = "red by "
_TIME_LIMIT_S = 60.0


@dataclass(frozen=True)
class Drawing:
    """What this machine can draw.

    Attributes
    ----------
    window : str or None
        Kind of render window that works; None where no picture in three dimensions can be drawn.
    missing : str
        One line for the user: what is missing and what brings it; empty where nothing is.
    """

    window: str | None
    missing: str = ""


MISSING_TEXT = (
    "three-dimensional pictures need OpenGL, which did not start on this machine, so simplified "
    "drawings are shown instead; on Debian or Ubuntu it comes with: "
    f"apt-get install {' '.join(DEBIAN_PACKAGES)}"
)


def ask_child(window: str | None, program: str = _CHILD) -> str | None:
    """Return the kind of window with which a child process drew, or None if it could not.

    Parameters
    ----------
    window : str or None
        Kind of window to ask for; None leaves the environment as it is.
    program : str
        What the child runs (tests give one that dies).
    """
    environment = dict(os.environ)
    if window is not None:
        environment[WINDOW_VARIABLE] = window
    reads, writes = os.pipe()
    try:
        child = subprocess.run(
            [sys.executable, "-c", _ENDING + program],
            env=environment,
            stdin=reads,
            capture_output=True,
            text=True,
            timeout=_TIME_LIMIT_S,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return None
    finally:
        os.close(reads)
        os.close(writes)
    for line in child.stdout.splitlines():
        if child.returncode == 0 and line.startswith(_ANSWER):
            return line.removeprefix(_ANSWER).strip()
    return None


@lru_cache(maxsize=1)
def probe() -> Drawing:
    """Find out, once a process and only when a picture is wanted, how to draw.

    Where VTK's own choice fails, or found its way only after complaining, the working kind of
    window is written to this process's environment, so that drawing goes there directly.
    """
    for wanted in WINDOWS:
        found = ask_child(wanted)
        if found is not None:
            if found in WINDOWS:
                os.environ[WINDOW_VARIABLE] = found
            return Drawing(found)
    return Drawing(None, MISSING_TEXT)
