"""What `cuspway study` does: cases in, how sure their findings are out."""

from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.case_record_scans import with_scans_registered
from kinematics.checks import InputError
from kinematics.contact.warm_up import warm_up
from kinematics.engine.folder_store import STUDY_FILE, FolderStore
from kinematics.engine.hands import HandLost, Hands
from kinematics.engine.plan import Job
from kinematics.engine.run import run
from kinematics.engine.store import Store
from kinematics.studies.many import CaseRow, case_row
from kinematics.studies.many_files import write_cases
from kinematics.studies.point import REFUSED
from kinematics.studies.quantities import SLIDE
from kinematics.studies.uncertain import AS_SET, Studied, study_plan, uncertainty_of
from kinematics.table_cells import table_text
from kinematics.uncertainty.found import Uncertainty
from kinematics.uncertainty.settings import UncertaintySettings
from kinematics.uncertainty_files import uncertainty_tables
from scenes.cases_page import CASES_PAGE, cases_page, write_cases_page
from scenes.found_cases import FoundCase, FoundCases
from scenes.output_folder import folder_in_one_piece, write_errors_said_plainly
from scenes.progress_lines import telling
from scenes.study_arguments import RESULTS, SAMPLES
from scenes.study_page import study_page, write_study_page
from scenes.study_words import study_summary, unread_words

#: The page to open first.
FIRST_PAGE: Final = f"{RESULTS}/{CASES_PAGE}"
#: Runs that a worker of a cluster does before it tells of them: a dozen seconds.
SAMPLES_A_TASK: Final = 64
_TITLE: Final = "Cases side by side"
_TITLE_STUDIED: Final = "Cases, and how sure their findings are"


@dataclass(frozen=True)
class StudyOutcome:
    """What the command line needs to know of a finished study.

    Attributes
    ----------
    summary : str
        Plain text for the screen.
    all_judged : bool
        Whether every case could be run with its settings as they are.
    """

    summary: str
    all_judged: bool


@dataclass(frozen=True)
class _Done:
    """One case of a finished study."""

    found: FoundCase
    row: CaseRow
    uncertainty: Uncertainty | None


def study(
    given: FoundCases,
    out: Path,
    samples: int | None,
    progress: Callable[[str], None],
    hands: Hands,
    drawing: Executor,
) -> StudyOutcome:
    """Study cases.

    A study that was stopped goes on where it was when the same is asked for again.

    Parameters
    ----------
    given : FoundCases
        The cases, scans that are to be brought onto each other as they are.
    out : Path
        Folder: its `samples` keep every finished run, its `results` appear when all is done.
    samples : int or None
        Independent samples of every case, a power of two; 0: settings as they are and nothing else;
        None: as each case says.
    progress : callable
        Gets the name of every step, and how far the study is.
    hands : Hands
        Who runs the samples; results do not depend on it.
    drawing : Executor
        Draws what pages show.

    Raises
    ------
    InputError
        A case, an option or the folder cannot be used.
    """
    if given.unread:
        progress(unread_words(given.unread))
    cases = [_registered(item, progress) for item in given.cases]
    subjects = {item.name: _studied(item.case, samples) for item in cases if item.case is not None}
    plan, store = study_plan(subjects), FolderStore(out / SAMPLES)
    warm_up(progress, scans=any(one.case.scans is not None for one in subjects.values()))
    progress(f"studying {len(plan.jobs)} of {len(cases)} cases")
    # With its settings as they are alone every case is one run.
    what = "cases" if samples == 0 else "samples"
    with write_errors_said_plainly(out):
        out.mkdir(parents=True, exist_ok=True)
    try:
        run(plan, store, hands, telling(progress, what))
    except HandLost as error:
        raise InputError(str(error)) from error
    progress("gathering what was found")
    jobs = {job.name: job for job in plan.jobs}
    done = [_gathered(item, subjects.get(item.name), jobs.get(item.name), store) for item in cases]
    with folder_in_one_piece(out / RESULTS) as folder, write_errors_said_plainly(out):
        _write(folder, done, drawing)
    return StudyOutcome(
        study_summary([(item.row, item.uncertainty) for item in done], given.unread),
        all_judged=not any(item.row.refused for item in done),
    )


def is_begun(out: Path) -> bool:
    """Tell whether a folder holds runs of a study."""
    return (out / SAMPLES / STUDY_FILE).exists()


def _registered(found: FoundCase, progress: Callable[[str], None]) -> FoundCase:
    """Return a case with its scans brought onto each other, or why that cannot be."""
    if found.case is None:
        return found
    try:
        return replace(found, case=with_scans_registered(found.case, progress))
    except InputError as error:
        if not found.in_a_folder:
            raise
        return replace(found, case=None, refused=str(error))


def _studied(case: Case, wanted: int | None) -> Studied:
    """Return how a case is studied."""
    said = case.uncertainty or UncertaintySettings()
    if wanted == 0:
        return Studied(replace(case, uncertainty=None), as_set_only=True)
    samples = said.samples if wanted is None else wanted
    return Studied(replace(case, uncertainty=replace(said, samples=samples)))


def _gathered(found: FoundCase, subject: Studied | None, job: Job | None, store: Store) -> _Done:
    """Return what the runs of one case say."""
    refused = found.refused if job is None else store.refused(job)
    if subject is None or job is None or refused:
        return _Done(found, CaseRow(found.title, found.given, refused), None)
    table = store.table(job)
    as_set = table.row(AS_SET)
    whole = None if subject.as_set_only or as_set[REFUSED] else uncertainty_of(subject, table)
    row = case_row(found.title, found.given, as_set, whole, float(table.floats(SLIDE)[AS_SET]))
    page = "" if whole is None else f"{found.name}-study.html"
    return _Done(found, replace(row, page=page), whole)


def _write(folder: Path, done: Sequence[_Done], drawing: Executor) -> None:
    """Write all results into a folder."""
    files = [CASES_PAGE]
    for item in done:
        if item.uncertainty is None or item.found.case is None:
            continue
        case = item.found.case
        page = study_page(case.title, case.note, item.uncertainty, drawing)
        write_study_page(folder / item.row.page, page)
        files.append(item.row.page)
        for name, (head, rows) in uncertainty_tables(item.uncertainty).items():
            file = f"{item.found.name}-{name}"
            (folder / file).write_bytes(table_text(head, rows).encode("utf-8"))
            files.append(file)
    told = [item.row for item in done]
    studied = any(item.uncertainty is not None for item in done)
    title = _TITLE_STUDIED if studied else _TITLE
    write_cases_page(folder / CASES_PAGE, cases_page(title, told))
    write_cases(folder, told, files)
