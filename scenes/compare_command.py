"""What `cuspway compare` does: two cases in, a folder with what differs out."""

from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kinematics import checkup
from kinematics.case import Case
from kinematics.case_record_scans import with_scans_registered
from kinematics.comparing.comparison import compared
from kinematics.comparison_files import write_comparison
from scenes.comparison_report import ShownRun, bases_of, comparison_page, write_page
from scenes.comparison_words import comparison_summary
from scenes.output_folder import folder_in_one_piece, write_errors_said_plainly

PAGE_FILE: Final = "comparison.html"


@dataclass(frozen=True)
class Compared:
    """What the command line needs to know of a finished comparison.

    Attributes
    ----------
    summary : str
        Plain text for the screen.
    warning : str
        One line saying why pictures are simplified; empty where they are not.
    """

    summary: str
    warning: str


def compare(
    before: Case,
    after: Case,
    out: Path,
    progress: Callable[[str], None],
    threads: int,
    drawing: Executor,
) -> Compared:
    """Run two cases and write what differs.

    Parameters
    ----------
    before, after : Case
        As they were read.
    out : Path
        Folder for the results; appears only when everything is written.
    progress : callable
        Gets the name of every step when it begins.
    threads : int
        How many threads may compute; the results do not depend on it.
    drawing : Executor
        Draws what the page shows.

    Raises
    ------
    InputError
        A case or the folder cannot be used.
    """
    cases = (before, after)
    titles = (before.title, after.title)
    with folder_in_one_piece(out) as folder:
        runs = []
        for when, case in zip(("before", "after"), cases, strict=True):

            def step(words: str, when: str = when) -> None:
                progress(f"{when}: {words}")

            whole = with_scans_registered(case, step)
            runs.append(ShownRun(whole, checkup.run(whole, step, threads)))
        progress("comparing both and writing the page")
        found = compared(runs[0].checkup, runs[1].checkup)
        page = comparison_page(runs[0], runs[1], found, drawing)
        with write_errors_said_plainly(out):
            write_comparison(folder, titles, found, [PAGE_FILE])
            write_page(folder / PAGE_FILE, page)
    return Compared(comparison_summary(titles, found, bases_of(*cases)), page.simplified)
