"""What is printed: a table of figures beside what is asked, and one of ratios."""

import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from statistics import median


@dataclass(frozen=True)
class Run:
    """How much is measured.

    Attributes
    ----------
    triangles : int
        About so many in each arch.
    repeats : int
        Medians are over so many runs.
    start : float
        When all began.
    """

    triangles: int
    repeats: int
    start: float = field(default_factory=time.monotonic)

    def say(self, step: str) -> None:
        """Tell on the error stream what is measured next."""
        print(f"{time.monotonic() - self.start:6.1f} s  {step}", file=sys.stderr, flush=True)

    def median_s(self, work: Callable[[], object]) -> float:
        """Return the median time of some runs, seconds, after one that is not counted."""
        work()
        return median(seconds(work) for _ in range(self.repeats))


def seconds(work: Callable[[], object]) -> float:
    """Return how long something takes."""
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


@dataclass(frozen=True)
class Figure:
    """One figure of our own: what, what is asked of it, what was found, and of how much."""

    what: str
    asked: str
    found: str
    counts: str


@dataclass(frozen=True)
class Ratio:
    """Ours beside another library, on the same poses.

    Attributes
    ----------
    scene, library : str
        What was closed, and by which other library.
    ours_s, theirs_s : float
        Seconds a pose, on one thread, medians over the same number of runs.
    largest_um : float
        Largest difference of the answers, along the arc at the contact.
    agrees : bool
        Whether they differ by no more than the error of the library's way.
    counts : str
        Poses and runs.
    settings : str
        How the library was used.
    """

    scene: str
    library: str
    ours_s: float
    theirs_s: float
    largest_um: float
    agrees: bool
    counts: str
    settings: str


@dataclass(frozen=True)
class NotMeasured:
    """A library that was not measured on a scene, and why."""

    scene: str
    library: str
    why: str


def figure_lines(figures: Sequence[Figure]) -> list[str]:
    """Return the table of our own figures, as Markdown."""
    rows = [[item.what, item.asked, item.found, item.counts] for item in figures]
    return _table(["what", "asked", "found", "of"], rows, "<>><")


def ratio_lines(items: Sequence[Ratio | NotMeasured]) -> list[str]:
    """Return the table of ratios, as Markdown, and below it how each library was used."""
    rows, notes = [], []
    for item in items:
        if isinstance(item, NotMeasured):
            rows.append([item.scene, item.library, "", "", "", "", item.why])
            continue
        differs = f"{item.largest_um:.2f} um" + ("" if item.agrees else " (!)")
        rows.append([
            item.scene, item.library, duration(item.ours_s), duration(item.theirs_s),
            f"{significant(item.theirs_s / item.ours_s)}", differs, item.counts,
        ])  # fmt: skip
        notes.append(f"* {item.scene}, {item.library}: {item.settings}")
    heads = ["scene", "library", "ours", "theirs", "ratio", "difference", "of"]
    return [*_table(heads, rows, "<<>>>><"), "", *notes]


def duration(time_s: float) -> str:
    """Return a time in the unit that suits it."""
    for factor, unit in ((1.0, "s"), (1e3, "ms")):
        if time_s * factor >= 1.0:
            return f"{significant(time_s * factor)} {unit}"
    return f"{significant(time_s * 1e6)} us"


def significant(number: float) -> str:
    """Return a number with about three digits."""
    digits = 2 if number < 10.0 else 1 if number < 100.0 else 0
    return f"{number:,.{digits}f}"


def counted(number: int, what: str) -> str:
    """Return a number of things, in the singular or the plural."""
    return f"{number:,} {what}{'' if number == 1 else 's'}"


def _table(heads: list[str], rows: list[list[str]], sides: str) -> list[str]:
    """Return a Markdown table whose columns line up; sides: < or > a column."""
    widths = [max(map(len, column)) for column in zip(heads, *rows, strict=True)]
    rule = ["-" * (w - 1) + (":" if s == ">" else "-") for w, s in zip(widths, sides, strict=True)]
    padded = [
        [f"{cell:{side}{width}}" for cell, side, width in zip(row, sides, widths, strict=True)]
        for row in (heads, *rows)
    ]
    return ["| " + " | ".join(row) + " |" for row in (padded[0], rule, *padded[1:])]
