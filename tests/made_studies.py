"""Studies whose samples cost nothing, and tell that they were run."""

import math
import os
import signal
import sys
import time
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from kinematics.checks import InputError, NotConverged
from kinematics.engine.folder_store import FolderStore
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.plan import Job, Plan
from kinematics.engine.run import run

COLUMNS = {"count": "int", "gap, mm": "float", "what guides": "text", "contacts": "texts"}


@dataclass(frozen=True)
class Subject:
    """What a made job is about.

    Attributes
    ----------
    seed : int
        Makes its rows differ from those of others.
    log : str
        File that gets a line whenever something is run; none if empty.
    does : str
        What happens: "" nothing odd; "refused", "not converged" as it is prepared; "differs" from
        process to process; at the sample with number 5: "fails", "dies", "waits" (for ever).
    """

    seed: int = 0
    log: str = ""
    does: str = ""


@dataclass(frozen=True)
class Prepared:
    """A subject made ready."""

    subject: Subject
    scale: float


def note(subject, line):
    """Append a line to the log, whatever other processes write meanwhile."""
    if subject.log:
        file = os.open(subject.log, os.O_WRONLY | os.O_APPEND | os.O_CREAT)
        os.write(file, f"{subject.seed} {line} {os.getpid()}\n".encode())
        os.close(file)


def log_lines(log):
    """Return what was noted: (seed, what, process) in order."""
    path = Path(log)
    return [tuple(line.split()) for line in path.read_text().splitlines()] if path.exists() else []


def prepare(subject):
    """Make a subject ready, or refuse it."""
    note(subject, "prepared")
    if subject.does == "refused":
        raise InputError("these casts do not meet")
    if subject.does == "not converged":
        raise NotConverged("no closure was found", 0.5, 7)
    return Prepared(subject, 1.0 + subject.seed)


def sample(prepared, number):
    """Return a row that depends on everything, with numbers that are easily changed on the way."""
    subject = prepared.subject
    note(subject, str(number))
    if number == 5 and subject.does == "fails":
        raise ZeroDivisionError("no fifth sample")
    if number == 5 and subject.does == "dies":
        os.kill(os.getpid(), signal.SIGKILL)
    if number == 5 and subject.does == "waits":
        time.sleep(1e3)
    drawn = np.random.default_rng([subject.seed, number])
    odd = {0: math.nan, 1: -0.0, 2: math.inf, 3: 5e-324}
    pairs = [f"{16 + i}-{46 + i}" for i in range(drawn.integers(0, 4))]
    if subject.does == "differs":
        return dict(zip(COLUMNS, (os.getpid(), 0.0, "", ()), strict=True))
    return {
        "count": int(drawn.integers(-(2**62), 2**62)),
        "gap, mm": odd.get(number % 7, prepared.scale * drawn.normal()),
        "what guides": "" if number % 5 == 0 else f"canine {number} °",
        "contacts": pairs,
    }


def plan(jobs=1, count=20, log="", about="", does=(), prefix="case"):
    """Return a plan of some jobs; `does` says what happens in each."""
    made = tuple(
        Job(f"{prefix}-{i}", Subject(i, str(log), does[i] if does else ""), count, COLUMNS)
        for i in range(jobs)
    )
    return Plan({"seed": "1", "case": about or "a case\nof two lines"}, made, prepare, sample)


def bits(store, given):
    """Return all that is stored of a plan, so that equal means equal bits."""
    return [
        (
            job.name,
            store.refused(job),
            table.numbers.tobytes(),
            table.ints("count").tobytes(),
            table.floats("gap, mm").tobytes(),
            table.texts("what guides"),
            table.text_lists("contacts"),
        )
        for job in given.jobs
        for table in [store.table(job)]
    ]


def silent(_progress):
    """Tell nobody."""


def run_until_killed(folder, log, jobs, count, processes, operation):
    """Run a study in this process, which is killed before its n-th operation on files."""
    left = [operation]

    def watch(event, _arguments):
        if event in ("open", "os.rename", "os.remove", "os.mkdir"):
            left[0] -= 1
            if left[0] == 0:
                os.kill(os.getpid(), signal.SIGKILL)

    given = plan(jobs, count, log)
    sys.addaudithook(watch)
    run(given, FolderStore(folder), LocalHands(processes), silent)


def renamed(given, **about):
    """Return a plan about something else."""
    return replace(given, about={**given.about, **about})


if __name__ == "__main__":
    folder, log, jobs, count, processes, does = sys.argv[1:]
    run(
        plan(int(jobs), int(count), log, does=[does] * int(jobs)),
        FolderStore(folder),
        LocalHands(int(processes)),
        silent,
    )
