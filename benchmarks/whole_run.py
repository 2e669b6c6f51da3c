"""Time the built-in case step by step and as the command a user types, compiled kernels at hand."""

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from kinematics.checkup import run
from scenes.builtin_cases import DEFAULT_CASE, builtin_case
from scenes.case_words import case_words
from scenes.report import html_report

_REPEATS = 3


def rows() -> list[tuple[str, float]]:
    """Return the name and the seconds of every step on two threads, of the report, and of all."""
    case = builtin_case(DEFAULT_CASE)
    run(case, lambda _: None, threads=2)
    marks: list[tuple[str, float]] = []
    result = run(case, lambda name: marks.append((name, time.perf_counter())), threads=2)
    marks.append(("drawing and writing the report in this process", time.perf_counter()))
    text = html_report(result, case_words(case))
    end = time.perf_counter()
    ends = [start for _, start in marks[1:]] + [end]
    steps = [(name, stop - start) for (name, start), stop in zip(marks, ends, strict=True)]
    whole = statistics.median(_whole_command() for _ in range(_REPEATS))
    return [*steps, (f"the whole command; report of {len(text) / 1e6:.2f} MB", whole)]


def _whole_command() -> float:
    """Return the seconds that `cuspway check` takes, from start to end of the process."""
    with tempfile.TemporaryDirectory() as folder:
        out = str(Path(folder) / "out")
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "scenes.command_line", "check", "--threads", "2", "--out", out],
            check=True,
            capture_output=True,
        )
        return time.perf_counter() - start
