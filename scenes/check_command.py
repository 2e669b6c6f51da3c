"""What `cuspway check` does: a case in, a folder of results out."""

from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from kinematics import checkup
from kinematics.borders.tracks import BorderTrack
from kinematics.case import Case
from kinematics.case_record_scans import with_scans_registered
from kinematics.contact.mounted import MountedCasts
from kinematics.engine.local_hands import LocalHands
from kinematics.planning.findings import SEVERITIES, Severity
from kinematics.result_files import write_results
from kinematics.studies.uncertain import studied_at_once
from scenes.case_words import case_words
from scenes.output_folder import folder_in_one_piece, write_errors_said_plainly
from scenes.progress_lines import telling
from scenes.report import orders_for, write_html
from scenes.summary import summary

REPORT_FILE: Final = "report.html"


@dataclass(frozen=True)
class Outcome:
    """What the command line needs to know of a finished check.

    Attributes
    ----------
    summary : str
        Plain text for the screen.
    gravest : str or None
        The highest severity among the findings; None where there are no findings.
    warning : str
        One line saying why pictures are simplified; empty where they are not.
    """

    summary: str
    gravest: Severity | None
    warning: str


def check(
    given: Case,
    out: Path,
    progress: Callable[[str], None],
    threads: int,
    drawing: Executor,
    made_from: Case | None = None,
) -> Outcome:
    """Run one case and write its results.

    Parameters
    ----------
    given : Case
        The case, scans that are to be brought onto each other as they are.
    out : Path
        Folder for the results; appears only when everything is written.
    progress : callable
        Gets the name of every step when it begins.
    threads : int
        How many threads may compute; the results do not depend on it.
    drawing : Executor
        Draws what the report shows; the report does not depend on who does.
    made_from : Case, optional
        Case from which it was made by changing settings; the report names them.

    Raises
    ------
    InputError
        The case or the folder cannot be used.
    """
    case = with_scans_registered(given, progress)
    words = case_words(case, made_from)
    orders = orders_for(words, drawing)

    def built(casts: MountedCasts, borders: tuple[BorderTrack, ...]) -> None:
        orders.teeth(casts.upper, casts.lower, borders)

    with folder_in_one_piece(out) as folder:
        result = checkup.run(case, progress, threads, built, orders.movement)
        if case.uncertainty is not None:
            progress("running the case with uncertain settings varied")
            hands, told = LocalHands(threads), telling(progress, "samples")
            result = replace(result, uncertainty=studied_at_once(case, hands, told))
        progress("writing the report")
        drawings = orders.rest(result)
        with write_errors_said_plainly(out):
            write_results(folder, case, result, [REPORT_FILE])
            write_html(folder / REPORT_FILE, result, words, drawings)
    present = {finding.severity for finding in result.findings}
    gravest = max(present, key=SEVERITIES.index, default=None)
    return Outcome(summary(case, result), gravest, drawings.simplified)
