"""Time the built-in case step by step and as the command a user types, compiled kernels at hand."""

import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from benchmarks.table import Figure, Run
from kinematics.checkup import run as check
from scenes.builtin_cases import builtin_case
from scenes.case_places import DEFAULT_CASE
from scenes.case_words import case_words
from scenes.report import html_report


def rows(run: Run) -> Iterator[Figure]:
    """Yield the seconds of every step on two threads, of the report, and of the whole command."""
    case = builtin_case(DEFAULT_CASE)
    run.say("the built-in case, step by step")
    check(case, lambda _: None, threads=2)
    marks: list[tuple[str, float]] = []
    result = check(case, lambda name: marks.append((name, time.perf_counter())), threads=2)
    marks.append(("drawing and writing the report in this process", time.perf_counter()))
    text = html_report(result, case_words(case))
    ends = [start for _, start in marks[1:]] + [time.perf_counter()]
    for (name, begin), end in zip(marks, ends, strict=True):
        yield Figure(name, "", f"{end - begin:.2f} s", "built-in case, 2 threads")
    run.say("the whole command")
    whole = median(_whole_command() for _ in range(run.repeats))
    yield Figure(
        "the whole command `cuspway check`", "", f"{whole:.2f} s",
        f"built-in case, report of {len(text) / 1e6:.2f} MB",
    )  # fmt: skip


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
