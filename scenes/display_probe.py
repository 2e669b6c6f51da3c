"""Is there a display on which a window can be opened? Asked before anything is computed."""

import os

from kinematics.checks import InputError
from scenes.opengl_probe import MISSING_TEXT, WINDOWS, probe

_INSTEAD = (
    "look at the case in a browser with 'cuspway page', or make a film of it with 'cuspway film'"
)


def refuse_without_display() -> None:
    """Check that a window can be opened here.

    Raises
    ------
    InputError
        No OpenGL, or no display; the message says which, and what can be done.
    """
    found = probe().window
    if found is not None and found not in WINDOWS:
        return
    if found is None:
        needed = MISSING_TEXT.rpartition("; ")[2]
        raise InputError(
            f"view: a window needs OpenGL, which did not start here; {needed}; or {_INSTEAD}"
        )
    display = os.environ.get("DISPLAY")
    what = (
        f"the display that DISPLAY names, '{display}', cannot be opened"
        if display
        else "this terminal has none (DISPLAY is not set)"
    )
    raise InputError(
        f"view: a window needs a display, and {what}; run it on a desktop, or, from far away, with"
        f" 'ssh -X'; or {_INSTEAD}"
    )
