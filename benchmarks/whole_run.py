"""Time the built-in case step by step, with compiled kernels at hand."""

import time

from kinematics.checkup import run
from scenes.builtin_cases import DEFAULT_CASE, builtin_case
from scenes.case_words import case_words
from scenes.report import html_report


def rows() -> list[tuple[str, float]]:
    """Return the name and the seconds of every step of one run on two threads, and the report."""
    case = builtin_case(DEFAULT_CASE)
    run(case, lambda _: None, threads=2)
    marks: list[tuple[str, float]] = []
    result = run(case, lambda name: marks.append((name, time.perf_counter())), threads=2)
    marks.append(("writing the report", time.perf_counter()))
    text = html_report(result, case_words(case))
    end = time.perf_counter()
    ends = [start for _, start in marks[1:]] + [end]
    steps = [(name, stop - start) for (name, start), stop in zip(marks, ends, strict=True)]
    return [*steps, (f"all; report of {len(text) / 1e6:.2f} MB", end - marks[0][1])]
