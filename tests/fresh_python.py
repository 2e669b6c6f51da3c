"""Python in a process of its own, with this copy of the program."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent


def run_python(*arguments, cwd=ROOT, timeout_s=120.0, **changes):
    """Run the interpreter of the tests to its end; `changes` are to the environment."""
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=cwd,
        env=os.environ | {"PYTHONPATH": str(ROOT)} | changes,
        capture_output=True,
        text=True,
        timeout=timeout_s,
        check=False,
    )
