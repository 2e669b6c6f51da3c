"""What `cuspway vary` does: a case and one or two settings in, a folder of results out."""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.case_file import case_toml
from kinematics.case_record_scans import with_scans_registered
from kinematics.checks import InputError
from kinematics.contact.warm_up import warm_up
from kinematics.engine.bits import ground
from kinematics.engine.folder_store import FolderStore
from kinematics.engine.hands import Hands
from kinematics.engine.local_hands import KeptHands, LocalHands
from kinematics.engine.plan import Plan, Row
from kinematics.engine.run import run
from kinematics.engine.store import MemoryStore
from kinematics.variation_files import write_variation
from kinematics.varying.flips import most_followed
from kinematics.varying.grid import Grid
from kinematics.varying.varied import Round, varied
from scenes.output_folder import (
    folder_in_one_piece,
    write_errors_said_plainly,
)
from scenes.progress_lines import telling
from scenes.vary_page import vary_page
from scenes.vary_words import variation_summary

PAGE_FILE: Final = "vary.html"
#: So few runs are done in this process, where the teeth stand, before others have begun.
_FEW: Final = 24
#: Samples that a worker of a cluster runs before it tells of them.
SAMPLES_A_TASK: Final = 4


@dataclass(frozen=True)
class VaryOptions:
    """How a case is varied.

    Attributes
    ----------
    over : tuple of str
        One or two axes; see `grid_over`.
    out : Path
        Folder for the results; appears only when everything is written.
    runs : Path or None
        Folder in which finished runs are kept and taken up again; None: nowhere.
    """

    over: tuple[str, ...]
    out: Path
    runs: Path | None = None


def vary(
    given: Case,
    grid: Grid,
    options: VaryOptions,
    progress: Callable[[str], None],
    hands: Hands,
    drawing: Executor,
) -> str:
    """Run a case over a grid of settings and write what was found.

    Parameters
    ----------
    given : Case
        The case, scans that are to be brought onto each other as they are.
    grid : Grid
        Over what it is varied, as `options.over` asks for it.
    options : VaryOptions
        What is wanted.
    progress : callable
        Gets the name of every step when it begins, and now and then how far it is.
    hands : Hands
        Who runs the samples; results do not depend on it.
    drawing : Executor
        Draws maps and charts.

    Returns
    -------
    str
        Summary for the screen.

    Raises
    ------
    InputError
        The case, the settings or a folder cannot be used.
    """
    case = with_scans_registered(given, progress)
    warm_up(progress, scans=case.scans is not None)
    progress(runs_to_come(grid))
    about = ground() | {"case": case_toml(case), "grid": "\n".join(options.over)}
    with folder_in_one_piece(options.out) as folder:
        with _kept(hands) as working:
            found = varied(case, grid, about, _CarriedOut(options.runs, working, progress))
        progress("drawing and writing the page")
        page = vary_page(case, found, drawing)
        with write_errors_said_plainly(options.out):
            write_variation(folder, case.title, found, [PAGE_FILE])
            (folder / PAGE_FILE).write_bytes(page.encode("utf-8"))
    return variation_summary(case.title, found)


def runs_to_come(grid: Grid) -> str:
    """Say how many runs there will be, at least and at most."""
    least = len(grid.points) + (grid.case_point is None)
    most = least + most_followed(grid)
    return (
        f"{least:,} runs of the grid and the case as set; with those between points, where"
        f" something flips, {most:,} at most"
    )


@contextmanager
def _kept(hands: Hands) -> Iterator[Hands]:
    """Yield hands whose processes stay from one round to the next, if they are this machine's."""
    if not isinstance(hands, LocalHands):
        yield hands
        return
    with KeptHands(hands.processes) as kept:
        yield kept


class _CarriedOut:
    """Carries plans out, each with a store of its own, and tells how far it is."""

    def __init__(self, runs: Path | None, hands: Hands, progress: Callable[[str], None]) -> None:
        self._runs, self._hands, self._progress = runs, hands, progress

    def __call__(self, plan: Plan, now: Round) -> Sequence[Row]:
        (job,) = plan.jobs
        store = MemoryStore() if self._runs is None else FolderStore(self._runs / job.name)
        what = f"between points, round {now.number}" if now.number else "the grid"
        after = f"; up to {now.most_after:,} more to come" if now.most_after else ""
        tell = telling(lambda words: self._progress(f"{what}: {words}{after}"), "runs")
        begun = isinstance(self._hands, KeptHands) and self._hands.have_begun
        few = job.count <= _FEW and not begun
        run(plan, store, LocalHands(1) if few else self._hands, tell)
        if refused := store.refused(job):
            raise InputError(refused)
        table = store.table(job)
        return [table.row(place) for place in range(len(table.numbers))]
