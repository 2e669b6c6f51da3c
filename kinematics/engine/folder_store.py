"""A study in a folder: what it is, and its samples as Parquet files, job by job."""

import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from kinematics.checks import InputError
from kinematics.engine.job_folder import JobFolder
from kinematics.engine.lock import LOCK_FILE, sole_writer
from kinematics.engine.plan import Job, Plan
from kinematics.engine.rows import PackedRow, Table
from kinematics.engine.same_study import Study, refuse_another_study, study_of
from kinematics.engine.sample_files import read_table
from kinematics.engine.whole_files import UNFINISHED, write_whole

STUDY_FILE: Final = "study.json"
#: Holds a folder a job.
SAMPLES: Final = "samples"
#: Says in the folder of a job why it cannot be run.
REFUSED_FILE: Final = "refused.txt"


class FolderStore:
    """Keeps samples in a folder; see `Store`.

    Every sample is on the disk as soon as it is added. Reading needs no lock: another process may
    be writing.

    Parameters
    ----------
    path : Path
        The folder: new, empty, or one that holds this study already.
    """

    def __init__(self, path: Path) -> None:
        self.path = Path(path)
        self._writing: dict[str, JobFolder] = {}
        self._notes: list[str] = []

    @property
    def notes(self) -> tuple[str, ...]:
        """Sentences on files that were found damaged, and what became of them."""
        return tuple(self._notes)

    @contextmanager
    def writing(self, plan: Plan) -> Iterator[None]:
        """Take samples of this plan as long as the block lasts; see `Store`.

        Raises
        ------
        InputError
            Another study lies in the folder, or something else does; another process is writing
            into it; or it cannot be written.
        """
        study = study_of(plan)
        self._refuse_strange()
        try:
            self.path.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise InputError(
                f"{self.path}: this folder cannot be made ({error.strerror}); give another"
            ) from error
        with sole_writer(self.path):
            self._begin(study)
            try:
                yield
            finally:
                self._writing.clear()

    def missing(self, job: Job) -> tuple[range, ...]:
        """Return the samples that are not there yet; none of a refused job."""
        return () if self.refused(job) else self._job_folder(job).missing()

    def add(self, job: Job, numbers: range, rows: Sequence[PackedRow]) -> None:
        """Keep samples: they are on the disk when this returns."""
        self._job_folder(job).add(numbers, rows)

    def refuse(self, job: Job, text: str) -> None:
        """Remember why a job cannot be run."""
        path = self._folder(job) / REFUSED_FILE
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(path, lambda unfinished: _write_text(unfinished, text))

    def table(self, job: Job) -> Table:
        """Return all samples of a job that are there.

        Raises
        ------
        InputError
            A file is damaged.
        """
        return read_table(self._folder(job), job)

    def refused(self, job: Job) -> str:
        """Return why a job cannot be run; empty where it can, or nobody tried."""
        try:
            return (self._folder(job) / REFUSED_FILE).read_text(encoding="utf-8")
        except FileNotFoundError:
            return ""

    def _folder(self, job: Job) -> Path:
        return self.path / SAMPLES / job.name

    def _job_folder(self, job: Job) -> JobFolder:
        if job.name not in self._writing:
            self._writing[job.name] = JobFolder(self._folder(job), job, self._notes.append)
        return self._writing[job.name]

    def _refuse_strange(self) -> None:
        """Refuse a file, or a folder that holds other things: nobody expects a study there."""
        if self.path.is_dir():
            names = {entry.name for entry in self.path.iterdir()}
            strange = STUDY_FILE not in names and names - {LOCK_FILE, STUDY_FILE + UNFINISHED}
        else:
            strange = {self.path.name} if self.path.exists() else set()
        if strange:
            raise InputError(
                f"{self.path}: is no folder of a study, and not empty; give a new or an empty one"
            )

    def _begin(self, study: Study) -> None:
        """Write down which study this is, or compare it with what was written down."""
        path = self.path / STUDY_FILE
        if path.exists():
            refuse_another_study(str(self.path), _read_study(path), study)
            return
        text = json.dumps(study, indent=1, ensure_ascii=False)
        write_whole(path, lambda unfinished: _write_text(unfinished, text), at_rest=True)


def _write_text(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def _read_study(path: Path) -> Study:
    try:
        study: Study = json.loads(path.read_text(encoding="utf-8"))
        if not {"format", "about", "columns", "jobs"} <= study.keys():
            raise ValueError("entries are missing")
    except (OSError, ValueError, AttributeError) as error:
        raise InputError(
            f"{path}: this file says which study lies here, and it cannot be read ({error}); give "
            "another folder"
        ) from error
    return study
