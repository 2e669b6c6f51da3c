"""Files that a page asks for: the full report, made in a process of its own, and the case file.

The process runs this interpreter and this installation, wherever the program was started: of the
folder one happens to stand in nothing is imported.
"""

import json
import os
import re
import subprocess
import sys
import tempfile
import threading
import unicodedata
from collections.abc import Generator, Iterator
from dataclasses import dataclass
from pathlib import Path
from queue import Empty, SimpleQueue
from typing import IO, Final

from kinematics.case import Case
from kinematics.case_file import case_toml
from kinematics.checks import InputError
from kinematics.checkup import kernels_for
from kinematics.contact.warm_up import is_first_run
from scenes.case_archive import write_whole_case
from scenes.case_words import setting_changes
from scenes.check_command import REPORT_FILE
from scenes.command_arguments import BAD_INPUT, FINISHED
from scenes.page_casts import OWN
from scenes.page_lane import Failed, Stale
from scenes.page_messages import GIVEN_CASE

CASE_FILE: Final = "case.toml"
CASE_ARCHIVE: Final = "case.zip"
_OUT: Final = "out"
_UNCHANGED: Final = "unchanged.toml"
#: Names of files stay about as short as those of built-in cases may be.
_LONGEST_STEM: Final = 60
#: Seconds since the start, and what is done.
_STEP: Final = re.compile(r"\d+\.\d s\s+(.+)")
#: What is done until the process says something itself, some seconds later.
_FIRST_STEP: Final = "getting ready"
_COMPILING: Final = "compiling the numerical kernels: only on the first run, one to three minutes"
#: Takes the path along which modules are found, then does what the command does.
_PROGRAM: Final = (
    "import json, sys; sys.path[:] = json.loads(sys.argv.pop(1)); "
    "from scenes.command_line import main; sys.exit(main())"
)
_NO_REPORT: Final = "the report could not be made; the terminal shows why"
#: Where this installation is, should the path along which modules are found not say it.
_ROOT: Final = str(Path(__file__).resolve().parent.parent)
#: How often a running process is looked after.
_LOOK_S: Final = 0.05
#: How long it may take to clear away what it had begun.
_PATIENCE_S: Final = 3.0


class ReportFailed(Failed):
    """The process that makes a report ended without one."""


@dataclass(frozen=True)
class Origin:
    """Which case of the page settings were changed of.

    Attributes
    ----------
    name : str
        What the page calls it.
    case : Case
        The case without changes.
    """

    name: str
    case: Case

    @property
    def stem(self) -> str:
        """How names of files begin: by its name, of a case file by its title."""
        if not self.name.startswith(GIVEN_CASE) and not self.name.startswith(OWN):
            return f"{self.name}_"
        plain = unicodedata.normalize("NFKD", self.case.title).encode("ascii", "ignore").decode()
        words = re.findall(r"[a-z0-9]+", plain.lower())
        return f"{'_'.join(words)[:_LONGEST_STEM].rstrip('_')}_" if words else ""


def write_case_file(case: Case, folder: Path, origin: Origin | None = None) -> None:
    """Write a case as the file that `cuspway check` takes; with all files that belong to it.

    With an origin the file is named after it and begins with comments that say what was changed.
    """
    stem = origin.stem if origin else ""
    told = _changes_told(case, origin) if origin else ""
    if (case.scans is not None or case.jaw_tracks) and origin is not None:
        write_whole_case(case, folder / f"{stem}{CASE_ARCHIVE}", told)
        return
    (folder / f"{stem}{CASE_FILE}").write_text(told + case_toml(case), "utf-8")


def _changes_told(case: Case, origin: Origin) -> str:
    """Return lines of comment with the settings that were changed; none where none were."""
    changed = setting_changes(case, origin.case)
    told = [f"Changed against: {origin.case.title}", *(item.text for item in changed)]
    return "".join(f"# {_in_one_line(text)}\n" for text in told) + "\n" if changed else ""


def _in_one_line(text: str) -> str:
    """Return text without what a comment must not hold."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def write_report(
    case: Case,
    folder: Path,
    threads: int,
    stop: threading.Event,
    origin: Origin | None = None,
) -> Iterator[str]:
    """Write the report that `cuspway check` makes of a case, and yield what it is doing.

    Parameters
    ----------
    case : Case
        The case.
    folder : Path
        Gets the report when it is ready.
    threads : int
        How many threads may compute.
    stop : threading.Event
        Ends the work when it is set.
    origin : Origin, optional
        Of which case settings were changed: the report says which, and is named after it.

    Raises
    ------
    Stale
        It was told to stop.
    InputError
        The case cannot be computed.
    ReportFailed
        There is no report; where in the process that arose is printed to stderr.
    """
    yield _COMPILING if is_first_run(more=kernels_for(case)) else _FIRST_STEP
    with tempfile.TemporaryDirectory(dir=folder) as workplace:
        write_case_file(case, Path(workplace))
        given = [CASE_FILE]
        if origin:
            Path(workplace, _UNCHANGED).write_text(case_toml(origin.case), "utf-8")
            given += ["--changed-from", _UNCHANGED]
        process = _started(["check", *given, "--out", _OUT], threads, workplace)
        try:
            told = yield from _steps(process, stop)
            if process.returncode == BAD_INPUT:
                raise InputError(told)
            if process.returncode != FINISHED:
                code = process.returncode
                told = f"cuspway: the process that makes the report ended with code {code}\n{told}"
                sys.stderr.write(f"{told.rstrip()}\n")
                raise ReportFailed(_NO_REPORT)
            Path(workplace, _OUT, REPORT_FILE).rename(
                folder / f"{origin.stem if origin else ''}{REPORT_FILE}"
            )
        finally:
            _end(process)


def _started(arguments: list[str], threads: int, workplace: str) -> subprocess.Popen[str]:
    """Start the command in a folder that has nothing to import."""
    found_along = [os.path.abspath(place) for place in sys.path if place]
    return subprocess.Popen(
        [
            *(sys.executable, "-P", "-c", _PROGRAM, json.dumps([*found_along, _ROOT])),
            *(*arguments, "--threads", str(threads), "--traceback"),
        ],
        cwd=workplace,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        errors="replace",
    )


def _steps(process: subprocess.Popen[str], stop: threading.Event) -> Generator[str, None, str]:
    """Yield what a process says it is doing until it ends; return what else it said."""
    lines: SimpleQueue[str | None] = SimpleQueue()
    threading.Thread(target=_read, args=[process.stderr, lines], daemon=True).start()
    told: list[str] = []
    while not stop.is_set():
        try:
            line = lines.get(timeout=_LOOK_S)
        except Empty:
            continue
        if line is None:
            process.wait()
            return "\n".join(told).removeprefix("cuspway: ")
        step = _STEP.fullmatch(line.strip())
        if step:
            yield step[1]
        else:
            told.append(line.rstrip())
    raise Stale


def _read(stream: IO[str], lines: SimpleQueue[str | None]) -> None:
    with stream:
        for line in stream:
            lines.put(line)
    lines.put(None)


def _end(process: subprocess.Popen[str]) -> None:
    """End a process that may still run."""
    if process.poll() is None:
        process.terminate()
        try:
            process.wait(_PATIENCE_S)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
