"""Samples run by processes of this machine: the same bits, and processes end as they should."""

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from dataclasses import replace

import numpy as np
import pytest

from kinematics.engine import local_hands
from kinematics.engine.folder_store import FolderStore
from kinematics.engine.hands import HandLost
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.run import run
from kinematics.engine.store import MemoryStore
from tests.fresh_python import ROOT
from tests.made_studies import COLUMNS, bits, log_lines, plan, sample, silent

PATIENCE_S = 60.0


def done_by(hands, given):
    """Return the bits of a study that some hands run."""
    store = MemoryStore()
    run(given, store, hands, silent)
    return bits(store, given)


def test_any_number_of_processes_gives_the_same_bits():
    """With NaN, signed zero, infinity and the smallest number among them."""
    given = plan(3, 30)
    alone = done_by(LocalHands(1), given)
    assert done_by(LocalHands(2), given) == alone
    assert done_by(LocalHands(5), given) == alone
    gaps = np.frombuffer(alone[0][4])
    assert np.isnan(gaps[0]) and np.signbit(gaps[1]) and gaps[1] == 0.0 and np.isinf(gaps[2])
    assert 0.0 < gaps[3] < 1e-323
    assert multiprocessing.active_children() == []


def test_every_process_prepares_a_job_once(tmp_path):
    """And has jobs of its own until there are no more; then it helps with one that is begun."""
    log = tmp_path / "log"
    done_by(LocalHands(2), plan(5, 20, log))
    prepared = [line for line in log_lines(log) if line[1] == "prepared"]
    assert 5 <= len(prepared) == len(set(prepared)) <= 6
    ran = sorted(line[:2] for line in log_lines(log) if line[1] != "prepared")
    assert ran == sorted((str(job), str(n)) for job in range(5) for n in range(20))


def test_no_more_processes_are_started_than_there_are_samples(tmp_path):
    """A single one is run in this process."""
    for count, here in ((1, True), (2, False)):
        log = tmp_path / str(count)
        done_by(LocalHands(64), plan(1, count, log))
        ran_in = {int(line[2]) for line in log_lines(log)}
        assert (ran_in == {os.getpid()}) is here
        assert len(ran_in) <= count


@pytest.mark.parametrize("processes", [1, 2])
def test_refused_jobs_do_not_hinder_others(processes):
    """Bits are those of any number of processes; what was said is kept."""
    given = plan(4, 12, does=["", "refused", "not converged", ""])
    store, told = MemoryStore(), []
    run(given, store, LocalHands(processes), told.append)
    assert store.refused(given.jobs[1]) == "these casts do not meet"
    assert [len(store.table(job).numbers) for job in given.jobs] == [12, 0, 0, 12]
    assert (told[0].done, told[0].total) == (0, 48)
    assert (told[-1].done, told[-1].total) == (24, 24)


@pytest.mark.parametrize("processes", [1, 2])
def test_an_error_of_a_sample_ends_the_study_and_the_rest_is_kept(tmp_path, processes):
    """It comes as it was raised; a process of its own adds where."""
    given = plan(1, 200, does=["fails"])
    store = FolderStore(tmp_path)
    with pytest.raises(ZeroDivisionError, match="no fifth sample") as raised:
        run(given, store, LocalHands(processes), silent)
    if processes == 2:
        assert "in sample" in raised.value.__notes__[0]
    kept = store.table(given.jobs[0]).numbers
    assert 5 not in kept
    assert kept.tolist() == [0, 1, 2, 3, 4] or processes == 2
    assert multiprocessing.active_children() == []


class TwoArgumentsError(Exception):
    """Cannot be made again from its message, as pickle would."""

    def __init__(self, one, other):
        super().__init__(f"{one} and {other}")


def raise_strange(_prepared, _number):
    """Raise what other processes cannot read."""
    raise TwoArgumentsError("this", "that")


def test_an_error_that_cannot_be_sent_is_told_all_the_same():
    """With its name, message and place."""
    given = replace(plan(1, 9), sample=raise_strange)
    with pytest.raises(RuntimeError, match="TwoArgumentsError: this and that"):
        done_by(LocalHands(2), given)


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ({"count": 1}, r"missing \['contacts', 'gap, mm', 'what guides'\]"),
        (dict.fromkeys([*COLUMNS, "more"], 1), r"not of its job \['more'\]"),
        ({"count": 1.5, "gap, mm": 0.0, "what guides": "", "contacts": ()}, "integer"),
        ({"count": 1, "gap, mm": None, "what guides": "", "contacts": ()}, "real number"),
        ({"count": 1, "gap, mm": 0.0, "what guides": 5, "contacts": ()}, "wanted a text"),
        ({"count": 1, "gap, mm": 0.0, "what guides": "", "contacts": "16"}, "several texts"),
        ({"count": 1, "gap, mm": 0.0, "what guides": "", "contacts": (16,)}, "wanted a text"),
    ],
)
def test_rows_must_be_what_their_job_says(row, told):
    """A fault of the function that made them, so no message to a user."""
    with pytest.raises(TypeError, match=told):
        done_by(LocalHands(1), replace(plan(1, 1), sample=lambda _prepared, _number: row))


@pytest.mark.skipif(os.name != "posix", reason="processes are killed by a signal here")
def test_a_process_that_dies_is_told(tmp_path):
    """How it ended, at which sample, what that mostly means and what to do."""
    given = plan(1, 200, does=["dies"])
    store = FolderStore(tmp_path)
    with pytest.raises(HandLost) as raised:
        run(given, store, LocalHands(2), silent)
    for words in (
        "ended by itself (SIGKILL) while it ran sample 5 of job 'case-0'",
        "found no memory left",
        "run the same study again with fewer processes",
    ):
        assert words in str(raised.value)
    assert multiprocessing.active_children() == []
    calm = plan(1, 200)
    run(calm, store, LocalHands(1), silent)
    assert bits(store, calm) == done_by(LocalHands(1), calm)


def test_what_progress_raises_stops_the_work(tmp_path):
    """At once, also while a sample waits for ever; processes end."""
    given = plan(1, 200, does=["waits"])
    store = FolderStore(tmp_path)
    told = []

    def stop_in_a_lull(progress):
        told.append(progress)
        if len(told) > 2 and told[-2].done == progress.done and progress.done >= 190:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run(given, store, LocalHands(2), stop_in_a_lull)
    assert multiprocessing.active_children() == []
    assert len(store.table(given.jobs[0]).numbers) == told[-1].done >= 190


@pytest.mark.skipif(os.name != "posix", reason="a signal is sent as a terminal does")
@pytest.mark.parametrize("processes", [1, 2])
def test_ctrl_c_stops_quickly_and_keeps_what_is_finished(tmp_path, processes):
    """A terminal sends it to all processes at once; none of them shows a traceback of its own."""
    folder, log = tmp_path / "study", tmp_path / "log"
    command = ["-m", "tests.made_studies", folder, log, "1", "1000000", str(processes), ""]
    with subprocess.Popen(
        [sys.executable, *map(str, command)], cwd=ROOT, start_new_session=True,
        env=os.environ | {"PYTHONPATH": str(ROOT)}, stderr=subprocess.PIPE, text=True,
    ) as process:  # fmt: skip
        try:
            begin = time.monotonic()
            while len(log_lines(log)) < 100:
                assert time.monotonic() - begin < PATIENCE_S
                time.sleep(0.01)
            os.killpg(process.pid, signal.SIGINT)
            _, words = process.communicate(timeout=PATIENCE_S)
        finally:
            with suppress(ProcessLookupError):
                os.killpg(process.pid, signal.SIGKILL)
    assert process.returncode != 0
    assert words.count("KeyboardInterrupt") == 1  # may come while another error is handled
    given = plan(1, 1_000_000)
    kept = FolderStore(folder).table(given.jobs[0]).numbers
    assert len(kept) > 50
    assert not list(folder.rglob("*.unfinished"))


def test_processes_use_one_thread_each():
    """Libraries are told before they are loaded; this process keeps its environment."""
    before = dict(os.environ)
    store = MemoryStore()
    given = replace(plan(1, 4), sample=tell_threads)
    run(given, store, LocalHands(2), silent)
    assert store.table(given.jobs[0]).texts("what guides") == ("1",) * 4
    assert dict(os.environ) == before


def tell_threads(prepared, number):
    """Return how many threads linear algebra may use."""
    told = os.environ.get("OPENBLAS_NUM_THREADS", "any")
    return {**sample(prepared, number), "what guides": told}


def test_a_job_is_sent_once_to_a_process(monkeypatch):
    """Its samples travel as their numbers alone."""
    made = []
    real = local_hands.ForkingPickler.dumps

    def dumps(thing):
        made.append(thing)
        return real(thing)

    monkeypatch.setattr(local_hands.ForkingPickler, "dumps", dumps)
    done_by(LocalHands(2), plan(4, 30))
    jobs = [thing[0] for thing in made if isinstance(thing, tuple)]
    assert 4 <= len(jobs) <= 5
